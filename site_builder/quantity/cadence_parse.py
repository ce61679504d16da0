"""Reading cadences: ``parse_cadence``."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from typing import Literal, cast

from site_builder.quantity.cadence import (
    At,
    Cadence,
    Clock,
    Each,
    Every,
    Full,
    InFirst,
    Item,
    Later,
    More,
    Rate,
    Sample,
    Stretch,
    When,
)
from site_builder.quantity.errors import NotationError
from site_builder.quantity.mends import broken, spaced
from site_builder.quantity.moment import Event, read_moment
from site_builder.quantity.parse import parse_value
from site_builder.quantity.signs import plain_signs
from site_builder.quantity.value import ASK, Number, Quantity, Some

_NOUN = r"[^\W\d_][^;,]*"
_COUNT = r"\d+"
_ORDINALS = {
    "other": "2",
    "second": "2",
    "third": "3",
    "fourth": "4",
    "fifth": "5",
    "sixth": "6",
    "tenth": "10",
}

_AT = re.compile(r"first and last|start|end|first|last")
_EACH = re.compile(rf"each\s+(?P<noun>{_NOUN})")
_ORDINAL = re.compile(rf"every\s+(?:(?P<figure>\d+)(?:st|nd|rd|th)|(?P<word>[a-z]+))\s+(?P<noun>{_NOUN})")
_EVERY = re.compile(r"every\s+(?P<rough>about\s+)?(?P<amount>.+)")
_SAMPLE = re.compile(
    rf"(?P<count>{_COUNT})\s+of\s+(?:each\s+(?P<each>{_NOUN})|(?P<of>{_COUNT})(?:\s+(?P<noun>{_NOUN}))?)"
)
_IN_FIRST = re.compile(rf"(?P<count>{_COUNT})\s+in\s+(?:the\s+)?first\s+(?P<amount>.+)")
_RATE = re.compile(rf"(?P<then>then\s+)?(?P<count>{_COUNT})\s+per\s+(?P<amount>.+)")
_STRETCH = re.compile(r"(?P<which>first|last)\s+(?P<amount>-?\d.*)")
_LATER = re.compile(r"after\s+(?:the\s+first\s+)?(?P<rough>about\s+)?(?P<amount>(?:[0-9½¼¾]|a\s+)[^;]*)")
_WHEN = re.compile(r"(?P<just>just\s+)?(?P<side>before|after|during|once)\s+(?P<moment>.+)")
_CLOCK = re.compile(r"(?:at\s+)?(?P<hour>\d{1,2}):(?P<minute>[0-5]\d)")
_ONCE = re.compile(r"once|one time|only once|once only")
_THEN_EVERY = re.compile(r"then\s+(?=every\s)")
_NEW = re.compile(rf"(?:each\s+|every\s+)?(?P<new>new\s+{_NOUN})")
_CONDITION = re.compile(r"(?:if|unless|only if|where)\s+.+")
_FULL = re.compile(r"(?:(?P<share>[\d./ -]*\d)\s*(?P<percent>%\s*)?of\s+)?full")
_MORE = re.compile(rf"(?P<count>{_COUNT})\s+more")
_NUMBER = re.compile(r"\d+(?:-|\s+)\d+/0*[1-9]\d*|\d+/0*[1-9]\d*|\d+(?:\.\d+)?")


@lru_cache(maxsize=4096)
def parse_cadence(text: str, nouns: frozenset[str] = frozenset()) -> Cadence:
    """Read a cadence; ``nouns`` are counted in besides the common ones. Empty text is ``ask``.

    Raises ``NotationError`` and nothing else.
    """
    plain, where = plain_signs(text)
    plain = re.sub(r"\s", " ", plain)
    try:
        if not plain.strip():
            return Cadence((ASK,))
        return Cadence(tuple(_Item(told, start, nouns, where).read() for start, told in _pieces(plain)))
    except NotationError as error:
        error.move(where)
        raise


def _pieces(text: str) -> list[tuple[int, str]]:
    """What stands between ``;`` and ``,`` with its offset; ``2,5`` stays whole, to be refused as a number."""
    pieces, start = [], 0
    for mark in re.finditer(r";|(?<![0-9]),|,(?![0-9])", text):
        pieces.append((start, text[start : mark.start()]))
        start = mark.end()
    return [*pieces, (start, text[start:])]


class _Item:
    """One item of a cadence and its place in the text."""

    def __init__(self, text: str, start: int, nouns: frozenset[str], where: list[int] | None) -> None:
        self.nouns, self.where = nouns, where
        self.start = start + len(text) - len(text.lstrip())
        self.text = text.strip()

    def broken(self, message: str, fix: str = "") -> NotationError:
        """An error about this item."""
        return broken(message, self.start, self.start + len(self.text), fix)

    def read(self) -> Item:
        """The item, by the first form that fits."""
        text = self.text
        if not text:
            raise self.broken("Nothing stands between two `;`.")
        if text == "ask":
            return ASK
        if _AT.fullmatch(spaced(text)):
            return At(cast(Literal["start", "end", "first", "last", "first and last"], spaced(text)))
        found = _NEW.fullmatch(text)
        if found:
            return When("after", Event(f"each {spaced(found['new'])}"))
        found = _CLOCK.fullmatch(text)
        if found:
            return self.clock(found)
        if _ONCE.fullmatch(spaced(text)):
            raise self.broken(
                "Once, and when? Write `start` for before all else, `end` for after all else, or go on to the moment, "
                "as `once the glue is dry`.", "start"
            )
        found = _EACH.fullmatch(text)
        if found:
            return Each(spaced(found["noun"]))
        if later := self.later():
            return later
        if _CONDITION.fullmatch(text):
            raise self.broken(
                "A condition is no moment. Where it holds for one variant only, write it under `for:`, as "
                "`for: {pattern: deck}`; where the work shows it, as a `trouble` or under `unless:`."
            )
        found = _WHEN.fullmatch(text)
        if found:
            side = cast(Literal["before", "after", "during", "once"], found["side"])
            moment = read_moment(found["moment"], self.where, self.start + found.start("moment"))
            return When(side, moment, bool(found["just"]))
        if text.startswith("every") and text[5:6].isspace():
            return self.every()
        then = _THEN_EVERY.match(text)
        if then is not None:
            rest = _Item(text[then.end() :], self.start + then.end(), self.nouns, self.where).read()
            return replace(rest, then=True) if isinstance(rest, Every) else rest
        return self.counted()

    def clock(self, found: re.Match[str]) -> Clock:
        """``18:00``, an hour of the day."""
        hour = int(found["hour"])
        if hour > 23:
            raise self.broken(f"A day has no {hour} o'clock. Write the hour from `0:00` to `23:59`.")
        return Clock(hour, int(found["minute"]))

    def later(self) -> Later | None:
        """``after 2 min``, a span counted from the beginning of the step; None for an event or a count."""
        found = _LATER.fullmatch(self.text)
        if found is None:
            return None
        try:
            amount = self.amount(found["amount"], found.start("amount"))
        except NotationError as error:
            if error.code in ("decimal-comma", "unit-missing"):
                raise
            return None  # an outcome, as in `after 20 clean pieces`, or an event; told as such
        if not isinstance(amount, Quantity) or amount.parts[0].unit.kind != "time":
            return None
        return Later(amount, bool(found["rough"]))

    def every(self) -> Item:
        """``every 10 pieces``; ``every 10th piece`` and ``every shift`` are read as what they mean."""
        text = self.text
        found = _ORDINAL.fullmatch(text)
        number = found and (found["figure"] or _ORDINALS.get(found["word"]))
        if found and number:
            return Every(self.amount(f"{number} {found['noun']}", found.start("noun")))
        found = _EVERY.fullmatch(text)
        assert found is not None
        if found["amount"][0].isalpha() and not found["amount"].startswith("some") and not found["rough"]:
            try:
                return self.one(found)
            except NotationError:
                if not _EACH.fullmatch(f"each {found['amount']}"):  # what would not be read again was no noun
                    raise
                return Each(spaced(found["amount"]))
        return Every(self.amount(found["amount"], found.start("amount")), bool(found["rough"]))

    def one(self, found: re.Match[str]) -> Item:
        """``every day`` is every 1 d, ``every shift`` each shift."""
        amount = self.amount(f"1 {found['amount']}", found.start("amount"))
        if isinstance(amount, Quantity) and amount.parts[0].unit.counted:
            return Each(spaced(found["amount"]))
        return Every(amount)

    def counted(self) -> Item:
        """An item that begins with a number, or with ``first`` or ``last`` and a duration."""
        text = self.text
        if found := _SAMPLE.fullmatch(text):
            count = self.count(found["count"])
            if found["each"]:
                return Sample(count, None, spaced(found["each"]))
            of = self.count(found["of"])
            if count.exact > of.exact:
                raise self.broken(
                    f"{count.text} of {of.text}: the sample is greater than what it is taken from."
                )
            return Sample(count, of, spaced(found["noun"] or ""))
        if found := _IN_FIRST.fullmatch(text):
            return InFirst(self.count(found["count"]), self.amount(found["amount"], found.start("amount")))
        if found := _RATE.fullmatch(text):
            told = found["amount"]
            amount = f"1 {told}" if told[0].isalpha() and not told.startswith("some ") else told
            return Rate(
                self.count(found["count"]), self.amount(amount, found.start("amount")), bool(found["then"])
            )
        if found := _STRETCH.fullmatch(text):
            duration = self.amount(found["amount"], found.start("amount"))
            if not isinstance(duration, Quantity) or duration.parts[0].unit.kind != "time":
                raise self.broken(f"`{found['which']}` wants a duration: `{found['which']} 10 s`.")
            return Stretch(cast(Literal["first", "last"], found["which"]), duration)
        if found := _MORE.fullmatch(text):
            return More(self.count(found["count"]))
        if found := _FULL.fullmatch(text):
            return self.full(found)
        raise self.unread()

    def full(self, found: re.Match[str]) -> Item:
        """``full`` or a share of it."""
        share = found["share"]
        if share is None:
            return Full()
        if not _NUMBER.fullmatch(share) or len(share) > 12:
            raise self.broken(f"`{share}` is no share: write `1/3 of full` or `50 % of full`.")
        return Full(Number(re.sub(r"\s+", "-", share)), bool(found["percent"]))

    def count(self, digits: str) -> Number:
        """A whole number of things, at least one."""
        if len(digits) > 9 or int(digits) == 0:
            raise self.broken(f"{digits[:12]} is no count.")
        return Number(digits)

    def amount(self, text: str, start: int) -> Quantity | Some:
        """A quantity, a count with its noun, or ``some`` of them."""
        try:
            what = parse_value(text, self.nouns).what
        except NotationError as error:
            if not self.text[start:].startswith(text):
                error.fix = ""  # it would mend the text we made up, "1 shift" for "shift"
            error.shift(self.start + start, self.start + len(self.text))
            raise
        if not isinstance(what, Quantity | Some) or (
            isinstance(what, Quantity) and what.parts[0].number.exact <= 0
        ):
            raise self.broken(f"`{spaced(text)}` is no amount: write `20 min` or `10 pieces`.")
        return what

    def unread(self) -> NotationError:
        """Say what a cadence may be."""
        text = spaced(self.text)
        if re.fullmatch(r"\d.*", text):
            return self.broken(
                f"How often is `{text}`? Write `every {text}`, or `3 of 50 pieces`.", f"every {text}"
            )
        return self.broken(
            f"How often is `{text}`? Write `each piece`, `every 10 pieces`, `3 of 50 pieces`, `start`, "
            "`first and last`; for an event `after opening of the tin`."
        )
