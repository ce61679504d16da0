from __future__ import annotations

from collections.abc import Iterator

from site_builder.checks.rule import Rule
from site_builder.checks.survey import Survey
from site_builder.mastery.chain import Wrong
from site_builder.notebook.finding import Found, Level


def check(survey: Survey) -> Iterator[Found]:
    for verdict in survey.verdicts.values():
        for fault in verdict.faults:
            if fault.wrong is Wrong.SIGNATURE and "people" in survey.notebook.unread:
                continue  # the keys stand there
            yield Found(fault.at, fault.message, fault.mend, f"{verdict.kind} {fault.number}" if fault.number else "")


RULE = Rule(
    code="seal-broken",
    level=Level.ERROR,
    summary="A book under seal is not as it was written.",
    reason="Every entry carries its own seal and that of the one before. Where they do not fit, "
    "something was changed, taken out, put in or cut off after it was signed.",
    passes="""\
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
""",
    fails="""\
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: alone
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
""",
    check=check,
)
