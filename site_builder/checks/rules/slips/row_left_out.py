from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.tables import Rows, every_rows
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for rows in every_rows(analysis):
        values = _values(analysis, rows)
        lacking = [value for value in values if value not in rows.names]
        if lacking and rows.by is not None and all(name in values for name in rows.names):
            listed = " and ".join(f"`{value}`" for value in lacking)
            yield Found(
                rows.names[0].at, f"The table has no row for {listed}.",
                f"Add `{lacking[0]}:` with its value, or `{lacking[0]}: ask`.", rows.place.owner_id,
            )


def _values(analysis: Analysis, rows: Rows) -> list[str]:
    """The values that the name of the table can have here; none where it is not declared, or only some are meant."""
    nb = analysis.notebook
    if rows.by is None or not rows.names:
        return []
    name = str(rows.by.name)
    for place in rows.place.up():
        if any(name in choice for choice in place.entry.for_):
            return []
    own = rows.place.procedure
    variants = {**(nb.shop.variants if nb.shop is not None else {}), **(own.variants if own is not None else {})}
    return next(([str(value) for value in v.values] for key, v in variants.items() if key == name), [])


RULE = Rule(
    code="row-left-out",
    level=Level.WARNING,
    summary="A table without a row for one of the variants.",
    reason="For the piece of that variant there is no value, and whoever stands there takes the nearest one.",
    passes="""\
=== procedures/shop.yml
shop: lanterns
title: Lanterns
variants: {pattern: [harbour, deck]}
parts: {foot: {title: Foot, sizes: {volume: {by: pattern, is: {harbour: 183 cm³, deck: 216 cm³}}}}}
""",
    fails="""\
=== procedures/shop.yml
shop: lanterns
title: Lanterns
variants: {pattern: [harbour, deck]}
parts: {foot: {title: Foot, sizes: {volume: {by: pattern, is: {▸harbour: 183 cm³}}}}}
""",
    check=check,
)
