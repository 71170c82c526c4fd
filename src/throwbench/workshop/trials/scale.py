"""The scales of the workshop: their steps, and what they can show of a weight."""

from dataclasses import dataclass

from throwbench.science.dose import on_scale
from throwbench.science.load import Mix, mix_for_wax
from throwbench.science.units import grams_of, mg_of
from throwbench.workshop.trials.models import Weighing

USUAL_STEP_MG = 100
"""Step of a scale before one was ever noted: 0.1 g."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """Of the scale for wax and of that for oil, which may be another one."""

    wax_mg: int
    oil_mg: int

    def of(self, what: str) -> int:
        """Of the scale for wax, or for oil."""
        return self.wax_mg if what == "wax" else self.oil_mg


def last_steps() -> Steps:
    """The steps that were noted last."""
    return Steps(wax_mg=_last("wax"), oil_mg=_last("oil"))


def _last(what: str) -> int:
    noted = Weighing.objects.filter(what=what).exclude(scale_step_mg=None).order_by("-pk")
    return noted.values_list("scale_step_mg", flat=True).first() or USUAL_STEP_MG


def shown_g(weight_g: float, *, step_mg: int) -> float:
    """The weight as the scale shows it; what is too little for it stands to the milligram [g]."""
    return on_scale(weight_g, step_g=grams_of(step_mg)) or grams_of(mg_of(weight_g))


def weighable(mix: Mix, *, steps: Steps) -> Mix:
    """The mix as it is weighed: first the wax as its scale shows it, then the oil for that wax."""
    wax_g = shown_g(mix.wax_g, step_mg=steps.wax_mg)
    oil_g = mix_for_wax(wax_g=wax_g, load_percent=mix.load_percent).oil_g
    oil_g = shown_g(oil_g, step_mg=steps.oil_mg)
    return Mix(wax_g=wax_g, oil_g=oil_g, load_percent=mix.load_percent)
