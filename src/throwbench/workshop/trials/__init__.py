"""Trials: candidates, test candles, pours, cure and burns."""
