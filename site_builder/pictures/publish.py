"""From a file of the shop to the files of the handbook, each made once and kept by its content.

The cache is a ``cache.Store``: derivatives that are not, byte by byte, what was put there are made again.
"""

from __future__ import annotations

import hashlib
import re
import tempfile
import unicodedata
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path

from site_builder.cache import Entry, Store, program_and_libraries
from site_builder.notebook.picture_facts import Kind, PictureProblem, inspect, sniff, unreadable
from site_builder.pictures import photo
from site_builder.pictures.drawing import clean_drawing
from site_builder.pictures.recordings import ending, hushed, write_hushed

FOLDER = "assets/photos"
_RECIPE = f"{photo.WIDTHS} {photo.QUALITY} {photo.METHOD}"
_HANDFUL = 6  # fewer than this are done before a second process has even started


@dataclass(frozen=True, slots=True)
class PublishedFile:
    """One file of the built book: its address from the book's root, its size, where its content lies."""

    name: str
    width: int | None
    height: int | None
    path: Path


@dataclass(frozen=True, slots=True)
class Published:
    """What became of one source. Files stand narrowest first; with a problem there are none."""

    kind: Kind
    files: tuple[PublishedFile, ...] = ()
    width: int | None = None
    height: int | None = None
    problem: PictureProblem | None = None
    removed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Task:
    """A readable source, and the name under which the store keeps what its content becomes."""

    path: Path
    kind: Kind
    ending: str
    name: str


def store(cache: Path) -> Store:
    """Where derivatives are kept."""
    return Store(cache, f"{_RECIPE} {program_and_libraries()}")


def publish(source: Path, root: Path, cache: Path) -> Published:
    """Derivatives of ``source``, a file under the notebook's folder ``root`` (or a path from there).

    Made in ``cache`` unless they are there already. Whatever is wrong with the file is told by ``problem``.
    """
    task = _task(source, root)
    return task if isinstance(task, Published) else _finish(task, cache)


def publish_all(
    sources: Sequence[Path], root: Path, cache: Path, processes: int = 2
) -> dict[Path, Published]:
    """``publish`` for many, by ``processes`` side by side when more than a handful of photos are new.

    What none of these sources calls for any more goes out of the cache.
    """
    tasks = {source: _task(source, root) for source in sources}
    known = store(cache)
    wanted = [task for task in tasks.values() if isinstance(task, _Task)]
    new = [task for task in wanted if task.kind == "photo" and not (cache / f"{task.name}.json").is_file()]
    if len(new) > _HANDFUL and processes > 1:
        # A fresh interpreter each: the server of the live preview has threads, which do not survive a fork.
        # Where no second process is to be had, what is missing is made below, one by one.
        with (
            suppress(BrokenProcessPool, OSError),
            ProcessPoolExecutor(processes, mp_context=get_context("spawn")) as pool,
        ):
            list(pool.map(_finish, new, [cache] * len(new), chunksize=2))
    done = {source: task if isinstance(task, Published) else _finish(task, cache) for source, task in tasks.items()}
    known.prune(task.name for task in wanted)
    return done


def _task(source: Path, root: Path) -> _Task | Published:
    """What is to be done for a source; a finished answer if nothing can be done."""
    path = root / source
    if not path.resolve().is_relative_to(root.resolve()):
        return Published("unknown", problem=PictureProblem("outside", "The file lies outside the notebook."))
    facts = inspect(path)
    if facts.problem:
        return Published(facts.kind, problem=facts.problem)
    try:
        with path.open("rb") as stream:
            kind, suffix = sniff(stream.read(512), path.suffix)
        return _Task(path, kind, ending(kind, suffix), f"{kind}-{_digest(path)}")
    except OSError as error:
        return Published(facts.kind, problem=unreadable(error))


def _finish(task: _Task, cache: Path) -> Published:
    """What is kept if it is what was put, else what is made now."""
    known = store(cache)
    try:
        entry = known.get(task.name)
        found = None if entry is None else _published(task, entry)
        if found is not None:
            return found
        made = _make(task, known, cache)
        if isinstance(made, PictureProblem):
            return Published(task.kind, problem=made)
        found = None if made is None else _published(task, made)
    except OSError as error:
        return Published(task.kind, problem=unreadable(error))
    if found is None:
        return Published(task.kind, problem=unreadable(OSError(0, "the folder of the cache takes no files")))
    return found


def _digest(path: Path) -> str:
    """32 hexadecimal digits of the content."""
    digest = hashlib.blake2b(digest_size=16)
    with path.open("rb") as stream:
        while block := stream.read(1 << 20):
            digest.update(block)
    return digest.hexdigest()


def _make(task: _Task, known: Store, cache: Path) -> Entry | PictureProblem | None:
    if task.kind == "photo":
        with task.path.open("rb") as stream:
            sizes = photo.renderings(stream)
        if isinstance(sizes, PictureProblem):
            return sizes
        shown = [(f"{size.width}.webp", size.width, size.height) for size in sizes]
        return known.put(task.name, [shown, []], {f"{size.width}.webp": size.data for size in sizes})
    if task.kind == "drawing":
        drawing = clean_drawing(task.path.read_bytes())
        if isinstance(drawing, PictureProblem):
            return drawing
        about = [[("clean.svg", drawing.width, drawing.height)], drawing.removed]
        return known.put(task.name, about, {"clean.svg": drawing.data})
    with task.path.open("rb") as stream:
        said = hushed(stream, task.path.stat().st_size)
    if said.problem is not None:
        return said.problem
    cache.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=cache, prefix=".") as scratch:
        quiet = Path(scratch) / "quiet"
        write_hushed(task.path, quiet, said)
        removed = ["title, maker and place"] if said.speaks else []
        return known.put(task.name, [[("quiet", None, None)], removed], {"quiet": quiet})


def _published(task: _Task, entry: Entry) -> Published | None:
    """What an entry says, if it says it as ``_make`` would."""
    stem = f"{FOLDER}/{_plain_name(task.path.stem)}-{task.name.partition('-')[2][:8]}"
    try:
        shown, removed = entry.note
        files = tuple(
            PublishedFile(
                f"{stem}-{int(width)}.webp" if task.kind == "photo" else stem + task.ending,
                width if width is None else int(width), height if height is None else int(height), entry.files[kept],
            )
            for kept, width, height in shown
        )
        return Published(task.kind, files, files[-1].width, files[-1].height, removed=tuple(map(str, removed)))
    except (ValueError, TypeError, KeyError, IndexError):
        return None


def _plain_name(stem: str) -> str:
    """A file name that every stick, browser and system takes: lower-case letters, digits, hyphens."""
    plain = unicodedata.normalize("NFKD", stem).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:40].strip("-") or "picture"
