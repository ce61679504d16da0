"""Rules on pictures and what they tell of themselves."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.nearest import did_you_mean, slip_of
from site_builder.notebook.picture_paths import picture_names


def picture_missing(analysis: Analysis) -> Iterator[Found]:
    for picture in analysis.pictures:
        if picture.path is None and not picture.story:
            near = slip_of(picture.name, picture_names(analysis.notebook, picture.at.path))
            yield Found(
                picture.at, f"There is no file `{picture.name}`.",
                f"{did_you_mean(near)}Put it beside this file or under `procedures/photos/`.", picture.about,
            )


PICTURE_MISSING = Rule(
    "picture-missing", Level.ERROR, "A picture, film or sound whose file is not in the notebook.",
    "The page would show a gap where the hand should be seen.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: ▸sole.svg, shows: The sole on the belt}
✓ === procedures/photos/sole.svg
✓ <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"/>
""", picture_missing,
)


def picture_unreadable(analysis: Analysis) -> Iterator[Found]:
    for picture in analysis.pictures:
        facts = picture.facts
        if facts is not None and facts.problem is not None and facts.problem.code != "missing":
            message, _, fix = facts.problem.text.rstrip(".").partition(". ")
            yield Found(
                picture.at, f"`{picture.name}`: {message}.",
                f"{fix or 'Put a file here that opens on your own machine'}.", picture.about,
            )


PICTURE_UNREADABLE = Rule(
    "picture-unreadable", Level.ERROR, "A file that cannot be shown as a picture, film or sound.",
    "The page would show a gap, and nobody would know what was in it.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: ▸sole.jpg, shows: The sole on the belt}
✓ === procedures/photos/sole.jpg photo 400x300
✗ === procedures/photos/sole.jpg
✗ this is no photo
""", picture_unreadable,
)


def picture_huge(analysis: Analysis) -> Iterator[Found]:
    for picture in analysis.pictures:
        facts = picture.facts
        if facts is not None and facts.kind == "photo" and facts.huge:
            yield Found(
                picture.at,
                f"`{picture.name}` is {facts.width} x {facts.height} pixels and {facts.bytes / 1e6:.1f} MB.",
                "Save it at most 4000 pixels wide and smaller than 8 MB.", picture.about,
            )


PICTURE_HUGE = Rule(
    "picture-huge", Level.WARNING, "A photo larger than any page can use.",
    "A notebook full of such photos no longer fits on the stick or in the post.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: ▸sole.jpg, shows: The sole on the belt}
✓ === procedures/photos/sole.jpg photo 400x300
✗ === procedures/photos/sole.jpg photo 4400x3000
""", picture_huge,
)


def picture_located(analysis: Analysis) -> Iterator[Found]:
    for picture in analysis.pictures:
        facts = picture.facts
        if facts is not None and facts.has_location:
            yield Found(
                picture.at, f"`{picture.name}` tells where it was taken.",
                "Save it again without its place; most phones ask for it when something is sent.",
                picture.about,
            )


PICTURE_LOCATED = Rule(
    "picture-located", Level.WARNING, "A photo, a film or a sound that tells where it was taken.",
    "The pages are published without it, but the notebook goes from hand to hand with the file as it came from "
    "the phone.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: ▸sole.jpg, shows: The sole on the belt}
✓ === procedures/photos/sole.jpg photo 400x300
✗ === procedures/photos/sole.jpg photo 400x300 with its place
""", picture_located,
)


def picture_cleaned(analysis: Analysis) -> Iterator[Found]:
    for picture in analysis.pictures:
        if picture.facts is not None and picture.facts.removed:
            yield Found(
                picture.at, f"`{picture.name}` holds what the handbook leaves out: {', '.join(picture.facts.removed)}.",
                "See in the handbook that nothing is missing, or save the drawing again as plain SVG.", picture.about,
            )


PICTURE_CLEANED = Rule(
    "picture-cleaned", Level.WARNING, "A drawing that holds something which acts, or which is fetched from elsewhere.",
    "The handbook shows it without; but the notebook goes from hand to hand with it.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: ▸sole.svg, shows: The sole on the belt}
=== procedures/photos/sole.svg
✓ <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"><path d="M0 0h9"/></svg>
✗ <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"><script>count()</script><path d="M0 0h9"/></svg>
""", picture_cleaned,
)
