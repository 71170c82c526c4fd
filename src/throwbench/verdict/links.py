"""Whether noses tie the candidates together, and rooms to noses: what scores alone cannot tell.

Candidates and assessors are the two sides of a graph, each score an edge. Where it falls apart, no
nose met candidates of two parts, and only what noses are like in general compares these.
"""

from collections.abc import Iterable, Iterator, Sequence

import numpy as np
from scipy.sparse import csr_array
from scipy.sparse.csgraph import connected_components

from throwbench.records import Score
from throwbench.records.attribute import LIT
from throwbench.science.sensory.factor import factor
from throwbench.verdict.words import first_of

Groups = tuple[tuple[str, ...], ...]


def unlinked(scores: Iterable[Score], order: Sequence[str]) -> Groups:
    """The candidates in groups that no nose links, each in `order`; () where all are linked.

    A candidate without a score is in no group.
    """
    met = {(row.candidate, row.assessor) for row in scores if row.score is not None}
    if not met:
        return ()
    oils = factor("candidate", [oil for oil, _ in sorted(met)])
    noses = factor("assessor", [nose for _, nose in sorted(met)])
    size = len(oils.levels) + len(noses.levels)
    edges = (np.ones(len(met)), (oils.of_row, len(oils.levels) + noses.of_row))
    _, of_node = connected_components(csr_array(edges, shape=(size, size)), directed=False)
    part_of = dict(zip(oils.levels, of_node[: len(oils.levels)].tolist(), strict=True))
    groups: dict[int, list[str]] = {}
    for oil in order:
        if oil in part_of:
            groups.setdefault(part_of[oil], []).append(oil)
    return tuple(tuple(group) for group in groups.values()) if len(groups) > 1 else ()


def not_met(groups: Groups, *, attribute: str | None = None) -> str:
    """What the scores cannot compare: the first of each group, and why."""
    both = "both" if len(groups) == 2 else "two of"
    on = f"Of {attribute.replace('_', ' ')}: n" if attribute else "N"
    return (
        f"{on}o nose met {both} {first_of(_heads(groups))}, so what sets them apart may be the "
        "noses alone."
    )


def first_unlinked(scores: Sequence[Score], order: Sequence[str]) -> tuple[str | None, Groups]:
    """The first attribute that ranks and whose scores link less than all, with its groups."""
    for attribute in LIT:
        groups = unlinked([row for row in scores if row.attribute == attribute], order)
        if groups:
            return attribute, groups
    return None, ()


def untold(scores: Sequence[Score], order: Sequence[str]) -> tuple[str, ...]:
    """What the plan of a verdict's sniffs cannot tell apart, in words."""
    attribute, groups = first_unlinked(scores, order)
    rooms = room_per_nose(row for row in scores if row.attribute in LIT)
    return (
        *((not_met(groups, attribute=attribute),) if groups else ()),
        *_not_scored(scores, order),
        *((rooms,) if rooms else ()),
    )


def _not_scored(scores: Sequence[Score], order: Sequence[str]) -> Iterator[str]:
    """Those that are ranked without a score on an attribute that others have."""
    for attribute in LIT:
        met = {row.candidate for row in scores if row.attribute == attribute}
        without = [name for name in order if name not in met]
        if met and without:
            figures = "their figures are" if len(without) > 1 else "its figure is"
            yield (
                f"Of {attribute.replace('_', ' ')}: no score of {first_of(without)} counts; "
                f"{figures} drawn from what the others are like."
            )


def to_link(groups: Groups) -> str:
    """What would tie the groups together."""
    return f"Sniff one of each together, by the same noses: {first_of(_heads(groups))}."


def _heads(groups: Groups) -> list[str]:
    return [group[0] for group in groups]


def room_per_nose(scores: Iterable[Score]) -> str | None:
    """Says that each nose kept to a room of its own, where there are several; else None."""
    pairs = {(row.assessor, row.room) for row in scores if row.score is not None}
    noses, rooms = ({pair[side] for pair in pairs} for side in (0, 1))
    if len(rooms) < 2 or not len(pairs) == len(rooms) == len(noses):
        return None
    return (
        "Each assessor sniffed in a room of their own: "
        "what the room does cannot be told from what the nose does."
    )
