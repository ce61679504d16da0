from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.texts.wanted import may_be_unread
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.parsed_values import ID
from site_builder.notebook.model.small import After
from site_builder.notebook.nearest import nearest, plain
from site_builder.notebook.references import Link, all_steps


def check(analysis: Analysis) -> Iterator[Found]:
    for link in analysis.references.links:
        if link.target is None and link.key == "done" and isinstance(link.place.entry, After):
            near = [] if may_be_unread(analysis, link.text, ("procedure",)) else _near(analysis, link)
            if near or (ID.match(link.text) and "-" in link.text and not may_be_unread(
                analysis, link.text, ("procedure",)
            )):
                meant = f"Did you mean {' or '.join(f'`{one}`' for one in near)}? " if near else ""
                yield Found(
                    link.at, f"`{link.text}` is no procedure and no step of this one, so it is taken for an event.",
                    f"{meant}An event is told in words, as `opening of the tin`.", link.place.owner_id,
                )


def _near(analysis: Analysis, link: Link) -> list[str]:
    """Steps of other procedures that are called so, with their paths; else the procedures and steps that look alike."""
    procedures = analysis.notebook.procedures
    if not ID.match(link.text):  # an event, unless it is the title of a procedure
        return [id_ for id_, one in procedures.items() if plain(link.text) in (plain(id_), plain(one.title))]
    called = [
        f"{id_}/{step.id}" for id_, own in procedures.items() for step in all_steps(own) if step.id == link.text
    ]
    own = link.place.procedure
    here = [str(step.id) for step in all_steps(own) if step.id is not None] if own is not None else []
    known = [name for name in (*procedures, *here) if name != link.place.owner_id]
    longer = [name for name in known if name.startswith(f"{link.text}-") or name.endswith(f"-{link.text}")]
    return called or longer[:2] or [near for near in (nearest(link.text, known),) if near]


RULE = Rule(
    code="after-unsure",
    level=Level.WARNING,
    summary="What must be done before looks like the id of a procedure or a step, and is none.",
    reason=(
        "What is no id is taken for an event, told in words. Then no page leads from the one work to the next, "
        "and the order is lost."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
after: [grind-foot, opening of the tin]
steps: Press the filler in.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
after: [▸grind, opening of the tin]
steps: Press the filler in.
""",
    check=check,
)
