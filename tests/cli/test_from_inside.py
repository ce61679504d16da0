"""Commands from a folder inside the notebook find its root."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from site_builder.cli.main import cli


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    folder = tmp_path / "shop"
    assert CliRunner().invoke(cli, ["new", "shop", str(folder)]).exit_code == 0
    return folder


@pytest.mark.parametrize("inside", ["procedures", "procedures/bracket", "skills", "tools", ".schemas"])
def test_every_command_finds_the_notebook_it_is_called_in(
    inside: str, shop: Path, monkeypatch: pytest.MonkeyPatch,
) -> None:
    at_root = {words: CliRunner().invoke(cli, [*words, "-n", str(shop)]).output
               for words in (("check",), ("questions",), ("verify",), ("lessons",))}
    monkeypatch.chdir(shop / inside)
    for words, told in at_root.items():
        assert CliRunner().invoke(cli, [*words]).output == told, words
    done = CliRunner().invoke(cli, ["new", "material", "grey-paint", "--yes"])
    assert done.exit_code == 0 and (shop / "tools" / "grey-paint.yml").exists()


def test_a_build_from_inside_goes_where_the_settings_say(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(shop / "procedures" / "bracket")
    done = CliRunner().invoke(cli, ["build"])
    assert done.exit_code == 0, done.output
    assert (shop / "site" / "index.html").exists()
    monkeypatch.chdir(shop / ".schemas")
    assert CliRunner().invoke(cli, ["build", "-d", "../out"]).exit_code == 0, "-d is seen from where one stands"
    assert (shop / "out" / "index.html").exists()


def test_a_part_may_be_called_tools(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (shop / "procedures" / "tools").mkdir()
    monkeypatch.chdir(shop / "procedures")
    done = CliRunner().invoke(cli, ["new", "material", "grey-paint", "--yes"])
    assert done.exit_code == 0 and (shop / "tools" / "grey-paint.yml").exists()


def test_a_folder_of_tools_in_somebodys_home_is_no_notebook(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "tools" / "lathe").mkdir(parents=True)
    monkeypatch.chdir(tmp_path / "tools" / "lathe")
    refused = CliRunner().invoke(cli, ["check"])
    assert refused.exit_code == 2 and "There is no notebook" in refused.output


def test_the_last_line_of_a_failed_build_has_the_numbers_and_the_last_good_handbook(
    shop: Path, monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(shop)
    (shop / "procedures" / "bad.yml").write_text("procedure: bad\ntitle: Bad\nsteps:\n  - do: File it.\n"
                                                 "    time: 2,5 min\n")
    last = CliRunner().invoke(cli, ["build"]).output.strip().split("\n")[-1]
    assert last.startswith("No handbook was made: 1 error, ") and last.endswith("There is no earlier one.")
    assert CliRunner().invoke(cli, ["build", "--with-errors"]).exit_code == 0
    last = CliRunner().invoke(cli, ["build"]).output.strip().split("\n")[-1]
    assert last.endswith(f"The last good one is as it was: {shop / 'site' / 'index.html'}")
