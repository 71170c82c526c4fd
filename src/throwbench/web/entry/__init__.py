"""Entries that a device kept until the workshop was reached: one door, one answer each."""
