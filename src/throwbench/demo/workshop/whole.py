"""The whole workshop of the demo, from its first day to the morning of the decision."""

from django.db import transaction

from throwbench.demo.plan import DEMO_DAY, LAST_YEAR
from throwbench.demo.trial import DEFAULT_SEED, generate
from throwbench.demo.workshop.entering import burn_log, panel_evenings
from throwbench.demo.workshop.long_light import LongLight, long_light
from throwbench.demo.workshop.materials import Shelf, materials
from throwbench.demo.workshop.people import By, House, people
from throwbench.demo.workshop.pouring import pour_days
from throwbench.demo.workshop.softer_rope import open_on_the_day, softer_rope
from throwbench.demo.workshop.times import MORNING, at
from throwbench.formats.kept import verdict_from_json
from throwbench.workshop.house.models import Person
from throwbench.workshop.line import services as line
from throwbench.workshop.line.drawings import strips_of
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.trials.services import burn, plan

LIT_TODAY = ("H6X", "V3J", "D5Q")


@transaction.atomic
def build(*, seed: int = DEFAULT_SEED) -> Person:
    """Fill an empty database with the demo, wholly or not at all; returns the owner."""
    example = generate(seed=seed)
    house = people()
    shelf = materials(house)
    _last_year(house, shelf)
    trial = long_light(house, shelf)
    pour_days(house, shelf, trial)
    _fresh(trial)
    burn_log(house, trial, example.burns)
    panel_evenings(house, trial, example.scores)
    rope = softer_rope(house, shelf)
    _lit_today(house, trial)
    open_on_the_day(house, rope)
    strips_of(line.ask_verdict(trial.trial, who=house.owner, now=MORNING))
    return house.owner


def _last_year(house: House, shelf: Shelf) -> None:
    """Harbour Tar joined the line last autumn."""
    by: By = {"who": house.owner, "now": at(LAST_YEAR)}
    trial = plan.plan_trial(name="First autumn", question="Which tar joins the line?", **by)
    candidate = plan.add_candidate(trial, oil=shelf.oils["Harbour Tar"], **by)
    line.decide(candidate, outcome="joins the line", why="the only one nobody sent back", **by)


def _fresh(trial: LongLight) -> None:
    """Pouring and putting tags right has changed the rows."""
    for candle in trial.candles.values():
        candle.refresh_from_db()


def _lit_today(house: House, trial: LongLight) -> None:
    lit_at = at(DEMO_DAY, 9, 5)
    for code in LIT_TODAY:
        burn.light(
            trial.candles[code], kind="wick", room=house.rooms["loft"], lit_at=lit_at,
            room_c=20.5, trim_mm=5, who=house.owner, now=lit_at,
        )  # fmt: skip


def headline() -> str | None:
    """What the latest judgement of the trial says that was judged first, whatever its name is now;
    None where none was."""
    first = Judgement.objects.order_by("made_at", "pk").first()
    if first is None:
        return None
    return verdict_from_json(first.trial.judgements.latest("made_at").verdict).sentence()
