"""The file of a photo: read with suspicion, written anew without where it was taken, kept whole.

Nothing of what came is kept as it came: the picture is decoded and encoded again, so that neither
the place nor the camera, nor anything that hides behind the picture, lies in the folder.
"""

import base64
import binascii
import hashlib
import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from threading import Lock

from PIL import ExifTags, Image, ImageOps

from throwbench.science.errors import UnclearError

_ONE_AT_A_TIME = Lock()
"""A picture as large as is read takes some hundred MB while it is made smaller."""
LONGEST_PX = 2000
QUALITY = 85
LARGEST_BYTES = 20 * 1024 * 1024
MOST_PIXELS = 64_000_000
"""A phone takes 12 to 50 million; more is a picture made to fill the memory."""
LONGEST_READ_PX = 20_000
"""A phone's widest panorama is about 16 000; a longer side is made to fill the memory, too."""
READ = ("JPEG", "PNG", "WEBP")
ALLOWED = "A JPEG, PNG or WebP picture of at most 20 MB is kept."
BEGINNINGS = (
    (0, b"\xff\xd8", "a JPEG picture"), (0, b"\x89PNG", "a PNG picture"),
    (8, b"WEBP", "a WebP picture"), (4, b"ftypavif", "an AVIF picture"),
    (4, b"ftyphei", "a HEIC picture"), (4, b"ftypmif1", "a HEIC picture"),
    (4, b"ftyp", "a film"), (0, b"GIF8", "a GIF picture"), (0, b"BM", "a BMP picture"),
    (0, b"II*\0", "a TIFF or raw picture"), (0, b"MM\0*", "a TIFF or raw picture"),
    (0, b"%PDF", "a PDF"), (0, b"<", "a page or an SVG drawing"),
)  # fmt: skip
"""How a file begins, for the sentence that refuses it: offset, bytes, words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A picture as it is kept: JPEG, upright, without anything beside it."""

    jpeg: bytes
    width: int
    height: int

    @property
    def digest(self) -> str:
        return hashlib.sha256(self.jpeg).hexdigest()


def reencoded(came: bytes) -> Picture:
    """The picture in these bytes, upright, its longest side at most 2000 px.

    Colours are taken as sRGB; what is see-through becomes white; of several pictures in one file
    the first is kept.

    Raises
    ------
    UnclearError
        It is too large, of another kind, or not whole.
    """
    if not came:
        raise UnclearError("No photo came.", ALLOWED, "Take it anew.")
    if len(came) > LARGEST_BYTES:
        raise UnclearError(
            f"This photo has {len(came) / 1024**2:.1f} MB.", ALLOWED, "Take it anew, smaller."
        )
    with _ONE_AT_A_TIME:
        upright = _upright(came)
    out = BytesIO()
    upright.save(out, "JPEG", quality=QUALITY)
    return Picture(jpeg=out.getvalue(), width=upright.width, height=upright.height)


def _upright(came: bytes) -> Image.Image:
    try:
        with Image.open(BytesIO(came), formats=READ) as image:
            _not_too_large(image)
            image.draft("RGB", (LONGEST_PX, LONGEST_PX))
            small = _small(image)
            bare = Image.new("RGB", small.size)
            bare.paste(small)
            bare.getexif()[ExifTags.Base.Orientation] = _orientation(image)
            return ImageOps.exif_transpose(bare)
    except UnclearError:
        raise
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise _too_many("over 89 million") from error
    except Exception as error:  # a decoder fails in many ways on bytes that are made up
        raise UnclearError(
            f"What came is {kind_of(came)} that cannot be read here.",
            ALLOWED,
            "Take it anew; where a phone makes HEIC, set its camera to JPEG (“most compatible”).",
        ) from error


def _orientation(image: Image.Image) -> int:
    """How the camera was held; as it stands where the camera's notes cannot be read."""
    try:
        return int(image.getexif().get(ExifTags.Base.Orientation, 1))
    except Exception:  # the picture is good, whatever stands beside it
        return 1


def _small(image: Image.Image) -> Image.Image:
    """Red, green and blue alone; on white where one could see through.

    The large picture is not copied where its colours are good as they are.
    """
    if not image.has_transparency_data:
        return _fitting(image, "RGB")
    layer = _fitting(image, "RGBA")
    white = Image.new("RGBA", layer.size, "white")
    return Image.alpha_composite(white, layer).convert("RGB")


def _fitting(image: Image.Image, colours: str) -> Image.Image:
    fits = image if image.mode == colours else image.convert(colours)
    fits.thumbnail((LONGEST_PX, LONGEST_PX))
    return fits


def _not_too_large(image: Image.Image) -> None:
    """Before any pixel is read: a decoder makes room for whole lines."""
    pixels, longest = image.width * image.height, max(image.size)
    if pixels > MOST_PIXELS:
        raise _too_many(f"{pixels / 1e6:.0f} million")
    if longest > LONGEST_READ_PX:
        raise UnclearError(
            f"One side of this photo has {longest} pixels.",
            f"At most {LONGEST_READ_PX} are read.",
            "Set the camera to a smaller size and take it anew.",
        )


def _too_many(pixels: str) -> UnclearError:
    return UnclearError(
        f"This photo has {pixels} pixels.",
        f"At most {MOST_PIXELS / 1e6:.0f} million are read.",
        "Set the camera to a smaller size and take it anew.",
    )


def kind_of(came: bytes) -> str:
    """What a file is, by how it begins: 'a HEIC picture'."""
    for offset, begins, words in BEGINNINGS:
        if came.lstrip()[offset:].startswith(begins):
            return words
    return "a file of another kind"


def of_data_url(text: str) -> bytes:
    """The bytes of a picture that a page made smaller: 'data:image/jpeg;base64,...'.

    Raises
    ------
    UnclearError
        It is no such text.
    """
    head, _, body = text.partition(",")
    try:
        if not head.startswith("data:image/") or not head.endswith(";base64"):
            raise ValueError(head[:40])
        return base64.b64decode(body, validate=True)
    except (ValueError, binascii.Error) as error:
        raise UnclearError("The photo did not arrive whole.", ALLOWED, "Take it anew.") from error


def path_of(folder: Path, digest: str) -> Path:
    return folder / f"{digest}.jpg"


def keep_file(picture: Picture, *, folder: Path) -> Path:
    """Write the picture so that it is on the disk when this returns, whole or not at all.

    Raises
    ------
    UnclearError
        The disk does not take it.
    """
    path = path_of(folder, picture.digest)
    try:
        folder.mkdir(exist_ok=True)
        handle, new = tempfile.mkstemp(dir=folder, prefix=".new-")
        with _gone_if_left(Path(new)), os.fdopen(handle, "wb") as file:
            file.write(picture.jpeg)
            file.flush()
            os.fsync(file.fileno())
            os.replace(new, path)
        _sync(folder)
    except OSError as error:
        raise UnclearError(
            f"The photo could not be written: {error.strerror}.",
            "It needs room in the workshop’s folder, which has to be writable.",
            "Make room and send it once more.",
        ) from error
    return path


@contextmanager
def _gone_if_left(new: Path) -> Iterator[None]:
    """A file that was not written whole does not stay."""
    try:
        yield
    finally:
        new.unlink(missing_ok=True)


def _sync(folder: Path) -> None:
    """A new name in a folder is on the disk only once the folder is."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
