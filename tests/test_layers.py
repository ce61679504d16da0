"""The house keeps its floors: a module imports only from the layers above its own in this list."""

from __future__ import annotations

import ast
import re
from collections import Counter
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent / "site_builder"

LAYERS = (
    {"quantity", "cache"},
    {"formulas", "safety", "season", "tellings"},
    {"notebook"},
    {"amend"},
    {"pictures"},
    {"skills", "batch"},
    {"figures"},
    {"plans"},
    {"analysis"},
    {"checks"},
    {"views"},
    {"handbook"},
    {"paper", "ebook"},
    {"archive"},
    {"start_files"},
    {"bench", "cli"},
)
"""Lowest first. `formulas`, `safety` and `season` are arithmetic: numbers in, numbers out."""

ARITHMETIC = ("formulas", "safety", "season")
FORBIDDEN_IN_ARITHMETIC = ("yaml", "pydantic", "mkdocs", "jinja2", "pathlib", "click")
MODULES = sorted(ROOT.rglob("*.py"))


def layer_of(name: str) -> int:
    return next(i for i, names in enumerate(LAYERS) if name in names)


def imports(file: Path) -> list[str]:
    found = []
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            found += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{file}: relative imports hide the layer"
            found.append(node.module or "")
    return found


@pytest.mark.parametrize("file", MODULES, ids=lambda f: f.relative_to(ROOT).as_posix())
def test_imports_run_one_way(file: Path) -> None:
    own = file.relative_to(ROOT).parts[0].removesuffix(".py")
    if own == "__init__":
        assert not [i for i in imports(file) if i.startswith("site_builder")]
        return
    for name in imports(file):
        if name.startswith("site_builder."):
            other = name.split(".")[1]
            assert layer_of(other) <= layer_of(own), f"{own} must not know of {other}"
        if own in ARITHMETIC:
            assert name.split(".")[0] not in FORBIDDEN_IN_ARITHMETIC


def test_nobody_reaches_into_the_rules() -> None:
    """A rule is asked through the catalogue; what rules and faces share stands beside it, not under it."""
    found = {(file.relative_to(ROOT).as_posix(), name) for file in MODULES
             if not file.is_relative_to(ROOT / "checks" / "rules")
             for name in imports(file) if name.startswith("site_builder.checks.rules.")}
    assert found == set()


def test_nothing_is_kept_in_the_dictionary_of_another_object() -> None:
    """What is worked out once is a `cached_property` of its owner, where a reader finds it."""
    reaching = re.compile(r"__dict__(?:\[[^\]]*\] =|\.get|\.setdefault)|repr\([^)]*annotation")
    hidden = {file.relative_to(ROOT).as_posix() for file in MODULES if reaching.search(file.read_text("utf-8"))}
    assert hidden == set()


def test_views_know_of_no_face() -> None:
    """What they tell is for a page, for paper and for the bench alike: no markup, no addresses, nothing of MkDocs."""
    banned = ("markupsafe", "jinja2", "mkdocs", "html")
    found = {file.relative_to(ROOT).as_posix(): name for file in MODULES if file.is_relative_to(ROOT / "views")
             for name in imports(file) if name.split(".")[0] in banned}
    tags = {file.relative_to(ROOT).as_posix() for file in MODULES if file.is_relative_to(ROOT / "views")
            if re.search(r"</[a-z]+>|bl-[a-z]|href=", file.read_text("utf-8"))}
    assert found == {} and tags == set()


def test_paper_is_made_from_views_and_never_from_pages() -> None:
    """It stands beside the handbook: what both tell is a view."""
    found = {(file.name, name) for file in MODULES if file.is_relative_to(ROOT / "paper") for name in imports(file)
             if name.startswith("site_builder.handbook")}
    assert found == set()


def test_every_package_opens_with_its_purpose() -> None:
    silent = [
        p.relative_to(ROOT).as_posix()
        for p in ROOT.rglob("__init__.py")
        if not ast.get_docstring(ast.parse(p.read_text("utf-8")))
    ]
    assert silent == []


def test_no_module_has_outgrown_its_idea() -> None:
    long = {f.relative_to(ROOT).as_posix(): n for f in MODULES if (n := len(f.read_text("utf-8").splitlines())) > 420}
    assert long == {}


def test_no_two_helpers_of_the_tests_have_one_name() -> None:
    """Folders of tests that are no packages share one room for names: the second `shops` would be the first."""
    tests = Path(__file__).parent
    loose = [file.stem for file in tests.glob("*/*.py")
             if not (file.parent / "__init__.py").exists() and file.stem != "conftest"]
    assert [name for name, times in Counter(loose).items() if times > 1] == []
