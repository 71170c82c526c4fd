"""A photo as it comes, and as it is kept: upright, without a place, whole; or refused in words."""

import base64
import hashlib
import os
import struct
import zlib
from io import BytesIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from throwbench.science.errors import UnclearError
from throwbench.workshop.trials import photo_file
from throwbench.workshop.trials.photo_file import keep_file, of_data_url, path_of, reencoded
from workshop.trials.pictures import BLUE, RED, encoded, exif, halves, phone_photo


def opened(jpeg: bytes) -> Image.Image:
    image = Image.open(BytesIO(jpeg), formats=("JPEG",))
    image.load()
    return image


def is_near(pixel: tuple[int, ...], colour: tuple[int, ...]) -> bool:
    return all(abs(a - b) < 25 for a, b in zip(pixel, colour, strict=True))


def png_that_says(width: int, height: int) -> bytes:
    """The head of a PNG of any size, with hardly anything in it."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return (
            struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        )

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = zlib.compress(b"\0" * 1000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


def test_neither_place_nor_camera_is_kept():
    came = phone_photo()
    assert opened(came).getexif().get_ifd(0x8825), "the photo that came says where it was taken"
    assert b"Camera works" in came
    kept = opened(reencoded(came).jpeg)
    assert dict(kept.getexif()) == {}
    assert not {"exif", "icc_profile", "comment", "xmp"} & set(kept.info)
    assert b"Camera works" not in reencoded(came).jpeg
    assert b"by the camera" not in reencoded(came).jpeg


@pytest.mark.parametrize(
    ("orientation", "red_at"),
    [(1, "left"), (2, "right"), (3, "right"), (4, "left"), (5, "top"), (6, "top"), (7, "bottom"),
     (8, "bottom")],
)  # fmt: skip
def test_it_stands_upright_however_the_phone_was_held(orientation, red_at):
    kept = reencoded(phone_photo(orientation=orientation))
    image = opened(kept.jpeg)
    wide = red_at in ("left", "right")
    assert image.size == (kept.width, kept.height) == ((400, 200) if wide else (200, 400))
    middle_x, middle_y = image.width // 2, image.height // 2
    places = {
        "left": (20, middle_y), "right": (image.width - 20, middle_y), "top": (middle_x, 20),
        "bottom": (middle_x, image.height - 20),
    }  # fmt: skip
    other = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}[red_at]
    assert is_near(image.getpixel(places[red_at]), RED)
    assert is_near(image.getpixel(places[other]), BLUE)


@pytest.mark.parametrize(
    ("came", "kept"),
    [((4000, 3000), (2000, 1500)), ((1000, 3000), (667, 2000)), ((300, 200), (300, 200))],
)
def test_its_longest_side_is_two_thousand_pixels_at_most(came, kept):
    picture = reencoded(phone_photo(came))
    assert (picture.width, picture.height) == kept
    assert opened(picture.jpeg).size == kept


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "MPO"])
def test_what_phones_make_is_read(kind):
    more = {"append_images": [halves()], "save_all": True} if kind == "MPO" else {}
    picture = reencoded(encoded(halves(), kind, **more))
    assert (picture.width, picture.height) == (400, 200)
    assert is_near(opened(picture.jpeg).getpixel((20, 100)), RED)


@pytest.mark.parametrize(
    "came",
    [
        encoded(Image.new("RGBA", (60, 60), (0, 0, 0, 0)), "PNG"),
        encoded(Image.new("LA", (60, 60), (0, 0)), "PNG"),
        encoded(Image.new("P", (60, 60), 0), "PNG", transparency=0),
        encoded(Image.new("RGBA", (60, 60), (0, 0, 0, 0)), "WEBP"),
    ],
    ids=["colour", "grey", "palette", "WebP"],
)
def test_what_is_see_through_becomes_white(came):
    picture = reencoded(came)
    assert is_near(opened(picture.jpeg).getpixel((30, 30)), (255, 255, 255))


@pytest.mark.parametrize("mode", ["L", "1", "CMYK"])
def test_grey_and_print_colours_are_read(mode):
    kind = "JPEG" if mode == "CMYK" else "PNG"
    assert opened(reencoded(encoded(halves().convert(mode), kind)).jpeg).mode == "RGB"


@pytest.mark.filterwarnings("ignore:Corrupt EXIF:UserWarning")
def test_notes_of_a_camera_that_cannot_be_read_do_not_spoil_the_picture():
    came = encoded(halves(), exif=b"Exif\0\0MM\0*" + b"\xff" * 40)
    assert reencoded(came).width == 400


def test_the_same_picture_is_kept_under_the_same_name():
    assert reencoded(phone_photo()).digest == reencoded(phone_photo()).digest


@pytest.mark.parametrize(
    ("came", "said"),
    [
        (b"", "No photo came."),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "a page or an SVG drawing"),
        (b"\n<!doctype html><script>alert(1)</script>", "a page or an SVG drawing"),
        (b"\0\0\0\x18ftypheic" + b"\0" * 40, "a HEIC picture"),
        (b"\0\0\0\x18ftypavif" + b"\0" * 40, "an AVIF picture"),
        (b"\0\0\0\x18ftypmp42" + b"\0" * 40, "a film"),
        (b"%PDF-1.7", "a PDF"),
        (b"hello", "a file of another kind"),
        (encoded(halves(), "GIF"), "a GIF picture"),
        (encoded(halves(), "TIFF"), "a TIFF or raw picture"),
        (encoded(halves(), "BMP"), "a BMP picture"),
        (phone_photo()[:900], "a JPEG picture that cannot be read"),
        (encoded(halves(), "PNG")[:200], "a PNG picture that cannot be read"),
    ],
)  # fmt: skip
def test_what_is_no_photo_is_refused_with_what_came_and_what_is_allowed(came, said):
    with pytest.raises(UnclearError) as refused:
        reencoded(came)
    assert said in str(refused.value)
    assert "A JPEG, PNG or WebP picture of at most 20 MB is kept." in str(refused.value)
    assert "Take it anew" in str(refused.value)


@pytest.mark.parametrize(("width", "height"), [(9000, 9000), (12_000, 12_000), (60_000, 60_000)])
def test_a_small_file_of_very_many_pixels_is_refused_before_it_is_read(width, height):
    with pytest.raises(UnclearError, match="At most 64 million are read"):
        reencoded(png_that_says(width, height))


@pytest.mark.parametrize(("width", "height"), [(1, 60_000_000), (20_001, 1)])
def test_a_picture_of_one_endless_line_is_refused_before_it_is_read(width, height):
    with pytest.raises(UnclearError, match=r"has \d+ pixels\. At most 20000 are read"):
        reencoded(png_that_says(width, height))


def test_a_png_that_grows_in_its_notes_is_refused():
    grown = zlib.compress(b"\0" * 80_000_000)
    body = b"note\0\0" + grown
    note = struct.pack(">I", len(body)) + b"zTXt" + body
    note += struct.pack(">I", zlib.crc32(b"zTXt" + body))
    whole = encoded(halves(), "PNG")
    with pytest.raises(UnclearError, match="a PNG picture that cannot be read"):
        reencoded(whole[:33] + note + whole[33:])


def test_more_than_twenty_megabytes_is_refused_with_its_size():
    with pytest.raises(UnclearError, match=r"This photo has 21\.0 MB"):
        reencoded(b"\xff\xd8" + b"\0" * (21 * 1024 * 1024))


@pytest.mark.parametrize(
    "came",
    [
        phone_photo() + b"<script>alert(1)</script>",
        encoded(halves(), comment=b"<html><script>alert(1)</script>"),
        encoded(halves(), exif=exif(), icc_profile=b"<script>alert(1)</script>" * 20),
    ],
    ids=["behind it", "in its comment", "as its colours"],
)
def test_what_hides_in_a_picture_is_gone(came):
    assert b"<script" in came
    assert b"<script" not in reencoded(came).jpeg
    assert opened(reencoded(came).jpeg).size == (400, 200)


@pytest.mark.filterwarnings("ignore::UserWarning")
@settings(max_examples=150, deadline=None)
@given(
    st.sampled_from(["JPEG", "PNG", "WEBP"]),
    st.lists(st.tuples(st.integers(0, 2000), st.integers(0, 255)), min_size=1, max_size=12),
)
def test_any_damage_gives_a_picture_or_a_sentence(kind, changes):
    came = bytearray(encoded(halves((64, 32)), kind, exif=exif(orientation=6)))
    for place, value in changes:
        came[place % len(came)] = value
    kept, refused = attempt(bytes(came))
    if kept is None:
        assert refused.endswith(("(“most compatible”).", "take it anew."))
    else:
        assert opened(kept.jpeg).size == (kept.width, kept.height)
        assert dict(opened(kept.jpeg).getexif()) == {}


def attempt(came: bytes) -> tuple[photo_file.Picture | None, str]:
    try:
        return reencoded(came), ""
    except UnclearError as error:
        return None, str(error)


def test_the_text_that_a_page_sends_is_read():
    text = "data:image/jpeg;base64," + base64.b64encode(b"\xff\xd8abc").decode()
    assert of_data_url(text) == b"\xff\xd8abc"


@pytest.mark.parametrize(
    "text", ["x", "data:text/html;base64,YQ==", "data:image/jpeg,abc", "data:image/jpeg;base64,a!"]
)
def test_another_text_is_refused(text):
    with pytest.raises(UnclearError, match="did not arrive whole"):
        of_data_url(text)


def test_a_file_lies_under_its_digest_once(tmp_path):
    picture = reencoded(phone_photo())
    folder = tmp_path / "photos"
    assert keep_file(picture, folder=folder) == keep_file(picture, folder=folder)
    (file,) = folder.iterdir()
    assert file == path_of(folder, hashlib.sha256(file.read_bytes()).hexdigest())


def test_file_and_folder_are_on_the_disk_before_it_is_said(tmp_path, monkeypatch):
    done: list[str] = []
    sync, replace = os.fsync, os.replace

    def fsync(handle: int) -> None:
        done.append("folder" if os.path.isdir(f"/proc/self/fd/{handle}") else "file")
        sync(handle)

    def renamed(old: str, new: object) -> None:
        done.append("rename")
        replace(old, new)

    monkeypatch.setattr(photo_file.os, "fsync", fsync)
    monkeypatch.setattr(photo_file.os, "replace", renamed)
    keep_file(reencoded(phone_photo()), folder=tmp_path)
    assert done == ["file", "rename", "folder"]


def test_a_full_disk_is_said_and_leaves_nothing_behind(tmp_path, monkeypatch):
    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(photo_file.os, "fsync", full)
    with pytest.raises(UnclearError, match="No space left on device"):
        keep_file(reencoded(phone_photo()), folder=tmp_path)
    assert list(tmp_path.iterdir()) == []
