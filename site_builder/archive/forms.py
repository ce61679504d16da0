"""Pictures and recordings in forms that archives recommend, beside the originals where those are in another one."""

from __future__ import annotations

import io
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageOps

from site_builder.archive.withheld import Withheld
from site_builder.notebook.picture_facts import sniff, strict_decoder
from site_builder.pictures.recordings import hushed, write_hushed

_SAFE = (".jpg", ".jpeg", ".png", ".tif", ".tiff", ".svg", ".wav", ".flac")
"""Originals in one of these need no second form."""
_TURNED = {".webp": ".png", ".gif": ".png", ".bmp": ".png"}
_QUALITY = 95


@dataclass(frozen=True, slots=True)
class SecondForm:
    """What was made of an original, or why nothing was. ``made``: the name of the new file, or empty."""

    name: str
    made: str
    said: str


def second_form(name: str, file: Path, out: Withheld, into: Path) -> SecondForm | None:
    """The file of the notebook ``name`` in a form to last, written into ``into``; None where the original is one."""
    with file.open("rb") as stream:
        kind, _ = sniff(stream.read(512), file.suffix)
    ending = file.suffix.lower()
    if name in out.voices:
        return None
    if kind in ("sound", "film"):
        return _recording(name, file, out, into)
    if kind == "photo" and (name in out.places or ending in _TURNED):
        return _photo(name, file, _TURNED.get(ending, ending), into)
    if kind == "unknown" and name in out.places:
        return SecondForm(name, "", "is left out: nobody can say whether it tells where it was taken, and no tool here "
                                    "can read it. Save it as JPEG, and it is kept.")
    return None


def _photo(name: str, file: Path, ending: str, into: Path) -> SecondForm:
    """Upright, whole, and without what it tells of itself."""
    made = _beside(name, ending)
    try:
        with strict_decoder(), Image.open(file) as image:
            upright = ImageOps.exif_transpose(image)
            out = io.BytesIO()
            if ending in (".jpg", ".jpeg"):
                upright.convert("RGB").save(out, "JPEG", quality=_QUALITY, subsampling=0, exif=b"")
            else:
                form = "TIFF" if ending in (".tif", ".tiff") else "PNG"
                made = _beside(name, ".tif" if form == "TIFF" else ".png")
                clear = "A" in upright.getbands() or "transparency" in upright.info
                clean = upright.convert("RGBA" if clear else "RGB")
                clean.info = {}
                clean.save(out, form)
    except Exception as problem:  # a decoder given broken bytes raises whatever it stumbles over
        return SecondForm(name, "", f"could not be read ({type(problem).__name__}); there is no second form of it.")
    _write(into / made, out.getvalue())
    return SecondForm(name, made, "upright, and without what the phone wrote into it")


def _recording(name: str, file: Path, out: Withheld, into: Path) -> SecondForm | None:
    """Sound and film stay as they were coded: turning them takes tools that are not here, and would lose something."""
    if name not in out.places:
        if file.suffix.lower() in _SAFE:
            return None
        return SecondForm(name, "", "is kept as it came: no tool here turns it into another form without loss.")
    with file.open("rb") as stream:
        said = hushed(stream, file.stat().st_size)
    if said.problem is not None:
        return SecondForm(name, "", f"is left out: {said.problem}")
    goal = into / name
    goal.parent.mkdir(parents=True, exist_ok=True)
    write_hushed(file, goal, said)
    return SecondForm(name, name, "the same recording, without the place where it was made")


def _beside(name: str, ending: str) -> str:
    """The same path with the ending of the new form after the old one, so that no two files meet."""
    return name if name.lower().endswith(ending) else f"{name}{ending}"


def _write(file: Path, data: bytes) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(data)
