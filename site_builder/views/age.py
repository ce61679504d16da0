"""Least ages in words: from which age, and for which level of mastery where that makes a difference."""

from __future__ import annotations

from collections.abc import Iterable

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Limit
from site_builder.quantity import bounds
from site_builder.views.limit_in_words import told
from site_builder.views.prose import NO_WORDS, Prose, joined, listed, say, sentence, unstopped
from site_builder.views.rest import rest
from site_builder.views.scope import Scope
from site_builder.views.typeset import typeset

_WORKS = {"beside": "beside somebody", "within call": "within call", "alone": "alone"}
_DOES = {"watches": "to watch", "teaches": "to teach"}


def age_words(scope: Scope, limits: Iterable[Limit]) -> Prose:
    """`from 16 years of age`; `from 14 years of age to work beside somebody; from 16 years of age to teach`."""
    said: list[Prose] = []
    for limit in limits:
        years = least_years(limit)
        age: str | Prose = from_age(years) if years else told(scope, limit)
        more = _besides(scope, limit) if years else NO_WORDS
        case = f" {case_words(limit)}" if limit.for_ else ""
        said.append(say("{}{} ({})", age, case, unstopped(more)) if more else say("{}{}", age, case))
    return joined(said, "; ")


def barred_words(scope: Scope, limits: Iterable[Limit]) -> Prose:
    """The line that a hazard draws: `Not under 16 years of age.`"""
    said: list[Prose] = []
    for limit in limits:
        years = least_years(limit)
        age: str | Prose = f"Not under {years} years of age" if years else \
            say("Age: {}", told(scope, limit))
        case = f" {case_words(limit)}" if limit.for_ else ""
        reasons = (sentence(scope.words(reason)) for reason in limit.because)
        more = _besides(scope, limit) if years else NO_WORDS
        said.append(joined((say("{}{}.", age, case), *reasons, *([more] if more else []))))
    return joined(said)


def _besides(scope: Scope, limit: Limit) -> Prose:
    """What is written of a least age besides the years and the reasons."""
    return joined((rest(scope, limit, ("is_",)), *scope.tail(limit)))


def from_age(years: str) -> str:
    """`from 16 years of age`."""
    return f"from {years} years of age"


def for_words(entry: Entry) -> str:
    """The case in which an entry holds: `pattern deck`, `finish gloss or matt`."""
    return ", or ".join(
        " and ".join(typeset(f"{name} {' or '.join(map(str, values))}") for name, values in choice.items())
        for choice in entry.for_
    )


def least_years(limit: Limit) -> str:
    """The least age in years, as digits; empty where the limit says no such thing."""
    told = bounds(limit.written.value) if limit.written is not None else None
    return f"{float(told.shown(told.low)):g}" if told is not None and told.low is not None else ""


def case_words(limit: Limit) -> str:
    """For whom a least age holds: `to work within call or alone, or to teach`, `for pattern deck`."""
    levels = _levels(limit)
    if not levels:
        return f"for {for_words(limit)}"
    works = listed((_WORKS[level] for level in levels if level in _WORKS), "or").plain
    does = [f"to work {works}"] if works else []
    does += [_DOES.get(level, f"for level {level}") for level in levels if level not in _WORKS]
    return ", or ".join(does)


def case_in_short(limit: Limit) -> str:
    """The same where there is little room: the levels alone."""
    return ", ".join(_levels(limit)) or f"for {for_words(limit)}"


def _levels(limit: Limit) -> list[str]:
    """The levels of mastery for which a limit holds; none where it asks for anything else as well."""
    if any(set(one) != {"level"} for one in limit.for_):
        return []
    return [str(level) for one in limit.for_ for level in next(iter(one.values()))]
