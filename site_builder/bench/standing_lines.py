"""A thing of the notebook as lines: what it says, what hangs on it, what is found at each, and where the pens go."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from urllib.parse import urlencode

from site_builder.amend import Plain, TreePath, entry_at, look_up
from site_builder.analysis.analysis import Analysis
from site_builder.bench.forms.daily import children_of, head_of
from site_builder.bench.forms.fields import Field, Fill, fields_of
from site_builder.bench.here import Reading
from site_builder.bench.homes import Home, address_of
from site_builder.bench.names import Names
from site_builder.bench.saying import OPEN, Said, said
from site_builder.bench.spoken_findings import Spoken, all_spoken
from site_builder.checks.answering import spot_of
from site_builder.notebook.finding import Finding, Level
from site_builder.notebook.model.entry import Entry


@dataclass
class Line:
    """One line of the page: an entry or a value, with what is found at it."""

    said: Said
    at: str
    """The address of its form, from the thing inward."""
    name: str = ""
    """The name that it stands under, if it stands under one."""
    found: list[Spoken] = field(default_factory=list)


@dataclass
class Group:
    """Lines under one heading."""

    key: str
    head: str
    lines: list[Line]


@dataclass
class StepLine:
    """A step with all that hangs on it."""

    number: int
    line: Line
    groups: list[Group]


def at(home: Home, path: TreePath, **more: str) -> str:
    """The address of the form of what stands at a path."""
    pairs = [("at", one) for one in address_of(home, path)] + [*more.items()]
    return f"/line/{home.about}/form?{urlencode(pairs)}"


def groups(names: Names, home: Home, path: TreePath, model: type[Entry], without: str = "") -> list[Group]:
    """What hangs on the entry at ``path``, by key."""
    tree = look_up(home.tree, path)
    made = []
    for one in children_of(model):
        stands = tree.get(one.key) if isinstance(tree, dict) else None
        if one.key == without or stands is None or stands in OPEN:
            continue
        lines = [*_lines(names, home, (*path, one.key), one, stands)]
        if lines:
            made.append(Group(one.key, head_of(one), lines))
    order = {one.key: number for number, one in enumerate(fields_of(model))}
    return sorted(made, key=lambda one: order[one.key])


def _lines(names: Names, home: Home, path: TreePath, one: Field, stands: Plain) -> Iterator[Line]:
    if one.fill is Fill.NAMED and isinstance(stands, dict):
        for name, value in stands.items():
            told = said(names, one.model, value) if one.model is not None else Said(
                value if isinstance(value, str) else "")
            shown = names.spoken(name) if one.key in ("of", "made") else name
            yield Line(told, at(home, (*path, name)), shown[:1].upper() + shown[1:])
        return
    if one.model is None:
        return
    items = stands if isinstance(stands, list) else [stands]
    for number, item in enumerate(items):
        where = (*path, number) if isinstance(stands, list) else path
        yield Line(said(names, one.model, item), at(home, where))


def steps(names: Names, home: Home) -> list[StepLine]:
    """The steps of a procedure."""
    held = look_up(home.tree, ("steps",))
    items = held if isinstance(held, list) else [held] if held is not None and held not in OPEN else []
    made = []
    for number, item in enumerate(items):
        path: TreePath = ("steps", number) if isinstance(held, list) else ("steps",)
        model = entry_at(home.tree, path)
        assert model is not None
        child = {one.key for one in children_of(model)}
        own = {key: value for key, value in item.items() if key not in child} if isinstance(item, dict) else item
        made.append(StepLine(number + 1, Line(said(names, model, own), at(home, path)),
                             groups(names, home, path, model)))
    return made


def found_at(reading: Reading, home: Home) -> Mapping[TreePath, list[Finding]]:
    """Errors and doubts of this thing, each at the place where it stands."""
    by_path: dict[TreePath, list[Finding]] = {}
    for one in reading.findings:
        if one.at.path == home.file and one.level is not Level.QUESTION:
            path = _path(reading.survey, one)
            if path[: len(home.base)] == home.base:
                by_path.setdefault(path, []).append(one)
    return by_path


def _path(survey: Analysis, one: Finding) -> TreePath:
    spot = spot_of(survey, one.at)
    return spot.path if spot is not None else ()


def lay(names: Names, home: Home, lines: list[Line], found: Mapping[TreePath, list[Finding]]) -> list[Spoken]:
    """Lay each finding at the innermost line that holds its place; what is left belongs to the thing as a whole."""
    by_address = {one.at: one for one in lines}
    left = []
    for path, findings in found.items():
        for depth in range(len(path), len(home.base), -1):
            line = by_address.get(at(home, path[:depth]))
            if line is not None:
                line.found += all_spoken(names, findings)
                break
        else:
            left += findings
    return all_spoken(names, left)
