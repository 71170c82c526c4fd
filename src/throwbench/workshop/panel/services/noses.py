"""What a nose does beside answering: sits out, says how it is, or joins."""

from datetime import datetime

from django.db import transaction

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.models import Person, Role
from throwbench.workshop.house.names import for_a_list
from throwbench.workshop.house.services import add_person
from throwbench.workshop.panel.models import Panel, Sitting
from throwbench.workshop.panel.services.opening import add_sitting


@transaction.atomic
def sit_out(sitting: Sitting, *, out: bool = True, who: Person, now: datetime) -> None:
    """The assessor does not take part; `out=False` takes that back. What was answered stays."""
    sitting.sits_out = out
    sitting.save(update_fields=["sits_out"])


@transaction.atomic
def note_nose(
    sitting: Sitting, *, tired: bool | None = None, perfume: bool | None = None, now: datetime
) -> None:
    """How the nose is in this whole sitting. None leaves what is known."""
    if tired is not None:
        sitting.tired = tired
    if perfume is not None:
        sitting.perfume = perfume
    sitting.save(update_fields=["tired", "perfume"])


@transaction.atomic
def join(panel: Panel, *, name: str, now: datetime) -> Sitting:
    """Somebody new sits down under a name that nobody has here.

    Raises
    ------
    UnclearError
        The panel is closed, somebody is called that, or the name is too long or has no letter.
    """
    must_be_open(panel, now=now)
    kept = for_a_list(name)
    if called(kept) is not None:
        raise UnclearError(
            f"Somebody is called {kept} here already.",
            "Two noses have two names.",
            "Add a letter to yours.",
        )
    person = add_person(name=kept, role=Role.ASSESSOR, who=panel.opened_by, now=now)
    return add_sitting(panel, person)


@transaction.atomic
def sit_down(panel: Panel, person: Person, *, now: datetime) -> Sitting:
    """Somebody who is known here takes part, whether they sit already or not.

    Raises
    ------
    UnclearError
        The panel is closed.
    """
    must_be_open(panel, now=now)
    return panel.sittings.filter(assessor=person).first() or add_sitting(panel, person)


def called(name: str) -> Person | None:
    """Who is called that; how it is spelled comes before large and small letters.

    SQLite folds a to z only: "åse" would be somebody else than "Åse".
    """
    alike = [
        person
        for person in Person.objects.filter(blanked_at=None).order_by("id")
        if person.name.casefold() == name.casefold()
    ]
    return next((person for person in alike if person.name == name), next(iter(alike), None))


def must_be_open(panel: Panel, *, now: datetime) -> None:
    """Raises UnclearError where the panel takes no more answers.

    What was pressed before it was closed is taken whenever it comes: then is what counts, and
    `now` is then.
    """
    if panel.is_closed_for(now):
        raise UnclearError(
            "This panel is closed.",
            "Answers are taken while it is open.",
            "Open another panel for more.",
        )
