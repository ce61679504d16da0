from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.names import path_of
from site_builder.checks.rules.values.wording import thing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.names import NamedValue
from site_builder.quantity import Ask, Some


def check(analysis: Analysis) -> Iterator[Found]:
    for naming in reckoning(analysis).namings:
        if len(naming.hits) == 1 and not naming.whole and is_untold(naming.hits[0]):
            yield Found(
                naming.at, f"How much is `{naming.name}`? {_capital(thing(naming.place))} hangs on it.",
                f"Write the figure at `{path_of(naming.hits[0])}`.", naming.place.owner_id,
            )


def is_untold(named: NamedValue) -> bool:
    """Whether no variant of the value tells anything."""
    cells = [cell for limit in named.limits for _, cell in limit.cells()]
    return bool(cells) and all(
        cell.written is not None and isinstance(cell.written.value.what, Ask | Some) for cell in cells
    )


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]


RULE = Rule(
    code="size-asked",
    level=Level.QUESTION,
    summary="A limit leans on a value that is not told yet.",
    reason=(
        "Until the other value is told, this one cannot be reckoned either, and nobody can check it."
    ),
    passes="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - do: Press the filler in.
    limits: {depth of the pit: max 2 mm}
    settings: {one layer: 'max 1/2 of [depth of the pit]'}
""",
    fails="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - do: Press the filler in.
    limits: {depth of the pit: ask}
    settings: {one layer: 'max 1/2 of [▸depth of the pit]'}
""",
    check=check,
)
