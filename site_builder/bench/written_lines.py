"""What was written, as lines that can be taken back one by one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from site_builder.amend import Kept, Plain, history
from site_builder.bench.visit import Visit
from site_builder.views.dates import dated_day

_SILENT = ("source", "asked", "questions")


@dataclass(frozen=True, slots=True)
class WrittenLine:
    """One act of writing."""

    name: str
    what: str
    line: str
    who: str
    on: str
    taken_back: bool


def written_since(visit: Visit, since: str) -> Iterator[WrittenLine]:
    """What was written after the act named ``since``, the first first; what was taken back is left out."""
    found: list[Kept] = []
    for one in history(visit.here.root):
        if one.name <= since:
            break
        found.append(one)
    gone = {one.takes_back for one in found if one.takes_back}
    for one in reversed(found):
        if one.takes_back is None and one.name not in gone:
            yield as_line(visit, one)


def as_line(visit: Visit, kept: Kept, taken_back: bool = False) -> WrittenLine:
    """An act of writing as it is told."""
    where, _, what = kept.what.partition(": ")
    lines = [said for change in kept.changes if (said := _said(change.path[-1] if change.path else "", change.shall))]
    told = visit.names.said("; ".join(dict.fromkeys(lines))) or what or where
    return WrittenLine(kept.name, visit.names.said(kept.what), told, visit.names.person(kept.who),
                       dated_day(kept.when.date()), taken_back)


def _said(key: str | int, shall: Plain | None) -> str:
    """The words that were written, without the keys that only say how."""
    if shall is None:
        return ""
    if key == "asked" and isinstance(shall, dict):
        text = str([*shall.values()][-1])
        return text.partition(";")[0][:1].upper() + text.partition(";")[0][1:] + "."
    if key in _SILENT:
        return ""
    if isinstance(shall, str):
        return " ".join(shall.split())
    if isinstance(shall, list):
        return _said("", shall[-1]) if shall else "Nothing."
    return "; ".join(filter(None, (
        f"{name}: {text}" if isinstance(value, dict) and (text := _said(name, value)) else _said(name, value)
        for name, value in shall.items() if name not in _SILENT)))
