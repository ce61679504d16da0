"""Questions about a work as a whole."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.batch.amounts import amount_of
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import ask, asks_for, at_home, has_any, named
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import MaterialUse
from site_builder.notebook.told import Told
from site_builder.notebook.way import NO_PART, lane_of
from site_builder.quantity import as_said

BECAUSE_ASKED = Rule(
    "because-asked", Level.QUESTION, "A procedure without its reason.",
    "Who knows why a thing is done sees when it was not done well enough, and also when it need not be done any "
    "longer.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
✓ because: A hollow sole lifts the filler.
steps: Sweep it along the belt.
""",
    asks_for(
        "because",
        question="Why is it done, and what happens if it is left out: {}?",
        fix="Add `because:` with the reason.",
        whole=True,
    ),
)


def _belongs_to_none(analysis: Analysis, told: Told) -> bool:
    """Neither its folder nor the procedures that use it say what it is for."""
    notebook = analysis.notebook
    return bool(notebook.parts) and not told.shared and not notebook.unread and not notebook.parts_of(told.procedure)


PART_ASKED = Rule(
    "part-asked", Level.QUESTION, "A procedure that names no part.",
    "By its part a procedure finds its place in the map of the work, its sizes and its material.",
    """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: Foot}
=== procedures/new/file-seam.yml
procedure: file-seam
title: ▸File the seam
✓ part: foot
steps: File along the seam.
""",
    asks_for(
        "part", "makes",
        question="Which part is worked on: {}?",
        fix="Add `part:` with its id under the shop's `parts`, or `makes:` with what comes of it.",
        worth=_belongs_to_none,
    ),
)


def before_asked(analysis: Analysis) -> Iterator[Found]:
    if analysis.notebook.unread:  # what comes before may be among what could not be read
        return
    beginnings: dict[str, dict[str, Procedure]] = defaultdict(dict)
    for id_, told in analysis.told.items():
        own = told.procedure
        if not told.shared and not has_any(own, ("after",)):
            beginnings[lane_of(analysis.notebook, own)][id_] = own
    for part, starts in beginnings.items():
        # What leads nowhere beside a row that does lead on is a warning of its own.
        leading = {id_: own for id_, own in starts.items() if analysis.route.after[id_]} or starts
        if part == NO_PART or len(leading) == 1:
            continue
        for id_, own in leading.items():
            other = next(one for one in leading.values() if one is not own)
            yield ask(
                own, id_, f"What comes before {named(own)}? Nothing leads to it yet, nor to {named(other)}.",
                "Add `after:` with a procedure; for the first one, in words what it waits for "
                "(`after: delivery of the metal`).",
            )


BEFORE_ASKED = Rule(
    "before-asked", Level.QUESTION, "Several procedures of a part that begin with nothing before them.",
    "The way of a part has one beginning. What stands beside it without a word is done too early by somebody, "
    "one day.",
    """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: Foot}
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: ▸Cast the foot
steps: Pour.
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
✓ after: cast-foot
steps: Sweep it along the belt.
""", before_asked,
)


def _bare_handed(analysis: Analysis, told: Told) -> bool:
    """In the shop, and with nothing that a limit, a check or a shared step names."""
    return at_home(analysis, told) and analysis.notebook.tools.keys().isdisjoint(told.things)


TOOLS_ASKED = Rule(
    "tools-asked", Level.QUESTION, "A procedure that names no tools.",
    "The tools bring their hazards, their protection and their limits along. Where none is named the page knows "
    "of none of these.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
✓ tools: belt-grinder
steps: Sweep it along the belt.
✓ === tools/machines/belt-grinder.yml
✓ machine: belt-grinder
✓ title: Belt grinder
""",
    asks_for(
        "tools",
        question="With what is it done: {}?",
        fix="Add `tools:`; `tools: []` where bare hands do it.",
        worth=_bare_handed,
    ),
)


def _begins_something(analysis: Analysis, told: Told) -> bool:
    """The first work on a part, or the mixing of a material, with no material in it."""
    materials, own = analysis.notebook.materials, told.procedure
    if not materials.keys().isdisjoint(told.things):
        return False
    return any(made in materials for made in own.makes) or not (told.shared or has_any(own, ("after",)))


MATERIALS_ASKED = Rule(
    "materials-asked", Level.QUESTION, "Work that begins a part, or makes a mix, out of nothing.",
    "What goes in, and how much of it, is what has to be ordered before the season. Some of it can also burn or "
    "bite.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: ▸Cast the foot
✓ materials: {material: zinc, amount: 1.1 kg per piece}
steps: Pour.
✓ === tools/materials/zinc.yml
✓ material: zinc
✓ title: Zinc
""",
    asks_for(
        "materials",
        question="Of what is it made, and how much does it take: {}?",
        fix="Add `materials:`, each with `amount` (`1.1 kg per piece`); `materials: []` where nothing is used.",
        worth=_begins_something,
    ),
)


def amount_of_what(analysis: Analysis) -> Iterator[Found]:
    for use, place in analysis.index.of(MaterialUse):
        amount = amount_of(use.amount)
        if use.amount is None or amount is None or amount.noun or not isinstance(place.owner, Procedure):
            continue
        if amount.unit.kind.startswith("part"):  # a share of the mix, whatever its size
            continue
        material = analysis.notebook.materials.get(str(use.material))
        called = material.title if material is not None else use.material
        if amount.unit.symbol == "%":
            yield Found(use.amount.at, f"`{use.amount}` of “{called}”: of what is that the share?",
                        "Write the amount itself, as `20 g per piece`, and the share under `note`.", place.owner_id)
            continue
        yield Found(
            use.amount.at,
            f"{as_said(use.amount.value)} of “{called}”: for one piece, for a load, or for the whole lot?",
            f"Write `{use.amount} per piece`, `per load` or `per lot`.", place.owner_id,
        )


AMOUNT_OF_WHAT = Rule(
    "amount-of-what", Level.QUESTION, "An amount of a material, and no word on what it is for.",
    "For one piece or for a potful: before the season that decides whether a bag is ordered or a load. Until it "
    "is told, the amount is counted nowhere.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
✓ materials: {material: zinc, amount: 1.1 kg per piece}
✗ materials: {material: zinc, amount: ▸1.1 kg}
steps: Pour.
=== tools/materials/zinc.yml
material: zinc
title: Zinc
""", amount_of_what,
)
