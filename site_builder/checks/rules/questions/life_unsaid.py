from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.things import asks_of
from site_builder.notebook.finding import Level
from site_builder.notebook.model.things import Material, Thing, Tooling

_SETTING = ("pot life", "open time", "recoat")
"""Properties of what sets, and goes on setting in the tin."""
_KEEPS = ("shelf life", "shelf life after opening")


def _wears(thing: Thing) -> bool:
    """Tooling, and what sets, unless it says how long it keeps."""
    if isinstance(thing, Material):
        names = thing.properties
        return any(name in names for name in _SETTING) and not any(name in names for name in _KEEPS)
    return True


RULE = Rule(
    code="life-unsaid",
    level=Level.QUESTION,
    summary="Something that wears out or goes stale, and no word on when.",
    reason="The last good piece looks like the first bad one to whoever does not know what a worn belt does.",
    passes="""\
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: Belt, P80
life: {sign: It burns and does not cut., do: Change it.}
""",
    fails="""\
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: ▸Belt, P80
""",
    check=asks_of(
        (Tooling, Material), "life",
        question="When is {} worn or stale, how does one see it, and what then?",
        fix="Add `life:` with a `sign`, a `count` or a `clock`, and `do`.",
        worth=_wears,
    ),
)
