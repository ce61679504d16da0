from __future__ import annotations

import difflib
import re
from collections.abc import Iterator

from site_builder.checks.rule import Rule
from site_builder.checks.survey import Survey
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.leaves import ID

_WORDS = frozenset({"memory", "measured", "maker"})
_TOLD_BY = re.compile(r"told by ([a-z][a-z0-9-]*)$")
_LIKE = 0.8
"""Share of equal letters from which one id counts as a slip of the pen for the other (common practice)."""


def check(survey: Survey) -> Iterator[Found]:
    notebook = survey.notebook
    sources = set(map(str, notebook.shop.sources)) if notebook.shop is not None else set()
    shop_read, people_read = "shop" not in notebook.unread, "people" not in notebook.unread
    sound: set[str] = set()
    for spot in survey.index.plain:
        if spot.key != "source" or spot.text in sound:
            continue
        text, about = spot.text, spot.place.owner_id
        teller = _TOLD_BY.match(text)
        if teller is not None and people_read and notebook.people and teller[1] not in notebook.people:
            yield Found(
                text.at, f"Nobody in `skills/people.yml` has the id `{teller[1]}`.",
                "Write the id of a person; somebody from outside takes several words: `told by the plater`.",
                about,
            )
        elif shop_read and teller is None and not (words := set(text.split())) & _WORDS and words:
            first = text.split()[0]
            slip = difflib.get_close_matches(first, sources, 1, _LIKE) if "-" in first else []
            if first not in sources and (ID.match(text) or slip):
                yield Found(
                    text.at, f"`{first}` looks like the id of a source, but the shop has no such source.",
                    f"Write `{slip[0]}`." if slip else
                    "Add it under `sources` in `procedures/shop.yml`, or write in words where it comes from.",
                    about,
                )
            else:
                sound.add(text)
        else:
            sound.add(text)


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
