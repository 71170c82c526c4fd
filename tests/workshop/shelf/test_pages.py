"""The pages of the shelf: what they say, what they ask, and what they refuse."""

import re
from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.models import Oil, Supplier, Wax


def text_of(answer) -> str:
    return answer.content.decode().replace("\xa0", " ").replace("&nbsp;", " ")


def page(client, name, *args) -> str:
    answer = client.get(reverse(f"shelf:{name}", args=args))
    assert answer.status_code == 200
    return text_of(answer)


def send(client, address, /, *args, **told):
    return client.post(reverse(f"shelf:{address}", args=args), told)


@pytest.fixture
def shelf(rope, linen, by) -> dict[str, int]:
    """One of everything, by the name of its page."""
    cup = services.add_vessel(name="stoneware cup", inside_mm=68, **by)
    blend = services.add_blend(name="Softer Rope", parts={rope: 80, linen: 20}, **by)
    return {
        "oil": rope.pk,
        "blend": blend.pk,
        "wax": services.add_wax(name="R-36", never_above_c=85, **by).pk,
        "wick": services.add_wick(series="flat cotton", size="4", **by).pk,
        "vessel": cup.pk,
        "piece": services.add_piece(cup, name="Cup 7", flaw="cosmetic", **by).pk,
        "fixing": services.add_fixing(name="high-melt glue", kind="glue", **by).pk,
    }


PAGES = (
    ("index", ""), ("lots", ""), ("oil_new", ""), ("oil", "oil"), ("oil", "blend"),
    ("oil_change", "oil"), ("paper_new", "oil"), ("blend_new", ""), ("blend_change", "blend"),
    ("wax_new", ""), ("wax", "wax"), ("wax_change", "wax"), ("wick_new", ""), ("wick", "wick"),
    ("vessel_new", ""), ("vessel", "vessel"), ("vessel_change", "vessel"),
    ("piece_new", "vessel"), ("piece", "piece"), ("flaw_right", "piece"), ("fixing_new", ""),
)  # fmt: skip


@pytest.mark.parametrize(("name", "of"), PAGES)
def test_every_page_opens_for_the_maker(maker, shelf, name, of):
    assert "<h1" in page(maker, name, *([shelf[of]] if of else []))


@pytest.mark.parametrize(("name", "of"), PAGES)
def test_no_page_opens_for_a_nose_or_a_stranger(nose, stranger, shelf, name, of):
    address = reverse(f"shelf:{name}", args=[shelf[of]] if of else [])
    assert nose.get(address).status_code == 403
    assert stranger.get(address).status_code == 302


@pytest.mark.parametrize(("name", "of"), PAGES)
def test_no_page_carries_a_style_or_script_of_its_own(maker, shelf, name, of):
    said = page(maker, name, *([shelf[of]] if of else []))
    assert ' style="' not in said
    scripts = re.findall(r"<script([^>]*)>(.*?)</script>", said, re.DOTALL)
    assert all(' src="/static/' in where and not inside for where, inside in scripts)
    assert said.count("<script") == len(scripts)


@pytest.mark.parametrize("material", ["oil", "wax", "wick", "vessel"])
def test_a_lot_is_noted_on_the_page_of_its_material(maker, shelf, material):
    told = {"code": "A-1", "came_on": "2027-05-20", "price_cents": "18,40 €"}
    told |= {"count": "60"} if material in ("wick", "vessel") else {"amount_mg": "16 oz"}
    assert send(maker, "lot_new", material, shelf[material], **told).status_code == 302
    said = page(maker, material, shelf[material])
    assert "A-1" in said
    assert "18.40 €" in said
    assert ("60 pieces" if "count" in told else "453.59 g") in said


def test_a_lot_of_nothing_known_is_not_there(maker, shelf):
    assert send(maker, "lot_new", "fixing", 1, code="A").status_code == 404
    assert send(maker, "lot_new", "oil", 99, code="A").status_code == 404


@pytest.mark.parametrize(
    ("told", "said"),
    [
        ({"code": ""}, "Lot is empty. It is needed here. Fill it in."),
        ({"came_on": "yesterday"}, "That is not a day."),
        ({"count": "2,5"}, "The count is 2.5. Pieces are counted whole."),
        ({"count": "0"}, "possible is 1 to"),
        ({"price_cents": "1,234"}, "can be 1.234 or 1234"),
    ],
)
def test_a_lot_that_cannot_be_is_asked_for_again_with_what_was_typed(maker, shelf, told, said):
    sent = {"code": "B-77", **told}
    text = text_of(send(maker, "lot_new", "wick", shelf["wick"], **sent))
    assert said in text
    assert all(f'value="{typed}"' in text for typed in sent.values() if typed)


def test_an_empty_shelf_teaches_with_one_line(maker):
    said = page(maker, "index")
    assert "The shelf is empty" in said
    assert "Type “slate rain, Tarnholt, 8 %, wick 4” above and it becomes an oil" in said


def test_one_line_becomes_an_oil_and_the_rest_is_said_back(maker):
    sent = send(maker, "index", line="slate rain, Tarnholt, 8 %, wick 4, blue bottle")
    oil = Oil.objects.get()
    there = reverse("shelf:oil", args=[oil.pk])
    assert sent.url.partition("?")[0] == there
    said = page(maker, "oil", oil.pk)
    assert "Typed as “slate rain, Tarnholt, 8 %, wick 4, blue bottle”" in said
    assert "8 % is taken of wax, because no basis was given" in said
    assert "“blue bottle” was not understood" in said


def test_the_line_for_the_next_oil_stands_on_the_page_of_one_that_has_just_come(maker):
    first = send(maker, "index", line="slate rain").url
    said = text_of(maker.get(first))
    assert "Put the next oil on the shelf" in said
    assert "Begin a trial" not in said
    second = send(maker, "index", line="harbour tar").url
    assert "Begin a trial: 2 oils are on the shelf" in text_of(maker.get(second))
    assert "Put the next oil" not in page(maker, "oil", Oil.objects.last().pk)


def test_what_nobody_knows_of_an_oil_in_soap_is_folded(maker, rope, by):
    assert "<summary>Nothing is known of it in soap</summary>" in page(maker, "oil", rope.pk)
    assert "<details" in page(maker, "oil_new")
    known = services.add_oil(name="Goat Willow", supplier=None, soap_browns=False, **by)
    assert "Nothing is known of it in soap" not in page(maker, "oil", known.pk)
    assert "<summary>In soap</summary>" not in page(maker, "oil_change", known.pk)
    assert "<summary>In soap</summary>" in page(maker, "oil_change", rope.pk)


def test_a_wrong_figure_for_soap_is_not_folded_away(maker):
    said = text_of(send(maker, "oil_new", name="Rope", soap_max_percent="120"))
    assert "<summary>In soap</summary>" not in said


def test_a_line_that_is_refused_stays_in_its_box(maker, rope):
    said = text_of(send(maker, "index", line="Ferry Rope, Fjellrype Duft, 8 %"))
    assert "This oil stands on the shelf already." in said
    assert 'value="Ferry Rope, Fjellrype Duft, 8 %"' in said


def test_an_empty_line_says_how_one_is_typed(maker):
    assert "The line is empty. It begins with a name." in text_of(send(maker, "index", line=""))


def test_the_whole_form_makes_an_oil_and_its_supplier_in_passing(maker):
    send(
        maker, "oil_new", name="Goat Willow", supplier="Kisbalog Illat", flash_c="200F",
        density_g_ml="0,95", soap_browns="yes", soap_fades="no", vanillin_percent="0",
    )  # fmt: skip
    oil = Oil.objects.get()
    assert (str(oil.supplier), round(oil.flash_c, 2), oil.density_g_ml) == (
        "Kisbalog Illat", 93.33, 0.95,
    )  # fmt: skip
    assert (oil.soap_browns, oil.soap_fades, oil.soap_seizes) == (True, False, None)


def test_what_is_refused_leaves_no_supplier_behind(maker, shelf):
    said = text_of(send(maker, "wax_new", name="R-36", supplier="Kisbalog Illat"))
    assert "A wax of that name stands on the shelf already." in said
    assert 'value="Kisbalog Illat"' in said
    assert not Supplier.objects.filter(name="Kisbalog Illat").exists()


def test_the_page_of_an_oil_says_what_a_flash_point_is(maker, rope):
    said = page(maker, "oil", rope.pk)
    assert (
        "flash point, above which its vapour can catch fire. It says nothing about when to add "
        "the oil" in said
    )
    assert "vanillin: not known, so browning is open" in said


def test_invented_figures_say_so(maker, by):
    oil = services.add_oil(name="Linen Loft", supplier=None, invented=True, **by)
    said = page(maker, "oil", oil.pk)
    assert "This composition is invented." in said
    assert "Do not use these figures for a label." in said


def test_real_figures_do_not(maker, rope):
    assert "invented" not in page(maker, "oil", rope.pk)


def test_changed_facts_show_what_they_were(maker, rope):
    told = {"name": "Ferry Rope", "supplier": "Fjellrype Duft", "flash_c": "96", "why": "sheet 5"}
    send(maker, "oil_change", rope.pk, **told)
    said = page(maker, "oil", rope.pk)
    assert "Flash point [°C]: 94 became 96" in said
    assert "Ragnhild: sheet 5" in said


def test_the_form_of_an_oil_holds_what_is_known(maker, by):
    oil = services.add_oil(name="Goat Willow", supplier=None, soap_browns=True, flash_c=93, **by)
    said = page(maker, "oil_change", oil.pk)
    assert 'value="93"' in said
    assert '<option value="yes" selected>' in said


def test_a_paper_that_came_stands_in_the_table(maker, rope):
    told = {"kind": "conformity certificate", "version": "2", "dated": "2026-02-03"}
    send(maker, "paper_new", rope.pk, **told, valid_until="2027-01-31")
    assert "ran out on 31 Jan 2027" in page(maker, "oil", rope.pk)
    assert "one certificate is out of date" in page(maker, "index")


def test_a_paper_without_any_day_is_refused(maker, rope):
    said = text_of(send(maker, "paper_new", rope.pk, kind="safety data sheet", version="4"))
    assert "This paper has no day." in said


def test_a_card_in_fahrenheit_is_read(maker):
    send(maker, "wax_new", name="R-36", never_above_c="185F", add_oil_low_c="158F", cure_days="10")
    wax = Wax.objects.get()
    assert (round(wax.never_above_c, 6), round(wax.add_oil_low_c, 6), wax.cure_days) == (85, 70, 10)


def test_an_unlikely_card_is_asked_about_and_then_kept(maker):
    told = {"name": "R-36", "never_above_c": "185"}
    asked = text_of(send(maker, "wax_new", **told))
    assert "If 185 °F is meant, that is 85 °C: write “185F”." in asked
    assert 'value="185"' in asked
    assert not Wax.objects.exists()
    assert send(maker, "wax_new", **told, sure="on").status_code == 302
    assert Wax.objects.get().never_above_c == 185


def test_a_card_that_cannot_be_is_refused_however_sure(maker):
    told = {"name": "R-36", "never_above_c": "72", "add_oil_high_c": "74", "sure": "on"}
    assert "“Add oil at” goes above “never above”." in text_of(send(maker, "wax_new", **told))
    assert not Wax.objects.exists()


def test_an_answered_question_stays_answered_while_something_else_is_put_right(maker, shelf):
    told = {"name": "R-36", "never_above_c": "185", "sure": "on"}
    said = text_of(send(maker, "wax_new", **told))
    assert "A wax of that name stands on the shelf already." in said
    assert "If 185 °F is meant" not in said
    assert 'name="sure" id="id_sure" checked' in said


def test_half_a_day_of_cure_is_refused(maker):
    said = text_of(send(maker, "wax_new", name="R-36", cure_days="9,5"))
    assert "The cure is 9.5 days. It is counted in whole days." in said


def test_a_new_card_shows_what_the_old_one_said(maker, shelf):
    send(maker, "wax_change", shelf["wax"], name="R-36", never_above_c="80")
    said = page(maker, "wax", shelf["wax"])
    assert "Never above [°C]: 85 became 80" in said
    assert "Wax on fire: lid on, no water." in said


def test_a_wick_and_a_fixing_stand_on_the_shelf(maker):
    send(maker, "wick_new", series="flat cotton", size="4", supplier="Tarnholt")
    send(maker, "fixing_new", name="wick sticker", kind="sticker")
    said = page(maker, "index")
    assert "flat cotton" in said
    assert "wick sticker" in said


def test_a_vessel_of_a_volume_that_does_not_fit_is_asked_about(maker):
    told = {"name": "cup", "inside_mm": "68", "height_mm": "74", "brim_ml": "2100"}
    assert "a straight vessel of that size holds 269 ml" in text_of(
        send(maker, "vessel_new", **told)
    )
    assert send(maker, "vessel_new", **{**told, "brim_ml": "7.1 fl oz"}).status_code == 302


def test_changed_measures_show_what_they_were(maker, shelf):
    send(maker, "vessel_change", shelf["vessel"], name="stoneware cup", inside_mm="69")
    assert "Inside diameter [mm]: 68 became 69" in page(maker, "vessel", shelf["vessel"])


def test_a_chip_seen_after_washing_bars_the_vessel(maker, shelf):
    send(maker, "wash", shelf["piece"])
    send(maker, "piece", shelf["piece"], flaw="structural", note="a chip at the rim")
    assert "Cup 7 is never lit: a chip at the rim." in page(maker, "piece", shelf["piece"])
    assert "Cup 7 is never lit: a chip at the rim." in page(maker, "index")
    assert "washed once" in page(maker, "vessel", shelf["vessel"])


def test_a_lesser_flaw_cannot_be_chosen_after_a_chip(maker, shelf):
    send(maker, "piece", shelf["piece"], flaw="structural", note="a chip")
    assert 'value="cosmetic"' not in page(maker, "piece", shelf["piece"])
    send(maker, "piece", shelf["piece"], flaw="cosmetic", note="")
    assert "never lit" in page(maker, "piece", shelf["piece"])


def test_a_flaw_is_put_right_with_its_reason_only(maker, shelf):
    send(maker, "piece", shelf["piece"], flaw="structural", note="a chip")
    assert "is empty" in text_of(send(maker, "flaw_right", shelf["piece"], flaw="none", why=""))
    send(maker, "flaw_right", shelf["piece"], flaw="none", why="it was Cup 8")
    said = page(maker, "piece", shelf["piece"])
    assert "Cup 7 has no flaw noted" in said
    assert "Ragnhild: it was Cup 8" in said


def test_a_single_vessel_is_named(maker, shelf):
    send(maker, "piece_new", shelf["vessel"], name="Cup 1", flaw="none")
    assert "no flaw noted" in page(maker, "vessel", shelf["vessel"])


def test_pressed_twice_a_piece_is_washed_once(maker, shelf):
    entry = "6f1c1d0e-58b8-4b0f-9a34-7a0f4f7f5a11"
    for _ in range(2):
        send(maker, "wash", shelf["piece"], entry=entry)
    assert "washed once" in page(maker, "vessel", shelf["vessel"])


def test_a_blend_is_made_of_names_and_parts(maker, rope, linen):
    told = {"oil_1": "ferry rope", "parts_1": "80", "oil_2": "Linen Loft", "parts_2": "20"}
    send(maker, "blend_new", name="Softer Rope", **told)
    said = page(maker, "oil", Oil.objects.get(name="Softer Rope").pk)
    assert "80 % Ferry Rope and 20 % Linen Loft, by weight." in said


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"oil_2": "Linen Lift"}, "“Linen Lift” is not an oil of this shelf. A part is an oil by "),
        ({"oil_2": "Linen Lift"}, "Did you mean Linen Loft?"),
        ({"oil_2": "Zzz"}, "Put it on the shelf first, or choose another."),
        ({"parts_2": ""}, "Linen Loft has no parts."),
        ({"oil_2": "Ferry Rope"}, "Ferry Rope is named twice."),
        ({"oil_2": "", "parts_2": ""}, "A blend has two or more different oils"),
        ({"parts_2": "0"}, "Parts of Linen Loft from Tarnholt Riechstoffe is 0"),
    ],
)
def test_a_blend_that_cannot_be_says_why(maker, rope, linen, change, said):
    told = {"oil_1": "Ferry Rope", "parts_1": "80", "oil_2": "Linen Loft", "parts_2": "20"}
    text = text_of(send(maker, "blend_new", name="Softer Rope", **{**told, **change}))
    assert said in text
    assert 'value="Softer Rope"' in text


def test_two_oils_of_one_name_are_told_apart_by_supplier(maker, rope, linen, by):
    services.add_oil(name="Linen Loft", supplier=rope.supplier, **by)
    told = {"oil_1": "Ferry Rope", "parts_1": "80", "oil_2": "Linen Loft", "parts_2": "20"}
    assert "Two oils are called Linen Loft." in text_of(
        send(maker, "blend_new", name="Softer Rope", **told)
    )
    told["oil_2"] = "Linen Loft from Tarnholt Riechstoffe"
    assert send(maker, "blend_new", name="Softer Rope", **told).status_code == 302


def test_a_used_blend_offers_its_next_version(maker, shelf, rope, by):
    softer = Oil.objects.get(pk=shelf["blend"])
    services.add_blend(name="Softest", parts={softer: 1, rope: 1}, **by)
    assert "is in use and stays as it is" in page(maker, "blend_change", softer.pk)
    told = {"oil_1": "Ferry Rope", "parts_1": "70", "oil_2": "Linen Loft", "parts_2": "30"}
    send(maker, "blend_change", softer.pk, **told)
    said = page(maker, "oil", Oil.objects.get(name="Softer Rope, version 2").pk)
    assert "It came after" in said
    assert "Its next version is" in page(maker, "oil", softer.pk)


def test_lots_are_shown_a_hundred_at_a_time(maker, rope, by):
    for number in range(101):
        services.add_lot(rope, code=f"L-{number:03}", came_on=date(2027, 1, 1), **by)
    said = page(maker, "lots")
    assert "101 deliveries" in said
    assert "L-099" in said
    assert "L-100" not in said
    assert "L-100" in text_of(maker.get(reverse("shelf:lots"), {"page": "2"}))


def queries(client, address) -> int:
    with CaptureQueriesContext(
        connection,
    ) as seen:
        client.get(address)
    return len(seen)


@pytest.mark.parametrize(("name", "of"), [("index", ""), ("lots", ""), ("oil", "blend")])
def test_more_on_the_shelf_asks_the_database_no_more_often(maker, shelf, by, name, of):
    address = reverse(f"shelf:{name}", args=[shelf[of]] if of else [])
    for material in ("one", "two"):
        services.add_lot(Oil.objects.get(pk=shelf["oil"]), code=material, **by)
    before = queries(maker, address)
    for number in range(12):
        oil = services.oil_from_line(f"oil {number}, supplier {number}", **by).oil
        services.add_paper(
            oil, kind="safety data sheet", version="1", dated=date(2026, 1, 1),
            valid_until=date(2027, 1, 1), **by,
        )  # fmt: skip
        services.add_lot(oil, code="A", came_on=date(2027, 5, 1), **by)
        services.add_blend(name=f"blend {number}", parts={oil: 1, _rope(): 1}, **by)
    assert queries(maker, address) <= before + 1


def _rope() -> Oil:
    return Oil.objects.get(name="Ferry Rope")


def test_a_whole_form_that_comes_back_names_its_boxes_at_the_top(maker):
    said = text_of(send(maker, "oil_new", name="", flash_c="hot"))
    assert "2 boxes need you: " in said
    for box in ("name", "flash_c"):
        assert f'<a href="#id_{box}">' in said
        assert re.search(rf'<input[^>]*aria-invalid="true"[^>]*id="id_{box}"', said)
    assert re.findall(r'name="([^"]+)"[^>]*autofocus', said) == ["name"]
