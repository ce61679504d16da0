from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.known_names import TIME
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import End
from site_builder.quantity import NotationError, Word, bounds, parse_value


def check(analysis: Analysis) -> Iterator[Found]:
    for end, place in analysis.index.of(End):
        if end.sign is not None and _is_time(end.sign):
            yield Found(
                end.sign.at, f"`{end.sign}` stands here as something that is seen, and it is a time.",
                f"For a clock write `{{clock: {end.sign}}}`; better still with what is seen or felt by then.",
                place.owner_id,
            )


def _is_time(text: str) -> bool:
    try:
        value = parse_value(text)
    except NotationError:
        return False
    if isinstance(value.what, Word):
        return False
    found = bounds(value)
    return found is not None and found.kind in TIME


RULE = Rule(
    code="clock-as-sign",
    level=Level.WARNING,
    summary="An end that is written as a sign and is only a time.",
    reason=(
        "A text under `until` is what is seen, heard or smelt when the work is done. A time there is no clock: nothing "
        "adds it up, and nobody asks by what else one knows."
    ),
    passes="""\
=== procedures/wash-wick.yml
procedure: wash-wick
title: Wash the wick
steps:
  - do: Boil it.
    until: {clock: min 10 min, sign: The water stays clear., wins: last}
""",
    fails="""\
=== procedures/wash-wick.yml
procedure: wash-wick
title: Wash the wick
steps:
  - do: Boil it.
    until: ▸min 10 min
""",
    check=check,
)
