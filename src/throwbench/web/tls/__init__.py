"""Https on the home network: a certificate authority of the workshop's own, and its door."""
