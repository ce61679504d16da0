"""The notebook laid out flat: every entry once, whatever was worked out of it before."""

from __future__ import annotations

from pathlib import Path

from site_builder.notebook.index import build_index
from site_builder.notebook.load import load
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure

HOOK_FORGE = Path(__file__).parent.parent / "notebooks" / "hook-forge"
DEMO = Path(__file__).parent.parent.parent


def test_what_was_worked_out_of_a_procedure_is_not_laid_out_again() -> None:
    plain = build_index(load(DEMO).notebook)
    used = load(DEMO).notebook
    for procedure in used.procedures.values():
        assert len(procedure.every_step) >= len(procedure.steps) and procedure.steps_by_id is not None
    after = build_index(used)
    assert [p.at for p, _ in plain.of(Limit)] == [p.at for p, _ in after.of(Limit)]
    assert {kind: len(places) for kind, places in plain.places.items()} \
        == {kind: len(places) for kind, places in after.places.items()}


def test_fields_are_those_of_the_model_alone() -> None:
    for procedure in load(HOOK_FORGE).notebook.procedures.values():
        before = dict(procedure.fields())
        assert procedure.every_step and before == dict(procedure.fields())
        assert before.keys() == Procedure.model_fields.keys()
