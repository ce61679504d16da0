"""Taking back what was written, also tomorrow and after other edits in the same file."""

from __future__ import annotations

from datetime import datetime
from itertools import pairwise, product
from pathlib import Path

from site_builder.amend.amendment import Change, Plain, look_up, plain
from site_builder.amend.history import CONTEXT, Kept, KeptFile, KeptSplice, digest
from site_builder.amend.history import kept as kept_of
from site_builder.amend.outcome import Conflict, FileChange, Refused, Written
from site_builder.amend.plan import is_ours
from site_builder.amend.splices import ByteSplice, spliced, turned_back
from site_builder.amend.write import BUSY, keep, lock
from site_builder.notebook.reader import decode, read_text
from site_builder.notebook.tree import Node, Text

_NEAR = sorted(product(range(CONTEXT + 1), repeat=2), key=lambda lines: (-sum(lines), abs(lines[0] - lines[1])))
"""How many lines above and below must still stand there: as many as may be first."""
_TELLING = 8
"""A line of fewer letters is not known by itself."""


def take_back(root: Path, name: str, who: str, now: datetime) -> Written | Refused | Conflict:
    """Take back the amendment of this name: its own lines alone; what was written since in other lines stays.

    Where its own lines were changed again nothing is written, and the conflict shows both. Taking back is an amendment
    too, and can be taken back.
    """
    with lock(root) as alone:
        if not alone:
            return Refused(BUSY, "", 1)
        kept = kept_of(root, name)
        if kept is None:
            return Refused("What was written then is not kept any more.", name, 1)
        files: list[FileChange] = []
        for file in reversed(kept.files):
            found = _back(root, file, kept)
            if not isinstance(found, FileChange):
                return found
            files.append(found)
        changes = tuple(Change(c.file, c.path, c.shall, c.was) for c in reversed(kept.changes))
        return keep(root, tuple(files), kept.what, changes, who, now, takes_back=name)


def _back(root: Path, file: KeptFile, kept: Kept) -> FileChange | Refused | Conflict:
    """One file as it was, or as it is now without this amendment."""
    if not is_ours(file.file) or not is_ours(file.to):
        return Refused("This is no file of the notebook's own.", file.to, 1)
    here, there = root / file.to, root / file.file
    now = here.read_bytes() if here.is_file() else None
    if file.to != file.file and there.exists():
        return Refused("Another thing has its old name by now.", file.file, 1)
    if digest(now) == file.is_:
        splices = turned_back(one.splice for one in file.splices)
        before = None if file.was is None else spliced(now or b"", splices)
        return FileChange(file.to, file.file, now, before, splices)
    if now is None or file.was is None or file.is_ is None:
        return _conflict(file, kept, now)
    found = [_find(now, one) for one in file.splices]
    places = [one for one in found if one is not None]
    splices = tuple(sorted(places))
    if len(places) < len(found) or any(a.end > b.start for a, b in pairwise(splices)):
        return _conflict(file, kept, now)
    before = spliced(now, splices)
    return FileChange(file.to, file.file, now, before, splices) if _is_sound(now, before, file, kept) \
        else _conflict(file, kept, now)


def _find(now: bytes, kept: KeptSplice) -> ByteSplice | None:
    """Where what was written stands now: by as many of the lines around it as still stand there."""
    after, before = kept.splice.after, kept.splice.before
    for above, below in _NEAR:
        over, under = _last(kept.above, above), _first(kept.below, below)
        wanted = over + after + under
        if above + below == 0 and len(wanted.strip()) < _TELLING:
            return None
        places = _all(now, wanted)
        if len(places) == 1 or (places and above + below == 2 * CONTEXT):
            start = min(places, key=lambda at: abs(at + len(over) - kept.splice.start)) + len(over)
            return ByteSplice(start, after, before)
        if places:
            return None
    return None


def _all(data: bytes, wanted: bytes) -> list[int]:
    places = []
    at = data.find(wanted)
    while at >= 0:
        places.append(at)
        at = data.find(wanted, at + 1)
    return places


def _last(lines: bytes, count: int) -> bytes:
    """The end of what stood above: what is left of the splice on its own line, and so many lines before that."""
    kept = lines.split(b"\n")
    return b"\n".join(kept[-1 - count :])


def _first(lines: bytes, count: int) -> bytes:
    kept = lines.split(b"\n")
    return b"\n".join(kept[: count + 1])


def _is_sound(now: bytes, before: bytes, file: KeptFile, kept: Kept) -> bool:
    """Whether the file can be read afterwards, and only what this amendment had changed is otherwise."""
    old, new = _tree(now, file.to), _tree(before, file.file)
    if old is None or new is None:
        return False
    if file.file.endswith(".md"):
        return True
    paths = [tuple("" if isinstance(step, int) else step for step in change.path)
             for change in kept.changes if change.file == file.file]
    return all(any(_under(where, path) for path in paths) for where in _differences(plain(old), plain(new)))


def _tree(data: bytes, name: str) -> Node | None:
    text, found = decode(data, name)
    if found:
        return None
    if name.endswith(".md"):
        return Text(text)
    reading = read_text(text, name)
    return reading.trees[0] if reading.whole and len(reading.trees) == 1 else None


def _under(where: tuple[str, ...], path: tuple[str, ...]) -> bool:
    while path and path[-1] == "":  # one item more or less is a change of its list
        path = path[:-1]
    return where[: len(path)] == path


def _differences(a: Plain, b: Plain, where: tuple[str, ...] = ()) -> list[tuple[str, ...]]:
    """The paths at which two trees differ; items of lists without their numbers, which other edits move."""
    if a == b:
        return []
    if isinstance(a, dict) and isinstance(b, dict):
        return [one for key in {**a, **b} for one in (
            _differences(a[key], b[key], (*where, key)) if key in a and key in b else [(*where, key)])]
    if isinstance(a, list) and isinstance(b, list) and len(a) == len(b):
        return [one for x, y in zip(a, b, strict=True) for one in _differences(x, y, (*where, ""))]
    return [where]


def _conflict(file: KeptFile, kept: Kept, now: bytes | None) -> Conflict:
    """Both: what was written then, and what stands there now."""
    change = next((one for one in kept.changes if one.file == file.file), None)
    tree = _tree(now, file.to) if now is not None else None
    if change is None or tree is None:
        seen = "\n".join(one.splice.after.decode("utf-8") for one in file.splices)
        return Conflict(file.to, (), seen, None if now is None else now.decode("utf-8", "replace"), None)
    line = file.splices[0].line if file.splices else 1
    return Conflict(file.to, change.path, change.shall, look_up(plain(tree), change.path), change.was, line)
