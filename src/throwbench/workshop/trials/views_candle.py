"""One test candle, read off its tag."""

from typing import Any

from django.forms import Form
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from throwbench.science.errors import UnclearError
from throwbench.science.units import mg_of
from throwbench.workshop.house.web import done, today_of
from throwbench.workshop.trials.forms_candle import FitOutForm, SlipForm, SwapForm
from throwbench.workshop.trials.models import TestCandle, Weighing
from throwbench.workshop.trials.selectors import candle_named
from throwbench.workshop.trials.selectors.candle_page import candle_page
from throwbench.workshop.trials.services.candles import fit_out, swap_tags
from throwbench.workshop.trials.services.weighed import put_weighing_right
from throwbench.workshop.trials.views_trials import by_of


@require_GET
def candle(request: HttpRequest, code: str) -> HttpResponse:
    """What it is, how it was poured, how it cures, what happened to it."""
    return _page(request, _named(code))


@require_POST
def swapped(request: HttpRequest, code: str) -> HttpResponse:
    """Two tags were swapped: each code stands for what the other was."""
    there, form = _named(code), SwapForm(request.POST)
    if done(form, lambda: _swap(request, there, form)):
        return redirect("trials:candle", there.code)
    return _page(request, there, swap_form=form)


@require_POST
def fitted(request: HttpRequest, code: str) -> HttpResponse:
    """Where it stands, in which single vessel, with which lot of wick."""
    there = _named(code)
    form = FitOutForm(there, request.POST)
    kept = {"wick_lot": there.wick_lot}
    if done(form, lambda: fit_out(there, **(kept | form.cleaned_data), **by_of(request))):
        return redirect("trials:candle", there.code)
    return _page(request, there, fit_form=form)


@require_http_methods(["GET", "POST"])
def slip(request: HttpRequest, code: str, weighing: int) -> HttpResponse:
    """A weighing that was typed wrongly: the first figure stays visible."""
    there = _named(code)
    wrong = Weighing.objects.filter(pk=weighing, pour=there.pour).first()
    if wrong is None:
        raise Http404
    form = SlipForm(request.POST or None)
    if request.method == "POST" and done(form, lambda: _put_right(request, wrong, form)):
        return redirect("trials:candle", there.code)
    shown = {"candle": there, "trial": there.combination.candidate.trial, "weighing": wrong}
    return render(request, "trials/slip.html", {**shown, "form": form})


def _named(code: str) -> TestCandle:
    found = candle_named(code)
    if found is None:
        raise Http404
    return found


def _page(request: HttpRequest, there: TestCandle, **forms: Form) -> HttpResponse:
    shown: dict[str, Any] = {
        "candle": there,
        "trial": there.combination.candidate.trial,
        "page": candle_page(there, today_of(request)),
        "swap_form": SwapForm(),
        "fit_form": FitOutForm(there),
        **forms,
    }
    return render(request, "trials/candle.html", shown)


def _swap(request: HttpRequest, there: TestCandle, form: SwapForm) -> None:
    code = form.cleaned_data["other"].strip().upper()
    other = candle_named(code)
    if other is None:
        raise UnclearError(
            f"No test candle has the code {code}.",
            "Two candles of one trial can be swapped.",
            "Read the code off the tag once more.",
        )
    swap_tags(there, other, why=form.cleaned_data["why"], **by_of(request))


def _put_right(request: HttpRequest, wrong: Weighing, form: SlipForm) -> None:
    mg = mg_of(form.cleaned_data["grams"]) or 0
    put_weighing_right(wrong, mg=mg, why=form.cleaned_data["why"], **by_of(request))
