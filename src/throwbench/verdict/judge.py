"""From scores and burns to the verdict; the rooms beside this one each do one part."""

from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from datetime import date

from throwbench.records import Burn, Combination, Score
from throwbench.records.attribute import MODELLED
from throwbench.verdict.barred import barred_parts
from throwbench.verdict.evidence import Gathered, gather
from throwbench.verdict.links import first_unlinked, untold
from throwbench.verdict.noses import nose_notes
from throwbench.verdict.reasons import assumed, of_scores, own_limits
from throwbench.verdict.result import CandidateVerdict, Verdict
from throwbench.verdict.scent import Scent, ask, summarise
from throwbench.verdict.settings import Settings
from throwbench.verdict.speech import headline, holds, next_steps, not_used, risk
from throwbench.verdict.standing import Ranking, in_order, of_one, rank
from throwbench.verdict.thin import rests_on


def verdict(
    scores: Sequence[Score],
    burns: Sequence[Burn] = (),
    *,
    combinations: Sequence[Combination] = (),
    settings: Settings = Settings(),  # noqa: B008 (frozen)
    day: date,
    problems: Sequence[str] = (),
    unused: Sequence[str] = (),
    unread: Mapping[str, str] | None = None,
) -> Verdict:
    """Which candidates join the line: limits, burns well, scent, the pick with its risk.

    Parameters
    ----------
    scores : of all sittings, counted or not.
    burns : the burn log; without it every limit is not yet known.
    combinations : what the test candles are made of. Without it each candle stands alone and
    belongs to the candidate that its scores name.
    day : of the judgement; it decides which limits are in force.
    problems : sentences about rows that are asked about or not used; kept with the verdict.
    unused : those of rows and cells that were not used: they change the answer, so it names them.
    unread : by candle, what of its burn log could not be read; it is then never "none broken".

    Raises
    ------
    UnclearError
        A score outside the scale, a house limit that is not known, or a band for a room without
        a score.

    Checked against: planted truths over many simulated trials (`./run bench honesty`,
    `./run bench truths`).
    """
    found = gather(scores, burns, combinations, settings, day, unread=unread)
    scents = _scents(found, settings)
    ranking = rank(found, scents, settings)
    candidates = _candidates(found, scents, ranking, settings)
    return _speak(
        found,
        scents,
        ranking,
        candidates,
        settings=settings,
        day=day,
        problems=problems,
        unused=unused,
    )


def _scents(found: Gathered, settings: Settings) -> dict[str, Scent]:
    """The answer on each attribute; all who have a score that counts are in each model.

    The attributes do not touch each other, and the algebra runs outside the interpreter's lock:
    a thread each halves the wait.
    """
    ranking = {s.candidate for s in found.sorted.counted}
    names = tuple(name for name in found.names if name in ranking)

    def asked(place: int) -> Scent | None:
        return ask(
            found.sorted.counted,
            attribute=MODELLED[place],
            candidates=names,
            scale=found.scale,
            draws=settings.draws,
            random_state=settings.random_state + place,
        )

    with ThreadPoolExecutor(len(MODELLED)) as threads:
        scents = threads.map(asked, range(len(MODELLED)))
        return {scent.attribute: scent for scent in scents if scent is not None}


def _candidates(
    found: Gathered, scents: Mapping[str, Scent], ranking: Ranking, settings: Settings
) -> tuple[CandidateVerdict, ...]:
    """All candidates, in the order of a report."""
    results = {
        attribute: summarise(
            scent,
            bands=settings.bands,
            counted=found.sorted.counted,
            shown=found.sorted.shown,
        )
        for attribute, scent in scents.items()
    }
    each = (of_one(name, found, results, ranking, settings) for name in found.names)
    return tuple(sorted(each, key=in_order))


def _not_tried(found: Gathered) -> tuple[str, ...]:
    """The rules that need a laboratory, once each."""
    limits = (item for of_oil in found.limits.values() for item in of_oil)
    return tuple(dict.fromkeys(words for item in limits for words in item.not_tried))


def _speak(
    found: Gathered,
    scents: Mapping[str, Scent],
    ranking: Ranking,
    candidates: tuple[CandidateVerdict, ...],
    *,
    settings: Settings,
    day: date,
    problems: Sequence[str],
    unused: Sequence[str],
) -> Verdict:
    """The figures with their sentences."""
    pick = tuple(item.candidate for item in candidates if item.place == "in the pick")
    rests = rests_on(found.sorted.counted, ranking.names)
    return Verdict(
        day=day.isoformat(),
        choose=settings.choose,
        bands=settings.bands,
        scale=found.scale,
        ranked_by=ranking.ranked_by,
        candidates=candidates,
        pick=pick,
        loss_steps=ranking.loss,
        clear_winner=ranking.clear_winner,
        headline=headline(
            pick,
            asked=settings.choose,
            ranked=len(ranking.names),
            clear_winner=ranking.clear_winner,
            best=candidates[0].chance_best if pick else None,
            level=ranking.level,
            rests=rests,
        ),
        risk=risk(candidates, loss=ranking.loss, settings=settings),
        holds=(*holds(candidates), *barred_parts(candidates), *not_used(unused)),
        next_steps=next_steps(
            candidates,
            clear_winner=ranking.clear_winner,
            unlinked=first_unlinked(found.sorted.counted, ranking.names)[1],
            rests=rests,
        ),
        reasons=(
            *of_scores(found.sorted, scents),
            *untold(found.sorted.counted, ranking.names),
        ),
        noses=nose_notes(scents),
        problems=tuple(problems),
        defaults=(
            *assumed(found.sorted.counted, found.combinations, settings, found.scale),
            *own_limits(settings.house, day),
        ),
        counted=len(found.sorted.counted),
        not_counted=len(found.sorted.shown),
        not_tried=_not_tried(found),
    )
