from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.archiving import agreed_voices, answer
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    shop = analysis.notebook.shop
    if shop is None:
        return
    asked = {str(one) for one in shop.asked} | {str(one) for one in (shop.archive.asked if shop.archive else ())}
    shown = [one for one in analysis.pictures if one.path is not None and one.facts is not None]
    placed = [one for one in shown if one.facts is not None and one.facts.has_location]
    if placed and answer(shop, "places") is None and not asked & {"archive", "places"}:
        yield Found(shop.title.at, f"“{placed[0].name}” tells where it was taken. May an archive of the shop keep the "
                    "place?", "Add `archive: {places: yes}`, or `no`: then only a copy without the place is kept.")
    agreed = set(agreed_voices(analysis.index))
    heard = [one for one in shown if one.facts is not None and one.facts.kind in ("sound", "film")
             and one.path not in agreed]
    if heard and answer(shop, "voices") is None and not asked & {"archive", "voices"}:
        yield Found(shop.title.at, f"Do all who are heard in “{heard[0].name}” and in other recordings agree that an "
                    "archive keeps them?", "Ask them. Then add `archive: {voices: yes}`, or `no`: then they stay out.")


RULE = Rule(
    code="archive-unsaid",
    level=Level.QUESTION,
    summary="Whether an archive may keep the place where a photo was taken, or people’s voices, is not said.",
    reason=(
        "What `benchlore keep` makes is copied and outlives everybody who could be asked. Until the shop says so, "
        "originals that tell their place and recordings of people stay out of it."
    ),
    passes="""\
=== procedures/shop.yml
shop: corvane
title: The shop
archive: {places: no}
pictures: {file: sole.jpg, shows: The sole on the belt}
=== procedures/photos/sole.jpg photo 400x300 with its place
""",
    fails="""\
=== procedures/shop.yml
shop: corvane
title: ▸The shop
pictures: {file: sole.jpg, shows: The sole on the belt}
=== procedures/photos/sole.jpg photo 400x300 with its place
""",
    check=check,
)
