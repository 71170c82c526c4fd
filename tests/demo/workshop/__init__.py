"""A package, so that the demo is taken back before other tests begin."""
