"""The notebooks in which mistakes are made, each in a folder of its own that may be spoilt."""

from __future__ import annotations

import shutil
from collections.abc import Iterator, Mapping
from datetime import date
from functools import cached_property
from pathlib import Path

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.cli.new import STARTER
from site_builder.notebook.finding import Finding

ROOT = Path(__file__).parents[2]
TODAY = date(2026, 11, 24)
_FOLDERS = ("procedures", "skills", "tools")


class Copy:
    """A copy of a notebook: its files, what is found in it as it is, and with one file otherwise."""

    def __init__(self, name: str, source: Path, folder: Path) -> None:
        self.name = name
        self.folder = folder
        for part in _FOLDERS:
            if (source / part).is_dir():
                shutil.copytree(source / part, folder / part)
        if name == "starter":
            shop = folder / "procedures" / "shop.yml"
            named = shop.read_text("utf-8").replace(": ID", ": starter").replace(": TITLE", ": The bench")
            shop.write_text(named, "utf-8")

    @cached_property
    def files(self) -> Mapping[str, str]:
        """Path to text, of all that is read."""
        return {
            file.relative_to(self.folder).as_posix(): file.read_text("utf-8")
            for file in sorted(self.folder.rglob("*.yml"))
        }

    @cached_property
    def sound(self) -> list[Finding]:
        """What is found before any mistake."""
        return self._found()

    def found_with(self, path: str, text: str) -> list[Finding]:
        """What is found when this text stands in this file; the file is as before afterwards."""
        file = self.folder / path
        try:
            file.write_text(text, "utf-8")
            return self._found()
        finally:
            file.write_text(self.files[path], "utf-8")

    def _found(self) -> list[Finding]:
        return examine(analysis(self.folder, TODAY))


def copies(into: Path) -> Iterator[Copy]:
    """Every notebook, the small ones first and the demo last."""
    shops = sorted((ROOT / "tests" / "notebooks").rglob("procedures/shop.yml"))
    places = {shop.parents[1].name: shop.parents[1] for shop in shops}
    places |= {"starter": STARTER, "demo": ROOT}
    for name, source in places.items():
        yield Copy(name, source, into / name)
