"""Pictures as cameras make them: with a place, turned, see-through, cut short."""

from io import BytesIO

from PIL import ExifTags, Image

RED, BLUE = (200, 30, 30), (30, 30, 200)


def halves(size: tuple[int, int] = (400, 200)) -> Image.Image:
    """Red on the left, blue on the right."""
    image = Image.new("RGB", size, BLUE)
    image.paste(RED, (0, 0, size[0] // 2, size[1]))
    return image


def exif(*, orientation: int = 1) -> Image.Exif:
    """The notes of a camera: how it was held, which it was, and the place."""
    notes = Image.Exif()
    notes[ExifTags.Base.Orientation] = orientation
    notes[ExifTags.Base.Make] = "Camera works"
    gps = notes.get_ifd(ExifTags.IFD.GPSInfo)
    gps[ExifTags.GPS.GPSLatitudeRef], gps[ExifTags.GPS.GPSLatitude] = "N", (59.0, 54.0, 30.0)
    gps[ExifTags.GPS.GPSLongitudeRef], gps[ExifTags.GPS.GPSLongitude] = "E", (10.0, 45.0, 0.0)
    return notes


def encoded(image: Image.Image, kind: str = "JPEG", **more: object) -> bytes:
    out = BytesIO()
    image.save(out, kind, **more)
    return out.getvalue()


def phone_photo(size: tuple[int, int] = (400, 200), *, orientation: int = 1) -> bytes:
    """A JPEG with a place, held as told."""
    return encoded(halves(size), exif=exif(orientation=orientation), comment=b"by the camera")
