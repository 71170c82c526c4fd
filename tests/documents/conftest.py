"""A verdict made by hand: the nine oils of the invented "Long Light" trial and its reference."""

from dataclasses import dataclass, replace
from datetime import date

import pytest

from throwbench.documents.heading import Heading
from throwbench.rules.result import CombinationLimits, State
from throwbench.verdict.result import (
    AttributeResult,
    Band,
    CandidateVerdict,
    Interval,
    NoseNote,
    NotRanked,
    Place,
    Verdict,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TriedLimits(CombinationLimits):
    """Limits whose evidence is written here, not counted from burns."""

    told: str = ""

    def evidence_words(self) -> str:
        return self.told

    def sentence(self) -> str:
        return f"{self.oil}: {self.state}, {self.told}."


def limits(oil: str, state: State, told: str, *, label: str = "wick 4") -> CombinationLimits:
    return TriedLimits(
        oil=oil,
        label=label,
        wick=label,
        state=state,
        candles=(),
        broken=(),
        missing=None,
        not_tried=(),
        told=told,
    )


def result(
    attribute: str, middle: float, counted: str, shown: str = "", spread: float = 0.28
) -> AttributeResult:
    def around(half: float) -> Interval:
        return Interval(middle - half, middle + half)

    return AttributeResult(
        attribute=attribute,
        expected=middle,
        middle=middle,
        eight_in_ten=around(spread),
        nine_in_ten=around(spread * 1.28),
        nineteen_in_twenty=around(spread * 1.53),
        chance_in_band=0.5,
        counted=tuple(map(int, counted.split())),
        not_counted=tuple(map(int, shown.split())),
    )


def candidate(
    name: str,
    place: Place,
    *,
    scent: tuple[AttributeResult, ...] = (),
    tried: tuple[CombinationLimits, ...] = (),
    chance: float | None = None,
    placed: bool = True,
    group: str | None = None,
    supplier: str | None = "Tarnholt Riechstoffe",
    well: tuple[str, ...] = ("nothing noted",),
    split: str | None = None,
    because: NotRanked | None = None,
    reasons: tuple[str, ...] = (),
    only_shown: tuple[tuple[str, tuple[int, ...]], ...] = (),
) -> CandidateVerdict:
    return CandidateVerdict(
        candidate=name,
        supplier=supplier,
        group=group,
        place=place,
        not_ranked_because=because or ("no score counts" if place == "not ranked" else None),
        limits=tried,
        burns_well=well,
        scent=scent,
        worth=None if chance is None else 3.4,
        chance_to_belong=chance,
        chance_best=None if chance is None else chance / 4,
        placed=placed,
        swap_cost=0.1 if place == "equally good" else None,
        equally_good=place in ("in the pick", "equally good") and not placed and chance is not None,
        split=split,
        reasons=reasons,
        only_shown=only_shown,
    )


def hot(middle: float, counted: str, shown: str = "") -> AttributeResult:
    return result("hot_throw", middle, counted, shown)


def liking(middle: float) -> AttributeResult:
    return result("liking", middle, "3 4 4 4 5 3 4 4 5 4 3 4", spread=0.35)


def nine_oils() -> tuple[CandidateVerdict, ...]:
    """The nine oils of the trial and the reference candle, in the order of a report."""
    end = "to the end"
    return (
        candidate(
            "Slate After Rain",
            "in the pick",
            scent=(hot(4.2, "3 4 4 4 4 4 4 4 5 5 5 5", "3 3 3 4 4 5"), liking(4.3)),
            tried=(limits("Slate After Rain", "none broken", f"2 candles, 17 burns, {end}"),),
            chance=0.996,
            well=("full melt pool after 2 h 30",),
            reasons=("Strong when lit, modest in the cold.",),
        ),
        candidate(
            "Rebarbara K",
            "in the pick",
            scent=(hot(4.2, "3 4 4 4 4 4 4 4 4 5 5 5", "1 2 2 2 3 3"), liking(4.1)),
            tried=(limits("Rebarbara K", "none broken", f"2 candles, 16 burns, {end}"),),
            chance=0.86,
            group="rhubarb",
            supplier="Kisbalog Illat",
            well=("mushrooms a little",),
            reasons=("Weak after 5 days of cure, the best of the three after 12.",),
        ),
        candidate(
            "Bakehouse at Five",
            "in the pick",
            scent=(hot(3.4, "3 3 3 3 3 3 3 3 3 4 5 5", "2 3 3 3 4"), liking(4.0)),
            tried=(limits("Bakehouse at Five", "none broken", f"1 candle, 8 burns, {end}"),),
            chance=0.99,
            supplier="Atelier Bruyère-Neuve",
            well=("browns by day 14",),
        ),
        candidate(
            "Kelp and Iron",
            "in the pick",
            scent=(hot(3.5, "2 3 3 3 3 3 3 4 4 4 5 5", "2 3 3 3 4 4 4 4 4 5 5 5"), liking(3.6)),
            tried=(
                limits("Kelp and Iron", "broken", "soot", label="wick 6"),
                limits("Kelp and Iron", "not yet known", "last third not burned", label="wick 5"),
            ),
            chance=0.58,
            placed=False,
            supplier="Atelier Bruyère-Neuve",
            well=("wick 5: nothing noted",),
            reasons=("Wick 6 is barred: soot on the vessel in burns 3, 4 and 5.",),
        ),
        candidate(
            "Linen Loft",
            "equally good",
            scent=(hot(2.8, "2 2 2 2 2 3 3 3 3 3 4 4", "2 2 3 3 4 5"), liking(3.5)),
            tried=(limits("Linen Loft", "not yet known", "last third not burned"),),
            chance=0.38,
            placed=False,
            well=("wet spots",),
        ),
        candidate(
            "Rhubarb Cold Frame",
            "held back by its theme",
            scent=(hot(3.9, "3 3 3 4 4 4 4 4 4 4 5 5", "2 2 3 4 4 5"), liking(3.9)),
            tried=(limits("Rhubarb Cold Frame", "none broken", f"2 candles, 15 burns, {end}"),),
            chance=0.13,
            group="rhubarb",
        ),
        candidate(
            "Vårrabarbra 114",
            "held back by its theme",
            scent=(hot(2.2, "1 2 2 2 2 2 2 2 2 3 3 3", "1 2 2 2 3 3"), liking(3.0)),
            tried=(limits("Vårrabarbra 114", "not yet known", "last third not burned"),),
            chance=0.004,
            group="rhubarb",
            supplier="Fjellrype Duft",
            well=("frosting",),
            reasons=("Loud in the cold, weak when lit.",),
        ),
        candidate(
            "Ferry Rope",
            "out of reach",
            scent=(hot(3.6, "2 3 3 3 4 4 4 4 4 4 4 4", "3 3 4 4 4 4"), liking(2.9)),
            tried=(limits("Ferry Rope", "not yet known", "S4M out: its wick floated"),),
            chance=0.06,
            supplier="Fjellrype Duft",
            well=("mushrooms",),
            split="loved by 2, disliked by 3",
            reasons=("Opinions split: loved by 2, disliked by 3.",),
        ),
        candidate(
            "Goat Willow",
            "not ranked",
            tried=(limits("Goat Willow", "not yet known", "4 burns"),),
            supplier="Kisbalog Illat",
            well=("tunnels on wick 3",),
            because="its scores are from a candle that tunnels",
            reasons=("Tunnelled on wick 3, so its scores do not count.",),
            only_shown=(("hot_throw", tuple(map(int, "1222222222333333334"))),),
        ),
        candidate(
            "Harbour Tar",
            "reference",
            scent=(hot(3.7, "3 3 4 4 4 4 4 4", "3 4"), liking(3.8)),
            supplier=None,
            well=("as last year",),
        ),
    )


def made_verdict(
    candidates: tuple[CandidateVerdict, ...],
    *,
    bands: tuple[Band, ...] = (Band(3.2, 4.4, "living room"),),
    scale: tuple[int, int] = (1, 5),
    headline: str | None = None,
) -> Verdict:
    pick = tuple(one.candidate for one in candidates if one.place == "in the pick")
    return Verdict(
        day="2027-05-24",
        choose=len(pick),
        bands=bands,
        scale=scale,
        ranked_by="liking, less half a step per step of hot throw outside 3.2 to 4.4",
        candidates=candidates,
        pick=pick,
        loss_steps=0.03,
        clear_winner=None,
        headline=headline or f"Tonight: {', '.join(pick)}.",
        risk="Only the fourth place is a coin-toss, and being wrong there costs little.",
        holds=(
            "Kelp and Iron on wick 6 is barred: soot on the vessel in burns 3, 4 and 5.",
            "Kelp and Iron on wick 5: sell none before its last third is burned.",
        ),
        next_steps=(
            "Burn Kelp and Iron on wick 5 to the end.",
            "If a limit breaks there: Linen Loft, or three oils.",
        ),
        reasons=("Stronger is not better: the band for the living room is 3.2 to 4.4.",),
        noses=(
            NoseNote(assessor="Pernille", shift=1.0, chance=0.98, words="Pernille scores higher"),
        ),
        problems=("line 41: one score came 3 minutes after another and is counted (Pernille).",),
        defaults=("Cure: 10 days, of the wax card.", "Half a step per step outside the band."),
        counted=96,
        not_counted=78,
        not_tried=("tip-over", "fire behaviour of the vessel"),
    )


@pytest.fixture
def verdict() -> Verdict:
    return made_verdict(nine_oils())


LONG_NAME = "Smoked Rhubarb, Wet Slate & Burnt-Sugar Custard No. 5 (Åse's)"
LONG_WORD = "Donaudampfschiffahrtselektrizitätenhauptbetriebswerkbauunterbeamten"


@pytest.fixture
def crowd() -> Verdict:
    """25 oils: a name of 61 letters, one of 67 without a space, one that looks like a formula."""
    places: list[Place] = ["in the pick"] * 4 + ["equally good"] * 2
    places += ["held back by its theme"] * 2 + ["out of reach"] * 12 + ["too few sniffs"] * 5
    names = [LONG_NAME, LONG_WORD, '=1+1 #let x = "$y$"', "火 <&> Űrrom"]
    names += [f"Oil number {index}" for index in range(5, 26)]
    broken = "flame over the mark on the printed gauge card in burns 3, 4 and 5"
    missing = "weigh it before and after burn 3, then burn the last third to the end line"
    return made_verdict(
        tuple(
            candidate(
                name,
                place,
                scent=(hot(1.4 + index * 0.13, "1 2 3 4 5 " * (1 + index % 7), "1 5"),),
                tried=(
                    limits(name, "broken", broken, label="round paper-core 3"),
                    limits(name, "not yet known", missing, label="wick 2"),
                ),
                chance=index / 25,
                group=LONG_NAME if index in (0, 6, 7) else None,
                reasons=("A reason as long as a sentence of a file may be, or longer still.",),
            )
            for index, (name, place) in enumerate(zip(names, places, strict=True))
        )
    )


@pytest.fixture
def heading() -> Heading:
    return Heading(
        workshop="Saltmyr Lysstøperi",
        trial="Long Light",
        day=date(2027, 5, 24),
        invented=True,
    )


@pytest.fixture
def alone() -> Verdict:
    """One oil and the reference: nothing to compare it with."""
    oils = (
        candidate("Fog", "in the pick", scent=(hot(3.5, "3 4"), liking(4.0)), chance=1.0),
        candidate("Harbour Tar", "reference", scent=(hot(3.7, "4 4"),), supplier=None),
    )
    return replace(made_verdict(oils), counted=1, not_counted=0)


@pytest.fixture
def liked() -> Verdict:
    """No band, no hot throw, a scale from 0 to 10: liking ranks alone."""
    oils = (
        candidate("Fog", "in the pick", scent=(result("liking", 7.0, "7 8 6", "3"),), chance=0.9),
        candidate("Peat", "too few sniffs", scent=(result("liking", 5.0, "5 5"),), chance=0.1),
    )
    return made_verdict(oils, bands=(), scale=(0, 10))
