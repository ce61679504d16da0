"""Every picture and recording in words: what it shows, where it lies, in which form, and what is left out."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from pathlib import Path

from site_builder.analysis.analysis import Analysis
from site_builder.archive.forms import SecondForm
from site_builder.archive.plain_text import WIDTH
from site_builder.archive.withheld import Withheld
from site_builder.archive.written import written_files
from site_builder.notebook.picture_facts import sniff

_HEAD = """\
PICTURES AND RECORDINGS
=======================

What each one shows, as the shop said it. The originals lie in data/notebook/.
A second form, where there is one, lies in data/pictures-and-recordings/ under
the same path.

"""


def pictures_told(analysis: Analysis, forms: Sequence[SecondForm], out: Withheld) -> str:
    """The list, in order of paths."""
    root = analysis.notebook.root
    shown: dict[str, dict[str, None]] = {}
    for one in analysis.pictures:
        if one.path is not None:
            name = one.path.resolve().relative_to(root.resolve()).as_posix()
            shown.setdefault(name, {})[one.shows or "nobody has said what it shows"] = None
    second = {one.name: one for one in forms}
    lines: list[str] = []
    for name, file in written_files(root):
        if name in shown or name in second or _is_media(file):
            lines += _told(name, [*shown.get(name, {"no page shows it": None})], second.get(name), out)
    return _HEAD + "\n".join(lines or ["There are none."]) + "\n"


def _told(name: str, shows: Sequence[str], second: SecondForm | None, out: Withheld) -> Iterator[str]:
    yield name
    for words in shows:
        yield from _line(words)
    if name in out.voices:
        yield from _line("Left out: nobody has written that those who are heard agree to being kept.")
    elif name in out.places:
        yield from _line("The original is left out: it tells where it was taken, or nobody can say whether it does.")
    if second is not None:
        yield from _line(f"Second form: {second.made} ({second.said})" if second.made else f"It {second.said}")
    yield ""


def _line(words: str) -> list[str]:
    return textwrap.wrap(words, WIDTH, initial_indent="    ", subsequent_indent="    ", break_long_words=False)


def _is_media(file: Path) -> bool:
    with file.open("rb") as stream:
        kind, _ = sniff(stream.read(512), file.suffix)
    return kind != "unknown"
