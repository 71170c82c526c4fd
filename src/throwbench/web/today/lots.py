"""Lots of wax and oil of which little is left, by what was weighed out of them."""

from collections.abc import Iterator

from django.db.models import OuterRef, Subquery, Sum

from throwbench.science.units import weight_words
from throwbench.web.today.finding import Finding
from throwbench.workshop.shelf.models import Lot
from throwbench.workshop.trials.models import Pour, Weighing

LITTLE = 0.2
"""Less than this share of a delivery is little."""
NOTHING = 0.01
"""Less than this share is no more than what the scale cannot tell."""


def low_lots() -> Iterator[Finding]:
    """Deliveries whose amount is known and of which little is left."""
    used = _weighed_out("wax") | _weighed_out("oil")
    for lot in Lot.objects.filter(pk__in=used, amount_mg__gt=0).select_related("wax", "oil"):
        amount = lot.amount_mg or 0
        left = amount - used[lot.pk]
        if NOTHING * amount < left < LITTLE * amount:
            yield Finding(
                mark="pour",
                what=f"{lot.wax or lot.oil}: {weight_words(left / 1000)} of lot {lot.code} left.",
                why="By what was weighed out of it. Pour what belongs to one trial from one lot.",
            )


def _weighed_out(what: str) -> dict[int, int]:
    """Lot to milligrams; of each pitcher the last weighing counts."""
    last = Weighing.objects.filter(pour=OuterRef("pk"), what=what).order_by("-at", "-id")
    pours = Pour.objects.filter(**{f"{what}_lot__isnull": False})
    weighed = pours.annotate(mg=Subquery(last.values("mg")[:1])).exclude(mg=None)
    return dict(weighed.values_list(f"{what}_lot").annotate(Sum("mg")).order_by())
