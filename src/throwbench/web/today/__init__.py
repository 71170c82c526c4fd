"""Today: what is due, in the order of the clock, lit candles first."""
