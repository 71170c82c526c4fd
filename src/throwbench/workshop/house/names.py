"""Names as they are kept: no signs in them that nobody sees, so that alike reads as the same."""

import unicodedata

from throwbench.science.errors import UnclearError

JOINERS = "\N{ZERO WIDTH NON-JOINER}\N{ZERO WIDTH JOINER}"
"""They shape the letters beside them in some scripts; no other format character is kept."""
LONGEST = 40
"""So many signs of a name stand in a list on a phone."""


def as_kept(name: str) -> str:
    """The name in one spelling, without format characters, doubled blanks and those at its ends.

    Empty where nothing is left that can be seen.
    """
    spelled = unicodedata.normalize("NFC", name)
    plain = "".join(sign for sign in spelled if sign in JOINERS or not _is_format(sign))
    return " ".join(plain.split()) if plain.strip(f" {JOINERS}") else ""


def for_a_list(name: str) -> str:
    """The name as it is kept, where it can be read in a list.

    Raises
    ------
    UnclearError
        It has no letter, or more signs than `LONGEST`.
    """
    kept = as_kept(name)
    if not kept:
        raise UnclearError(
            "The name has no letter that can be seen.",
            "A name is read by others.",
            "Type at least one letter.",
        )
    if len(kept) > LONGEST:
        raise UnclearError(
            f"The name has {len(kept)} signs.",
            f"A list of names has room for {LONGEST}.",
            "Shorten it.",
        )
    return kept


def _is_format(sign: str) -> bool:
    return unicodedata.category(sign) == "Cf"
