"""What goes into a handbook is what it needs: no letter, no editor's copy, nothing from outside, and no waiting."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
from pathlib import Path

import pytest

SETTINGS = """\
site_name: Small shop
docs_dir: procedures
theme: {name: material}
plugins: [search, offline, benchlore]
validation: {nav: {omitted_files: ignore}}
extra_css: [style/own.css]
"""
GOOD = "procedure: grind\ntitle: Grind the foot flat\nsteps:\n  - do: Sweep it along the belt.\n"
STORY = "# Old\n\nSee [the drawing](jig.pdf) and [the letter](letter.docx).\n"


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    root = tmp_path / "shop"
    (root / "procedures" / "stories").mkdir(parents=True)
    (root / "procedures" / "style").mkdir()
    (root / "mkdocs.yml").write_text(SETTINGS, "utf-8")
    (root / "procedures" / "grind.yml").write_text(GOOD, "utf-8")
    (root / "procedures" / "style" / "own.css").write_text("p{}", "utf-8")
    return root


def benchlore(shop: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """The command in a process of its own, which is not waited for longer than a build may take."""
    return subprocess.run([sys.executable, "-m", "site_builder.cli", *words], cwd=shop, capture_output=True, text=True,
                          check=False, timeout=300)


def test_only_what_a_page_leads_to_goes_out(shop: Path) -> None:
    stories = shop / "procedures" / "stories"
    for name in ("jig.pdf", "other.pdf", "letter.docx", "old.md.bak", "old.md~", "page.html", "notes.txt", "x.js"):
        (stories / name).write_text("mine", "utf-8")
    (stories / "old.md").write_text(STORY, "utf-8")
    told = benchlore(shop, "check").stdout
    assert "`letter.docx` is no page of the handbook." in told and "Save it as PDF" in told
    done = benchlore(shop, "build", "--with-errors")
    assert done.returncode == 0, done.stderr
    assert sorted(file.name for file in (shop / "site" / "stories").iterdir()) == ["jig.pdf", "old.html"]
    assert (shop / "site" / "style" / "own.css").exists(), "what the settings name goes out"
    assert '<a href="jig.pdf">the drawing</a>' in (shop / "site" / "stories" / "old.html").read_text("utf-8")


def test_nothing_from_outside_the_notebook_goes_out_even_with_errors(shop: Path, tmp_path: Path) -> None:
    outside = tmp_path / "private"
    outside.mkdir()
    (outside / "diary.md").write_text("# My diary\n\nA secret of mine.\n", "utf-8")
    (outside / "secret.yml").write_text(GOOD.replace("grind", "secret-of-mine"), "utf-8")
    (outside / "secret.txt").write_text("A secret of mine.", "utf-8")
    procedures = shop / "procedures"
    (procedures / "stories" / "linked.md").symlink_to(outside / "diary.md")
    (procedures / "stories" / "old.md").write_text("# Old\n\n[one](secret.txt) [two](../folder/secret.txt)\n", "utf-8")
    (procedures / "stories" / "secret.txt").symlink_to(outside / "secret.txt")
    (procedures / "secret.yml").symlink_to(outside / "secret.yml")
    (procedures / "folder").symlink_to(outside)
    assert "link-out" in benchlore(shop, "check").stdout
    assert benchlore(shop, "build").returncode == 1
    done = benchlore(shop, "build", "--with-errors")
    assert done.returncode == 0, done.stderr
    held = [file.relative_to(shop).as_posix() for file in (shop / "site").rglob("*")
            if file.is_file() and b"ecret of mine" in file.read_bytes()]
    assert held == []
    assert not (shop / "site" / "folder").exists() and not (shop / "site" / "stories" / "linked.html").exists()


def test_pipes_and_sockets_are_told_and_not_waited_for(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    pipes = ("procedures/pipe", "procedures/grind.yml", "procedures/stories/pipe.md", "procedures/photos/pipe.jpg",
             "tools/pipe.yml", "skills/records/sign-offs.yml", "skills/records/sign-offs.last")
    for where in pipes:
        (shop / where).parent.mkdir(parents=True, exist_ok=True)
        (shop / where).unlink(missing_ok=True)
        os.mkfifo(shop / where)
    monkeypatch.chdir(shop / "procedures")
    with socket.socket(socket.AF_UNIX) as one:
        one.bind("door")
        told = benchlore(shop, "check").stdout
        for where in (*pipes, "procedures/door"):
            assert f"{where}:1:1: error[file-unreadable] This is no ordinary file." in told
        for words in (("verify",), ("build", "--with-errors")):
            done = benchlore(shop, *words)
            assert "Traceback" not in done.stderr, done.stderr
    assert (shop / "site" / "index.html").exists()
