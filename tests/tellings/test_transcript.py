"""Transcripts: WebVTT, SubRip and plain text; broken ones say what is wrong, and where."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from site_builder.tellings.cue import TranscriptError
from site_builder.tellings.timing import Stretch, clock_text, read_fragment
from site_builder.tellings.transcript import read_transcript

WEBVTT = """\ufeffWEBVTT At the oven
Kind: captions

NOTE typed by hand
on two lines

STYLE
::cue { color: red }

c001
00:01.200 --> 00:08.340 align:start
<v Oda Brenn>Flour first, <i>then</i> water &amp; salt.

00:00:12.000 --> 00:00:19.940
<v.loud Tam>How
much?</v>
"""

SUBRIP = """1\r
00:00:01,200 --> 00:00:08,340\r
Flour first.\r
\r
2\r
00:00:12,000 --> 00:00:19,940\r
Then <b>water</b>.\r
"""


def test_webvtt() -> None:
    first, second = read_transcript(WEBVTT).cues
    assert (first.id, first.text, first.speaker) == ("c001", "Flour first, then water & salt.", "Oda Brenn")
    assert (first.start, first.end) == (Fraction(6, 5), Fraction(417, 50))
    assert (second.id, second.text, second.speaker) == ("c002", "How much?", "Tam")


def test_subrip() -> None:
    read = read_transcript(SUBRIP)
    assert [(cue.id, cue.text) for cue in read.cues] == [("1", "Flour first."), ("2", "Then water.")]
    assert read.timed and read.end == Fraction("19.94") and read.remarks == ()


def test_plain_text() -> None:
    read = read_transcript("Oda: Flour first. Then water, approx. a pint.\nIt rests.\n\nTam: How long? Till noon.")
    assert [(cue.speaker, cue.text) for cue in read.cues] == [
        ("Oda", "Flour first."),
        ("Oda", "Then water, approx. a pint."),
        ("Oda", "It rests."),
        ("Tam", "How long?"),
        ("Tam", "Till noon."),
    ]
    assert not read.timed


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("WEBVTT\n\nc1\n00:00:01.000 --> later\nFlour.\n", 4, "is no time"),
        ("WEBVTT\n\nFlour first, and nobody timed it.\n\n00:01.000 --> 00:02.000\nThen water.\n", 3, "has no time"),
        ("WEBVTT\n\nc1\n00:61.000 --> 00:62.000\nFlour.\n", 4, "is no time"),
        ("WEBVTT\n", 1, "Nothing is said"),
        ("\n \n", 1, "Nothing is said"),
        ("Flour\0water", 1, "no text"),
    ],
)
def test_broken(text: str, line: int, words: str) -> None:
    with pytest.raises(TranscriptError, match=words) as raised:
        read_transcript(text)
    assert raised.value.line == line and raised.value.fix


def test_odd_but_readable() -> None:
    read = read_transcript(
        "WEBVTT\n\na\n00:05.000 --> 00:04.000\nFlour.\n\na\n00:02.000 --> 00:03.000\nWater.\n\n"
        "and salt\n\n00:09.000 --> 00:10.000\n\n"
    )
    assert [(cue.id, cue.text) for cue in read.cues] == [("a", "Flour."), ("a-2", "Water. and salt")]
    assert [remark.line for remark in read.remarks] == [4, 8, 7, 11, 13]


@settings(max_examples=100, deadline=None)
@given(st.text(alphabet=st.sampled_from("WEBVTT->:0123,.\n ab<v>&;\r\t"), max_size=120))
def test_whatever_stands_there_is_read_or_told(text: str) -> None:
    for head in ("", "WEBVTT\n\n"):
        try:
            assert read_transcript(head + text).cues
        except TranscriptError as error:
            assert 1 <= error.line <= (head + text).count("\n") + (head + text).count("\r") + 1


@pytest.mark.parametrize(
    ("text", "stretch"),
    [
        ("t=754.2,759", Stretch(Fraction("754.2"), Fraction(759))),
        ("t=12", Stretch(Fraction(12))),
        ("t=,12.5", Stretch(Fraction(0), Fraction("12.5"))),
        ("t=npt:10,20", Stretch(Fraction(10), Fraction(20))),
        ("t=12:34.2,12:39", Stretch(Fraction("754.2"), Fraction(759))),
        ("t=5,5", None),
        ("t=", None),
        ("t=x", None),
        ("5,6", None),
        ("t=1:99", None),
    ],
)
def test_media_fragments(text: str, stretch: Stretch | None) -> None:
    """The temporal dimension of W3C Media Fragments URI 1.0, section 4.2.1."""
    assert read_fragment(text) == stretch
    if stretch is not None:
        assert read_fragment(stretch.fragment()) == stretch


def test_moments_for_people() -> None:
    assert [clock_text(Fraction(seconds)) for seconds in (0, 63, 3723)] == ["0:00", "1:03", "1:02:03"]
