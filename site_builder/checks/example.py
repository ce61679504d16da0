"""The small notebooks of the rule catalogue: files and the places where a finding is expected."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from PIL import Image
from PIL.ExifTags import GPS, IFD

from site_builder.checks.rule import MARK
from site_builder.notebook.finding import At

_FILE = re.compile(r"^=== (▸?)(\S+)(?: (.+))?\n", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class ExampleFile:
    """A file of an example.

    ``how`` is empty for text, or `folder`, `in latin-1`, `link to PATH`, `photo 400x300`,
    `photo 400x300 with its place`.
    """

    path: str
    text: str
    how: str = ""


def files_of(example: str) -> tuple[list[ExampleFile], list[At]]:
    """The files without their marks, and the marked places in order of path, line and column."""
    parts = _FILE.split(example.lstrip("\n"))
    files: list[ExampleFile] = []
    marks: list[At] = []
    for whole, path, how, text in zip(parts[1::4], parts[2::4], parts[3::4], parts[4::4], strict=True):
        if whole:
            marks.append(At(path))
        lines = text.split("\n")
        for number in range(len(lines)):
            while MARK in lines[number]:
                line = lines[number]
                column = line.index(MARK)
                marks.append(At(path, number + 1, column + 1))
                lines[number] = line.replace(MARK, "", 1)
        files.append(ExampleFile(path, "\n".join(lines), how or ""))
    return files, sorted(marks)


def write_example(example: str, folder: Path) -> list[At]:
    """Write an example into a folder; returns the marked places."""
    files, marks = files_of(example)
    for item in files:
        file = folder / item.path
        file.parent.mkdir(parents=True, exist_ok=True)
        if item.how == "folder":
            file.mkdir()
        elif item.how.startswith("link to "):
            target = file.parent / item.how.removeprefix("link to ")
            file.symlink_to(target)
        elif size := re.match(r"photo (\d+)x(\d+)", item.how):
            _take_photo(file, (int(size[1]), int(size[2])), placed=item.how.endswith("with its place"))
        else:
            file.write_bytes(item.text.encode(item.how.removeprefix("in ") or "utf-8"))
    return marks


def _take_photo(file: Path, size: tuple[int, int], *, placed: bool) -> None:
    """A grey picture such as a phone writes; ``placed`` with a latitude in its head (Exif 2.32, 4.6.6)."""
    exif = Image.Exif()
    if placed:
        exif.get_ifd(IFD.GPSInfo)[GPS.GPSLatitudeRef] = "N"
        exif.get_ifd(IFD.GPSInfo)[GPS.GPSLatitude] = (54.0, 30.0, 0.0)
    Image.new("L", size, 128).save(file, exif=exif)
