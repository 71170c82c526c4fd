"""Lighting: codes first, then kind, room, trim and mass."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from throwbench.rules.limit import figure_of, limits_on
from throwbench.verdict.burn_report import cautions
from throwbench.workshop.house.selectors import house_limits
from throwbench.workshop.house.web import done, now_of, today_of, who_of
from throwbench.workshop.trials.asking import QuestionsError
from throwbench.workshop.trials.forms_asked import with_guess
from throwbench.workshop.trials.forms_light import CodesForm, LightForm
from throwbench.workshop.trials.selectors.light_page import to_light
from throwbench.workshop.trials.services.together import light_together


@require_http_methods(["GET", "POST"])
def light(request: HttpRequest) -> HttpResponse:
    """Without candles in the address it asks which; with them, how they are lit."""
    codes = CodesForm(request.GET)
    if not codes.is_valid() or not codes.found:
        return _which(request, codes)
    data = with_guess(request.POST) if request.method == "POST" else None
    form = LightForm(codes.found, now=now_of(request), data=data)
    if data is not None and done(form, lambda: _light(request, form)) and not form.questions:
        return redirect("trials:round")
    shown = {"form": form, "candles": codes.found, "cautions": _cautions(request)}
    return render(request, "trials/light.html", shown)


def _which(request: HttpRequest, codes: CodesForm) -> HttpResponse:
    trial = request.GET.get("trial", "")
    is_number = trial.isdecimal() and len(trial) < 16
    asked = bool(request.GET.keys() & {"candle", "codes"})
    shown = {
        "page": to_light(today_of(request), trial=int(trial) if is_number else None),
        "codes": codes,
        "nothing": asked and codes.is_valid() and not codes.found,
    }
    return render(request, "trials/light_which.html", shown)


def _light(request: HttpRequest, form: LightForm) -> None:
    """All of them or none; what is asked stands in the form."""
    try:
        light_together(
            form.candles_told(), **form.alike(), who=who_of(request), now=now_of(request)
        )
    except QuestionsError as error:
        form.questions = error.questions


def _cautions(request: HttpRequest) -> tuple[str, ...]:
    limits = limits_on(today_of(request), house=house_limits())
    return cautions(spacing_mm=figure_of("spacing", limits))[:2]
