"""What was written, as lines that can be taken back one by one, in the words that the page has for them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from site_builder.amend import Change, Kept, Plain, entry_at, history, tree_in
from site_builder.bench.names import Names
from site_builder.bench.saying import said, words
from site_builder.bench.visit import Visit
from site_builder.notebook.answered import read_answer
from site_builder.views.dates import dated_day

_SILENT = ("source", "questions", "id", "former")
_FIRST = ("title", "name")


@dataclass(frozen=True, slots=True)
class WrittenLine:
    """One act of writing."""

    name: str
    what: str
    line: str
    who: str
    on: str
    taken_back: bool


def latest(root: Path) -> str:
    """The name of the last act of writing; empty where nothing was written yet."""
    return next((one.name for one in history(root)), "")


def written_since(visit: Visit, since: str) -> Iterator[WrittenLine]:
    """What was written after the act named ``since``, the first first; what was taken back is left out."""
    for one in kept_since(visit, since):
        yield as_line(visit, one)


def kept_since(visit: Visit, since: str) -> list[Kept]:
    """The same as it is kept."""
    found: list[Kept] = []
    for one in history(visit.here.root):
        if one.name <= since:
            break
        found.append(one)
    gone = {one.takes_back for one in found if one.takes_back}
    return [one for one in reversed(found) if one.takes_back is None and one.name not in gone]


def as_line(visit: Visit, kept: Kept, taken_back: bool = False) -> WrittenLine:
    """An act of writing as it is told."""
    names = visit.names
    told: dict[str, None] = {}
    for change in kept.changes:
        tree = tree_in(visit.here.root, change.file) if change.path else None
        near = Names(visit.reading.survey, PurePosixPath(change.file).stem)
        for one in _lines(near, change, tree if tree is not None else {}):
            told.setdefault(one)
    where, _, what = kept.what.partition(": ")
    line = " ".join(f"{one.rstrip('.')}." if len(told) > 1 else one for one in told if one)
    return WrittenLine(kept.name, names.plainly(kept.what), line or what or where, names.person(kept.who),
                       dated_day(kept.when.date()), taken_back)


def _lines(names: Names, change: Change, tree: Plain) -> Iterator[str]:
    """What one change wrote."""
    key = change.path[-1] if change.path else ""
    if not change.path:
        held = change.shall if isinstance(change.shall, dict) else {}
        yield next((str(held[one]) for one in _FIRST if one in held), "")
    elif key == "asked":
        yield from _answers(names, change)
    elif change.shall is not None and key not in _SILENT:
        yield from _new(names, tree, change.path, change.was, change.shall)


def _answers(names: Names, change: Change) -> Iterator[str]:
    was = change.was if isinstance(change.was, dict) else {}
    for key, text in change.shall.items() if isinstance(change.shall, dict) else ():
        told = read_answer(str(text))
        if told is not None and was.get(key) != text:
            yield f"{told.kind[:1].upper()}{told.kind[1:]}{f' {names.person(told.whom)}' if told.whom else ''}."


def _new(names: Names, tree: Plain, path: tuple[str | int, ...], was: Plain | None, shall: Plain) -> Iterator[str]:
    """What stands at a path now and did not stand there before."""
    if isinstance(shall, list):
        old = was if isinstance(was, list) else [was]
        for number, one in enumerate(shall):
            if one not in old:
                yield from _new(names, tree, (*path, number), None, one)
        return
    model = entry_at(tree, path)
    if isinstance(shall, dict):
        short = {model.MAIN: was} if model is not None and was is not None else {}
        old_keys = was if isinstance(was, dict) else short
        fresh: dict[str, Plain] = {key: one for key, one in shall.items()
                                   if old_keys.get(key) != one and key not in _SILENT}
        if model is None:  # names of the shop's own, each with an entry
            for name, one in fresh.items():
                told = " ".join(_new(names, tree, (*path, name), old_keys.get(name), one))
                yield f"{name[:1].upper()}{name[1:]}: {told}" if told else name
            return
        if set(fresh) == {"asked"}:
            yield from _answers(names, Change("", ("asked",), None, fresh["asked"]))
            return
        yield said(names, model, fresh).whole
        return
    if model is not None and (isinstance(path[-1], int) or model.MAIN):
        yield said(names, model, shall).whole
        return
    over = entry_at(tree, path[:-1])
    yield said(names, over, {str(path[-1]): shall}).whole.partition(": ")[2] or words(names, shall) \
        if over is not None and path[-1] != over.MAIN else words(names, shall)
