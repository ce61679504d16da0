"""Every line of age that the shop draws: for skills at each level, for tools and materials."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from site_builder.notebook.gather import ages_of
from site_builder.notebook.kinds import kind_of
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.spans import least_span
from site_builder.quantity import for_people, parse_value, spelt
from site_builder.skills.ages import Ages
from site_builder.views.prose import listed

LeastAge = tuple[str, str, str, Fraction, str]
"""Kind, id, level (empty for any), seconds, the age for people."""
_LEVELS = ("beside", "within call", "alone")
"""The levels at which the hands do something; a look from behind the line is not work."""


def least_ages(notebook: Notebook, ages: Ages) -> Iterator[LeastAge]:
    """(kind, id, level, seconds, the age for people) of every line that is drawn."""
    for skill in notebook.skills:
        least = {level: age for level in _LEVELS if (age := ages.of_skill(skill, level)) is not None}
        for seconds in sorted({age.seconds for age in least.values()}):
            levels = [level for level, age in least.items() if age.seconds == seconds]
            named = listed(levels, "or").plain.replace("beside", "beside somebody")
            said = "" if len(levels) == len(_LEVELS) else named
            age = next(age for age in least.values() if age.seconds == seconds)
            yield "skill", skill, said, seconds, _for_people(age.written)
    for id_, thing in notebook.things.items():
        told = [(span, str(limit.written)) for limit in ages_of(thing)
                if limit.written is not None and not limit.for_
                and (span := least_span(limit.written.value)) is not None]
        if told:  # the thing itself and each of its hazards may ask for an age: who has the highest has them all
            span, written = max(told)
            yield kind_of(thing), id_, "", span, _for_people(written)


def _for_people(written: str) -> str:
    return spelt(for_people(parse_value(written)).main)
