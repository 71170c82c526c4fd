"""The report: three sheets, our faces only, every word in its place, no name of an assessor."""

import ctypes
from collections.abc import Iterator
from dataclasses import replace

import pypdfium2
import pypdfium2.raw as pdfium
import pytest
import typst

from throwbench.documents.heading import Heading
from throwbench.documents.report import report
from throwbench.documents.sheets import figures, lead, none_broken, not_tried, stands_out, sure
from throwbench.documents.typeset import TypesettingError, fonts, typeset
from throwbench.verdict.result import Verdict

ALLOWED = ("Besley-Medium", "SourceSans3-Regular", "SourceSans3-Semibold")


@pytest.fixture
def made(verdict: Verdict, heading: Heading) -> Iterator[pypdfium2.PdfDocument]:
    document = pypdfium2.PdfDocument(report(verdict, heading=heading))
    yield document
    document.close()


def text_of(document: pypdfium2.PdfDocument) -> list[str]:
    """The text of each sheet on one line."""
    pages = []
    for page in document:
        said = page.get_textpage().get_text_range().replace("\u00a0", " ")
        pages.append(" ".join(said.split()))
    return pages


def fonts_of(document: pypdfium2.PdfDocument) -> set[tuple[str, bool]]:
    """Name, without its subset tag, and whether it is embedded, of each font of each text."""
    found = set()
    for page in document:
        for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_TEXT], max_depth=15):
            font = pdfium.FPDFTextObj_GetFont(item.raw)
            name = ctypes.create_string_buffer(256)
            pdfium.FPDFFont_GetBaseFontName(font, name, 256)
            embedded = pdfium.FPDFFont_GetIsEmbedded(font) == 1
            found.add((name.value.decode().split("+")[-1], embedded))
    return found


def test_only_the_shipped_faces_are_there_to_be_used() -> None:
    assert set(fonts().families()) == {"Besley", "Source Sans 3"}


def test_the_sheets_carry_our_faces_and_no_other(made: pypdfium2.PdfDocument) -> None:
    assert fonts_of(made) == {(name, True) for name in ALLOWED}


def test_three_sheets_say_which_they_are_and_what_stands_above_them(
    made: pypdfium2.PdfDocument,
) -> None:
    pages = text_of(made)
    assert len(pages) == 3
    for number, said in enumerate(pages, start=1):
        assert "Saltmyr Lysstøperi" in said
        assert f"sheet {number} of 3" in said
        assert "Trial Long Light · verdict of Monday 24 May 2027" in said
        assert (
            "Local rules and a laboratory's test stand above everything here. "
            "All people, suppliers, oils and figures are invented." in said
        )


def test_pick_chart_limits_and_next_stand_on_the_first_sheet(
    made: pypdfium2.PdfDocument, verdict: Verdict
) -> None:
    first = text_of(made)[0]
    assert verdict.headline in first
    assert verdict.risk in first
    assert "Nine fragrance oils from four suppliers." in first
    assert "right: 3.2 to 4.4" in first
    assert "wick 6 broken: soot" in first
    assert all(said in first for said in (*verdict.holds, *verdict.next_steps))
    assert "compatible with a true failure rate of 78 %" in first


def test_the_loss_is_said_as_the_headline_says_it(verdict: Verdict) -> None:
    assert sure(replace(verdict, loss_steps=0.18))[1] == (
        "On average the pick loses about 0.2 step of worth."
    )
    assert len(sure(replace(verdict, loss_steps=None, noses=()))) == 1


def test_what_clean_candles_rule_out_is_computed() -> None:
    # definition: 1 - 0.05 ** (1/2) is 77.6 %; 0.9 ** 29 is 0.047
    assert none_broken() == (
        "“None broken” says what was tried. Two clean candles are compatible with a true failure "
        "rate of 78 %; 29 are needed for under 10 %."
    )


def test_one_score_is_counted_and_two_are(alone: Verdict) -> None:
    assert lead(alone) == (
        "One fragrance oil from one supplier. 1 score is counted, 0 are shown only."
    )
    assert lead(replace(alone, counted=2, not_counted=1)).endswith(
        "2 scores are counted, 1 is shown only."
    )


def test_suppliers_are_counted_only_where_all_are_known(verdict: Verdict) -> None:
    first, *others = verdict.candidates
    told = lead(replace(verdict, candidates=(replace(first, supplier=None), *others)))
    assert told.startswith("Nine fragrance oils. ")


def test_one_oil_alone_has_no_chances(alone: Verdict) -> None:
    told = figures(alone)
    assert "Scores" in told["head"]
    assert not [head for head in told["head"] if "of 100" in head]
    assert told["note"] == "Scores stand on 1 to 5."
    assert all(len(row) == len(told["head"]) for row in told["rows"])
    assert "over 99" not in str(told)


def test_the_same_in_figures_on_the_second(made: pypdfium2.PdfDocument) -> None:
    second = text_of(made)[1]
    assert "Slate After Rain in the pick 4.2 3.9–4.5 3.8–4.6 4.3 3.9–4.6 over 99 12" in second
    assert "Goat Willow test again not ranked none none none none none 0" in second
    assert "wick 6 broken: soot; wick 5 not yet known: last third not burned" in second
    assert "The chances add up to four places." in second


def test_reasons_doubt_and_signature_on_the_third(
    made: pypdfium2.PdfDocument, verdict: Verdict
) -> None:
    third = text_of(made)[2]
    assert "Loud in the cold, weak when lit." in third
    assert "One assessor scores about one step higher on all oils" in third
    assert all(said in third for said in verdict.defaults)
    assert "Decided" in third
    boxes = [
        (right - left, top - bottom)
        for item in made[2].get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH], max_depth=15)
        for left, bottom, right, top in [item.get_bounds()]
    ]
    # definition: boxes for handwriting are 12 mm high at least; 12 mm is 34.02 pt
    assert sum(34 <= height < 36 and width > 70 for width, height in boxes) == 3


def test_no_name_of_an_assessor_is_printed(verdict: Verdict, heading: Heading) -> None:
    spelled = "scores.csv, line 3, assessor: Ödd is spelled Odd on line 2 and counts as another one"
    unread = "Not used: scores.csv, line 9, score: 'Odd' is refused and the row left out"
    named = replace(verdict, problems=(*verdict.problems, spelled), holds=(unread,))
    made = report(named, heading=heading, assessor_names=["Odd", "Ödd"])
    said = " ".join(text_of(pypdfium2.PdfDocument(made)))
    assert "Pernille" not in said
    assert "Odd" not in said
    assert "is counted (one assessor)" in said
    assert "assessor: one assessor is spelled one assessor on line 2" in said
    assert "score: 'one assessor' is refused" in said


def test_an_assessor_named_like_a_word_leaves_words_and_oils_alone(
    verdict: Verdict, heading: Heading
) -> None:
    oil = replace(verdict.candidates[0], candidate="Burn Oil", reasons=("Burn Oil is loud.",))
    wait = "Burn Oil: sell none before its limits are known. A burn log is missing."
    asked = "scores.csv, line 1: candle K7F is Burn Oil here and Fog on line 9; A or B"
    named = replace(verdict, candidates=(oil,), holds=(wait,), problems=(asked,))
    made = report(named, heading=heading, assessor_names=["A", "1", "Burn", "is"])
    said = " ".join(text_of(pypdfium2.PdfDocument(made)))
    assert wait in said
    assert "Burn Oil is loud." in said
    assert "line 1: candle K7F one assessor Burn Oil here and Fog on line 9; A or B" in said


def test_the_same_input_gives_the_same_bytes(verdict: Verdict, heading: Heading) -> None:
    assert report(verdict, heading=heading) == report(verdict, heading=heading)


def test_the_sheets_are_made_for_keeping_and_for_screen_readers(
    verdict: Verdict, heading: Heading
) -> None:
    made = report(verdict, heading=heading)
    assert b"<pdfaid:part>2</pdfaid:part>" in made.replace(b"\n", b"")
    assert b"<pdfuaid:part>1</pdfuaid:part>" in made.replace(b"\n", b"")
    assert pdfium.FPDFCatalog_IsTagged(pypdfium2.PdfDocument(made).raw) == 1


def test_every_letter_of_the_neighbours_alphabets_has_a_form(
    verdict: Verdict, heading: Heading
) -> None:
    # An export for keeping fails on any character without a glyph, so setting it is the check.
    letters = "ÅÆØÄÖ åæøäö ŰŐÁÉ űőáé ßçñ łžčř ğşı"
    oil = replace(verdict.candidates[0], candidate=letters)
    made = report(replace(verdict, candidates=(oil,)), heading=heading)
    document = pypdfium2.PdfDocument(made)
    assert all(letters in said for said in text_of(document))
    assert fonts_of(document) == {(name, True) for name in ALLOWED}


def test_a_character_without_a_form_would_stop_the_export(heading: Heading) -> None:
    data = {"title": "火"}
    with pytest.raises(typst.TypstError):
        typeset("picture.typ", data, form="pdf", day=heading.day)


def test_a_name_that_looks_like_markup_is_printed_as_it_is(
    crowd: Verdict, heading: Heading
) -> None:
    made = report(crowd, heading=replace(heading, workshop="*#x* $y$ `z`"))
    pages = text_of(pypdfium2.PdfDocument(made))
    assert any('=1+1 #let x = "$y$"' in said for said in pages)
    assert all("*#x* $y$ `z`" in said for said in pages)


def test_no_text_of_a_crowded_report_leaves_the_sheet(crowd: Verdict, heading: Heading) -> None:
    document = pypdfium2.PdfDocument(report(crowd, heading=heading))
    for page in document:
        width, height = page.get_size()
        for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_TEXT], max_depth=1):
            left, bottom, right, top = item.get_bounds()
            assert left > 30
            assert right < width - 30
            assert 0 < bottom <= top < height


def test_an_unknown_font_is_an_error_and_not_a_warning(
    heading: Heading, monkeypatch: pytest.MonkeyPatch
) -> None:
    others = typst.Fonts(include_system_fonts=False, include_embedded_fonts=True)
    data = {
        "title": "t",
        "headline": "A",
        "risk": "B",
        "svg": '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>',
        "legend": "C",
        "stands_above": "D",
        "invented": "",
        "theme": {"paper": "#fff", "ink": "#000", "ink_2": "#000", "ink_3": "#000"},
    }
    assert typeset("picture.typ", data, form="png", day=heading.day)
    monkeypatch.setattr("throwbench.documents.typeset.fonts", lambda: others)
    with pytest.raises(TypesettingError, match="unknown font family"):
        typeset("picture.typ", data, form="png", day=heading.day)


def test_split_opinions_are_said_before_anything_else_of_an_oil(verdict: Verdict) -> None:
    one = replace(verdict.candidates[0], split="loved by 2, disliked by 3", reasons=("Loud.",))
    assert stands_out(one) == ("Opinions split: loved by 2, disliked by 3.", "Loud.")
    assert stands_out(replace(one, split=None)) == ("Loud.",)


def test_what_a_laboratory_must_try_is_named_where_there_is_such_a_rule(verdict: Verdict) -> None:
    assert not_tried(verdict) == (
        "Not tried, for a laboratory: tip-over, fire behaviour of the vessel."
    )
    assert not_tried(replace(verdict, not_tried=())) == ""
