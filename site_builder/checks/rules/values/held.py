"""The reckoning of a survey, shared by all rules on values."""

from __future__ import annotations

from weakref import WeakKeyDictionary

from site_builder.checks.survey import Survey
from site_builder.notebook.reckoning import Reckoning

_HELD: WeakKeyDictionary[Survey, Reckoning] = WeakKeyDictionary()


def reckoning(survey: Survey) -> Reckoning:
    """The one reckoning of this survey, so that no figure is worked out twice."""
    found = _HELD.get(survey)
    if found is None:
        found = _HELD[survey] = Reckoning(survey.references)
    return found
