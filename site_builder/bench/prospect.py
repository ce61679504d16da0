"""What would be found in the notebook if an amendment were written: read and examined beside, and nothing stays."""

from __future__ import annotations

import shutil
import tempfile
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from site_builder.amend import Amendment, Conflict, Refused, Splices, plan
from site_builder.analysis.analysis import analysis
from site_builder.bench.here import Here
from site_builder.checks.engine import examine
from site_builder.notebook.files import FOLDERS
from site_builder.notebook.finding import Finding, Level

MOST = 300
"""Of so many files at most a whole notebook is examined before a line is written; of more only what is read is."""
_WORDS = ("*.yml", "*.yaml", "*.md", "*.vtt", "*.srt")
_OF_PICTURES = "picture-"


@dataclass(frozen=True, slots=True)
class Prospect:
    """What stands in the way, and what would be found that is not found now."""

    stop: Refused | Conflict | None = None
    new: tuple[Finding, ...] = ()

    @property
    def errors(self) -> tuple[Finding, ...]:
        return tuple(one for one in self.new if one.level is Level.ERROR)


def prospect(here: Here, amendment: Amendment) -> Prospect:
    """Look ahead. Raises OSError where the disk refuses."""
    planned = plan(here.root, amendment)
    if not isinstance(planned, Splices):
        return Prospect(planned)
    reading = here.reading()
    if len(reading.survey.notebook.digests) > MOST:
        return Prospect()
    with tempfile.TemporaryDirectory(prefix="benchlore-ahead-") as name:
        beside = Path(name)
        for folder in FOLDERS:
            for pattern in _WORDS:
                for file in (here.root / folder).rglob(pattern):
                    if file.is_file() and not file.is_symlink():
                        to = beside / file.relative_to(here.root)
                        to.parent.mkdir(parents=True, exist_ok=True)
                        shutil.copyfile(file, to)
        for file_change in planned.files:
            (beside / file_change.file).unlink(missing_ok=True)
            if file_change.after is not None:
                (beside / file_change.to).parent.mkdir(parents=True, exist_ok=True)
                (beside / file_change.to).write_bytes(file_change.after)
        found = examine(analysis(beside, here.today))
    before = Counter((one.code, one.message) for one in reading.findings)
    new = []
    for one in found:
        if one.level is Level.QUESTION or one.code.startswith(_OF_PICTURES):
            continue
        if before[one.code, one.message]:
            before[one.code, one.message] -= 1
        else:
            new.append(one)
    return Prospect(None, tuple(new))
