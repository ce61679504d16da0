"""Answers as digests and questions as text, the same in every run of the program."""

from __future__ import annotations

import importlib
import json
import re
from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import fields, is_dataclass
from datetime import date, datetime
from enum import Enum
from fractions import Fraction
from hashlib import blake2b
from pathlib import Path, PurePath
from types import FunctionType
from typing import Any

_DEEPEST = 60

Leaf = Callable[[object], str | None]
"""For a thing that is told by something else than its parts (an entry by its file): what tells it. Else None."""


class Unaskable(Exception):
    """This cannot be told in a way that another run would understand."""


class Digests:
    """Digests by value.

    ``leaf`` tells the things that stand in a file; ``name`` names those that may stand in a question, and ``places``
    holds them by these names. ``machines`` are asked further and never told; ``everything`` is of all there is. Files
    below ``root`` are told from there.
    """

    def __init__(
        self, leaf: Leaf, name: Leaf, places: Mapping[str, object], machines: tuple[type, ...], package: str,
        everything: Callable[[], str], root: Path,
    ) -> None:
        self._root = root
        self._leaf = leaf
        self._name = name
        self._places = places
        self._machines = machines
        self._package = package
        self._everything_of = everything
        self._everything = ""
        self._answering: dict[type, bool] = {}
        self._attributes: dict[str, str] = {}
        self._known: dict[int, tuple[object, bytes]] = {}

    @property
    def everything(self) -> str:
        """The digest of all there is."""
        self._everything = self._everything or self._everything_of()
        return self._everything

    def answers(self, value: object) -> bool:
        """Whether this is an object of ours that is asked further, and no value: one with methods and no fields."""
        kind = type(value)
        known = self._answering.get(kind)
        if known is None:
            known = self._answering[kind] = issubclass(kind, self._machines) or (
                kind.__module__.startswith(self._package) and not is_dataclass(kind)
                and not isinstance(value, str | tuple | Mapping | Sequence | Enum | Exception)
                and self._leaf(value) is None
            )
        return known

    # ------------------------------------------------------------------ answers

    def of(self, value: object) -> str:
        """32 digits. Raises Unaskable for what cannot be told."""
        parts: list[bytes] = []
        self._tell(value, parts, 0)
        return blake2b(b"".join(parts), digest_size=16).hexdigest()

    def _tell(self, value: object, out: list[bytes], depth: int) -> None:
        kind = type(value)
        if kind is str:
            out.append(f"{len(value)}:{value};".encode("utf-8", "surrogatepass"))  # type: ignore[arg-type]
        elif value is None or isinstance(value, bool | int | float | bytes | date | datetime | Fraction):
            out.append(f"{kind.__name__} {value!r};".encode())
        elif depth > _DEEPEST:
            raise Unaskable
        elif isinstance(value, PurePath) and value.is_relative_to(self._root):
            out.append(f"inside {value.relative_to(self._root)};".encode("utf-8", "surrogatepass"))
        elif (leaf := self._leaf(value)) is not None:
            out.append(f"leaf {leaf};".encode("utf-8", "surrogatepass"))
        elif is_dataclass(value) and not isinstance(value, self._machines):
            out.append(self._of_dataclass(value, depth))
        elif isinstance(value, list | tuple):
            out.append(f"[{kind.__qualname__} {len(value)} ".encode())
            for one in value:
                self._tell(one, out, depth + 1)
        else:
            self._tell_rarer(value, out, depth)

    def _tell_rarer(self, value: object, out: list[bytes], depth: int) -> None:
        if isinstance(value, str):
            out.append(f"{len(value)}:{value!s};".encode("utf-8", "surrogatepass"))
            if hasattr(value, "line"):
                out.append(f"at {getattr(value, 'path', '')} {value.line} {getattr(value, 'column', '')};".encode())
        elif isinstance(value, Enum):
            out.append(f"{type(value).__name__}.{value.name};".encode())
        elif isinstance(value, type):
            out.append(f"type {value.__module__} {value.__qualname__};".encode())
        elif isinstance(value, PurePath | re.Pattern):
            out.append(f"{type(value).__name__} {value!s};".encode("utf-8", "surrogatepass"))
        elif isinstance(value, Mapping):
            out.append(b"{%d " % len(value))
            for key, one in value.items():
                self._tell(key, out, depth + 1)
                self._tell(one, out, depth + 1)
        elif isinstance(value, Set):
            told = []
            for one in value:
                parts: list[bytes] = []
                self._tell(one, parts, depth + 1)
                told.append(b"".join(parts))
            out += [b"(%d " % len(value), *sorted(told)]
        elif isinstance(value, FunctionType):
            out.append(f"function {value.__module__} {value.__qualname__};".encode())
            for cell in value.__closure__ or ():
                self._tell(cell.cell_contents, out, depth + 1)
        else:
            raise Unaskable

    def _of_dataclass(self, value: object, depth: int) -> bytes:
        known = self._known.get(id(value))
        if known is None or known[0] is not value:
            parts = [f"{type(value).__qualname__} ".encode()]
            for one in fields(value):  # type: ignore[arg-type]
                self._tell(getattr(value, one.name), parts, depth + 1)
            known = self._known[id(value)] = (value, blake2b(b"".join(parts), digest_size=16).digest())
        return known[1]

    # ------------------------------------------------------------------ questions

    def written(self, step: tuple[Any, ...]) -> str:
        """One step of a question as text. Raises Unaskable."""
        if step[0] != ".":
            return json.dumps(self._step(step))
        known = self._attributes.get(step[1])
        if known is None:
            known = self._attributes[step[1]] = json.dumps([*step])
        return known

    def _step(self, step: tuple[Any, ...]) -> list[Any]:
        kind, *rest = step
        if kind in ("[]", "in"):
            return [kind, self.write(rest[0])]
        if kind == "()":
            return [kind, rest[0], [self.write(one) for one in rest[1]], [[n, self.write(one)] for n, one in rest[2]]]
        return [*step]

    def write(self, value: object) -> Any:
        """Something in a question, so that ``read`` gives it again. Raises Unaskable."""
        if type(value) is str:
            return value
        if value is None or isinstance(value, bool | int | float):
            return value
        name = self._name(value)
        if name is not None:
            if self._places.get(name) is not value:
                raise Unaskable
            return {"thing": name, "digest": self.of(value)}
        kind = type(value)
        if isinstance(value, str):
            if kind is not str and not hasattr(value, "line"):  # a text of the notebook is its letters; another is more
                raise Unaskable
            return str(value)
        if kind is tuple:
            return {"tuple": [self.write(one) for one in value]}  # type: ignore[attr-defined]
        if isinstance(value, tuple) and kind.__module__.startswith(self._package):
            return {"tuple of": [kind.__module__, kind.__qualname__, [self.write(one) for one in value]]}
        if is_dataclass(value) and kind.__module__.startswith(self._package):
            return {"data": [kind.__module__, kind.__qualname__,
                             [[one.name, self.write(getattr(value, one.name))] for one in fields(value) if one.init]]}
        if kind is list:
            return {"list": [self.write(one) for one in value]}  # type: ignore[attr-defined]
        if isinstance(value, PurePath):
            inside = value.is_relative_to(self._root)
            return {"inside": str(value.relative_to(self._root))} if inside else {"path": str(value)}
        if isinstance(value, date):
            return {"day": value.isoformat()}
        if isinstance(value, type):
            return {"type": [value.__module__, value.__qualname__]}
        raise Unaskable

    def read(self, written: Any) -> Any:
        """The thing that was written. Raises LookupError or Unaskable where it is not there any more, or changed."""
        if not isinstance(written, dict):
            return written
        ((kind, value),) = [pair for pair in written.items() if pair[0] != "digest"]
        if kind == "thing":
            found = self._places[value]
            if self.of(found) != written["digest"]:
                raise LookupError(value)
            return found
        if kind == "tuple":
            return tuple(self.read(one) for one in value)
        if kind == "list":
            return [self.read(one) for one in value]
        if kind in ("path", "inside"):
            return self._root / value if kind == "inside" else Path(value)
        if kind == "day":
            return date.fromisoformat(value)
        if kind == "tuple of":
            return tuple.__new__(self._type(value), [self.read(one) for one in value[2]])
        if kind == "data":
            return self._type(value)(**{name: self.read(one) for name, one in value[2]})
        if kind == "type":
            return self._type(value)
        raise Unaskable

    def _type(self, named: Any) -> Any:
        """A class of ours by its module and name."""
        module, name = named[:2]
        if not module.startswith(self._package):
            raise Unaskable
        found = getattr(importlib.import_module(module), name)
        if not isinstance(found, type):
            raise Unaskable
        return found
