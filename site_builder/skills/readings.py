"""What a measurement was measured against, and whether it was kept: the one account that law, rules and figures ask.

Kept is only what every case accepts that may have been in hand. Where the limit cannot be told (asked for, a name that
leads to nothing, a variant that the entry does not name), the reading shows nothing: neither kept nor refused.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache

from site_builder.batch.variant import chosen_for
from site_builder.notebook.cases import Case, Cases, is_guide
from site_builder.notebook.index import Place
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import ParsedValue, Written
from site_builder.notebook.model.records import Measurement
from site_builder.notebook.names import NamedValue
from site_builder.notebook.reckoning import Reckoning
from site_builder.notebook.references import References
from site_builder.notebook.ways import as_condition, together
from site_builder.quantity import Bounds, Value, Word, bounds, same_dimensions


class Outcome(StrEnum):
    """What a reading, or a whole measurement, shows of its limit."""

    KEPT = "kept"
    OUTSIDE = "not kept"
    UNSHOWN = "not shown"


@dataclass(frozen=True, slots=True)
class Judgement:
    """What came out, and of what is not shown the reason."""

    outcome: Outcome
    why: str = ""

    @property
    def kept(self) -> bool:
        return self.outcome is Outcome.KEPT


KEPT, OUTSIDE = Judgement(Outcome.KEPT), Judgement(Outcome.OUTSIDE)


@lru_cache(maxsize=8192)
def figures_of(value: Value) -> Bounds | None:
    """The figures of a value; a book holds the same few readings over and over."""
    return bounds(value)


def limit_of(references: References, entry: Measurement, place: Place) -> NamedValue | None:
    """The one value that an entry names; None where it names none, or more than one."""
    if entry.measured is None:
        return None
    found = references.values(str(entry.measured), place)
    return found[0] if len(found) == 1 else None


def cells_of(limit: NamedValue) -> Iterator[tuple[Limit, ParsedValue[Value]]]:
    """Every written value of a limit: of each variant, and of each row of its tables."""
    for one in limit.limits:
        for _, cell in one.cells():
            if cell.written is not None:
                yield cell, cell.written


class ReadingJudge:
    """Holds readings against what they were measured against."""

    def __init__(self, reckoning: Reckoning) -> None:
        self.references = reckoning.references
        self.notebook = reckoning.references.notebook
        self.cases = Cases(reckoning)

    def cases_of(self, entry: Measurement, limit: NamedValue) -> tuple[Case, ...]:
        """What the limit says in each case that may have been in hand when this was measured."""
        return self.cases.of(limit, self.known_of(entry, limit))

    def judge(self, entry: Measurement, limit: NamedValue) -> Judgement:
        """Whether a measurement shows that its limit was kept."""
        if not entry.readings:
            return Judgement(Outcome.UNSHOWN, "no reading is written")
        cases = self.cases_of(entry, limit)
        return _of_cases([_worst([hold(one, case) for one in entry.readings]) for case in cases], limit, cases)

    def judge_reading(self, reading: Written, entry: Measurement, limit: NamedValue) -> Judgement:
        """Whether one reading of it does."""
        cases = self.cases_of(entry, limit)
        return _of_cases([hold(reading, case) for case in cases], limit, cases)

    def known_of(self, entry: Measurement, limit: NamedValue) -> Condition:
        """The variant in hand: what the entry says (`for`), its order, and the part that is worked on, if it is one."""
        procedure = self.notebook.procedures.get(limit.owner_id)
        parts = self.notebook.parts_of(procedure) if procedure is not None else ()
        told: dict[str, str] = {}
        if len(parts) == 1 and parts[0] in self.notebook.parts:
            part = self.notebook.parts[parts[0]]
            told |= {"part": parts[0], **{str(name): str(value) for name, value in part.chosen.items()}}
            if len(part.material) == 1:
                told["material"] = str(part.material[0])
        order = self.notebook.orders.get(str(entry.order))
        if order is not None:
            told |= chosen_for(self.notebook, str(order.product), order)
        return together(as_condition(told), entry.for_)


def hold(reading: Written, case: Case) -> Judgement:
    """A reading held against one case."""
    what, limit = reading.value.what, case.figures
    if isinstance(what, Word) and case.word:
        same = what.text == case.word
        return KEPT if same else Judgement(Outcome.UNSHOWN, f"`{reading}` is not the word of the limit, `{case.word}`")
    if limit is None:
        return Judgement(Outcome.UNSHOWN, case.untold or f"`{case.written}` has no figure")
    read = figures_of(reading.value)
    if read is None:
        return Judgement(Outcome.UNSHOWN, f"`{reading}` is no figure")
    if not same_dimensions(limit.unit, read.unit):
        return Judgement(Outcome.UNSHOWN, f"`{reading}` cannot be compared with `{case.written}`")
    if limit.relative != read.relative:
        return Judgement(Outcome.UNSHOWN, f"`{case.written}` is to either side of a size that does not stand there")
    low, high = (read.low, read.high) if read.limited else (read.aim_low, read.aim_high)
    sides = []
    if limit.high is not None:
        sides.append(_side(limit.high, limit.high_in, 1, (low, read.low_in), (high, read.high_in)))
    if limit.low is not None:
        sides.append(_side(limit.low, limit.low_in, -1, (high, read.high_in), (low, read.low_in)))
    if Outcome.OUTSIDE in sides:
        return OUTSIDE
    if limit.low_untold or limit.high_untold:
        return Judgement(Outcome.UNSHOWN, f"one side of `{case.written}` is not told")
    if not sides:
        return Judgement(Outcome.UNSHOWN, f"`{case.written}` says where to be, and not what is refused")
    if read.rough:
        return Judgement(Outcome.UNSHOWN, f"`{reading}` is only about right")
    if Outcome.UNSHOWN in sides:
        return Judgement(Outcome.UNSHOWN, f"`{reading}` leaves open whether it was past `{case.written}`")
    return KEPT


_End = tuple[Fraction | None, bool]
"""An end of what was read, and whether the figure itself belongs to it; None where it is not known."""


def _side(limit: Fraction, belongs: bool, sign: int, near: _End, far: _End) -> Outcome:
    """One side of a limit, the upper one with ``sign`` 1: what was read lies between ``near`` and ``far``."""
    near_end, far_end = near[0], far[0]
    if near_end is not None and (sign * near_end > sign * limit or (near_end == limit and not (near[1] and belongs))):
        return Outcome.OUTSIDE
    if far_end is None:
        return Outcome.UNSHOWN
    if sign * far_end < sign * limit or (far_end == limit and (belongs or not far[1])):
        return Outcome.KEPT
    return Outcome.OUTSIDE if near_end is not None else Outcome.UNSHOWN


def guides(limit: NamedValue) -> bool:
    """Whether a value, or one of its variants, only shows the way, and never accepts or refuses work."""
    return any(is_guide(one) or is_guide(cell) for one in limit.limits for _, cell in one.cells())


def _worst(found: Sequence[Judgement]) -> Judgement:
    """What several readings show together, in one case."""
    if any(one.outcome is Outcome.OUTSIDE for one in found):
        return OUTSIDE
    return next((one for one in found if not one.kept), KEPT)


def _of_cases(found: Sequence[Judgement], limit: NamedValue, cases: Sequence[Case]) -> Judgement:
    """What comes out, whichever case it was."""
    if guides(limit):
        return Judgement(Outcome.UNSHOWN, "the value only shows the way")
    if not found:
        return Judgement(Outcome.UNSHOWN, f"“{limit.name}” says nothing for this case")
    if all(one == found[0] for one in found):
        return found[0]
    unshown = next((one for one in found if one.outcome is Outcome.UNSHOWN), None)
    if unshown is not None:
        return unshown
    written = " or ".join(dict.fromkeys(f"`{case.written}`" for case in cases))
    return Judgement(Outcome.UNSHOWN, f"it depends on the variant, and `for` does not say which it was ({written})")
