"""Rules on references that lead to nothing."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.texts.wanted import (
    did_you_mean,
    inner_names,
    kinds_in_words,
    may_be_unread,
    written_anew,
)
from site_builder.notebook.finding import At, Found, Level
from site_builder.notebook.kinds import link_nouns
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.records import Record
from site_builder.notebook.references import Link, all_steps
from site_builder.notebook.story_links import ids_in
from site_builder.notebook.vocabulary import Vocabulary

_TOLD_ELSEWHERE = (("value",), ("trouble",), ("route",))
"""Links in texts, values, troubles and the ways back have rules of their own, and so have the books."""


def reference_none(analysis: Analysis) -> Iterator[Found]:
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


REFERENCE_NONE = Rule(
    "reference-none", Level.ERROR, "An id that nothing has.",
    "The reader would be sent for a tool or a page that is not there.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
✓ tools: belt-grinder
✗ tools: ▸belt-grindr
steps:
  - do: Sweep it along the belt.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
""", reference_none,
)


def trouble_none(analysis: Analysis) -> Iterator[Found]:
    for link in analysis.references.links:
        if link.target is not None or link.kinds != ("trouble",) or link.text in analysis.notebook.unread:
            continue
        near = _troubles(analysis, link.place.procedure).nearest(link.text)
        yield Found(
            link.at, f"No trouble on this page has the id `{link.text}`.",
            f"Did you mean `{near}`?" if near else f"Add `id: {link.text}` to the trouble that is meant.",
            link.place.owner_id,
        )


def _troubles(analysis: Analysis, own: Procedure | None) -> Vocabulary:
    works = () if own is None else (own, *all_steps(own))
    return analysis.once(("troubles", id(own)), lambda: Vocabulary(
        str(trouble.id) for work in works for trouble in work.troubles if trouble.id is not None))


TROUBLE_NONE = Rule(
    "trouble-none", Level.ERROR, "A limit points at a trouble that is not on the page.",
    "Whoever finds the piece too small is to be led to the cause; this leads nowhere.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits:
✓       height: {is: 32 ±0.2 mm, below: {trouble: too-low}}
✗       height: {is: 32 ±0.2 mm, below: {trouble: ▸low}}
    troubles:
      - {id: too-low, sign: The post stands too deep., then: scrap}
""", trouble_none,
)


def link_none(analysis: Analysis) -> Iterator[Found]:
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


LINK_NONE = Rule(
    "link-none", Level.ERROR, "A link in a text to nothing.",
    "In the handbook it would be a dead link, and what it should tell stays untold.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
✓   - do: Sweep it along the belt of the [[belt-grinder]].
✗   - do: Sweep it along the belt of the ▸[[grinder]].
=== procedures/stories/history.md
# Our history

✓ In 1987 we bought the [[belt-grinder|belt]].
✗ In 1987 we bought the ▸[[belt-griner|belt]].
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
""", link_none,
)
