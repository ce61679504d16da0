"""What was written, kept so that it can be read and taken back: one small YAML file an amendment.

They lie in the folder ``amendments`` of the notebook, beside its three folders and in none of them, so that they go
along when the notebook is copied and are never published: ``amendments/2026-12/2026-12-01-0007.yml``. Each is written
once, whole, and never changed.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from hashlib import blake2b
from pathlib import Path
from typing import Any

import yaml

from site_builder.amend.amendment import Change, Plain
from site_builder.amend.outcome import FileChange
from site_builder.amend.splices import ByteSplice

FOLDER = "amendments"
PENDING = ".pending.yml"
"""The one that is being written; it gets its name when all of its files are on the disk."""
CONTEXT = 3
"""So many lines above and below a splice are kept, by which it is found again after other edits."""

_NAME = re.compile(r"(\d{4}-\d{2})-\d{2}-\d{4,}")
_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True)
class KeptSplice:
    """A splice with the lines around it, as they stood when it had been made."""

    splice: ByteSplice
    line: int
    above: bytes
    below: bytes


@dataclass(frozen=True, slots=True)
class KeptFile:
    """A file before and after: digests of its bytes, None where there was no file, and what was replaced."""

    file: str
    to: str
    was: str | None
    is_: str | None
    splices: tuple[KeptSplice, ...]


@dataclass(frozen=True, slots=True)
class Kept:
    """An amendment that was written."""

    name: str
    what: str
    who: str
    when: datetime
    changes: tuple[Change, ...]
    files: tuple[KeptFile, ...]
    takes_back: str | None = None
    """The name of the amendment that this one took back."""


def digest(data: bytes | None) -> str | None:
    """32 hexadecimal digits of the bytes of a file; None where there is none."""
    return None if data is None else blake2b(data, digest_size=16).hexdigest()


def kept_file(change: FileChange) -> KeptFile:
    """What is kept of one file."""
    after = change.after or b""
    kept = []
    shift = 0
    for splice in change.splices:
        start = splice.start + shift
        shift += len(splice.after) - len(splice.before)
        kept.append(KeptSplice(splice, after.count(b"\n", 0, start) + 1,
                               _above(after, start), _below(after, start + len(splice.after))))
    return KeptFile(change.file, change.to, digest(change.before), digest(change.after), tuple(kept))


def _above(data: bytes, at: int) -> bytes:
    start = at
    for _ in range(CONTEXT + 1):
        start = data.rfind(b"\n", 0, start)
        if start < 0:
            return data[:at]
    return data[start + 1 : at]


def _below(data: bytes, at: int) -> bytes:
    end = at
    for _ in range(CONTEXT + 1):
        end = data.find(b"\n", end) + 1
        if end == 0:
            return data[at:]
    return data[at:end]


# ---------------------------------------------------------------------- as text


def as_text(kept: Kept) -> str:
    """The file of an amendment."""
    lines = [f"amendment: {kept.name}", f"what: {_quoted(kept.what)}", f"who: {_quoted(kept.who)}",
             f"when: {_quoted(kept.when.isoformat())}"]
    if kept.takes_back:
        lines.append(f"takes back: {kept.takes_back}")
    lines.append("changes:" if kept.changes else "changes: []")
    for change in kept.changes:
        lines += [f"  - file: {_quoted(change.file)}", f"    path: {_quoted(list(change.path))}",
                  f"    was: {_quoted(change.was)}", f"    shall: {_quoted(change.shall)}"]
    lines.append("files:")
    for file in kept.files:
        lines += [f"  - file: {_quoted(file.file)}", f"    to: {_quoted(file.to)}", f"    was: {_quoted(file.was)}",
                  f"    is: {_quoted(file.is_)}", "    splices:" if file.splices else "    splices: []"]
        for one in file.splices:
            lines += [f"      - at: {one.splice.start}", f"        line: {one.line}"]
            lines += [f"        {name}: {_quoted(piece.decode('utf-8'))}" for name, piece in (
                ("above", one.above), ("before", one.splice.before), ("after", one.splice.after), ("below", one.below))]
    return "\n".join(lines) + "\n"


def _quoted(value: object) -> str:
    """As JSON, which is YAML too; what no editor shows is written with its number."""
    written = json.dumps(value, ensure_ascii=False)
    return re.sub(r"[\x7f-\x9f\u2028\u2029\ufeff]", lambda found: f"\\u{ord(found[0]):04x}", written)


def from_text(text: str) -> Kept | None:
    """An amendment out of its file; None where it cannot be read as one."""
    try:
        told = yaml.load(text, Loader=_Loader)  # the safe loader, by its fast name
        return Kept(
            str(told["amendment"]), str(told["what"]), str(told["who"]), datetime.fromisoformat(told["when"]),
            tuple(Change(one["file"], tuple(one["path"]), one["was"], one["shall"]) for one in told["changes"]),
            tuple(_file(one) for one in told["files"]), told.get("takes back"),
        )
    except (yaml.YAMLError, LookupError, TypeError, ValueError, AttributeError):
        return None


def _file(told: Any) -> KeptFile:
    splices = tuple(
        KeptSplice(ByteSplice(int(one["at"]), one["before"].encode(), one["after"].encode()), int(one["line"]),
                   one["above"].encode(), one["below"].encode())
        for one in told["splices"]
    )
    return KeptFile(told["file"], told["to"], told["was"], told["is"], splices)


# ---------------------------------------------------------------------- in the folder


def file_of(root: Path, name: str) -> Path:
    """Where an amendment of this name lies. Raises ValueError for what is no such name."""
    found = _NAME.fullmatch(name)
    if found is None:
        raise ValueError(name)
    return root / FOLDER / found[1] / f"{name}.yml"


def next_name(root: Path, now: datetime) -> str:
    """A name that no amendment has yet: the day, and a number."""
    day = now.date().isoformat()
    folder = root / FOLDER / day[:7]
    taken = [int(file.stem[11:]) for file in folder.glob(f"{day}-*.yml") if _NAME.fullmatch(file.stem)]
    return f"{day}-{max(taken, default=0) + 1:04d}"


def kept(root: Path, name: str) -> Kept | None:
    """The amendment of this name, if there is one."""
    try:
        return from_text(file_of(root, name).read_text("utf-8"))
    except (OSError, ValueError):
        return None


def history(root: Path) -> Iterator[Kept]:
    """All that was written, the latest first."""
    folder = root / FOLDER
    months = sorted((one for one in folder.iterdir() if one.is_dir()), reverse=True) if folder.is_dir() else []
    for month in months:
        for file in sorted(month.glob("*.yml"), reverse=True):
            found = kept(root, file.stem)
            if found is not None:
                yield found


__all__ = ["Kept", "KeptFile", "KeptSplice", "Plain", "as_text", "digest", "from_text", "history", "kept"]
