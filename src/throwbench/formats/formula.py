"""Text that a spreadsheet would take for a formula, and the apostrophe that keeps it from that."""

STARTS = ("=", "+", "-", "@", "\t", "\r")


def guarded(text: str) -> str:
    """Text that a spreadsheet shows and does not work out; `unguarded` takes it back."""
    return f"'{text}" if text.lstrip("'").startswith(STARTS) else text


def unguarded(text: str) -> str:
    """Text without the apostrophe that `guarded` has put in front."""
    return text[1:] if text.startswith("'") and guarded(text) != text else text
