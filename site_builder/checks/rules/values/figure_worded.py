from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.kinds import OF_KEY, OF_LIMIT, in_words
from site_builder.checks.rules.values.wording import key_of
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.quantity import Word


def check(analysis: Analysis) -> Iterator[Found]:
    led = {naming.at for naming in reckoning(analysis).namings if naming.hits}
    for leaf, place, key in analysis.index.values:
        if not isinstance(leaf.value.what, Word) or leaf.at in led:
            continue
        if (type(place.entry).__name__, key) == ("Loop", "times"):
            yield Found(
                leaf.at, f"`{leaf}` is no number of times.",
                f"If it ends the round, write `{{until: {leaf}}}`; beside it `times: about 2; max 5`.", place.owner_id,
            )
            continue
        wanted = _wanted(place, key)
        if wanted:
            yield Found(
                leaf.at, f"`{leaf}` is a word; under `{key_of(place, key)}` belongs {in_words(wanted)}.",
                "Write a figure, with `about` or `perhaps` before it if it is not sure; the word goes under `note`.",
                place.owner_id,
            )


def _wanted(place: Place, key: str) -> tuple[str, ...]:
    """What kind of figure must stand here; nothing where a word may do."""
    if not isinstance(place.entry, Limit):
        return OF_KEY.get((type(place.entry).__name__, key), ())
    named = key_of(place, key)
    # What goes in at once may be told in words: a tray, a full rack.
    return OF_LIMIT.get(named, ()) if key == "is_" and named != "load" else ()


RULE = Rule(
    code="figure-worded",
    level=Level.WARNING,
    summary="A word where only a figure can be reckoned with.",
    reason=(
        "Everybody in the shop knows today how long `overnight` is. No plan can add it up, no skill goes stale "
        "by it, and the next one will take it for eight hours, or for twenty."
    ),
    passes="""\
=== skills/filing.yml
skill: filing
title: Filing
refresh: {is: 12 mo, note: Before the season.}
""",
    fails="""\
=== skills/filing.yml
skill: filing
title: Filing
refresh: ▸yearly
""",
    check=check,
)
