from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.texts.wanted import did_you_mean, kinds_in_words, may_be_unread, written_anew
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.kinds import link_nouns
from site_builder.notebook.model.records import Record
from site_builder.notebook.references import Link

_TOLD_ELSEWHERE = (("value",), ("trouble",), ("route",))
"""Links in texts, values, troubles and the ways back have rules of their own, and so have the books."""


def check(analysis: Analysis) -> Iterator[Found]:
    for link in analysis.references.links:
        if (
            link.target is None
            and link.kinds not in (*_TOLD_ELSEWHERE, link_nouns())
            and not link.kinds[-1].endswith("?")
            and not isinstance(link.place.owner, Record)
            and not may_be_unread(analysis, link.text, link.kinds)
        ):
            wanted = kinds_in_words(link.kinds)
            yield Found(
                link.at, f"There is no `{link.text}`; {wanted} is wanted here.",
                f"{_near(analysis, link)}{written_anew(link.text, link.kinds)}",
                link.place.owner_id,
            )


def _near(analysis: Analysis, link: Link) -> str:
    """The nearest id; of several with commas between it would be only the first."""
    return "" if "," in link.text else did_you_mean(analysis, link.text, link.kinds)


RULE = Rule(
    code="reference-none",
    level=Level.ERROR,
    summary="An id that nothing has.",
    reason="The reader would be sent for a tool or a page that is not there.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-grinder
steps:
  - do: Sweep it along the belt.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: ▸belt-grindr
steps:
  - do: Sweep it along the belt.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
""",
    check=check,
)
