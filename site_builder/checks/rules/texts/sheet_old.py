from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Material

YEARS = 5
"""A data sheet has no date of expiry in law; asking the supplier anew after five years is common practice."""


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="sheet-old",
    level=Level.WARNING,
    summary="A safety data sheet without a date, or an old one.",
    reason="The sheet outranks the notebook, and what is known of a substance changes.",
    passes="""\
=== tools/materials/white-spirit.yml
material: white-spirit
title: White spirit
sheet: {title: Safety data sheet of white spirit, date: 2025-01-15}
""",
    fails="""\
=== tools/materials/primer.yml
material: primer
title: Grey primer
sheet: ▸Safety data sheet of the primer
=== tools/materials/white-spirit.yml
material: white-spirit
title: White spirit
sheet: {title: Safety data sheet of white spirit, date: ▸2019-01-15}
""",
    check=check,
)
