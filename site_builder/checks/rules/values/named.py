"""Rules on values that name other values."""

from __future__ import annotations

import re
from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.crossed import crossed, is_time_between
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.names import nearest_name, path_of
from site_builder.checks.rules.values.tables import is_dimension
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.small import MaterialUse
from site_builder.notebook.names import NamedValue
from site_builder.notebook.reckoning import Naming
from site_builder.notebook.references import step_of
from site_builder.notebook.shares import amounts_named
from site_builder.notebook.vocabulary import Vocabulary

# Grades of abrasives, threads and steels are names of their own: `max P120`.
_DESIGNATION = re.compile(r"[A-Z]{1,3}[0-9]\w*")
_HEADS = ("procedure", "part", "tool", "material")


def name_none(analysis: Analysis) -> Iterator[Found]:
    for naming in reckoning(analysis).namings:
        if naming.hits or _may_be_unread(analysis, naming.name):
            continue
        if naming.whole and not _is_path(analysis, naming):
            continue
        if not naming.whole and _DESIGNATION.fullmatch(naming.name):
            continue
        head, stroke, rest = naming.name.partition("/")
        meant = _head(analysis, head) if stroke else ""
        own = naming.place.procedure
        if own is not None and isinstance(naming.place.entry, MaterialUse):
            near = Vocabulary(sorted({one.name for one in amounts_named(analysis.notebook, own)})).nearest(naming.name)
            mend = f"Did you mean `{near}`?" if near else (
                "Write the name of a material that stands here with its amount, or a figure.")
        else:
            near = f"{meant}/{rest}" if meant else nearest_name(analysis, naming)
            mend = f"Did you mean `{near}`?" if near else (
                "Write the name as it stands under `limits`, `settings`, `properties` or `sizes`; "
                "a path as `thing/name`.")
        yield Found(naming.at, f"No value is called `{naming.name}`.", mend, naming.place.owner_id)


def _is_path(analysis: Analysis, naming: Naming) -> bool:
    """Whether a text that may be a plain word begins like a path: with a thing, a step, or what is in hand."""
    head, stroke, _ = naming.name.partition("/")
    own = naming.place.procedure
    return bool(stroke) and (
        bool(_head(analysis, head)) or is_dimension(head)
        or analysis.references.find(head, _HEADS) is not None or step_of(own, head) is not None
    )


def _head(analysis: Analysis, head: str) -> str:
    """The id that was meant by a head with a slip in it; empty where it leads somewhere, or nowhere near."""
    nb = analysis.notebook
    if " " in head or is_dimension(head) or analysis.references.find(head, _HEADS) is not None:
        return ""
    return analysis.once("heads of paths", lambda: Vocabulary((*nb.procedures, *nb.parts, *nb.things))).slip_of(head)


def _may_be_unread(analysis: Analysis, name: str) -> bool:
    unread = analysis.notebook.unread
    return bool(unread) and any(piece in unread for piece in ("shop", *name.split("/")))


NAME_NONE = Rule(
    "name-none", Level.ERROR, "A value leans on a name that nothing has.",
    "Half of nothing is no figure. Somebody renamed the other value, or the name is a slip of the pen.",
    """\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - do: Press the filler in.
    limits: {depth of the pit: max 2 mm}
✓     settings: {one layer: 'max 1/2 of [depth of the pit]'}
✗     settings: {one layer: max 1/2 of ▸depth of a pit}
""", name_none,
)


def reference_two(analysis: Analysis) -> Iterator[Found]:
    for naming in reckoning(analysis).namings:
        head = naming.name.partition("/")[0]
        # `material/pot life` is that of the material in hand, whichever it is.
        if len(naming.hits) < 2 or (head != naming.name and is_dimension(head)):
            continue
        paths = [path_of(hit) for hit in naming.hits]
        which = " and ".join(f"`{path}`" for path in paths[:2])
        yield Found(
            naming.at, f"`{naming.name}` may be {which}.", f"Write the path of the one that is meant: `{paths[0]}`.",
            naming.place.owner_id,
        )


REFERENCE_TWO = Rule(
    "reference-two", Level.ERROR, "A value leans on a name that two others have.",
    "Two values of one name stand equally near. The page cannot guess which of them is meant.",
    """\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - id: first
    do: Fill the deep ones.
    limits: {depth of the pit: 1..2 mm}
  - id: second
    do: Fill the flat ones.
    limits: {depth of the pit: max 1 mm}
  - do: Look over it.
✓     settings: {grain: 'max 1/2 of [first/depth of the pit]'}
✗     settings: {grain: 'max 1/2 of [▸depth of the pit]'}
""", reference_two,
)


def reference_circle(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for naming in held.namings:
        held.widest(naming.hits)
    told: set[frozenset[int]] = set()
    for circle in held.circles:
        ring = frozenset(map(id, circle))
        around = sorted((one for one in held.namings if _leads_round(one, circle)), key=lambda one: one.at)
        if ring in told or not around:
            continue
        told.add(ring)
        naming = around[0]
        names = " → ".join(f"`{named.name}`" for named in (*circle, circle[0]))
        yield Found(
            naming.at, f"These lean on one another in a ring: {names}.", "Write one of them as a figure.",
            naming.place.owner_id,
        )


def _leads_round(naming: Naming, circle: tuple[NamedValue, ...]) -> bool:
    """Whether this name stands in one value of the ring and leads to another."""
    limits = {id(limit) for named in circle for limit in named.limits}
    plain = {id(named.written) for named in circle if named.written is not None}
    within = id(naming.within) in plain or any(id(outer.entry) in limits for outer in naming.place.up())
    return within and any(hit is named for hit in naming.hits for named in circle)


REFERENCE_CIRCLE = Rule(
    "reference-circle", Level.ERROR, "Values that lean on one another in a ring.",
    "If the wall is half the depth and the depth is twice the wall, nobody has said how thick anything is.",
    """\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - do: Press the filler in.
    limits: {depth of the pit: max 2 x ▸wall}
✓     settings: {wall: 4 ±0.4 mm}
✗     settings: {wall: 'max 1/2 of [depth of the pit]'}
""", reference_circle,
)


def limit_empty(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, least, most in crossed(analysis):
        if not is_time_between(place):
            yield Found(
                leaf.at, f"`{leaf}` leaves nothing: {least} at the least, {most} at the most.",
                "Put right one of the two sides, or the value that the name leads to.", place.owner_id,
            )


LIMIT_EMPTY = Rule(
    "limit-empty", Level.ERROR, "A limit whose least is over its most, once the names in it are followed.",
    "Each side looks right by itself, but no piece can keep both.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits:
  wall: 4 ±0.4 mm
✓   depth of a pit: min 0.5 mm; max 1/2 of wall
✗   depth of a pit: ▸min 3 mm; max 1/2 of wall
""", limit_empty,
)


def sign_astray(analysis: Analysis) -> Iterator[Found]:
    for limit, place in analysis.index.of(Limit):
        for key, ends in (("opens", limit.opens), ("closes", limit.closes)):
            if ends and place.key != "wait":
                yield Found(
                    ends[0].at, f"`{key}` belongs to a time that something stands; this is no such time.",
                    f"Put `{key}:` under `wait:` or under a window, or write the sign under `until:` of the step.",
                    place.owner_id,
                )


SIGN_ASTRAY = Rule(
    "sign-astray", Level.ERROR, "A sign that opens or closes something that is no wait and no window.",
    "Only a time of standing has a sign at which it may go on, and one at which it is too late.",
    """\
=== procedures/foot/glue-foot.yml
procedure: glue-foot
title: Glue the felt on
steps:
  - do: Spread the glue.
✓     wait: {opens: It is no longer wet., closes: It no longer takes a finger print., above: Spread it anew.}
✗     limits: {thickness of the glue: {is: max 0.2 mm, opens: ▸It is no longer wet.}}
""", sign_astray,
)
