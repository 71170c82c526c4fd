"""The demo's workshop in a database, through the services that a maker's own presses call."""

from throwbench.demo.workshop.whole import build

__all__ = ["build"]
