"""How the shelf's tables say what they refuse."""

from django.db.models import CheckConstraint, Q


def taken(what: str) -> dict[str, str]:
    """The sentence for a name that is there already."""
    return {
        "unique": f"{what} of that name stands on the shelf already. Names differ. "
        "Open it there, or name this one otherwise."
    }


def within(field: str, low: float, high: float, *, name: str, said: str) -> CheckConstraint:
    """A figure lies between two ends, which belong to the range; unknown is allowed.

    A per cent sign of the sentence is doubled, because the framework fills in names with it.
    """
    return CheckConstraint(
        condition=Q(**{f"{field}__gte": low, f"{field}__lte": high}),
        name=name,
        violation_error_message=said.replace("%", "%%"),
    )
