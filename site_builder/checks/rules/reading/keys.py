"""Rules on what may stand in a file: keys, texts and words."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

KEY_UNKNOWN = Rule(
    "key-unknown", Level.ERROR, "A key that the format does not have.",
    "A slip of the pen must never swallow a tolerance: a key nobody reads is a fact nobody sees.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     limits: {flatness: max 0.1 mm}
✗     ▸limitz: {flatness: max 0.1 mm}
""",
)


KEY_TWICE = Rule(
    "key-twice", Level.ERROR, "The same key twice in one place.",
    "Only one of the two would be read, and nobody would see which.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓ hazards:
✓   - hazard: abrasion
✓   - hazard: hot metal
✗ hazards: abrasion
✗ ▸hazards: hot metal
""",
)


KEY_MISSING = Rule(
    "key-missing", Level.ERROR, "One of the few keys that must stand is not there.",
    "Without it nobody can say what the thing is; all else may be left to be asked for.",
    """\
=== procedures/foot/grind-foot.yml
▸procedure: grind-foot
✓ title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
)


BRACE_COMMA = Rule(
    "brace-comma", Level.ERROR, "A comma between braces that ends a value.",
    "Everything after the comma would silently be taken for something else, tolerances among it.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     limits: {length: aim 30 mm; min 29 mm}
✗     limits: {length: {is: aim 30 mm, ▸min 29 mm}}
""",
)


TEXT_WANTED = Rule(
    "text-wanted", Level.ERROR, "A list or keys where a text belongs.",
    "The place holds one text, and nobody can say which of several is meant.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
✓ title: Grind the foot flat
✗ title:
✗   ▸- Grind the foot flat
✗   - on the belt
steps:
  - do: Sweep it along the belt.
""",
)


NAMES_WANTED = Rule(
    "names-wanted", Level.ERROR, "A text or a list where names with values belong.",
    "A value without a name cannot be pointed to, checked or measured.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     limits:
✓       flatness: max 0.1 mm
✗     limits: ▸max 0.1 mm
""",
)


KEYS_WANTED = Rule(
    "keys-wanted", Level.ERROR, "A text or a list where keys belong.",
    "This thing has no short form: each part of it must say what it is.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures:
      file: sole.jpg
✓       marks: {at: [0.5, 0.25], note: The hollow}
✗       marks: ▸the hollow
""",
)


WORD_UNKNOWN = Rule(
    "word-unknown", Level.ERROR, "A word that is none of those that may stand here.",
    "The handbook draws and sorts by these words; an unknown one would drop out.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     hazards: {hazard: abrasion, word: warning}
✗     hazards: {hazard: abrasion, word: ▸careful}
""",
)


SPOT_BROKEN = Rule(
    "spot-broken", Level.ERROR, "A mark outside its picture.",
    "The mark would be drawn where nobody looks for it.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     pictures: {file: sole.jpg, marks: {at: [0.5, 0.25], note: The hollow}}
✗     pictures: {file: sole.jpg, marks: {at: ▸[50, 25], note: The hollow}}
""",
)


RULE_CRASHED = Rule(
    "rule-crashed", Level.ERROR, "A rule of the program failed.",
    "The fault is the program's, not the notebook's; all other rules have still been run. No notebook is known "
    "that brings it about.",
    """\
✓ === procedures/foot/grind-foot.yml
✓ procedure: grind-foot
✓ title: Grind the foot flat
✓ steps:
✓   - do: Sweep it along the belt.
""",
)
