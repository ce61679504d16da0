"""Every proof by numbers is checked from outside, tells its source, and knows nothing but numbers."""

from __future__ import annotations

import ast
import importlib
import inspect
import sys
from collections import Counter
from pathlib import Path

import pytest

import site_builder.skills.proof as proof
from tests.outside import chances, changes, feel, learning, measurements, pieces
from tests.outside.registry import Check, function_name

FOLDER = Path(proof.__path__[0])
TOPICS = (chances, pieces, feel, learning, measurements, changes)
CHECKS = [check for module in TOPICS for check in module.TOPIC.checks]
WORDS = {"demands", "wording"}
"""What is asked of figures and what is said of them: nothing is published about it."""
MODULES = sorted(file.stem for file in FOLDER.glob("*.py") if file.stem != "__init__" and file.stem not in WORDS)


def public_functions(module: str) -> dict[str, object]:
    found = importlib.import_module(f"{proof.__name__}.{module}")
    return {
        function_name(each): each
        for name, each in inspect.getmembers(found, inspect.isfunction)
        if each.__module__ == found.__name__ and not name.startswith("_")
    }


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: f"{check.function}-{check.entry.id}")
def test_what_others_published(check: Check) -> None:
    result = check.result()
    assert result.agrees, f"{check.entry.cited}: {check.entry.published} {check.entry.unit}, ours {result.ours}"


@pytest.mark.parametrize("module", MODULES)
def test_every_public_function_has_two_checks_from_outside(module: str) -> None:
    counted = Counter(check.function for check in CHECKS)
    assert {name: counted[name] for name in public_functions(module) if counted[name] < 2} == {}


@pytest.mark.parametrize("module", MODULES)
def test_every_public_function_names_its_source(module: str) -> None:
    silent = [n for n, f in public_functions(module).items() if "ource" not in (inspect.getdoc(f) or "")]
    assert silent == []


@pytest.mark.parametrize("file", sorted(FOLDER.glob("*.py")), ids=lambda file: file.stem)
def test_proofs_are_pure_arithmetic(file: Path) -> None:
    """The standard library, the one error and the guards of the trade, and each other."""
    allowed = {"site_builder.formulas.errors", "site_builder.formulas.guards", "site_builder.formulas.interval"}
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        names = [a.name for a in node.names] if isinstance(node, ast.Import) else []
        names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
        for name in names:
            own = name.startswith(proof.__name__ + ".")
            assert own or name in allowed or name.split(".")[0] in sys.stdlib_module_names, name
            assert name.split(".")[0] not in {"pathlib", "os", "io", "datetime", "random"}, name
