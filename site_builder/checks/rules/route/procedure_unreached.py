from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import Revision
from site_builder.notebook.model.things import Thing
from site_builder.notebook.way import NO_PART, lane_of


def check(analysis: Analysis) -> Iterator[Found]:
    notebook, route = analysis.notebook, analysis.route
    if notebook.unread:  # what leads to it may be among what could not be read
        return
    alone = {id_: own for id_, own in notebook.procedures.items()
             if not route.before[id_] and not route.after[id_] and _has_a_place_in_a_row(analysis, own)}
    if not alone:
        return
    ordered = {lane_of(notebook, own) for id_, own in notebook.procedures.items()
               if route.before[id_] or route.after[id_]}
    joined = {lane_of(notebook, own) for own in notebook.procedures.values()}
    for id_, own in alone.items():
        part = lane_of(notebook, own)
        wholes = [whole for whole, entry in notebook.parts.items() if part in entry.of and whole in joined]
        if (part in ordered or wholes) and (part != NO_PART or not notebook.parts) and not _led_to(analysis, id_):
            behind = f"the {notebook.parts[wholes[0]].title.lower()}" if wholes else "the rest of the work"
            yield Found(
                own.title.at, f"“{own.title}” stands in no order: nothing comes before it and nothing after it.",
                f"Add `after:` with what comes before it, and `after: {id_}` to what follows on the way to {behind}; "
                "or `when:`, if it is done every so often.", id_,
            )


def _has_a_place_in_a_row(analysis: Analysis, own: Procedure) -> bool:
    """Not work that is done every so often, nor the making of a tool or a mix."""
    made = all(one in analysis.notebook.parts for one in own.makes)
    return made and own.when is None and "after" not in own.asked and "when" not in own.asked


def _led_to(analysis: Analysis, id_: str) -> bool:
    """Whether another page of the work sends the reader there."""
    return any(
        isinstance(link.place.owner, Procedure | Thing) and not isinstance(link.place.entry, Revision)
        for link in analysis.references.used_in("procedure", id_)
    )


RULE = Rule(
    code="procedure-unreached",
    level=Level.WARNING,
    summary="A procedure that no order of the work reaches.",
    reason="Whoever follows the pages from the first to the last never comes to it, and the piece leaves "
    "without that work.",
    passes="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
steps: Pour.
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
after: cast-foot
steps: Sweep it along the belt.
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
after: grind-foot
steps: Spray it.
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
steps: Pour.
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
after: cast-foot
steps: Sweep it along the belt.
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: ▸Paint the foot
steps: Spray it.
""",
    check=check,
)
