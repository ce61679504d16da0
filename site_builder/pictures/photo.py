"""A photo turned upright, brought to sRGB, made smaller and stripped of all but its pixels."""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import BinaryIO

from PIL import Image, ImageCms, ImageOps

from site_builder.notebook.picture_facts import PictureProblem, open_picture, strict_decoder

WIDTHS = (400, 800, 1600)
"""Pixels: a phone, a tablet or a sharp phone, paper (1600 over a 15 cm column is 270 dots an inch)."""
QUALITY = 78
METHOD = 4
_LONGEST = 16_383  # the most a WebP file can hold on a side (RFC 9649, 2.4)
_DRAFTED = ("JPEG", "MPO")  # formats that can be decoded at a fraction; MPO is a JPEG with more behind it

_CUT_SHORT = PictureProblem(
    "cut-short", "The photo is cut short or damaged. Copy it again from the phone or the camera."
)


@dataclass(frozen=True, slots=True)
class Rendering:
    """One size of a photo, encoded."""

    width: int
    height: int
    data: bytes


def renderings(stream: BinaryIO) -> tuple[Rendering, ...] | PictureProblem:
    """The photo as WebP in each of ``WIDTHS`` it is large enough for, narrowest first; never enlarged.

    Of a moving picture the first frame is taken.
    """
    with strict_decoder():
        image = open_picture(stream)
        if isinstance(image, PictureProblem):
            return image
        try:
            pixels, full = _upright(image, WIDTHS[-1])
            return tuple(_rendering(pixels, width, height) for width, height in _sizes(*full))
        except Exception:  # a decoder given damaged pixels raises whatever it stumbles over
            return _CUT_SHORT


def print_copy(stream: BinaryIO, width: int) -> Rendering | PictureProblem:
    """The photo for paper: at most so many pixels wide, as JPEG, or as PNG where parts of it are clear."""
    with strict_decoder():
        image = open_picture(stream)
        if isinstance(image, PictureProblem):
            return image
        try:
            pixels, _ = _upright(image, width)
        except Exception:  # as above
            return _CUT_SHORT
        out = io.BytesIO()
        if pixels.mode == "RGBA":
            pixels.save(out, "PNG", optimize=True)
        else:
            pixels.convert("RGB").save(out, "JPEG", quality=86, exif=b"", icc_profile=b"")
        return Rendering(*pixels.size, out.getvalue())


def plain_copy(stream: BinaryIO) -> tuple[bytes, str] | PictureProblem:
    """The picture in its own size with nothing but pixels, and its media type; for use inside drawings."""
    with strict_decoder():
        image = open_picture(stream)
        if isinstance(image, PictureProblem):
            return image
        try:
            pixels, _ = _upright(image, None)
        except Exception:  # as above
            return _CUT_SHORT
        out = io.BytesIO()
        if image.format in _DRAFTED:
            pixels.convert("RGB").save(out, "JPEG", quality=88)
            return out.getvalue(), "image/jpeg"
        pixels.save(out, "PNG", optimize=True)
        return out.getvalue(), "image/png"


def _upright(image: Image.Image, enough: int | None) -> tuple[Image.Image, tuple[int, int]]:
    """Decoded, upright, sRGB pixels without metadata, and the full upright size of the original.

    ``enough`` is the width beyond which detail is not needed: a JPEG is then decoded to a half, a
    quarter or an eighth, as long as that is still wide enough, which is the greater part of the speed.
    """
    full = image.size[::-1] if image.format in _DRAFTED and _orientation(image) >= 5 else image.size
    width, height = full
    if enough and width > enough:
        box = (enough, -(-enough * height // width))
        # The box must have the photo's own aspect, or the decoder finds nothing to save.
        image.draft(None, box if full == image.size else box[::-1])
    image.load()
    pixels = ImageOps.exif_transpose(image) if _orientation(image) > 1 else image
    if image.format not in _DRAFTED:
        width, height = full = pixels.size
    pixels = _whole_colours(pixels)
    if enough and width > enough:
        # Colours are converted after shrinking, on a fraction of the pixels.
        size = (enough, max(1, round(enough * height / width)))
        pixels = pixels.resize(size, Image.Resampling.LANCZOS)
    pixels = _to_srgb(pixels, image.info.get("icc_profile"))
    pixels.info = {}
    return pixels, full


def _orientation(image: Image.Image) -> int:
    """How the picture is turned, 1 to 8; broken Exif counts as not turned."""
    try:
        value = image.getexif().get(0x0112, 1)
    except Exception:  # Exif is a tree of offsets: broken ones fail in every way there is
        return 1
    return value if isinstance(value, int) and 1 <= value <= 8 else 1


def _whole_colours(image: Image.Image) -> Image.Image:
    """The same picture in a mode that can be shrunk smoothly: no palette, no 16 bits, clear parts kept."""
    if image.mode.startswith("I"):
        image = image.point(lambda value: value * (1 / 256)).convert("L")
    if image.mode in ("LA", "PA", "RGBA") or "transparency" in image.info:
        return image.convert("RGBA")
    return image if image.mode in ("L", "RGB", "CMYK") else image.convert("RGB")


def _to_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """RGB or RGBA. The colour profile is used up here, for it goes the way of all metadata."""
    clear = image.getchannel("A") if image.mode == "RGBA" else None
    colours = image if image.mode == "CMYK" else image.convert("RGB")
    if profile:
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            target = ImageCms.createProfile("sRGB")
            colours = ImageCms.profileToProfile(colours, source, target, outputMode="RGB") or colours
        except (ImageCms.PyCMSError, OSError):
            pass  # a broken profile, or one for grey: the colours are taken as they stand
    colours = colours.convert("RGB")
    if clear is not None:
        colours.putalpha(clear)
    return colours


def _rendering(pixels: Image.Image, width: int, height: int) -> Rendering:
    """One size. Metadata is refused by name as well, lest a later library fetches it from elsewhere."""
    small = pixels.resize((width, height), Image.Resampling.LANCZOS)
    out = io.BytesIO()
    small.save(out, "WEBP", quality=QUALITY, method=METHOD, exif=b"", xmp=b"", icc_profile=b"")
    return Rendering(width, height, out.getvalue())


def _sizes(width: int, height: int) -> list[tuple[int, int]]:
    """The sizes to publish of an original of this upright size."""
    widths = [step for step in WIDTHS if step < width] + ([width] if width <= WIDTHS[-1] else [])
    sizes = [(step, max(1, round(step * height / width))) for step in widths]
    fitting = [size for size in sizes if size[1] <= _LONGEST]
    return fitting or [(max(1, _LONGEST * width // height), _LONGEST)]
