"""Throwbench: from test candles, burn notes and blind scores to an honest verdict."""

__version__ = "0.4.0"
