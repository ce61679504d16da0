from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.tree import Text
from site_builder.quantity import Cadence, had_phone_signs, show_cadence, show_value


def check(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, _ in analysis.index.values:
        if not leaf.text.isascii() and had_phone_signs(leaf.text):
            yield _found(leaf.text, show_value(leaf.value), place)
    for other, place, _ in analysis.index.leaves:
        if not other.text.isascii() and had_phone_signs(other.text):
            plain = show_cadence(other.value) if isinstance(other.value, Cadence) else ""
            yield _found(other.text, plain, place)


def _found(text: Text, plain: str, place: Place) -> Found:
    first = next(i for i, letter in enumerate(text) if not letter.isascii() and _is_sign(text, i))
    read = f" It is read as `{plain}`." if plain else ""
    fix = f"Write `{plain}`." if plain else "Type it with a plain `-`, `..`, `x` or a plain blank."
    return Found(text.at_letter(first), f"`{text}` holds a sign that only phones write.{read}", fix, place.owner_id)


def _is_sign(text: Text, at: int) -> bool:
    """Whether this letter is such a sign, given what follows up to the next letter beyond the plain ones."""
    rest = text[at + 1 :]
    end = next((i for i, letter in enumerate(rest) if not letter.isascii()), len(rest))
    return had_phone_signs(text[at] + (rest[:end] or "0"))


RULE = Rule(
    code="phone-sign",
    level=Level.WARNING,
    summary="A sign that a phone or a word processor put in place of a plain one.",
    reason=(
        "A long dash looks the same whether it is a minus or a range. It is read, but what is written "
        "plainly cannot be read wrongly."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
conditions: {room temperature: 12..30 °C}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
conditions: {room temperature: 12▸–30 °C}
""",
    check=check,
)
