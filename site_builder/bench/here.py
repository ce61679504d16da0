"""The notebook that lies on the bench: read anew when one of its files has changed."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable
from contextlib import suppress
from datetime import date, datetime
from functools import cached_property
from pathlib import Path
from threading import RLock

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.engine import examine
from site_builder.checks.interview import interview
from site_builder.checks.weight import Weighed, weighed
from site_builder.notebook.files import FOLDERS
from site_builder.notebook.finding import Finding
from site_builder.views.notebook_view import NotebookView

Mark = frozenset[tuple[str, int, int, int, int]]


class Reading:
    """The notebook as it was read once, with what follows from it, each worked out when it is first asked for."""

    def __init__(self, survey: Analysis) -> None:
        self.survey = survey

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        return tuple(examine(self.survey))

    @cached_property
    def questions(self) -> tuple[Weighed, ...]:
        """The weightiest first."""
        return weighed(self.survey, interview(self.survey, self.findings, probing=False))

    @cached_property
    def views(self) -> NotebookView:
        return NotebookView(self.survey)


class Here:
    """One notebook on the bench. ``now`` is asked for the day and the time of everything that is written."""

    def __init__(self, root: Path, now: Callable[[], datetime], day: date | None = None) -> None:
        self.root = root.resolve()
        self.now = now
        self._day = day
        self._alone = RLock()
        self._mark: Mark | None = None
        self._read: Reading | None = None
        self._read_on: date | None = None

    @property
    def today(self) -> date:
        """The day at which ages and due dates are reckoned."""
        return self._day or self.now().date()

    @property
    def name(self) -> str:
        """A short name of this notebook for files outside of it."""
        return hashlib.blake2b(str(self.root).encode(), digest_size=8).hexdigest()

    def reading(self) -> Reading:
        """The notebook as it is now."""
        with self._alone:
            mark = self._marked()
            if self._read is None or mark != self._mark or self._read_on != self.today:
                self._read = Reading(analysis(self.root, self.today))
                self._mark, self._read_on = mark, self.today
            return self._read

    def _marked(self) -> Mark:
        """Every file of the notebook, stories and pictures too, as the disk tells it apart from what it was."""
        found = set()
        for folder in FOLDERS:
            for parent, _, names in os.walk(self.root / folder):
                for name in names:
                    path = Path(parent, name)
                    with suppress(OSError):  # gone meanwhile, or a link that leads nowhere
                        told = path.stat()
                        found.add((str(path), told.st_mtime_ns, told.st_ctime_ns, told.st_size, told.st_ino))
        return frozenset(found)
