"""What a page asked of the notebook, recorded while it is made, so that it is made again as soon as an answer changes.

A page is made with stand-ins: ``Asked`` for an object that answers (the site, the notebook, its indexes), ``AskedMap``
and ``AskedSet`` for what is looked up in it. Each notes the question and a digest of what came of it, and hands on the
answer itself. An answer is digested as a whole: whatever could be read out of it, read or not. Of an entry of the
notebook that is the file in which it stands, byte by byte, as it was read. Entries are reached only through answers,
and what hangs on an entry stands in the same file; so nothing that a page tells escapes.

What cannot be put into words (an answer that is a machine of its own, a question with such a thing in it) counts as a
question for everything. To see whether a page still holds, the questions are put again: see ``Answers``.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping, Set
from types import BuiltinMethodType, FunctionType, MethodType
from typing import Any, cast

from site_builder.cache.digests import Digests, Unaskable

Path = tuple[Any, ...]
"""The way from the root to an object: steps ``(".", name)``, ``("()", name, arguments)``, ``("[]", key)``."""
_NONE = object()


class Recorder:
    """The questions of the page in hand; between pages nothing is noted."""

    def __init__(
        self, digests: Digests, untold: frozenset[str] = frozenset(), by_identity: frozenset[str] = frozenset()
    ) -> None:
        self.digests = digests
        self.untold = untold
        """Names whose answers need not be noted, since they say nothing that is not noted anyway."""
        self.by_identity = by_identity
        """Methods that know only what stands in the notebook itself: of a copy that a page made they never know."""
        self.questions: dict[str, str] | None = None
        self.scratch: dict[str, Any] = {}

    def begin(self) -> None:
        """A new page."""
        self.questions, self.scratch = {}, {}

    def end(self) -> dict[str, str]:
        """Every question of the page and the digest of its answer."""
        found, self.questions = self.questions or {}, None
        self.scratch = {}
        return found

    def note(self, path: Path, answer: object) -> None:
        """The question and its answer; everything, where they cannot be told."""
        if self.questions is None:
            return
        try:
            question = self.digests.question(path)
            if question not in self.questions:
                self.questions[question] = self.digests.of(answer)
        except Unaskable:
            step = path[-1]
            if not (step[0] == "()" and step[1] in self.by_identity and answer is None):
                self.note_everything()

    def note_everything(self) -> None:
        """The page depends on all there is."""
        if self.questions is not None:
            self.questions[EVERYTHING] = self.digests.everything

    def stand_in(self, path: Path, value: Any) -> Any:
        """For an answer, what the page is given: itself, noted, or something that notes what is asked of it further."""
        if self.digests.answers(value):
            self.note(path, type(value).__qualname__)
            return Asked(self, path, value)
        if isinstance(value, dict) or type(value).__name__ == "mappingproxy":
            return AskedMap(self, path, value)
        if isinstance(value, frozenset | set):
            return AskedSet(self, path, value)
        self.note(path, value)
        return value


EVERYTHING = "everything"


class Asked:
    """Stands for an object that answers questions: its attributes, and what its methods return."""

    __slots__ = ("_path", "_recorder", "_value")

    def __init__(self, recorder: Recorder, path: Path, value: Any) -> None:
        object.__setattr__(self, "_recorder", recorder)
        object.__setattr__(self, "_path", path)
        object.__setattr__(self, "_value", value)

    def __getattribute__(self, name: str) -> Any:
        get = object.__getattribute__
        value, recorder = get(self, "_value"), cast(Recorder, get(self, "_recorder"))
        if name == "__class__":
            return type(value)
        if name == "__dict__":
            # where pages keep what they worked out once: only for this page, or its questions would be lost to the next
            return recorder.scratch.setdefault(str(get(self, "_path")), {})
        path = get(self, "_path")
        found = getattr(value, name)
        if name in recorder.untold:
            return found
        if isinstance(found, MethodType | FunctionType | BuiltinMethodType):
            return _asking(recorder, path, name, found)
        return recorder.stand_in((*path, (".", name)), found)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{name}: what the notebook holds is not changed by a page")


def _asking(recorder: Recorder, path: Path, name: str, method: Callable[..., Any]) -> Callable[..., Any]:
    def ask(*args: Any, **named: Any) -> Any:
        plain = tuple(bare(one) for one in args)
        plain_named = {key: bare(one) for key, one in named.items()}
        given = (*path, ("()", name, plain, tuple(sorted(plain_named.items()))))
        answer = method(*plain, **plain_named)
        if isinstance(answer, Iterator):
            return iter(recorder.stand_in(given, [*answer]))
        return recorder.stand_in(given, answer)
    return ask


class AskedMap(Mapping[Any, Any]):
    """Stands for a mapping: what stands under a key, whether there is such a key, or all of them."""

    __slots__ = ("_path", "_recorder", "_value")

    def __init__(self, recorder: Recorder, path: Path, value: Mapping[Any, Any]) -> None:
        self._recorder, self._path, self._value = recorder, path, value

    def __getitem__(self, key: Any) -> Any:
        found = self._value.get(key, _NONE)
        if found is _NONE:
            self._recorder.note((*self._path, ("in", key)), False)
            raise KeyError(key)
        return self._recorder.stand_in((*self._path, ("[]", key)), found)

    def __contains__(self, key: object) -> bool:
        found = key in self._value
        self._recorder.note((*self._path, ("in", key)), found)
        return found

    def __iter__(self) -> Iterator[Any]:
        self._recorder.note((*self._path, ("keys",)), tuple(self._value))
        return iter(self._value)

    def __len__(self) -> int:
        self._recorder.note((*self._path, ("len",)), len(self._value))
        return len(self._value)


class AskedSet(Set[Any]):
    """Stands for a set: whether something is in it, or all of it."""

    __slots__ = ("_path", "_recorder", "_value")

    def __init__(self, recorder: Recorder, path: Path, value: Set[Any]) -> None:
        self._recorder, self._path, self._value = recorder, path, value

    @classmethod
    def _from_iterable(cls, it: Any) -> Any:
        return frozenset(it)

    def __contains__(self, key: object) -> bool:
        found = key in self._value
        self._recorder.note((*self._path, ("in", key)), found)
        return found

    def __iter__(self) -> Iterator[Any]:
        self._recorder.note((*self._path, ("all",)), frozenset(self._value))
        return iter(self._value)

    def __len__(self) -> int:
        self._recorder.note((*self._path, ("len",)), len(self._value))
        return len(self._value)

    def __hash__(self) -> int:
        return hash(frozenset(self))


def bare(one: Any) -> Any:
    """The thing itself where one is handed its stand-in."""
    if type(one) is Asked:
        return object.__getattribute__(one, "_value")
    if isinstance(one, AskedMap | AskedSet):
        one._recorder.note((*one._path, ("all",)), one._value)
        return one._value
    return one


class Answers:
    """Puts recorded questions again, each once, to the objects that answer now."""

    def __init__(self, root: object, digests: Digests) -> None:
        self.digests = digests
        self._found: dict[str, Any] = {"[]": root}
        self._digests: dict[str, str] = {}

    def same(self, questions: Mapping[str, str]) -> bool:
        """Whether every question would get the answer it got."""
        return all(self.digest(question) == answer for question, answer in questions.items())

    def digest(self, question: str) -> str:
        """The digest of the answer that a question gets now; empty where it cannot be put any more."""
        if question == EVERYTHING:
            return self.digests.everything
        known = self._digests.get(question)
        if known is None:
            known = self._digests[question] = self._digest(question)
        return known

    def _digest(self, question: str) -> str:
        try:
            answer = self._answer(json.loads(question))
            return self.digests.of(type(answer).__qualname__ if self.digests.answers(answer) else answer)
        except Exception:  # whatever an object says that has changed its nature: the page is made again
            return ""

    def _answer(self, path: list[Any]) -> Any:
        key = json.dumps(path)
        if key in self._found:
            return self._found[key]
        before = self._answer(path[:-1])
        found = self._found[key] = self._step(before, path[-1])
        return found

    def _step(self, value: Any, step: list[Any]) -> Any:
        kind, *rest = step
        if kind == ".":
            return getattr(value, rest[0])
        if kind == "()":
            args = [self.digests.read(one) for one in rest[1]]
            named = {str(name): self.digests.read(one) for name, one in rest[2]}
            answer = getattr(value, rest[0])(*args, **named)
            return list(answer) if isinstance(answer, Iterator) else answer
        if kind == "[]":
            return value[self.digests.read(rest[0])]
        if kind == "in":
            return self.digests.read(rest[0]) in value
        if kind == "keys":
            return tuple(value)
        if kind == "len":
            return len(value)
        if kind == "all":
            return value
        raise ValueError(kind)
