"""A plan as its page shows it: never which code is which oil while the trial is sealed."""

from dataclasses import dataclass
from datetime import date, timedelta

from throwbench.documents.words import day_words, in_words
from throwbench.science.load import Mix
from throwbench.science.words import plain
from throwbench.workshop.trials.models import Band, Candidate, Combination, Trial
from throwbench.workshop.trials.scale import Steps, last_steps
from throwbench.workshop.trials.selectors.bands import Drawing, drawing_of, room_words
from throwbench.workshop.trials.selectors.sums import Sums, pitcher_of, sums_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """One combination of a candidate."""

    pk: int
    words: str
    codes: str
    candles: int


@dataclass(frozen=True, slots=True, kw_only=True)
class CandidateRow:
    """One oil, what its candles are made of, and its pitcher."""

    pk: int
    oil: int
    name: str
    supplier: str
    flash_c: float | None
    is_reference: bool
    planned: tuple[Planned, ...]
    pitcher: Mix | None
    has_candles: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Candidates of one theme; without a name those of none."""

    name: str
    rows: tuple[CandidateRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    name: str
    when: str
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPage:
    question: str
    lead: tuple[str, ...]
    stages: tuple[Stage, ...]
    groups: tuple[Group, ...]
    oils: int
    candles: int
    has_wicks: bool
    is_poured: bool
    bands: Drawing | None
    sums: Sums | None


def plan_page(trial: Trial, today: date) -> PlanPage:
    """Everything the page of a plan shows."""
    members = list(
        trial.candidates.select_related("oil__supplier").prefetch_related(
            "combinations__wick",
            "combinations__vessel",
            "combinations__wax",
            "combinations__fixing",
            "combinations__candles",
        )
    )
    steps = last_steps()
    rows = {member: _row(trial, member, steps) for member in members}
    bands = sorted(trial.bands.all(), key=lambda band: band.room_kind)
    return PlanPage(
        question=trial.question or f"Which of these oils {_join(trial.choose)}?",
        lead=tuple(_lead(trial, members, bands, today)),
        stages=_stages(trial),
        groups=_groups(rows),
        oils=len(members),
        candles=sum(one.candles for row in rows.values() for one in row.planned),
        is_poured=_poured_on(members) is not None,
        has_wicks=any(row.planned for row in rows.values()),
        bands=drawing_of(trial, bands) if bands else None,
        sums=sums_of(trial, [row.pitcher for row in rows.values()], steps=steps),
    )


def _row(trial: Trial, member: Candidate, steps: Steps) -> CandidateRow:
    made = list(member.combinations.all())
    planned = tuple(_planned(trial, one) for one in made)
    candles = sum(one.candles for one in planned)
    load = next((one.load_percent for one in made), trial.load_percent)
    return CandidateRow(
        pk=member.pk,
        oil=member.oil_id,
        name=member.oil.name,
        supplier=member.oil.supplier.name if member.oil.supplier else "supplier not known",
        flash_c=member.oil.flash_c,
        is_reference=member.role == "reference",
        planned=planned,
        pitcher=pitcher_of(trial, vessels=candles or len(made), load_percent=load, steps=steps),
        has_candles=candles > 0,
    )


def _planned(trial: Trial, made: Combination) -> Planned:
    words = [str(made.wick)]
    if made.fixing is not None:
        words.append(made.fixing.kind)
    if made.load_percent != trial.load_percent:
        words.append(f"{plain(made.load_percent)} % of wax")
    if made.vessel_id != trial.vessel_id:
        words.append(made.vessel.name)
    if made.wax_id != trial.wax_id:
        words.append(made.wax.name)
    codes = [candle.code for candle in made.candles.all()]
    return Planned(
        pk=made.pk,
        words=", ".join(words),
        codes="" if trial.is_sealed else ", ".join(codes),
        candles=len(codes),
    )


def _poured_on(members: list[Candidate]) -> tuple[date, date] | None:
    """First and last day of pouring; None while a test candle waits for wax, or there is none."""
    made = [made for member in members for made in member.combinations.all()]
    candles = [candle for one in made for candle in one.candles.all()]
    days = [candle.poured_on for candle in candles if candle.poured_on is not None]
    return (min(days), max(days)) if days and len(days) == len(candles) else None


def _groups(rows: dict[Candidate, CandidateRow]) -> tuple[Group, ...]:
    """Those of no theme first, then one group a theme, in the order of its first oil."""
    names = dict.fromkeys(["", *(member.group for member in rows)])
    grouped = (
        Group(name=name, rows=tuple(row for one, row in rows.items() if one.group == name))
        for name in names
    )
    return tuple(group for group in grouped if group.rows)


def _join(choose: int) -> str:
    return "joins the line" if choose == 1 else f"join the line: {choose} of them"


def _lead(trial: Trial, members: list[Candidate], bands: list[Band], today: date) -> list[str]:
    themes = dict.fromkeys(member.group for member in members if member.group)
    told = [f"At most one {theme}." for theme in themes]
    told += _pour_said(trial, _poured_on(members), today)
    for band in bands:
        where = "in all rooms" if not band.room_kind else f"in a {room_words(band)}"
        right = f"{plain(band.low)} and {plain(band.high)}"
        told.append(f"Hot throw should lie between {right} {where}.")
    if trial.decide_on:
        told.append(f"Decision on {day_words(trial.decide_on)}.")
    return told


def _pour_said(trial: Trial, poured_on: tuple[date, date] | None, today: date) -> list[str]:
    """In its tense: poured, to be poured, or planned for a day that went by."""
    planned = trial.pour_on
    if poured_on is not None:
        first, last = poured_on
        if first != last:
            return [f"Poured from {day_words(first)} to {day_words(last)}{_each_cured(trial)}."]
        when = "today" if last == today else f"on {day_words(last)}"
        return [f"Poured {when}{_cured(trial)}."]
    if planned is None:
        return []
    if planned < today:
        return [f"The pour was planned for {day_words(planned)}."]
    when = "today" if planned == today else f"on {day_words(planned)}"
    return [f"Will be poured {when}{_cured(trial)}."]


def _cured(trial: Trial) -> str:
    days = trial.wax.cure_days if trial.wax else None
    return "" if days is None else f", cures {in_words(days, 'day')}"


def _each_cured(trial: Trial) -> str:
    cured = _cured(trial)
    return cured.replace("cures", "each candle cures")


def _stages(trial: Trial) -> tuple[Stage, ...]:
    poured, decided = trial.pour_on, trial.decide_on
    cure = trial.wax.cure_days if trial.wax else None
    cured = None if poured is None or cure is None else poured + timedelta(days=cure)
    return (
        Stage(
            name="Bottle and blotter",
            when=f"before {_short(poured)}" if poured else "before the pour",
            what="All oils on blotters, all noses. Nothing is burned. Only what nobody wants "
            "falls out.",
        ),
        Stage(
            name="One candle per oil",
            when=_from_to("pour", poured, "first sniff that counts", cured),
            what="One vessel of each on the wick you trust. Nose burns one at a time in a room "
            "that is aired between; the first check of limits.",
        ),
        Stage(
            name="Wick ladder, to the end",
            when=_from_to("from", cured, "decision", decided),
            what="Only for those still in: second candle, next wick, wick burns to the end line.",
        ),
    )


def _from_to(first: str, begins: date | None, then: str, ends: date | None) -> str:
    told = [f"{word} {_short(day)}" for word, day in ((first, begins), (then, ends)) if day]
    return ", ".join(told) or "no date set yet"


def _short(day: date) -> str:
    """24 May."""
    return " ".join(day_words(day).split()[1:3])
