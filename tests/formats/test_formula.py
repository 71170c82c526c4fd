"""Text that a spreadsheet would take for a formula (`definition` throughout)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from throwbench.formats.formula import guarded, unguarded


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x", "\t=1", "\r1", "'=1", "''-1"])
def test_a_text_like_a_formula_gets_an_apostrophe(text):
    assert guarded(text) == f"'{text}"


@pytest.mark.parametrize("text", ["Slate", "1-2", "'t Veen", "", "'"])
def test_other_text_stays(text):
    assert guarded(text) == unguarded(text) == text


@given(text=st.text(st.sampled_from("'=+-@\t\ra1"), max_size=6))
def test_what_is_guarded_comes_back(text):
    assert unguarded(guarded(text)) == text
