"""What a picture, recording or drawing says of itself, read from its head alone.

``inspect`` decodes no pixels, so that the checks may ask it of every file of the shop: how large a
picture is, how it is turned, and whether it tells where it was taken. It therefore cannot see that a
photo is cut short; that comes to light when the handbook publishes it. Drawings and recordings are looked
into as a whole by ``pictures.look``.
"""

from __future__ import annotations

import io
import re
import struct
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO, Literal
from xml.etree import ElementTree

from PIL import Image, UnidentifiedImageError

Kind = Literal["photo", "drawing", "sound", "film", "unknown"]
ProblemCode = Literal[
    "missing", "unreadable", "outside", "not-a-picture", "cut-short", "too-many-pixels", "unsafe-drawing",
    "withheld",
]

MAX_PIXELS = 50_000_000
"""More pixels than this are refused unopened: a file of a few kilobytes can unfold to gigabytes."""
HUGE_PIXELS = 12_500_000
"""More than what a camera called 12 MP gives (4032 x 3024 is 12.2 million)."""
HUGE_BYTES = 8_000_000
MAX_DRAWING_BYTES = 4_000_000

# Only still formats whose decoders run inside the library; some others call outside programs.
FORMATS = ("JPEG", "PNG", "WEBP", "GIF", "TIFF", "BMP")

_HEAD = 65_536
_GPS_IFD = 0x8825
_ORIENTATION = 0x0112
# Exif 2.32, table of GPS tags: latitude, longitude, their destinations, name of the area.
_PLACE_TAGS = frozenset({2, 4, 20, 22, 28})
_PLACE_IN_XMP = (b"GPSLatitude", b"GPSLongitude")
_DOCTYPE = re.compile(r"<!DOCTYPE[^<>\[\]]*>")


@dataclass(frozen=True, slots=True)
class PictureProblem:
    """Why a file cannot be shown; ``text`` says what to do about it."""

    code: ProblemCode
    text: str

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, slots=True)
class PictureFacts:
    """A file as its head describes it. Width and height are those of the upright picture, in pixels."""

    kind: Kind
    width: int | None = None
    height: int | None = None
    bytes: int = 0
    has_location: bool = False
    orientation: int = 1
    problem: PictureProblem | None = None
    removed: tuple[str, ...] = ()
    """What a drawing holds that does not go into the handbook."""

    @property
    def huge(self) -> bool:
        """True for a photo or drawing larger than any page can use."""
        if self.kind not in ("photo", "drawing"):
            return False
        return self.bytes > HUGE_BYTES or (self.width or 0) * (self.height or 0) > HUGE_PIXELS


TOO_MANY_PIXELS = PictureProblem(
    "too-many-pixels", "The picture has more than 50 million pixels. Save it at most 4000 pixels wide."
)
NOT_A_PICTURE = PictureProblem(
    "not-a-picture", "This is no picture we can read. Save it as JPEG, PNG or WebP; a drawing as SVG."
)
_PHONE_FORMAT = PictureProblem(
    "not-a-picture", "Browsers do not show this phone's own format (HEIC, AVIF). Save the photo as JPEG."
)
_ENTITIES = PictureProblem(
    "unsafe-drawing", "The drawing declares entities of its own. Save it again as plain SVG."
)
_NOT_TEXT = PictureProblem("not-a-picture", "The drawing is not text in UTF-8. Save it again as plain SVG.")
_BROKEN_XML = PictureProblem("not-a-picture", "The drawing is broken: it is no whole SVG. Save it again.")


def inspect(path: Path) -> PictureFacts:
    """Facts of one file. Never raises for what the file holds or for its absence."""
    try:
        if not path.is_file():
            missing = PictureProblem("missing", f"There is no file {path.name}.")
            return PictureFacts("unknown", problem=missing)
        size = path.stat().st_size
        with path.open("rb") as stream:
            kind, _ = sniff(stream.read(512), path.suffix)
            stream.seek(0)
            if kind == "photo":
                return _photo(stream, size)
            if kind == "drawing":
                return _drawing(stream.read(_HEAD), size)
            if kind == "unknown":
                return PictureFacts(kind, bytes=size, problem=_unknown(path))
            return PictureFacts(kind, bytes=size)
    except OSError as error:
        return PictureFacts("unknown", problem=unreadable(error))


def sniff(head: bytes, suffix: str) -> tuple[Kind, str]:
    """Kind of a file and the ending it should have, by its first bytes; the name only settles ties."""
    suffix = suffix.lower()
    if head.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"GIF8", b"II*\0", b"MM\0*", b"BM")):
        return "photo", suffix
    if head[:4] in (b"RIFF", b"RF64") and head[8:12] in (b"WEBP", b"WAVE"):
        return ("photo", ".webp") if head[8:12] == b"WEBP" else ("sound", ".wav")
    if head.startswith(b"fLaC"):
        return "sound", ".flac"
    if head.startswith(b"OggS"):
        return "sound", ".ogg"
    if head.startswith(b"\x1a\x45\xdf\xa3"):
        return "film", ".webm"
    if head[4:8] == b"ftyp":
        if head[8:12] in (b"heic", b"heix", b"mif1", b"msf1", b"avif"):
            return "unknown", suffix
        if head[8:12] == b"qt  ":
            return "film", ".mov"
        return ("sound", ".m4a") if suffix == ".m4a" or head[8:12] == b"M4A " else ("film", ".mp4")
    if head.startswith(b"ID3") or (suffix == ".mp3" and head[:1] == b"\xff" and head[1:2] >= b"\xe0"):
        return "sound", ".mp3"
    if suffix == ".svg" or re.match(rb"(?:\xef\xbb\xbf)?\s*<(?:\?xml|!--|!DOCTYPE svg|svg)[\s\S]*", head):
        return "drawing", ".svg"
    # A named photo with strange bytes is still meant as a photo: it gets the photo's message.
    return ("photo" if suffix in (".jpg", ".jpeg", ".png", ".webp", ".gif") else "unknown"), suffix


def _unknown(path: Path) -> PictureProblem:
    if path.suffix.lower() in (".heic", ".heif", ".avif"):
        return _PHONE_FORMAT
    if path.suffix.lower() in (".mp3", ".ogg", ".wav", ".m4a", ".mp4", ".webm", ".mov"):
        return PictureProblem(
            "not-a-picture", "This recording cannot be played in a browser. Save sound as MP3, film as MP4."
        )
    return NOT_A_PICTURE


def unreadable(error: OSError) -> PictureProblem:
    """The problem of a file that the system will not let us read, or whose derivatives it will not take."""
    reason = error.strerror or "no reason given"
    return PictureProblem("unreadable", f"The file cannot be read or its copy not be written: {reason}.")


@contextmanager
def strict_decoder() -> Iterator[None]:
    """Inside, a warning of too many pixels is an error and other warnings of the decoder are silent."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        yield


def open_picture(stream: BinaryIO) -> Image.Image | PictureProblem:
    """The picture with only its head read, or why not. Call it inside ``strict_decoder``."""
    try:
        image = Image.open(stream, formats=FORMATS)
    except (Image.DecompressionBombWarning, Image.DecompressionBombError):
        return TOO_MANY_PIXELS
    except UnidentifiedImageError:
        return NOT_A_PICTURE
    except Exception:  # a decoder given broken bytes raises whatever it stumbles over
        return NOT_A_PICTURE
    return TOO_MANY_PIXELS if image.width * image.height > MAX_PIXELS else image


def _photo(stream: BinaryIO, size: int) -> PictureFacts:
    with strict_decoder():
        image = open_picture(stream)
        if isinstance(image, PictureProblem):
            return PictureFacts("photo", bytes=size, problem=image)
        orientation, place = _exif_facts(image, stream)
    # The library has turned the size of a TIFF already.
    lies = orientation >= 5 and image.format != "TIFF"
    width, height = image.size[::-1] if lies else image.size
    return PictureFacts("photo", width, height, size, place, orientation)


def _exif_facts(image: Image.Image, stream: BinaryIO) -> tuple[int, bool]:
    """Orientation (1 to 8) and whether a place is told. Broken Exif counts as none."""
    xmp = image.info.get("xmp", b"")
    place = any(mark in xmp for mark in _PLACE_IN_XMP) if isinstance(xmp, bytes) else False
    try:
        if image.format == "PNG":
            # The library would decode the whole picture to find the blocks behind the pixels.
            exif = Image.Exif()
            for name, block in _png_blocks(stream):
                if name == b"eXIf":
                    exif.load(block)
                place = place or any(mark in block for mark in _PLACE_IN_XMP)
        else:
            exif = image.getexif()
        place = place or not _PLACE_TAGS.isdisjoint(exif.get_ifd(_GPS_IFD))
        orientation = exif.get(_ORIENTATION, 1)
    except Exception:  # Exif is a tree of offsets: broken ones fail in every way there is
        return 1, place
    return (orientation if isinstance(orientation, int) and 1 <= orientation <= 8 else 1), place


def _png_blocks(stream: BinaryIO) -> Iterator[tuple[bytes, bytes]]:
    """Exif and international text of a PNG; all else is stepped over unread (PNG, third edition, 5.3)."""
    stream.seek(8)
    while len(head := stream.read(8)) == 8:
        length, name = struct.unpack(">I4s", head)
        if name in (b"eXIf", b"iTXt") and length <= 1_000_000:
            yield name, stream.read(length)
            stream.seek(4, io.SEEK_CUR)
        else:
            stream.seek(length + 4, io.SEEK_CUR)


def drawing_text(data: bytes) -> str | PictureProblem:
    """An SVG as text without its document type; one with entities is refused before any parser sees it."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return _NOT_TEXT
    text = _DOCTYPE.sub("", text, count=1)
    return _ENTITIES if "<!DOCTYPE" in text or "<!ENTITY" in text else text


def drawing_size(attributes: dict[str, str]) -> tuple[int | None, int | None]:
    """Width and height of an SVG's root in pixels: its ``viewBox``, else its plain width and height."""
    numbers = re.findall(r"[-+]?\d*\.?\d+", attributes.get("viewBox", ""))
    sides = numbers[2:4] if len(numbers) == 4 else []
    if not sides:
        written = (attributes.get("width", ""), attributes.get("height", ""))
        found = [re.fullmatch(r"(\d+(?:\.\d*)?)(?:px)?", side) for side in written]
        sides = [side.group(1) for side in found if side]
    if len(sides) != 2 or not all(0 < float(side) < 1e6 for side in sides):
        return None, None
    return max(1, round(float(sides[0]))), max(1, round(float(sides[1])))


def _drawing(head: bytes, size: int) -> PictureFacts:
    if size > MAX_DRAWING_BYTES:
        return PictureFacts("drawing", bytes=size, problem=too_large_a_drawing(size))
    # The head may end inside a letter: what is left of it is no fault of the file.
    text = drawing_text(head if size <= _HEAD else head.decode("utf-8", "ignore").encode())
    if isinstance(text, PictureProblem):
        return PictureFacts("drawing", bytes=size, problem=text)
    parser: ElementTree.XMLPullParser[ElementTree.Element] = ElementTree.XMLPullParser(["start"])
    try:
        parser.feed(text)
        root = next((event[-1] for event in parser.read_events()), None)
    except ElementTree.ParseError:
        root = None
    if isinstance(root, ElementTree.Element) and root.tag.rpartition("}")[2] == "svg":
        return PictureFacts("drawing", *drawing_size(root.attrib), bytes=size)
    return PictureFacts("drawing", bytes=size, problem=_BROKEN_XML)


def too_large_a_drawing(size: int) -> PictureProblem:
    """The problem of a drawing that no line drawing needs to be."""
    text = f"The drawing has {size / 1e6:.1f} MB, more than 4. Simplify it, or save it as a photo."
    return PictureProblem("unsafe-drawing", text)


def broken_drawing() -> PictureProblem:
    """The problem of a drawing that does not parse."""
    return _BROKEN_XML


@dataclass(frozen=True, slots=True)
class Box:
    """One box of an MP4 file: its name, where its content begins and ends, in bytes from the start."""

    name: bytes
    start: int
    content: int
    end: int


def boxes(stream: BinaryIO, start: int, end: int) -> Iterator[Box]:
    """The boxes side by side between two places of a file (ISO/IEC 14496-12, 4.2)."""
    while start + 8 <= end:
        stream.seek(start)
        length, name = struct.unpack(">I4s", stream.read(8))
        content = start + 8
        if length == 1:
            if start + 16 > end:
                return
            (length,) = struct.unpack(">Q", stream.read(8))
            content += 8
        stop = end if length == 0 else start + length
        if stop < content or stop > end:
            return
        yield Box(name, start, content, stop)
        start = stop
