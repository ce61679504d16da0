"""The words that all figures of a batch share: which batch, of what, and the lines its inputs come from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from site_builder.batch.batch import Batch, LegSpent
from site_builder.figures.batch_words import NO_BREAK, listed
from site_builder.figures.figure import Input
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.shop import Calendar
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.ways import in_words

NOTHING_MAKES = "Nothing can be reckoned yet: no procedure makes it."
NAMED = 3
"""So many procedures are named one by one; of more only the number is told."""


@dataclass(frozen=True)
class Said:
    """A batch with its names. ``order`` is its id, empty for a batch that nobody ordered."""

    nb: Notebook
    batch: Batch
    order: str
    title: str
    calendar: Calendar | None
    today: date

    @property
    def whole(self) -> str:
        """How many are wanted."""
        return f"{self.batch.wanted.pieces:,}"

    @property
    def lead(self) -> str:
        """``For 260 (Spring delivery 2027):``, with the way where there are several."""
        way = in_words(self.batch.wanted.way)
        named = ", ".join(one for one in (self.title, way) if one)
        return f"For {self.whole}" + (f" ({named}):" if named else ":")

    @property
    def silent(self) -> str:
        """Why nothing can be reckoned; empty where something can."""
        if self.batch.parts:
            return ""
        bought = self.nb.parts[self.batch.wanted.product].supplier
        return "Nothing is made for it: it is bought in." if bought else NOTHING_MAKES

    def ordered(self) -> Input:
        """How many, and the line that says so."""
        if not self.order:
            return Input("pieces wanted", f"{self.batch.wanted.pieces:,}")
        order = self.nb.orders[self.order]
        leaf = order.pieces
        return Input("pieces ordered", f"{self.batch.wanted.pieces:,}", "order", self.order,
                     at=leaf.at if leaf is not None else order.at)

    def part_title(self, id_: str) -> str:
        """What a part is called."""
        return str(self.nb.parts[id_].title)

    def of_leg(self, spent: LegSpent, name: str, leaf: object, step: Step | None = None) -> Input:
        """A value that a procedure tells."""
        return Input(name, str(leaf), "procedure", spent.leg.id, step, getattr(leaf, "at", spent.leg.procedure.at))

    def procedures(self, ids: Iterable[str]) -> str:
        """Procedures by title, few of them one by one."""
        titles = [f"“{self.nb.procedures[id_].title}”" for id_ in ids]
        if len(titles) > NAMED:
            return f"{len(titles)}{NO_BREAK}procedures"
        return listed(titles)


def time_inputs(said: Said, spent: LegSpent) -> Iterator[Input]:
    """The times that a procedure and the shared work beside it tell."""
    own = spent.leg.procedure
    for time in own.time:
        for name in ("setup", "each", "load", "lot"):
            leaf = getattr(time, name)
            if leaf is not None:
                yield said.of_leg(spent, _NAMES[name], leaf)
    for step in own.steps if not own.time else ():
        for time in step.time:
            yield from (said.of_leg(spent, _NAMES[name], leaf, step) for name in ("setup", "each", "load", "lot")
                        if (leaf := getattr(time, name)) is not None)
    for limit in own.load[:1]:
        if limit.written is not None:
            yield said.of_leg(spent, "at once", limit.written)
    for told in own.yield_:
        if told.rework is not None:
            yield said.of_leg(spent, "done again", told.rework)
    for run, count in spent.runs:
        if run.each_time is not None:
            used = said.nb.procedures[run.procedure]
            yield Input(f"{used.title}, {_times(count)}", str(_time_leaf(used)), "procedure", run.procedure)


_NAMES = {"setup": "set-up", "each": "time for one", "load": "time for a load", "lot": "time for the lot"}


def _times(count: int) -> str:
    return "once" if count == 1 else "twice" if count == 2 else f"{count} times"


def _time_leaf(used: Procedure) -> object:
    return next((leaf for time in used.time for leaf in (time.lot, time.load, time.each) if leaf is not None), "")
