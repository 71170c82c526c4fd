"""What the bench and the shelf have on paper, put together from a trial."""

from datetime import date

from throwbench.documents.gauge import GaugeCard, GaugeVessel
from throwbench.documents.heading import Heading
from throwbench.documents.pour_sheet import PitcherRow, PourCandle, PourSheet, WaxCard
from throwbench.documents.tags import CodeTag, ShelfTag
from throwbench.science.errors import UnclearError
from throwbench.workshop.house.models import Workshop
from throwbench.workshop.house.selectors import house_limits
from throwbench.workshop.shelf.models import Vessel, Wax
from throwbench.workshop.trials.models import Pour, TestCandle, Trial
from throwbench.workshop.trials.scale import Steps, last_steps
from throwbench.workshop.trials.selectors import candles_of
from throwbench.workshop.trials.selectors.made_of import shown_of
from throwbench.workshop.trials.selectors.pitcher_names import PitcherNames
from throwbench.workshop.trials.selectors.pour_page import by_pitcher
from throwbench.workshop.trials.selectors.sums import pitcher_of

CARD = (
    "name",
    "melts_at_c",
    "never_above_c",
    "add_oil_low_c",
    "add_oil_high_c",
    "stir_min",
    "pour_low_c",
    "pour_high_c",
    "cure_days",
    "max_load_percent",
)


def pour_sheet_of(trial: Trial, *, here: Workshop, day: date) -> PourSheet:
    """The sheet for the candles that are still to be poured, or for all once all are.

    Raises
    ------
    UnclearError
        There are no test candles yet, they are of several waxes, or all of a sealed trial are
        poured.
    """
    candles = list(candles_of(trial).filter(pour=None)) or _all(trial)
    ordered = sorted(_some(candles), key=lambda one: (one.combination.candidate.position, one.pk))
    names, steps = _names(trial, candles), last_steps()
    return PourSheet(
        heading=Heading(workshop=here.name, trial=trial.name, day=day, invented=here.invented),
        wax_card=_card(_one_wax(candles)),
        pitchers=tuple(_pitcher(trial, group, names, steps) for group in by_pitcher(ordered)),
        gauge=_gauge(candles),
    )


def code_tags_of(trial: Trial, *, here: Workshop) -> list[CodeTag]:
    """For under the base: code, oil and the candle's own page."""
    return [
        CodeTag(code=candle.code, url=_url(here, candle), oil=_oil(candle))
        for candle in _some(list(candles_of(trial)))
    ]


def shelf_tags_of(trial: Trial, *, here: Workshop) -> list[ShelfTag]:
    """For the shelf of cure: no oil."""
    return [
        ShelfTag(
            code=candle.code,
            url=_url(here, candle),
            poured_on=candle.poured_on,
            cure_days=candle.combination.wax.cure_days,
        )
        for candle in _some(list(shown_of(trial)))
    ]


def _all(trial: Trial) -> list[TestCandle]:
    """Every candle again, unless the sheet would tell what the seal hides."""
    candles = list(candles_of(trial))
    if candles and trial.is_sealed:
        raise UnclearError(
            "All test candles of this sealed trial are poured.",
            "The pour sheet names the oil of each code.",
            "Print it again when the seal is open.",
        )
    return candles


def _some(candles: list[TestCandle]) -> list[TestCandle]:
    if not candles:
        raise UnclearError(
            "There are no test candles yet.",
            "A sheet is of test candles with codes.",
            "Fix the plan first.",
        )
    return candles


def _one_wax(candles: list[TestCandle]) -> Wax:
    waxes = {candle.combination.wax for candle in candles}
    if len(waxes) > 1:
        named = " and ".join(sorted(wax.name for wax in waxes))
        raise UnclearError(
            f"These candles are of {named}.",
            "A pour sheet is of one wax, whose card it carries.",
            "Pour one wax on its own day, or work from the pages of the pitchers.",
        )
    return waxes.pop()


def _names(trial: Trial, candles: list[TestCandle]) -> PitcherNames:
    """Names for pitchers to come: those that are poured have theirs already."""
    names = PitcherNames(trial)
    if any(candle.pour_id is None for candle in candles):
        for pour in Pour.objects.filter(candidate__trial=trial).exclude(poured_at=None):
            names.next_of(pour.candidate_id)
    return names


def _card(wax: Wax) -> WaxCard:
    return WaxCard(**{name: getattr(wax, name) for name in CARD})


def _pitcher(
    trial: Trial, candles: list[TestCandle], names: PitcherNames, steps: Steps
) -> PitcherRow:
    made = candles[0].combination
    oil = made.candidate.oil
    mix = pitcher_of(trial, vessels=len(candles), load_percent=made.load_percent, steps=steps)
    return PitcherRow(
        oil=oil.name,
        supplier=oil.supplier.name if oil.supplier else "",
        name=names.next_of(made.candidate_id),
        load_percent=made.load_percent,
        wax_g=None if mix is None else mix.wax_g,
        oil_g=None if mix is None else mix.oil_g,
        flash_c=oil.flash_c,
        candles=tuple(_ready(candle) for candle in candles),
    )


def _ready(candle: TestCandle) -> PourCandle:
    made = candle.combination
    return PourCandle(
        code=candle.code,
        wick=str(made.wick),
        fixing=made.fixing.name if made.fixing else "",
        vessel=candle.piece.name if candle.piece else made.vessel.name,
    )


def _gauge(candles: list[TestCandle]) -> GaugeCard:
    vessels: dict[int, Vessel] = {
        one.combination.vessel_id: one.combination.vessel for one in candles
    }
    return GaugeCard(
        flame_mm=house_limits().get("flame-height"),
        vessels=tuple(
            GaugeVessel(name=one.name, inside_mm=one.inside_mm)
            for one in vessels.values()
            if one.inside_mm is not None
        ),
    )


def _oil(candle: TestCandle) -> str:
    return candle.combination.candidate.oil.name


def _url(here: Workshop, candle: TestCandle) -> str:
    """Where a phone finds the candle's page; empty where the workshop has no address."""
    return f"{here.address.rstrip('/')}/candles/{candle.code}/" if here.address else ""
