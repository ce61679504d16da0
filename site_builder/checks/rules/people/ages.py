"""Least ages, as the rules ask for them of an analysis."""

from __future__ import annotations

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.model.people import Skill
from site_builder.skills import ages


class Ages(ages.Ages):
    """The least age for each skill at each level, of an analysis."""

    def __init__(self, analysis: Analysis) -> None:
        super().__init__(analysis.references)


def procedures_of(analysis: Analysis, skill: Skill) -> tuple[str, ...]:
    """The procedures a skill covers, and those that name it as a whole, each once."""
    return ages.procedures_of(analysis.references, skill)
