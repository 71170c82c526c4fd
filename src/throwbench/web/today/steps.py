"""Three steps to a first verdict, for a workshop that has none yet."""

from dataclasses import dataclass

from throwbench.workshop.house.models import Room
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.shelf.models import Oil
from throwbench.workshop.trials.models import Burn, Trial

NO_ROOM = "No room is there yet, and a nose burn needs one: add it first, under House, Rooms."


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step; `address` is the name of the page that does it."""

    head: str
    words: str
    address: str
    button: str
    done: bool
    is_next: bool = False


def steps() -> tuple[Step, ...]:
    """The three, with the first that is not done marked; none once a verdict was given."""
    if Judgement.objects.exists():
        return ()
    told = (
        (
            "A line per oil",
            "Name, supplier, load, wick, as in “slate rain, Tarnholt, 8 %, wick 4”. "
            "What you do not know yet can stay open.",
            "shelf:index",
            "Write down the first oil",
            Oil.objects.exists(),
        ),
        (
            "A trial",
            "One question and the oils that compete. Throwbench works out what to weigh and gives "
            "each test candle a code.",
            "trials:index",
            "Begin the first trial",
            Trial.objects.exists(),
        ),
        (
            "Light and score",
            *_last_step(),
            False,
        ),
    )
    ahead = next((place for place, step in enumerate(told) if not step[4]), None)
    return tuple(
        Step(head=head, words=words, address=address, button=button, done=done, is_next=n == ahead)
        for n, (head, words, address, button, done) in enumerate(told)
    )


def _last_step() -> tuple[str, str, str]:
    """Its words, the page that does it, its button."""
    words = (
        "Light a candle, look at it each hour, hand the phone round. The verdict says how "
        "sure it is from the first score on."
    )
    if not Room.objects.exists():
        return f"{words} {NO_ROOM}", "house:rooms", "Add a first room"
    return words, *_last_button()


def _last_button() -> tuple[str, str]:
    if Burn.objects.exists():
        return "trials:index", "Go on with the trial"
    return "trials:light", "Light the first candle"
