"""`benchlore new`: a shop that builds at once, things added to it, and nothing ever overwritten."""

from __future__ import annotations

import os
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.cli.main import cli, main
from site_builder.handbook.build import build_handbook
from site_builder.notebook.finding import Level


def benchlore(*words: str, types: str = "") -> Result:
    return CliRunner().invoke(cli, list(words), input=types)


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    folder = tmp_path / "my-shop"
    assert benchlore("new", "shop", str(folder), "--title", "Oldfield's brackets").exit_code == 0
    return folder


def errors_and_warnings(shop: Path) -> list[str]:
    findings = examine(analysis(shop, date(2026, 11, 24)))
    return [f.line() for f in findings if f.level is not Level.QUESTION]


def test_a_new_shop_has_no_faults_and_builds_at_once(shop: Path) -> None:
    assert errors_and_warnings(shop) == []
    made = build_handbook(shop / "mkdocs.yml", into=None, with_errors=False)
    assert made.start == shop / "site" / "index.html"
    assert "Oldfield" in made.start.read_text("utf-8")


def test_a_new_shop_leads_editors_to_its_schemas(shop: Path) -> None:
    first = (shop / "procedures" / "bracket" / "file-the-plate.yml").read_text("utf-8").split("\n")[0]
    leads_to = first.partition("$schema=")[2]
    assert (shop / "procedures" / "bracket" / leads_to).resolve().is_file()


def test_a_folder_that_holds_something_is_left_alone(shop: Path) -> None:
    before = sorted(p.name for p in shop.iterdir())
    again = benchlore("new", "shop", str(shop))
    assert again.exit_code == 2
    assert "not empty" in again.output
    assert sorted(p.name for p in shop.iterdir()) == before


def test_a_procedure_is_written_from_what_is_told_at_the_terminal(shop: Path) -> None:
    told = "Paint the plate\nplate\nHang it by the hole.\nSpray it: thin, crosswise.\n\n"
    done = benchlore("new", "procedure", "paint-plate", "-n", str(shop), types=told)
    assert done.exit_code == 0, done.output
    text = (shop / "procedures" / "plate" / "paint-plate.yml").read_text("utf-8")
    assert "title: Paint the plate\n" in text
    assert "  - do: Hang it by the hole.\n" in text
    assert '  - do: "Spray it: thin, crosswise."\n' in text
    assert [line.split("[")[1].split("]")[0] for line in errors_and_warnings(shop)] == ["procedure-unreached"]


@pytest.mark.parametrize("words", [
    ("procedure", "paint-plate"), ("tool", "caliper", "--kind", "gauge"), ("material", "grey-paint"),
    ("skill", "painting"),
])
def test_nothing_is_invented_where_nothing_is_asked(shop: Path, words: tuple[str, ...]) -> None:
    done = benchlore("new", *words, "--yes", "-n", str(shop))
    assert done.exit_code == 0, done.output
    surveyed = analysis(shop, date(2026, 11, 24))
    assert [f for f in surveyed.reading if f.level is Level.ERROR] == []
    assert any(f.code == "value-ask" for f in examine(surveyed)), "what is not told is asked for"


def test_what_stands_there_is_never_overwritten(shop: Path) -> None:
    file = shop / "tools" / "bench-vice.yml"
    before = file.read_bytes()
    again = benchlore("new", "tool", "bench-vice", "--yes", "-n", str(shop))
    assert again.exit_code == 2
    assert "stands there already" in again.output and "nothing was written" in again.output
    assert file.read_bytes() == before


def test_a_person_is_added_to_the_others(shop: Path) -> None:
    file = shop / "skills" / "people.yml"
    before = file.read_text("utf-8")
    done = benchlore("new", "person", "ida", "--name", "Ida Kern", "--born", "2008", "-n", str(shop))
    assert done.exit_code == 0, done.output
    assert file.read_text("utf-8").startswith(before.rstrip("\n"))
    assert str(analysis(shop, date(2026, 11, 24)).notebook.people["ida"].name) == "Ida Kern"
    again = benchlore("new", "person", "ida", "--yes", "-n", str(shop))
    assert again.exit_code == 2


def test_a_bad_id_is_refused_with_a_better_one(shop: Path) -> None:
    done = benchlore("new", "material", "Grey Paint", "--yes", "-n", str(shop))
    assert done.exit_code == 2
    assert "grey-paint" in done.output


@pytest.mark.parametrize(("words", "told"), [
    (("person", "björn"), "Perhaps `bjoern`."),
    (("person", "ivo", "-y", "--born", "3.5.2011"), "write `2011-05-03`"),
    (("procedure", "wind", "-y", "--part", "Hand Griff"), "Perhaps `hand-griff`."),
    (("procedure", "wind", "-y", "--part", "../../elsewhere"), "is not an id"),
])
def test_what_could_not_be_read_afterwards_is_not_written(shop: Path, words: tuple[str, ...], told: str) -> None:
    before = sorted(shop.parent.rglob("*"))
    refused = benchlore("new", *words, "-n", str(shop))
    assert refused.exit_code == 2
    assert told in " ".join(refused.output.split())
    assert sorted(shop.parent.rglob("*")) == before
    assert errors_and_warnings(shop) == []


@pytest.mark.parametrize(("people", "told"), [
    (b"people: {mara: {name: Mara Oldfield}}\n", "by hand"),
    (b"people:\n    mara:\n        name: Mara Oldfield\n", "by hand"),
    ("people:\n  jörg: {name: Jörg}\n".encode("latin-1"), "This letter is not UTF-8."),
])
def test_a_file_of_people_laid_out_otherwise_is_left_as_it_is(shop: Path, people: bytes, told: str) -> None:
    (shop / "skills" / "people.yml").write_bytes(people)
    refused = benchlore("new", "person", "tom", "-y", "-n", str(shop))
    assert refused.exit_code == 2 and told in " ".join(refused.output.split())
    assert (shop / "skills" / "people.yml").read_bytes() == people


def test_the_way_into_a_folder_with_a_blank_can_be_typed_as_it_is_told(tmp_path: Path) -> None:
    done = benchlore("new", "shop", str(tmp_path / "My Shop"))
    assert f'cd "{tmp_path / "My Shop"}"' in done.output


@pytest.mark.parametrize(("words", "where"), [
    (("procedure", "bench-vice"), "in tools/"), (("tool", "file-the-plate"), "in procedures/bracket/"),
    (("material", "plate"), "among the parts"), (("skill", "mara"), "among the people"),
    (("person", "file-the-plate"), "in procedures/"),
    (("procedure", "half-written", "--part", "plate"), "in procedures/"),
])
def test_an_id_that_stands_anywhere_is_refused(shop: Path, words: tuple[str, ...], where: str) -> None:
    (shop / "procedures" / "half-written.yml").write_text("procedure: [")
    before = {file: file.read_bytes() for file in shop.rglob("*") if file.is_file()}
    refused = benchlore("new", *words, "--yes", "-n", str(shop))
    assert refused.exit_code == 2
    told = " ".join(refused.output.split())
    assert f"`{words[1]}` stands there already, {where}" in told and "nothing was written" in told
    assert {file: file.read_bytes() for file in shop.rglob("*") if file.is_file()} == before


def test_an_id_that_differs_by_capitals_alone_is_refused(shop: Path) -> None:
    (shop / "tools" / "Bench-Saw.yml").write_text("hand-tool: Bench-Saw\ntitle: Saw\n")
    refused = benchlore("new", "procedure", "bench-saw", "--yes", "-n", str(shop))
    assert refused.exit_code == 2
    assert "`Bench-Saw` stands there already, in tools/Bench-Saw.yml, and sticks" in " ".join(refused.output.split())
    assert not (shop / "procedures" / "shared").exists()


@pytest.mark.parametrize(("id_", "said"), [("a" * 300, "at most 100 letters"), ("nul", "Windows keeps the name `nul`")])
def test_an_id_that_cannot_name_a_file_everywhere_is_refused(shop: Path, id_: str, said: str) -> None:
    done = benchlore("new", "procedure", id_, "-y", "-n", str(shop))
    assert done.exit_code == 2
    assert said in done.output
    assert not list((shop / "procedures").rglob(f"{id_[:20]}*"))


def test_people_in_what_is_no_file_are_told(shop: Path) -> None:
    (shop / "skills" / "people.yml").unlink()
    (shop / "skills" / "people.yml").mkdir()
    done = benchlore("new", "person", "zed", "-y", "-n", str(shop))
    assert done.exit_code == 2
    assert "is no ordinary file; nothing was written" in done.output


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes here")
def test_settings_that_are_a_pipe_are_not_waited_for(shop: Path) -> None:
    (shop / "mkdocs.yml").unlink()
    os.mkfifo(shop / "mkdocs.yml")
    check = [sys.executable, "-m", "site_builder.cli", "check", str(shop)]
    done = subprocess.run(check, capture_output=True, timeout=60)
    assert done.returncode == 0


def test_what_the_system_refuses_is_told_without_a_traceback(
    monkeypatch: pytest.MonkeyPatch, shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def refused(_file: Path, _text: str) -> bool:
        raise PermissionError(13, "Permission denied", "procedures/shared/saw.yml")

    monkeypatch.setattr("site_builder.cli.new.write_new", refused)
    monkeypatch.setattr(sys, "argv", ["benchlore", "new", "procedure", "saw-it", "-y", "-n", str(shop)])
    with pytest.raises(SystemExit) as left:
        main()
    assert left.value.code == 2
    assert "procedures/shared/saw.yml: Permission denied." in capsys.readouterr().err
