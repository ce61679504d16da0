"""Least ages in words: from which age, and for which level of mastery where that makes a difference."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.in_words import listed, sentence, spelt
from site_builder.handbook.pages.readings import for_words
from site_builder.handbook.pages.sayings import value_words
from site_builder.notebook.model.limit import Limit
from site_builder.quantity import bounds

_WORKS = {"beside": "beside somebody", "within call": "within call", "alone": "alone"}
_DOES = {"watches": "to watch", "teaches": "to teach"}


def age_words(context: PageContext, limits: Iterable[Limit]) -> Markup:
    """`from 16 years of age`; `from 14 years of age to work beside somebody; from 16 years of age to teach`."""
    said: list[Markup] = []
    for limit in limits:
        years = least_years(limit)
        age: str | Markup = from_age(years) if years else spelt(value_words(context, limit))
        said.append(filled("{}{}", age, f" {case_words(limit)}" if limit.for_ else ""))
    return Markup("; ").join(said)


def barred_words(context: PageContext, limits: Iterable[Limit]) -> Markup:
    """The line that a hazard draws: `Not under 16 years of age.`"""
    said: list[Markup] = []
    for limit in limits:
        years = least_years(limit)
        age: str | Markup = f"Not under {years} years of age" if years else \
            filled("Age: {}", spelt(value_words(context, limit)))
        case = f" {case_words(limit)}" if limit.for_ else ""
        reasons = Markup("").join(filled(" {}", sentence(context.words(reason))) for reason in limit.because)
        said.append(filled("{}{}.{}", age, case, reasons))
    return Markup(" ").join(said)


def from_age(years: str) -> str:
    """`from 16 years of age`."""
    return f"from {years} years of age"


def least_years(limit: Limit) -> str:
    """The least age in years, as digits; empty where the limit says no such thing."""
    told = bounds(limit.written.value) if limit.written is not None else None
    return f"{float(told.shown(told.low)):g}" if told is not None and told.low is not None else ""


def case_words(limit: Limit) -> str:
    """For whom a least age holds: `to work within call or alone, or to teach`, `for pattern deck`."""
    levels = _levels(limit)
    if not levels:
        return f"for {for_words(limit)}"
    works = listed((_WORKS[level] for level in levels if level in _WORKS), "or")
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
