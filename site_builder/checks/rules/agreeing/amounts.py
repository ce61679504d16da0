"""Rules on amounts and times that contradict each other."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.cases import cases, least
from site_builder.checks.rules.agreeing.masses import Weighed, is_whole, of_parts, weighings
from site_builder.checks.rules.records.standing import standing
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends, shown
from site_builder.notebook.conditions import exclude
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.records import Practice
from site_builder.notebook.model.small import MaterialUse, Yield
from site_builder.notebook.tree import Text
from site_builder.quantity import bounds, parse_value, same_dimensions

_PER_PIECE = bounds(parse_value("1 kg per piece"))


def stock_short(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for id_, own in nb.procedures.items():
        for part_id in nb.parts_of(own)[:1]:
            part = nb.parts.get(part_id)
            if part is None or len(part.material) != 1:
                continue
            using = [use for use in _uses(own) if str(use.material) == str(part.material[0]) and use.amount is not None]
            if len(using) != 1 or using[0].amount is None or len(own.part) > 1:
                continue
            figures = reckoning(analysis).bounds(using[0].amount)
            mass = least([one for one in cases(analysis, part.sizes.get(Text("mass"), ())) if one.found.kind == "mass"])
            if figures is None or mass is None or _PER_PIECE is None:
                continue
            high = ends(figures)[1]
            if same_dimensions(figures.unit, _PER_PIECE.unit) and high is not None and high < mass * 9 / 10:
                written = part.sizes[Text("mass")]
                told = next((str(cell.written) for one in written for _, cell in one.cells() if cell.written), "")
                yield Found(
                    using[0].amount.at, f"`{using[0].amount}` is less than “{part.title}” weighs, `{told}`.",
                    "Put right the amount, which is all that goes in, or the `mass` among the sizes of the part.", id_,
                )


def _uses(own: Procedure) -> Iterator[MaterialUse]:
    for work in (own, *own.steps):
        yield from work.materials


STOCK_SHORT = Rule(
    "stock-short", Level.ERROR, "Less material for a piece than the piece weighs.",
    "What is ordered for a batch is reckoned from this amount; the shop runs out of metal in the middle of it.",
    """\
=== procedures/shop.yml
shop: corvane
title: The shop
parts: {hood: {title: Hood, material: brass, sizes: {mass: 0.4..0.46 kg}}}
=== procedures/hood/cut-disc.yml
procedure: cut-disc
title: Cut the disc
part: hood
✓ materials: {material: brass, amount: about 0.69 kg per piece}
✗ materials: {material: brass, amount: ▸about 0.069 kg per piece}
steps: Cut it.
=== tools/materials/brass.yml
material: brass
title: Brass
""", stock_short,
)


_ENTRIES, _PIECES = 3, 20
_FAR = 2
"""Below so many entries or pieces nothing is said, and only of a time twice or half as long: common practice."""


def time_off_practice(analysis: Analysis) -> Iterator[Found]:
    worked: dict[str, list[tuple[Fraction, Fraction]]] = defaultdict(list)
    held = reckoning(analysis)
    for entry, _ in standing(analysis, Practice):
        if entry.level not in ("alone", "teaches") or entry.took is None or entry.pieces is None:
            continue
        took, pieces = held.bounds(entry.took), held.bounds(entry.pieces)
        if took is not None and pieces is not None and took.aim_low and pieces.aim_low and took.kind == "time":
            worked[str(entry.procedure)].append((took.aim_low, pieces.aim_low))
    for id_, entries in worked.items():
        own = analysis.notebook.procedures.get(id_)
        total, made = sum(t for t, _ in entries), sum(p for _, p in entries)
        if own is None or len(own.time) != 1 or len(entries) < _ENTRIES or made < _PIECES:
            continue
        time = own.time[0]
        each = held.bounds(time.each) if time.each is not None and not time.for_ else None
        setup = held.bounds(time.setup) if time.setup is not None else None
        if each is None or time.each is None or each.kind not in ("time", "time per count"):
            continue
        low, high = ends(each)
        spent = (setup.aim_high or setup.high or Fraction(0)) if setup is not None else Fraction(0)
        # Whether getting ready was counted in is not told: both are held to it.
        without = (total - len(entries) * spent) / made
        seen = total / made
        if (low is not None and seen * _FAR < low) or (high is not None and without > high * _FAR):
            yield Found(
                time.each.at, f"`{time.each}` for a piece, but the book of practice shows "
                f"{shown(each, Fraction(round(seen)))} from {made} pieces of those who do it alone.",
                "Put right the time, with its `source` and `date`, or correct the entries of the book.", id_,
            )


TIME_OFF_PRACTICE = Rule(
    "time-off-practice", Level.WARNING, "A time for a piece that is not what the book of practice shows.",
    "Batches are promised on this time. It is told only where it is twice or half of what the hands need.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot
✓ time: {each: 5 min}
✗ time: {each: ▸40 min}
steps: Grind it.
✗ === skills/people.yml
✗ people: {edda: {name: Edda}}
✗ === skills/records/practice.yml
✗ ---
✗ practice: 1
✗ who: edda
✗ date: 2026-05-01
✗ procedure: grind-foot
✗ level: alone
✗ pieces: 12
✗ took: 1 h
✗ ---
✗ practice: 2
✗ who: edda
✗ date: 2026-05-02
✗ procedure: grind-foot
✗ level: alone
✗ pieces: 12
✗ took: 1 h
✗ ---
✗ practice: 3
✗ who: edda
✗ date: 2026-05-03
✗ procedure: grind-foot
✗ level: alone
✗ pieces: 12
✗ took: 1 h
""", time_off_practice,
)


_TAKEN_OFF = Fraction(9, 10)
"""What is filed and drilled off after joining is less than a tenth: common practice."""
_DRILLED = Fraction(98, 100)
"""And less than a fiftieth of a whole that was weighed already."""


def whole_lighter(analysis: Analysis) -> Iterator[Found]:
    for id_, part in analysis.notebook.parts.items():
        if not part.of:
            continue
        weighed = list(weighings(analysis, id_))
        for one in weighed:
            high = one.case.high
            parts = of_parts(analysis, id_, one.case.condition) if is_whole(analysis, id_, one) else Fraction(0)
            if high is None:
                continue
            if high < parts * _TAKEN_OFF:
                yield Found(
                    one.case.written.at, f"`{one.case.written}` is lighter than the parts of “{part.title}”, which "
                    f"weigh {shown(one.case.found, parts)} at least.",
                    "Put right this mass, or the `mass` among the sizes of the parts.", one.owner,
                )
                continue
            before = _heavier_before(one, weighed)
            if before is not None:
                yield Found(
                    one.case.written.at, f"`{one.name}` {one.case.written} is lighter than `{before.name}` "
                    f"{before.case.written} in the work before it.",
                    "Put right the one or the other; what is packed weighs as much as what is in it, and its box.",
                    one.owner,
                )


def _heavier_before(one: Weighed, weighed: list[Weighed]) -> Weighed | None:
    for before in weighed:
        if 0 <= before.step < one.step and before.case.low is not None and one.case.high is not None:
            together = not exclude(before.case.condition, one.case.condition)
            if together and one.case.high < before.case.low * _DRILLED:
                return before
    return None


WHOLE_LIGHTER = Rule(
    "whole-lighter", Level.ERROR, "A whole that weighs less than what it is put together from.",
    "The scale is the last look through a closed lid; with a wrong figure it passes a box with a part missing.",
    """\
=== procedures/shop.yml
shop: corvane
title: The shop
✓ products: {lantern: {title: Lantern, of: {foot: 1, post: 4}, sizes: {mass: 1.9..2 kg}}}
✗ products: {lantern: {title: Lantern, of: {foot: 1, post: 4}, sizes: {mass: ▸1.2..1.3 kg}}}
parts:
  foot: {title: Foot, sizes: {mass: 1.1 kg}}
  post: {title: Post, sizes: {mass: 0.2 kg}}
""", whole_lighter,
)


def yield_over_all(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for lost, place in analysis.index.of(Yield):
        if lost.scrap is None or lost.rework is None:
            continue
        least = [ends(found)[0] for one in (lost.scrap, lost.rework)
                 if (found := held.bounds(one)) is not None and found.kind == "ratio"]
        told = [one for one in least if one is not None]
        # More than the whole each on its own is told elsewhere.
        if len(told) == 2 and max(told) <= 1 < sum(told, Fraction(0)):
            yield Found(
                lost.rework.at, f"`{lost.scrap}` lost and `{lost.rework}` done again are more than all the pieces.",
                "Write both as shares of all pieces begun; a piece done again and lost all the same counts as lost.",
                place.owner_id,
            )


YIELD_OVER_ALL = Rule(
    "yield-over-all", Level.WARNING, "Pieces lost and pieces done again are more than all there are.",
    "A batch is reckoned from both shares; together they cannot pass a hundred in a hundred.",
    """\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the line.
✓ yield: {scrap: 6 %, rework: 50 %}
✗ yield: {scrap: 60 %, rework: ▸50 %}
""", yield_over_all,
)
