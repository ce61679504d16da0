from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.texts.wanted import did_you_mean, inner_names, may_be_unread
from site_builder.notebook.finding import At, Found, Level
from site_builder.notebook.kinds import link_nouns
from site_builder.notebook.model.records import Record
from site_builder.notebook.story_links import ids_in


def check(analysis: Analysis) -> Iterator[Found]:
    for link in analysis.references.links:
        # the books are never rewritten: a thing may have got another name since
        if link.target is None and link.kinds == link_nouns() and not isinstance(link.place.owner, Record):
            yield from _found(analysis, link.text, link.at, link.place.owner_id)
    for story in analysis.notebook.stories:
        for id_, at in ids_in(story):
            if not _leads_somewhere(analysis, id_):
                yield from _found(analysis, id_, at, "")


def _leads_somewhere(analysis: Analysis, text: str) -> bool:
    head, slash, rest = text.partition("/")
    target = analysis.references.find(head)
    return target is not None and (not slash or rest in inner_names(analysis, target))


def _found(analysis: Analysis, text: str, at: At, about: str) -> Iterator[Found]:
    if not may_be_unread(analysis, text, link_nouns()):
        yield Found(
            at, f"`[[{text}]]` leads to nothing.",
            f"{did_you_mean(analysis, text, link_nouns())}Write the id of a thing, or take the brackets away.", about,
        )


RULE = Rule(
    code="link-none",
    level=Level.ERROR,
    summary="A link in a text to nothing.",
    reason="In the handbook it would be a dead link, and what it should tell stays untold.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt of the [[belt-grinder]].
=== procedures/stories/history.md
# Our history

In 1987 we bought the [[belt-grinder|belt]].
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt of the ▸[[grinder]].
=== procedures/stories/history.md
# Our history

In 1987 we bought the ▸[[belt-griner|belt]].
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
""",
    check=check,
)
