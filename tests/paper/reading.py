"""Papers looked into from outside: what is read aloud, in its order (pikepdf), and where words stand (poppler)."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pikepdf
from PIL import Image

from tests.needed import missing


def read_aloud(file: Path) -> list[str]:
    """A line for each element that has words or another text to be told: its tag and what is said."""
    with pikepdf.open(file) as pdf:
        said = {page.objgen: _marked(page) for page in pdf.pages}
        return [line for line in _lines(pdf.Root.StructTreeRoot.K, None, said) if line]


_Said = Mapping[tuple[int, int], Mapping[int, str]]
"""Of each page the words under each mark."""


_INLINE = ("/Span", "/Strong", "/Em", "/Link", "/Lbl", "/Reference")


def _lines(kid: Any, page: Any, said: _Said) -> Iterator[str]:
    if isinstance(kid, pikepdf.Array):
        for one in kid:
            yield from _lines(one, page, said)
    elif isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
        page = kid.get("/Pg", page)
        own = " ".join("".join(_words(kid.get("/K"), page, said)).split())
        told = f"[{kid.Alt}] " if "/Alt" in kid else ""
        yield f"{str(kid.S)[1:]}: {told}{own}" if own or told else ""
        yield from _blocks(kid.get("/K", pikepdf.Array()), page, said)


def _blocks(kid: Any, page: Any, said: _Said) -> Iterator[str]:
    """The lines of the elements within one, but for those that were read with its own words."""
    for one in kid if isinstance(kid, pikepdf.Array) else [kid]:
        if isinstance(one, pikepdf.Dictionary) and str(one.get("/S")) in _INLINE:
            yield from _blocks(one.get("/K", pikepdf.Array()), one.get("/Pg", page), said)
        else:
            yield from _lines(one, page, said)


def _words(kid: Any, page: Any, said: _Said) -> Iterator[str]:
    """What stands in an element and in the parts of its sentences, not in blocks within it."""
    if isinstance(kid, int):
        yield said[page.objgen].get(kid, "")
    elif isinstance(kid, pikepdf.Array):
        for one in kid:
            yield from _words(one, page, said)
    elif isinstance(kid, pikepdf.Dictionary) and kid.get("/Type") == "/MCR":
        yield said[kid.get("/Pg", page).objgen].get(int(kid.MCID), "")
    elif isinstance(kid, pikepdf.Dictionary) and str(kid.get("/S")) in _INLINE:
        yield from _words(kid.get("/K"), kid.get("/Pg", page), said)


def _marked(page: pikepdf.Page) -> dict[int, str]:
    """The words of a page by their marks."""
    fonts = {name: _letters(font) for name, font in page.resources.get("/Font", {}).items()}
    found: dict[int, str] = {}
    open_marks: list[int | None] = []
    letters: Mapping[int, str] = {}
    for operands, operator in pikepdf.parse_content_stream(page):
        match str(operator):
            case "BDC":
                told = operands[1]
                open_marks.append(int(told.MCID) if isinstance(told, pikepdf.Dictionary) and "/MCID" in told else None)
            case "BMC":
                open_marks.append(None)
            case "EMC":
                open_marks.pop()
            case "Tf":
                letters = fonts[str(operands[0])]
            case "Tj" | "TJ":
                pieces = operands[0] if str(operator) == "TJ" else [operands[0]]
                mark = next((one for one in reversed(open_marks) if one is not None), None)
                if mark is not None:
                    text = "".join(_spelt(bytes(one), letters) for one in pieces if isinstance(one, pikepdf.String))
                    found[mark] = found.get(mark, "") + text
    return found


def _spelt(codes: bytes, letters: Mapping[int, str]) -> str:
    return "".join(letters.get(int.from_bytes(codes[at : at + 2], "big"), "?") for at in range(0, len(codes), 2))


_HEX = re.compile(r"<([0-9A-Fa-f]+)>")


def _letters(font: Any) -> dict[int, str]:
    """Which letters the codes of a font mean, by the table that it brings for readers (ISO 32000, 9.10.3)."""
    table = bytes(font.ToUnicode.read_bytes()).decode("latin-1")
    found: dict[int, str] = {}
    for block in re.findall(r"beginbfchar(.*?)endbfchar", table, re.DOTALL):
        for line in block.strip().splitlines():
            code, text = _HEX.findall(line)
            found[int(code, 16)] = bytes.fromhex(text).decode("utf-16-be")
    for block in re.findall(r"beginbfrange(.*?)endbfrange", table, re.DOTALL):
        for line in block.strip().splitlines():
            first, last, text = _HEX.findall(line)[:3]
            for step in range(int(last, 16) - int(first, 16) + 1):
                found[int(first, 16) + step] = chr(int(text, 16) + step)
    return found


Word = tuple[int, tuple[float, float, float, float], str]
"""The page, where on it the word stands, and the word."""


def words_on(file: Path) -> list[Word]:
    """Every word of a paper."""
    told = _poppler("pdftotext", "-bbox", str(file), "-")
    page, found = 0, []
    for line in told.splitlines():
        page += "<page " in line
        box = re.search(r'xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*)</word>', line)
        if box is not None:
            found.append((page, (float(box[1]), float(box[2]), float(box[3]), float(box[4])), box[5]))
    return found


def pages_as_picture(file: Path, out: Path, across: int = 6) -> Path:
    """All pages as one grey picture of 40 dots an inch, so many in a row."""
    _poppler("pdftoppm", "-r", "40", "-gray", "-png", str(file), str(out.with_suffix("")))
    pages = [Image.open(one) for one in sorted(out.parent.glob(f"{out.stem}-*.png"))]
    wide, high = pages[0].size
    whole = Image.new("L", (wide * min(across, len(pages)), high * -(-len(pages) // across)), 128)
    for number, page in enumerate(pages):
        whole.paste(page, (number % across * wide, number // across * high))
    whole.save(out)
    return out


def _poppler(*command: str) -> str:
    if shutil.which(command[0]) is None:
        missing(command[0])
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout
