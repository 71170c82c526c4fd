"""A guest types a name: a new one sits down, and nobody becomes somebody else by a slip."""

import pytest
from django.test import Client

from throwbench.workshop.house.models import Person
from throwbench.workshop.house.services import add_person
from throwbench.workshop.panel.handing import TRIES

HERE = "/nose/someone-else/"
ASKED = "is called {} here already. Is that you?"


def types(phone: Client, name: str, **other: str):
    return phone.post(HERE, {"name": name, **other})


def test_a_new_name_sits_down(phone, panel):
    assert types(phone, " Guest ").headers["Location"] == "/nose/mine/"
    assert panel.sittings.get(assessor__name="Guest").assessor.role == "assessor"
    assert "Guest" in phone.get("/nose/mine/").text


@pytest.mark.parametrize("typed", ["Odd", "odd ", "o\u200bdd", "\u202eOdd"])
def test_a_name_that_is_here_is_asked_about_first(phone, panel, noses, typed):
    assert ASKED.format("Odd") in types(phone, typed).text
    assert "nose" not in phone.session
    assert types(phone, typed, same="yes").headers["Location"] == "/nose/mine/"
    assert phone.session["nose"] == noses[0].pk
    assert panel.sittings.count() == 4


def test_who_is_known_and_not_at_this_panel_is_not_seated_unasked(phone, panel, by):
    ida = add_person(name="Ida", role="assessor", **by)
    types(phone, "Ida")
    assert not panel.sittings.filter(assessor=ida).exists()
    types(phone, "Ida", same="yes")
    assert panel.sittings.filter(assessor=ida).exists()


def test_somebody_else_of_that_name_adds_a_letter(phone, panel):
    page = types(phone, "Tor").text
    assert 'name="name" required autocomplete="off" value="Tor"' in page
    types(phone, "Tor B")
    assert panel.sittings.get(assessor__name="Tor B")


def test_letters_beyond_z_are_folded_too(phone, panel):
    """Else "åse" would be a second nose, and its scores another opinion."""
    before = panel.sittings.count()
    for typed in ("åSE", "A\N{COMBINING RING ABOVE}se"):
        assert ASKED.format("Åse") in types(phone, typed).text
    assert panel.sittings.count() == before


def test_two_names_that_differ_in_capitals_only_are_two_noses(phone, panel, by):
    for person in [add_person(name=name, role="assessor", **by) for name in ("Ida", "IDA")]:
        assert ASKED.format(person.name) in types(phone, person.name).text
        types(phone, person.name, same="yes")
        assert phone.session["nose"] == person.pk


@pytest.mark.parametrize("role", ["owner", "helper"])
def test_nobody_is_a_maker_without_the_four_digits(handed, panel, by, role):
    phone, code = handed
    maker = add_person(name="Ragnhild B", role=role, **by)
    page = types(phone, "ragnhild b").text
    assert "the four digits say that it is you" in page
    wrong = "0000" if code != "0000" else "1111"
    for tried in ("", wrong):
        assert (
            "These are not the four digits"
            in types(phone, "Ragnhild B", same="yes", code=tried).text
        )
    assert not panel.sittings.filter(assessor=maker).exists()
    assert types(phone, "Ragnhild B", same="yes", code=code).headers["Location"] == "/nose/mine/"
    assert phone.session["nose"] == maker.pk
    assert "_auth_user_id" not in phone.session


def test_wrong_digits_count_against_the_way_back_too(handed, by):
    phone, code = handed
    add_person(name="Ragnhild B", role="owner", **by)
    wrong = "0000" if code != "0000" else "1111"
    for _ in range(TRIES):
        types(phone, "Ragnhild B", same="yes", code=wrong)
    assert "Too many wrong codes came" in types(phone, "Ragnhild B", same="yes", code=code).text
    assert "Too many wrong codes" in phone.get("/way-back/").text
    assert "nose" not in phone.session


def test_signs_that_nobody_sees_are_not_kept(phone, panel):
    types(phone, "Gu\u00ade\u202est\u200b  B")
    assert panel.sittings.get(assessor__name="Guest B")


def test_a_joiner_that_shapes_letters_is_kept(phone, panel):
    types(phone, "می\u200cنا")
    assert panel.sittings.get(assessor__name="می\u200cنا")


@pytest.mark.parametrize("typed", ["\u200b", "\u200d \u200d", "\u202e"])
def test_a_name_that_cannot_be_seen_is_refused(phone, typed):
    before = Person.objects.count()
    assert "The name has no letter that can be seen." in types(phone, typed).text
    assert Person.objects.count() == before


def test_a_name_too_long_for_a_list_is_refused_with_its_length_and_stays_typed(phone):
    page = types(phone, "x" * 41).text
    assert "The name has 41 signs. A list of names has room for 40. Shorten it." in page
    assert "x" * 41 in page
    assert types(phone, "x" * 40).status_code == 302


def test_a_name_like_a_blanked_one_is_refused_and_stays_typed(phone):
    page = types(phone, "Nose 7").text
    assert "is how a blanked person is shown" in page
    assert 'value="Nose 7"' in page


def test_the_maker_adds_no_name_that_looks_like_another(maker, by, noses):
    for typed in ("Odd\u200b", "\u202eOdd"):
        maker.post("/house/people/", {"name": typed, "role": "assessor"})
    assert [one.name for one in Person.objects.filter(name__contains="Odd")] == ["Odd"]
