"""Burn and sniff: the burns of a trial, one burn, slips put right, and the burn sheet."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_GET, require_http_methods

from throwbench.documents.burn_sheet import burn_sheet as set_burn_sheet
from throwbench.workshop.house.web import done, now_of, today_of, who_of, workshop_of
from throwbench.workshop.trials.asking import QuestionsError
from throwbench.workshop.trials.forms_asked import with_guess
from throwbench.workshop.trials.forms_burn import AfterForm, AskedForm, SlipForm
from throwbench.workshop.trials.models import Burn, Check, Trial
from throwbench.workshop.trials.selectors.burn_pages import burns_page, log_of
from throwbench.workshop.trials.selectors.burn_paper import burn_sheet_of
from throwbench.workshop.trials.services import burn as burning

either = require_http_methods(["GET", "POST"])


@require_GET
def burns(request: HttpRequest, pk: int) -> HttpResponse:
    """How far each candle is burned, and what its limits wait for."""
    trial = get_object_or_404(Trial, pk=pk)
    page = burns_page(trial, day=today_of(request), number=request.GET.get("page", ""))
    return render(request, "trials/burns.html", {"trial": trial, "page": page})


@require_GET
def burn_sheet(request: HttpRequest, pk: int) -> HttpResponse:
    """A sheet to write on beside the candles."""
    trial = get_object_or_404(Trial, pk=pk)
    sheet = burn_sheet_of(trial, here=workshop_of(request), day=today_of(request))
    if not sheet.candles:
        return redirect("trials:burns", pk)
    pdf = HttpResponse(set_burn_sheet(sheet), content_type="application/pdf")
    pdf["Content-Disposition"] = 'inline; filename="burn-sheet.pdf"'
    return pdf


@either
def burn(request: HttpRequest, pk: int) -> HttpResponse:
    """One burn with its checks, and what is noted once it is cold."""
    row = _burn(pk)
    data = with_guess(request.POST) if request.method == "POST" else None
    form = AfterForm(row, data)
    if data is not None and written(form, lambda: _note_after(request, row, form)):
        return redirect("trials:burn", pk)
    return render(request, "trials/burn.html", {"log": log_of(row), "form": form})


@either
def burn_slip(request: HttpRequest, pk: int) -> HttpResponse:
    """A slip of the pen in a burn."""
    row = _burn(pk)
    return _slip(request, row, row)


@either
def check_slip(request: HttpRequest, pk: int) -> HttpResponse:
    """A slip of the pen in a check."""
    row = get_object_or_404(Check.objects.select_related("burn"), pk=pk)
    row.burn = _burn(row.burn_id)
    return _slip(request, row, row.burn)


def _slip(request: HttpRequest, row: Burn | Check, burn: Burn) -> HttpResponse:
    data = with_guess(request.POST) if request.method == "POST" else None
    form = SlipForm(row, data)
    if data is not None and written(form, lambda: _put_right(request, row, form)):
        return redirect("trials:burn", burn.pk)
    return render(request, "trials/slip_burn.html", {"row": row, "burn": burn, "form": form})


def written(form: AskedForm, write: Callable[[], object]) -> bool:
    """Whether it was noted; questions stand in the form."""

    def ask_back() -> None:
        try:
            write()
        except QuestionsError as error:
            form.questions = error.questions

    return done(form, ask_back) and not form.questions


def _note_after(request: HttpRequest, row: Burn, form: AfterForm) -> Burn:
    return burning.note_after(row, **form.told(), who=who_of(request), now=now_of(request))


def _put_right(request: HttpRequest, row: Burn | Check, form: SlipForm) -> object:
    told = {**form.cleaned_data, "who": who_of(request), "now": now_of(request)}
    if isinstance(row, Burn):
        return burning.put_burn_right(row, **told)
    return burning.put_check_right(row, **told)


def _burn(pk: int) -> Burn:
    found = Burn.objects.select_related(
        "candle__combination__vessel", "candle__combination__candidate__trial", "room"
    )
    return get_object_or_404(found, pk=pk)
