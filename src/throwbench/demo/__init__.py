"""The demo: an invented workshop, an invented trial, and what is planted in it."""

from throwbench.demo.trial import DEFAULT_SEED, Example, generate

__all__ = ["DEFAULT_SEED", "Example", "generate"]
