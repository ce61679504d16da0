"""Is the book as it was written? Each entry holds its own seal and that of the one before.

What a seal proves: that an entry, and all before it, say what they said when a copy of the seal was taken,
by the small file beside the book, by a printed handbook, by another person's disk. Whoever can write the
files can also reckon all seals anew; only a copy that is out of his reach convicts him. What a signature
proves besides: that somebody wrote it who had the signer's key and knew its passphrase. Neither proves that
what was written is true.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from site_builder.notebook.finding import At
from site_builder.skills.book import Book, Written, follows
from site_builder.skills.keys import signed_by

Keys = Mapping[str, Sequence[str]]
"""The public keys of each person."""


class Wrong(StrEnum):
    """What can be wrong with a book."""

    ALTERED = "altered"
    MISSING = "missing"
    REORDERED = "reordered"
    TRUNCATED = "truncated"
    FOREIGN = "foreign seal"
    SIGNATURE = "bad signature"
    UNSEALED = "without a seal"
    UNREADABLE = "unreadable"
    TORN = "torn"
    UNNOTED = "not noted"


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong, at the entry with this number (0: none that can be told)."""

    wrong: Wrong
    number: int
    at: At
    message: str
    fix: str


_OLD_COPY = "Look at an older copy of the notebook, and put back what stood there."
_NEW_ENTRY = (
    "Put back what stood there; an older copy or the printed handbook has it. What an entry says is changed "
    "by a new one with `corrects: {}`."
)


@dataclass(slots=True)
class Link:
    """Where the chain stands: the number of the entry before, the seals it may go by, and who has signed."""

    number: int = 0
    seals: frozenset[str] | None = frozenset({""})
    """None where the entry before cannot be read."""
    signers: set[str] = field(default_factory=set)


def verify(book: Book, keys: Keys) -> list[Fault]:
    """Everything that is wrong with a book under seal, in its order; empty where it is whole."""
    faults = [*check(book.entries, Link(), keys)]
    told = {fault.number for fault in faults}
    return [*faults, *(fault for fault in _end(book) if fault.number not in told)]


def check(entries: Sequence[Written], link: Link, keys: Keys) -> Iterator[Fault]:
    """The faults of some entries that stand one after another below ``link``, which is led along."""
    places = {entry.number: index for index, entry in enumerate(entries) if entry.tree is not None}
    seen: set[int] = set()
    for index, entry in enumerate(entries):
        if entry.tree is None:
            yield Fault(Wrong.UNREADABLE, link.number + 1, entry.at,
                        f"An entry, probably {link.number + 1}, cannot be read. {entry.problem}",
                        entry.retyped or _OLD_COPY)
            link.number, link.seals = link.number + 1, None
            continue
        faults = list(_of_entry(entry, link, places.get(link.number + 1, -1) > index, seen))
        yield from faults
        signature = _signature(entry, link.signers, keys)
        if signature is not None and not faults:
            yield signature
        altered = any(fault.wrong is Wrong.ALTERED for fault in faults)
        link.number = link.number + 1 if altered else entry.number
        link.seals = frozenset({entry.seal, entry.real_seal}) if entry.sealed else None
        seen.add(entry.number)


def _of_entry(entry: Written, link: Link, comes_later: bool, seen: Iterable[int]) -> Iterator[Fault]:
    number, expected = entry.number, link.number + 1
    if not entry.sealed:
        yield Fault(Wrong.UNSEALED, number, entry.at, f"Entry {number} has no seal.",
                    "Was it written by hand? `benchlore seal` brings the entries at the end of a book under seal.")
    elif entry.seal != entry.real_seal:
        yield Fault(Wrong.ALTERED, number, entry.at_key("seal"),
                    f"Entry {number} does not say what it said when it was sealed.",
                    entry.retyped or _NEW_ENTRY.format(number))
    elif number in seen:
        yield Fault(Wrong.REORDERED, number, entry.at, f"Entry {number} stands here a second time.", _OLD_COPY)
    elif number != expected and (number < expected or comes_later):
        yield Fault(Wrong.REORDERED, number, entry.at,
                    f"Entry {number} stands where entry {expected} belongs.", _OLD_COPY)
    elif number != expected:
        gone = f"Entry {expected} is" if number == expected + 1 else f"Entries {expected} to {number - 1} are"
        yield Fault(Wrong.MISSING, number, entry.at, f"{gone} missing before entry {number}.", _OLD_COPY)
    elif link.seals is not None and entry.text("previous") not in link.seals:
        before = f"entry {link.number}" if link.number else "nothing"
        yield Fault(Wrong.FOREIGN, number, entry.at_key("previous"),
                    f"Entry {number} was not sealed after {before}: it carries the seal of something else.",
                    _OLD_COPY)


def _signature(entry: Written, signers: set[str], keys: Keys) -> Fault | None:
    who, key, signature = entry.text("who"), entry.text("key"), entry.text("signature")
    told = ""
    if not key and not signature:
        if who in signers:
            told = f"Entry {entry.number} is not signed, but `{who}` has signed with a key before."
    elif not key or not signature:
        told = f"Under entry {entry.number} the {'signature' if key else 'key of the signature'} is missing."
    elif key not in keys.get(who, ()):
        told = f"Entry {entry.number} is signed with a key that does not stand in `people.yml` for `{who}`."
    elif not signed_by(entry.seal, signature, key):
        told = f"The signature under entry {entry.number} was not made by `{who}` for this entry."
    if key:
        signers.add(who)
    if not told:
        return None
    return Fault(Wrong.SIGNATURE, entry.number, entry.at_key("signature"), told,
                 "Put back the entry, or the key of this person in `people.yml`, from an older copy.")


def _end(book: Book) -> Iterator[Fault]:
    """What the last seal says about the end of the book."""
    entries, last = book.entries, book.last
    at = entries[-1].at if entries else At(book.path)
    if last is None:
        if any(entry.sealed for entry in entries):
            yield Fault(Wrong.UNNOTED, entries[-1].number, at,
                        "The small file with the last seal, which belongs beside the book, is not there; nobody "
                        "can say whether entries were cut off at the end.",
                        "Bring it from an older copy. If there is none, `benchlore seal` writes it anew; hold the "
                        "last seal against a printed handbook first.")
        return
    if book.torn is not None:
        line = book.data[: book.torn].count(b"\n") + 1
        yield Fault(Wrong.TORN, last.entry + 1, At(book.path, line),
                    f"After entry {last.entry} something is torn: an entry was being written when the power went.",
                    "It was never acknowledged. The next entry sets the rest of it aside in a file beside the book.")
    found = [index for index, entry in enumerate(entries) if entry.seal == last.seal] if last.entry else [-1]
    if not found:
        ends = entries[-1].number if entries else 0
        if ends < last.entry:
            now = f"now ends with entry {ends}" if ends else "is empty now"
            yield Fault(Wrong.TRUNCATED, last.entry, at, f"The book ended with entry {last.entry} and {now}.",
                        _OLD_COPY)
        else:
            yield Fault(Wrong.FOREIGN, last.entry, at,
                        f"Entry {last.entry} is not the one whose seal was noted beside the book.", _OLD_COPY)
        return
    beyond = [entry for entry in entries[found[0] + 1:] if entry.number]  # an unreadable one is told already
    confirmed_by_writing = last.writing is not None and len(beyond) == 1 and follows(beyond[0], last)
    if beyond and not confirmed_by_writing:
        yield Fault(Wrong.UNNOTED, beyond[0].number, beyond[0].at,
                    f"The last seal noted is that of entry {last.entry}, and entry {beyond[0].number} comes after it.",
                    "If it is right, `benchlore seal` notes the last seal of the book.")


def against(book: Book, seal: str) -> int | None:
    """The number of the entry that a seal from paper belongs to; None where the book has no such entry.

    At least the first twelve digits are needed; blanks between them and capital letters do no harm.
    """
    wanted = "".join(seal.split()).lower()
    if len(wanted) < LEAST_DIGITS:
        return None
    return next((number for own, number in book.numbers.items() if own.startswith(wanted)), None)


LEAST_DIGITS = 12
"""So many digits of a seal are enough to tell it from every other that chance brings about."""
