from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.names import all_names, words_of_values
from site_builder.checks.rules.values.tables import every_rows, is_dimension, measured, variants_at
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.names import KNOWN_DIMENSIONS
from site_builder.notebook.nearest import slip_of


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="by-unknown",
    level=Level.ERROR,
    summary="A table is read by a name that nothing has.",
    reason=(
        "Whoever looks into the table must know what to look at. A name that stands nowhere else is a "
        "slip of the pen."
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
    by: ▸patern
    is:
      harbour: about 2 s
      deck: about 1 s
""",
    check=check,
)
