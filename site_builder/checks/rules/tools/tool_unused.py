from __future__ import annotations

from collections.abc import Iterator, Mapping

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.variants import needed
from site_builder.checks.rules.values.tables import every_rows
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.kinds import kind_of
from site_builder.notebook.model.things import Protection
from site_builder.quantity import Word, references

_REFUSING = frozenset({"not_", "apart", "members"})
"""Keys that name a thing without using it. A group and its members are looked at together."""


def check(analysis: Analysis) -> Iterator[Found]:
    notebook = analysis.notebook
    if notebook.unread or not notebook.procedures:  # whatever uses it may not have been read or written yet
        return
    unlinked = {
        id_ for id_, thing in notebook.things.items() if not isinstance(thing, Protection)
        and all(link.key in _REFUSING for link in analysis.references.used_in(kind_of(thing), id_))
    }
    unused = unlinked - _named_in_words(analysis) if unlinked else unlinked
    for id_ in notebook.things:
        if id_ in unused and not _used_as_kin(notebook.groups, analysis, id_, unused):
            thing = notebook.things[id_]
            yield Found(
                thing.at, f"No work, no upkeep and no other thing uses “{thing.title}”.",
                f"Name it where it is used, as `{kind_of(thing)}s: {id_}`, or delete its page.", id_,
            )


def _used_as_kin(groups: Mapping[str, tuple[str, ...]], analysis: Analysis, id_: str, unused: set[str]) -> bool:
    """Whether its group is used, or one of its members."""
    members = map(str, analysis.notebook.things[id_].members)
    return any(one not in unused for one in (*groups.get(id_, ()), *members))


def _named_in_words(analysis: Analysis) -> set[str]:
    """Ids that stand in a `for`, a row of a table, a value or a mix, where no key tells of which kind they are."""
    found = {str(value) for _, values, _ in needed(analysis) for value in values}
    found |= {str(row) for rows in every_rows(analysis) for row in rows.names}
    for material in analysis.notebook.materials.values():
        found |= {str(part) for part in material.composition}
    for leaf, _, _ in analysis.index.values:
        what = leaf.value.what
        names = [what.text] if isinstance(what, Word) else [one.name for one in references(leaf.value)]
        found |= {name.partition("/")[0] for name in names}
    return found


RULE = Rule(
    code="tool-unused",
    level=Level.WARNING,
    summary="A tool or a material that nothing uses.",
    reason="Either a page forgets to tell what is taken in hand, and with it what can hurt, or the thing has "
    "long been gone.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-grinder
steps: Sweep it along the belt.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
=== tools/machines/belt-grinder.yml
▸machine: belt-grinder
title: Belt grinder
""",
    check=check,
)
