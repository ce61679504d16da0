"""Pages made before, kept for the next build: a page is made anew only when its key changed (`page_keys`)."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any

from site_builder.handbook.finder import Part
from site_builder.handbook.site import Page


@dataclass
class Memory:
    """The pages of the last build and those of this one; without a folder only for as long as we run."""

    folder: Path | None = None
    before: dict[str, tuple[str, Page]] = field(default_factory=dict)
    now: dict[str, tuple[str, Page]] = field(default_factory=dict)
    made: list[str] = field(default_factory=list)
    """The pages that had to be made in the last build."""

    def begin(self) -> None:
        """A new build: what was made last is what is remembered."""
        self.before = self.now or self.before
        self.now, self.made = {}, []

    def sheet(self, name: str, key: str, make: Callable[[], Page]) -> Page:
        """The page of this name if its key is as before, else the page made now. An empty key is never as before."""
        known = self.before.get(name) or self._read(name)
        if known is None or known[0] != key or not key:
            known = (key, make())
            self.made.append(name)
        self.now[name] = known
        return known[1]

    def close(self) -> None:
        """Keep this build's pages for the next one. A folder that cannot be written to keeps nothing."""
        if self.folder is None:
            return
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            for name in self.made:
                key, sheet = self.now[name]
                aside = self.folder / f"{name}.making"
                aside.write_text(json.dumps([key, asdict(sheet)]), "utf-8")
                aside.replace(self._file(name))
            for file in self.folder.glob("*.json"):
                if file.stem not in self.now:
                    file.unlink()
        except OSError:
            return

    def _read(self, name: str) -> tuple[str, Page] | None:
        if self.folder is None:
            return None
        try:
            key, kept = json.loads(self._file(name).read_bytes())
            return str(key), _sheet(kept)
        except (OSError, ValueError, TypeError, KeyError):
            return None  # nothing was kept, or what was kept is damaged

    def _file(self, name: str) -> Path:
        assert self.folder is not None
        return self.folder / f"{name}.json"


def _sheet(kept: Mapping[str, Any]) -> Page:
    return Page(**{**kept, "parts": tuple(Part(**part) for part in kept["parts"])})
