from __future__ import annotations

import re
from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.nearest import slip_of
from site_builder.quantity import NotationError, Word, parse_value

_LEADS = ("aim", "about", "min", "max", "over", "under", "perhaps")
_LED = re.compile(r"([^\W\d_]{3,7}) (-?\d.*)")


def check(analysis: Analysis) -> Iterator[Found]:
    nouns = frozenset(word.lower() for word in analysis.notebook.words)
    for leaf, place, _ in analysis.index.values:
        led = _LED.fullmatch(leaf.text) if isinstance(leaf.value.what, Word) else None
        lead = slip_of(led[1], _LEADS) if led is not None else ""
        if led is not None and lead and _reads(f"{lead} {led[2]}", nouns):
            yield Found(
                leaf.at, f"`{leaf}` is read as a word, not as a figure: `{led[1]}` is a slip away from `{lead}`.",
                f"Write `{lead} {led[2]}`.", place.owner_id,
            )


def _reads(text: str, nouns: frozenset[str]) -> bool:
    try:
        return not isinstance(parse_value(text, nouns).what, Word)
    except NotationError:
        return False


RULE = Rule(
    code="lead-near",
    level=Level.WARNING,
    summary="A figure whose first word is a slip away from `min`, `max` or `about`.",
    reason="With the slip in it the whole is a word, and nothing is measured against a word.",
    passes="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - {do: Let it harden., until: {clock: about 30 min}, settings: {grit: P 80}}
""",
    fails="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - {do: Let it harden., until: {clock: ▸abuot 30 min}}
""",
    check=check,
)
