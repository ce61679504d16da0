"""Rules on when a step ends."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.known_names import TIME
from site_builder.checks.rule import Rule
from site_builder.notebook.conditions import figures
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import End, Loop
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Step
from site_builder.quantity import NotationError, Word, bounds, parse_value, references


def loop_endless(analysis: Analysis) -> Iterator[Found]:
    for loop, place in analysis.index.of(Loop):
        if loop.until or not loop.asked.isdisjoint({"until", "times"}) or (loop.times and not _is_open(loop.times)):
            continue
        yield Found(
            loop.times.at if loop.times else loop.at, "Nothing says when it has gone round often enough.",
            "Add `until:` with the sign that it is done, and `times:` with the most, as `about 2; max 5`.",
            place.owner_id,
        )


def _is_open(times: Written) -> bool:
    """Whether a count has figures, and none at its upper side."""
    found = bounds(times.value)
    if found is None or references(times.value):
        return False
    return found.high is None and found.aim_high is None and not found.high_untold


LOOP_ENDLESS = Rule(
    "loop-endless", Level.WARNING, "A loop with no end.",
    "Who is told to do it again and not until when goes on until the piece is thin, or stops when the arm is tired.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     repeat: {until: It does not rock., times: min 2}
✗     repeat: {times: ▸min 2}
""", loop_endless,
)


_ANY = ("first", "last")


def wins_none(analysis: Analysis) -> Iterator[Found]:
    for end, place in analysis.index.of(End):
        if end.wins is None or end.wins in _ANY or end.wins in end.asked or end.wins in end.ways():
            continue
        told = end.ways()
        instead = " or ".join(f"`{one}`" for one in told)
        yield Found(
            end.wins.at, f"`{end.wins}` decides here, but no `{end.wins}` is told.",
            f"Add `{end.wins}:`" + (f", or write {instead}." if told else "."), place.owner_id,
        )


WINS_NONE = Rule(
    "wins-none", Level.ERROR, "What decides that it is done is not told.",
    "Where several signs end a step, `wins` names the one to be trusted. If that one is missing, the reader "
    "trusts another.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     until: {clock: about 2 min, sign: The casting skin is gone., wins: sign}
✗     until: {clock: about 2 min, sign: The casting skin is gone., wins: ▸feel}
""", wins_none,
)


_OF_THE_PIECE = ("material", "part", "product", "size", "season")
"""Known dimensions with which heating, drying and setting go faster or slower."""


def clock_alone(analysis: Analysis) -> Iterator[Found]:
    for end, place in analysis.index.of(End):
        step = place.parent.entry if place.parent is not None else None
        if place.key != "until" or not isinstance(step, Step) or end.ways() != ("clock",) or end.asked:
            continue
        if end.for_ or not all(_is_fixed(limit) for limit in end.clock) or len(step.until) > 1:
            continue
        varying = _varying(step)
        if varying is not None:
            name, by = varying
            yield Found(
                end.clock[0].at, f"The clock alone ends this step, always at the same figure, though “{name}” goes by "
                f"the {by}.",
                "Add what is seen or felt when it is done, and what decides (`sign: …`, `wins: sign`); or give the "
                f"clock a table, `by: {by}`.", place.owner_id,
            )


def _is_fixed(limit: Limit) -> bool:
    """A figure that holds in every case, leaning on no other value."""
    if limit.written is None or limit.by or limit.given or limit.follows or limit.for_:
        return False
    return not references(limit.written.value) and not isinstance(limit.written.value.what, Word)


def _varying(step: Step) -> tuple[str, str] | None:
    """A value of the same step and what it goes by: the material, the season, a figure such as the heat of the room."""
    for name, limit in _of_the_work(step):
        if limit.follows:
            return name, limit.follows[0].value.name
        if isinstance(limit.is_, Table) and limit.by:
            by = str(limit.by[0].name)
            if by in _OF_THE_PIECE or all(figures(row) is not None for row in limit.is_.rows):
                return name, by
    return None


def _of_the_work(step: Step) -> Iterator[tuple[str, Limit]]:
    for named in (step.settings, step.windows):
        for name, limits in named.items():
            yield from ((str(name), limit) for limit in limits)
    yield from (("wait", limit) for limit in step.wait)


CLOCK_ALONE = Rule(
    "clock-alone", Level.WARNING, "A step that ends by the clock alone, on a thing that varies.",
    "A clock does not know that the room was cold or the metal another. What is seen or felt does.",
    """\
=== procedures/shared/mix-the-filler.yml
procedure: mix-the-filler
title: Mix the filler
steps:
  - do: Fold the hardener in.
    settings:
      hardener:
        by: room temperature
        is: {12..18 °C: 3 %, 18..24 °C: 2 %}
✓     until: {clock: min 45 s, sign: One colour without a stripe., wins: last}
✗     until: {clock: ▸min 45 s}
""", clock_alone,
)


def clock_as_sign(analysis: Analysis) -> Iterator[Found]:
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


CLOCK_AS_SIGN = Rule(
    "clock-as-sign", Level.WARNING, "An end that is written as a sign and is only a time.",
    "A text under `until` is what is seen, heard or smelt when the work is done. A time there is no clock: "
    "nothing adds it up, and nobody asks by what else one knows.",
    """\
=== procedures/wash-wick.yml
procedure: wash-wick
title: Wash the wick
steps:
  - do: Boil it.
✓     until: {clock: min 10 min, sign: The water stays clear., wins: last}
✗     until: ▸min 10 min
""", clock_as_sign,
)
