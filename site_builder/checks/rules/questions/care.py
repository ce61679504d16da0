"""Questions about what makes the work good."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import ask, asks_for, at_home, machine_of, named
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.told import Told

READY_ASKED = Rule(
    "ready-asked", Level.QUESTION, "A procedure that begins without a look.",
    "Half of what goes wrong was wrong before the first move, and anybody who knew where to look could have seen it.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
✓ ready: The guard is closed.
steps: Sweep it along the belt.
""",
    asks_for(
        "ready",
        question="What do you look at before the first move: {}?",
        fix="Add `ready:` with a line for each thing that must be true first.",
        worth=at_home,
    ),
)


def settings_asked(analysis: Analysis) -> Iterator[Found]:
    for id_, told in analysis.told.items():
        if told.knows("settings") or not at_home(analysis, told):
            continue
        if any(one in analysis.told and analysis.told[one].knows("settings") for one in told.uses):
            continue  # the shared step sets it
        machine = machine_of(analysis, told)
        if machine is not None:
            yield ask(
                told.procedure, id_,
                f"What do you set at “{machine.title}” for {named(told.procedure)}: how fast, how hot, how much?",
                "Add `settings:` to the step, as `belt speed: 15..20 m/s`; `settings: {}` if nothing is set.",
            )


SETTINGS_ASKED = Rule(
    "settings-asked", Level.QUESTION, "Work at a machine without a single setting.",
    "How fast and how hot is what a newcomer cannot see by looking on.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
tools: belt-grinder
✓ settings: {belt speed: 15..20 m/s}
steps: Sweep it along the belt.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
""", settings_asked,
)


GOOD_ASKED = Rule(
    "good-asked", Level.QUESTION, "A procedure that never says when the work is good.",
    "Everybody stops when it is good. Without a word on what good is, each of them stops somewhere else.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
✓ until: The grey casting skin is gone all over.
steps: Sweep it along the belt.
""",
    asks_for(
        "limits", "feel", "checks", "until", "finds", "repeat",
        question="How do you know that it is good: {}?",
        fix="Add `limits:` for what is measured, `feel:` or `checks:` for what is judged, `until:` for its end.",
    ),
)


def _by_hand(analysis: Analysis, told: Told) -> bool:
    """Done here without a machine, and judged somehow, though neither by a gauge nor by feel."""
    return at_home(analysis, told) and told.knows("checks", "until") and machine_of(analysis, told) is None


FEEL_ASKED = Rule(
    "feel-asked", Level.QUESTION, "Work of the hand that is only looked at.",
    "What the hand and the ear know is the first thing to be lost, because nobody ever had to say it.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
checks: {good: No grey is left., when: each piece}
✓ feel: {good: It runs over like a worn coin., bad: It catches.}
steps: Sweep it along the belt.
""",
    asks_for(
        "feel", "limits",
        question="What does it feel or sound like when it goes well, and when it does not: {}?",
        fix="Add `feel:` with `sense`, `good` and `bad`.",
        worth=_by_hand,
    ),
)


BEGINNERS_ASKED = Rule(
    "beginners-asked", Level.QUESTION, "A procedure without a single key point.",
    "The steps say what to do. The points say what makes or breaks it, and they are what a teacher is for.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
✓ points: Keep the weight over the middle.
steps: Sweep it along the belt.
""",
    asks_for(
        "points",
        question="What do beginners get wrong: {}?",
        fix="Add `points:` to the step where it happens, each with its `because`.",
        worth=at_home,
    ),
)


def _harmless(analysis: Analysis, told: Told) -> bool:
    """Done here, and no tool, no material, no group of them and no shared step knows of a hazard."""
    notebook = analysis.notebook
    if not at_home(analysis, told) or notebook.unread:
        return False
    if any(one in analysis.told and analysis.told[one].knows("hazards") for one in told.uses):
        return False
    return not any(
        notebook.things[one].hazards or "hazards" in notebook.things[one].asked
        for id_ in told.things for one in (id_, *notebook.groups.get(id_, ())) if one in notebook.things
    )


HAZARDS_ASKED = Rule(
    "hazards-asked", Level.QUESTION, "Work in which nothing can hurt, as far as the page knows.",
    "Most work can hurt. A page without a hazard is more often a page nobody has thought about than safe work.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
✓ tools: belt-grinder
steps: Sweep it along the belt.
✓ === tools/machines/belt-grinder.yml
✓ machine: belt-grinder
✓ title: Belt grinder
✓ hazards: {hazard: drawn in, word: warning, avoid: Keep the guard closed.}
""",
    asks_for(
        "hazards",
        question="What can hurt you: {}?",
        fix="Add `hazards:` to the step, the tool or the material it comes from; `hazards: []` if nothing can.",
        worth=_harmless,
    ),
)
