"""Another id for a thing, everywhere it is named, in one act that can be taken back; the books stay as they are."""

from __future__ import annotations

from collections import Counter
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from site_builder.amend import CannotRename, Written, rename, rename_step, take_back, write
from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.engine import examine

NOW = datetime(2026, 12, 1, tzinfo=UTC)
TODAY = date(2026, 12, 1)
FILES = {
    "procedures/shop.yml": """\
shop: smithy
title: The smithy
parts:
  ring:
    title: Ring
products:
  gate:
    title: Gate
    of: {ring: 4}   # four of them
variants:
  finish: {values: [black, bright]}
""",
    "procedures/ring/bend-ring.yml": """\
# the old way
procedure: bend-ring
title: Bend the ring
skill: bending
tools: [anvil, {tool: tongs, because: "The [[anvil]] alone will not do."}]
steps:
  - id: heat
    do: Heat it.
  - id: bend
    do: Bend it over the [[anvil|horn]].
    limits:
      gap: max 1 mm
    troubles:
      - {sign: It cracks., do: Heat it again., then: heat}
""",
    "procedures/ring/weld-ring.yml": """\
procedure: weld-ring
title: Weld the ring
after: bend-ring
skill: bending
steps:
  - do: Weld it, as [[bend-ring/heat]] says.
""",
    "procedures/stories/old-days.md": "# Old days\n\nWe did [[bend-ring]] and `[[bend-ring]]` by hand.\n",
    "skills/people.yml": "people:\n  ada: {name: Ada, founding: yes}\n  bert: Bert\n",
    "skills/bending.yml": "skill: bending\ntitle: Bending\ncovers: [bend-ring, weld-ring]\n",
    "tools/anvil.yml": "hand-tool: anvil\ntitle: Anvil\n",
    "tools/tongs.yml": "hand-tool: tongs\ntitle: Tongs\n",
    "skills/records/practice.yml": """\
---
practice: 1
who: bert
date: 2026-03-01
procedure: bend-ring
level: beside
teacher: ada
pieces: 20
""",
    "skills/records/measurements.yml": """\
---
measurement: 1
who: bert
date: 2026-03-01
measured: bend-ring/bend/gap
readings: [0.5 mm]
pieces: 1
""",
    "skills/records/sign-offs.yml": """\
---
sign-off: 1
who: ada
date: 2026-03-02
learner: bert
skill: bending
level: beside
""",
}


@pytest.fixture
def smithy(tmp_path: Path) -> Path:
    for name, text in FILES.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text)
    return tmp_path


def found(known: Analysis) -> Counter[tuple[str, str]]:
    return Counter((one.code, one.message) for one in examine(known))


def everything(root: Path) -> dict[str, bytes]:
    files = [file for name in ("procedures", "skills", "tools") for file in (root / name).rglob("*") if file.is_file()]
    return {file.relative_to(root).as_posix(): file.read_bytes() for file in files}


def text(root: Path, name: str) -> str:
    return (root / name).read_text()


def test_a_procedure_is_renamed_wherever_it_is_named(smithy: Path) -> None:
    known, before = analysis(smithy, TODAY), everything(smithy)
    made = write(smithy, rename(known.references, "procedure", "bend-ring", "form-ring"), "ada", NOW)
    assert isinstance(made, Written)
    assert not (smithy / "procedures/ring/bend-ring.yml").exists()
    assert text(smithy, "procedures/ring/form-ring.yml") == FILES["procedures/ring/bend-ring.yml"].replace(
        "procedure: bend-ring\n", "procedure: form-ring\nformer: bend-ring\n")
    assert "after: form-ring" in text(smithy, "procedures/ring/weld-ring.yml")
    assert "[[form-ring/heat]]" in text(smithy, "procedures/ring/weld-ring.yml")
    assert text(smithy, "skills/bending.yml").endswith("covers: [form-ring, weld-ring]\n")
    assert text(smithy, "procedures/stories/old-days.md") == \
        "# Old days\n\nWe did [[form-ring]] and `[[bend-ring]]` by hand.\n"
    assert {name: now for name, now in everything(smithy).items() if "records" in name} == \
        {name: then for name, then in before.items() if "records" in name}
    assert isinstance(take_back(smithy, made.kept, "ada", NOW), Written)
    assert everything(smithy) == before


@pytest.mark.parametrize(("kind", "id_"), [
    ("procedure", "bend-ring"), ("person", "bert"), ("person", "ada"), ("skill", "bending"), ("tool", "anvil"),
    ("part", "ring"), ("part", "gate"),
])
def test_the_notebook_says_the_same_afterwards_and_the_books_still_mean_it(smithy: Path, kind: str, id_: str) -> None:
    known, sealed = analysis(smithy, TODAY), everything(smithy)["skills/records/sign-offs.yml"]
    before = found(known)
    made = write(smithy, rename(known.references, kind, id_, "zzz"), "ada", NOW)
    assert isinstance(made, Written), made
    after = analysis(smithy, TODAY)
    assert Counter({(code, said.replace("zzz", id_)): n for (code, said), n in found(after).items()}) == before
    assert [one.number for one in after.notebook.practice] == [1]
    assert after.notebook.practice[0].procedure == ("zzz" if kind == "procedure" else "bend-ring")
    assert after.notebook.practice[0].who == ("zzz" if id_ == "bert" else "bert")
    assert everything(smithy)["skills/records/sign-offs.yml"] == sealed


def test_a_step_is_renamed_and_its_readings_still_mean_it(smithy: Path) -> None:
    known = analysis(smithy, TODAY)
    before = found(known)
    assert isinstance(write(smithy, rename_step(known.references, "bend-ring", "bend", "form"), "ada", NOW), Written)
    assert "  - id: form\n    former: bend\n    do: Bend it" in text(smithy, "procedures/ring/bend-ring.yml")
    after = analysis(smithy, TODAY)
    assert found(after) == before
    assert after.notebook.measurements[0].measured == "bend-ring/form/gap"
    assert isinstance(write(smithy, rename_step(after.references, "bend-ring", "heat", "warm"), "ada", NOW), Written)
    assert "then: warm" in text(smithy, "procedures/ring/bend-ring.yml")
    assert "[[bend-ring/warm]]" in text(smithy, "procedures/ring/weld-ring.yml")


def test_a_name_that_is_taken_is_not_given_again(smithy: Path) -> None:
    references = analysis(smithy, TODAY).references
    with pytest.raises(CannotRename, match="has this name already"):
        rename(references, "procedure", "bend-ring", "weld-ring")
    with pytest.raises(CannotRename, match="small letters"):
        rename(references, "procedure", "bend-ring", "Bend it")
    with pytest.raises(CannotRename, match="no such"):
        rename(references, "tool", "bend-ring", "form")


def test_an_earlier_id_that_something_else_has_now_is_told(smithy: Path) -> None:
    (smithy / "tools/anvil.yml").write_text("hand-tool: anvil\nformer: tongs\ntitle: Anvil\n")
    assert [one.code for one in examine(analysis(smithy, TODAY)) if one.level.name == "ERROR"] == ["former-taken"]
