"""For every file and every amendment: untouched bytes are equal, taken back it is what it was, the tree is as intended.

``make amendments`` tries 20,000 of them and counts those that could not be spliced.
"""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from site_builder.amend import Change, Plain, Splices, plan_bytes
from site_builder.amend.amendment import Amendment
from tests.amend.any_amendment import KINDS
from tests.amend.disturbed import disturbed, tree_of
from tests.amend.law import files_of, notebooks, tried

TEXTS = [file.read_bytes().decode("utf-8-sig").replace("\r\n", "\n") for file in files_of(*notebooks())]


@settings(max_examples=300)
@given(st.randoms(use_true_random=False), st.sampled_from(TEXTS))
def test_the_law_holds_for_any_amendment_of_any_file(chance: Random, text: str) -> None:
    tried(text, chance)


def test_every_kind_of_amendment_is_tried() -> None:
    met = {tried(TEXTS[number % len(TEXTS)], Random(number))[0].what for number in range(250)}
    assert len(met) >= len(KINDS) - 2  # to join two steps seldom works, and two kinds are rare


def test_files_are_disturbed_in_every_way() -> None:
    seen = b"".join(disturbed(text, Random(number)) for number, text in enumerate(TEXTS))
    assert all(sign in seen for sign in (b"\r\n", b"\xef\xbb\xbf", b"# so said", b">-", b": '"))


def amended(text: str, path: tuple[str | int, ...], shall: Plain | None) -> str:
    """The file after one change, or why it was refused."""
    data = text.encode()
    tree = tree_of(data)
    here = tree
    for step in path:
        here = here[step] if isinstance(here, list) and isinstance(step, int) else \
            here.get(str(step)) if isinstance(here, dict) else None
    made = plan_bytes({"tools/x.yml": data}, Amendment("", (Change("tools/x.yml", path, here, shall),)), None)
    return (made.files[0].after or b"").decode() if isinstance(made, Splices) else str(made)


@pytest.mark.parametrize(("before", "path", "shall", "after"), [
    ("a: one # why\nb: 2\n", ("a",), {"is": "one", "note": "x"}, "a: {is: one, note: x} # why\nb: 2\n"),
    ("a: one # why\nb: 2\n", ("a",), {"is": "one", "note": "It was."}, "a:\n  is: one # why\n  note: It was.\nb: 2\n"),
    ("a: {x: 1, y: 2} # why\n", ("a", "y"), None, "a: {x: 1} # why\n"),
    ("a: {x: 1, y: 2}\n", ("a", "x"), None, "a: {y: 2}\n"),
    ("a: { x: 1 }\n", ("a", "z"), "3", "a: { x: 1, z: 3 }\n"),
    ("a: [one, two]\n", ("a",), ["two", "three"], "a: [two, three]\n"),
    ("a: [one, two]\n", ("a",), [{"tool": "one", "note": "big"}, "two"], "a: [{tool: one, note: big}, two]\n"),
    ("a:\n- one\n- two", ("a",), ["one", "two", "three"], "a:\n- one\n- two\n- three"),
    ("a:\n  # first\n  - one\n  # second\n  - two\n", ("a",), ["two"], "a:\n  # first\n  # second\n  - two\n"),
    ("a:\n  - k: 1\n    # about l\n    l: 2\n", ("a", 0, "k"), None, "a:\n  -\n    # about l\n    l: 2\n"),
    ("a: 'one'\r\nb: 2\r\n", ("a",), "it's", "a: 'it''s'\r\nb: 2\r\n"),
    ("a: >\n  Long words\n  folded here\n", ("a",), "Short words\n", "a: >\n  Short words\n"),
    ("a: Long words that\n  go on here\n", ("a",), "Other words that go on",
     "a: Other words that go\n  on\n"),
    ("k: v\na:\n", ("a",), "now", "k: v\na: now\n"),
    ("k: v\na: ask # who?\n", ("a",), None, "k: v\n"),
    ("\ufeffk: v\na: b\n", ("a",), "Bürste, groß", "\ufeffk: v\na: Bürste, groß\n"),
    ("k: v\na:\n  b: 1\n", ("a",), "short", "k: v\na: short\n"),
    ("k: v\na: one\n", ("a",), "Two\nlines", "k: v\na: |-\n  Two\n  lines\n"),
    ("k: {a: b}\n", ("k", "a"), "b, or c", "k:\n  a: b, or c\n"),
    ("k: v\n? a\n: b\n", ("k",), "w", "k: w\n? a\n: b\n"),
])
def test_written_as_a_careful_hand_would(before: str, path: tuple[str | int, ...], shall: Plain, after: str) -> None:
    assert amended(before, path, shall) == after


def test_what_cannot_be_spliced_names_its_line() -> None:
    data = b"tool: x\n? a\n: b\n"
    made = plan_bytes({"tools/x.yml": data}, Amendment("", (Change("tools/x.yml", ("a",), "b", {"c": "d"}),)), None)
    assert (made.line, made.why) == (2, "This key is written with a question mark before it. "  # type: ignore[union-attr]
                                     "It can only be changed in the file itself, with an editor.")
