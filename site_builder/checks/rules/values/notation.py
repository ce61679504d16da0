"""Rules on how a value is written."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

DECIMAL_COMMA = Rule(
    "decimal-comma", Level.ERROR, "A comma in a number.",
    "1,500 mm is a metre and a half in one country and a millimetre and a half in another.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    settings:
✓       depth of the pass: 0.2 mm
✗       depth of the pass: ▸0,2 mm
""",
)


RANGE_HYPHEN = Rule(
    "range-hyphen", Level.ERROR, "A range written with a hyphen.",
    "`2-5 °C` may be two to five, or two less five. Two dots cannot be taken for a minus.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     conditions: {room temperature: 12..30 °C}
✗     conditions: {room temperature: ▸12-30 °C}
""",
)


RANGE_MIXED = Rule(
    "range-mixed", Level.ERROR, "Two ends, or two clauses, in units that cannot be compared or are easily confused.",
    "Between a length and a mass lies nothing, and half a range in inches is soon read as millimetres.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     settings: {height of the rest: 5..6 mm}
✗     settings: {height of the rest: ▸5 mm..3 in}
""",
)


RANGE_BACKWARD = Rule(
    "range-backward", Level.ERROR, "A range or a pair of limits between which nothing lies.",
    "One of the two figures is wrong, and nobody can say which.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     conditions: {room temperature: 12..30 °C}
✗     conditions: {room temperature: ▸30..12 °C}
""",
)


AIM_OUTSIDE = Rule(
    "aim-outside", Level.ERROR, "One aims at what is refused.",
    "Whoever hits the aim makes scrap. Either the aim or the limit is a slip of the pen.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     limits: {height of the edge: aim 3 mm; max 4 mm}
✗     limits: {height of the edge: ▸aim 5 mm; max 4 mm}
""",
)


CLAUSE_BARE = Rule(
    "clause-bare", Level.ERROR, "A second figure without a word that says what it is.",
    "After `aim 3 mm` a bare `5 mm` may be the least or the most; one of the two ruins the piece.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     limits: {height of the edge: aim 3 mm; max 5 mm}
✗     limits: {height of the edge: aim 3 mm; ▸5 mm}
""",
)


WHICHEVER_MISSING = Rule(
    "whichever-missing", Level.ERROR, "Two bounds, and nothing says which of them holds.",
    "Of two bounds one is met first. Where nothing says which of them holds, the reader picks the easier.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     limits: {depth of a pit: max 1 mm or 1/3 of wall whichever is less, wall: 4 ±0.4 mm}
✗     limits: {depth of a pit: max 1 mm ▸or 1/3 of wall, wall: 4 ±0.4 mm}
""",
)


VALUE_BROKEN = Rule(
    "value-broken", Level.ERROR, "A value that cannot be read.",
    "What the program cannot read, it cannot check, and the next reader will guess.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     limits: {flatness of the sole: max 0.1 mm}
✗     limits: {flatness of the sole: ▸0.1 mm max}
""",
)
