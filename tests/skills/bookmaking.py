"""Books for the tests: two hundred sign-offs as a shop writes them in forty years, under seal."""

from __future__ import annotations

from datetime import date, timedelta

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from site_builder.skills.append import sealed_entry
from site_builder.skills.book import Book, book_of, book_path
from site_builder.skills.entry_text import Value, entry_text
from site_builder.skills.keys import Signer
from site_builder.skills.last import Last

KIND, PATH = "sign-off", book_path("sign-off")
EDDA = Signer(Ed25519PrivateKey.from_private_bytes(bytes(range(32))))
"""A key that is the same in every run."""
KEYS = {"edda": (EDDA.public,)}
LEVELS = ("watches", "beside", "within call", "alone")


def fields(number: int) -> dict[str, Value]:
    """What the entry of this number says."""
    entry: dict[str, Value] = {
        "who": "edda" if number % 50 == 0 else "tilde",
        "date": (date(1986, 3, 1) + timedelta(days=61 * number)).isoformat(),
        "learner": ("josk", "benno", "ansa")[number % 3], "skill": ("filing", "casting")[number % 2],
        "level": LEVELS[number % 4],
    }
    if number % 7 == 0:
        entry["items"] = ["stand", "card"]
        entry["evidence"] = [f"practice {number}"]
    if number % 11 == 0:
        entry["note"] = 'Said: "Grüß dich", and it was #1.'
    return entry


def book_text(entries: int) -> tuple[bytes, Last]:
    """The bytes of a book and its last seal. Two entries carry a signature, two are laid out by hand."""
    parts, previous, day = ["# the book of the shop\n"], "", ""
    for number in range(1, entries + 1):
        said = fields(number)
        entry = sealed_entry(KIND, number, previous, said, EDDA if said["who"] == "edda" else None)
        text = entry_text(entry)
        if number == 3:
            text = text.replace("level: alone\n", "level:   'alone'  # after a long winter\n\n")
        if number == 77:
            text = text.replace('note: "Said', 'note:\n  "Said')
        parts.append(text)
        previous, day = str(entry["seal"]), str(said["date"])
    return "".join(parts).encode("utf-8"), Last(entries, previous, day)


def book(entries: int) -> Book:
    """The same, read."""
    data, last = book_text(entries)
    return book_of(data, KIND, PATH, last)
