from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.texts.wanted import may_be_unread, words_of_steps
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.parsed_values import ID
from site_builder.notebook.model.small import After
from site_builder.notebook.nearest import nearest
from site_builder.notebook.references import Link, all_steps
from site_builder.notebook.slips import plain
from site_builder.notebook.vocabulary import Vocabulary


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
    text, owner, own = link.text, link.place.owner_id, link.place.procedure
    if not ID.match(text):  # an event, unless it is the title of a procedure
        return analysis.once("procedures called", lambda: _called(analysis)).get(plain(text), [])
    steps = analysis.once("steps called", lambda: _paths(analysis))
    if text in steps:
        return steps[text]
    there = analysis.once("words of procedures", lambda: Vocabulary(analysis.notebook.procedures))
    here = analysis.once(("words of steps", id(own)), lambda: words_of_steps(own))
    longer = [name for name in (*there.longer(text), *here.longer(text)) if name != owner]
    near = [name for name in (there.nearest(text), here.nearest(text)) if name and name != owner]
    return longer[:2] or [one for one in (nearest(text, near),) if one]


def _called(analysis: Analysis) -> Mapping[str, list[str]]:
    """Procedures by their plain id and by their plain title."""
    found: dict[str, list[str]] = defaultdict(list)
    for id_, one in analysis.notebook.procedures.items():
        for name in {plain(id_), plain(one.title)}:
            found[name].append(id_)
    return found


def _paths(analysis: Analysis) -> Mapping[str, list[str]]:
    """The paths of all steps by the id of the step."""
    found: dict[str, list[str]] = defaultdict(list)
    for id_, own in analysis.notebook.procedures.items():
        for step in all_steps(own):
            if step.id is not None:
                found[str(step.id)].append(f"{id_}/{step.id}")
    return found


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
