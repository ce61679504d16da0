from __future__ import annotations

from collections.abc import Iterator, Mapping

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.unknown import lost_links
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.reference_keys import PROCEDURE, TOOL

_NOUNS: Mapping[tuple[str, ...], str] = {
    ("value",): "limit", ("path",): "procedure or step", PROCEDURE: "procedure", ("skill",): "skill",
    TOOL: "gauge", ("order",): "order", ("change",): "change",
}


def check(analysis: Analysis) -> Iterator[Found]:
    for link, fix in lost_links(analysis, people=False):
        noun = _NOUNS.get(link.kinds)
        if noun is not None:  # a link in a note is no key of the entry; it has a rule of its own
            yield Found(link.at, f"There is no {noun} `{link.text}`.", fix, link.place.owner_id)


RULE = Rule(
    code="record-what",
    level=Level.ERROR,
    summary="An entry names a procedure, a skill, a limit or a gauge that does not exist.",
    reason="Practice at something that is not there proves nothing. It is a slip of the pen, or the "
    "thing was renamed and the books were forgotten.",
    passes="""\
=== procedures/foot/file-foot.yml
procedure: file-foot
title: File the foot
steps: File along the parting line.
=== skills/records/practice.yml
---
practice: 1
procedure: file-foot
""",
    fails="""\
=== procedures/foot/file-foot.yml
procedure: file-foot
title: File the foot
steps: File along the parting line.
=== skills/records/practice.yml
---
practice: 1
procedure: ▸flie-foot
=== skills/records/measurements.yml
---
measurement: 1
measured: ▸file-foot/flatness
""",
    check=check,
)
