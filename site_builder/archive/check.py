"""Whether a keeping is whole: what is damaged, missing, renamed or added, and what another copy still has."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal

from site_builder.archive.bag import (
    DATA,
    LIST,
    LIST_OF_LISTS,
    LISTED,
    Listing,
    digest,
    identifier,
    labels_of,
    read_listing,
)
from site_builder.handbook.publishing.mark import files_in

Kind = Literal["damaged", "missing", "renamed", "added", "unreadable"]


class NoKeeping(Exception):
    """There is nothing to check; the message says why."""


@dataclass(frozen=True, slots=True)
class Trouble:
    """One thing that is not as it was kept. ``sha`` is what the file should be, where a list says it."""

    kind: Kind
    path: str
    sha: str = ""
    now: str = ""
    """What a renamed file is called now."""
    better: Path | None = None
    """Where it can be had whole."""
    doubtful: bool = False
    """Whether it may be the line in the list that is damaged, and not the file."""

    def line(self) -> str:
        """As it is told."""
        told = {
            "damaged": f"damaged   {self.path}", "missing": f"missing   {self.path}",
            "renamed": f"renamed   {self.path}, is called {self.now} now",
            "added": f"added     {self.path}: not listed, nobody can say who put it there",
            "unreadable": f"damaged   {self.path}: the disk does not give it back",
        }[self.kind]
        if self.path == LIST and self.kind != "renamed":
            told += "; files that it does not name any more could not be tried"
        if self.doubtful:
            told += f" (or its line in {LIST_OF_LISTS})"
        return told


def troubles(folder: Path) -> tuple[Trouble, ...]:
    """All that is not as it was kept, in order of paths. Raises NoKeeping."""
    lists = read_listing(folder / LIST_OF_LISTS)
    listing = read_listing(folder / LIST)
    if listing is None and lists is None:
        raise NoKeeping(f"{folder} is no keeping: there is neither {LIST} nor {LIST_OF_LISTS}.")
    return tuple(sorted(_troubles(folder, listing, lists), key=lambda one: (one.path, one.kind)))


def _troubles(folder: Path, listing: Listing | None, lists: Listing | None) -> Iterator[Trouble]:
    there = {unicodedata.normalize("NFC", path): path for path in files_in(folder)}
    wanted = {**(listing.files if listing else {}), **(lists.files if lists else {})}
    lists_hold = lists is not None and lists.sound and set(lists.files) == set(LISTED)
    if not lists_hold:
        yield Trouble("damaged" if lists is not None else "missing", LIST_OF_LISTS)
        wanted = {**dict.fromkeys(LISTED, ""), **wanted}
    missing: dict[str, str] = {}
    for path, sha in wanted.items():
        name = there.pop(unicodedata.normalize("NFC", path), None)
        if name is None:
            missing[path] = sha
            continue
        found = _digest(folder / name)
        if found is None:
            yield Trouble("unreadable", path, sha)
        elif sha and found != sha:
            yield Trouble("damaged", path, sha, doubtful=path in LISTED)
        elif path == LIST and (listing is None or not listing.sound):
            yield Trouble("damaged", path, sha)
    there.pop(LIST_OF_LISTS, None)
    if listing is None or not listing.sound or LIST in missing:  # what it no longer names was not added by anybody
        there = {path: name for path, name in there.items() if not path.startswith(f"{DATA}/")}
    yield from _gone_and_come(folder, missing, there)


def _gone_and_come(folder: Path, missing: Mapping[str, str], there: Mapping[str, str]) -> Iterator[Trouble]:
    """A missing file that is there under another name has been renamed."""
    added = dict(there)
    sums = {path: _digest(folder / name) for path, name in added.items()} if missing else {}
    for path, sha in missing.items():
        now = next((one for one, found in sums.items() if sha and found == sha and one in added), None)
        if now is None:
            yield Trouble("missing", path, sha)
        else:
            yield Trouble("renamed", path, sha, added.pop(now))
    for name in added.values():
        yield Trouble("added", name)


def _digest(file: Path) -> str | None:
    """None for what cannot be read, and for a link: what it leads to was not kept here."""
    try:
        return None if file.is_symlink() or not file.is_file() else digest(file)
    except OSError:
        return None


def with_other(found: tuple[Trouble, ...], folder: Path, other: Path) -> tuple[Trouble, ...]:
    """The same with what ``other`` has whole. Raises NoKeeping where that is no copy of this keeping."""
    theirs = read_listing(other / LIST_OF_LISTS), read_listing(other / LIST)
    if not same_keeping(folder, other):
        raise NoKeeping(f"{other} is no copy of this keeping: what it lists is something else.")
    wanted: dict[str, str] = {}
    lists, listing = theirs
    if lists is not None and lists.sound and set(lists.files) == set(LISTED):
        wanted |= lists.files
        if listing is not None and _digest(other / LIST) == lists.files[LIST]:
            wanted |= listing.files  # their list proves itself; it stands for ours where ours is damaged
    return tuple(replace(one, better=_whole(one, wanted, other)) for one in found)


def _whole(trouble: Trouble, theirs: Mapping[str, str], other: Path) -> Path | None:
    if trouble.kind in ("added", "renamed"):
        return None
    file = other / trouble.path
    if trouble.path == LIST_OF_LISTS:
        return file if theirs and all(_digest(other / name) == theirs.get(name) for name in LISTED) else None
    found = _digest(file)
    allowed = {trouble.sha, theirs.get(trouble.path, "")} - {""}
    return file if found is not None and found in allowed else None


def same_keeping(folder: Path, other: Path) -> bool:
    """Whether two folders are copies of one keeping, as far as what is left of them tells."""
    return bool(_names(folder) & _names(other))


def _names(folder: Path) -> set[str]:
    """What a keeping is known by: its name as it says, and as its list gives it."""
    names = {labels_of(folder).get("External-Identifier", "")}
    with suppress(OSError, UnicodeDecodeError):
        names.add(identifier((folder / LIST).read_text("utf-8")))
    return names - {""}
