"""Questions in a form: a guess is taken by one press, or what was typed is confirmed."""

from django.http import QueryDict

TAKE = "take"
"""Name of the button that takes a guess; its value is 'field=figure'."""


def with_guess(data: QueryDict) -> QueryDict:
    """What was sent; a guess that was pressed stands in the place of what was typed."""
    field, mark, figure = data.get(TAKE, "").partition("=")
    if not mark or field not in data:
        return data
    changed = data.copy()
    changed[field] = figure
    return changed
