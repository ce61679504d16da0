"""What is worn all the way through, and what only with some things or at some steps."""

from datetime import date
from pathlib import Path

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.wearing import worn_for

SHOP = """\
=== procedures/shop.yml
shop: turners
title: Turners
parts: {knob: Knob}
=== tools/protection/shield.yml
protection: shield
title: Face shield
=== tools/protection/gloves.yml
protection: gloves
title: Nitrile gloves
=== tools/protection/mask.yml
protection: mask
title: Dust mask
=== tools/machines/lathe.yml
machine: lathe
title: Lathe
hazards: {hazard: flying chips, word: warning, harm: They blind., avoid: Shield down., wear: shield}
=== tools/materials/spirit.yml
material: spirit
title: White spirit
hazards: {hazard: dry skin, word: caution, harm: It cracks., avoid: Gloves., wear: gloves}
=== tools/materials/paper.yml
material: paper
title: Abrasive paper
wear: mask
"""


def notebook(work: str, folder: Path) -> Notebook:
    write_example(SHOP + work, folder)
    return analysis(folder, date(2026, 3, 2)).notebook


def told(work: str, folder: Path) -> list[tuple[tuple[str, ...], tuple[str, ...], tuple[int, ...]]]:
    """(what, with which things, at which steps) for the work `turn`."""
    nb = notebook(work, folder)
    own = nb.procedures["turn"]
    return [(one.protection, one.things, tuple(own.steps.index(step) + 1 for step in one.steps))
            for one in worn_for(nb, own)]


TURN = "=== procedures/knob/turn.yml\nprocedure: turn\ntitle: Turn the knob\npart: knob\n"


def test_the_machine_of_the_work_asks_all_the_way_through_and_a_material_only_while_it_is_in_hand(
    tmp_path: Path,
) -> None:
    work = TURN + "tools: lathe\nmaterials: [spirit, paper]\nsteps: [Turn it., Wipe it.]\n"
    assert told(work, tmp_path) == [
        (("shield",), (), ()), (("gloves",), ("spirit",), ()), (("mask",), ("paper",), ()),
    ]


def test_what_only_a_step_names_is_worn_at_that_step(tmp_path: Path) -> None:
    work = TURN + "tools: lathe\nsteps:\n  - Turn it.\n  - {do: Wipe it., materials: spirit}\n"
    assert told(work, tmp_path) == [(("shield",), (), ()), (("gloves",), (), (2,))]


def test_shared_work_asks_at_the_step_that_uses_it(tmp_path: Path) -> None:
    work = TURN + """\
steps:
  - Carry it in.
  - {do: Wipe it., use: wipe}
=== procedures/shared/wipe.yml
procedure: wipe
title: Wipe with spirit
materials: spirit
steps: [Wipe.]
"""
    assert told(work, tmp_path) == [(("gloves",), (), (2,))]


def test_what_every_step_asks_for_is_worn_all_the_way_through(tmp_path: Path) -> None:
    work = TURN + """\
steps:
  - {do: Rub it., materials: paper}
  - {do: Rub it finer., materials: paper}
"""
    assert told(work, tmp_path) == [(("mask",), (), ())]


def test_a_hazard_of_the_whole_work_asks_all_the_way_through(tmp_path: Path) -> None:
    work = TURN + """\
hazards: {hazard: dust, word: warning, harm: It chokes., avoid: Mask on., wear: mask}
materials: paper
steps: [Rub it.]
"""
    assert told(work, tmp_path) == [(("mask",), (), ())]


def test_a_machine_for_one_variant_alone_asks_only_with_it(tmp_path: Path) -> None:
    work = TURN + """\
variants: {size: {values: [small, large], decided: now}}
tools: {tool: lathe, for: {size: large}}
steps: [Turn it.]
"""
    assert told(work, tmp_path) == [(("shield",), ("lathe",), ())]
