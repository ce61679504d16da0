"""Rules on seals."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.skills.book import book_path
from site_builder.skills.chain import Wrong


def seal_broken(analysis: Analysis) -> Iterator[Found]:
    for verdict in analysis.verdicts.values():
        for fault in verdict.faults:
            if fault.wrong is Wrong.SIGNATURE and "people" in analysis.notebook.unread:
                continue  # the keys stand there
            yield Found(fault.at, fault.message, fault.fix, f"{verdict.kind} {fault.number}" if fault.number else "")


SEAL_BROKEN = Rule(
    "seal-broken", Level.ERROR, "A book under seal is not as it was written.",
    "Every entry carries its own seal and that of the one before. Where they do not fit, something was changed, "
    "taken out, put in or cut off after it was signed.",
    """\
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
✓ level: beside
✗ level: alone
seal: ▸e6d31a9a1ec426f857b5516a7b205be811c546623f59140611ed6208331b1829
---
sign-off: 2
who: edda
date: 2026-06-20
learner: ansa
skill: filing
level: watches
previous: e6d31a9a1ec426f857b5516a7b205be811c546623f59140611ed6208331b1829
seal: 80de42920c55b85fb37da87caf613d1576c7af22209fccea20baa9f37bdab797
=== skills/records/sign-offs.last
entry: 2
date: 2026-06-20
seal: 80de42920c55b85fb37da87caf613d1576c7af22209fccea20baa9f37bdab797
""", seal_broken,
)


def seal_beside(analysis: Analysis) -> Iterator[Found]:
    for kind, verdict in analysis.verdicts.items():
        for entry in analysis.notebook.books.get(kind, ()) if verdict.sealed else ():
            if entry.at.path != book_path(kind):
                yield Found(entry.at, f"This entry stands outside {book_path(kind)}, which is under seal.",
                            f"Enter it with `benchlore {'sign' if kind == 'sign-off' else f'log {kind}'}`, and take "
                            "it out here.", f"{kind} {entry.number}")


SEAL_BESIDE = Rule(
    "seal-beside", Level.ERROR, "An entry stands outside the book under seal to which it belongs.",
    "Only what stands in the book itself is under its seals. Beside it anybody can put what was never signed.",
    """\
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
seal: e6d31a9a1ec426f857b5516a7b205be811c546623f59140611ed6208331b1829
---
sign-off: 2
who: edda
date: 2026-06-20
learner: ansa
skill: filing
level: watches
previous: e6d31a9a1ec426f857b5516a7b205be811c546623f59140611ed6208331b1829
seal: 80de42920c55b85fb37da87caf613d1576c7af22209fccea20baa9f37bdab797
=== skills/records/sign-offs.last
entry: 2
date: 2026-06-20
seal: 80de42920c55b85fb37da87caf613d1576c7af22209fccea20baa9f37bdab797
✗ === skills/records/more.yml
✗ ---
✗ ▸sign-off: 3
✗ who: edda
✗ date: 2026-06-21
✗ learner: ansa
✗ skill: filing
✗ level: alone
""", seal_beside,
)


def seal_none(analysis: Analysis) -> Iterator[Found]:
    verdict = analysis.verdicts.get("sign-off")
    if verdict is not None and verdict.book is not None and verdict.book.entries and not verdict.sealed:
        yield Found(verdict.book.entries[0].at, "Nothing shows whether this book is as it was written.",
                    "Look through it once more, then bring it under seal with `benchlore seal`.", "sign-off 1")


SEAL_NONE = Rule(
    "seal-none", Level.WARNING, "The book of sign-offs is not under seal.",
    "As long as it is not, anybody can change what was signed, and nobody will see it.",
    """\
=== skills/records/sign-offs.yml
---
▸sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
✓ seal: e6d31a9a1ec426f857b5516a7b205be811c546623f59140611ed6208331b1829
✓ ---
✓ sign-off: 2
✓ who: edda
✓ date: 2026-06-20
✓ learner: ansa
✓ skill: filing
✓ level: watches
✓ previous: e6d31a9a1ec426f857b5516a7b205be811c546623f59140611ed6208331b1829
✓ seal: 80de42920c55b85fb37da87caf613d1576c7af22209fccea20baa9f37bdab797
✓ === skills/records/sign-offs.last
✓ entry: 2
✓ date: 2026-06-20
✓ seal: 80de42920c55b85fb37da87caf613d1576c7af22209fccea20baa9f37bdab797
""", seal_none,
)
