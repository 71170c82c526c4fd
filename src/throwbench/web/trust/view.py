"""The page that shows how a device trusts this workshop, and the certificate it trusts."""

from urllib.parse import urlsplit

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from throwbench.web.tls.authority import Authority


@login_not_required
@require_GET
def page(request: HttpRequest) -> HttpResponse:
    """Step by step, for each system. Open to everybody: who asks is not in yet."""
    shown = {"authority": settings.AUTHORITY, "https": _https(request), "ours": _ours(request)}
    return render(request, "trust/page.html", shown)


@login_not_required
@require_GET
def certificate(request: HttpRequest, mark: str) -> HttpResponse:
    """The authority's certificate; its key is nobody's to have."""
    authority: Authority | None = settings.AUTHORITY
    if authority is None or mark != authority.mark:
        raise Http404
    answer = HttpResponse(authority.der, content_type="application/x-x509-ca-cert")
    answer.headers["Content-Disposition"] = f'attachment; filename="{authority.file_name}"'
    return answer


def _https(request: HttpRequest) -> tuple[str, ...]:
    """Addresses over https; the one with the name by which this page was reached stands first."""
    name = urlsplit(f"//{request.get_host()}").hostname
    found = [one for one in settings.NETWORK_ADDRESSES if one.startswith("https:")]
    return tuple(sorted(found, key=lambda one: urlsplit(one).hostname != name))


def _ours(request: HttpRequest) -> bool:
    """Whether this page came over https: then this device trusts the workshop already."""
    return request.is_secure()
