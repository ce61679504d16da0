"""Ending a value: lending units to bare numbers, and refusing what is left over."""

from __future__ import annotations

from typing import NoReturn

from site_builder.quantity import mends
from site_builder.quantity.errors import NotationError
from site_builder.quantity.reader import Reader
from site_builder.quantity.tokens import NUMBER
from site_builder.quantity.units import COUNT, Unit
from site_builder.quantity.value import (
    Ask,
    Choice,
    Computed,
    Expression,
    Measure,
    Per,
    Quantity,
    Range,
    Some,
    Term,
)

LEADS = frozenset(("aim", "about", "min", "max", "over", "under"))


class ClosingReader(Reader):
    """A reader that knows what may stand at the end; with ``bare_count`` a bare number is a count."""

    __slots__ = ("bare_count",)

    def __init__(self, text: str, nouns: frozenset[str], where: list[int] | None, bare_count: bool) -> None:
        super().__init__(text, nouns, where)
        self.bare_count = bare_count

    def neighbours(self, first: int, low: Expression, high: Expression) -> Range:
        """The range from token ``first`` on; each end has the other for its nearest lender."""
        if self.bare and self.bare[-1] >= first and isinstance(low, Quantity) and isinstance(high, Quantity):
            lender = high if low.lent else low
            if low.lent != high.lent and len(lender.parts) == 1:
                self.bare = [at for at in self.bare if at < first]
                unit, per = lender.parts[0].unit, lender.per
                return Range(lend(low, unit, per), lend(high, unit, per))
        return Range(low, high)

    def lend_within(self, found: Expression, first: int) -> Expression:
        """Bare numbers outside a range: counts where the key is one, else without a unit."""
        if not self.bare_count:
            at = self.bare[0]
            raise mends.unit_missing(self.texts[at], *self.place(at, at + 1))
        if first == self.bare[0] and isinstance(found, Quantity):
            return Quantity((Measure(found.parts[0].number, COUNT),))
        return lend(found, COUNT, None)

    def lender(self) -> tuple[Unit, Per | None]:
        """The one unit given, which serves all that have none."""
        given = {(q.parts[0].unit.symbol, q.per): q for q in self.given if len(q.parts) == 1}
        if len(given) == 1 and all(len(q.parts) == 1 for q in self.given):
            quantity = next(iter(given.values()))
            return quantity.parts[0].unit, quantity.per
        if self.bare_count and not self.given:
            return COUNT, None
        at = self.bare[0] if self.given else self.bare[-1]  # a unit at the end serves all
        raise mends.unit_missing(self.texts[at], *self.place(at, at + 1))

    def clause_bare(self, first: int, end: int) -> NoReturn:
        """Refuse a clause that says neither what is aimed at nor what is accepted."""
        text = self.text(first, end)
        start, stop = self.place(first, end)
        message = (
            f"What is {text}: `min`, `max`?"
            if "aim" in self.texts
            else f"What is {text}: `aim`, `min`, `max`?"
        )
        raise NotationError("clause-bare", message, start=start, end=stop)

    def finish(self, first: int) -> None:
        """Refuse what is left over after a value."""
        i = self.i
        if self.texts[i] == "" and self.done():
            return
        word, before = self.texts[i], self.text(first, i)
        if word in (";", ","):
            if self.texts[i + 1].lower() in LEADS:
                self.clause_bare(first, i)
            raise self.broken(f"Only limits may follow a `{word}`: `min 3 mm; max 5`.", i)
        if word == "±" or word == "+":
            fix = ""
            if self.given and word == "±":
                fix = f"{self.given[-1].parts[0].number.text} ±{self.text(i + 1)}"
            hint = f"write `{fix}`" if fix else "as in `25 +0.2/-0.05 mm`"
            raise self.broken(f"The unit comes once, at the end: {hint}.", first, fix=fix)
        if word == "-" and self.kinds[i + 1] == NUMBER:
            raise mends.range_hyphen(self.dotted(first, i), *self.place(first))
        if word == "or":
            raise self.broken(f"A bound with `or` begins with `min` or `max`: `max {self.text(first)}`.", i)
        rest = self.text(i)
        if self.given and not any(letter.isdigit() for letter in rest):
            raise self.broken(f"`{rest}` may not follow `{before}`; words go under `note`.", first, fix=before)
        raise self.broken(f"`{rest}` may not follow `{before}`.", i)


def _lend_term(term: Term, unit: Unit, per: Per | None) -> Term:
    if isinstance(term, Quantity) and term.lent:
        return Quantity((Measure(term.parts[0].number, unit),), per, True)
    return term


def lend(found: Expression, unit: Unit, per: Per | None) -> Expression:
    """The expression with the unit in place of every one that is missing."""
    if isinstance(found, Computed):
        rest = tuple((operator, _lend_term(term, unit, per)) for operator, term in found.rest)
        return Computed(_lend_term(found.first, unit, per), rest)
    return _lend_term(found, unit, per)


def lend_clause(
    what: Range | Choice | Expression | Ask | Some, unit: Unit, per: Per | None
) -> Range | Choice | Expression | Ask | Some:
    if isinstance(what, Range):
        return Range(lend(what.low, unit, per), lend(what.high, unit, per))
    if isinstance(what, Choice):
        return Choice(tuple(lend(option, unit, per) for option in what.options), what.whichever)
    return what if isinstance(what, Ask | Some) else lend(what, unit, per)
