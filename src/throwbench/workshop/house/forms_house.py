"""What the house asks: how it begins, people, rooms, settings, limits."""

from functools import cache
from pathlib import Path
from typing import Any
from zoneinfo import available_timezones

from django import forms

from throwbench.workshop.house.forms import FigureField
from throwbench.workshop.house.forms_change import ChangeForm
from throwbench.workshop.house.models import Person, Role, Room, RoomKind, Units, Workshop
from throwbench.workshop.house.selectors import LimitShown, may_let_in

UNITS_HELP = "How figures are shown. “3 oz” and “85 g” are both read wherever a weight is asked."
READ_UNITS = ("mm", "°C", "h")
"""Units of rules that can be typed with a figure; seconds come as a bare number."""
LOCAL_TIME = Path("/etc/localtime")
ROOM_HELP = "As in “kitchen”; kept as a living room. Can stay empty until the first nose burn."
ZONE_HELP = "Burn hours and cure days follow this clock."


@cache
def zones() -> list[tuple[str, str]]:
    """All zones by region and city; those of Europe first."""
    with_region = [zone for zone in available_timezones() if "/" in zone]
    ordered = sorted(with_region, key=lambda zone: (not zone.startswith("Europe/"), zone))
    shown = [zone for zone in ordered if not zone.startswith(("Etc/", "posix/", "right/"))]
    return [("", "choose one"), *((zone, zone) for zone in [*shown, "UTC"])]


def zone_here() -> str:
    """The zone this machine is set to; empty where it does not tell."""
    _, mark, zone = str(LOCAL_TIME.resolve()).partition("/zoneinfo/")
    return zone if mark and (zone, zone) in zones() else ""


class LongList(forms.Select):
    """A list of hundreds, drawn by one template: one for each takes twice as long."""

    template_name = "house/long_list.html"


class BeginForm(forms.Form):
    name = forms.CharField(label="Name of the workshop", max_length=80)
    owner_name = forms.CharField(label="Your own name", max_length=80)
    zone = forms.ChoiceField(
        label="Time zone",
        choices=zones,
        initial=zone_here,
        help_text=ZONE_HELP,
        widget=LongList,
    )
    units = forms.ChoiceField(label="Units", choices=Units, help_text=UNITS_HELP)
    room = forms.CharField(
        label="A room to sniff in", max_length=60, required=False, help_text=ROOM_HELP
    )


class PersonForm(forms.Form):
    name = forms.CharField(label="Name", max_length=80, help_text="As it stands in “Whose nose?”")
    role = forms.ChoiceField(
        label="Role",
        choices=Role,
        initial=Role.ASSESSOR,
        help_text="Owner and helper see all pages; an assessor sees the own sittings only.",
    )


DOOR = {"": None, "yes": True, "no": False}


class RoomForm(ChangeForm):
    name = forms.CharField(label="Name", max_length=60)
    kind = forms.ChoiceField(
        label="Kind", choices=RoomKind, help_text="The right strength is set per kind of room."
    )
    has_door = forms.TypedChoiceField(
        label="Door that shuts",
        choices=[("", "not known"), ("yes", "yes"), ("no", "no")],
        coerce=DOOR.__getitem__,
        empty_value=None,
        required=False,
    )
    airing_h = FigureField(
        label="Airing between nose burns",
        unit="h",
        possible=(0, 72),
        required=False,
        help_text="How long the window stands open before the next candle. Empty is not known.",
    )

    @classmethod
    def of(cls, room: Room, sent: Any = None) -> "RoomForm":
        """The form with what is known of a room."""
        door = {value: word for word, value in DOOR.items()}[room.has_door]
        known = {"name": room.name, "kind": room.kind, "airing_h": room.airing_h}
        return cls(sent, known={**known, "has_door": door})


class SettingsForm(ChangeForm):
    name = forms.CharField(label="Name of the workshop", max_length=80)
    zone = forms.ChoiceField(label="Time zone", choices=zones, help_text=ZONE_HELP, widget=LongList)
    units = forms.ChoiceField(label="Units", choices=Units, help_text=UNITS_HELP)

    @classmethod
    def of(cls, here: Workshop, sent: Any = None) -> "SettingsForm":
        return cls(sent, known={name: getattr(here, name) for name in cls.base_fields})


class LimitForm(ChangeForm):
    """The maker's own figure of one rule; empty, the shipped one holds."""

    def __init__(self, limit: LimitShown, sent: Any = None) -> None:
        super().__init__(sent)
        unit = limit.rule.unit
        self.fields["value"] = FigureField(
            label=f"Own figure: {limit.rule.compare}",
            unit=unit if unit in READ_UNITS else "",
            shown_unit=unit,
            required=False,
            initial=limit.own,
            help_text="Empty: no figure of your own; the shipped one holds.",
        )
        self.stands_as({"value": limit.own})


class PhoneForm(forms.Form):
    person = forms.ModelChoiceField(
        Person.objects.none(), label="Who comes in", empty_label=None, required=True
    )

    def __init__(self, who: Person, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        field = self.fields["person"]
        assert isinstance(field, forms.ModelChoiceField)
        field.queryset = may_let_in(who)
