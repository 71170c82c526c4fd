"""What the shelf knows, as pages show it."""
