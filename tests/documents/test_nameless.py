"""What leaves the workshop carries no name of an assessor."""

from throwbench.documents.nameless import nameless, scale_use
from throwbench.verdict.result import NoseNote


def note(shift: float) -> NoseNote:
    return NoseNote(assessor="Pernille", shift=shift, chance=0.98, words="Pernille scores high")


def test_a_name_is_struck_out_as_a_whole_word_only() -> None:
    said = nameless("Tor gave 5 (Tor, not Torvøya).", ["Tor"])
    assert said == "one assessor gave 5 (one assessor, not Torvøya)."


def test_a_name_is_text_and_no_pattern() -> None:
    assert nameless("A. B and AxB", ["A. B"]) == "one assessor and AxB"


def test_a_code_of_one_letter_or_of_digits_names_nobody() -> None:
    said = "scores.csv, line 12: A day with a time is needed."
    assert nameless(said, ["A", "12"]) == said


def test_the_name_of_an_oil_stays_whole() -> None:
    said = nameless("Burn Oil is asked about by Burn.", ["Burn"], oils=["Burn Oil", "Oil"])
    assert said == "Burn Oil is asked about by one assessor."


def test_without_names_nothing_changes() -> None:
    assert nameless("Burn it to the end.", ["", " "]) == "Burn it to the end."


def test_the_use_of_the_scale_is_said_without_saying_by_whom() -> None:
    assert scale_use([]) == ()
    assert scale_use([note(1.1)]) == (
        "One assessor scores about one step higher on all oils; this is taken into account.",
    )
    assert scale_use([note(-0.4)]) == (
        "One assessor scores about half a step lower on all oils; this is taken into account.",
    )
    assert scale_use([note(1.1), note(0.9), note(-1.4)]) == (
        "Assessors use the scale apart (two higher and one lower, by about 1.5 steps at most); "
        "this is taken into account.",
    )
    assert "(two lower, by" in scale_use([note(-1.0), note(-0.5)])[0]
