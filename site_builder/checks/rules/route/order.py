"""Rules on the order of the work."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.orders import WHOLE, Order, orders
from site_builder.checks.rules.texts.wanted import may_be_unread, words_of_steps
from site_builder.notebook.circles import circles
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.parsed_values import ID
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import After, Revision
from site_builder.notebook.model.things import Thing
from site_builder.notebook.nearest import nearest
from site_builder.notebook.references import Link, all_steps
from site_builder.notebook.slips import plain
from site_builder.notebook.vocabulary import Vocabulary
from site_builder.notebook.way import NO_PART, lane_of


def order_circle(analysis: Analysis) -> Iterator[Found]:
    procedures = analysis.notebook.procedures
    told: dict[tuple[str, str], list[Order]] = defaultdict(list)
    for order in orders(analysis):
        told[order.later, order.earlier].append(order)
    selves = [(later,) for later, earlier in told if later == earlier]
    for circle in (*analysis.route.cycles, *selves):
        # each of them waits for the next, and the last for the first
        waits = [min(told[pair], key=_strictness) for pair in zip(circle, (*circle[1:], circle[0]), strict=True)]
        if not _closed(waits):
            continue
        titles = [f"“{procedures[id_].title}”" for id_ in (*circle, circle[0])]
        waiting = (
            f"{titles[0]} waits for itself" if len(circle) == 1
            else f"The order goes round in a circle: {', which waits for '.join(titles)}"
        )
        yield Found(
            waits[-1].link.at, f"{waiting}. None of it could ever begin.",
            "Say which of them is done first, and take the other out of its `after`.", circle[-1],
        )


def _strictness(order: Order) -> tuple[float, float]:
    """Of several waits for the same procedure the one first that waits at the earliest for the most of it."""
    return order.begins, -order.ends


def _closed(waits: Sequence[Order]) -> bool:
    """Whether every procedure is waited for at or behind the step with which it waits itself.

    Otherwise they go hand in hand: a late step of the one waits for the other, which began after an early
    step of the one. The steps of one procedure among themselves are looked at elsewhere.
    """
    if len(waits) == 1:
        return waits[0].begins == WHOLE
    return all(wait.begins <= waits[number - 1].ends for number, wait in enumerate(waits))


ORDER_CIRCLE = Rule(
    "order-circle", Level.ERROR, "Procedures that wait for each other in a circle.",
    "If the one must be done before the other and the other before the one, the piece never leaves the rack.",
    """\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the foot
✗ after: prime-foot
steps: Press the filler into the pits.
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
after: ▸fill-foot
steps: Spray the primer.
""", order_circle,
)


def after_unsure(analysis: Analysis) -> Iterator[Found]:
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


AFTER_UNSURE = Rule(
    "after-unsure", Level.WARNING, "What must be done before looks like the id of a procedure or a step, and is none.",
    "What is no id is taken for an event, told in words. Then no page leads from the one work to the next, and "
    "the order is lost.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
✓ after: [grind-foot, opening of the tin]
✗ after: [▸grind, opening of the tin]
steps: Press the filler in.
""", after_unsure,
)


def use_circle(analysis: Analysis) -> Iterator[Found]:
    procedures = analysis.notebook.procedures
    uses: dict[str, list[tuple[str, Link]]] = defaultdict(list)
    for link in analysis.references.links:
        if link.key == "use" and link.target is not None and link.place.procedure is not None:
            uses[link.place.owner_id].append((link.target.id, link))
    for circle in circles(uses):
        titles = [f"“{procedures[link.place.owner_id].title}”" for link in (*circle, circle[0])]
        last = circle[-1]
        yield Found(
            last.at, f"These go round in a circle: {', which uses '.join(titles)}.",
            "Take the steps that both need into a procedure of their own, and let both `use` that one.",
            last.place.owner_id,
        )


USE_CIRCLE = Rule(
    "use-circle", Level.ERROR, "Procedures that contain each other.",
    "A shared procedure stands in the place of a step. If it holds the very page that holds it, the page would "
    "have no end.",
    """\
=== procedures/shared/dress-the-belt.yml
procedure: dress-the-belt
title: Dress the belt
✓ steps: Hold the rubber block across it.
✗ steps:
✗   - do: Hold the rubber block across it.
✗   - use: ▸grind-foot
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - use: dress-the-belt
  - do: Sweep it along the belt.
""", use_circle,
)


def procedure_unreached(analysis: Analysis) -> Iterator[Found]:
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


PROCEDURE_UNREACHED = Rule(
    "procedure-unreached", Level.WARNING, "A procedure that no order of the work reaches.",
    "Whoever follows the pages from the first to the last never comes to it, and the piece leaves without that work.",
    """\
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
✓ after: grind-foot
steps: Spray it.
""", procedure_unreached,
)
