"""The table of every form of the keys of time is read as it stands there, and leaves out none."""

from functools import cache
from pathlib import Path
from typing import get_args

import pytest

from site_builder.handbook.pages.writers_forms import FORMS, Form
from site_builder.notebook.load import load
from site_builder.quantity import NotationError, parse_cadence
from site_builder.quantity.cadence import Item

_AT = {
    "decided": "variants:\n  wood:\n    values: [oak, ash]\n    decided: {}\nsteps: [{{id: one-step, do: Go.}}]",
    "follows": "steps:\n  - id: one-step\n    do: Go.\n    limits: {{heat: {{is: 20 min, "
               "given: {{room temperature: 20 °C, humidity: 50 %}}, follows: {}}}}}",
    "tighten": "steps:\n  - id: one-step\n    do: Go.\n    checks:\n"
               "      - {{good: It rings., when: 3 of 50 pieces, tighten: {}}}",
}
_STEP = "steps:\n  - id: one-step\n    do: Go.\n    {}: {}"


def _read_as_written(folder: Path, form: Form) -> list[str]:
    place = _AT[form.key].format(form.written) if form.key in _AT else _STEP.format(form.key, form.written)
    (folder / "procedures").mkdir()
    (folder / "procedures" / "one.yml").write_text(f"procedure: one\ntitle: One\n{place}\n", "utf-8")
    return [f"{finding.code}: {finding.message}" for finding in load(folder).findings]


@pytest.mark.parametrize("form", FORMS, ids=lambda form: f"{form.key}: {form.written}")
def test_each_form_is_read(form: Form, tmp_path: Path) -> None:
    assert _read_as_written(tmp_path, form) == []


@cache
def _rhythms() -> frozenset[type]:
    told = [form.written for form in FORMS if form.key == "when"]
    told += [form.written.rpartition("when: ")[2].rstrip("}") for form in FORMS if form.key == "tighten"]
    return frozenset(type(item) for text in told for item in parse_cadence(text).items)


def test_no_kind_of_rhythm_is_left_out() -> None:
    assert _rhythms() == frozenset(get_args(Item))


def test_what_the_table_says_of_once_alone_is_so() -> None:
    with pytest.raises(NotationError, match="Once, and when"):
        parse_cadence("once")
