"""Rules on where figures come from."""

from __future__ import annotations

import re
from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import ID
from site_builder.notebook.model.things import Material
from site_builder.notebook.nearest import did_you_mean
from site_builder.notebook.told_by import teller_of
from site_builder.notebook.vocabulary import Titled, Vocabulary

_WORDS = frozenset({"memory", "measured", "maker"})
_TELLER = re.compile(r"\S+(?: \S+)?")
"""Share of equal letters from which one id counts as a slip of the pen for the other (common practice)."""


def source_unknown(analysis: Analysis) -> Iterator[Found]:
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


SOURCE_UNKNOWN = Rule(
    "source-unknown", Level.WARNING, "A source that looks like an id but is none.",
    "Whoever wants to look the value up finds neither the book nor the person.",
    """\
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
✓       flatness: {is: max 0.1 mm, source: plating-report page 3}
✓       height: {is: 32 ±0.2 mm, source: the drawing on the wall}
✗       flatness: {is: max 0.1 mm, source: ▸plating-raport page 3}
✗       height: {is: 32 ±0.2 mm, source: ▸drawing-7}
""", source_unknown,
)


def source_memory(analysis: Analysis) -> Iterator[Found]:
    for spot in analysis.index.plain:
        if spot.key != "source" or spot.text.split()[:1] != ["memory"]:
            continue
        entry = spot.place.entry
        if isinstance(entry, (Limit, Hazard)):
            what = entry.hazard if isinstance(entry, Hazard) else spot.place.name or "This value"
            yield Found(
                spot.text.at, f"“{what}” rests on memory alone.",
                "Measure it, look it up, or ask who told it, and write that as the `source`.",
                spot.place.owner_id,
            )


SOURCE_MEMORY = Rule(
    "source-memory", Level.WARNING, "A limit or a hazard known from memory alone.",
    "Work is accepted or thrown away by a limit, and people are warned by a hazard: somebody should have looked "
    "it up.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits:
✓       flatness: {is: max 0.1 mm, source: measured}
✗       flatness: {is: max 0.1 mm, source: ▸memory}
""", source_memory,
)


YEARS = 5
"""A data sheet has no date of expiry in law; asking the supplier anew after five years is common practice."""


def sheet_old(analysis: Analysis) -> Iterator[Found]:
    today = analysis.today
    oldest = (today.year - YEARS, today.month, today.day)
    for material, place in analysis.index.of(Material):
        sheet = material.sheet
        if sheet is None or "date" in sheet.asked:
            continue
        fix = "Ask the supplier for the sheet of today and write its date."
        if sheet.date is None:
            message = f"The safety data sheet of “{material.title}” has no date."
            yield Found(sheet.at, message, fix, place.owner_id)
            continue
        last = sheet.date.value.last
        if (last.year, last.month, last.day) < oldest:
            yield Found(
                sheet.date.at, f"The safety data sheet of “{material.title}” is older than {YEARS} years.",
                fix, place.owner_id,
            )


SHEET_OLD = Rule(
    "sheet-old", Level.WARNING, "A safety data sheet without a date, or an old one.",
    "The sheet outranks the notebook, and what is known of a substance changes.",
    """\
✗ === tools/materials/primer.yml
✗ material: primer
✗ title: Grey primer
✗ sheet: ▸Safety data sheet of the primer
=== tools/materials/white-spirit.yml
material: white-spirit
title: White spirit
✓ sheet: {title: Safety data sheet of white spirit, date: 2025-01-15}
✗ sheet: {title: Safety data sheet of white spirit, date: ▸2019-01-15}
""", sheet_old,
)
