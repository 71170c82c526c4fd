"""What is written on a pitcher: the letter of its oil in the plan, A2 for the oil's second one.

The same letter stands on the pour sheet and on the pages. A poured pitcher of a sealed trial has a
number instead, because a letter would name its oil.
"""

from collections import Counter
from string import ascii_uppercase

from throwbench.workshop.trials.models import Trial


class PitcherNames:
    """Names for one trial; each call of `next_of` gives the candidate's next pitcher its name."""

    def __init__(self, trial: Trial) -> None:
        ordered = trial.candidates.values_list("pk", flat=True)
        self._letters = {pk: letter_of(place) for place, pk in enumerate(ordered)}
        self._given: Counter[int] = Counter()

    def next_of(self, candidate: int) -> str:
        self._given[candidate] += 1
        nth = self._given[candidate]
        return self._letters[candidate] + (str(nth) if nth > 1 else "")


def letter_of(place: int) -> str:
    """A to Z, then AA to ZZ."""
    again, letter = divmod(place, len(ascii_uppercase))
    return ascii_uppercase[letter] * (again + 1)
