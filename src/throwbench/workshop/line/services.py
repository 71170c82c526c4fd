"""What the maker does here: ask for the verdict, and decide."""

from collections.abc import Mapping
from datetime import datetime
from uuid import UUID

from django.db import transaction

from throwbench import __version__
from throwbench.formats.archive import digest, to_zip
from throwbench.science.errors import UnclearError
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Person
from throwbench.workshop.line.apart import judged_apart
from throwbench.workshop.line.joining import Tried, settle, tried
from throwbench.workshop.line.models import Decision, Judgement, Outcome
from throwbench.workshop.line.selectors import archive_of, last_judgement, local_day
from throwbench.workshop.trials.models import Candidate, Combination, Trial

__all__ = ["ask_verdict", "decide", "join_the_line"]


def ask_verdict(trial: Trial, *, who: Person, now: datetime) -> Judgement:
    """Judge the notes as they are, once for each state of them; outside any transaction.

    Raises
    ------
    SaidError
        There is nothing to judge, or what is asked does not fit the scores.
    """
    day = local_day(now)
    notes = archive_of(trial, day=day)
    key = {"trial": trial, "digest": digest(notes), "engine": __version__}
    kept = Judgement.objects.filter(**key).first()
    if kept is not None:
        return kept
    verdict = judged_apart(notes)
    made, _ = Judgement.objects.get_or_create(
        **key,
        defaults={
            "day": day,
            "made_at": now,
            "archive": to_zip(notes),
            "verdict": verdict,
        },
    )
    return made


@transaction.atomic
def decide(
    candidate: Candidate,
    *,
    outcome: str,
    combination: Combination | None = None,
    why: str = "",
    judgement: Judgement | None = None,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> Decision:
    """One oil joins the line, is tested again, or is dropped. The last decision counts.

    Without a judgement it rests on the last one of the trial. A combination with a limit that is
    not yet known joins with what has to be seen before any is sold.

    Raises
    ------
    UnclearError
        What joins broke a limit, is not named, or has no place in its theme.
    ValidationError
        There is no such outcome.
    """
    content = {
        "candidate": candidate.pk,
        "outcome": outcome,
        "why": why,
        "combination": combination.pk if combination else None,
    }
    if seen_before(entry, what="decision", content=content, who=who, now=now):
        return candidate.decisions.latest("at", "id")
    its = tried(candidate.trial, day=local_day(now)).get(candidate.pk, ())
    return _decide(
        candidate,
        its,
        outcome=outcome,
        combination=combination,
        why=why,
        judgement=judgement or last_judgement(candidate.trial),
        who=who,
        now=now,
    )


@transaction.atomic
def join_the_line(
    trial: Trial,
    *,
    chosen: Mapping[Candidate, Combination | None],
    why: str = "",
    judgement: Judgement | None = None,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> list[Decision]:
    """All of a pick join the line in one press, or none of them.

    Raises
    ------
    UnclearError
        As for one decision.
    """
    content = {
        "why": why,
        "chosen": sorted((one.pk, made.pk if made else 0) for one, made in chosen.items()),
    }
    if seen_before(entry, what="joins the line", content=content, who=who, now=now):
        return list(Decision.objects.filter(candidate__in=list(chosen))[: len(chosen)])
    found = tried(trial, day=local_day(now))
    rests_on = judgement or last_judgement(trial)
    return [
        _decide(
            candidate,
            found.get(candidate.pk, ()),
            outcome=Outcome.JOINS,
            combination=made,
            why=why,
            judgement=rests_on,
            who=who,
            now=now,
        )
        for candidate, made in chosen.items()
    ]


def _decide(
    candidate: Candidate,
    its: tuple[Tried, ...],
    *,
    outcome: str,
    combination: Combination | None,
    why: str,
    judgement: Judgement | None,
    who: Person,
    now: datetime,
) -> Decision:
    if judgement is not None and judgement.trial_id != candidate.trial_id:
        raise UnclearError(
            f"That verdict is on {judgement.trial}, and {candidate} is in {candidate.trial}.",
            "A decision rests on a verdict on its own trial.",
            "Open the verdict of this trial.",
        )
    hold = ""
    if outcome == Outcome.JOINS:
        combination, hold = settle(candidate, its, named=combination)
    made = Decision(
        candidate=candidate,
        combination=combination,
        outcome=outcome,
        why=why.strip(),
        sell_none_before=hold,
        judgement=judgement,
        who=who,
        at=now,
    )
    made.full_clean()
    made.save()
    return made
