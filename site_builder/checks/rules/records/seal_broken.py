from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.sealed import SEALED
from site_builder.notebook.finding import Found, Level
from site_builder.skills.chain import Wrong


def check(analysis: Analysis) -> Iterator[Found]:
    for verdict in analysis.verdicts.values():
        for fault in verdict.faults:
            if fault.wrong is Wrong.SIGNATURE and "people" in analysis.notebook.unread:
                continue  # the keys stand there
            yield Found(fault.at, fault.message, fault.fix, f"{verdict.kind} {fault.number}" if fault.number else "")


RULE = Rule(
    code="seal-broken",
    level=Level.ERROR,
    summary="A book under seal is not as it was written.",
    reason="Every entry carries its own seal and that of the one before. Where they do not fit, "
    "something was changed, taken out, put in or cut off after it was signed.",
    passes=SEALED,
    fails=SEALED.replace("level: beside\nseal: ", "level: alone\nseal: ▸"),
    check=check,
)
