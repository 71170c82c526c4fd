"""Photos on pages of burns: `{% photo_form burn %}`, `{% burn_photos burn now %}`."""

from datetime import datetime
from typing import Any

from django import template

from throwbench.workshop.house.forms import EntryForm
from throwbench.workshop.trials.models import Burn
from throwbench.workshop.trials.selectors.photos import may_be_added, photos_of

register = template.Library()


@register.inclusion_tag("trials/photo_form.html")
def photo_form(burn: Burn) -> dict[str, Any]:
    """The form to which a `photo_add.html` on the same page belongs; it stands in no other form."""
    return {"burn": burn, "entry": EntryForm(auto_id=False)["entry"]}


@register.inclusion_tag("trials/burn_photos.html")
def burn_photos(burn: Burn, now: datetime) -> dict[str, Any]:
    """The photos of a burn, and one more where it may still be taken."""
    return {"burn": burn, "photos": photos_of(burn), "may_be_added": may_be_added(burn, now)}
