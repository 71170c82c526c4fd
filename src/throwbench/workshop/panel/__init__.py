"""The panel: sittings, sniffs and scores, asked blind."""
