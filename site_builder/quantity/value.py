"""The parts a value is made of, as they were written.

Numbers keep their digits, units their kind. Nothing here computes; see ``bounds`` for that.
A dataclass field with ``compare=False`` remembers how or where a thing was written and does not change
what it means: ``12 °C..30 °C`` equals ``12..30 °C``.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, TypeAlias

from site_builder.quantity.units import Unit

Lead = Literal["aim", "about", "min", "max", "over", "under"]
Operator = Literal["plus", "minus", "x", "/"]
Period = Literal["day", "shift", "week"]


@dataclass(frozen=True, slots=True)
class Number:
    """A figure with the digits it was written with: ``0.10``, ``-5``, ``1/8``, ``1-1/2``."""

    text: str

    @property
    def exact(self) -> Fraction:
        """The number itself, without rounding."""
        text = self.text
        if "/" not in text:
            return Fraction(text)
        sign = -1 if text[0] == "-" else 1
        whole, _, part = text.lstrip("-").rpartition("-")
        return sign * ((int(whole) if whole else 0) + Fraction(part))


@dataclass(frozen=True, slots=True)
class Measure:
    """One number with its unit; the unit of a bare count is ``units.COUNT``."""

    number: Number
    unit: Unit


@dataclass(frozen=True, slots=True)
class Per:
    """What a rate is counted by: ``per piece``, ``per 120 pieces``. A temperature here is a difference."""

    number: Number | None
    unit: Unit


@dataclass(frozen=True, slots=True)
class Quantity:
    """``18 m/s``, ``2 h 30 min`` (two parts), ``9 g per piece``; ``lent`` when a neighbour gave the unit."""

    parts: tuple[Measure, ...]
    per: Per | None = None
    lent: bool = field(default=False, compare=False)


@dataclass(frozen=True, slots=True)
class Reference:
    """The name of another value, a path with ``/``; offsets are those of the name in the text."""

    name: str
    bracketed: bool = False
    start: int = field(default=0, compare=False)
    end: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Scaled:
    """A share or multiple of another value: ``1/3 of wall``, ``80 % of post length``, ``2 x wall``."""

    factor: Number
    percent: bool
    by: Literal["of", "x"]
    reference: Reference


@dataclass(frozen=True, slots=True)
class Same:
    """The calendar's bound: before the end of the same day, shift or week."""

    period: Period


Term: TypeAlias = Quantity | Reference | Scaled | Same


@dataclass(frozen=True, slots=True)
class Computed:
    """Terms joined by operators; ``x`` and ``/`` bind before ``plus`` and ``minus``."""

    first: Term
    rest: tuple[tuple[Operator, Term], ...]


Expression: TypeAlias = Term | Computed


@dataclass(frozen=True, slots=True)
class Ask:
    """Not told yet: the master is to be asked."""


@dataclass(frozen=True, slots=True)
class Some:
    """Of this kind, the figure not told: ``some min``."""

    unit: Unit


@dataclass(frozen=True, slots=True)
class Judged:
    """Found by the hand at the work: ``lowest that still cuts``. Shown, never computed with."""

    how: Literal["lowest", "highest", "judged"]
    words: str


@dataclass(frozen=True, slots=True)
class Sweep:
    """A value that changes over the step: ``from 18 to 12 m/s``."""

    start: Expression
    end: Expression


@dataclass(frozen=True, slots=True)
class Range:
    """``12..30 °C``; both ends belong to it."""

    low: Expression
    high: Expression


@dataclass(frozen=True, slots=True)
class Choice:
    """Several bounds of which the lesser or the greater holds."""

    options: tuple[Expression, ...]
    whichever: Literal["less", "more"]


@dataclass(frozen=True, slots=True)
class Clause:
    """One leading word with what it leads: ``max 70``, ``aim 40..50 µm``, ``max ask``, ``max some h``.

    ``rough`` is said with ``about`` after it (``max about 30 min``), ``perhaps`` with ``perhaps``; a value with such
    a clause is doubted as a whole too.
    """

    lead: Lead
    what: Range | Choice | Expression | Ask | Some
    rough: bool = False
    perhaps: bool = False


@dataclass(frozen=True, slots=True)
class Limits:
    """Clauses, each leading word at most once, in the order written."""

    clauses: tuple[Clause, ...]

    def get(self, lead: Lead) -> Clause | None:
        """The clause with this leading word, if there is one."""
        return next((clause for clause in self.clauses if clause.lead == lead), None)


@dataclass(frozen=True, slots=True)
class Toleranced:
    """A nominal with signed deviations: ``25 ±0.1 mm`` (``even``), ``25 +0.2/-0.05 mm``, ``25 +0.2/0 mm``."""

    nominal: Number
    upper: Number
    lower: Number
    unit: Unit
    even: bool


@dataclass(frozen=True, slots=True)
class Deviation:
    """A deviation alone, to either side of a size that stands elsewhere: ``±0.2 mm``."""

    quantity: Quantity


@dataclass(frozen=True, slots=True)
class Fit:
    """An ISO 286 class on a size: ``25 H7 mm``. Capital letters are holes, small ones shafts."""

    size: Number
    letters: str
    grade: int
    unit: Unit


@dataclass(frozen=True, slots=True)
class Word:
    """A word or designation (``matt``, ``P80``), or the name of another value taken over whole.

    Which of the two it is, only the notebook can tell: it looks for the name first.
    """

    text: str


What: TypeAlias = (
    Ask | Some | Judged | Sweep | Limits | Range | Toleranced | Deviation | Fit | Expression | Word
)


@dataclass(frozen=True, slots=True)
class Value:
    """What was written, and whether it is doubted (``perhaps``)."""

    what: What
    perhaps: bool = False


ASK = Ask()
