"""What is missing or broken is told in words; what can be printed is printed, and the last good paper stays."""

from __future__ import annotations

import errno
import importlib.util
import os
import shutil
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.cli.main import cli
from site_builder.paper import fonts
from site_builder.paper.book import make_book
from site_builder.paper.press import is_ours
from site_builder.paper.problem import CannotPrint
from tests.needed import missing
from tests.paper.conftest import NOTEBOOKS, TODAY
from tests.paper.reading import read_aloud

SHOP = """=== procedures/shop.yml
shop: forge
title: The forge
parts:
  hook: Hook
=== procedures/hook/forge-hook.yml
procedure: forge-hook
title: Forge the hook
part: hook
steps:
  - do: Draw the point.
    pictures:
      - {file: photos/gone.jpg, shows: The point}
      - {file: photos/broken.svg, shows: The bend}
=== procedures/photos/broken.svg
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M0 0
"""
FAR = "\N{CJK UNIFIED IDEOGRAPH-9244}\N{CJK UNIFIED IDEOGRAPH-5DE5}"


def test_pictures_that_are_gone_or_broken_are_told_and_the_rest_is_printed(tmp_path: Path) -> None:
    write_example(SHOP, tmp_path)
    made = make_book(analysis(tmp_path, TODAY))
    assert len(made.lacks) == 2
    assert "gone.jpg is not printed: the notebook has no such file" in made.lacks[0]
    assert "broken.svg is not printed: The drawing is broken" in made.lacks[1]
    (tmp_path / "book.pdf").write_bytes(made.data)
    told = "\n".join(read_aloud(tmp_path / "book.pdf"))
    assert "The picture gone.jpg is not in this book." in told and "Draw the point." in told


def test_a_drawing_that_only_the_press_cannot_read_is_told_too(tmp_path: Path) -> None:
    write_example(SHOP, tmp_path)
    odd = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 0 0" width="0" height="0"><path d="M0 0"/></svg>'
    (tmp_path / "procedures/photos/broken.svg").write_text(odd, "utf-8")
    made = make_book(analysis(tmp_path, TODAY))
    assert any("broken.svg is not printed" in line for line in made.lacks)


def test_a_name_in_a_script_that_the_fonts_lack_is_told_and_stands_by_its_numbers(tmp_path: Path) -> None:
    write_example(SHOP.replace("Forge the hook", f"Forge the hook of {FAR}"), tmp_path)
    made = make_book(analysis(tmp_path, TODAY))
    assert "do not have: \N{CJK UNIFIED IDEOGRAPH-9244} \N{CJK UNIFIED IDEOGRAPH-5DE5}" in made.lacks[0]
    assert "--fonts FOLDER" in made.lacks[0]
    (tmp_path / "book.pdf").write_bytes(made.data)
    assert "H2: Forge the hook of [U+9244 U+5DE5]" in read_aloud(tmp_path / "book.pdf")


def test_letters_of_a_font_that_the_shop_brings_are_set(tmp_path: Path) -> None:
    brought = Path("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf")
    if not brought.is_file():
        missing(str(brought))
    letter = "\N{ARMENIAN CAPITAL LETTER AYB}"
    write_example(SHOP.replace("Forge the hook", f"Forge the hook {letter}"), tmp_path)
    (tmp_path / "fonts").mkdir()
    (tmp_path / "fonts/own.ttf").write_bytes(brought.read_bytes())
    made = make_book(analysis(tmp_path, TODAY), fonts=tmp_path / "fonts")
    assert not any("do not have" in line for line in made.lacks)
    (tmp_path / "book.pdf").write_bytes(made.data)
    assert f"H2: Forge the hook {letter}" in read_aloud(tmp_path / "book.pdf")


def test_a_folder_without_fonts_and_a_file_that_is_none_are_told(tmp_path: Path) -> None:
    with pytest.raises(CannotPrint, match="There is no font in"):
        fonts.font_files(tmp_path)
    (tmp_path / "bad.ttf").write_bytes(b"no font")
    with pytest.raises(CannotPrint, match=r"bad\.ttf cannot be read as a font"):
        fonts.letters_of(fonts.font_files(tmp_path))


def test_missing_typefaces_and_a_missing_engine_say_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    found = importlib.util.find_spec
    monkeypatch.setattr(fonts, "find_spec", lambda name: None if name.startswith("font_") else found(name))
    with pytest.raises(CannotPrint, match=r"font-source-serif-pro is not there\. Install it: pip install"):
        make_book(analysis(NOTEBOOKS / "trades/kettle", TODAY))
    monkeypatch.undo()
    monkeypatch.setitem(sys.modules, "typst", None)
    with pytest.raises(CannotPrint, match=r"is not installed\. Install it: pip install 'benchlore\[print\]'"):
        make_book(analysis(NOTEBOOKS / "trades/kettle", TODAY))


def test_a_full_disk_and_a_foreign_file_leave_what_stood_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
) -> None:
    out = tmp_path / "book.pdf"
    command = ["print", "count", "-n", str(NOTEBOOKS / "trades/kettle"), "--today", "2026-11-25", "-o", str(out)]
    assert CliRunner().invoke(cli, command).exit_code == 0
    good = out.read_bytes()
    assert is_ours(out)

    def full(_handle: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    told = CliRunner().invoke(cli, command)
    assert told.exit_code == 2 and "The disk is full" in told.output
    assert out.read_bytes() == good and [*tmp_path.iterdir()] == [out]
    monkeypatch.undo()
    out.write_bytes(b"%PDF-1.7 a letter of somebody else")
    told = CliRunner().invoke(cli, command)
    assert told.exit_code == 2 and "is no paper that we made" in told.output
    assert out.read_bytes() == b"%PDF-1.7 a letter of somebody else"


def test_a_full_disk_under_the_press_is_told_and_the_last_paper_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
) -> None:
    out = tmp_path / "count.pdf"
    command = ["print", "count", "-n", str(NOTEBOOKS / "trades/kettle"), "--today", "2026-11-25", "-o", str(out)]
    assert CliRunner().invoke(cli, command).exit_code == 0
    good = out.read_bytes()

    def full(*_files: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(shutil, "copyfile", full)
    told = CliRunner().invoke(cli, command)
    assert told.exit_code == 2 and "The disk on which papers are put together" in told.output
    assert out.read_bytes() == good and [*tmp_path.iterdir()] == [out]


def test_a_notebook_with_errors_is_not_printed_unless_one_says_so(tmp_path: Path) -> None:
    write_example(SHOP.replace("title: Forge the hook", "title: Forge the hook\nafter: nothing-of-the-kind"), tmp_path)
    command = ["print", "book", "-n", str(tmp_path), "-o", str(tmp_path / "book.pdf"), "--today", "2026-11-25"]
    told = CliRunner().invoke(cli, command)
    assert told.exit_code == 1 and not (tmp_path / "book.pdf").exists()
    assert CliRunner().invoke(cli, [*command, "--with-errors"]).exit_code == 0
