"""Pictures for paper: photos without what they tell of themselves, drawings with the typefaces of the papers."""

from __future__ import annotations

import hashlib
import io
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

from site_builder.notebook.picture_facts import PictureProblem, inspect
from site_builder.paper.fonts import SANS
from site_builder.pictures.drawing import clean_drawing
from site_builder.pictures.photo import print_copy
from site_builder.views.blocks import Shot

_FAMILY = re.compile(r"font-family\s*:[^;}\"]*")
_FONT = re.compile(r"(?<![\w-])font\s*+:([^;}\"]*+)")
_SIZE = re.compile(r"(?<![\d.])[\d.]++(?:px|pt|em|%)(?:/[\d.]++\w*+)?(?=\s)")
_KINDS = {"film": "Film", "sound": "Sound"}


@dataclass
class Pictures:
    """The pictures of a paper, made ready in ``folder`` when they are asked for; each file once."""

    folder: Path
    shows: Callable[[str], bool]
    """Whether the press can set a file that lies there."""
    wide: int = 1400
    """Pixels across at most: 12 cm at 300 dots an inch."""
    problems: dict[str, str] = field(default_factory=dict)
    """Each picture that is not printed, and why."""
    _made: dict[Path, dict[str, Any]] = field(default_factory=dict)

    def of(self, shot: Shot) -> dict[str, Any]:
        """What a template has to know: ``file`` (empty where nothing can be printed), ``form`` and the file's name."""
        name = Path(shot.file).name
        if shot.path is None:
            self.problems.setdefault(shot.file, "the notebook has no such file")
            return {"file": "", "form": "lost", "name": name, "shape": 1.0}
        made = self._made.get(shot.path)
        if made is None:
            made = self._made[shot.path] = self._make(shot.path, shot.file)
        return made | {"name": name}

    def _make(self, path: Path, named: str) -> dict[str, Any]:
        facts = inspect(path)
        if facts.kind in _KINDS:
            return {"file": "", "form": _KINDS[facts.kind], "shape": 1.0}
        made = facts.problem or (self._drawing(path) if facts.kind == "drawing" else self._photo(path))
        if isinstance(made, PictureProblem):
            self.problems.setdefault(named, str(made))
            return {"file": "", "form": "lost", "shape": 1.0}
        return made

    def _photo(self, path: Path) -> dict[str, Any] | PictureProblem:
        with path.open("rb") as stream:
            made = print_copy(stream, self.wide)
        if isinstance(made, PictureProblem):
            return made
        ending = ".png" if made.data.startswith(b"\x89PNG") else ".jpg"
        return {"file": self._keep(made.data, ending), "form": "photo", "shape": made.width / made.height}

    def _drawing(self, path: Path) -> dict[str, Any] | PictureProblem:
        made = clean_drawing(path.read_bytes())
        if isinstance(made, PictureProblem):
            return made
        data = in_our_type(made.data)
        shape = (made.width or 1) / (made.height or 1)
        file = self._keep(data, ".svg")
        if not self.shows(file):
            return PictureProblem("not-a-picture", "The drawing cannot be set on paper. Save it again as plain SVG.")
        return {"file": file, "form": "drawing", "shape": shape}

    def _keep(self, data: bytes, ending: str) -> str:
        self.folder.mkdir(parents=True, exist_ok=True)
        name = hashlib.sha256(data).hexdigest()[:20] + ending
        (self.folder / name).write_bytes(data)
        return name


def in_our_type(drawing: bytes) -> bytes:
    """A clean drawing whose letters are set in the sans of the papers, whatever typeface it named."""
    root = ET.parse(io.BytesIO(drawing)).getroot()
    root.set("font-family", SANS)
    for element in root.iter():
        if element is not root and "font-family" in element.attrib:
            element.set("font-family", SANS)
        if "style" in element.attrib:
            element.set("style", _css(element.attrib["style"]))
        if element.tag.rpartition("}")[2] == "style" and element.text:
            element.text = _css(element.text)
    return ET.tostring(root, encoding="unicode").encode()


def _css(style: str) -> str:
    return _FONT.sub(_short, _FAMILY.sub(f"font-family: '{SANS}'", style))


def _short(font: re.Match[str]) -> str:
    """``font: bold 12px/1.2 Verdana``: the typeface stands after the size."""
    size = _SIZE.search(font[1])
    return f"font:{font[1][:size.end()]} '{SANS}'" if size else font[0]
