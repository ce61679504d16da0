"""Sentences of a telling as an amendment: written where they belong, with the moment at which they were told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from site_builder.amend import Amendment, Change, Plain, TreePath, clean, id_for, look_up
from site_builder.bench.forms.new_things import taken_in
from site_builder.bench.forms.placing import one_more, placed
from site_builder.bench.reading_back import ReadBack, read_back
from site_builder.bench.tellings.becomes import BECOMES, Becomes
from site_builder.notebook.notebook import Notebook
from site_builder.tellings.cue import Cue
from site_builder.tellings.timing import Stretch

NEW_STEP, WHOLE = "new", "all"
"""Where: a step of its own at the end, or the work as a whole; else the number of a step."""


@dataclass(frozen=True, slots=True)
class Sent:
    """What the form brought."""

    kind: str
    words: str = ""
    value: str = ""
    name: str = ""
    because: str = ""
    thing: str = ""
    new: str = ""
    where: str = WHOLE


@dataclass(frozen=True, slots=True)
class Work:
    """The procedure that grows: its file, and what the file says now."""

    id: str
    title: str
    file: str
    tree: dict[str, Plain]

    @property
    def steps(self) -> list[Plain]:
        held = self.tree.get("steps")
        return held if isinstance(held, list) else [] if held in (None, "", "ask") else [held]


class Unreadable(Exception):
    """It cannot be written so; says why and in which field."""

    def __init__(self, field: str, wrong: str, read: ReadBack | None = None) -> None:
        super().__init__(wrong)
        self.field = field
        self.read = read


def told(telling: str, cues: Sequence[Cue]) -> str:
    """``soaking#t=4.5,12``; the names of the sentences where no times are known or they lie apart."""
    first, last = cues[0], cues[-1]
    if first.start is None or last.end is None or any(
        a.end is None or b.start is None or b.start - a.end > 2 for a, b in pairwise(cues)
    ):
        return f"{telling}#{','.join(cue.id for cue in cues)}"
    return f"{telling}#{Stretch(first.start, last.end).fragment()}"


def place_of(sent: Sent, work: Work) -> TreePath:
    """The step, or the work as a whole."""
    if sent.where.isdigit() and int(sent.where) < len(work.steps):
        if not isinstance(work.tree.get("steps"), list):
            return ("steps",)
        return ("steps", int(sent.where))
    return ()


def value_of(sent: Sent) -> str:
    """The figure in the notation. Raises Unreadable."""
    read = read_back(sent.value, "", "value")
    if not read.notation:
        raise Unreadable("value", read.wrong, read)
    return read.notation


def taken_up(sent: Sent, work: Work, moment: str, book: Notebook, telling: Telling) -> Amendment:
    """The amendment. Raises Unreadable where something is missing that the entry cannot do without."""
    kind = BECOMES.get(sent.kind)
    if kind is None:
        raise Unreadable("kind", "Say first what it is.")
    words = " ".join(clean(sent.words).split())
    if kind.shape not in ("named", "value", "thing") and not words:
        raise Unreadable("words", "Nothing is written yet.")
    made = _Make(sent, work, moment, book, telling, kind, words)
    what = f"{work.title}: {kind.label} from the telling"
    return Amendment(what, tuple(made.changes()))


@dataclass(frozen=True, slots=True)
class Telling:
    """The telling's own file, for what has no ``told`` of its own."""

    id: str
    file: str
    tree: Plain
    cues: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Make:
    sent: Sent
    work: Work
    moment: str
    book: Notebook
    telling: Telling
    kind: Becomes
    words: str

    def changes(self) -> list[Change]:
        at = place_of(self.sent, self.work)
        if self.kind.shape != "step" and self.sent.where == NEW_STEP:
            raise Unreadable("where", "Say to which step it belongs, or take it up as a step.")
        if self.kind.shape == "step":
            return [self._step()]
        if self.kind.shape == "named":
            return [self._named(at)]
        if self.kind.shape == "value":
            return [self._more(at, {self.kind.main: value_of(self.sent)})]
        if self.kind.shape == "words":
            return [self._more(at, {self.kind.main: self.words})]
        if self.kind.shape == "thing":
            return self._thing(at)
        if self.kind.shape == "remedy":
            return self._remedy(at)
        if self.kind.shape == "word":
            return [self._word(), *self._noted(f"the word {self._name()}")]
        key = "because" if self.kind.shape == "because" else "note"
        return [self._said(at, key), *self._noted("a reason" if key == "because" else "a note", at)]

    def _step(self) -> Change:
        entry = self._entry({"do": self.words})
        number = int(self.sent.where) + 1 if self.sent.where.isdigit() else None
        return one_more(self.work.file, self.work.tree, ("steps",), entry, number)

    def _entry(self, entry: dict[str, Plain]) -> dict[str, Plain]:
        why = [line for one in self.sent.because.splitlines() if (line := " ".join(clean(one).split()))]
        if why and "because" in self.kind.asks:
            entry["because"] = why[0] if len(why) == 1 else [*why]
        return {**entry, "told": self.moment}

    def _more(self, at: TreePath, entry: dict[str, Plain]) -> Change:
        return one_more(self.work.file, self.work.tree, (*at, self.kind.key), self._entry(entry))

    def _name(self) -> str:
        name = " ".join(clean(self.sent.name).split())
        if not name:
            raise Unreadable("name", "Say what it is called." if self.kind.shape == "word" else "Say what is measured.")
        return name

    def _named(self, at: TreePath) -> Change:
        path = (*at, self.kind.key, self._name())
        stands = look_up(self.work.tree, path)
        entry = self._entry({self.kind.main: value_of(self.sent)})
        if stands is None or stands in ("", "ask"):
            return placed(self.work.file, self.work.tree, path, entry)
        raise Unreadable("name", f"“{self._name()}” stands here already. Give this one a name of its own.")

    def _thing(self, at: TreePath) -> list[Change]:
        kind = "tool" if self.kind.key == "tools" else "material"
        begun: list[Change] = []
        id_, title = self.sent.thing, " ".join(self.sent.new.split())
        if title:
            id_ = id_for(title, taken_in(self.book))
            folder, own = ("tools/hand", "hand-tool") if kind == "tool" else ("tools/materials", "material")
            begun.append(Change(f"{folder}/{id_}.yml", (), None, {own: id_, "title": title}))
        known = self.book.tools if kind == "tool" else self.book.materials
        if not id_ or (not title and id_ not in known):
            raise Unreadable("thing", f"Say which {kind}.")
        entry: dict[str, Plain] = {kind: id_}
        if self.sent.value.strip():
            entry["amount"] = value_of(self.sent)
        return [*begun, self._more(at, entry)]

    def _remedy(self, at: TreePath) -> list[Change]:
        path = (*at, "troubles")
        held = look_up(self.work.tree, path)
        troubles = held if isinstance(held, list) else [] if held is None else [held]
        if not troubles:
            raise Unreadable("where", "No trouble stands there yet. Take the trouble up first, then what helps.")
        last: TreePath = (*path, len(troubles) - 1) if isinstance(held, list) else path
        change = one_more(self.work.file, self.work.tree, (*last, "do"), self.words)
        return [change, *self._noted("what helps", at)]

    def _word(self) -> Change:
        shop = self.book.shop
        if shop is None:
            raise Unreadable("kind", "The shop has no page yet in which its words could stand.")
        if self._name() in {str(one) for one in shop.words}:
            raise Unreadable("name", f"“{self._name()}” is one of the shop's words already.")
        entry: Plain = self.words
        if shop.words:
            return Change(str(shop.at.path), ("words", self._name()), None, entry)
        return Change(str(shop.at.path), ("words",), None, {self._name(): entry})

    def _said(self, at: TreePath, key: str) -> Change:
        if key == "because":
            return one_more(self.work.file, self.work.tree, (*at, key), self.words)
        stands = look_up(self.work.tree, (*at, key))
        shall = f"{stands.strip()} {self.words}" if isinstance(stands, str) and stands.strip() else self.words
        return placed(self.work.file, self.work.tree, (*at, key), shall)

    def _noted(self, what: str, at: TreePath = ()) -> list[Change]:
        """In the telling's file, since a word, a reason and a remedy have no moment of their own."""
        where = f" of step {int(at[1]) + 1}" if len(at) > 1 else ""
        held = look_up(self.telling.tree, ("taken up",))
        old = held if isinstance(held, dict) else {}
        text = f"{what}{where}, {self.work.title}"
        new: dict[str, Plain] = {}
        for cue in self.telling.cues:
            stood = old.get(cue)
            before = stood if isinstance(stood, list) else [] if stood in (None, "") else [str(stood)]
            new[cue] = text if not before else [*before, text]
        return [Change(self.telling.file, ("taken up",), held, {**old, **new})]
