"""`mkdocs serve`: an edit in any of the three folders of the notebook is on the page a moment later."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

PATIENCE = 60.0
"""Seconds until a page must have changed: about one is usual, but this machine may be busy."""

SETTINGS = """\
site_name: Small shop
docs_dir: procedures
theme: {name: material}
plugins: [search, offline, benchlore]
validation: {nav: {omitted_files: ignore}}
"""
NOTEBOOK = {
    "mkdocs.yml": SETTINGS,
    "procedures/shop.yml": "shop: small\ntitle: Small shop\nparts:\n  foot: {title: The foot}\n",
    "procedures/foot/grind.yml": "procedure: grind\ntitle: Grind the foot\npart: foot\nskill: grinding\n"
                                 "tools: grinder\nsteps:\n  - do: Sweep it along the belt.\n",
    "procedures/foot/file.yml": "procedure: file\ntitle: File the foot\npart: foot\nskill: grinding\n"
                                "steps:\n  - do: Take the burr off.\n",
    "skills/grinding.yml": "skill: grinding\ntitle: Grinding\ncovers: [grind, file]\n",
    "tools/grinder.yml": "machine: grinder\ntitle: Belt grinder\nhazards:\n"
                         "  - {hazard: drawn in, word: warning, harm: It takes the sleeve., avoid: Sleeves up.}\n",
}


class Served:
    """A notebook that is being served."""

    def __init__(self, root: Path, address: str) -> None:
        self.root = root
        self.address = address

    def read(self, page: str) -> str:
        with urllib.request.urlopen(self.address + page, timeout=10) as answer:
            return str(answer.read().decode("utf-8"))

    def comes(self, page: str, words: str) -> bool:
        """Whether these words come to stand on the page in time."""
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            try:
                if words in self.read(page):
                    return True
            except OSError:
                pass  # it does not listen yet, or the page is not there yet
            time.sleep(0.2)
        return False

    def edit(self, path: str, old: str, new: str) -> None:
        file = self.root / path
        file.write_text(file.read_text("utf-8").replace(old, new), "utf-8")


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    root = tmp_path_factory.mktemp("served")
    for path, text in NOTEBOOK.items():
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        (root / path).write_text(text, "utf-8")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    with (root / "said.txt").open("wb") as said:
        server = subprocess.Popen(
            [sys.executable, "-m", "mkdocs", "serve", "--dev-addr", f"127.0.0.1:{port}"], cwd=root,
            stdout=said, stderr=subprocess.STDOUT, env={**os.environ, "NO_MKDOCS_2_WARNING": "1"},
        )
        try:
            site = Served(root, f"http://127.0.0.1:{port}/")
            assert site.comes("the-work/foot/grind.html", "Sweep it along the belt."), (root / "said.txt").read_text()
            yield site
        finally:
            server.send_signal(signal.SIGINT)
            try:
                server.wait(20)
            except subprocess.TimeoutExpired:
                server.kill()
                server.wait()


def test_an_edit_of_the_work(served: Served) -> None:
    served.edit("procedures/foot/grind.yml", "along the belt", "across the belt")
    assert served.comes("the-work/foot/grind.html", "Sweep it across the belt.")
    assert "Take the burr off." in served.read("the-work/foot/file.html")


def test_an_edit_of_a_tool_is_told_where_the_tool_is_used(served: Served) -> None:
    served.edit("tools/grinder.yml", "It takes the sleeve.", "It takes the arm.")
    assert served.comes("the-work/foot/grind.html", "It takes the arm.")


def test_an_edit_of_a_skill(served: Served) -> None:
    served.edit("skills/grinding.yml", "title: Grinding", "title: Belt work")
    assert served.comes("the-hands/skills/grinding.html", "Belt work")
    assert served.comes("the-work/foot/grind.html", "Belt work")


def test_a_new_page_comes_and_a_deleted_one_goes(served: Served) -> None:
    file = served.root / "procedures/foot/brush.yml"
    file.write_text("procedure: brush\ntitle: Brush the foot\npart: foot\nsteps:\n  - do: Towards the leg.\n", "utf-8")
    assert served.comes("the-work/foot/brush.html", "Towards the leg.")
    file.unlink()
    assert served.comes("the-work/index.html", "Grind the foot")
    until = time.monotonic() + PATIENCE
    while "Brush the foot" in served.read("the-work/index.html") and time.monotonic() < until:
        time.sleep(0.2)
    assert "Brush the foot" not in served.read("the-work/index.html")


def test_a_mistake_is_told_and_once_it_is_mended_the_page_comes(served: Served) -> None:
    """In between MkDocs lets its readers wait."""
    served.edit("procedures/foot/file.yml", "steps:\n", "time: 2,5 min\nsteps:\n")
    said = served.root / "said.txt"
    until = time.monotonic() + PATIENCE
    while "decimal-comma" not in said.read_text("utf-8") and time.monotonic() < until:
        time.sleep(0.2)
    assert "procedures/foot/file.yml:5:7: error[decimal-comma]" in said.read_text("utf-8")
    assert "Traceback" not in said.read_text("utf-8")
    served.edit("procedures/foot/file.yml", "time: 2,5 min\n", "time: 3 min\n")
    assert served.comes("the-work/foot/file.html", "3\u00a0min")
