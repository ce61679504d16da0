"""What an editor changed by itself in a book is told as what it is, and can be put back to the letter."""

from __future__ import annotations

import pytest
from bookmaking import EDDA, KEYS, KIND, PATH, fields

from site_builder.skills.append import sealed_entry
from site_builder.skills.book import book_of
from site_builder.skills.chain import verify
from site_builder.skills.entry_text import entry_text
from site_builder.skills.last import Last

NOTE = 'She said: "don\'t lean on it", and he did not.'


def written(note: str = NOTE) -> str:
    """A book of two entries; on the second a list stands on lines of its own."""
    one = sealed_entry(KIND, 1, "", {**fields(1), "note": note})
    two = sealed_entry(KIND, 2, str(one["seal"]), {**fields(2), "items": [f"item {n} of the list" for n in range(9)]})
    return entry_text(one) + entry_text(two)


def fixes(text: str) -> list[str]:
    seal = written().rsplit("seal: ", 1)[1].split("\n")[0]
    return [fault.fix for fault in verify(book_of(text.encode(), KIND, PATH, Last(2, seal)), KEYS)]


def test_the_book_is_whole_before_the_editor_comes() -> None:
    assert EDDA is not None and fixes(written()) == []


@pytest.mark.parametrize(("typed", "stood", "told"), [
    ("don’t", "don't", "An editor put printers' quotes where straight ones stood"),
    ("and\u00a0he", "and he", "An editor put blanks that do not break"),
    ("\t- ", "  - ", "An editor put tabs where blanks stood: write blanks again, two for each step in."),
])
def test_what_the_editor_put_is_named(typed: str, stood: str, told: str) -> None:
    assert stood in written()
    now = fixes(written().replace(stood, typed))
    assert any(told in fix for fix in now), now


def test_more_than_that_is_a_change(typed: str = "lean hard on it") -> None:
    now = fixes(written().replace("lean on it", typed).replace("don't", "don’t"))
    assert len(now) == 1 and "corrects: 1" in now[0] and "editor" not in now[0]
