from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import both
from site_builder.figures.spinning import too_small
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in too_small(analysis):
        disc, title = one.shell.disc, analysis.notebook.parts[one.shell.part].title
        needed, bare = (both(span, "mm", "in", disc.is_inch) for span in (one.needed, one.bare))
        trim = "" if one.bare == one.needed else f", {bare} without what is trimmed"
        yield Found(
            disc.at, f"`{disc.input.written}` has less surface than “{title}”: it needs a disc of {needed}{trim}.",
            "Cut it larger, or look whether the sizes of the shell or its trim are right.", one.shell.part,
        )


RULE = Rule(
    code="blank-too-small",
    level=Level.WARNING,
    summary="A disc with less surface than the shell that is spun from it.",
    reason=(
        "Spun by hand the wall stays about as thick as the sheet, so the disc must have as much surface as the shell "
        "and its trim. Where it has less, the wall is drawn thin or the rim comes short."
    ),
    passes="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {bowl: {title: Bowl, sizes: {shape: cap, mouth: 200 mm, height: 100 mm, trim: 5 mm, disc: 294 mm}}}
""",
    fails="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {bowl: {title: Bowl, sizes: {shape: cap, mouth: 200 mm, height: 100 mm, trim: 5 mm, disc: ▸270 mm}}}
""",
    check=check,
)
