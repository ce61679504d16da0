"""An old book is brought under seal once; nothing it says is changed."""

from __future__ import annotations

from pathlib import Path

import pytest
from bookmaking import KIND

from site_builder.skills.append import append
from site_builder.skills.book import Book, book_path, read_book
from site_builder.skills.chain import verify
from site_builder.skills.last import last_file, read_last
from site_builder.skills.seal import OUTSIDE, content_of
from site_builder.skills.sealing import NotSealed, seal_book

OLD = """\
# begun by Edda in September
---
sign-off: 1
who: havel   # father
note: >
  Six years at the lathe.

# the second one
---
sign-off: 2
who: edda
items: [a,
  b]
---
sign-off: 3
note: |+
  He walked past
  # without slowing down.

"""


def lay(root: Path, text: str | bytes) -> Path:
    file = root / book_path(KIND)
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8"))
    return file


def said(book: Book) -> list[object]:
    return [content_of({key: value for key, value in (entry.tree or {}).items() if key not in (*OUTSIDE, "previous")})
            for entry in book.entries]


@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("cut", [0, 1])
def test_an_old_book_says_afterwards_what_it_said(end: str, cut: int, tmp_path: Path) -> None:
    file = lay(tmp_path, OLD[: len(OLD) - cut].replace("\n", end))
    before = file.read_bytes()
    was = said(read_book(tmp_path, KIND))
    assert [entry.number for entry in seal_book(tmp_path, KIND, {}).unsealed] == [1, 2, 3]
    book = read_book(tmp_path, KIND)
    assert said(book) == was and verify(book, {}) == []
    added = (b"seal: ", b"previous: ")
    kept = [line for line in file.read_bytes().splitlines(keepends=True) if not line.startswith(added)]
    assert b"".join(kept).rstrip() == before.rstrip()  # nothing but these lines was put in
    assert append(tmp_path, KIND, {"who": "edda"}).number == 4


def test_a_second_time_there_is_nothing_to_do(tmp_path: Path) -> None:
    file = lay(tmp_path, OLD)
    seal_book(tmp_path, KIND, {})
    once = file.read_bytes()
    assert seal_book(tmp_path, KIND, {}).nothing
    assert file.read_bytes() == once


def test_what_was_added_by_hand_is_sealed_behind_the_others(tmp_path: Path) -> None:
    append(tmp_path, KIND, {"who": "edda"})
    file = tmp_path / book_path(KIND)
    file.write_bytes(file.read_bytes() + b"---\nsign-off: 2\nwho: tilde\n---\n{sign-off: 3, who: tilde}\n")
    with pytest.raises(NotSealed, match=r"Entry 3 .* without braces"):
        seal_book(tmp_path, KIND, {})
    file.write_bytes(file.read_bytes().replace(b"{sign-off: 3, who: tilde}", b"sign-off: 3\nwho: tilde"))
    assert [entry.number for entry in seal_book(tmp_path, KIND, {}).unsealed] == [2, 3]
    last = read_last(file)
    assert verify(read_book(tmp_path, KIND), {}) == [] and last is not None and last.entry == 3


def test_a_lost_last_seal_is_noted_anew(tmp_path: Path) -> None:
    append(tmp_path, KIND, {"who": "edda"})
    file = tmp_path / book_path(KIND)
    last_file(file).unlink()
    assert seal_book(tmp_path, KIND, {}).unnoted
    assert verify(read_book(tmp_path, KIND), {}) == []


@pytest.mark.parametrize(
    ("change", "why"),
    [
        (lambda text: text.replace("who: edda", "who: mallory"), "does not say what it said"),
        (lambda text: text[: text.rindex("---")], "ended with entry 2"),
        (lambda text: text + "---\nsign-off: 4\nwho: edda\n", "Entry 4 stands where entry 3 belongs"),
        (lambda text: text + "---\nsign-off: 3\nprevious: 00\n", "no seal of its own"),
        (lambda text: text + "---\nsign-off: [\n", "cannot be read"),
    ],
)
def test_a_seal_covers_nothing_up(change, why: str, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    append(tmp_path, KIND, {"who": "edda"})
    append(tmp_path, KIND, {"who": "edda"})
    file = tmp_path / book_path(KIND)
    changed = change(file.read_text("utf-8"))
    file.write_text(changed, "utf-8")
    with pytest.raises(NotSealed, match=why):
        seal_book(tmp_path, KIND, {})
    assert file.read_text("utf-8") == changed
