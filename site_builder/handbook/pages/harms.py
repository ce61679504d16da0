"""What can hurt and what must never be done, ready for the page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.in_words import capital, lowered, sentence
from site_builder.handbook.pages.proper import proper_names
from site_builder.notebook.gather import WORD_ORDER
from site_builder.notebook.model.harm import Hazard, Never
from site_builder.views.age import barred_words
from site_builder.views.wear import worn_links

UNWORDED = "hazard"
"""Stands on the plate of a hazard for which nobody has chosen a signal word yet."""


@dataclass(frozen=True, slots=True)
class Signal:
    """One hazard for the part `signal` of the theme."""

    word: str
    what: Markup
    harm: Markup
    avoid: Markup
    wear: tuple[Markup, ...]
    away: tuple[str, ...]
    age: Markup


@dataclass(frozen=True, slots=True)
class Ban:
    """One prohibition; ``what`` begins with "Never"."""

    what: Markup
    because: Markup


def gravity(hazard: Hazard) -> int:
    """Danger first; a hazard without a word last."""
    return WORD_ORDER.index(hazard.word) if hazard.word is not None else len(WORD_ORDER)


def signals(context: PageContext, hazards: Iterable[Hazard]) -> tuple[Signal, ...]:
    """Hazards, gravest first."""
    return tuple(signal(context, hazard) for hazard in sorted(hazards, key=gravity))


def signal(context: PageContext, hazard: Hazard) -> Signal:
    """One hazard with what to wear as links."""
    return Signal(
        str(hazard.word or UNWORDED), name_of_harm(context.words(hazard.hazard)),
        capital(sentence(context.words(hazard.harm))), capital(sentence(context.words(hazard.avoid))),
        tuple(map(context.said, worn_links(context.book.views, map(str, hazard.wear)))),
        tuple(_who(context, away) for away in hazard.away),
        context.said(barred_words(context.scope(hazard), hazard.age)),
    )


def name_of_harm(words: Markup) -> Markup:
    """What can hurt, with a capital and without a full stop: the page sets its own."""
    return Markup(capital(words).removesuffix("."))


def _who(context: PageContext, away: str) -> str:
    """Who keeps away, to go on from a word of ours."""
    return str(lowered(context.plain(away).removesuffix("."), proper_names(context.book)).unescape())


def bans(context: PageContext, nevers: Iterable[Never]) -> tuple[Ban, ...]:
    """Prohibitions in the order written."""
    return tuple(ban(context, never) for never in nevers)


def ban(context: PageContext, never: Never) -> Ban:
    """The sentence begins with "Never" so that it stays true when it is read without its label."""
    reasons = Markup(" ").join(context.words(reason) for reason in never.because)
    if never.unless is not None and never.unless.sign:
        reasons = Markup("{} Unless: {}").format(reasons, context.words(never.unless.sign))
    return Ban(Markup("Never {}").format(lowered(context.words(never.do), proper_names(context.book))), reasons)

