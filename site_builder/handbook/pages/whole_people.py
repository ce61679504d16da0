"""Who is too young for what, and what machines do to ears and hands as it was measured."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.in_words import joined_sentences, sentence
from site_builder.handbook.pages.readings import source_words
from site_builder.handbook.pages.sayings import value_words
from site_builder.handbook.pages.thing_view import Ledger, ledger
from site_builder.handbook.pages.uses import Uses
from site_builder.notebook.gather import ages_of, works
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.things import Thing
from site_builder.notebook.references import kind_of
from site_builder.views.age import case_in_short, least_years

Cells = tuple[Markup | str, ...]
EXPOSURES = ("noise", "vibration")


def age_ledger(context: PageContext) -> Ledger | None:
    """The shop's own age limits: for each age the tools, materials, work and skills that wait for it."""
    found: dict[str, tuple[dict[Markup, None], dict[Markup, None]]] = {}
    for kind, id_, limits in _aged(context):
        for limit in limits:
            years = least_years(limit)
            case = Markup(" ({})").format(case_in_short(limit)) if limit.for_ else ""
            side = found.setdefault(years, ({}, {}))[kind == "skill"]
            side[Markup("{}{}").format(context.link(kind, id_), case)] = None
    rows: list[Cells] = [
        (f"Under {years}" if years else "Age not yet told", Markup(", ").join(things), Markup(", ").join(skills))
        for years, (things, skills) in sorted(found.items(), key=lambda item: float(item[0] or 0))
    ]
    return ledger("Our own lines; the law may draw them tighter", ("Who is", "Keeps off", "Does not yet do"), rows)


def _aged(context: PageContext) -> Iterator[tuple[str, str, tuple[Limit, ...]]]:
    nb = context.book.notebook
    for id_, thing in nb.things.items():
        if limits := ages_of(thing):
            yield kind_of(thing), id_, limits
    for id_, procedure in nb.procedures.items():
        if limits := tuple(limit for work in works(nb, procedure, with_used=False)
                           for hazard in work.hazards for limit in hazard.age):
            yield "procedure", id_, limits
    for id_, skill in nb.skills.items():
        if limits := (*skill.age, *(limit for hazard in skill.hazards for limit in hazard.age)):
            yield "skill", id_, limits


def exposure_ledger(context: PageContext, uses: Uses) -> Ledger | None:
    """Noise and vibration as written on machines and tools, and how they were found."""
    rows: list[Cells] = []
    for id_, tool in context.book.notebook.tools.items():
        told = [_told(context, tool, name) for name in EXPOSURES]
        if any(value for value, _ in told):
            found = Markup(" ").join(dict.fromkeys(how for _, how in told if how))
            rows.append(
                (context.link("tool", id_), *(value for value, _ in told), uses.in_short(context, "tool", id_), found)
            )
    return ledger("As it was measured or told", ("What", "Noise", "Vibration", "Work", "How it is known"), rows)


def _told(context: PageContext, tool: Thing, name: str) -> tuple[Markup, Markup]:
    limits = next((found for known, found in tool.properties.items() if known == name), ())
    value = Markup("; ").join(filter(None, (value_words(context, limit) for limit in limits)))
    how = [context.words(limit.note) for limit in limits]
    how += [sentence(source_words(context, str(limit.source))) for limit in limits if limit.source is not None]
    return value, joined_sentences(how)
