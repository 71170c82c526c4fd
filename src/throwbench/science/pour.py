"""Everything that can be worked out about one pour, from what is known of it."""

from dataclasses import dataclass

from throwbench.records import Pour
from throwbench.science.batch import Batch, Recorded, Weighed, batch, recorded, weighed
from throwbench.science.dose import Blend, Dose, blend, dose
from throwbench.science.errors import UnclearError, in_range
from throwbench.science.fill import VesselFill, vessel_fill
from throwbench.science.load import (
    BENCH,
    Load,
    Mix,
    below_card,
    load_on_both_bases,
    mix_for_total,
    mix_for_wax,
)
from throwbench.science.words import FIRE_LINE, plain

CARE = (
    "Never leave melting wax, and keep it below the wax card's maximum temperature; local rules "
    "stand above this.",
    FIRE_LINE,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PourAnswer:
    """What could be worked out; None where nothing was asked or known."""

    load: Load | None
    fill: VesselFill | None
    batch: Batch | None
    mix: Mix | None
    weighed: Weighed | None
    dose: Dose | None
    blend: Blend | None
    recorded: Recorded | None
    cautions: tuple[str, ...]

    def sentences(self, *, ounces: bool = False) -> tuple[str, ...]:
        """One per part, in the order of the work; `ounces` sets them beside the grams."""
        said = [] if self.load is None else [self.load.sentence()]
        # Beside a batch or a weighing the plan is said already, as its pitcher or its target.
        mix = None if self.batch or self.weighed else self.mix
        parts = (self.fill, self.batch, mix, self.weighed, self.dose, self.blend, self.recorded)
        said += [part.sentence(ounces=ounces) for part in parts if part is not None]
        return (*said, *self.cautions)

    def sentence(self) -> str:
        return " ".join(self.sentences())

    def sums_g(self) -> tuple[tuple[str, float], ...]:
        """The weights to read off at the bench, each with its name."""
        rows: list[tuple[str, float | None]] = [
            ("mix in one vessel", self.fill.fill_g if self.fill else None),
            ("wax to melt", self.batch.wax_to_melt_g if self.batch else None),
            ("wax in one pitcher", self.pitcher.wax_g if self.pitcher else None),
            ("oil in one pitcher", self.pitcher.oil_g if self.pitcher else None),
            ("mix in one pitcher", self.pitcher.total_g if self.pitcher else None),
            ("oil as the scale shows it", self.dose.shown_g if self.dose else None),
        ]
        if self.blend:
            rows += [(f"of it {part.oil}", part.oil_g) for part in self.blend.parts]
        if self.recorded:
            rows += [("oil poured in", self.recorded.mix.oil_g)]
        return tuple((name, value) for name, value in rows if value is not None)

    @property
    def pitcher(self) -> Mix | None:
        """Wax and oil of one pitcher: as weighed where it was, else as planned."""
        return self.weighed.mix if self.weighed else self.mix


def work_out(pour: Pour) -> PourAnswer:
    """Everything that the entries of one pour allow.

    Raises
    ------
    UnclearError
        Where the amount is given twice, something that is needed is missing, or an entry is of no
        use to any other.
    OutOfRangeError
        Where an entry is outside its limits, or the load above the wax card's maximum.

    Notes
    -----
    The amount is one of: wax, total, vessels with their fill. A fill worked out from water stands
    in for a fill that is not given. Nothing but a load: both bases.

    Checked against: definition (LF021-LF025).
    """
    _asked_once(pour)
    _nothing_ignored(pour)
    load = _load(pour)
    fill = _fill(pour)
    sums = _batch(pour, load, fill)
    mix = sums.pitcher if sums else _mix(pour, load, fill)
    really = _weighed(pour, load, mix)
    pitcher = really.mix if really else mix
    return PourAnswer(
        load=load,
        fill=fill,
        batch=sums,
        mix=mix,
        weighed=really,
        dose=_dose(pour, pitcher),
        blend=_blend(pour, pitcher),
        recorded=_recorded(pour, pitcher),
        cautions=_cautions(pour, pitcher),
    )


def _load(pour: Pour) -> Load | None:
    if pour.load_percent is None:
        return None
    load = load_on_both_bases(percent=pour.load_percent, basis=pour.basis)
    if pour.card_maximum_percent is not None:
        below_card(load_percent=load.of_wax_percent, card_maximum_percent=pour.card_maximum_percent)
    return load


def _fill(pour: Pour) -> VesselFill | None:
    if pour.water_g is None:
        return None
    if pour.density_g_ml is None:
        raise _missing(
            "The vessel was weighed with water, but the density of the wax is missing",
            "density of the wax",
        )
    return vessel_fill(
        water_g=pour.water_g,
        density_g_ml=pour.density_g_ml,
        water_c=pour.water_c,
        inside_mm=pour.inside_mm,
        solid_g_ml=pour.solid_g_ml,
    )


def _batch(pour: Pour, load: Load | None, fill: VesselFill | None) -> Batch | None:
    if pour.vessels is None:
        return None
    fill_g = pour.fill_g if pour.fill_g is not None or fill is None else fill.fill_g
    if fill_g is None:
        raise _missing("The number of vessels is known, but not what goes into one", "fill")
    return batch(
        vessels=pour.vessels,
        fill_g=fill_g,
        load_percent=_needed(load),
        residue_g=pour.residue_g,
        oils=pour.oils,
        pot_residue_g=pour.pot_residue_g,
    )


def _mix(pour: Pour, load: Load | None, fill: VesselFill | None) -> Mix | None:
    if pour.wax_g is not None:
        return (
            None
            if _only_recorded(pour)
            else mix_for_wax(wax_g=pour.wax_g, load_percent=_needed(load))
        )
    total_g = next((value for value in (pour.total_g, pour.fill_g) if value is not None), None)
    if total_g is not None:
        return mix_for_total(total_g=total_g, load_percent=_needed(load))
    if fill is not None and load is not None and not pour.weighings_g:
        return mix_for_total(total_g=fill.fill_g, load_percent=load.of_wax_percent)
    return None


def _weighed(pour: Pour, load: Load | None, mix: Mix | None) -> Weighed | None:
    if not pour.weighings_g or _only_recorded(pour):
        return None
    return weighed(
        weighings_g=pour.weighings_g,
        load_percent=_needed(load),
        target_g=None if mix is None else mix.wax_g,
    )


def _dose(pour: Pour, pitcher: Mix | None) -> Dose | None:
    if pour.scale_step_g is None:
        return None
    if pitcher is None:
        raise _missing("The step of the scale is known, but not what is weighed", "wax")
    return dose(wax_g=pitcher.wax_g, oil_g=pitcher.oil_g, step_g=pour.scale_step_g)


def _blend(pour: Pour, pitcher: Mix | None) -> Blend | None:
    if not pour.blend:
        return None
    if pitcher is None:
        raise _missing("The parts of the blend are known, but not how much of it", "wax")
    return blend(parts=pour.blend, oil_g=pitcher.oil_g, step_g=pour.scale_step_g)


def _recorded(pour: Pour, pitcher: Mix | None) -> Recorded | None:
    if pour.oil_in_g is None:
        return None
    known = (*pour.weighings_g[-1:], pitcher.wax_g if pitcher else None, pour.wax_g)
    wax_g = next((value for value in known if value is not None), None)
    if wax_g is None:
        raise _missing("The oil poured in is known, but not the wax it went into", "wax")
    return recorded(
        wax_g=wax_g, oil_g=pour.oil_in_g, card_maximum_percent=pour.card_maximum_percent
    )


def _cautions(pour: Pour, pitcher: Mix | None) -> tuple[str, ...]:
    if pitcher is None and pour.oil_in_g is None:
        return ()
    if pour.flash_c is None:
        return (*CARE, "Flash point of the oil: not known here; its safety data sheet names it.")
    flash = in_range(pour.flash_c, what="Flash point", unit="°C", limits=(0.0, 300.0), source=BENCH)
    return (*CARE, f"Flash point of the oil: {plain(flash)} °C.")


def _pours(pour: Pour) -> bool:
    """Whether oil goes into wax here: an amount is known, or what was poured in."""
    amounts = (pour.wax_g, pour.total_g, pour.fill_g, pour.vessels, pour.oil_in_g)
    by_water = pour.water_g is not None and pour.load_percent is not None
    return by_water or bool(pour.weighings_g) or any(known is not None for known in amounts)


def _only_recorded(pour: Pour) -> bool:
    """Wax and oil are both there and no load was planned: the record alone is asked."""
    return pour.load_percent is None and pour.oil_in_g is not None


def _asked_once(pour: Pour) -> None:
    given = {"wax": pour.wax_g, "total": pour.total_g, "vessels": pour.vessels}
    named = [name for name, value in given.items() if value is not None]
    if len(named) > 1:
        raise UnclearError(
            f"The amount is given {len(named)} times: {', '.join(named)}.",
            "One of wax, total, or vessels with their fill is enough.",
            "Leave the others out.",
        )


def _nothing_ignored(pour: Pour) -> None:
    """An entry that would change nothing is said, because the maker meant something by it."""
    one_vessel = pour.wax_g is None and pour.total_g is None
    a_load = pour.load_percent is not None
    uses = (
        (pour.basis, "basis", a_load, "load"),
        (
            pour.card_maximum_percent,
            "wax card's maximum",
            a_load or pour.oil_in_g is not None,
            "load",
        ),
        (pour.flash_c, "flash point", _pours(pour), "weight of wax"),
        (
            pour.residue_g or None,
            "residue in the pitcher",
            pour.vessels is not None,
            "number of vessels",
        ),
        (
            pour.pot_residue_g or None,
            "residue in the pot",
            pour.vessels is not None,
            "number of vessels",
        ),
        (pour.oils - 1 or None, "number of oils", pour.vessels is not None, "number of vessels"),
        (pour.fill_g, "fill", pour.vessels is not None or one_vessel, "number of vessels"),
        (pour.density_g_ml, "density of the wax", pour.water_g is not None, "weight of water"),
        (pour.solid_g_ml, "density of the set wax", pour.water_g is not None, "weight of water"),
        (pour.water_c, "water temperature", pour.water_g is not None, "weight of water"),
        (pour.inside_mm, "inside diameter", pour.water_g is not None, "weight of water"),
    )
    for value, name, used, needed in uses:
        if value is not None and not used:
            raise _missing(f"The {name} is given, but nothing it could be used for", needed)


def _needed(load: Load | None) -> float:
    if load is None:
        raise _missing("How much is known, but not the load", "load")
    return load.of_wax_percent


def _missing(happened: str, needed: str) -> UnclearError:
    return UnclearError(f"{happened}.", f"The {needed} is needed as well.", f"Give the {needed}.")
