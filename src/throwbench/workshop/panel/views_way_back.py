"""The way back from a phone that went round."""

from datetime import timedelta

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from throwbench.workshop.house.web import now_of
from throwbench.workshop.panel import handing
from throwbench.workshop.panel.forms_score import WayBackForm
from throwbench.workshop.panel.models import Panel
from throwbench.workshop.panel.road import PANEL


@login_not_required
@require_http_methods(["GET", "POST"])
def way_back(request: HttpRequest) -> HttpResponse:
    """Four digits; the right ones sign the maker in again."""
    if PANEL not in request.session:
        return redirect("/")
    panel = Panel.objects.get(pk=request.session[PANEL])
    form = WayBackForm(request.POST or None)
    tried = handing.state(request, now_of(request))
    if request.method == "POST" and form.is_valid():
        tried = handing.take_back(request, form.cleaned_data["code"], now_of(request))
        if tried.person is not None:
            return redirect("panel:panel", panel.trial_id, panel.pk)
        if tried.wait_until is None:
            form.add_error("code", "These are not the four digits. Try the ones you were shown.")
    shown = {"form": form, "tried": tried, "wait_min": handing.WAIT // timedelta(minutes=1)}
    return render(request, "panel/way_back.html", shown)
