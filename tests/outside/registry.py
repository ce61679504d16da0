"""The register of checks: a published value, our value, and whether they agree."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

import yaml

REFERENCE = Path(__file__).parent / "reference"
SEEN = {
    "page": "read in print",
    "package": "worked out by hand or with another program",
    "memory": "from memory",
    "practice": "common practice",
}
"""How a published value was found. A value is never better than its worst word."""

Answer = Any
"""A number, a row of numbers, an interval with ``low`` and ``high``, a word, or true and false."""
Asked = TypeVar("Asked", bound=Callable[..., Answer])


@dataclass(frozen=True)
class Entry:
    """One published value, as it stands in a file of ``reference/``.

    ``published`` is a value or a row of values; ``between`` instead are the ends of what publishers say where they
    do not agree. ``tolerance`` covers the digits they print.
    """

    id: str
    what: str
    inputs: dict[str, Any]
    published: Answer
    between: tuple[float, float] | None
    tolerance: float
    unit: str
    source: dict[str, Any]
    seen: str
    note: str

    @property
    def cited(self) -> str:
        """Title, publisher, year and place, as far as they are known."""
        source = self.source
        named = [source["title"], source.get("publisher"), source.get("year"), source.get("section")]
        return ", ".join(str(part) for part in named if part not in (None, "", "-"))


@dataclass(frozen=True)
class Check:
    """A public function, asked about one entry."""

    topic: Topic
    function: str
    meaning: str
    entry: Entry
    ask: Callable[..., Answer]

    def result(self) -> Result:
        """Ask the function, and compare."""
        ours = plain(self.ask(**self.entry.inputs))
        difference = compare(self.entry, ours)
        return Result(self, ours, difference, difference is not None and abs(difference) <= slack(self.entry))


@dataclass(frozen=True)
class Result:
    """What our function gave; ``difference`` is ours less the published, 0 inside a published range, None where two
    words or truths differ."""

    check: Check
    ours: Answer
    difference: float | None
    agrees: bool


@dataclass
class Topic:
    """The checks of one topic, whose published values stand in ``reference/<name>.yml``."""

    name: str
    title: str
    checks: list[Check] = field(default_factory=list)

    def check(self, function: Callable[..., Any], *ids: str) -> Callable[[Asked], Asked]:
        """Register the decorated function as the way to ask ``function`` about each of these entries."""
        entries = reference(self.name)
        meaning = (inspect.getdoc(function) or "").partition("\n")[0]

        def register(ask: Asked) -> Asked:
            for each in ids:
                self.checks.append(Check(self, function_name(function), meaning, entries[each], ask))
            return ask

        if not ids:
            raise ValueError(f"a check of {function_name(function)} names at least one entry")
        return register


@cache
def reference(name: str) -> dict[str, Entry]:
    """The entries of one file of published values, by id. Raises ``ValueError`` for one that is not whole."""
    found: dict[str, Entry] = {}
    for raw in yaml.safe_load((REFERENCE / f"{name}.yml").read_text("utf-8"))["entries"]:
        where = f"{name}.yml, {raw.get('id', 'an entry without id')}"
        if raw["id"] in found:
            raise ValueError(f"{where}: stands there twice")
        if ("expected" in raw) == ("between" in raw):
            raise ValueError(f"{where}: has either expected or between")
        if raw.get("seen") not in SEEN:
            raise ValueError(f"{where}: seen is one of {', '.join(SEEN)}")
        if not raw["source"].get("title"):
            raise ValueError(f"{where}: no source")
        between = raw.get("between")
        found[raw["id"]] = Entry(
            id=raw["id"],
            what=raw["what"],
            inputs=raw.get("inputs") or {},
            published=raw.get("expected", between),
            between=(float(between[0]), float(between[1])) if between else None,
            tolerance=float(raw.get("tolerance") or 0),
            unit=raw.get("unit") or "",
            source=raw["source"],
            seen=raw["seen"],
            note=raw.get("note") or "",
        )
    return found


def function_name(function: Callable[..., Any]) -> str:
    """The function's address within the program: ``formulas.surface_speed.belt_speed``."""
    return f"{function.__module__}.{function.__qualname__}".removeprefix("site_builder.")


def plain(answer: Answer) -> Answer:
    """Numbers as floats, rows and intervals as lists, words and truths as they are."""
    if answer is None or isinstance(answer, bool | str):
        return answer
    if hasattr(answer, "low") and hasattr(answer, "high"):
        return [float(answer.low), float(answer.high)]
    if isinstance(answer, Sequence):
        return [plain(each) for each in answer]
    return float(answer)


def slack(entry: Entry) -> float:
    """The tolerance, and what floating point adds to it."""
    size = max((abs(each) for each in _numbers(entry.published)), default=0.0)
    return entry.tolerance + 1e-9 * size


def compare(entry: Entry, ours: Answer) -> float | None:
    """Ours less the published, for rows where they differ most; None where words, truths or rows do not fit."""
    published = plain(entry.published)
    if entry.between is not None:
        if not isinstance(ours, float):
            return None
        return _outside(ours, *entry.between)
    if isinstance(published, float) and isinstance(ours, float):
        return ours - published
    if isinstance(published, float) and _is_row(ours) and len(ours) == 2:
        # publishers differ and we hold an interval: the published value must lie in it
        return -_outside(published, *ours)
    if _is_row(published) and _is_row(ours) and len(published) == len(ours):
        return max((a - b for a, b in zip(ours, published, strict=True)), key=abs, default=0.0)
    return 0.0 if type(published) is type(ours) and published == ours else None


def _outside(figure: float, low: float, high: float) -> float:
    return min(figure - low, 0.0) or max(figure - high, 0.0)


def _is_row(answer: Answer) -> bool:
    return isinstance(answer, list) and all(isinstance(each, float) for each in answer)


def _numbers(answer: Answer) -> Iterator[float]:
    answer = plain(answer)
    if isinstance(answer, float):
        yield answer
    elif _is_row(answer):
        yield from answer


def topics() -> list[Topic]:
    """Every topic of this folder, by name of its module."""
    import tests.outside as here

    found = [importlib.import_module(f"{here.__name__}.{each.name}") for each in pkgutil.iter_modules(here.__path__)]
    return [module.TOPIC for module in found if isinstance(getattr(module, "TOPIC", None), Topic)]


def results() -> list[Result]:
    """Every check, asked."""
    return [check.result() for topic in topics() for check in topic.checks]
