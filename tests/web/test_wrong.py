"""A form that came back: the boxes that need a hand stand at its top, and the first is ready."""

import re
import uuid

import pytest
from django import forms
from django.template import Context, Template

from throwbench.workshop.house.forms import FigureField

PAGE = Template("{{ form }}")


class LoadForm(forms.Form):
    """One box of each kind."""

    entry = forms.UUIDField(widget=forms.HiddenInput, required=False)
    name = forms.CharField(label="Name", required=False, max_length=3)
    load = FigureField(label="Load", unit="%", possible=(0, 20), help_text="of wax")
    lit_at = forms.SplitDateTimeField(label="Lit at", required=False)
    kind = forms.ChoiceField(label="Kind", choices=[("a", "A"), ("b", "B")], required=False,
                             widget=forms.RadioSelect)  # fmt: skip

    def clean(self):
        if self.cleaned_data.get("name") == "no":
            raise forms.ValidationError("It is of no single box.")
        return self.cleaned_data


def page(**sent: str) -> str:
    form = LoadForm({"load": "8", **sent} if sent else None)
    form.is_valid()
    return " ".join(PAGE.render(Context({"form": form})).split())


def alerts(html: str) -> list[str]:
    return re.findall(r'role="alert".*?</div></div>', html)


@pytest.mark.parametrize("sent", [{}, {"name": "R36"}], ids=["new", "good"])
def test_a_form_without_a_fault_has_nothing_at_its_top(sent):
    html = page(**sent)
    assert not alerts(html)
    assert "autofocus" not in html


def test_each_box_is_named_with_a_link_that_leads_to_it():
    html = page(name="long", load="90")
    (alert,) = alerts(html)
    assert '2 boxes need you: <a href="#id_name">Name</a>, <a href="#id_load">Load</a></p>' in alert
    assert 'id="id_name"' in html
    assert 'id="id_load"' in html


def test_one_box_needs():
    assert '1 box needs you: <a href="#id_load">Load</a>' in page(load="x")


def test_the_first_of_them_has_the_cursor_and_no_other():
    html = page(name="long", load="90")
    (ready,) = re.findall(r"<input[^>]*autofocus[^>]*>", html)
    assert 'name="name"' in ready
    assert html.count("autofocus") == 1


def test_a_box_in_error_says_so_and_points_to_its_sentence():
    html = page(load="90")
    (box,) = re.findall(r'<input[^>]*name="load"[^>]*>', html)
    assert 'aria-invalid="true"' in box
    assert 'aria-describedby="id_load_helptext id_load_error"' in box
    assert html.count('id="id_load_error"') == 1


def test_of_two_boxes_that_are_one_the_first_has_the_cursor():
    html = page(lit_at_0="soon", lit_at_1="now")
    assert '<a href="#id_lit_at_0">Lit at</a>' in html
    assert '<fieldset aria-describedby="id_lit_at_error">' in html
    assert html.count('id="id_lit_at_error"') == 1
    (ready,) = re.findall(r"<input[^>]*autofocus[^>]*>", html)
    assert 'name="lit_at_0"' in ready


def test_where_one_of_several_is_pressed_the_list_of_boxes_has_the_cursor():
    html = page(kind="c")
    assert '<a href="#id_kind_0">Kind</a>' in html
    assert 'id="id_kind_0"' in html
    assert 'role="alert" tabindex="-1" autofocus' in html
    assert html.count("autofocus") == 1


def test_what_belongs_to_no_box_stands_there_too():
    (alert,) = alerts(page(name="no"))
    assert "It is of no single box." in alert
    assert "need" not in alert


def test_a_fault_of_a_box_that_is_not_shown_is_not_lost():
    assert "UUID" in alerts(page(entry="x"))[0]
    assert not alerts(page(entry=str(uuid.uuid4())))


def test_two_forms_do_not_share_the_cursor():
    page(load="90")
    assert "autofocus" not in page(load="8")
