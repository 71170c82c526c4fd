"""A form that came back: what stands at its top, and which box is ready to be typed in."""

from dataclasses import dataclass
from typing import Any

from django import forms, template

register = template.Library()
CHOSEN_FROM = (forms.RadioSelect, forms.CheckboxSelectMultiple)
"""Many boxes under one name; an attribute would stand on each of them."""


@dataclass(frozen=True, slots=True)
class WrongBox:
    label: str
    there: str
    """The id that leads to the box."""


@register.inclusion_tag("wrong.html")
def wrong(form: forms.BaseForm) -> dict[str, Any]:
    """The boxes that need a hand, and what belongs to none; has to stand before the boxes."""
    fields = [form[name] for name in form.fields if name in form.errors]
    boxes = [field for field in fields if not field.is_hidden]
    unseen = [str(error) for field in fields if field.is_hidden for error in field.errors]
    return {
        "boxes": [WrongBox(str(field.label), _there(field)) for field in boxes],
        "sentences": [*map(str, form.non_field_errors()), *unseen],
        "is_ready": bool(boxes) and _make_ready(boxes[0]),
    }


def _there(field: forms.BoundField) -> str:
    return field.id_for_label or f"{field.auto_id}_0"


def _make_ready(field: forms.BoundField) -> bool:
    """The box has the cursor when the page opens; False where there is not one box only."""
    widget = field.field.widget
    if isinstance(widget, CHOSEN_FROM):
        return False
    first = widget.widgets[0] if isinstance(widget, forms.MultiWidget) else widget
    first.attrs["autofocus"] = True
    return True
