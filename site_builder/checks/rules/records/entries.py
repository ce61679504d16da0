"""Rules on the entries of the books."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import whole
from site_builder.checks.rules.records.unknown import lost_links
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.reference_keys import PROCEDURE, TOOL
from site_builder.skills.entry_dates import BEFORE, MEND, NOT_YET, answered_in, backward, lies_ahead


def number_gap(analysis: Analysis) -> Iterator[Found]:
    for book, entries in analysis.notebook.books.items():
        expected = 1
        for entry in entries:
            number = entry.number
            if number != expected and whole(analysis.notebook, entry):
                after = f"after {book} {expected - 1}" if expected > 1 else "at the beginning of the book"
                yield Found(
                    entry.number_text.at, f"Here stands {book} {number}; {after} comes {expected}.",
                    f"Write `{book}: {expected}`; if entries are lost, look for them in an older copy.",
                    f"{book} {number}",
                )
            expected = number + 1


NUMBER_GAP = Rule(
    "number-gap", Level.ERROR, "The numbers of a book do not count up by one.",
    "A missing number is a torn-out page. Evidence points at entries by their number, so each stands once and "
    "none is left out.",
    """\
=== skills/records/practice.yml
---
practice: 1
who: tilde
date: 2026-06-19
---
✓ practice: 2
✗ practice: ▸3
who: tilde
date: 2026-06-20
✗ ---
✗ practice: 4
✗ who: tilde
✗ date: 2026-06-21
""", number_gap,
)


def date_ahead(analysis: Analysis) -> Iterator[Found]:
    for book, entries in analysis.notebook.books.items():
        gone = answered_in(entries)
        for entry in entries:
            if entry.date is not None and entry.number not in gone and lies_ahead(entry, analysis.today):
                yield Found(
                    entry.date.at, NOT_YET.format(entry.date),
                    f"Look at the clock first. {MEND.format(entry.number)}", f"{book} {entry.number}",
                )


DATE_AHEAD = Rule(
    "date-ahead", Level.ERROR, "An entry is dated later than tomorrow.",
    "A clock was set wrong, or a finger slipped. Such an entry counts for nothing until it is answered, and is "
    "no measure for the days of those after it.",
    """\
=== skills/records/practice.yml
---
practice: 1
who: tilde
✓ date: 2026-06-19
✗ date: ▸2126-06-19
""", date_ahead,
)


def date_backward(analysis: Analysis) -> Iterator[Found]:
    for book, entries in analysis.notebook.books.items():
        for entry, latest in backward(entries, answered_in(entries), analysis.today):
            yield Found(
                entry.date.at if entry.date is not None else entry.at,
                BEFORE.format(entry.date, latest),
                MEND.format(entry.number),
                f"{book} {entry.number}",
            )


DATE_BACKWARD = Rule(
    "date-backward", Level.ERROR, "An entry is older than the one before it.",
    "A book that is only added to runs forward in time. A date that goes back was slipped in later, or is a slip "
    "of the pen. Two clocks may be a day apart. Where it is the earlier entry that has the wrong day, answer "
    "that one.",
    """\
=== skills/records/practice.yml
---
practice: 1
who: tilde
✓ date: 2026-06
✗ date: 2026-06-19
---
practice: 2
who: tilde
✓ date: 2026-06-19
✗ date: ▸2025-06-20
""", date_backward,
)


def record_who(analysis: Analysis) -> Iterator[Found]:
    if not analysis.notebook.people:
        return
    for link, fix in lost_links(analysis, people=True):
        yield Found(
            link.at, f"`{link.text}` is nobody of the shop.",
            f"{fix} Who has left stays in `people.yml`, with `left`.", link.place.owner_id,
        )


RECORD_WHO = Rule(
    "record-who", Level.ERROR, "An entry names somebody whom nobody knows.",
    "The word of an unknown is worth nothing, and what he has shown helps nobody.",
    """\
=== skills/people.yml
people: {tilde: Tilde, ansa: Ansa}
=== skills/records/practice.yml
---
practice: 1
who: ansa
✓ teacher: tilde
✗ teacher: ▸tidle
""", record_who,
)


_NOUNS: Mapping[tuple[str, ...], str] = {
    ("value",): "limit", ("path",): "procedure or step", PROCEDURE: "procedure", ("skill",): "skill",
    TOOL: "gauge", ("order",): "order", ("change",): "change",
}


def record_what(analysis: Analysis) -> Iterator[Found]:
    for link, fix in lost_links(analysis, people=False):
        noun = _NOUNS.get(link.kinds)
        if noun is not None:  # a link in a note is no key of the entry; it has a rule of its own
            yield Found(link.at, f"There is no {noun} `{link.text}`.", fix, link.place.owner_id)


RECORD_WHAT = Rule(
    "record-what", Level.ERROR, "An entry names a procedure, a skill, a limit or a gauge that does not exist.",
    "Practice at something that is not there proves nothing. It is a slip of the pen, or the thing was renamed "
    "and the books were forgotten.",
    """\
=== procedures/foot/file-foot.yml
procedure: file-foot
title: File the foot
steps: File along the parting line.
=== skills/records/practice.yml
---
practice: 1
✓ procedure: file-foot
✗ procedure: ▸flie-foot
✗ === skills/records/measurements.yml
✗ ---
✗ measurement: 1
✗ measured: ▸file-foot/flatness
""", record_what,
)


def former_taken(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for shelf in nb.shelves.values():
        had = Counter(str(former) for entry in shelf.values() for former in getattr(entry, "former", ()))
        for id_, entry in shelf.items():
            for former in getattr(entry, "former", ()):
                if former in shelf:
                    yield Found(former.at, f"`{former}` is the id of another thing now.",
                                "Give that one another id: entries of the books cannot mean both.", id_)
                elif had[str(former)] > 1:
                    yield Found(former.at, f"Two things say that they were called `{former}`.",
                                "Take it away at the one that the books do not mean.", id_)


FORMER_TAKEN = Rule(
    "former-taken", Level.ERROR, "An earlier id is that of something else too.",
    "Entries under seal go on naming a thing by the id it had. If two things answer to it, nobody knows whose "
    "entry it is.",
    """\
=== skills/people.yml
people:
✓   ansa: {name: Ansa, former: anna}
✗   ansa: {name: Ansa, former: ▸tilde}
  tilde: Tilde
""", former_taken,
)
