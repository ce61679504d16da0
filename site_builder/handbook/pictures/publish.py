"""From a file of the shop to the files of the handbook, each made once and kept by its content.

The cache holds one folder for each content: the derivatives and, written last, ``made.json`` that
describes them. A folder without it counts as empty, so a build that was cut off leaves no half a photo.
"""

from __future__ import annotations

import hashlib
import json
import os
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

import PIL

from site_builder.handbook.pictures import photo
from site_builder.handbook.pictures.drawing import clean_drawing
from site_builder.handbook.pictures.recording import silence, talking_boxes
from site_builder.notebook.picture_facts import Kind, PictureProblem, inspect, sniff, unreadable

FOLDER = "assets/photos"
_RECIPE = f"1 {photo.WIDTHS} {photo.QUALITY} {photo.METHOD} {PIL.__version__}"
_Made = list[tuple[str, int | None, int | None]]  # name in the cache (none: the original), width, height
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
    """A readable source and the folder of the cache that its content calls for."""

    path: Path
    kind: Kind
    ending: str
    folder: Path

    @property
    def done(self) -> bool:
        return (self.folder / "made.json").is_file()


def publish(source: Path, root: Path, cache: Path) -> Published:
    """Derivatives of ``source``, a file under the notebook's folder ``root`` (or a path from there).

    Made in ``cache`` unless they are there already. Whatever is wrong with the file is told by ``problem``.
    """
    task = _task(source, root, cache)
    return task if isinstance(task, Published) else _finish(task)


def publish_all(
    sources: Sequence[Path], root: Path, cache: Path, processes: int = 2
) -> dict[Path, Published]:
    """``publish`` for many, by ``processes`` side by side when more than a handful of photos are new."""
    tasks = {source: _task(source, root, cache) for source in sources}
    new = [
        task for task in tasks.values() if isinstance(task, _Task) and task.kind == "photo" and not task.done
    ]
    if len(new) > _HANDFUL and processes > 1:
        # A fresh interpreter each: the server of the live preview has threads, which do not survive a fork.
        # Where no second process is to be had, what is missing is made below, one by one.
        with (
            suppress(BrokenProcessPool, OSError),
            ProcessPoolExecutor(processes, mp_context=get_context("spawn")) as pool,
        ):
            list(pool.map(_finish, new, chunksize=2))
    return {source: task if isinstance(task, Published) else _finish(task) for source, task in tasks.items()}


def _task(source: Path, root: Path, cache: Path) -> _Task | Published:
    """What is to be done for a source; a finished answer if nothing can be done."""
    path = root / source
    if not path.resolve().is_relative_to(root.resolve()):
        return Published("unknown", problem=PictureProblem("outside", "The file lies outside the notebook."))
    facts = inspect(path)
    if facts.problem:
        return Published(facts.kind, problem=facts.problem)
    try:
        with path.open("rb") as stream:
            kind, ending = sniff(stream.read(512), path.suffix)
        return _Task(path, kind, ending, cache / kind / _digest(path))
    except OSError as error:
        return Published(facts.kind, problem=unreadable(error))


def _finish(task: _Task) -> Published:
    """Makes what the cache lacks and describes it."""
    try:
        if not task.done:
            task.folder.mkdir(parents=True, exist_ok=True)
            problem = _make(task.path, task.kind, task.folder)
            if problem:
                return Published(task.kind, problem=problem)
        return _published(task)
    except OSError as error:
        return Published(task.kind, problem=unreadable(error))


def _digest(path: Path) -> str:
    """32 hexadecimal digits of the content and of the way derivatives are made."""
    digest = hashlib.blake2b(_RECIPE.encode(), digest_size=16)
    with path.open("rb") as stream:
        while block := stream.read(1 << 20):
            digest.update(block)
    return digest.hexdigest()


def _make(path: Path, kind: Kind, folder: Path) -> PictureProblem | None:
    """Fills the cache's folder; ``made.json`` comes last."""
    removed: tuple[str, ...] = ()
    if kind == "photo":
        with path.open("rb") as stream:
            sizes = photo.renderings(stream)
        if isinstance(sizes, PictureProblem):
            return sizes
        files: _Made = [(f"{size.width}.webp", size.width, size.height) for size in sizes]
        for size in sizes:
            _write(folder / f"{size.width}.webp", size.data)
    elif kind == "drawing":
        drawing = clean_drawing(path.read_bytes())
        if isinstance(drawing, PictureProblem):
            return drawing
        files, removed = [("clean.svg", drawing.width, drawing.height)], drawing.removed
        _write(folder / "clean.svg", drawing.data)
    else:
        files, removed = _make_recording(path, folder)
    _write(folder / "made.json", json.dumps({"files": files, "removed": removed}).encode())
    return None


def _make_recording(path: Path, folder: Path) -> tuple[_Made, tuple[str, ...]]:
    """A quiet copy of an MP4 that talks; any other recording needs no copy: the original is published."""
    with path.open("rb") as stream:
        head = stream.read(8)
        found = talking_boxes(stream, path.stat().st_size) if head[4:8] == b"ftyp" else ()
    if not found:
        return [("", None, None)], ()
    with tempfile.TemporaryDirectory(dir=folder) as scratch:
        silence(path, Path(scratch) / "copy", found)
        (Path(scratch) / "copy").replace(folder / "quiet")
    return [("quiet", None, None)], ("title, maker and place",)


def _write(path: Path, data: bytes) -> None:
    """The whole file or none of it, even if the power fails or two builds run at once."""
    handle, scratch = tempfile.mkstemp(dir=path.parent)
    with os.fdopen(handle, "wb") as stream:
        stream.write(data)
    Path(scratch).replace(path)


def _published(task: _Task) -> Published:
    made = json.loads((task.folder / "made.json").read_text(encoding="utf-8"))
    stem = f"{FOLDER}/{_plain_name(task.path.stem)}-{task.folder.name[:8]}"
    files = tuple(
        PublishedFile(
            f"{stem}-{width}.webp" if task.kind == "photo" else stem + task.ending,
            width,
            height,
            task.folder / kept if kept else task.path,
        )
        for kept, width, height in made["files"]
    )
    return Published(task.kind, files, files[-1].width, files[-1].height, removed=tuple(made["removed"]))


def _plain_name(stem: str) -> str:
    """A file name that every stick, browser and system takes: lower-case letters, digits, hyphens."""
    plain = unicodedata.normalize("NFKD", stem).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:40].strip("-") or "picture"
