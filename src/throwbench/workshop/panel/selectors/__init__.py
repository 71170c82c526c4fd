"""What the panel knows: scores as records, and who still sits."""

from throwbench.workshop.panel.selectors.scores import scores_of
from throwbench.workshop.panel.selectors.sittings import OpenSitting, open_sittings, sittings_of

__all__ = ["OpenSitting", "open_sittings", "scores_of", "sittings_of"]
