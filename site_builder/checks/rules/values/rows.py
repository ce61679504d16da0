"""Rules on the rows of a table and on what a value goes by."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import pairwise

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.names import all_names, words_of_values
from site_builder.checks.rules.values.tables import (
    Rows,
    every_rows,
    is_dimension,
    measured,
    values_of_dimension,
    variants_at,
)
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit, Saying, Window
from site_builder.notebook.names import KNOWN_DIMENSIONS
from site_builder.notebook.nearest import did_you_mean, slip_of
from site_builder.notebook.vocabulary import Vocabulary
from site_builder.quantity import Bounds, NotationError, parse_value, same_dimensions, same_kind, unit_of_value


def said_kinds(analysis: Analysis) -> Iterator[Found]:
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            if not limit.said:
                continue
            answers = [one for one in (limit.written, *(said.written for said in limit.said)) if one is not None]
            told = [one for one in answers if unit_of_value(one.value) is not None]
            for answer in told[1:]:
                if not same_kind(told[0].value, answer.value):
                    yield Found(
                        answer.at, f"`{answer}` cannot be compared with `{told[0]}`.",
                        "Ask again what was meant, and write both in units of one kind.", place.owner_id,
                    )


SAID_KINDS = Rule(
    "said-kinds", Level.ERROR, "Answers to one question in units that cannot be compared.",
    "A count of strokes and a time cannot both be the answer; one of the two was asked something else.",
    """\
=== procedures/hood/spin-hood.yml
procedure: spin-hood
title: Spin the hood over the chuck
steps: Lay the brass down.
settings:
  strokes before annealing:
    said:
      - {is: about 20 strokes, who: edda}
✓       - {is: about 30 strokes, who: josk}
✗       - {is: ▸about 3 min, who: josk}
=== skills/people.yml
people:
  edda: {name: Edda}
  josk: {name: Josk}
""", said_kinds,
)


def table_overlap(analysis: Analysis) -> Iterator[Found]:
    for rows in every_rows(analysis):
        for before, row in pairwise(measured(analysis, rows)):
            if same_dimensions(before.found.unit, row.found.unit) and _overlap(before.found, row.found):
                yield Found(
                    row.text.at, f"`{row.text}` and `{before.text}` hold for the same figures.",
                    "Let one row begin where the other ends.", rows.place.owner_id,
                )


def _overlap(before: Bounds, after: Bounds) -> bool:
    """Whether more than an end is shared. A row that is one figure alone may not stand within another."""
    if before.high is None or after.low is None:
        return True
    return after.low < before.high or (before.low, before.high) == (after.low, after.high)


TABLE_OVERLAP = Rule(
    "table-overlap", Level.ERROR, "Two rows of a table hold for the same figure.",
    "At 20 °C two rows would be right, and the page cannot say which. Only the end of a row may be shared.",
    """\
=== procedures/shared/mix-the-filler.yml
procedure: mix-the-filler
title: Mix the filler
steps: Weigh the hardener in.
conditions: {room temperature: 12..30 °C}
settings:
  hardener:
    by: room temperature
    is:
✓       12..18 °C: 3 %
✗       12..20 °C: 3 %
      ▸18..24 °C: 2 %
""", table_overlap,
)


def row_not_a_variant(analysis: Analysis) -> Iterator[Found]:
    unread = analysis.notebook.unread
    for rows in every_rows(analysis):
        if rows.by is None:
            continue
        name = str(rows.by.name)
        declared = variants_at(analysis, rows.place).get(name)
        known = values_of_dimension(analysis, name) if declared is None else frozenset(declared)
        if known:
            words = analysis.once(("values of", name, known), partial(Vocabulary, known))
            for row in rows.names:
                if row not in known and not (declared is None and unread):
                    yield Found(
                        row.at, f"`{row}` is none of the values of `{name}`.",
                        f"{did_you_mean(words.nearest(row))}Write one of the values of `{name}`, or add it to "
                        "them.",
                        rows.place.owner_id,
                    )
        elif declared is None and not is_dimension(name):
            yield from _words_among_figures(analysis, rows)


def _words_among_figures(analysis: Analysis, rows: Rows) -> Iterator[Found]:
    """Of a measured name: rows that are no figures, or of another kind, where others are."""
    told = measured(analysis, rows)
    units = {row.text: row.found.unit for row in told}
    first = next((row for row in rows.names if row in units), None)
    for row in rows.names:
        if first is not None and (row not in units or not same_dimensions(units[first], units[row])):
            problem = _unread(row)
            yield Found(
                row.at, f"`{row}` cannot be held against a figure as `{first}` can."
                + (f" {problem.message}" if problem is not None else ""),
                f"Write `{problem.fix}`." if problem is not None and problem.fix
                else f"Write a range in the same unit, as `{first}`.", rows.place.owner_id,
            )


def _unread(row: str) -> NotationError | None:
    """Why a row is no value, where it is none."""
    try:
        parse_value(row)
    except NotationError as problem:
        if problem.fix:
            problem.fix = f"{row[:problem.start]}{problem.fix}{row[problem.end:]}"
        return problem
    return None


ROW_NOT_A_VARIANT = Rule(
    "row-not-a-variant", Level.ERROR, "A row of a table that is none of the values it is read by.",
    "Nobody will ever read that row, and for the value it was meant for the table says nothing.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
variants: {pattern: {values: [harbour, deck]}}
steps: Sweep it along the belt.
settings:
  time of one pass:
    by: pattern
    is:
      harbour: about 2 s
✓       deck: about 1 s
✗       ▸dekc: about 1 s
""", row_not_a_variant,
)


def by_unknown(analysis: Analysis) -> Iterator[Found]:
    names: frozenset[str] | None = None
    for rows in every_rows(analysis):
        if rows.by is None:
            yield Found(
                rows.place.at, "This table does not say by what it is read.",
                "Add `by:` with the variant or the measured name that the rows are values of.",
                rows.place.owner_id,
            )
            continue
        name = str(rows.by.name)
        if is_dimension(name) or analysis.references.values(name, rows.place):
            continue
        if names is None:
            names = frozenset(all_names(analysis))
        if name in names or name in variants_at(analysis, rows.place):
            continue
        here = slip_of(name, (*variants_at(analysis, rows.place), *KNOWN_DIMENSIONS))
        near = slip_of(name, [one for one in (words_of_values(analysis).slip_of(name), here) if one])
        # A measured name needs no entry of its own; only one that looks like a slip is told.
        if near or not measured(analysis, rows):
            yield Found(
                rows.by.name.at, f"Nothing is called `{name}`.",
                f"Did you mean `{near}`?" if near else f"Add `{name}` under `variants` with its values, "
                "or under `conditions` if it is measured.", rows.place.owner_id,
            )


BY_UNKNOWN = Rule(
    "by-unknown", Level.ERROR, "A table is read by a name that nothing has.",
    "Whoever looks into the table must know what to look at. A name that stands nowhere else is a slip of the pen.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
variants: {pattern: {values: [harbour, deck]}}
steps: Sweep it along the belt.
settings:
  time of one pass:
✓     by: pattern
✗     by: ▸patern
    is:
      harbour: about 2 s
      deck: about 1 s
""", by_unknown,
)


def follows_without_given(analysis: Analysis) -> Iterator[Found]:
    for kind in (Limit, Window, Saying):
        for limit, place in analysis.index.of(kind):
            for trend in limit.follows:
                name = trend.value.name
                if trend.value.per is not None and name not in limit.given:
                    yield Found(
                        trend.at, f"Nothing says at which {name} the value holds, so nothing can be reckoned from it.",
                        f"Add `given:` with `{name}` and the figure at which it holds.", place.owner_id,
                    )


FOLLOWS_WITHOUT_GIVEN = Rule(
    "follows-without-given", Level.ERROR, "A trend with a figure, and nothing to begin from.",
    "“A minute less for every 4 °C” says nothing until one knows at how many degrees the five minutes hold.",
    """\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties:
  pot life:
    is: about 5 min
✓     given: {room temperature: 20 °C}
    follows: ▸falls 1 min per 4 °C of room temperature
""", follows_without_given,
)
