"""What a new panel needs: the day, what is asked, which candles in which rooms, who sits."""

from collections.abc import Sequence
from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from throwbench.records.attribute import KINDS
from throwbench.workshop.house.forms import EntryForm, FigureField
from throwbench.workshop.house.models import Person, Room
from throwbench.workshop.panel.models import Asks
from throwbench.workshop.panel.selectors.places import Place

OUT = ""
OFFERED = [(name, kind.offered) for name, kind in KINDS.items() if kind.offered]
CLEAN_AIR_HELP = "Between two candles. A sniff before that is taken too, and marked."


class PanelForm(EntryForm):
    """A room for each candle or blotter that takes part."""

    day = forms.DateField(
        label="Day",
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        error_messages={"invalid": "That is no day. A day of the calendar is read. Choose one."},
    )
    asks = forms.ChoiceField(label="What is asked", choices=OFFERED, initial=Asks.LIT)
    clean_air_min = FigureField(
        label="Clean air", unit="min", possible=(0, 240), initial=5, help_text=CLEAN_AIR_HELP
    )

    def __init__(
        self,
        places: Sequence[Place],
        rooms: Sequence[Room],
        people: Sequence[Person],
        *args: Any,
        blotter: bool = False,
        today: date,
        **options: Any,
    ) -> None:
        super().__init__(*args, **options)
        self.places, self.rooms = places, {str(room.pk): room for room in rooms}
        self.people = {str(person.pk): person for person in people}
        self.fields["day"].initial = today
        if blotter:
            self.fields["asks"] = forms.CharField(widget=forms.HiddenInput, initial=Asks.BLOTTER)
        choices = [(OUT, "not in this panel"), *((str(room.pk), room.name) for room in rooms)]
        for place in places:
            self.fields[place.field] = forms.ChoiceField(
                label=place.label,
                choices=choices,
                required=False,
                initial=str(place.room_pk or OUT),
                help_text=place.said,
            )
        self.fields["assessors"] = forms.MultipleChoiceField(
            label="Who sits",
            choices=[(key, person.name) for key, person in self.people.items()],
            widget=forms.CheckboxSelectMultiple,
            error_messages={
                "required": "Nobody is ticked. At least one assessor opens a panel. Tick one."
            },
        )

    def clean(self) -> dict[str, Any]:
        told = super().clean() or self.cleaned_data
        if not any(told.get(place.field) for place in self.places):
            raise ValidationError(
                "Nothing is sniffed. At least one takes part. Choose a room for it."
            )
        return told

    def seats(self) -> list[tuple[Any, Room]]:
        """Candle or oil and its room, for those that take part."""
        told = self.cleaned_data
        return [
            (place.what, self.rooms[told[place.field]])
            for place in self.places
            if told[place.field]
        ]

    def assessors(self) -> list[Person]:
        return [self.people[key] for key in self.cleaned_data["assessors"]]

    def once(self) -> list[forms.BoundField]:
        """What is said once for all."""
        return [self[name] for name in ("day", "asks", "clean_air_min") if not self[name].is_hidden]

    def rows(self) -> list[forms.BoundField]:
        return [self[place.field] for place in self.places]
