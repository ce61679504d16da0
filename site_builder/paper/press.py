"""The press: data and a template of ours become a PDF."""

from __future__ import annotations

import json
import shutil
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from importlib.resources import files
from pathlib import Path
from typing import Any

from site_builder.paper.fonts import HOW_TO_GET
from site_builder.paper.problem import CannotPrint

STANDARDS = ("a-2a", "ua-1")
"""PDF/A-2a (ISO 19005-2) for the shelf and PDF/UA-1 (ISO 14289-1) for who has it read aloud, in one file."""
MAKER = "Benchlore paper"
"""Stands among the keywords of every paper, so that it is known again."""


@dataclass(frozen=True, slots=True)
class Printed:
    """What was made: the PDF, its pages, and in words what could not be printed as the notebook has it."""

    data: bytes
    pages: int
    lacks: tuple[str, ...]


class Press:
    """A folder in which a paper is put together, with the fonts it is set in."""

    def __init__(self, folder: Path, fonts: tuple[Path, ...], today: date) -> None:
        self.folder = folder
        self._noon = int(datetime(today.year, today.month, today.day, 12, tzinfo=UTC).timestamp())
        self._engine = _engine()
        # the engine takes folders of fonts: ours holds these alone, so that no other style of a family is taken
        (folder / "fonts").mkdir()
        for number, file in enumerate(fonts):
            shutil.copyfile(file, folder / "fonts" / f"{number}{file.suffix}")
        self._compiler = self._engine.Compiler(
            root=str(folder), font_paths=[str(folder / "fonts")], ignore_system_fonts=True)

    @property
    def pictures(self) -> Path:
        """Where its pictures lie."""
        return self.folder / "pictures"

    def lay_out(self, data: Mapping[str, Any]) -> None:
        """Put the data and the templates into the folder."""
        for one in files("site_builder.paper").joinpath("typst").iterdir():
            (self.folder / one.name).write_bytes(one.read_bytes())
        (self.folder / "data.json").write_text(json.dumps(data, ensure_ascii=False), encoding="utf-8")

    def shows(self, picture: str) -> bool:
        """Whether a picture that lies ready can be set at all."""
        trial = f'#image("pictures/{picture}", alt: "", width: 1cm)'.encode()
        try:
            self._compiler.compile(trial, format="pdf")
        except self._engine.TypstError:
            return False
        return True

    def pull(self, template: str, **inputs: str) -> bytes:
        """The PDF of a template. ``inputs`` are small settings of it. Raises CannotPrint."""
        return self._set(template, inputs, list(STANDARDS))

    def sides(self, template: str, **inputs: str) -> int:
        """How many pages it takes. Raises CannotPrint."""
        return sides_of(self._set(template, inputs, []))

    def ask(self, template: str, label: str, **inputs: str) -> Any:
        """The values that a template leaves under a label. Raises CannotPrint."""
        try:
            found = self._engine.query(
                str(self.folder / template), f"<{label}>", field="value", root=str(self.folder),
                font_paths=[str(self.folder / "fonts")], ignore_system_fonts=True, sys_inputs=inputs)
        except self._engine.TypstError as problem:
            raise _fault(problem) from problem
        return json.loads(found)

    def _set(self, template: str, inputs: dict[str, str], standards: list[str]) -> bytes:
        try:
            made = self._compiler.compile(
                str(self.folder / template), format="pdf", sys_inputs=inputs, pdf_standards=standards,
                timestamp=self._noon, pdf_tags=bool(standards))
        except self._engine.TypstError as problem:
            raise _fault(problem) from problem
        assert isinstance(made, bytes)
        return made


def _fault(problem: Any) -> CannotPrint:
    return CannotPrint(f"The pages could not be set: {problem.message}. This is a fault of the program, not of the "
                       "notebook; the paper made last is as it was.")


def _engine() -> Any:
    try:
        import typst
    except ImportError:
        raise CannotPrint(f"What sets the pages is not installed. Install it: {HOW_TO_GET}") from None
    return typst


def workplace() -> tempfile.TemporaryDirectory[str]:
    """A folder to put a paper together in, gone afterwards."""
    return tempfile.TemporaryDirectory(prefix="benchlore-paper-")


def is_ours(file: Path) -> bool:
    """Whether this file is a paper that we made."""
    try:
        data = file.read_bytes()
    except OSError:
        return False
    return data.startswith(b"%PDF-") and MAKER.encode() in data


def sides_of(pdf: bytes) -> int:
    """How many pages a paper has: the count of the root of its page tree, which the press writes in the clear."""
    marker = b"/Type/Pages"
    for known in (marker, b"/Type /Pages"):
        at = pdf.find(known)
        if at >= 0:
            count = pdf.find(b"/Count", at)
            digits = pdf[count + 6 : count + 16].split(b"/")[0].split(b">")[0].split()
            return int(digits[0])
    raise AssertionError("a paper without pages")


