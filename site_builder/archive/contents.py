"""What goes into a keeping: the notebook as written, and in every form that may outlive the others."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from site_builder.archive.as_json import SCHEMA_FILE, notebook_json, notebook_schema
from site_builder.archive.bag import DATA
from site_builder.archive.forms import SecondForm, second_form
from site_builder.archive.pictured import pictures_told
from site_builder.archive.plain_text import plain_text
from site_builder.archive.seals import SEALS
from site_builder.archive.withheld import Withheld, withheld
from site_builder.archive.written import left_out, written_files
from site_builder.ebook.epub import bound_book, packed
from site_builder.handbook.build import BuildFailed, build_handbook
from site_builder.handbook.opened import SETTINGS, Opened, opened, with_gallery
from site_builder.paper.book import make_book
from site_builder.paper.problem import CannotPrint

NOTEBOOK = f"{DATA}/notebook"
HANDBOOK = f"{DATA}/handbook"
PDF = f"{DATA}/books/handbook.pdf"
EPUB = f"{DATA}/books/handbook.epub"
TEXT = f"{DATA}/text/handbook.txt"
JSON = f"{DATA}/text/notebook.json"
PICTURES = f"{DATA}/text/pictures-and-recordings.txt"
RECKONED = f"{DATA}/text/how-a-seal-is-reckoned.txt"
FORMS = f"{DATA}/pictures-and-recordings"
Step = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Contents:
    """What a keeping holds and what not, for who reads about it first."""

    known: Opened
    out: Withheld
    strange: tuple[str, ...]
    """Links, pipes and the like that cannot be kept."""
    forms: tuple[SecondForm, ...]
    lacks: tuple[str, ...]
    """What could not be made, in words."""
    has_pdf: bool


def gather(folder: Path, root: Path, today: date | None, *, with_errors: bool, step: Step) -> Contents:
    """Write everything under ``folder / data``. Raises BuildFailed, OSError."""
    step("Reading the notebook")
    if not (root / SETTINGS).is_file():
        raise BuildFailed(f"There is no {root / SETTINGS}. `benchlore new shop DIR` writes one; copy it from there.")
    known = opened(root, today=today, with_errors=with_errors, with_pictures=False)
    out = withheld(known.site.analysis)
    known = with_gallery(known, frozenset(out.voices))
    files = {name: file for name, file in written_files(root) if name not in out.files}
    step("Copying the notebook")
    forms = _notebook(folder, root, files, out)
    step("Making the handbook")
    build_handbook(root / SETTINGS, into=folder / HANDBOOK, with_errors=with_errors,
                   today=known.site.analysis.today, withheld=frozenset(out.voices))
    step("Making the books")
    lacks = [*known.warnings]
    pdf = _pdf(folder, known, lacks)
    _texts(folder, known, files, forms, out)
    return Contents(known, out, tuple(left_out(root)), forms, tuple(lacks), pdf)


def _notebook(folder: Path, root: Path, files: Mapping[str, Path], out: Withheld) -> tuple[SecondForm, ...]:
    """The files as they are, and second forms of those that need one."""
    for name, file in files.items():
        _copy(file, folder / NOTEBOOK / name)
    forms = (second_form(name, file, out, folder / FORMS) for name, file in written_files(root))
    return tuple(one for one in forms if one is not None)


def _pdf(folder: Path, known: Opened, lacks: list[str]) -> bool:
    """The book to print; without it where it cannot be made, which is told."""
    try:
        printed = make_book(known.site.analysis, system=known.site.system)
    except CannotPrint as problem:
        lacks.append(f"There is no PDF: {problem}")
        return False
    lacks += printed.lacks
    _write(folder / PDF, printed.data)
    return True


def _texts(
    folder: Path, known: Opened, files: Mapping[str, Path], forms: Sequence[SecondForm], out: Withheld,
) -> None:
    """The e-book, and all that a text editor opens."""
    site = known.site
    book = bound_book(site, known.language)
    _write(folder / EPUB, packed(book))
    _write(folder / TEXT, plain_text(book.about.title, book.chapters).encode())
    _write(folder / JSON, notebook_json(site.notebook, files, site.analysis.today.isoformat()).encode())
    _write(folder / JSON.replace("notebook.json", SCHEMA_FILE), notebook_schema().encode())
    _write(folder / PICTURES, pictures_told(site.analysis, forms, out).encode())
    _write(folder / RECKONED, SEALS.encode())


def _copy(file: Path, goal: Path) -> None:
    goal.parent.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(file, goal)


def _write(file: Path, data: bytes) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(data)
