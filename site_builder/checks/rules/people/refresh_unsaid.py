from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.untold import asks_for
from site_builder.notebook.finding import Level

RULE = Rule(
    code="refresh-unsaid",
    level=Level.QUESTION,
    summary="A skill that never goes stale.",
    reason="A hand forgets. Who has not done the work for a year should do it once beside somebody "
    "before doing it alone again.",
    passes="""\
=== skills/filing.yml
skill: filing
title: Filing
refresh: 24 mo
""",
    fails="""\
=== skills/filing.yml
▸skill: filing
title: Filing
""",
    check=asks_for(
        "refresh", "After how long without practice must somebody be looked at again at {}?",
        "Add `refresh:` with the time, as `12 mo`.",
    ),
)
