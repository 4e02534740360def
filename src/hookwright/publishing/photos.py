"""The designer's photographs: opened, turned upright, made small and stripped of everything but the picture (place, date, camera)."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO

from ..pattern import Picture
from .sheet import Photo

MOST_PIXELS = 60_000_000
LONGEST_PX = 1600
"""The longer side of a photograph as published."""
QUALITY = 85
FORMATS = ("JPEG", "PNG", "WEBP", "GIF", "TIFF", "BMP")


class BadPicture(ValueError):
    """A picture that cannot be published; the message says which and why."""


def photos_of(pictures: Sequence[tuple[Picture, bytes]]) -> tuple[Photo, ...]:
    """The photographs of a pattern, in its order. Raises BadPicture for bytes that are no picture or a monstrous one."""
    return tuple(_photo(picture, data, number) for number, (picture, data) in enumerate(pictures, start=1))


def _photo(picture: Picture, data: bytes, number: int) -> Photo:
    from PIL import Image, ImageOps, UnidentifiedImageError

    try:
        with Image.open(BytesIO(data), formats=FORMATS) as opened:
            if opened.width * opened.height > MOST_PIXELS:
                raise BadPicture(f"The picture {picture.file} has {opened.width} x {opened.height} dots: make it smaller.")
            shown = ImageOps.exif_transpose(opened).convert("RGBA")
            flat = Image.new("RGB", shown.size, "white")
            flat.paste(shown, mask=shown.getchannel("A"))
            flat.thumbnail((LONGEST_PX, LONGEST_PX))
    except (UnidentifiedImageError, OSError, ValueError, Image.DecompressionBombError) as failure:
        if isinstance(failure, BadPicture):
            raise
        raise BadPicture(f"The picture {picture.file} is not one that can be read (JPEG, PNG, WebP).") from None
    out = BytesIO()
    flat.save(out, "JPEG", quality=QUALITY, optimize=True)
    return Photo(
        file=f"photo-{number}.jpg",
        alt=picture.alt or (f"Photograph of {picture.row}" if picture.row else "Photograph of the finished piece"),
        row=picture.row,
        data=out.getvalue(),
        width_px=flat.width,
        height_px=flat.height,
    )
