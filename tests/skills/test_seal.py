"""A seal can be recomputed by a stranger, with nothing of ours."""

from __future__ import annotations

import hashlib
import json
import unicodedata

import pytest

from site_builder.notebook.reader import read_text
from site_builder.skills.entry_text import Unwritable, entry_text
from site_builder.skills.seal import Ambiguous, canonical, seal_of


def read(text: str) -> dict:
    (tree,) = read_text(text, "").trees
    return tree


BY_HAND = """\
---
sign-off: 50   # the Saturday before the fair
learner: ansa
who: tilde
date: 2026-05-09
skill: packing
level: 'alone'
items: [clean, sling,
  crackle]
note: >
  She found the two fingerprints
  that I had left on purpose. Gru\u0308ße!
previous: 0f
seal: aa
signature: bb
"""


def test_by_a_few_independent_lines() -> None:
    said = {
        "sign-off": "50", "learner": "ansa", "who": "tilde", "date": "2026-05-09", "skill": "packing",
        "level": "alone", "items": ["clean", "sling", "crackle"], "previous": "0f",
        "note": unicodedata.normalize("NFC", "She found the two fingerprints that I had left on purpose. Grüße!\n"),
    }
    as_json = json.dumps(said, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    assert seal_of(read(BY_HAND)) == hashlib.sha256(as_json.encode("utf-8")).hexdigest()


def test_keys_stand_in_the_order_of_the_standard() -> None:
    """RFC 8785, 3.2.3, its example: sorted by UTF-16 code units, so that the smiley, D83D DE00, is before FF21.

    The example's FB33 has another spelling in form C, so a letter that has none stands in its place.
    """
    keys = ["\u20ac", "\r", "\uff21", "1", "\U0001f600", "\u0080", "\u00f6"]
    assert canonical(dict.fromkeys(keys, "x")).decode("utf-8") == (
        '{"\\r":"x","1":"x","\u0080":"x","\u00f6":"x","\u20ac":"x","\U0001f600":"x","\uff21":"x"}'
    )


@pytest.mark.parametrize(
    "layout",
    [
        "---\nlevel: alone\nsign-off: 7\n",
        "---\n# a remark\nsign-off:   '7'\nlevel: \"alone\"\n",
        "--- {sign-off: 7, level: alone}\n",
        "---\r\nsign-off: 7\r\nlevel: alone\r\n",
        "---\nsign-off: 7\nlevel: alone\nseal: 00\nsignature: 00\n",
    ],
)
def test_layout_is_no_part_of_what_is_said(layout: str) -> None:
    assert seal_of(read(layout)) == seal_of({"sign-off": "7", "level": "alone"})


@pytest.mark.parametrize(
    "other",
    [
        {"sign-off": "07", "level": "alone"},
        {"sign-off": "7", "level": "alone "},
        {"sign-off": "7", "level": ["alone"]},
        {"sign-off": "7", "level": "alone", "previous": ""},
        {"sign-off": "7", "Level": "alone"},
    ],
)
def test_every_letter_of_what_is_said_counts(other: dict) -> None:
    assert seal_of(other) != seal_of({"sign-off": "7", "level": "alone"})


def test_two_spellings_of_one_key_have_no_seal() -> None:
    with pytest.raises(Ambiguous):
        seal_of({"Gr\u00fcn": "good", "Gru\u0308n": "bad"})


@pytest.mark.parametrize(
    "value",
    [
        "2026-05-09", "yes", "012", "1:30", "", " ask ", "#1", "a # b", "It was: so", '"quoted"', "- x", "~",
        "[[foot]]",
        "line\nline", "\N{GRINNING FACE}", "a, b", "{x}", "100 %", "20 °C ± 2", "ends with:", "Said: “so”", "'",
    ],
)
def test_what_is_written_reads_back_the_same(value: str) -> None:
    entry = {"practice": "1", "note": value, "items": [value, "x"], "verdicts": {"a b": value}}
    assert read(entry_text(entry)) == entry


def test_what_no_book_holds_is_not_written() -> None:
    with pytest.raises(Unwritable):
        entry_text({"practice": "1", "note": "a\x00b"})
