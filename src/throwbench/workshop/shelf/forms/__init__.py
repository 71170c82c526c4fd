"""What the shelf asks. An empty box is "not known"."""
