"""Every public function of the arithmetic, asked with figures and words that cannot be.

What a function is asked with in the checks from outside, and in ``samples.py`` beside this, is recorded; then one
argument at a time is spoiled, by its type: a number, a count, a word, a row, a thing with fields. A new function is
asked as soon as it is called by a check.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import sys
import typing
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass, replace
from fractions import Fraction
from math import inf, isnan, nan
from types import CodeType, FrameType, UnionType
from typing import Any, Literal, NamedTuple

from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval
from site_builder.quantity import Value

FOLDERS = ("formulas", "safety", "skills.proof")
TOOLS = ("formulas.errors", "formulas.guards", "formulas.interval", "skills.proof.demands")
"""What the refusing is done with."""
SAMPLES_A_FUNCTION = 4
STEPS = 600_000
"""Lines of the program that one answer may take; some tenths of a second wherever it runs."""

Function = Callable[..., Any]


class Asked(NamedTuple):
    """One call as it was recorded: the function, and its arguments by name."""

    function: Function
    given: Mapping[str, Any]


class Spoiled(NamedTuple):
    """One argument made into what it cannot be: ``spells.each.level``, ``nan``."""

    where: str
    kind: str
    given: Mapping[str, Any]


class TooLong(BaseException):
    """An answer that took more steps than it may."""


# ---------------------------------------------------------------------- what there is


def public_functions() -> dict[str, Function]:
    """Public functions, and the public methods that are asked with something, by address within the program."""
    found: dict[str, Function] = {}
    for folder in FOLDERS:
        package = importlib.import_module(f"site_builder.{folder}")
        for each in pkgutil.iter_modules(package.__path__):
            module = importlib.import_module(f"{package.__name__}.{each.name}")
            if f"{folder}.{each.name}" in TOOLS:
                continue
            for name, one in vars(module).items():
                if name.startswith("_") or getattr(one, "__module__", "") != module.__name__:
                    continue
                address = f"{folder}.{each.name}.{name}"
                if inspect.isclass(one):
                    found |= {f"{address}.{method}": function for method, function in _methods(one)}
                elif callable(one) and inspect.isfunction(inspect.unwrap(one)):
                    found[address] = one
    return found


def _methods(kind: type) -> Iterator[tuple[str, Function]]:
    for name, one in vars(kind).items():
        if inspect.isfunction(one) and not name.startswith("_") and len(inspect.signature(one).parameters) > 1:
            yield name, one


# ---------------------------------------------------------------------- what it is asked with


def recorded(run: Callable[[], object], functions: Mapping[str, Function]) -> dict[str, list[Asked]]:
    """Calls of the functions while something runs; of each function a few that differ in the kinds of their arguments.

    Of calls alike the shortest is kept, since what is spoiled is asked again and again.
    """
    for one in functions.values():
        getattr(one, "cache_clear", lambda: None)()  # an answer that is remembered would not be asked for again
    by_code: dict[CodeType, str] = {inspect.unwrap(one).__code__: name for name, one in functions.items()}
    found: dict[str, dict[str, Asked]] = {}

    def watch(frame: FrameType, event: str, _: object) -> None:
        name = by_code.get(frame.f_code) if event == "call" else None
        if name is None:
            return
        code = frame.f_code
        given = {one: frame.f_locals[one] for one in code.co_varnames[: code.co_argcount + code.co_kwonlyargcount]}
        kinds = repr([_kind(one) for one in given.values()])
        kept = found.setdefault(name, {})
        if kinds in kept or len(kept) < SAMPLES_A_FUNCTION:
            before = kept.get(kinds)
            if before is None or _size(given) < _size(before.given):
                kept[kinds] = Asked(functions[name], given)

    before = sys.getprofile()
    sys.setprofile(watch)
    try:
        run()
    finally:
        sys.setprofile(before)
    return {name: list(kept.values()) for name, kept in found.items()}


def _kind(one: object) -> str:
    if isinstance(one, str):
        return one if len(one) < 12 else "text"
    if isinstance(one, float | int | Fraction) and not isinstance(one, bool):
        return "number"
    return type(one).__name__


def _size(given: Mapping[str, Any]) -> int:
    """How much there is to reckon: rows by their length, counts by what they count."""
    rows = sum(len(one) for one in given.values() if hasattr(one, "__len__"))
    return rows + sum(one for one in given.values() if isinstance(one, int))


# ---------------------------------------------------------------------- spoiling it


def spoiled(asked: Asked, whole: frozenset[type]) -> Iterator[Spoiled]:
    """The call with one argument at a time made into what it cannot be; things of a kind in ``whole`` stay whole."""
    hints = typing.get_type_hints(inspect.unwrap(asked.function))
    for name, value in asked.given.items():
        if name != "self":
            for where, kind, bad in _worse(value, hints.get(name, Any), name, whole):
                yield Spoiled(where, kind, {**asked.given, name: bad})


def _worse(value: Any, hint: Any, where: str, whole: frozenset[type]) -> Iterator[tuple[str, str, Any]]:
    options = _options(hint)
    if value is None or (isinstance(value, bool) and bool in options):
        return
    if isinstance(value, str):
        if Literal in map(typing.get_origin, options) or str in options:
            yield where, "word", "no such word"
            yield where, "word", ""
    elif isinstance(value, bool | float | int | Fraction):
        yield from ((where, kind, bad) for kind, bad in _numbers(value, options))
    elif isinstance(value, Value) or type(value) in whole:
        return
    elif is_dataclass(value) and not isinstance(value, type):
        yield from _spoiled_thing(value, where, whole)
    elif isinstance(value, Mapping):
        yield where, "empty", {}
        for key, each in value.items():
            inner = _inner(options, last=True)
            yield from ((f"{where}.each", kind, {**value, key: bad}) for _, kind, bad in _worse(each, inner, "", whole))
            break
    elif isinstance(value, Sequence):
        yield from _spoiled_row(value, options, where, whole)


def _numbers(value: Any, options: Sequence[Any]) -> Iterator[tuple[str, Any]]:
    yield from (("nan", nan), ("infinite", inf), ("infinite", -inf), ("no number", "bad"))
    if isinstance(value, int) and int in options and float not in options:
        yield from (("negative", -1), ("broken", value + 0.5), ("absurd", 10**12))
        yield from (("many", 10**5), ("many", 10**6), ("many", 10**9))
    elif isinstance(value, Fraction) or (Fraction in options and float not in options):
        yield from (("negative", Fraction(-1)), ("absurd", Fraction(10) ** 300))
    else:
        yield from (("negative", -1.0), ("negative", -1e308), ("absurd", 1e308))
        yield from (("many", 1e6), ("many", 1e-9), ("many", 1e12))


class _Lazy:
    """A thing that is made only when it is asked with, since making it may be refused already."""

    def __init__(self, make: Callable[[], Any]) -> None:
        self.make = make


def _spoiled_thing(value: Any, where: str, whole: frozenset[type]) -> Iterator[tuple[str, str, Any]]:
    hints = typing.get_type_hints(type(value))
    for each in fields(value):
        inner = getattr(value, each.name)
        for place, kind, bad in _worse(inner, hints[each.name], f"{where}.{each.name}", whole):
            yield place, kind, _Lazy(lambda each=each, bad=bad: replace(value, **{each.name: made(bad)}))


def _spoiled_row(
    value: Any, options: Sequence[Any], where: str, whole: frozenset[type]
) -> Iterator[tuple[str, str, Any]]:
    named = [option for option in options if typing.get_origin(option) is tuple]
    parts = typing.get_args(named[0]) if named else ()
    fixed = bool(parts) and Ellipsis not in parts
    if not fixed:
        yield where, "empty", type(value)() if isinstance(value, list | tuple) else []
    places = range(len(value)) if fixed else range(min(len(value), 1))
    for at in places:
        inner = parts[at] if fixed else _inner(options)
        for place, kind, bad in _worse(value[at], inner, f"{where}.{at if fixed else 'each'}", whole):
            yield place, kind, _Lazy(lambda at=at, bad=bad: _with(value, at, made(bad)))


def _with(row: Any, at: int, one: Any) -> Any:
    changed = list(row)
    changed[at] = one
    return tuple(changed) if isinstance(row, tuple) else changed


def made(bad: Any) -> Any:
    """The spoiled argument itself."""
    return made(bad.make()) if isinstance(bad, _Lazy) else bad


def _options(hint: Any) -> list[Any]:
    """The kinds a hint allows: of ``float | None`` both."""
    if typing.get_origin(hint) in (typing.Union, UnionType):
        return [one for each in typing.get_args(hint) for one in _options(each)]
    return [hint]


def _inner(options: Sequence[Any], last: bool = False) -> Any:
    """What a row of that kind holds."""
    for option in options:
        inner = typing.get_args(option)
        if inner and typing.get_origin(option) not in (Literal, None):
            return inner[-1 if last else 0]
    return Any


# ---------------------------------------------------------------------- asking


class Answer(NamedTuple):
    """What came of it: ``refused``, ``answered``, ``answered no number``, ``took too long``, or an error's name."""

    word: str
    told: str


def answer(function: Function, given: Mapping[str, Any]) -> Answer:
    """Ask it, and stop it after so many lines of the program: the same on every machine."""
    left = STEPS

    def count(_frame: FrameType, _event: str, _argument: object) -> Any:
        nonlocal left
        left -= 1
        if left < 0:
            raise TooLong
        return count

    before = sys.gettrace()
    try:
        arguments = {name: made(one) for name, one in given.items()}
        itself = arguments.pop("self", None)
        sys.settrace(count)
        try:
            found = function(itself, **arguments) if itself is not None else function(**arguments)
        finally:
            sys.settrace(before)
    except Impossible as refused:
        named = bool(refused.argument and refused.why)
        return Answer("refused" if named else "refused without a name", str(refused))
    except TooLong:
        return Answer("took too long", "")
    except Exception as error:
        return Answer(type(error).__name__, str(error))
    return Answer("answered no number" if _holds_nan(found) else "answered", repr(found)[:80])


def _holds_nan(found: Any) -> bool:
    if isinstance(found, float):
        return isnan(found)
    if isinstance(found, str):
        return "nan" in found.split()
    if isinstance(found, Interval):
        return False
    if is_dataclass(found) and not isinstance(found, type):
        return any(_holds_nan(getattr(found, each.name)) for each in fields(found))
    if isinstance(found, list | tuple):
        return any(_holds_nan(each) for each in found[:100])
    return False
