from __future__ import annotations

import re
from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.names import nearest_name
from site_builder.checks.rules.values.tables import is_dimension
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.small import MaterialUse
from site_builder.notebook.reckoning import Naming
from site_builder.notebook.references import step_of
from site_builder.notebook.shares import amounts_named
from site_builder.notebook.vocabulary import Vocabulary

# Grades of abrasives, threads and steels are names of their own: `max P120`.
_DESIGNATION = re.compile(r"[A-Z]{1,3}[0-9]\w*")
_HEADS = ("procedure", "part", "tool", "material")


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="name-none",
    level=Level.ERROR,
    summary="A value leans on a name that nothing has.",
    reason=(
        "Half of nothing is no figure. Somebody renamed the other value, or the name is a slip of the "
        "pen."
    ),
    passes="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - do: Press the filler in.
    limits: {depth of the pit: max 2 mm}
    settings: {one layer: 'max 1/2 of [depth of the pit]'}
""",
    fails="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - do: Press the filler in.
    limits: {depth of the pit: max 2 mm}
    settings: {one layer: max 1/2 of ▸depth of a pit}
""",
    check=check,
)
