from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.things import untold
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Material


def check(analysis: Analysis) -> Iterator[Found]:
    for material, id_ in untold(analysis, (Material,), "hazards"):
        groups = analysis.notebook.groups.get(id_, ())
        if material.sheet is not None and not any(analysis.notebook.things[one].hazards for one in groups):
            yield Found(
                material.title.at, f"What does the sheet say that “{material.title}” can do to you?",
                "Add `hazards:` with what the sheet names; `hazards: []` if it names nothing.", id_,
            )


RULE = Rule(
    code="harm-unlisted",
    level=Level.QUESTION,
    summary="A material with a safety data sheet, and no hazard.",
    reason="Who has a sheet for it has it because something can hurt. On the page it goes along to every "
    "step that uses it.",
    passes="""\
=== tools/materials/compound.yml
material: compound
title: White compound
sheet: {title: Safety data sheet, date: 2024-03-19}
hazards: {hazard: fine dust, word: caution, avoid: Extraction on.}
""",
    fails="""\
=== tools/materials/compound.yml
material: compound
title: ▸White compound
sheet: {title: Safety data sheet, date: 2024-03-19}
""",
    check=check,
)
