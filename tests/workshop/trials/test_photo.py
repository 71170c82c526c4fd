"""A photo now, its numbers tonight: what is kept, when, and what a photo may say."""

import base64
import hashlib
import json
import re
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext

import throwbench
from throwbench.science.errors import UnclearError
from throwbench.web.folder import Folder
from throwbench.workshop.trials.asking import QuestionsError
from throwbench.workshop.trials.models import Burn, Check, Photo
from throwbench.workshop.trials.selectors.photos import photos_of, unread, unread_count
from throwbench.workshop.trials.services import burn as burning
from throwbench.workshop.trials.services import photos as keeping
from throwbench.workshop.trials.sights import LOOKS
from workshop.trials.pictures import encoded, halves, phone_photo

SCRIPT = (Path(throwbench.__file__).parent / "web/static/field/photo.js").read_text()
MOST_CHARACTERS = int(
    re.search(r"MOST_CHARACTERS = ([\d_]+);", SCRIPT)[1]  # type: ignore[index]
)
"""So long is the text that the page sends at most."""
HOUR, MINUTE = timedelta(hours=1), timedelta(minutes=1)


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, settings: Any) -> Path:
    """Where photos lie in these tests."""
    settings.FOLDER = Folder(tmp_path)
    return tmp_path / "photos"


@pytest.fixture
def lit(cured, owner, now) -> Burn:
    """K7F, lit two hours ago."""
    at = now - 2 * HOUR
    return burning.light(cured, kind="wick", lit_at=at, who=owner, now=at)


@pytest.fixture
def photo(lit, owner, now) -> Photo:
    """Taken an hour after it was lit."""
    at = now - HOUR
    return keeping.keep_photo(lit, picture=phone_photo(), at=at, who=owner, now=at)


def text(response: Any) -> str:
    return response.content.decode().replace("\N{NO-BREAK SPACE}", " ")


def sent(came: bytes, name: str = "IMG_1.jpg") -> dict[str, Any]:
    return {"photo": SimpleUploadedFile(name, came), "entry": uuid4()}


def data_url(came: bytes) -> str:
    return "data:image/jpeg;base64," + base64.b64encode(came).decode()


# --- kept


def test_a_photo_of_a_lit_candle_is_kept_with_time_and_hand(photo, lit, owner, now, folder) -> None:
    assert (photo.burn, photo.at, photo.who) == (lit, now - HOUR, owner)
    assert (photo.width, photo.height) == (400, 200)
    file = folder / f"{photo.digest}.jpg"
    assert hashlib.sha256(file.read_bytes()).hexdigest() == photo.digest
    assert photo.read_as is None
    assert Check.objects.count() == 0, "a photo is no check yet"


def test_the_file_is_there_before_the_row(lit, owner, now, folder, monkeypatch) -> None:
    seen: list[int] = []
    save = Photo.save

    def looked(photo: Photo, **more: Any) -> None:
        seen.append(len(list(folder.glob(f"{photo.digest}.jpg"))))
        save(photo, **more)

    monkeypatch.setattr(Photo, "save", looked)
    keeping.keep_photo(lit, picture=phone_photo(), at=now, who=owner, now=now)
    assert seen == [1]


def test_a_row_that_is_not_written_leaves_only_an_unused_file(
    lit, owner, now, folder, monkeypatch
) -> None:
    def ends(photo: Photo, **more: Any) -> None:
        raise RuntimeError("the machine stops")

    monkeypatch.setattr(Photo, "save", ends)
    with pytest.raises(RuntimeError), transaction.atomic():
        keeping.keep_photo(lit, picture=phone_photo(), at=now, who=owner, now=now)
    assert Photo.objects.count() == 0
    assert len(list(folder.iterdir())) == 1
    monkeypatch.undo()


def test_a_photo_that_cannot_be_written_has_no_row(lit, owner, now, folder) -> None:
    folder.write_text("a file where the folder should be")
    with pytest.raises(UnclearError, match="The photo could not be written"):
        keeping.keep_photo(lit, picture=phone_photo(), at=now, who=owner, now=now)
    assert Photo.objects.count() == 0


def test_the_same_entry_sent_twice_is_kept_once(lit, owner, now) -> None:
    told = {"picture": phone_photo(), "at": now, "who": owner, "now": now, "entry": uuid4()}
    assert keeping.keep_photo(lit, **told) == keeping.keep_photo(lit, **told)
    assert Photo.objects.count() == 1


def test_the_same_picture_chosen_twice_is_one_photo_and_one_file(
    photo, lit, owner, now, folder
) -> None:
    again = keeping.keep_photo(
        lit, picture=phone_photo(), at=now, who=owner, now=now, entry=uuid4()
    )
    assert again == photo
    assert again.at == now - HOUR
    assert len(list(folder.iterdir())) == 1


def test_one_picture_of_two_candles_is_one_file_and_two_photos(
    photo, other_cured, owner, now, folder
) -> None:
    other = burning.light(other_cured, kind="wick", lit_at=now - HOUR, who=owner, now=now)
    keeping.keep_photo(other, picture=phone_photo(), at=now, who=owner, now=now)
    assert Photo.objects.count() == 2
    assert len(list(folder.iterdir())) == 1


@pytest.mark.parametrize("after", [timedelta(), MINUTE, 12 * HOUR])
def test_up_to_twelve_hours_after_it_is_out_a_photo_is_kept(lit, owner, now, after) -> None:
    burning.put_out(lit, at=now, who=owner, now=now)
    at = now + after
    assert keeping.keep_photo(lit, picture=phone_photo(), at=at, who=owner, now=at).at == at


@pytest.mark.parametrize(
    ("from_lit", "said"),
    [
        (-MINUTE, "K7F was lit at 09:05"),
        (14 * HOUR + MINUTE, "K7F was out at 11:05, over 12 h before this photo"),
    ],
)
def test_a_photo_of_another_time_is_refused_and_no_file_is_written(
    *, lit, owner, now, folder, from_lit, said
) -> None:
    burning.put_out(lit, at=now, who=owner, now=now)
    at = lit.lit_at + from_lit
    with pytest.raises(UnclearError, match=said):
        keeping.keep_photo(lit, picture=phone_photo(), at=at, who=owner, now=max(at, now))
    assert not folder.exists()


def test_a_photo_that_is_not_taken_yet_is_refused(lit, owner, now) -> None:
    with pytest.raises(UnclearError, match="A photo of 12:05 is not taken yet; it is 11:05"):
        keeping.keep_photo(lit, picture=phone_photo(), at=now + HOUR, who=owner, now=now)


# --- read tonight


def test_what_is_read_becomes_a_check_at_the_time_of_the_photo(photo, helper, now) -> None:
    tonight = now + 8 * HOUR
    seen = {"pool_width_mm": 52.0, "soot": "trace"}
    check = keeping.read_photo(photo, who=helper, now=tonight, **seen)
    photo.refresh_from_db()
    assert photo.read_as == check
    assert (check.at, check.noted_at, check.who) == (now - HOUR, tonight, helper)
    assert (check.pool_width_mm, check.soot) == (52, "trace")


def test_what_was_not_looked_at_stays_unknown(photo, lit, owner, now) -> None:
    before = {"pool_width_mm": 40.0, "pool_full": False, "flame": "under", "vessel_c": 50.0}
    burning.check(lit, at=photo.at - 10 * MINUTE, who=owner, now=now, **before)
    check = keeping.read_photo(photo, flame="over", who=owner, now=now)
    told = [name for name in LOOKS if getattr(check, name) not in (None, "")]
    assert told == ["flame"]


def test_an_unusual_figure_is_asked_about_before_it_is_noted(photo, owner, now) -> None:
    with pytest.raises(QuestionsError, match="180 mm is over 75 mm"):
        keeping.read_photo(photo, flame_mm=180.0, who=owner, now=now)
    photo.refresh_from_db()
    assert (photo.read_as, Check.objects.count()) == (None, 0)


def test_a_pool_wider_than_its_vessel_is_refused(photo, owner, now) -> None:
    with pytest.raises(UnclearError, match="this cup is 68 mm inside"):
        keeping.read_photo(photo, pool_width_mm=86.0, who=owner, now=now)


def test_nothing_told_is_no_reading(photo, owner, now) -> None:
    with pytest.raises(
        UnclearError,
        match=r"Nothing is filled in of K7F at 10:05\. .*“Nothing can be read from it”",
    ):
        keeping.read_photo(photo, pool_width_mm=None, soot="", who=owner, now=now)


def test_a_photo_is_read_once(photo, owner, now) -> None:
    entry = uuid4()
    first = keeping.read_photo(photo, soot="trace", who=owner, now=now, entry=entry)
    assert keeping.read_photo(photo, soot="trace", who=owner, now=now, entry=entry) == first
    with pytest.raises(UnclearError, match="was read already"):
        keeping.read_photo(photo, soot="heavy", who=owner, now=now)
    assert Check.objects.count() == 1


def test_a_photo_of_the_minute_of_lighting_is_read_a_minute_later(lit, owner, now) -> None:
    at = lit.lit_at + timedelta(seconds=30)
    photo = keeping.keep_photo(lit, picture=phone_photo(), at=at, who=owner, now=at)
    assert keeping.read_photo(photo, soot="none", who=owner, now=now).at == lit.lit_at + MINUTE


def test_a_photo_of_the_minute_of_putting_out_can_be_read(lit, owner, now) -> None:
    at = now + timedelta(seconds=40)
    photo = keeping.keep_photo(lit, picture=phone_photo(), at=at, who=owner, now=at)
    burning.put_out(lit, at=at, who=owner, now=at)
    assert [one.photo for one in unread()] == [photo]
    assert keeping.read_photo(photo, soot="none", who=owner, now=at).at == now


def test_a_photo_of_cold_wax_waits_for_no_check(lit, owner, now) -> None:
    burning.put_out(lit, at=now, who=owner, now=now)
    at = now + 3 * HOUR
    photo = keeping.keep_photo(lit, picture=phone_photo(), at=at, who=owner, now=at)
    assert unread() == ()
    with pytest.raises(UnclearError, match="“When it is cold”"):
        keeping.read_photo(photo, soot="none", who=owner, now=at)


def test_a_photo_put_aside_waits_no_more_and_may_still_be_read(photo, helper, now) -> None:
    keeping.put_photo_aside(photo, who=helper, now=now)
    assert unread_count() == 0
    (one,) = photos_of(photo.burn)
    assert (one.photo.aside_at, one.photo.aside_by) == (now, helper)
    keeping.read_photo(photo, soot="trace", who=helper, now=now)
    with pytest.raises(UnclearError, match="was read already"):
        keeping.put_photo_aside(photo, who=helper, now=now)


def test_putting_aside_twice_does_it_once(photo, helper, now) -> None:
    entry = uuid4()
    keeping.put_photo_aside(photo, who=helper, now=now, entry=entry)
    again = keeping.put_photo_aside(photo, who=helper, now=now + HOUR, entry=entry)
    assert again.aside_at == now


def test_the_oldest_waits_first(photo, lit, owner, now) -> None:
    earlier = now - 90 * MINUTE
    first = keeping.keep_photo(
        lit, picture=encoded(halves((80, 80))), at=earlier, who=owner, now=now
    )
    assert [one.photo for one in unread()] == [first, photo]
    assert unread_count() == 2


# --- pages


def test_the_round_has_a_box_for_each_lit_candle_that_needs_no_script(maker, lit) -> None:
    page = text(maker.get("/round/"))
    form = f'<form method="post" enctype="multipart/form-data" id="photo-of-{lit.pk}"'
    assert page.index("</ul>") < page.index(form), "it stands in no other form"
    assert f'action="/burns/{lit.pk}/photo/" data-entry="Photo of K7F"' in page
    assert f'form="photo-of-{lit.pk}" accept="image/*" capture="environment"' in page


def test_the_round_says_when_the_last_photo_was_taken(maker, photo) -> None:
    assert "last one 10:05" in text(maker.get("/round/"))


def test_a_plain_form_keeps_the_photo(maker, lit, now) -> None:
    answer = maker.post(f"/burns/{lit.pk}/photo/", sent(phone_photo(orientation=6)))
    assert answer.headers["Location"] == "/round/"
    photo = Photo.objects.get()
    assert (photo.at, photo.width, photo.height) == (now, 200, 400)


def test_once_it_is_out_the_way_back_is_its_burn(maker, lit, owner, now) -> None:
    burning.put_out(lit, at=now - MINUTE, who=owner, now=now)
    assert "Add a photo" in text(maker.get(f"/burns/{lit.pk}/"))
    answer = maker.post(f"/burns/{lit.pk}/photo/", sent(phone_photo()))
    assert answer.headers["Location"] == f"/burns/{lit.pk}/"
    assert "taken once it was out" in text(maker.get(f"/burns/{lit.pk}/"))


def test_the_text_of_a_smaller_picture_is_kept_as_well(maker, lit) -> None:
    told = {"photo_data": data_url(phone_photo()), "entry": uuid4()}
    assert maker.post(f"/burns/{lit.pk}/photo/", told).status_code == 302
    assert Photo.objects.get().width == 400


@pytest.mark.parametrize(
    ("told", "said"),
    [
        ({}, "No photo came."),
        ({"photo_data": "data:image/jpeg;base64,!"}, "The photo did not arrive whole."),
        (sent(b"\0\0\0\x18ftypheic" + b"\0" * 40, "IMG_1.HEIC"), "a HEIC picture"),
        (sent(b"\xff" * (20 * 1024 * 1024 + 1), "big.jpg"), "“big.jpg” has 20.0 MB."),
    ],
    ids=["nothing", "half a text", "HEIC", "large"],
)
def test_what_is_refused_is_said_and_asked_for_anew(maker, lit, told, said) -> None:
    page = text(maker.post(f"/burns/{lit.pk}/photo/", told))
    assert "The photo of K7F is not kept yet." in page
    assert said in page
    assert "A JPEG, PNG or WebP picture of at most 20 MB is kept." in page
    assert 'type="file"' in page
    assert Photo.objects.count() == 0


def entry_of(client: Client, lit: Burn, came: bytes, *, pressed: datetime) -> dict[str, Any]:
    return {
        "id": str(uuid4()), "key": client.get("/entries/").json()["key"], "device": str(uuid4()),
        "turn": 1, "address": f"/burns/{lit.pk}/photo/",
        "pressed_at": round(pressed.timestamp() * 1000),
        "fields": [["photo_data", data_url(came)]],
    }  # fmt: skip


def hand_in(client: Client, entry: dict[str, Any], *, now: datetime) -> Any:
    return client.post(
        "/entries/", json.dumps(entry), content_type="application/json",
        headers={
            "X-Sent-At": str(round(now.timestamp() * 1000)),
            "X-CSRFToken": client.get("/entries/").json()["token"],
        },
    )  # fmt: skip


def test_a_photo_that_waited_on_the_phone_has_the_time_of_its_press(maker, lit, now) -> None:
    entry = entry_of(maker, lit, phone_photo(), pressed=now - 40 * MINUTE)
    assert hand_in(maker, entry, now=now).json()["outcome"] == "kept"
    assert hand_in(maker, entry, now=now).json()["outcome"] == "kept before"
    assert Photo.objects.get().at == now - 40 * MINUTE


def test_a_waiting_photo_that_is_none_is_told_to_the_phone(maker, lit, now) -> None:
    answer = hand_in(maker, entry_of(maker, lit, b"hello", pressed=now), now=now)
    assert answer.status_code == 422
    assert "a file of another kind that cannot be read here" in answer.json()["said"][0]


def test_the_largest_picture_that_a_page_sends_comes_through_the_door(maker, lit, now) -> None:
    entry = entry_of(maker, lit, phone_photo(), pressed=now)
    body = phone_photo() + bytes(range(256)) * 5200
    entry["fields"] = [["photo_data", data_url(body)]]
    assert 1_700_000 < len(data_url(body)) <= MOST_CHARACTERS
    assert hand_in(maker, entry, now=now).json()["outcome"] == "kept"


def test_the_picture_is_shown_to_makers_as_what_it_is(maker, photo) -> None:
    answer = maker.get(f"/photos/{photo.pk}.jpg")
    assert answer.headers["Content-Type"] == "image/jpeg"
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert answer.headers["Cache-Control"] == "private, no-cache"
    assert answer.headers["ETag"] == f'"{photo.digest}"'
    assert hashlib.sha256(b"".join(answer.streaming_content)).hexdigest() == photo.digest
    answer.close()


def test_a_browser_that_has_it_asks_only_whether_it_may_show_it(maker, nose, photo) -> None:
    known = {"if-none-match": f'"{photo.digest}"'}
    assert maker.get(f"/photos/{photo.pk}.jpg", headers=known).status_code == 304
    assert nose.get(f"/photos/{photo.pk}.jpg", headers=known).status_code == 403


def test_an_assessor_and_a_stranger_see_no_photo(nose, stranger, photo) -> None:
    for path in (f"/photos/{photo.pk}.jpg", f"/photos/{photo.pk}/", "/photos/"):
        assert nose.get(path).status_code == 403
        assert stranger.get(path).status_code == 302


def test_a_missing_file_is_said_wherever_it_would_stand(maker, photo, folder) -> None:
    (folder / f"{photo.digest}.jpg").unlink()
    answer = maker.get(f"/photos/{photo.pk}.jpg")
    assert answer.status_code == 404
    assert "The file of this photo is missing" in text(answer)
    assert maker.get(f"/photos/{photo.pk}.jpg").headers.get("ETag") is None
    assert "Put it back from a copy of the folder" in text(maker.get(f"/photos/{photo.pk}/"))
    assert "K7F at 10:05, burn 1: its file is missing" in text(maker.get("/photos/"))


def test_no_page_of_photos_names_an_oil(maker, photo, trial) -> None:
    for path in ("/photos/", f"/photos/{photo.pk}/", f"/burns/{photo.burn_id}/"):
        page = text(maker.get(path))
        assert "K7F at 10:05, burn 1" in page
        assert "Slate" not in page


def test_the_burn_shows_its_photos_in_words_too(maker, photo) -> None:
    page = text(maker.get(f"/burns/{photo.burn_id}/"))
    assert f'<img src="/photos/{photo.pk}.jpg" width="400" height="200"' in page
    assert 'alt="K7F at 10:05, burn 1"' in page
    assert "What does it show?" in page


def test_the_numbers_are_read_on_the_page_of_the_photo(maker, photo, owner) -> None:
    told = {"entry": uuid4(), "pool_width_mm": "52", "pool_full": "no", "soot": "trace"}
    answer = maker.post(f"/photos/{photo.pk}/", told)
    assert answer.headers["Location"] == f"/burns/{photo.burn_id}/"
    page = text(maker.get(f"/photos/{photo.pk}/"))
    assert "K7F at 10:05, burn 1: it was read." in page
    assert "full pool not full, melt pool <b>52 mm</b>, soot trace" in page
    check = Check.objects.get()
    assert f'href="/checks/{check.pk}/slip/"' in page
    assert "Read by Ragnhild" in page


def test_after_one_the_next_that_waits_is_shown(maker, photo, lit, owner, now) -> None:
    other = encoded(halves((80, 80)))
    keeping.keep_photo(lit, picture=other, at=now, who=owner, now=now)
    assert "2 photos wait for their numbers." in text(maker.get("/photos/"))
    answer = maker.post(f"/photos/{photo.pk}/aside/", {"entry": uuid4()})
    assert answer.headers["Location"] == "/photos/"
    assert "One photo waits for its numbers." in text(maker.get("/photos/"))
    assert "said Ragnhild on 24 May" in text(maker.get(f"/photos/{photo.pk}/"))


def test_without_one_the_page_says_how_they_come(maker) -> None:
    page = text(maker.get("/photos/"))
    assert "No photo waits for its numbers." in page
    assert "“Add a photo” keeps" in page


def test_a_guess_is_taken_by_one_press(maker, photo) -> None:
    told = {"entry": uuid4(), "flame_mm": "180"}
    page = text(maker.post(f"/photos/{photo.pk}/", told))
    assert "Yes, 18 mm" in page or "I mistyped: it is 18 mm" in page
    assert Check.objects.count() == 0
    maker.post(f"/photos/{photo.pk}/", {**told, "take": "flame_mm=18"})
    assert Check.objects.get().flame_mm == 18


def test_a_flame_over_its_limit_leads_to_the_round_that_says_put_out(maker, photo, owner) -> None:
    answer = maker.post(f"/photos/{photo.pk}/", {"entry": uuid4(), "flame": "over"})
    assert answer.headers["Location"] == "/round/"
    assert "Put K7F out now" in text(maker.get("/round/"))


def test_what_was_read_cannot_be_put_aside(maker, photo, owner, now) -> None:
    keeping.read_photo(photo, soot="trace", who=owner, now=now)
    page = text(maker.post(f"/photos/{photo.pk}/aside/", {"entry": uuid4()}))
    assert "was read already" in page


def test_many_photos_take_no_more_queries_than_few(maker, photo, lit, owner, now) -> None:
    paths = ("/photos/", f"/burns/{lit.pk}/")
    few = {path: _asked(maker, path) for path in paths}
    for side in range(40, 46):
        other = encoded(halves((side, side)))
        keeping.keep_photo(lit, picture=other, at=now, who=owner, now=now)
    assert {path: _asked(maker, path) for path in paths} == few


def _asked(client: Client, path: str) -> int:
    with CaptureQueriesContext(connection) as queries:
        assert client.get(path).status_code == 200
    return len(queries)


def test_today_says_how_many_wait(maker, photo, lit, owner, now) -> None:
    assert "One photo waits for its numbers" in text(maker.get("/"))
    keeping.keep_photo(lit, picture=encoded(halves((80, 80))), at=now, who=owner, now=now)
    page = text(maker.get("/"))
    assert "2 photos wait for their numbers" in page
    assert 'href="/photos/"' in page
    keeping.put_photo_aside(photo, who=owner, now=now)
    keeping.put_photo_aside(Photo.objects.latest("pk"), who=owner, now=now)
    assert "for their numbers" not in text(maker.get("/"))
