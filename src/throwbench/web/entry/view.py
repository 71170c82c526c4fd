"""What a page asks before it sends what it kept: who is let in here, and the form's key."""

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, JsonResponse
from django.middleware.csrf import get_token
from django.utils import timezone
from django.views.decorators.http import require_GET

from throwbench.web.entry import answer
from throwbench.web.entry.keys import key_of, may_send


@login_not_required
@require_GET
def hello(request: HttpRequest) -> JsonResponse:
    """Whose pages these are, whose entries may be sent, the key of forms, the server's clock."""
    key = key_of(request)
    if not key:
        return answer.refused(answer.SIGN_IN, None)
    waiting = request.GET.getlist("key")
    return JsonResponse(
        {
            "key": key,
            "mine": [one for one in waiting if may_send(request, one)],
            "token": get_token(request),
            "now": round(timezone.now().timestamp() * 1000),
        }
    )
