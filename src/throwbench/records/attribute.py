"""What is scored, and in which kinds of panel it is asked: the one list of both.

A new one stands last: the draws of the others, and the columns of kept files, keep their order.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Attribute:
    """One thing that a nose answers on.

    name : in files. words : on a page. said : the question. steps : a word for each of five
    answers, the lowest first. lit : judged on a burning candle; it ranks an oil. modelled : the
    verdict answers on it; of others it shows the scores and does not count them.
    """

    name: str
    words: str
    said: str
    steps: tuple[str, ...]
    lit: bool = False
    modelled: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """What a panel may be asked; each kind is a sitting of its own.

    words : on its page. offered : in the list for a panel of candles; a blotter has a page of its
    own. asks : in the order in which they are asked, each with the hint beside its question.
    has_slip : whether there is one to print.
    """

    words: str
    offered: str
    asks: tuple[tuple[Attribute, str], ...]
    has_slip: bool = True

    @property
    def names(self) -> tuple[str, ...]:
        """Of its attributes, as they are asked."""
        return tuple(attribute.name for attribute, _ in self.asks)


_STRONG = "How strong is it?"
_STRENGTHS = ("none", "faint", "clear", "strong", "overpowering")

LIKING = Attribute(
    name="liking",
    words="liking",
    said="Do you like it?",
    steps=("no", "not much", "so-so", "yes", "love it"),
    lit=True,
    modelled=True,
)
HOT_THROW = Attribute(
    name="hot_throw", words="hot throw", said=_STRONG, steps=_STRENGTHS, lit=True, modelled=True
)
COLD_THROW = Attribute(
    name="cold_throw", words="cold throw", said=_STRONG, steps=_STRENGTHS, modelled=True
)
LIKENESS = Attribute(
    name="likeness",
    words="likeness to the bottle",
    said="How close is it to the bottle?",
    steps=("not at all", "a little", "half", "close", "the same"),
)
UNIQUENESS = Attribute(
    name="uniqueness",
    words="uniqueness",
    said="How much does it stand apart?",
    steps=("not at all", "a little", "half", "clearly", "like no other"),
)
ALL = (LIKING, HOT_THROW, COLD_THROW, LIKENESS, UNIQUENESS)
"""Every attribute, in the order of files and tables."""

_AT_HOME = "for your own home"
KINDS = {
    "lit": Kind(
        words="liking and strength, lit",
        offered="lit: liking and strength",
        asks=((LIKING, _AT_HOME), (HOT_THROW, "lit")),
    ),
    "unlit": Kind(
        words="strength, unlit", offered="unlit: strength", asks=((COLD_THROW, "unlit"),)
    ),
    "likeness": Kind(
        words="likeness to the bottle",
        offered="likeness to the bottle, in a sitting of its own",
        asks=((LIKENESS, ""),),
    ),
    "blotter": Kind(
        words="liking and strength, from the blotter",
        offered="",
        asks=((LIKING, _AT_HOME), (COLD_THROW, "from the blotter")),
    ),
    "uniqueness": Kind(
        words="uniqueness, for the maker",
        offered="how much it stands apart, for the maker",
        asks=((UNIQUENESS, "from what others sell"),),
        has_slip=False,
    ),
}
"""Every kind of panel, in the order in which they are offered."""

ATTRIBUTES = tuple(one.name for one in ALL)
"""The names that a score may carry. Hot and cold throw are the strength, lit and unlit."""
LIT = tuple(one.name for one in ALL if one.lit)
"""Attributes judged on a burning candle: a badly wicked candle says nothing about these. They rank
an oil."""
MODELLED = tuple(one.name for one in ALL if one.modelled)
"""Attributes that a verdict answers on; it shows the scores of others and does not count them."""
