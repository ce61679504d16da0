from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.tables import (
    Rows,
    every_rows,
    is_dimension,
    measured,
    values_of_dimension,
    variants_at,
)
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.nearest import did_you_mean
from site_builder.notebook.vocabulary import Vocabulary
from site_builder.quantity import NotationError, parse_value, same_dimensions


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="row-not-a-variant",
    level=Level.ERROR,
    summary="A row of a table that is none of the values it is read by.",
    reason=(
        "Nobody will ever read that row, and for the value it was meant for the table says nothing."
    ),
    passes="""\
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
      deck: about 1 s
""",
    fails="""\
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
      ▸dekc: about 1 s
""",
    check=check,
)
