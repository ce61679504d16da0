"""Rules on threads, chains and blanks."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import both, percent_of
from site_builder.figures.chains import chains, length
from site_builder.figures.fastenings import shallow
from site_builder.figures.spinning import too_small
from site_builder.formulas.interval import Interval
from site_builder.notebook.finding import Found, Level


def thread_shallow(analysis: Analysis) -> Iterator[Found]:
    for one, wanted, tears in shallow(analysis):
        if one.engagement is None:
            continue
        length = both(Interval(wanted, wanted), "mm", "in", one.engagement.is_inch, 2)
        why = (f"at `{one.torque.input.written}` the thread tears out of less than {length}" if tears
               else f"in zinc at least {length} are common practice")
        yield Found(
            one.engagement.at, f"`{one.engagement.input.written}` of thread for {one.screw.called} screw: {why}.",
            "Let the screw go deeper, tighten it less, or set a steel insert.", str(one.procedure.procedure),
        )


THREAD_SHALLOW = Rule(
    "thread-shallow", Level.WARNING,
    "A screw that does not go deep enough into zinc for the torque it is tightened with.",
    "Steel is stronger than zinc: where too few threads bear, they come out with the screw.",
    """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: {title: Foot, material: zinc}, screw: {title: Screw, sizes: {thread: M4}}}
=== procedures/foot/screw-foot.yml
procedure: screw-foot
title: Screw the foot on
materials: screw
steps:
  - do: Tighten it.
✓     settings: {torque: 1.5..1.8 N·m, thread engagement: min 8 mm}
✗     settings: {torque: 1.5..1.8 N·m, thread engagement: ▸3 mm}
=== tools/materials/zinc.yml
material: zinc
title: Zinc
""", thread_shallow,
)


MANY = 0.05
"""From this share of misfits on it is worth a warning: common practice, one of twenty."""


def chain_misfit(analysis: Analysis) -> Iterator[Found]:
    for one in chains(analysis):
        if not one.measured or one.place.procedure is None:
            continue
        trial = one.trial()
        if trial is not None and trial.misfits.all - 2 * trial.doubt > MANY:
            at = one.limit.written.at if one.limit.written is not None else one.limit.at
            yield Found(
                at, f"“{one.name}”: as the parts were measured, about {percent_of(trial.misfits.all)} of them will not "
                f"go together; within their limits it comes to {length(one, one.worst)} at the worst.",
                "Look at the size that was measured: it stands off its middle, or spreads wider than its limits. Put "
                "that right, or allow what the assembly really bears.", one.place.owner_id,
            )


CHAIN_MISFIT = Rule(
    "chain-misfit", Level.WARNING,
    "Sizes that, as they were measured, leave many assemblies that will not go together.",
    "Limits say how parts may be, the book of measurements how they are. Where one size stands off its middle, "
    "the gap at the end of the chain stands off too.",
    """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {arm: {title: Arm, sizes: {span: 100 ±0.2 mm}}, hood: {title: Hood, sizes: {rim: 98 ±0.2 mm}}}
=== procedures/arm/fit-arm.yml
procedure: fit-arm
title: Fit the arm
limits:
  play:
    is: ▸1.2..2.8 mm
    sum: [arm/span, minus hood/rim]
steps: Fit it.
=== skills/records/measurements.yml
measurement: 1
measured: hood/rim
✓ readings: [97.9 mm, 98 mm, 98.1 mm]
✗ readings: [98.7 mm, 98.8 mm, 98.9 mm]
date: 2026-01-10
""", chain_misfit,
)


def blank_too_small(analysis: Analysis) -> Iterator[Found]:
    for one in too_small(analysis):
        disc, title = one.shell.disc, analysis.notebook.parts[one.shell.part].title
        needed, bare = (both(span, "mm", "in", disc.is_inch) for span in (one.needed, one.bare))
        trim = "" if one.bare == one.needed else f", {bare} without what is trimmed"
        yield Found(
            disc.at, f"`{disc.input.written}` has less surface than “{title}”: it needs a disc of {needed}{trim}.",
            "Cut it larger, or look whether the sizes of the shell or its trim are right.", one.shell.part,
        )


BLANK_TOO_SMALL = Rule(
    "blank-too-small", Level.WARNING, "A disc with less surface than the shell that is spun from it.",
    "Spun by hand the wall stays about as thick as the sheet, so the disc must have as much surface as the shell "
    "and its trim. Where it has less, the wall is drawn thin or the rim comes short.",
    """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
✓ parts: {bowl: {title: Bowl, sizes: {shape: cap, mouth: 200 mm, height: 100 mm, trim: 5 mm, disc: 294 mm}}}
✗ parts: {bowl: {title: Bowl, sizes: {shape: cap, mouth: 200 mm, height: 100 mm, trim: 5 mm, disc: ▸270 mm}}}
""", blank_too_small,
)
