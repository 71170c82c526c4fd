"""What a maker does in a trial: one function each, the only writers."""
