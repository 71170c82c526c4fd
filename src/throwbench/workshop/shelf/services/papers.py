"""Papers: asked for, and come."""

from datetime import date, datetime

from django.db import transaction

from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models import Oil, Paper
from throwbench.workshop.shelf.services.keeping import kept


@transaction.atomic
def add_paper(
    oil: Oil,
    *,
    kind: str,
    version: str,
    dated: date | None,
    valid_until: date | None = None,
    asked_on: date | None = None,
    who: Person,
    now: datetime,
) -> Paper:
    """A version of a paper, or that it was asked for. A paper that came fills what was asked."""
    asked = oil.papers.filter(kind=kind, dated=None).first()
    paper = asked or Paper(oil=oil, kind=kind)
    paper.version = version.strip()
    paper.dated, paper.valid_until = dated, valid_until
    paper.asked_on = asked_on or paper.asked_on
    return kept(paper)
