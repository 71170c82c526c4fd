"""Pages that open without the network: whose they are, which are kept, and the worker's script."""
