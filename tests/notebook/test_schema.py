"""JSON Schemas made from the model serve editors: they accept the demo shop and refuse slips of the pen."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any, ClassVar

import jsonschema
import pytest
import yaml

from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.schema import FOLDER, ring_of, schema_for, schema_names, schema_text

ROOT = Path(__file__).parent.parent.parent
FILES = sorted(f for top in ("procedures", "skills", "tools") for f in (ROOT / top).rglob("*.yml"))


class EditorLoader(yaml.SafeLoader):
    """Types bare numbers, yes and no as editors do (YAML 1.2 core); dates stay text."""

    yaml_implicit_resolvers: ClassVar = {
        first: [(tag, pattern) for tag, pattern in found if not tag.endswith(("timestamp", "merge"))]
        for first, found in yaml.SafeLoader.yaml_implicit_resolvers.items()
    }


def documents(file: Path) -> list[Any]:
    return [d for d in yaml.load_all(file.read_text("utf-8"), Loader=EditorLoader) if d is not None]


def errors(document: dict[str, Any]) -> list[str]:
    kind = next(iter(document))
    return [e.message for e in jsonschema.Draft202012Validator(schema_for(kind)).iter_errors(document)]


@pytest.mark.parametrize("kind", schema_names())
def test_the_schema_of_every_kind_is_one(kind: str) -> None:
    jsonschema.Draft202012Validator.check_schema(schema_for(kind))


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.relative_to(ROOT).as_posix())
def test_the_demo_shop_passes_a_general_validator(file: Path) -> None:
    for document in documents(file):
        assert errors(document) == []


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.relative_to(ROOT).as_posix())
def test_the_first_comment_of_a_file_leads_an_editor_to_its_schema(file: Path) -> None:
    found = re.match(r"# yaml-language-server: \$schema=(\S+)\n", file.read_text("utf-8"))
    assert found, "the first line names the schema"
    target = (file.parent / found[1]).resolve()
    assert target.parent == ROOT / FOLDER
    assert target.stem == next(iter(documents(file)[0]))


@pytest.mark.parametrize("kind", schema_names())
def test_the_schemas_in_the_notebook_are_those_of_the_model(kind: str) -> None:
    # mended by `make schemas`
    assert (ROOT / FOLDER / f"{kind}.json").read_text("utf-8") == schema_text(kind)


def test_a_slip_of_the_pen_is_refused_and_a_short_form_is_not() -> None:
    good = {"procedure": "grind", "title": "Grind", "steps": ["Sweep it.", {"do": "Try it.", "time": "2 min"}]}
    assert errors(good) == []
    assert errors({**good, "steps": [{"do": "Try it.", "limitz": {}}]})
    assert errors({**good, "steps": [{"do": "Try it.", "hazards": [{"hazard": "x", "word": "dangr"}]}]})
    assert errors({"procedure": "grind", "title": "Grind"})


def test_numbers_and_yes_may_stand_bare_because_editors_type_them() -> None:
    assert errors({"procedure": "p", "title": "P", "steps": [{"do": "Lift it.", "hands": 2, "repeat": 3}]}) == []
    assert errors({"people": {"edda": {"name": "Edda", "born": 1958, "founding": True}}}) == []


def test_the_help_says_what_a_key_means_and_when_one_meets_it() -> None:
    text = json.dumps(schema_for("procedure"))
    assert "What the hands do. (first day)" in text
    assert "How often at most" in text
    assert ring_of(Procedure, "steps") == 0
    assert ring_of(Step, "troubles") == 1
    assert ring_of(Step, "finds") == 2
