"""Rules on files as such: what cannot be read, and what a file calls itself."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

YAML_BROKEN = Rule(
    "yaml-broken", Level.ERROR, "A line that YAML cannot read.",
    "A file that breaks off is half a procedure. Nothing in it is used until the line is mended.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
✓   - do: Note - wear gloves.
✓   - do: >
✓       Note: sweep it along the belt.
✗   - do: Note▸: wear gloves.
""",
)


TAB_USED = Rule(
    "tab-used", Level.ERROR, "A tab.",
    "A tab is as wide as each editor likes, so what looks like one level to you is another to the next reader.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✗     hazards:▸\tabrasion
""",
)


ANCHOR_USED = Rule(
    "anchor-used", Level.ERROR, "An anchor (`&`), an alias (`*`) or a tag (`!`) of YAML.",
    "What stands here must be readable here, without looking for a name given elsewhere.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓ hazards: The belt takes the skin off a finger!
✗   - do: ▸!Hold it by the rim.
""",
)


TOO_DEEP = Rule(
    "too-deep", Level.ERROR, "More levels inside one another than any notebook needs.",
    "No procedure is so deep; a bracket or the indentation has gone wrong.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
✗ note: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[▸[]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]
steps:
  - do: Sweep it along the belt.
""",
)


ENCODING_WRONG = Rule(
    "encoding-wrong", Level.ERROR, "A file that is not saved as UTF-8.",
    "Signs such as µ and ° would turn into others, and so might a value.",
    """\
✓ === procedures/foot/grind-foot.yml
✗ === procedures/foot/grind-foot.yml in latin-1
procedure: grind-foot
title: Grind the foot flat at 20 ▸°C
steps:
  - do: Sweep it along the belt.
""",
)


FILE_EMPTY = Rule(
    "file-empty", Level.ERROR, "A file with nothing in it.",
    "It may be the rest of a page that was lost when it was saved.",
    """\
=== ▸procedures/foot/grind-foot.yml
✓ procedure: grind-foot
✓ title: Grind the foot flat
✓ steps:
✓   - do: Sweep it along the belt.
✗ # to be written
""",
)


FILE_UNREADABLE = Rule(
    "file-unreadable", Level.ERROR, "A file that cannot be opened, or that is none.",
    "What cannot be read is missing from the handbook without anybody noticing.",
    """\
✓ === procedures/foot/grind-foot.yml
✓ procedure: grind-foot
✓ title: Grind the foot flat
✓ steps:
✓   - do: Sweep it along the belt.
✗ === ▸tools/machines/grinder.yml folder
""",
)


LINK_OUT = Rule(
    "link-out", Level.ERROR, "A link that leads out of the notebook.",
    "When the notebook is copied to a stick, what lies outside stays behind.",
    """\
✓ === tools/machines/belt-grinder.yml
✓ machine: belt-grinder
✓ title: Belt grinder
✗ === ▸tools/machines/belt-grinder.yml link to ../../../elsewhere/belt-grinder.yml
""",
)


TEXT_CUT = Rule(
    "text-cut", Level.WARNING, "Text that is lost because a comment begins in it.",
    "A `#` after a blank begins a comment; what was meant as a number is not read.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
✓   - do: Sweep it along belt number 80. # the coarse one
✗   - do: Sweep it along belt ▸#80.
""",
)


KIND_UNKNOWN = Rule(
    "kind-unknown", Level.ERROR, "A file that does not say in its first line what it is.",
    "A file found alone in thirty years still has to explain itself.",
    """\
=== procedures/foot/grind-foot.yml
✓ procedure: grind-foot
✗ ▸proceedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
)


ID_NOT_FILE = Rule(
    "id-not-file", Level.ERROR, "A file that is called otherwise than the thing in it.",
    "One looks for a thing by its name; two names lead to two versions of it.",
    """\
=== procedures/foot/grind-foot.yml
✓ procedure: grind-foot
✗ procedure: ▸grind-the-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
""",
)


ID_TWICE = Rule(
    "id-twice", Level.ERROR, "Two things of one kind with the same id.",
    "Whoever points at the id could mean either; the second of the two is not read.",
    """\
✗ === tools/hand/grinder.yml
✗ hand-tool: grinder
✗ title: Angle grinder
=== tools/machines/grinder.yml
machine: ▸grinder
title: Belt grinder
✓ === procedures/shared/grinder.yml
✓ procedure: grinder
✓ title: Look after the grinder
✓ steps:
✓   - do: Brush it off.
""",
)


ID_BROKEN = Rule(
    "id-broken", Level.ERROR, "An id with capital letters, blanks or other signs.",
    "Ids become names of files and addresses of pages, and these must be the same on every machine.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
✓   - {id: break-edge, do: Draw the edge over the fine belt.}
✗   - {id: ▸Break edge, do: Draw the edge over the fine belt.}
""",
)
