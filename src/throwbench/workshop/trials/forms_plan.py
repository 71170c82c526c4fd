"""What is asked of a plan."""

from typing import Any

from django import forms

from throwbench.science.units import mg_of
from throwbench.workshop.house.forms import FigureField
from throwbench.workshop.house.forms_change import ChangeForm
from throwbench.workshop.house.models import RoomKind
from throwbench.workshop.shelf.models import Fixing, FixingKind, Oil, Vessel, Wax, Wick
from throwbench.workshop.trials.models import Candidate, Trial
from throwbench.workshop.trials.models.plan import CandidateRole

SCALES = {"1-5": (1, 5), "1-7": (1, 7), "1-9": (1, 9), "1-10": (1, 10), "0-10": (0, 10)}
SEALED_HELP = (
    "Sealed, pages show codes and no oils until the sittings are closed, so that you too sniff "
    "without knowing."
)


class ListInput(forms.TextInput):
    """A box that offers what stands on the shelf, and takes anything else."""

    template_name = "trials/list_input.html"

    def __init__(self, names: Any) -> None:
        super().__init__(attrs={"autocomplete": "off"})
        self.names = names

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        context = super().get_context(name, value, attrs)
        return context | {"names": self.names(), "list": f"{name}_list"}


def wax_names() -> list[str]:
    return list(Wax.objects.values_list("name", flat=True))


def vessel_names() -> list[str]:
    return list(Vessel.objects.values_list("name", flat=True))


def wick_names() -> list[str]:
    return [str(wick) for wick in Wick.objects.all()]


def oil_names() -> list[str]:
    pairs = Oil.objects.values_list("name", "supplier__name")
    return [f"{name}, {supplier}" if supplier else name for name, supplier in pairs]


def fixings() -> list[tuple[str, str]]:
    """What stands on the shelf; a kind that is not there yet is made in passing."""
    there = list(Fixing.objects.all())
    missing = set(FixingKind.values) - {one.kind for one in there}
    named = [(str(one.pk), one.name) for one in there]
    return [("", "not known"), *named, *((kind, kind) for kind in sorted(missing))]


class DayInput(forms.DateInput):
    input_type = "date"

    def __init__(self) -> None:
        super().__init__(format="%Y-%m-%d")


class TrialForm(ChangeForm):
    """Question, number and date; what is set once for all candidates."""

    question = forms.CharField(
        label="The question",
        max_length=200,
        help_text="As you would ask it: “Which four of these nine oils join the line?”",
    )
    name = forms.CharField(label="Name of the trial", max_length=80)
    choose = forms.IntegerField(label="How many may join", min_value=1, initial=1)
    pour_on = forms.DateField(label="Pour on", required=False, widget=DayInput())
    decide_on = forms.DateField(
        label="Decide on",
        required=False,
        widget=DayInput(),
        help_text="Burns are planned back from this day.",
    )
    wax = forms.CharField(
        label="Wax",
        max_length=80,
        required=False,
        widget=ListInput(wax_names),
        help_text="A new name goes on the shelf; its wax card can be filled in later.",
    )
    vessel = forms.CharField(
        label="Vessel", max_length=80, required=False, widget=ListInput(vessel_names)
    )
    load_percent = FigureField(
        label="Load of wax",
        unit="%",
        shown_unit="% of wax",
        possible=(0.01, 40),
        required=False,
        help_text="Oil counted against the wax alone: 8 % of wax is 7.41 % of the total.",
    )
    fill_g = FigureField(
        label="Wax and oil in one vessel", unit="g", possible=(1, 50_000), required=False
    )
    residue_g = FigureField(
        label="Left in each pitcher", unit="g", possible=(0, 10_000), required=False
    )
    pot_residue_g = FigureField(
        label="Left in the pot", unit="g", possible=(0, 10_000), required=False
    )
    scale = forms.ChoiceField(
        label="Scale of the scores",
        choices=[(key, f"{low} to {high}") for key, (low, high) in SCALES.items()],
        initial="1-5",
        help_text="1 to 5 reads none, faint, clear, strong, overpowering.",
    )
    sealed = forms.TypedChoiceField(
        label="Sealed",
        choices=[("no", "no: names show"), ("yes", "yes: codes only")],
        coerce=lambda word: word == "yes",
        initial="no",
        help_text=SEALED_HELP,
    )

    def parts(self) -> list[tuple[str, list[forms.BoundField]]]:
        """What is asked first, and what may wait."""
        first = ("question", "name", "choose", "decide_on", "sealed")
        rest = [name for name in self.fields if name not in first]
        named = (("What is asked", first), ("Set once, for all candidates", rest))
        return [(head, [self[name] for name in names]) for head, names in named]

    @classmethod
    def of(cls, trial: Trial, sent: Any = None) -> "TrialForm":
        """The form with what is planned."""
        same = ("question", "name", "choose", "pour_on", "decide_on", "load_percent", "wax")
        known = {name: getattr(trial, name) for name in (*same, "vessel")}
        for name in ("fill", "residue", "pot_residue"):
            mg = getattr(trial, f"{name}_mg")
            known[f"{name}_g"] = None if mg is None else mg / 1000
        scale = f"{trial.scale_low}-{trial.scale_high}"
        sealed = "yes" if trial.sealed else "no"
        return cls(sent, known={**known, "scale": scale, "sealed": sealed})

    def facts(self) -> dict[str, Any]:
        """The fields of a trial, weights in mg; wax and vessel are left to their names."""
        told = self.cleaned_data
        low, high = SCALES[told["scale"]]
        plain = ("question", "name", "choose", "pour_on", "decide_on", "load_percent", "sealed")
        return {
            **{name: told[name] for name in plain},
            "fill_mg": mg_of(told["fill_g"]),
            "residue_mg": mg_of(told["residue_g"]),
            "pot_residue_mg": mg_of(told["pot_residue_g"]),
            "scale_low": low,
            "scale_high": high,
        }


class CandidateForm(forms.Form):
    """One oil, one line."""

    oil = forms.CharField(
        label="Oil",
        max_length=200,
        widget=ListInput(oil_names),
        help_text="One from the shelf, or a new one in a line: “Slate After Rain, Tarnholt”.",
    )
    group = forms.CharField(
        label="Theme",
        max_length=60,
        required=False,
        help_text="Of one theme at most one joins. Empty: no theme.",
    )
    role = forms.ChoiceField(
        label="As",
        choices=CandidateRole,
        help_text="A reference candle is scored beside them and never picked.",
    )


class WickForm(forms.Form):
    """A wick for one oil or for all of them, and what differs from the plan."""

    candidate = forms.ModelChoiceField(
        Candidate.objects.none(), label="For", required=False, empty_label="all oils without a wick"
    )
    wick = forms.CharField(
        label="Wick",
        max_length=80,
        widget=ListInput(wick_names),
        help_text="Series and size, as in “flat cotton 4”; the size alone where one series has it.",
    )
    fixing = forms.ChoiceField(label="Fixing", choices=fixings, required=False)
    wax = forms.CharField(label="Wax", max_length=80, required=False, widget=ListInput(wax_names))
    vessel = forms.CharField(
        label="Vessel", max_length=80, required=False, widget=ListInput(vessel_names)
    )
    load_percent = FigureField(
        label="Load of wax", unit="%", shown_unit="% of wax", possible=(0.01, 40), required=False
    )

    def __init__(self, trial: Trial, *args: Any, **options: Any) -> None:
        known = {"wax": trial.wax, "vessel": trial.vessel, "load_percent": trial.load_percent}
        told = options.pop("initial", {})
        options["initial"] = {name: value for name, value in known.items() if value} | told
        super().__init__(*args, **options)
        field = self.fields["candidate"]
        assert isinstance(field, forms.ModelChoiceField)
        field.queryset = trial.candidates.select_related("oil")
        for name in known:
            self.fields[name].required = True


class BandForm(forms.Form):
    """What hot throw is right."""

    room_kind = forms.ChoiceField(
        label="Rooms", choices=[("", "all rooms"), *RoomKind.choices], required=False
    )
    low = FigureField(label="Right from", possible=(0, 10))
    high = FigureField(label="Right to", possible=(0, 10))


class WhyForm(forms.Form):
    """A reason, in a few words."""

    why = forms.CharField(label="Why", max_length=300)
