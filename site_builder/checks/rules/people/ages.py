"""Least ages, as the rules ask for them of a survey."""

from __future__ import annotations

from site_builder.checks.survey import Survey
from site_builder.mastery import ages
from site_builder.notebook.model.people import Skill


class Ages(ages.Ages):
    """The least age for each skill at each level, of a survey."""

    def __init__(self, survey: Survey) -> None:
        super().__init__(survey.references)


def procedures_of(survey: Survey, skill: Skill) -> tuple[str, ...]:
    """The procedures a skill covers, and those that name it as a whole, each once."""
    return ages.procedures_of(survey.references, skill)
