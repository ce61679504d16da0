"""Every regular expression of the package, by reading its modules: the pattern, and how it is used."""

from __future__ import annotations

import ast
import importlib
import re
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import site_builder

ROOT = Path(site_builder.__file__).parent
METHODS = ("match", "fullmatch", "search", "sub", "subn", "finditer", "findall", "split")
MADE = ("compile", *METHODS)


@dataclass(frozen=True)
class Used:
    """A pattern with the place where it is written, and the methods by which it is tried."""

    where: str
    pattern: re.Pattern[Any]
    methods: frozenset[str]


def used_patterns() -> tuple[list[Used], list[str]]:
    """All patterns; and the places where one is made of what is only known at run time."""
    found: list[Used] = []
    made_later: list[str] = []
    calls: dict[str, set[str]] = defaultdict(set)
    files = [file for file in sorted(ROOT.rglob("*.py")) if file.name != "__main__.py"]
    trees = {file: ast.parse(file.read_text("utf-8")) for file in files}
    for file, tree in trees.items():
        for node in ast.walk(tree):
            if isinstance(node, ast.Attribute) and node.attr in METHODS and isinstance(node.value, ast.Name):
                calls[_known_as(node.value.id, file)].add(node.attr)
    for file, tree in trees.items():
        path = file.relative_to(ROOT.parent)
        module = importlib.import_module(".".join(path.with_suffix("").parts).removesuffix(".__init__"))
        held = {id(node.value): target.id for node in tree.body for target, node in _named(node)}
        for call in ast.walk(tree):
            if not _makes_a_pattern(call):
                continue
            assert isinstance(call, ast.Call) and isinstance(call.func, ast.Attribute)
            where = f"{path.as_posix()}:{call.lineno}"
            try:
                pattern = _evaluated(call, vars(module))
            except NameError:
                made_later.append(path.as_posix())
                continue
            if call.func.attr == "compile":
                methods = calls.get(_known_as(held.get(id(call), ""), file), set()) or {"search", "finditer"}
            else:
                methods = {call.func.attr}
            found.append(Used(where, pattern, frozenset(methods)))
    return found, sorted(set(made_later))


def _known_as(name: str, file: Path) -> str:
    """A name of one module alone, or of all that import it."""
    return f"{file}:{name}" if name.startswith("_") else name


def _named(node: ast.stmt) -> Iterator[tuple[ast.Name, Any]]:
    if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
        yield node.targets[0], node


def _makes_a_pattern(node: ast.AST) -> bool:
    return (isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in MADE
            and isinstance(node.func.value, ast.Name) and node.func.value.id == "re" and bool(node.args))


def _evaluated(call: ast.Call, names: dict[str, Any]) -> re.Pattern[Any]:
    """The pattern of a call of ``re``, whose text may be put together of names of its module."""
    def value(node: ast.expr) -> Any:
        return eval(compile(ast.Expression(node), "<pattern>", "eval"), names)  # our own source

    flags = next((value(key.value) for key in call.keywords if key.arg == "flags"), 0)
    assert isinstance(call.func, ast.Attribute)
    at = {"compile": 1, "sub": 4, "subn": 4, "split": 3}.get(call.func.attr, 2)
    if len(call.args) > at:
        flags |= value(call.args[at])
    text = value(call.args[0])
    return text if isinstance(text, re.Pattern) else re.compile(text, flags)
