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

Step = tuple[Any, ...]
"""From one object to the next: ``(".", name)``, ``("()", name, arguments, named)``, ``("[]", key)``."""
_NONE = object()
EVERYTHING = "everything"


class Recorder:
    """The questions of the page in hand; between pages nothing is noted."""

    def __init__(
        self, digests: Digests, untold: frozenset[str] = frozenset(), through: frozenset[object] = frozenset()
    ) -> None:
        self.digests = digests
        self.untold = untold
        """Names whose answers need not be noted: they say nothing but what stands in files noted anyway."""
        self.through = through
        """Methods that put what they are asked together from questions of their own, which are noted instead."""
        self.questions: dict[str, str] | None = None
        self.scratch: dict[int | str, tuple[object, dict[str, Any]]] = {}
        self._known: dict[str, str] = {}

    def begin(self) -> None:
        """A new page."""
        self.questions, self.scratch = {}, {}

    def end(self) -> dict[str, str]:
        """Every question of the page and the digest of its answer."""
        found, self.questions = self.questions or {}, None
        self.scratch = {}
        return found

    def hear(self, question: str, digest: str) -> None:
        """The page in hand asks this."""
        if self.questions is not None:
            self.questions[question] = digest

    def note(self, prefix: str | None, step: Step, answer: object) -> tuple[str, str]:
        """The question and the digest of its answer, which is the same all through a build; see ``question_of``."""
        question = self.question_of(prefix, step)
        digest = self._known.get(question)
        if digest is None:
            try:
                digest = self.digests.everything if question == EVERYTHING else self.digests.of(answer)
            except Unaskable:
                question, digest = EVERYTHING, self.digests.everything
            self._known[question] = digest
        self.hear(question, digest)
        return question, digest

    def question_of(self, prefix: str | None, step: Step) -> str:
        """As text; the question for everything, where it cannot be told."""
        if prefix is None:
            return EVERYTHING
        try:
            written = self.digests.written(step)
        except Unaskable:
            return EVERYTHING
        return f"[{prefix}, {written}]" if prefix else f"[{written}]"

    def stand_in(self, prefix: str | None, step: Step, value: Any) -> Any:
        """For an answer, what the page is given: itself, noted, or something that notes what is asked of it further."""
        if self.digests.answers(value):
            question, _ = self.note(prefix, step, type(value).__qualname__)
            return Asked(self, None if question == EVERYTHING else question[1:-1], value)
        kind: type[AskedMap] | type[AskedSet]
        if isinstance(value, dict) or type(value).__name__ == "mappingproxy":
            kind = AskedMap
        elif isinstance(value, frozenset | set):
            kind = AskedSet
        else:
            self.note(prefix, step, value)
            return value
        question = self.question_of(prefix, step)
        return kind(self, None if question == EVERYTHING else question[1:-1], value)


class Asked:
    """Stands for an object that answers questions: its attributes, and what its methods return."""

    __slots__ = ("_kept", "_prefix", "_recorder", "_value")

    def __init__(self, recorder: Recorder, prefix: str | None, value: Any) -> None:
        object.__setattr__(self, "_recorder", recorder)
        object.__setattr__(self, "_prefix", prefix)
        object.__setattr__(self, "_value", value)
        object.__setattr__(self, "_kept", {})

    def __getattribute__(self, name: str) -> Any:
        get = object.__getattribute__
        recorder = cast(Recorder, get(self, "_recorder"))
        kept = get(self, "_kept").get(name)
        if kept is not None:
            question, digest, answer = kept
            if question is not None:
                recorder.hear(question, digest)
            return answer
        value = get(self, "_value")
        if name == "__class__":
            return type(value)
        if name == "__dict__":
            # where pages keep what they worked out once: only for this page, or its questions would be lost to the next
            prefix = get(self, "_prefix")
            return recorder.scratch.setdefault(id(value) if prefix is None else prefix, (value, {}))[1]
        found = getattr(value, name)
        keep, prefix = get(self, "_kept"), get(self, "_prefix")
        if name in recorder.untold:
            keep[name] = (None, "", found)
        elif isinstance(found, MethodType) and found.__func__ in recorder.through:
            keep[name] = (None, "", MethodType(found.__func__, self))
        elif isinstance(found, MethodType | FunctionType | BuiltinMethodType):
            keep[name] = (None, "", _asking(recorder, prefix, name, found))
        else:
            answer = recorder.stand_in(prefix, (".", name), found)
            noted = (None, "") if isinstance(answer, AskedMap | AskedSet) else recorder.note(
                prefix, (".", name), type(found).__qualname__ if type(answer) is Asked else found)
            keep[name] = (*noted, answer)
        return keep[name][2]

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{name}: what the notebook holds is not changed by a page")


def _asking(recorder: Recorder, prefix: str | None, name: str, method: Callable[..., Any]) -> Callable[..., Any]:
    def ask(*args: Any, **named: Any) -> Any:
        plain = tuple([bare(one) for one in args])
        plain_named = {key: bare(one) for key, one in named.items()}
        step = ("()", name, plain, tuple(sorted(plain_named.items())))
        answer = method(*plain, **plain_named)
        if isinstance(answer, Iterator):
            return iter(recorder.stand_in(prefix, step, [*answer]))
        return recorder.stand_in(prefix, step, answer)
    return ask


class AskedMap(Mapping[Any, Any]):
    """Stands for a mapping: what stands under a key, whether there is such a key, or all of them."""

    __slots__ = ("_kept", "_prefix", "_recorder", "_value")

    def __init__(self, recorder: Recorder, prefix: str | None, value: Mapping[Any, Any]) -> None:
        self._recorder, self._prefix, self._value = recorder, prefix, value
        self._kept: dict[Any, tuple[str, str]] = {}

    def __getitem__(self, key: Any) -> Any:
        found = self._value.get(key, _NONE)
        if found is _NONE:
            self._recorder.note(self._prefix, ("in", key), False)
            raise KeyError(key)
        if type(found) is str:  # a title, an address: by far the most
            kept = self._kept.get(key)
            if kept is None:
                self._kept[key] = self._recorder.note(self._prefix, ("[]", key), found)
            else:
                self._recorder.hear(*kept)
            return found
        return self._recorder.stand_in(self._prefix, ("[]", key), found)

    def __contains__(self, key: object) -> bool:
        found = key in self._value
        self._recorder.note(self._prefix, ("in", key), found)
        return found

    def __iter__(self) -> Iterator[Any]:
        self._recorder.note(self._prefix, ("keys",), tuple(self._value))
        return iter(self._value)

    def __len__(self) -> int:
        self._recorder.note(self._prefix, ("len",), len(self._value))
        return len(self._value)


class AskedSet(Set[Any]):
    """Stands for a set: whether something is in it, or all of it."""

    __slots__ = ("_prefix", "_recorder", "_value")

    def __init__(self, recorder: Recorder, prefix: str | None, value: Set[Any]) -> None:
        self._recorder, self._prefix, self._value = recorder, prefix, value

    @classmethod
    def _from_iterable(cls, it: Any) -> Any:
        return frozenset(it)

    def __contains__(self, key: object) -> bool:
        found = key in self._value
        self._recorder.note(self._prefix, ("in", key), found)
        return found

    def __iter__(self) -> Iterator[Any]:
        self._recorder.note(self._prefix, ("all",), frozenset(self._value))
        return iter(self._value)

    def __len__(self) -> int:
        self._recorder.note(self._prefix, ("len",), len(self._value))
        return len(self._value)

    def __hash__(self) -> int:
        return hash(frozenset(self))


def bare(one: Any) -> Any:
    """The thing itself where one is handed its stand-in."""
    if type(one) is Asked:
        return object.__getattribute__(one, "_value")
    if isinstance(one, AskedMap | AskedSet):
        one._recorder.note(one._prefix, ("all",), one._value)
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
