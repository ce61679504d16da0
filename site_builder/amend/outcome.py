"""What comes of an amendment: splices, a refusal, a conflict, or what was written and kept."""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.amend.amendment import Amendment, Plain, TreePath
from site_builder.amend.splices import ByteSplice
from site_builder.notebook.finding import Finding


@dataclass(frozen=True, slots=True)
class FileChange:
    """One file before and after. ``before`` None: it is begun; ``after`` None: it is taken away."""

    file: str
    to: str
    """Its name afterwards; the same unless it gets another name."""
    before: bytes | None
    after: bytes | None
    splices: tuple[ByteSplice, ...]


@dataclass(frozen=True, slots=True)
class Splices:
    """What would be written, file by file; nothing is written yet."""

    amendment: Amendment
    files: tuple[FileChange, ...]


@dataclass(frozen=True, slots=True)
class Refused:
    """Nothing was written, because it could not be done without disturbing what stands there, or would be an error."""

    why: str
    """In trade words, for whoever writes."""
    file: str
    line: int
    """Where to change it by hand, for whoever mends files; 1 where the whole file is meant."""
    findings: tuple[Finding, ...] = ()
    """What reading the new text would have found, each with its fix."""


@dataclass(frozen=True, slots=True)
class Conflict:
    """Nothing was written, because the file says something else than whoever wrote has seen. Neither is lost."""

    file: str
    path: TreePath
    seen: Plain | None
    """What stood there when it was looked at."""
    stands: Plain | None
    """What stands there now."""
    shall: Plain | None
    """What was to be written."""
    line: int = 1


@dataclass(frozen=True, slots=True)
class Written:
    """It is on the disk, and kept under this name so that it can be taken back."""

    kept: str
    """The name of the amendment in the history: ``2026-12-01-0007``."""
    files: tuple[FileChange, ...]
