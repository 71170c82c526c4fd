"""The alarm: what is due, this machine's own sound, how far all of it can be trusted."""
