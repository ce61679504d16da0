"""What a value says, case by case, with the names in it followed: what a reading is held against.

``Reckoning`` asks what is possible and takes the widest span about all variants. Who accepts work needs the opposite:
each variant, row and answer by itself, so that only what all of them accept is surely accepted.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

from site_builder.notebook.conditions import exclude, figures, meet
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.model.limit import By, Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.names import NamedValue
from site_builder.notebook.reckoning import Reckoning
from site_builder.notebook.tree import Text
from site_builder.notebook.ways import can_hold_together, together
from site_builder.quantity import Ask, Bounds, Reference, Word, bounds

MOST = 64
"""So many cases of one value are looked at; of more nothing is told."""
HOPS = 32
"""A value taken from a value, so many times over; more is a riddle."""
_YES = ("yes", "true")


@dataclass(frozen=True, slots=True)
class Case:
    """What a value says in one case: its ``figures``, or, where it has none, why (``untold``).

    ``written`` is what stands in the notebook, with a bare reference followed; ``word`` the word it says instead of
    figures; ``holds`` are the choices under which it is so.
    """

    written: str
    figures: Bounds | None = None
    untold: str = ""
    word: str = ""
    holds: tuple[Condition, ...] = ()


class Cases:
    """The cases of the values of a notebook."""

    def __init__(self, reckoning: Reckoning) -> None:
        self.reckoning = reckoning
        self._open: list[NamedValue] = []
        self._found: dict[tuple[int, str], tuple[Case, ...]] = {}

    def of(self, named: NamedValue, known: Condition = ()) -> tuple[Case, ...]:
        """Every case of a value that may hold where ``known`` holds; none where nothing is written for it."""
        if any(one is named for one in self._open) or len(self._open) >= HOPS:
            return (Case(named.name, untold=f"“{named.name}” leans on itself"),)
        key = id(named), repr(known)  # named values live as long as the references do
        if key not in self._found:
            self._open.append(named)
            try:
                told = tuple(self._of_named(named, known))
            finally:
                self._open.pop()
            if len(told) > MOST:
                told = (Case(named.name, untold=f"“{named.name}” has too many variants"),)
            self._found[key] = told
        return self._found[key]

    def _of_named(self, named: NamedValue, known: Condition) -> Iterator[Case]:
        if named.written is not None:
            yield from self._of_value(named.written, known)
        for limit in named.limits:
            for holds, cell in self._cells(limit, known):
                chosen = [one for one in (limit.for_, holds, cell.for_) if one]
                for case in self._of_cell(cell, together(known, *chosen)):
                    told = replace(case, holds=(*chosen, *case.holds))
                    if limit.follows or cell.follows:
                        shift = (*limit.follows, *cell.follows)[0]
                        told = Case(told.written, untold=f"it {shift}, and how that was is not written")
                    yield told

    def _cells(self, limit: Limit, known: Condition) -> Iterator[tuple[Condition, Limit]]:
        """The value of a limit, or the cells of its table that may hold, each with the rows that lead to it."""
        if exclude(limit.for_, known):
            return
        for rows, cell in limit.cells():
            read = tuple(zip(limit.by, rows, strict=False))
            holds: Condition = ({by.name: (row,) for by, row in read},) if read else ()
            apart = any(exclude(holds, one) for one in (known, limit.for_, cell.for_))
            if not apart and not exclude(cell.for_, known) and all(self._may(limit, by, row) for by, row in read):
                yield holds, cell

    def _may(self, limit: Limit, by: By, row: Text) -> bool:
        """Whether the row of a table may hold: the value it is read by, where the notebook says it, meets the row."""
        asked, place = figures(row), self.reckoning.place_of.get(id(limit))
        if asked is None or place is None:
            return True
        told = [case.figures for hit in self.reckoning.references.values(str(by.name), place) for case in self.of(hit)]
        return not told or any(one is None or one.kind != asked.kind or meet(one, asked) for one in told)

    def _of_cell(self, cell: Limit, known: Condition) -> Iterator[Case]:
        written = cell.written
        if written is not None and not isinstance(written.value.what, Ask):
            yield from self._of_value(written, known)
        elif cell.said:  # nobody has settled it: each answer is a case
            for said in cell.said:
                yield from self._of_cell(said, known)
        elif cell.sum and written is None:
            yield from self._of_sum(cell, known)
        else:
            yield Case(str(written or "ask"), untold="its figure is still to be asked")

    def _of_value(self, written: Written, known: Condition) -> Iterator[Case]:
        text, value = str(written), written.value
        names = {naming.name: naming.hits for naming in self.reckoning.of_value.get(id(written), ())}
        for chosen in self._choices(names, known):
            if chosen is None:
                yield Case(text, untold="it leans on values with too many variants")
                continue
            found = bounds(value, {name: case.figures for name, case in chosen.items() if case.figures is not None})
            holds = tuple(one for case in chosen.values() for one in case.holds)
            only = next(iter(chosen.values())) if len(chosen) == 1 else None
            if only is not None and isinstance(value.what, Reference | Word):
                yield replace(only, holds=holds)
            elif isinstance(value.what, Word):
                yield Case(text, word=value.what.text)
            elif found is None:
                lost = next((case for case in chosen.values() if case.figures is None), None)
                told = "a name in it leads to nothing" if len(chosen) < len(names) else "it has no figure"
                yield Case(text, untold=lost.untold if lost is not None and lost.untold else told, holds=holds)
            else:
                yield Case(text, found, holds=holds)

    def _of_sum(self, limit: Limit, known: Condition) -> Iterator[Case]:
        parts = self.reckoning.parts(limit)
        text = ", ".join(map(str, limit.sum))
        for chosen in self._choices({str(number): hits for number, (_, _, hits) in enumerate(parts)}, known):
            each = [] if chosen is None else [case.figures for case in chosen.values()]
            found = None
            if len(each) == len(parts):
                found = self.reckoning.summed([minus for _, minus, _ in parts], each)
            yield Case(text, found, "" if found is not None else "not every part of the sum is told")

    def _choices(
        self, names: Mapping[str, Iterable[NamedValue]], known: Condition
    ) -> Iterator[Mapping[str, Case] | None]:
        """For each name one case, in every way in which they can hold together; None where there are too many.

        A name that leads to nothing is left out.
        """
        told = {name: [case for hit in hits for case in self.of(hit, known)] for name, hits in names.items()}
        each: dict[str, Sequence[Case]] = {name: cases for name, cases in told.items() if cases}
        ways = 1
        for cases in each.values():
            ways *= len(cases)
        if ways > MOST:
            yield None
            return
        for one_of_each in product(*each.values()):
            holds = [one for case in one_of_each for one in case.holds]
            if can_hold_together(*holds):
                yield dict(zip(each, one_of_each, strict=True))


def is_guide(limit: Limit) -> bool:
    """Whether a limit only shows where one is heading, and never accepts or refuses work."""
    return limit.guide in _YES
