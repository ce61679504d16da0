"""Whoever changes a book under seal is found out: every byte, every entry, every cut."""

from __future__ import annotations

import random
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import replace

from bookmaking import EDDA, KEYS, KIND, PATH, book, book_text, fields

from site_builder.skills.append import sealed_entry
from site_builder.skills.book import Book, Written, book_of, entries_in, pieces_of
from site_builder.skills.chain import Link, Wrong, against, check, verify
from site_builder.skills.entry_text import entry_text
from site_builder.skills.last import Last
from site_builder.skills.seal import content_of

ENTRIES = 200
WHOLE = book(ENTRIES)
PIECES = pieces_of(WHOLE.data)
STARTS = [start for start, _ in PIECES]
BY_START = {entry.start: index for index, entry in enumerate(WHOLE.entries)}


def link_before(index: int) -> Link:
    """The chain as it stands before an entry of the whole book."""
    if index == 0:
        return Link()
    signers = {"edda"} if index > 50 else set()
    before = WHOLE.entries[index - 1]
    return Link(before.number, frozenset({before.seal}), signers)


def said(entries: tuple[Written, ...] | list[Written]) -> list[object]:
    return [content_of(entry.tree) for entry in entries if entry.tree is not None]


def changed(place: int, byte: int) -> tuple[list[Written], list[Written], Link]:
    """The entries that a changed byte can touch: as they are then, as they were, and the chain before them.

    A book is cut into pieces at lines that begin with `---` and each is read by itself, so a byte touches only
    its own piece, and the one before or after where it belongs to the mark between two.
    """
    number = bisect_right(STARTS, place) - 1
    start, end = PIECES[number]
    first = number - 1 if place < start + 4 and number else number
    last = number + 1 if place == end - 1 and number + 1 < len(PIECES) else number
    begin, stop = PIECES[first][0], PIECES[last][1]
    window = WHOLE.data[begin:place] + bytes([byte]) + WHOLE.data[place + 1 : stop]
    indexes = [BY_START[start] for start in STARTS[first : last + 1] if start in BY_START]
    before = [WHOLE.entries[index] for index in indexes]
    return [*entries_in(window, KIND, PATH)], before, link_before(indexes[0] if indexes else 0)


def is_found(place: int, byte: int) -> bool:
    """Whether the change is detected; where it is not, every entry must say what it said."""
    now, before, link = changed(place, byte)
    if next(check(now, link, KEYS), None) is not None or len(now) < len(before):
        return True
    assert said(now) == said(before), (place, byte)
    assert [entry.seal for entry in now] == [entry.seal for entry in before]
    return False


def test_the_whole_book_is_whole() -> None:
    assert verify(WHOLE, KEYS) == []
    assert [entry.number for entry in WHOLE.entries] == list(range(1, ENTRIES + 1))


# --- bytes ----------------------------------------------------------------------------------------------


def test_every_byte_of_the_book_with_one_of_its_bits_turned() -> None:
    """Another bit at each byte, so that over the book every bit of every kind of line has its turn."""
    unfound = {place for place, byte in enumerate(WHOLE.data) if not is_found(place, byte ^ 1 << place % 8)}
    # what is left are the comments, the blank line, and blanks within a list or around a value: they say nothing
    lines = {WHOLE.data[WHOLE.data.rfind(b"\n", 0, place) + 1 :].split(b"\n")[0] for place in unfound}
    assert lines
    sayers = (b"seal", b"previous", b"who", b"learner", b"date", b"skill", b"signature", b"key", b"sign-off")
    assert not [line for line in lines if line.startswith(sayers)]
    assert len(unfound) < len(WHOLE.data) / 100


def test_every_byte_of_a_signed_entry_turned_into_others() -> None:
    """Into every thirteenth, so that over the entry every byte stands in for one."""
    entry = WHOLE.entries[49]
    turned = [(place, byte) for place in range(entry.start, entry.end) for byte in range(place % 13, 256, 13)
              if byte != WHOLE.data[place]]
    assert len(turned) > 15 * (entry.end - entry.start)
    assert sum(is_found(place, byte) for place, byte in turned) > 0.98 * len(turned)


def test_a_byte_seen_alone_is_a_byte_seen_in_the_whole_book() -> None:
    chance = random.Random(8785)
    for _ in range(40):
        place, byte = chance.randrange(len(WHOLE.data)), chance.randrange(256)
        data = WHOLE.data[:place] + bytes([byte]) + WHOLE.data[place + 1 :]
        faults = verify(book_of(data, KIND, PATH, WHOLE.last), KEYS)
        assert bool(faults) == (byte != WHOLE.data[place] and is_found(place, byte))


# --- entries --------------------------------------------------------------------------------------------


def first_wrong(entries: list[Written] | tuple[Written, ...]) -> Wrong:
    """The first thing that is wrong when the book holds these entries."""
    return next(iter(verify(replace(WHOLE, entries=tuple(entries)), KEYS))).wrong


def soon(entries: list[Written] | tuple[Written, ...]) -> Wrong | None:
    """The same without looking further than the first fault of the chain."""
    fault = next(check(entries, Link(), KEYS), None)
    return fault.wrong if fault is not None else None


def test_every_entry_taken_out() -> None:
    all_ = WHOLE.entries
    for index in range(ENTRIES - 1):
        assert soon(all_[:index] + all_[index + 1 :]) is Wrong.MISSING
    assert first_wrong(all_[:-1]) is Wrong.TRUNCATED


def test_every_row_of_entries_cut_out() -> None:
    for start in range(ENTRIES - 1):
        for end in range(start + 1, ENTRIES):
            (fault,) = check(WHOLE.entries[end : end + 1], link_before(start), KEYS)
            assert fault.wrong is Wrong.MISSING


def test_every_end_cut_off() -> None:
    for keep in range(ENTRIES):
        assert first_wrong(WHOLE.entries[:keep]) is Wrong.TRUNCATED


def test_every_two_entries_changed_for_each_other() -> None:
    for one in range(ENTRIES):
        for other in range(one + 1, ENTRIES):
            entries = [WHOLE.entries[other], *WHOLE.entries[one + 1 : other], WHOLE.entries[one]]
            first = next(check(entries, link_before(one), KEYS))
            assert (first.wrong, first.number) == (Wrong.REORDERED, other + 1)


def foreign(number: int, previous: str) -> Written:
    """An entry that somebody has made, with a seal of its own that is right."""
    text = entry_text(sealed_entry(KIND, number, previous, {**fields(number), "learner": "mallory"}))
    (entry,) = entries_in(text.encode("utf-8"), KIND, PATH)
    return entry


def insertions(index: int) -> Iterator[Written]:
    """What somebody might put in before an entry."""
    before = WHOLE.entries[index - 1].seal if index else ""
    yield foreign(index + 1, before)
    yield foreign(index + 1, "0" * 64)
    yield foreign(index + 1, "")
    yield WHOLE.entries[max(index - 1, 0)]
    yield WHOLE.entries[(index + 100) % ENTRIES]


def test_every_place_where_something_is_put_in() -> None:
    for index in range(ENTRIES + 1):
        for entry in insertions(index):
            entries = (*WHOLE.entries[:index], entry, *WHOLE.entries[index:])
            assert soon(entries) is not None or first_wrong(entries) is Wrong.UNNOTED
            if index < ENTRIES - 1 and entry is not WHOLE.entries[index]:
                assert soon((*WHOLE.entries[:index], entry, *WHOLE.entries[index + 1 :])) is not None


def test_every_byte_at_which_the_file_can_end() -> None:
    """The end is told by the last seal: whatever is left of the last entry, it is not the one acknowledged."""
    start = WHOLE.entries[-2].start
    for end in range(start, len(WHOLE.data)):
        left = WHOLE.entries[:-2] + tuple(entries_in(WHOLE.data[start:end], KIND, PATH))
        faults = verify(replace(WHOLE, data=WHOLE.data[:end], entries=left), KEYS)
        if end < len(WHOLE.data) - 1:
            assert faults, end
        else:
            assert not faults  # only the last line end is gone


# --- what only the last seal, a signature or paper shows ----------------------------------------------------


def forged(learner: str) -> Book:
    """The book written anew from entry 100 on, every seal reckoned afresh by somebody who knows how."""
    previous = WHOLE.entries[98].seal
    text = [WHOLE.data[: WHOLE.entries[99].start].decode("utf-8")]
    for number in range(100, ENTRIES + 1):
        changed_fields = {**fields(number), **({"learner": learner} if number == 100 else {})}
        entry = sealed_entry(KIND, number, previous, changed_fields)
        text.append(entry_text(entry))
        previous = str(entry["seal"])
    return book_of("".join(text).encode("utf-8"), KIND, PATH, Last(ENTRIES, previous))


def test_a_book_written_anew_is_convicted_by_the_signatures_it_lacks() -> None:
    wrong = [(fault.wrong, fault.number) for fault in verify(forged("mallory"), KEYS)]
    assert wrong == [(Wrong.SIGNATURE, 100), (Wrong.SIGNATURE, 150), (Wrong.SIGNATURE, 200)]


def test_a_book_written_anew_is_convicted_by_a_printed_seal() -> None:
    printed = " ".join(WHOLE.entries[-1].seal[i : i + 8] for i in range(0, 64, 8)).upper()
    assert against(WHOLE, printed) == ENTRIES
    assert against(WHOLE, WHOLE.entries[119].seal[:12]) == 120  # an older handbook
    assert against(WHOLE, WHOLE.entries[119].seal[:11]) is None  # too little to go by
    assert against(forged("mallory"), printed) is None


def test_a_book_written_anew_is_convicted_by_the_old_file_beside_it() -> None:
    old = replace(forged("mallory"), last=WHOLE.last, entries=forged("mallory").entries[:199])
    assert [fault.wrong for fault in verify(old, KEYS)][-1] is Wrong.TRUNCATED
    unsigned = replace(WHOLE, entries=WHOLE.entries[:40], last=Last(40, "0" * 64))
    assert [(fault.wrong, fault.number) for fault in verify(unsigned, {})] == [(Wrong.FOREIGN, 40)]


def test_signatures() -> None:
    data, last = book_text(100)
    signature = EDDA.sign(book(100).entries[49].seal).encode()
    assert signature in data

    def wrong(data: bytes, keys: dict) -> list[tuple[Wrong, int]]:
        return [(fault.wrong, fault.number) for fault in verify(book_of(data, KIND, PATH, last), keys)]

    assert wrong(data, KEYS) == []
    assert wrong(data, {"edda": ("A" * 43 + "=", EDDA.public)}) == []  # an older key stands beside it
    assert wrong(data, {}) == [(Wrong.SIGNATURE, 50), (Wrong.SIGNATURE, 100)]
    assert wrong(data, {"edda": ("A" * 43 + "=",)}) == [(Wrong.SIGNATURE, 50), (Wrong.SIGNATURE, 100)]
    assert wrong(data.replace(b'signature: "' + signature + b'"\n', b""), KEYS) == [(Wrong.SIGNATURE, 50)]  # taken away
    other = EDDA.sign(book(100).entries[99].seal).encode()
    assert wrong(data.replace(signature, other), KEYS) == [(Wrong.SIGNATURE, 50)]  # taken from elsewhere


def test_the_first_bad_entry_is_named_with_its_place() -> None:
    data = WHOLE.data.replace(b"learner: benno", b"learner: tilde", 1)
    (fault,) = verify(book_of(data, KIND, PATH, WHOLE.last), KEYS)
    assert (fault.wrong, fault.number) == (Wrong.ALTERED, 1)
    assert data.decode("utf-8").split("\n")[fault.at.line - 1].startswith("seal: ")


def test_without_the_small_file_nobody_can_say_how_the_book_ended() -> None:
    (fault,) = verify(replace(WHOLE, last=None), KEYS)
    assert fault.wrong is Wrong.UNNOTED


def test_an_entry_written_by_hand_is_told_and_the_others_stand() -> None:
    data = WHOLE.data + b"---\nsign-off: 201\nwho: edda\nlearner: ansa\n"
    faults = verify(book_of(data, KIND, PATH, WHOLE.last), KEYS)
    assert [(fault.wrong, fault.number) for fault in faults] == [(Wrong.UNSEALED, 201)]
