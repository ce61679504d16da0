"""What opens a notebook by double click. Tried in full on Linux; the one for Windows is only read here."""

from __future__ import annotations

import os
import shutil
import stat
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from site_builder.cli.bench import is_bare
from site_builder.start_files import START_FILES, lay_start_files

UNIX = "Open the bench.sh"
FROM_THE_SYSTEM = ("sh", "dirname", "uname", "mkdir", "cat", "env")
pytestmark = pytest.mark.skipif(os.name == "nt", reason="the shell's own file is for Linux and macOS")


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    """A notebook with its start files; beside it a home without Benchlore and a PATH without Python."""
    notebook = tmp_path / "the shop's book"
    notebook.mkdir()
    lay_start_files(notebook)
    programs = tmp_path / "bin"
    programs.mkdir()
    for name in FROM_THE_SYSTEM:
        found = shutil.which(name)
        assert found is not None
        (programs / name).symlink_to(found)
    return notebook


def opened(notebook: Path) -> subprocess.CompletedProcess[str]:
    """What happens at a double click; Enter is pressed when it asks for it."""
    around = notebook.parent
    return subprocess.run([str(notebook / UNIX)], input="\n", capture_output=True, text=True, check=False, cwd="/",
                          env={"PATH": str(around / "bin"), "HOME": str(around / "home"), "LC_ALL": "C.UTF-8"})


def program(notebook: Path, name: str, lines: str) -> None:
    file = notebook.parent / "bin" / name
    file.write_text(f"#!/bin/sh\n{lines}\n", "utf-8")
    file.chmod(0o755)


def a_wheel(notebook: Path) -> None:
    """A file as pip takes it, with a program that says from where and with what it was begun."""
    said = 'import os, sys\ndef main():\n    print("opened in", os.getcwd(), "with", *sys.argv[1:])\n'
    info = "benchlore-9.9.dist-info"
    with zipfile.ZipFile(notebook / "benchlore-9.9-py3-none-any.whl", "w") as wheel:
        wheel.writestr("benchlore_said.py", said)
        wheel.writestr(f"{info}/METADATA", "Metadata-Version: 2.1\nName: benchlore\nVersion: 9.9\n")
        wheel.writestr(f"{info}/WHEEL", "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n")
        wheel.writestr(f"{info}/entry_points.txt", "[console_scripts]\nbenchlore = benchlore_said:main\n")
        wheel.writestr(f"{info}/RECORD", "")


def test_benchlore_that_is_there_opens_the_bench_of_this_folder(desk: Path) -> None:
    program(desk, "benchlore", 'echo "in $PWD: $*"')
    ended = opened(desk)
    assert (ended.returncode, ended.stdout) == (0, f"in {desk}: bench --open\n")


def test_a_bench_that_does_not_open_leaves_time_to_read_why(desk: Path) -> None:
    program(desk, "benchlore", '[ "$1" = --version ] || { echo "The port is taken."; exit 2; }')
    ended = opened(desk)
    assert ended.returncode == 1
    assert ended.stdout == ("The port is taken.\nThe bench did not open. What it said stands above.\n"
                            "Press Enter to close this window. ")


def test_without_benchlore_it_says_what_to_put_beside(desk: Path) -> None:
    ended = opened(desk)
    assert ended.returncode == 1
    assert "Put its file, benchlore-….whl, into this folder and begin again." in ended.stdout


@pytest.mark.parametrize("python", ["", "exit 1"])
def test_without_a_python_that_is_new_enough_it_says_where_to_get_one(desk: Path, python: str) -> None:
    a_wheel(desk)
    if python:
        program(desk, "python3", python)
    ended = opened(desk)
    assert ended.returncode == 1
    assert "Python 3.11 or later is not on this computer. Get it from python.org and begin again." in ended.stdout


def test_what_is_missing_is_made_once_outside_the_notebook(desk: Path) -> None:
    a_wheel(desk)
    (desk.parent / "bin" / "python3").symlink_to(Path(sys._base_executable))
    before = sorted(desk.iterdir())
    ended = opened(desk)
    assert ended.returncode == 0, ended.stdout + ended.stderr
    assert ended.stdout == ("Benchlore is made ready. This is done once and takes a minute or two.\n"
                            f"opened in {desk} with bench --open\n")
    (desk / "benchlore-9.9-py3-none-any.whl").unlink()
    assert opened(desk).stdout == f"opened in {desk} with bench --open\n"
    assert sorted(desk.iterdir()) == [one for one in before if one.suffix != ".whl"]


def test_a_broken_file_of_benchlore_is_told(desk: Path) -> None:
    (desk / "benchlore-9.9-py3-none-any.whl").write_bytes(b"no wheel")
    (desk.parent / "bin" / "python3").symlink_to(Path(sys._base_executable))
    ended = opened(desk)
    assert ended.returncode == 1
    assert "Benchlore could not be made ready" in ended.stdout


def test_what_stands_under_the_names_is_left_and_all_can_be_begun(desk: Path) -> None:
    (desk / UNIX).write_text("mine\n", "utf-8")
    lay_start_files(desk)
    assert (desk / UNIX).read_text("utf-8") == "mine\n"
    assert {one.name for one in desk.iterdir()} == set(START_FILES)
    assert (desk / "Open the bench.command").stat().st_mode & stat.S_IXUSR


def test_the_file_for_windows_says_that_it_was_never_tried_and_has_the_line_ends_of_windows(desk: Path) -> None:
    told = (desk / "Open the bench.bat").read_bytes()
    assert b"UNTRIED" in told
    assert told.count(b"\n") == told.count(b"\r\n")
    assert max(map(len, told.decode("utf-8").splitlines())) < 8191
    labels = {line[1:] for line in told.decode("utf-8").splitlines() if line.startswith(":")}
    assert labels == {"open", "stay"}


def test_a_folder_with_nothing_but_what_opens_it_is_bare_and_a_shop_begins_there(desk: Path) -> None:
    a_wheel(desk)
    (desk / ".DS_Store").write_bytes(b"")
    (desk / "Thumbs.db").write_bytes(b"")
    assert is_bare(desk)
    (desk / "letter.txt").write_text("Dear all,\n", "utf-8")
    assert not is_bare(desk)
