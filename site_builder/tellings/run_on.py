"""Figures that run on from another one near by: the next row of a table, ``ninety-five at the outside``, ``the four``,
and what a correction leaves unsaid. The unit is taken from there, with what else both have in common.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from site_builder.tellings.joined import Joined
from site_builder.tellings.scales import convert
from site_builder.tellings.spoken import Spoken
from site_builder.tellings.taking_back import TakingBack
from site_builder.tellings.unit_words import TIME_UNITS, UNITS

_ROWS = 12
"""So many quantities back the row before is looked for."""
_AGAIN = 80
"""Letters between a figure and the same one said again."""
_BETWEEN = re.compile(
    r"^(?:[ ,]+(?!and by|by|per|every|at|for|is|are|needs|takes|gives|that's)[\w'-]+){0,8}[ ,]*$", re.IGNORECASE
)
_OR = re.compile(r"\b(?:or|and)\b", re.IGNORECASE)
_THE = re.compile(r"\bthe $", re.IGNORECASE)
_COMES_TO = re.compile(
    r"^[ ,.]*(?:is|that's|that is|makes|which is|equals|comes to|or)(?: about| around)? $", re.IGNORECASE
)
_BASE = re.compile(r"\b(?:each|every|with each|for each|for every)(?: further| more| other| extra)? $", re.IGNORECASE)


_RATED = re.compile(r" (?:a|an|per|to the) (?:second|minute|hour|day|shift|week|month|year)(?!\w)", re.IGNORECASE)
"""``fifty a minute``: of what was said elsewhere."""


def run_on(joined: Joined, found: Sequence[Spoken], n: int) -> Spoken | None:
    """The bare number as it must be meant after the quantities near by; None where they do not say."""
    return (
        _next_row(found, n)
        or _same_column(found, n)
        or _said_again(found, n)
        or _beside(joined, found, n)
        or _the_one(joined, found, n)
        or _converted(joined, found, n)
    )


def is_base(joined: Joined, one: Spoken) -> bool:
    """``with each further thousand``: what something is reckoned by, not a size of its own."""
    return (
        _BASE.search(joined.text, max(0, one.start - 30), one.start) is not None
        or _RATED.match(joined.text, one.end) is not None
        or _REFUSED.match(joined.text, one.end) is not None
    )


def like(one: Spoken, other: Spoken, form: bool = True) -> Spoken:
    """A number with the unit, and what it is a multiple of, of another."""
    if form and other.form in ("x", "of") and one.form == "value":
        return replace(one, form=other.form, of=other.of, lent=True)
    return replace(one, unit=other.unit, per=other.per, lent=True)


def _row_before(found: Sequence[Spoken], n: int) -> int | None:
    """The range that ended where this one begins: ``sixty to seventy … seventy-one to eighty``."""
    one = found[n]
    if one.high is None:
        return None
    for m in range(n - 1, max(-1, n - _ROWS), -1):
        other = found[m]
        if other.unit and other.form == "value" and other.high is not None and one.low - other.high in (0, 1):
            return m if one.high - one.low <= 3 * (other.high - other.low) else None
    return None


def _next_row(found: Sequence[Spoken], n: int) -> Spoken | None:
    before = _row_before(found, n)
    return None if before is None else like(found[n], found[before])


def _same_column(found: Sequence[Spoken], n: int) -> Spoken | None:
    """What stands behind the head of a row has the unit of what stood behind the head of the row before."""
    if n < 2 or found[n].high is None:
        return None
    before = _row_before(found, n - 1)
    if before is None or before + 1 >= n - 1:
        return None
    column = found[before + 1]
    return like(found[n], column) if column.unit and column.high is not None else None


def _said_again(found: Sequence[Spoken], n: int) -> Spoken | None:
    """``For every eighteen degrees … Eighteen, that's``: the same figure, a few words before."""
    one = found[n]
    for other in reversed(found[max(0, n - 2) : n]):
        near = one.start - other.end <= _AGAIN and other.unit and other.form == "value"
        if near and one.high is None and other.high is None and one.low == other.low and one.low > 4:
            return like(one, other)
    return None


def _beside(joined: Joined, found: Sequence[Spoken], n: int) -> Spoken | None:
    """``ninety amps, ninety-five at the outside``; ``six nails, four on the outside and two inside``."""
    if not n:
        return None
    one, other = found[n], found[n - 1]
    if not (other.unit or other.form in ("x", "of")) or other.form not in ("value", "x") or other.unit == "part":
        return None
    between = joined.text[other.end : one.start]
    if one.low == other.low and one.high is None and not between.strip(" !.,-–—"):
        return like(one, other)  # four! Four at least
    if _REFUSED.match(joined.text, one.end):
        return None
    if other.unit in ("°C/h", "°F/h", "°C/min", "°F/min") and _TOWARDS.match(between) and one.low >= 20:
        return replace(one, unit=other.unit[:2], lent=True)
    if len(between) > (64 if one.lead else 48) or _BETWEEN.match(between) is None or not _near(one, other):
        return None
    if one.high is not None and other.high is None and other.unit not in UNITS.values():
        return None
    bound = other.lead if _OR.search(between) and not one.lead and other.lead in ("over", "under", "min", "max") else ""
    gone_on = like(one, other)
    return replace(gone_on, lead=bound or gone_on.lead, per=_per(joined, one) or gone_on.per)


_TOWARDS = re.compile(
    r"^,? (?:until|to|down to|up to|as far as|till|from)(?: it's| you(?:'re| are) at)? $", re.IGNORECASE
)
_REFUSED = re.compile(r" (?:isn't|aren't|is not|are not|won't|wouldn't|is too|doesn't)(?!\w)", re.IGNORECASE)
"""``one degree is all right, two isn't``: that is no figure to keep."""


def _per(joined: Joined, one: Spoken) -> str:
    match = _FOR_EACH.match(joined.text, one.end)
    return match["noun"].lower() if match else ""


_FOR_EACH = re.compile(r" (?:for each|for every|per|on each|to each) (?P<noun>[^\W\d_]{3,})(?!\w)", re.IGNORECASE)


def _near(one: Spoken, other: Spoken) -> bool:
    a, b = abs(one.high or one.low), abs(other.high or other.low)
    if not a or not b:
        return False
    if other.form == "x":
        return one.low.denominator in (1, 2, 4) and max(a, b) <= 4 * min(a, b)
    counted = other.unit not in UNITS.values() and "/" not in other.unit and " " not in other.unit
    if counted:
        return one.low.denominator == 1 and a <= 2 * b
    if other.unit in TIME_UNITS and one.low.denominator not in (1, 2, 4):
        return False
    bounded = bool(one.lead) or one.high is not None
    return max(a, b) <= (3 if bounded else 2) * min(a, b)


def _the_one(joined: Joined, found: Sequence[Spoken], n: int) -> Spoken | None:
    """``the four is for something else``: the figure that was said before; rough where that was."""
    one = found[n]
    if one.high is not None or _THE.search(joined.text, max(0, one.start - 5), one.start) is None:
        return None
    here = joined.cue_at(one.start)
    for other in reversed(found[max(0, n - 60) : n]):
        if other.unit and other.form == "value" and one.low in (other.low, other.high):
            far = here - joined.cue_at(other.start)
            if one.low < 100 and (far > 3 or other.high is not None):
                return None
            return replace(like(one, other), about=one.about or (other.about and other.high is not None))
    return None


def _converted(joined: Joined, found: Sequence[Spoken], n: int) -> Spoken | None:
    """``Three fifty is a hundred and seventy-seven``: the one in Fahrenheit, the other in Celsius."""
    for first, second in ((n, n + 1), (n - 1, n)):
        if first < 0 or second >= len(found):
            continue
        a, b = found[first], found[second]
        if _COMES_TO.match(joined.text[a.end : b.start]) is None or b.unit not in ("", "°C", "°F"):
            continue
        for unit in ("°F", "°C"):
            other = convert(replace(a, unit=unit), replace(b, unit=""))
            if other is not None and (not b.unit or b.unit == other) and a.low >= 100 and a.unit in ("", unit):
                return replace(found[n], unit=unit if n == first else other, lent=True)
    return None


_PASSES = re.compile(
    r" (?:still|also|just) (?:passes|goes|will do|does|holds|is (?:fine|all right|alright|allowed|taken|accepted|"
    r"good))(?!\w)",
    re.IGNORECASE,
)
_EITHER = re.compile(
    r"[^.;?!]{3,50}?(?:whichever (?:is|comes)|the (?:larger|smaller|greater|longer|shorter|bigger|higher|lower|"
    r"later|earlier|more|"
    r"less)(?: one| of (?:the )?two)? (?:counts|holds|wins|decides))",
    re.IGNORECASE,
)


def _same_difference(joined: Joined, one: Spoken, other: Spoken) -> bool:
    """``Eighteen degrees, that's ten in Celsius``: of a difference the other scale tells a difference."""
    between = joined.text[one.end : other.start]
    if one.unit != "°F difference" or other.unit != "°C" or _COMES_TO.match(between) is None:
        return False
    return abs(one.low * Fraction(5, 9) - other.low) <= Fraction(1, 2)


def bounded_by_neighbours(joined: Joined, found: Sequence[Spoken]) -> list[Spoken]:
    """``1.2 is what you want, and 2.4 still passes``: a bound, to the side on which it lies. Of ``five millimetres or
    two diameters, the larger counts`` no part is claimed alone.
    """
    done: list[Spoken] = []
    for n, one in enumerate(found):
        last = found[n - 1] if n else None
        if last is not None and _same_difference(joined, last, one):
            one = replace(one, unit="°C difference")
        if _PASSES.match(joined.text, one.end) and last is not None and last.unit == one.unit and not one.lead:
            one = replace(one, lead="max" if one.low > last.low else "min")
        following = found[n + 1] if n + 1 < len(found) else None
        between = joined.text[one.end : following.start].strip().lower() if following is not None else ""
        if between in ("or", "or by") and _EITHER.match(joined.text, one.end):
            one = replace(one, unit="", form="value")
        done.append(one)
    return done


def corrected(joined: Joined, found: Sequence[Spoken], taken: Sequence[TakingBack]) -> list[Spoken]:
    """What a correction leaves unsaid: a figure that is at once said as the end of a range is that end; one that
    stands in the place of a bounded one is bounded likewise.
    """
    done = list(found)
    for one in taken:
        if one.by is None or one.quantity is None:
            continue
        new, old = done[one.by], done[one.quantity]
        if new.lead or new.high is not None or new.form != "value":
            continue
        after = done[one.by + 1] if one.by + 1 < len(done) else None
        if after is not None and after.high is not None and old.high is not None and after.unit == new.unit:
            lead = "max" if new.low == after.high else "min" if new.low == after.low else ""
            near = joined.text[new.end : after.start].strip(" ,.-–—").lower()
            if lead and (
                not near or near in ("i beg your pardon", "so", "i mean", "sorry", "that is", "between", "from")
            ):
                done[one.by] = replace(new, lead=lead)
                continue
        if old.high is None and old.lead and (old.unit == new.unit):
            done[one.by] = replace(new, lead=old.lead)
            if after is not None and after.low == new.low and after.unit == new.unit and not after.lead:
                done[one.by + 1] = replace(after, lead=old.lead) if after.high is None else after
    return done


_LISTED = re.compile(
    r" ?(?:!|,? ?(?:and|or) (?!so\b)|(?:if|on|for|when|in|with|where|at|by|unless|under)\b|, [^ ]+ (?:inch|"
    r"minutes?|hours?)\b)",
    re.IGNORECASE,
)
"""What goes on like this is a row of cases, or a louder second try."""


def merged(joined: Joined, found: Sequence[Spoken]) -> list[Spoken]:
    """``a minute, a minute and a half``: two figures of one unit, one at once after the other, are from and to."""
    done: list[Spoken] = []
    for one in found:
        last = done[-1] if done else None
        if (
            last is not None
            and last.unit
            and last.unit == one.unit
            and last.form == one.form == "value"
            and (last.high, one.high, last.spread, one.spread) == (None, None, None, None)
            and not (last.taken_back or one.taken_back)
            and not (last.more or one.more or last.lead or one.lead or one.per or last.per)
            and last.unit not in ("%", "part")
            and joined.text[last.end : one.start] in (", ", ", maybe ", ", perhaps ")
            and last.low < one.low <= (Fraction(3, 2) if one.lent or last.lent else Fraction(2)) * last.low
            and not _LISTED.match(joined.text, one.end)
            and (not one.lent or joined.text[one.end :].lstrip()[:1] in (",", ".", ";", ""))
        ):
            done[-1] = replace(last, high=one.low, end=one.end, lent=last.lent or one.lent)
        else:
            done.append(one)
    return done
