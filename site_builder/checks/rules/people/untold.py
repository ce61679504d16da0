"""Questions about a skill: one shape for all the keys that may be missing."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Check
from site_builder.notebook.finding import Found
from site_builder.notebook.model.people import Skill


def asks_for(key: str, question: str, fix: str) -> Check:
    """A check that asks for a key of every skill without it; ``{}`` in the question is the skill's title.

    A key that was written down empty is a question already and not asked for a second time.
    """

    def check(analysis: Analysis) -> Iterator[Found]:
        for skill, place in analysis.index.of(Skill):
            if not getattr(skill, key) and key not in skill.asked:
                yield Found(skill.at, question.format(f"“{skill.title}”"), fix, place.owner_id)

    return check
