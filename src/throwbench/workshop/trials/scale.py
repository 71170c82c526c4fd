"""The scale of the workshop: its step, and what it can show of a weight."""

from throwbench.science.dose import on_scale
from throwbench.science.load import Mix, mix_for_wax
from throwbench.science.units import grams_of, mg_of
from throwbench.workshop.trials.models import Weighing

USUAL_STEP_MG = 100
"""Step of a scale before one was ever noted: 0.1 g."""


def last_step_mg() -> int:
    """The step of the scale that was noted last."""
    noted = Weighing.objects.exclude(scale_step_mg=None).order_by("-pk")
    return noted.values_list("scale_step_mg", flat=True).first() or USUAL_STEP_MG


def shown_g(weight_g: float, *, step_mg: int) -> float:
    """The weight as the scale shows it; what is too little for it stands to the milligram [g]."""
    return on_scale(weight_g, step_g=grams_of(step_mg)) or grams_of(mg_of(weight_g))


def weighable(mix: Mix, *, step_mg: int) -> Mix:
    """The mix as it is weighed: first the wax as the scale shows it, then the oil for that wax."""
    wax_g = shown_g(mix.wax_g, step_mg=step_mg)
    oil_g = mix_for_wax(wax_g=wax_g, load_percent=mix.load_percent).oil_g
    return Mix(wax_g=wax_g, oil_g=shown_g(oil_g, step_mg=step_mg), load_percent=mix.load_percent)
