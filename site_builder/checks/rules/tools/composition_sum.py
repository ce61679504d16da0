from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.conditions import span
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.things import Material
from site_builder.quantity import Quantity, Value, bounds

_WHOLE = Fraction(1)
_ROUGH = Fraction(1, 10)
"""How far off `about` may be: a tenth of the figure. Common practice."""


def check(analysis: Analysis) -> Iterator[Found]:
    for material, place in analysis.index.of(Material):
        shares = [_share(share) for share in material.composition.values()]
        told = [share for share in shares if share is not None]
        if not told or len(told) < len(shares):
            continue
        least = sum((share.low for share in told), Fraction(0))
        most = sum((share.high for share in told), Fraction(0))
        play = sum((share.play for share in told), Fraction(0))
        if least <= _WHOLE <= most or least - play < _WHOLE < most + play:
            continue
        yield Found(
            next(iter(material.composition)).at,
            f"The parts of “{material.title}” add up to {_percent(least)} at least, and no more than 100 % can be."
            if least > _WHOLE else
            f"The parts of “{material.title}” add up to {_percent(most)} at most; of the rest nothing is told.",
            "Mend the shares, or mark what fills up to 100 % with the word `rest`.", place.owner_id,
        )


class _Share(NamedTuple):
    """From where to where a share reaches, and what it may be off besides: by rounding, or because it is rough."""

    low: Fraction
    high: Fraction
    play: Fraction


def _share(written: Written) -> _Share | None:
    """A share in per cent; None for another measure, a word, a doubt or a name."""
    figures = bounds(written.value)
    if written.value.perhaps or figures is None or figures.unit.symbol != "%":
        return None
    if figures.low_untold or figures.high_untold or figures.relative:
        return None
    low, high = span(figures)
    most = _WHOLE if high is None else high
    return _Share(low or Fraction(0), most, _ROUGH * most if figures.rough else _rounding(written.value))


def _rounding(value: Value) -> Fraction:
    """Half of the last digit of a bare figure."""
    what = value.what
    if not isinstance(what, Quantity) or len(what.parts) != 1:
        return Fraction(0)
    decimals = what.parts[0].number.text.partition(".")[2]
    return Fraction(1, 200 * 10 ** len(decimals))


def _percent(share: Fraction) -> str:
    return f"{float(share * 100):.4g} %"


RULE = Rule(
    code="composition-sum",
    level=Level.ERROR,
    summary="The parts of a material cannot add up to 100 %.",
    reason="Somebody mixes, buys or melts by these figures. If they do not add up, one of them is wrong, and "
    "nobody knows which.",
    passes="""\
=== tools/materials/brass-sheet.yml
material: brass-sheet
title: Brass sheet
composition: {copper: 62..64 %, lead: max 0.1 %, zinc: rest}
""",
    fails="""\
=== tools/materials/brass-sheet.yml
material: brass-sheet
title: Brass sheet
composition: {▸copper: 62..64 %, zinc: 39..41 %}
""",
    check=check,
)
