"""Each book of a notebook, and whether it is as it was written."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from site_builder.notebook.finding import At
from site_builder.notebook.notebook import Notebook
from site_builder.skills.book import Book, book_path, read_book
from site_builder.skills.chain import Fault, Keys, Wrong, verify
from site_builder.skills.last import LastBroken, last_file


@dataclass(frozen=True, slots=True)
class Verdict:
    """A book and what is wrong with its chain. ``book`` is None where its files cannot be read.

    A book that was never brought under seal has no faults: nothing can be said about it.
    """

    kind: str
    book: Book | None
    faults: tuple[Fault, ...]

    @property
    def sealed(self) -> bool:
        return self.book is None or self.book.sealed


def keys_of(notebook: Notebook) -> Keys:
    """The public keys in ``people.yml``."""
    return {id_: [str(key) for key in person.key] for id_, person in notebook.people.items() if person.key}


def verdict(root: Path, kind: str, keys: Keys) -> Verdict | None:
    """Read a book and try its chain; None where there is no such book."""
    path = book_path(kind)
    file = root / path
    if not file.exists() and not last_file(file).exists():
        return None
    try:
        book = read_book(root, kind)
    except LastBroken:
        told = f"{last_file(file).name}, the small file with the last seal, cannot be understood."
        return Verdict(kind, None, (Fault(Wrong.UNNOTED, 0, At(path), told, "Bring it from an older copy."),))
    except OSError as problem:
        told = f"The book cannot be read: {problem.strerror or type(problem).__name__}."
        return Verdict(kind, None, (Fault(Wrong.UNREADABLE, 0, At(path), told, "Check its permissions."),))
    return Verdict(kind, book, tuple(verify(book, keys)) if book.sealed else ())
