"""The line: judgements that are kept, and decisions."""
