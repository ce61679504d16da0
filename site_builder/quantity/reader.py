"""Reading the terms of a value: numbers, units, quantities, names, expressions."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal, NoReturn, cast

from site_builder.quantity import mends
from site_builder.quantity.errors import NotationError
from site_builder.quantity.tokens import COMMA_NUMBER, NAME, NUMBER, SIGN, WORD, Tokens
from site_builder.quantity.units import Unit, compound, unit_table
from site_builder.quantity.value import (
    Computed,
    Expression,
    Measure,
    Number,
    Operator,
    Per,
    Period,
    Quantity,
    Reference,
    Same,
    Scaled,
    Term,
)

UNTOLD = Unit("?", "untold", Fraction(1), ())
"""Stands in a quantity until a neighbour lends its unit."""

_OPERATORS = frozenset(("plus", "minus", "x", "/"))
_NAME_ENDS = frozenset(("or", "to", "per", "plus", "minus", "x", "whichever"))
_UNIT_ENDS = _NAME_ENDS | {"of"}
_PERIODS = frozenset(("day", "shift", "week"))
_DASHED = re.compile(r"(.+?)-(\d[\d./]*)$")


class Reader:
    """A place in the tokens of one text. Every method reads on from there or raises ``NotationError``."""

    __slots__ = (
        "bare",
        "ends",
        "given",
        "i",
        "kinds",
        "nouns",
        "starts",
        "table",
        "texts",
        "tokens",
        "where",
    )

    def __init__(self, text: str, nouns: frozenset[str], where: list[int] | None) -> None:
        self.tokens = tokens = Tokens(text)
        self.kinds = tokens.kinds
        self.texts = tokens.texts
        self.starts = tokens.starts
        self.ends = tokens.ends
        self.where = where
        self.nouns = nouns
        self.table = unit_table(nouns)
        self.i = 0
        self.given: list[Quantity] = []
        """Quantities read with a unit of their own."""
        self.bare: list[int] = []
        """Tokens of numbers that wait for a neighbour's unit."""

    # --- places -------------------------------------------------------------------------------------

    def at(self, offset: int) -> int:
        """The offset in the text as it was given, before phone signs were made plain."""
        return offset if self.where is None else self.where[offset]

    def place(self, first: int, last: int | None = None) -> tuple[int, int]:
        """Start and end offsets of the tokens from ``first`` to before ``last``."""
        last = len(self.texts) - 1 if last is None else last
        start = self.starts[first]
        return start, max(start, self.ends[last - 1] if last > 0 else 0)

    def text(self, first: int, last: int | None = None) -> str:
        """These tokens as written, with single blanks."""
        start, end = self.place(first, last)
        return mends.spaced(self.tokens.text[start:end])

    def broken(self, message: str, first: int, last: int | None = None, fix: str = "") -> NotationError:
        """An error about these tokens that has no code of its own."""
        return mends.broken(message, *self.place(first, last), fix)

    def done(self) -> bool:
        """Whether all is read."""
        return self.i >= len(self.texts) - 1

    # --- numbers and units --------------------------------------------------------------------------

    def number(self) -> Number:
        """The number that stands here."""
        i = self.i
        if self.kinds[i] != NUMBER:
            self.no_number()
        self.i = i + 1
        text = self.texts[i]
        if "/" in text:
            text = self.fraction(text, i)
        return Number(text)

    def fraction(self, text: str, i: int) -> str:
        """``1 1/2`` as ``1-1/2``; a fraction over one after a hyphen was meant as a range."""
        whole, _, part = text.replace(" ", "-").rpartition("-")
        top, _, bottom = part.partition("/")
        if whole.strip("-") and int(top) >= int(bottom):
            raise mends.range_hyphen(f"{whole.strip('-')}..{part}", *self.place(i, i + 1))
        whole = whole.rstrip("-")
        if whole:
            return f"{whole}-{part}"
        return f"-{part}" if text[0] == "-" else part

    def no_number(self) -> NoReturn:
        """Say why no number can be read here."""
        i = self.i
        if self.kinds[i] == COMMA_NUMBER:
            rest = self.texts[i + 1] if self.kinds[i + 1] == WORD else ""
            raise mends.decimal_comma(self.texts[i], rest, *self.place(i, i + 2 if rest else i + 1))
        found = self.texts[i]
        message = (
            f"A number is wanted where `{found}` stands." if found else "Something is missing at the end."
        )
        raise self.broken(message, i, i + 1)

    def unit(self) -> Unit | None:
        """The unit that stands here, or None."""
        i = self.i
        if self.kinds[i] != WORD:
            return None
        word = self.texts[i]
        table = self.table
        if word in table.several:
            for rest, unit in table.several[word]:
                if tuple(self.texts[i + 1 : i + 1 + len(rest)]) == rest:
                    self.i = i + 1 + len(rest)
                    return unit
        found = table.single.get(word)
        if found is None:
            if word in _UNIT_ENDS:
                return None
            found = compound(word.replace(" ", ""), self.nouns)
            if found is None:
                return None
        self.i = i + 1
        return found

    def quantity(self) -> Quantity:
        """``18 m/s``, ``2 h 30 min``, ``9 g per piece``; or a number whose unit a neighbour must lend."""
        first = self.i
        number = self.number()
        unit = self.unit()
        if unit is None:
            return self.unitless(number, first)
        parts: tuple[Measure, ...] = (Measure(number, unit),)
        if self.kinds[self.i] == NUMBER:
            parts = self.more_parts(parts, first)
        per = self.per() if self.texts[self.i] == "per" else None
        quantity = Quantity(parts, per)
        self.given.append(quantity)
        return quantity

    def more_parts(self, parts: tuple[Measure, ...], first: int) -> tuple[Measure, ...]:
        """The smaller parts of a quantity: the minutes after the hours."""
        while self.kinds[self.i] == NUMBER:
            at = self.i
            if self.texts[at][0] == "-":
                raise mends.range_hyphen(self.dotted(first, at), *self.place(first))
            number = self.number()
            unit = self.unit()
            if unit is None:
                if self.kinds[self.i] == WORD and self.texts[self.i] not in _UNIT_ENDS:
                    self.unknown(number, at)
                hint = {"h": "min", "min": "s", "ft": "in", "lb": "oz"}.get(parts[-1].unit.symbol, "mm")
                raise mends.unit_missing(number.text, *self.place(at, at + 1), hint)
            before = parts[-1].unit
            if unit.kind != before.kind or unit.factor >= before.factor or unit.counted:
                raise self.broken(
                    f"`{self.text(first, self.i)}` is not one quantity: its parts go from great to small, "
                    "as in `2 h 30 min`.",
                    first,
                    self.i,
                )
            parts = (*parts, Measure(number, unit))
        return parts

    def dotted(self, first: int, at: int) -> str:
        """The range that was meant by a hyphen before token ``at``."""
        low, high = self.text(first, at), self.tokens.text[self.starts[at] :].lstrip("- ")
        return f"{low}..{mends.spaced(high)}"

    def per(self) -> Per:
        """``per piece``, ``per 120 pieces``."""
        self.i += 1
        at = self.i
        number = self.number() if self.kinds[at] in (NUMBER, COMMA_NUMBER) else None
        unit = self.unit()
        if unit is None:
            if self.kinds[self.i] == WORD:
                known = mends.spoken_unit(self.texts[self.i]) if number is None else ""
                if known:
                    said = f"`{self.texts[self.i]}` is no unit we know. Write `per {known}`."
                    raise NotationError("unit-unknown", said, fix=known, start=self.starts[at], end=self.ends[at])
                self.unknown(number or Number("1"), at)
            said = number.text if number else "per"
            raise NotationError(
                "unit-missing",
                f"`{said}` what? Write `per piece`.",
                fix="",
                start=self.starts[at],
                end=self.ends[at],
            )
        return Per(number, unit)

    def unitless(self, number: Number, first: int) -> Quantity:
        """A number without a unit: lent by a neighbour, if what follows allows it."""
        i = self.i
        kind, word = self.kinds[i], self.texts[i]
        if kind == WORD and word not in _UNIT_ENDS:
            self.unknown(number, first)
        if (kind == NUMBER and word[0] == "-") or (
            word == "-" and self.kinds[i + 1] in (NUMBER, COMMA_NUMBER)
        ):
            raise mends.range_hyphen(self.dotted(first, i), *self.place(first))
        if kind == COMMA_NUMBER:
            self.no_number()
        if kind not in (SIGN, WORD):
            raise self.broken(f"`{self.text(first, i + 1)}` is not one quantity.", first, i + 1)
        self.bare.append(first)
        return Quantity((Measure(number, UNTOLD),), None, True)

    def unknown(self, number: Number, first: int) -> NoReturn:
        """Say what is wrong with the word that stands here in place of a unit."""
        i = self.i
        word = self.texts[i]
        dashed = _DASHED.fullmatch(word)
        if dashed and dashed[1] in self.table.single:
            rest = self.text(i + 1)
            fix = f"{number.text} {dashed[1]}..{dashed[2]} {rest}".rstrip()
            raise mends.range_hyphen(fix, *self.place(first))
        raise mends.unit_unknown(number.text, word, self.table, *self.place(first, i + 1))

    # --- terms and expressions ----------------------------------------------------------------------

    def reference(self) -> Reference:
        """The name of another value: words up to the next word of the notation, or in brackets."""
        first = self.i
        if self.kinds[first] == NAME:
            self.i = first + 1
            start, end = self.starts[first] + 1, self.ends[first] - 1
            name = mends.spaced(self.tokens.text[start:end])
            if not name:
                raise self.broken("A name is wanted between the brackets.", first, first + 1)
            return Reference(name, True, self.at(start), self.at(end))
        i = first
        while (
            self.kinds[i] == WORD and self.texts[i] not in _NAME_ENDS and self.texts[i][0] not in "°%"
        ) or (i > first and self.kinds[i] == NUMBER and self.texts[i].isdigit()):
            i += 1
        if i == first:
            self.no_name()
        self.i = i
        start, end = self.starts[first], self.ends[i - 1]
        return Reference(mends.spaced(self.tokens.text[start:end]), False, self.at(start), self.at(end))

    def no_name(self) -> NoReturn:
        """Say why no name can be read here."""
        i = self.i
        if self.kinds[i] in (NUMBER, COMMA_NUMBER):
            self.no_number() if self.kinds[i] == COMMA_NUMBER else None
            raise self.broken(f"A name is wanted where `{self.texts[i]}` stands.", i, i + 1)
        found = self.texts[i]
        message = (
            f"A quantity or a name is wanted where `{found}` stands."
            if found
            else "Something is missing at the end."
        )
        raise self.broken(message, i, i + 1)

    def scaled(self, percent: bool) -> Scaled:
        """``2 x wall``, ``1/3 of wall``, ``80 % of post length``."""
        first = self.i
        factor = self.number()
        if percent:
            self.i += 1
        by = cast(Literal["of", "x"], self.texts[self.i])
        self.i += 1
        if self.kinds[self.i] == NUMBER and not percent:
            raise mends.unit_missing(factor.text, *self.place(first, first + 1))
        return Scaled(factor, percent, by, self.reference())

    def term(self) -> Term:
        """A quantity, a share of a name, a name, or the calendar's bound."""
        i = self.i
        kind = self.kinds[i]
        if kind == NUMBER:
            after = self.texts[i + 1]
            if after in ("of", "x"):
                return self.scaled(False)
            if after == "%" and self.texts[i + 2] in ("of", "x"):
                return self.scaled(True)
            return self.quantity()
        if kind == COMMA_NUMBER:
            self.no_number()
        if (
            kind == WORD
            and self.texts[i] == "same"
            and self.texts[i + 1] in _PERIODS
            and self.ends_name(i + 2)
        ):
            self.i = i + 2
            return Same(cast(Period, self.texts[i + 1]))
        return self.reference()

    def ends_name(self, i: int) -> bool:
        """Whether no name can go on at this token."""
        return self.kinds[i] in (SIGN, NAME, COMMA_NUMBER) or self.texts[i] in _NAME_ENDS

    def expression(self) -> Expression:
        """A term, or terms joined by ``plus``, ``minus``, ``x`` and ``/``."""
        start = self.i
        first = self.term()
        if self.texts[self.i] not in _OPERATORS:
            return first
        rest: list[tuple[Operator, Term]] = []
        while self.texts[self.i] in _OPERATORS:
            at = self.i
            operator = cast(Operator, self.texts[at])
            self.i += 1
            term = self.term()
            if operator in ("x", "/") and isinstance(term, Quantity) and term.lent:
                if rest or not isinstance(first, Reference):
                    raise mends.unit_missing(self.text(at + 1, self.i), *self.place(at + 1, self.i))
                self.misplaced_factor(operator, start, at)
            rest.append((operator, term))
        whole = Computed(first, tuple(rest))
        self.check_temperatures(whole, start)
        return whole

    def misplaced_factor(self, operator: str, start: int, at: int) -> NoReturn:
        """Say how ``wall x 2`` is written."""
        number, name = self.text(at + 1, self.i), self.text(start, at)
        fix = f"{number} x {name}" if operator == "x" else f"1/{number} of {name}"
        place = self.place(start, self.i)
        raise NotationError(
            "unit-missing",
            f"The number comes first: write `{fix}`.",
            fix=fix,
            start=place[0],
            end=place[1],
        )

    def check_temperatures(self, whole: Computed, start: int) -> None:
        """Two temperatures cannot be added; and is 20 °C minus 5 °C a temperature or a difference?"""
        terms = [whole.first, *(term for _, term in whole.rest)]
        hot = [t for t in terms if isinstance(t, Quantity) and t.parts[0].unit.kind == "temperature"]
        if len(hot) > 1:
            last = hot[-1].parts[0]
            fix = f"{last.number.text} {last.unit.symbol} difference"
            raise self.broken(
                f"Two temperatures in one sum. If one of them is a difference, write `{fix}`.", start, self.i
            )
