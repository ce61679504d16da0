"""Reading a value: ``parse_value``."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NoReturn, cast

from site_builder.quantity import mends
from site_builder.quantity.errors import NotationError
from site_builder.quantity.fits import deviations, known_class
from site_builder.quantity.order import (
    Disorder,
    check_alike,
    check_limits,
    check_range,
    check_sum,
    check_sweep,
)
from site_builder.quantity.reader import Reader
from site_builder.quantity.signs import plain_signs
from site_builder.quantity.tokens import NUMBER, WORD
from site_builder.quantity.units import COUNT, Unit
from site_builder.quantity.value import (
    ASK,
    Ask,
    Choice,
    Clause,
    Computed,
    Deviation,
    Expression,
    Fit,
    Judged,
    Lead,
    Limits,
    Measure,
    Number,
    Per,
    Quantity,
    Range,
    Reference,
    Some,
    Sweep,
    Term,
    Toleranced,
    Value,
    What,
    Word,
)

LEADS = frozenset(("aim", "about", "min", "max", "over", "under"))
_SPECIAL = LEADS | {"perhaps", "ask", "some", "lowest", "highest", "judged", "from"}
_FIT = re.compile(r"([A-Za-z]{1,2})(\d{1,2})")
_NOTHING = Value(ASK)


@lru_cache(maxsize=8192)
def parse_value(text: str, nouns: frozenset[str] = frozenset(), bare_count: bool = False) -> Value:
    """Read a value as a craftsman writes it.

    ``nouns`` are counted in besides the common ones; with ``bare_count`` a bare number is a count.
    Empty text is ``Ask``. Raises ``NotationError`` and nothing else.
    """
    plain, where = plain_signs(text)
    plain = plain.rstrip()
    if not plain:
        return _NOTHING
    try:
        return _Parser(plain, nouns, where, bare_count).value()
    except NotationError as error:
        if error.code in ("value-broken", "unit-unknown", "unit-missing"):
            slip = mends.known_slip(plain)
            error = slip if slip is not None else error
        if where is not None:
            error.start, error.end = where[min(error.start, len(plain))], where[min(error.end, len(plain))]
        raise error from None


class _Parser(Reader):
    """Reads one value from the tokens of a text."""

    __slots__ = ("bare_count",)

    def __init__(self, text: str, nouns: frozenset[str], where: list[int] | None, bare_count: bool) -> None:
        super().__init__(text, nouns, where)
        self.bare_count = bare_count

    def value(self) -> Value:
        """The whole text as a value."""
        long = self.tokens.overlong()
        if long is not None:
            raise self.broken("This number is too long to be a measure.", long, long + 1)
        perhaps = self.kinds[0] == WORD and self.texts[0].lower() == "perhaps"
        if not perhaps:
            return Value(self.what())
        self.i = 1
        return Value(ASK if self.done() else self.what(), True)

    def what(self) -> What:
        """What stands after ``perhaps``."""
        i = self.i
        kind, word = self.kinds[i], self.texts[i]
        if kind == NUMBER:
            return self.figures()
        if kind == WORD:
            if word in _SPECIAL or word.lower() in _SPECIAL:
                return self.special(word.lower())
            return self.name_or_word()
        if word == "±":
            return self.deviation()
        found = self.range_or_expression()
        self.finish(i)
        return found

    def special(self, word: str) -> What:
        """A value that begins with a word of the notation."""
        i = self.i
        if word in LEADS:
            return self.limits()
        if word == "ask":
            return ASK if self.texts[i + 1] == "" else self.word(i)
        if word == "some":
            return self.some()
        if word == "from":
            return self.sweep()
        if word == "perhaps":
            raise self.broken("`perhaps` stands once, before the value.", i, i + 1)
        rest = self.tokens.words(i + 1) if self.texts[i + 1] else ""
        return Judged("lowest" if word == "lowest" else "highest" if word == "highest" else "judged", rest)

    # --- words --------------------------------------------------------------------------------------

    def word(self, first: int) -> Word:
        """The rest as a word or designation."""
        text = self.tokens.words(first)
        slip = mends.known_slip(text, self.starts[first])
        if slip is not None:
            raise slip
        if not text[:1].isalpha():
            raise self.broken(f"`{text}` is no value.", first)
        for i in range(first, len(self.texts) - 1):
            # A limit after a free word would be lost in it.
            if self.texts[i] in (";", ",") and self.texts[i + 1] in LEADS and self.kinds[i + 2] == NUMBER:
                self.clause_bare(first, i)
        return Word(text)

    def name_or_word(self) -> What:
        """An expression that begins with a name, or a word."""
        first = self.i
        try:
            found = self.range_or_expression()
            self.finish(first)
        except NotationError as error:
            if error.code != "value-broken" or self.given:
                raise
            self.i = first
            return self.word(first)
        if isinstance(found, Range) and self.only_names(found):
            return self.word(first)
        if isinstance(found, Reference) and not found.bracketed:
            return self.word(first)
        return found

    @staticmethod
    def only_names(found: Range | Sweep) -> bool:
        """Whether both ends are bare names, as in ``P80..P120``: designations, not figures."""
        ends = (found.low, found.high) if isinstance(found, Range) else (found.start, found.end)
        return all(isinstance(end, Reference) and not end.bracketed for end in ends)

    # --- figures ------------------------------------------------------------------------------------

    def figures(self) -> What:
        """A value that begins with a number."""
        i = self.i
        after = self.texts[i + 1]
        if after in ("±", "+") or (self.kinds[i + 1] == NUMBER and self.texts[i + 2] == "/"):
            return self.toleranced()
        if self.kinds[i + 1] == WORD and after[-1].isdigit() and after not in self.table.single:
            fit = _FIT.fullmatch(after)
            if fit and known_class(fit[1]) and self.kinds[i + 2] in (WORD, NUMBER):
                return self.fit(fit)
            if fit and known_class(fit[1]) and self.texts[i + 2] == "":
                text = self.text(i)
                raise NotationError(
                    "unit-missing",
                    f"{text} of what? Write `{text} mm`.",
                    mend=f"{text} mm",
                    start=self.starts[i],
                    end=self.ends[i + 1],
                )
        found = self.range_or_expression()
        self.finish(i)
        return found

    def range_or_expression(self) -> Expression | Range:
        """An expression, or a range of two."""
        first = self.i
        low = self.expression()
        if self.texts[self.i] not in ("..", "...", "to"):
            if self.bare:
                low = self.lend_within(low, first)
            try:
                check_sum(low)
            except Disorder as disorder:
                raise disorder.error(self.starts[first], self.ends[-1]) from None
            return low
        self.i += 1
        found = Range(low, self.expression())
        if self.bare:
            unit, per = self.lender()
            found = Range(_lend(found.low, unit, per), _lend(found.high, unit, per))
        try:
            check_alike([found.low, found.high])
            check_range(found)
        except Disorder as disorder:
            raise disorder.error(self.starts[first], self.ends[-1]) from None
        return found

    def lend_within(self, found: Expression, first: int) -> Expression:
        """Bare numbers outside a range: counts where the key is one, else without a unit."""
        if not self.bare_count:
            at = self.bare[0]
            raise mends.unit_missing(self.texts[at], *self.place(at, at + 1))
        if first == self.bare[0] and isinstance(found, Quantity):
            return Quantity((Measure(found.parts[0].number, COUNT),))
        return _lend(found, COUNT, None)

    def lender(self) -> tuple[Unit, Per | None]:
        """The one unit given, which serves all that have none."""
        given = {(q.parts[0].unit.symbol, q.per): q for q in self.given if len(q.parts) == 1}
        if len(given) == 1 and all(len(q.parts) == 1 for q in self.given):
            quantity = next(iter(given.values()))
            return quantity.parts[0].unit, quantity.per
        if self.bare_count and not self.given:
            return COUNT, None
        at = self.bare[0]
        raise mends.unit_missing(self.texts[at], *self.place(at, at + 1))

    def sweep(self) -> What:
        """``from 18 to 12 m/s``."""
        first = self.i
        self.i += 1
        try:
            start = self.expression()
            if self.texts[self.i] not in ("to", "..", "..."):
                raise self.broken("`from` wants a `to`: `from 18 to 12 m/s`.", first)
            self.i += 1
            found = Sweep(start, self.expression())
            self.finish(first)
        except NotationError as error:
            if error.code != "value-broken" or self.kinds[first + 1] == NUMBER:
                raise
            self.i = first
            return self.word(first)
        if self.only_names(found):
            return self.word(first)
        if self.bare:
            unit, per = self.lender()
            found = Sweep(_lend(found.start, unit, per), _lend(found.end, unit, per))
        try:
            check_sweep(found)
        except Disorder as disorder:
            raise disorder.error(self.starts[first], self.ends[-1]) from None
        return found

    def some(self) -> What:
        """``some min``."""
        first = self.i
        self.i += 1
        unit = self.unit()
        if unit is not None and self.done():
            return Some(unit)
        if self.texts[first + 1] == "":
            raise NotationError(
                "unit-missing", "Some what? Write `some min`.", start=self.starts[first], end=self.ends[first]
            )
        if unit is None and self.texts[first + 2] == "":
            raise mends.unit_unknown("some", self.texts[first + 1], self.table, *self.place(first, first + 2))
        self.i = first
        return self.word(first)

    # --- tolerances and fits ------------------------------------------------------------------------

    def tolerance_unit(self, first: int) -> Unit:
        """The unit at the end of a tolerance."""
        at = self.i
        unit = self.unit()
        if unit is None:
            if self.kinds[at] == WORD:
                said = self.text(first, at).replace("± ", "±")
                raise mends.unit_unknown(said, self.texts[at], self.table, *self.place(first, at + 1))
            raise mends.unit_missing(self.text(first, at).replace("± ", "±"), *self.place(first, at))
        self.finish(first)
        return unit

    def signed(self) -> Number:
        """A deviation: ``+0.2``, ``-0.05`` or ``0``; the plus is not kept."""
        at = self.i
        if self.texts[at] == "+":
            self.i += 1
            number = self.number()
            if number.text[0] == "-":
                raise self.broken("A deviation has one sign.", at, self.i)
            return number
        number = self.number()
        if number.text[0] != "-" and number.exact != 0:
            raise self.broken(f"A deviation has a sign: `+{number.text}` or `-{number.text}`.", at, self.i)
        return number

    def toleranced(self) -> What:
        """``25 ±0.1 mm``, ``25 +0.2/-0.05 mm``."""
        first = self.i
        nominal = self.number()
        if self.texts[self.i] == "±":
            self.i += 1
            at = self.i
            number = self.number()
            if number.text[0] == "-":
                raise self.broken("± takes a figure without a sign.", at, self.i)
            unit = self.tolerance_unit(first)
            return Toleranced(nominal, number, Number(f"-{number.text}"), unit, True)
        upper = self.signed()
        if self.texts[self.i] != "/":
            unit_text = self.texts[self.i] if self.kinds[self.i] == WORD else "mm"
            sign = "" if upper.text[0] == "-" else "+"
            pair = f"0/{upper.text}" if sign == "" else f"+{upper.text}/0"
            mend = f"{nominal.text} {pair} {unit_text}"
            raise self.broken(f"A tolerance has two sides: write `{mend}`.", first, mend=mend)
        self.i += 1
        lower = self.signed()
        unit = self.tolerance_unit(first)
        if lower.exact > upper.exact:
            swapped = f"{nominal.text} {_sign(lower)}/{_sign(upper)} {unit.symbol}"
            raise NotationError(
                "range-backward",
                f"The upper deviation comes first: write `{swapped}`.",
                mend=swapped,
                start=self.starts[first],
                end=self.ends[-1],
            )
        return Toleranced(nominal, upper, lower, unit, False)

    def deviation(self) -> Deviation:
        """``±0.2 mm``."""
        first = self.i
        self.i += 1
        if self.texts[self.i].startswith("-"):
            raise self.broken("± takes a figure without a sign.", first)
        quantity = self.quantity()
        if self.bare:
            if not self.bare_count:
                raise mends.unit_missing("±" + self.text(first + 1), *self.place(first))
            quantity = Quantity((Measure(quantity.parts[0].number, COUNT),))
        self.finish(first)
        return Deviation(quantity)

    def fit(self, found: re.Match[str]) -> Fit:
        """``25 H7 mm``."""
        first = self.i
        size = self.number()
        self.i += 1
        unit = self.tolerance_unit(first)
        if unit.kind != "length":
            raise self.broken(f"A fit is on a length, not on a {unit.kind}.", first)
        millimetres = size.exact * unit.factor * 1000
        try:
            deviations(millimetres, found[1], int(found[2]))
        except ValueError as error:
            raise self.broken(str(error), first) from None
        return Fit(size, found[1], int(found[2]), unit)

    # --- clauses ------------------------------------------------------------------------------------

    def limits(self) -> Limits:
        """``aim 45 µm; min 30; max 70``."""
        start = self.i
        clauses: list[Clause] = []
        while True:
            first = self.i
            clause = self.clause()
            if any(clause.lead == other.lead for other in clauses):
                raise self.broken(f"`{clause.lead}` stands twice.", first, self.i)
            clauses.append(clause)
            if self.texts[self.i] not in (";", ","):
                break
            self.i += 1
        self.finish(first)
        if self.bare:
            unit, per = self.lender()
            clauses = [Clause(clause.lead, _lend_clause(clause.what, unit, per)) for clause in clauses]
        limits = Limits(tuple(clauses))
        try:
            check_limits(limits)
        except Disorder as disorder:
            raise disorder.error(self.starts[start], self.ends[-1]) from None
        return limits

    def clause(self) -> Clause:
        """One leading word and what it leads."""
        first = self.i
        lead = self.texts[first].lower()
        if lead not in LEADS:
            if self.done():
                raise self.broken("Something is missing at the end.", first)
            end = next((i for i in range(first, len(self.texts)) if self.texts[i] in (";", ",", "")), first)
            self.clause_bare(first, end)
        self.i += 1
        if self.done():
            raise self.broken(f"`{lead}` what? Write `{lead} 3 mm`, or `{lead} ask`.", first)
        if self.texts[self.i] == "ask" and (self.texts[self.i + 1] in (";", ",", "")):
            self.i += 1
            return Clause(cast(Lead, lead), ASK)
        low = self.expression()
        if self.texts[self.i] in ("..", "...", "to"):
            self.i += 1
            return Clause(cast(Lead, lead), Range(low, self.expression()))
        if self.texts[self.i] in ("or", "whichever") or self.texts[self.i : self.i + 2] == [",", "whichever"]:
            return Clause(cast(Lead, lead), self.choice(low))
        return Clause(cast(Lead, lead), low)

    def choice(self, first_option: Expression) -> Choice:
        """``1/3 of wall or 1 mm whichever is less``."""
        first = self.i
        options = [first_option]
        while self.texts[self.i] == "or":
            self.i += 1
            options.append(self.expression())
        if self.texts[self.i] == "," and self.texts[self.i + 1] == "whichever":
            self.i += 1
        ending = self.texts[self.i : self.i + 3]
        if len(options) < 2:
            raise self.broken("`whichever` wants two bounds: `1/3 of wall or 1 mm whichever is less`.", first)
        if ending not in (["whichever", "is", "less"], ["whichever", "is", "more"]):
            start, end = self.place(first)
            raise NotationError(
                "whichever-missing",
                "End with `whichever is more` or `whichever is less`.",
                start=start,
                end=end,
            )
        self.i += 3
        return Choice(tuple(options), "less" if ending[2] == "less" else "more")

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

    # --- the end ------------------------------------------------------------------------------------

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
            mend = ""
            if self.given and word == "±":
                mend = f"{self.given[-1].parts[0].number.text} ±{self.text(i + 1)}"
            hint = f"write `{mend}`" if mend else "as in `25 +0.2/-0.05 mm`"
            raise self.broken(f"The unit comes once, at the end: {hint}.", first, mend=mend)
        if word == "-" and self.kinds[i + 1] == NUMBER:
            raise mends.range_hyphen(self.dotted(first, i), *self.place(first))
        if word == "or":
            raise self.broken(f"A bound with `or` begins with `min` or `max`: `max {self.text(first)}`.", i)
        raise self.broken(f"`{self.text(i)}` may not follow `{before}`.", i)


def _sign(number: Number) -> str:
    return number.text if number.text[0] == "-" or number.exact == 0 else f"+{number.text}"


def _lend_term(term: Term, unit: Unit, per: Per | None) -> Term:
    if isinstance(term, Quantity) and term.lent:
        return Quantity((Measure(term.parts[0].number, unit),), per, True)
    return term


def _lend(found: Expression, unit: Unit, per: Per | None) -> Expression:
    """The expression with the unit in place of every one that is missing."""
    if isinstance(found, Computed):
        rest = tuple((operator, _lend_term(term, unit, per)) for operator, term in found.rest)
        return Computed(_lend_term(found.first, unit, per), rest)
    return _lend_term(found, unit, per)


def _lend_clause(
    what: Range | Choice | Expression | Ask, unit: Unit, per: Per | None
) -> Range | Choice | Expression | Ask:
    if isinstance(what, Range):
        return Range(_lend(what.low, unit, per), _lend(what.high, unit, per))
    if isinstance(what, Choice):
        return Choice(tuple(_lend(option, unit, per) for option in what.options), what.whichever)
    return what if isinstance(what, Ask) else _lend(what, unit, per)
