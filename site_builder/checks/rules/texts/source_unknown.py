from __future__ import annotations

import re
from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.parsed_values import ID
from site_builder.notebook.nearest import did_you_mean
from site_builder.notebook.told_by import teller_of
from site_builder.notebook.vocabulary import Titled, Vocabulary

_WORDS = frozenset({"memory", "measured", "maker"})
_TELLER = re.compile(r"\S+(?: \S+)?")
"""Share of equal letters from which one id counts as a slip of the pen for the other (common practice)."""


def check(analysis: Analysis) -> Iterator[Found]:
    judged: dict[str, tuple[str, str] | None] = {}
    for spot in analysis.index.plain:
        if spot.key == "source":
            text = str(spot.text)
            if text not in judged:
                judged[text] = _person_doubted(analysis, text) or _id_doubted(analysis, text)
            doubt = judged[text]
            if doubt is not None:
                yield Found(spot.text.at, *doubt, spot.place.owner_id)


def _person_doubted(analysis: Analysis, text: str) -> tuple[str, str] | None:
    """Message and mend for `told by` somebody who is not of the shop."""
    teller = teller_of(text)[0]
    told = _TELLER.fullmatch(teller)
    people = analysis.notebook.people
    if told is None or told[0] in people or not people or "people" in analysis.notebook.unread:
        return None
    near = analysis.once("people called", lambda: Titled(
        {id_: str(person.name) for id_, person in people.items()})).nearest(told[0])
    if not ID.match(told[0]) and (not near or told[0].startswith("the ")):
        return None
    return f"Nobody in `skills/people.yml` has the id `{told[0]}`.", (
        f"{did_you_mean(near and f'told by {near}')}Write the id of a person; somebody from outside takes several "
        "words: `told by the plater`."
    )


def _id_doubted(analysis: Analysis, text: str) -> tuple[str, str] | None:
    """Message and mend for what looks like the id of a source; more words may follow an id, such as a page."""
    shop = analysis.notebook.shop
    sources = shop.sources if shop is not None else {}
    first = text.split()[0] if text.split() else ""
    if first in sources or first in _WORDS or "shop" in analysis.notebook.unread:
        return None
    slip = analysis.once("words of sources", lambda: Vocabulary(sources)).nearest(first) if "-" in first else ""
    if not slip and not ID.match(text):
        return None
    return f"`{first}` looks like the id of a source, but the shop has no such source.", (
        f"Did you mean `{slip}`?" if slip
        else "Add it under `sources` in `procedures/shop.yml`, or write in words where it comes from."
    )


RULE = Rule(
    code="source-unknown",
    level=Level.WARNING,
    summary="A source that looks like an id but is none.",
    reason="Whoever wants to look the value up finds neither the book nor the person.",
    passes="""\
=== procedures/shop.yml
shop: harbour-lamps
title: Harbour lamps
sources: {plating-report: Thickness of the plating}
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits:
      flatness: {is: max 0.1 mm, source: plating-report page 3}
      height: {is: 32 ±0.2 mm, source: the drawing on the wall}
""",
    fails="""\
=== procedures/shop.yml
shop: harbour-lamps
title: Harbour lamps
sources: {plating-report: Thickness of the plating}
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits:
      flatness: {is: max 0.1 mm, source: ▸plating-raport page 3}
      height: {is: 32 ±0.2 mm, source: ▸drawing-7}
""",
    check=check,
)
