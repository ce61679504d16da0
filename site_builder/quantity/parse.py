"""Reading a value: ``parse_value``."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from typing import cast

from site_builder.quantity import mends
from site_builder.quantity.closing import LEADS, lend, lend_clause
from site_builder.quantity.digits_meant import digits_meant
from site_builder.quantity.errors import NotationError
from site_builder.quantity.fits import known_class
from site_builder.quantity.measure import references, unit_of_value
from site_builder.quantity.order import (
    Disorder,
    check_alike,
    check_limits,
    check_range,
    check_sum,
    check_sweep,
)
from site_builder.quantity.signs import plain_signs
from site_builder.quantity.slips import known_slip, read_wrongly
from site_builder.quantity.thread_names import is_thread, may_be_thread
from site_builder.quantity.tokens import NUMBER, WORD
from site_builder.quantity.tolerance import ToleranceReader
from site_builder.quantity.value import (
    ASK,
    Ask,
    Choice,
    Clause,
    Deviation,
    Expression,
    Fit,
    Judged,
    Lead,
    Limits,
    Quantity,
    Range,
    Reference,
    Some,
    Sweep,
    Toleranced,
    Value,
    What,
    Word,
)

_SPECIAL = LEADS | {"perhaps", "ask", "some", "lowest", "highest", "judged", "from"}
_FIT = re.compile(r"([A-Za-z]{1,2})(\d{1,2})")
_THREAD_BEGINS = frozenset("#0123456789Mm")
_NOTHING = Value(ASK)
_GRIT = re.compile(r"\d{1,4} grit(?: and (?:finer|coarser))?", re.IGNORECASE)
"""Grit as people say it; by which standard, a rule asks."""
_NAMELESS = (Quantity, Toleranced, Deviation, Fit, Ask, Some, Judged)
_UNREAD = ("value-broken", "unit-unknown", "unit-missing")


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
    if plain[0] in _THREAD_BEGINS and (is_thread(plain) or _GRIT.fullmatch(plain)):
        return Value(Word(plain))
    try:
        found = _Parser(plain, nouns, where, bare_count).value()
    except NotationError as error:
        meant = None if error.code not in _UNREAD else _in_figures(plain, nouns, bare_count)
        if meant is not None:
            error = _write_figures(plain, meant)
        elif error.code in _UNREAD:
            slip = known_slip(plain)
            error = slip if slip is not None else error
        elif error.code == "range-hyphen" and may_be_thread(plain):
            error.message += f" If it is a thread, write `No. {plain}`."
        error.move(where)
        raise error from None
    wrongly = read_wrongly(plain)
    if wrongly is not None:
        wrongly.move(where)
        raise wrongly
    meant = _in_figures(plain, nouns, bare_count) if _has_words(found) else None
    if meant is not None:
        told = _write_figures(plain, meant)
        told.move(where)
        raise told
    return found


def _has_words(value: Value) -> bool:
    """Whether it is a word, or has a name in it that may be a misread figure."""
    if type(value.what) in _NAMELESS:
        return False
    return type(value.what) is Word or any(digits_meant(one.name) for one in references(value) if not one.bracketed)


def _in_figures(plain: str, nouns: frozenset[str], bare_count: bool) -> str | None:
    """The text with digits for letters and words, where it is a measure then: `O.05 mm`, `twelve mm`."""
    meant = digits_meant(plain)
    if meant is None:
        return None
    try:
        value = _Parser(meant, nouns, plain_signs(meant)[1], bare_count).value()
    except NotationError:
        return None
    unit = None if references(value) else unit_of_value(value)
    # One layer, two coats: a name may begin with a number, and so may a word.
    return meant if unit is not None and (bare_count or not unit.counted) else None


def _write_figures(plain: str, meant: str) -> NotationError:
    return mends.broken(f"Write figures: `{meant}`.", 0, len(plain), meant)


class _Parser(ToleranceReader):
    """Reads one value from the tokens of a text."""

    __slots__ = ()

    def value(self) -> Value:
        """The whole text as a value."""
        long = self.tokens.overlong()
        if long is not None:
            raise self.broken("This number is too long to be a measure.", long, long + 1)
        perhaps = self.kinds[0] == WORD and self.texts[0].lower() == "perhaps"
        if not perhaps:
            what = self.what()
            return Value(what, type(what) is Limits and any(clause.perhaps for clause in what.clauses))
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
        slip = known_slip(text, self.starts[first])
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
                    fix=f"{text} mm",
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
        found = self.neighbours(first, low, self.expression())
        if self.bare:
            unit, per = self.lender()
            found = Range(lend(found.low, unit, per), lend(found.high, unit, per))
        try:
            check_alike([found.low, found.high])
            check_range(found)
        except Disorder as disorder:
            raise disorder.error(self.starts[first], self.ends[-1]) from None
        return found

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
            found = Sweep(lend(found.start, unit, per), lend(found.end, unit, per))
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
            clauses = [replace(clause, what=lend_clause(clause.what, unit, per)) for clause in clauses]
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
        perhaps = self.said("perhaps")
        rough = lead != "about" and self.said("about")
        some = None if perhaps or rough else self.some_in_clause()
        if some is not None:
            return Clause(cast(Lead, lead), some)
        low = self.expression()
        what: Range | Choice | Expression = low
        if self.texts[self.i] in ("..", "...", "to"):
            self.i += 1
            what = self.neighbours(first, low, self.expression())
        elif self.texts[self.i] in ("or", "whichever") or self.texts[self.i : self.i + 2] == [",", "whichever"]:
            what = self.choice(low)
        return Clause(cast(Lead, lead), what, rough, perhaps)

    def said(self, word: str) -> bool:
        """Whether this word stands here, before a figure; it is passed over then."""
        follows = self.i + 2 if word == "perhaps" and self.texts[self.i + 1] == "about" else self.i + 1
        if self.texts[self.i].lower() != word or self.kinds[follows] != NUMBER:
            return False
        self.i += 1
        return True

    def some_in_clause(self) -> Some | None:
        """``some h`` after a leading word."""
        first = self.i
        if self.texts[first] != "some":
            return None
        self.i += 1
        unit = self.unit()
        if unit is not None and (self.done() or self.texts[self.i] in (";", ",")):
            return Some(unit)
        self.i = first
        return None

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
