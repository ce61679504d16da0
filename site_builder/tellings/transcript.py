"""Reading a transcript: WebVTT, SubRip, or plain text without times."""

from __future__ import annotations

import re
from fractions import Fraction

from site_builder.tellings.cue import Cue, Remark, Transcript, TranscriptError
from site_builder.tellings.plain_text import sentences
from site_builder.tellings.timing import clock_seconds

MOST_LETTERS = 2_000_000
"""A day of talk has about half a million letters."""

_ARROW = re.compile(r"^(?P<start>[\d:.,]+)\s*-->\s*(?P<end>[\d:.,]+)(?:\s.*)?$")
_VOICE = re.compile(r"<v(?:\.[^ \t<>]*+)?[ \t](?P<who>[^<>]++)>")
_TAG = re.compile(r"</?[^<>]{0,200}>")
_ENTITIES = {"&amp;": "&", "&lt;": "<", "&gt;": ">", "&nbsp;": " ", "&lrm;": "", "&rlm;": "", "&quot;": '"'}
_ENTITY = re.compile("|".join(_ENTITIES))
_ASIDE = re.compile(r"^(?:NOTE|STYLE|REGION)(?:\s|$)")


def read_transcript(text: str) -> Transcript:
    """Read a transcript, whichever of the three it is.

    Raises ``TranscriptError`` where nothing of use can be read, or where what was said would be lost.
    """
    if len(text) > MOST_LETTERS:
        raise TranscriptError(1, f"{len(text)} letters are more than a day of talk.", "Cut it into several files.")
    if "\0" in text:
        line = text[: text.index("\0")].count("\n") + 1
        raise TranscriptError(line, "This is no text.", "Save the transcript as plain text in UTF-8.")
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if lines[0].startswith("WEBVTT") or any("-->" in line for line in lines):
        return _timed(lines)
    found = sentences(lines)
    if not found:
        raise TranscriptError(1, "Nothing is said in this file.", "Write down what was said, or leave it out.")
    return Transcript(tuple(found))


def _timed(lines: list[str]) -> Transcript:
    """The cues of a WebVTT or SubRip file, block by block: they differ in the head and the mark before decimals."""
    cues: list[Cue] = []
    remarks: list[Remark] = []
    used: set[str] = set()
    webvtt = lines[0].startswith("WEBVTT")
    for first, block in _blocks(lines):
        if webvtt and (_ASIDE.match(block[0]) or (first == 1 and not any("-->" in line for line in block))):
            continue
        at = next((n for n, line in enumerate(block) if "-->" in line), None)
        if at is None:
            if cues and not block[0].strip().isdigit():
                remarks.append(Remark(first, "Words without a time; they are kept with the cue before."))
                cues[-1] = _with_more(cues[-1], " ".join(block))
            elif not block[0].strip().isdigit() or len(block) > 1:
                raise TranscriptError(
                    first,
                    f"`{block[0].strip()[:60]}` has no time.",
                    "Write its time in a line above it: `00:01:02.000 --> 00:01:05.000`.",
                )
            continue
        start, end = _times(block[at], first + at, remarks)
        if cues and cues[-1].start is not None and start < cues[-1].start:
            remarks.append(Remark(first + at, "This begins before the cue above it."))
        id_ = _name(block[at - 1].strip() if at else "", len(cues) + 1, used, first, remarks)
        said, speaker = _words(block[at + 1 :])
        if not said:
            remarks.append(Remark(first + at, "Nothing is said here; it is passed over."))
            continue
        cues.append(Cue(id_, said, start, end, speaker))
    if not cues:
        raise TranscriptError(1, "Nothing is said in this file.", "Take another file, or write down what was said.")
    return Transcript(tuple(cues), tuple(remarks))


def _blocks(lines: list[str]) -> list[tuple[int, list[str]]]:
    """What stands between blank lines, with the number of its first line. A second time begins a new block too."""
    blocks: list[tuple[int, list[str]]] = []
    open_ = False
    for number, line in enumerate(lines, 1):
        if not line.strip():
            open_ = False
        elif not open_ or ("-->" in line and any("-->" in one for one in blocks[-1][1])):
            blocks.append((number, [line]))
            open_ = True
        else:
            blocks[-1][1].append(line)
    return blocks


def _times(line: str, number: int, remarks: list[Remark]) -> tuple[Fraction, Fraction]:
    found = _ARROW.match(line.strip())
    start = None if found is None else clock_seconds(found["start"])
    end = None if found is None else clock_seconds(found["end"])
    if start is None or end is None:
        raise TranscriptError(
            number, f"`{line.strip()[:60]}` is no time.", "Write it as `00:01:02.000 --> 00:01:05.000`."
        )
    if end < start:
        remarks.append(Remark(number, "This ends before it begins; its end is taken as its beginning."))
        end = start
    return start, end


def _name(id_: str, count: int, used: set[str], line: int, remarks: list[Remark]) -> str:
    """The name of a cue, as it stands there, or by its count; never one twice."""
    given = id_ if 0 < len(id_) <= 60 else f"c{count:03}"
    name, again = given, 2
    while name in used:
        name, again = f"{given}-{again}", again + 1
    if name != given:
        remarks.append(Remark(line, f"Two cues are called `{given}`; this one is `{name}` here."))
    used.add(name)
    return name


def _words(lines: list[str]) -> tuple[str, str]:
    """What was said, without marks of form, and who said it."""
    text = " ".join(line.strip() for line in lines)
    voice = _VOICE.search(text)
    plain = _ENTITY.sub(lambda found: _ENTITIES[found[0]], _TAG.sub("", text))
    return " ".join(plain.split()), voice["who"].strip() if voice else ""


def _with_more(cue: Cue, more: str) -> Cue:
    return Cue(cue.id, f"{cue.text} {' '.join(more.split())}", cue.start, cue.end, cue.speaker)
