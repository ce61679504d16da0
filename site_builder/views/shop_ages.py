"""Who is too young for what, and what machines do to ears and hands as it was measured."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.notebook.gather import ages_of, works
from site_builder.notebook.kinds import kind_of
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.things import Thing
from site_builder.views.age import case_in_short, least_years
from site_builder.views.blocks import Grid
from site_builder.views.limit_in_words import told
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import Prose, joined, say, sentence, sentences
from site_builder.views.scope import scope_of
from site_builder.views.thing import table_of
from site_builder.views.uses import Uses

EXPOSURES = ("noise", "vibration")


def age_ledger(view: NotebookView) -> Grid | None:
    """The shop's own age limits: for each age the tools, materials, work and skills that wait for it."""
    found: dict[str, tuple[dict[Prose, None], dict[Prose, None]]] = {}
    for kind, id_, limits in _aged(view):
        for limit in limits:
            side = found.setdefault(least_years(limit), ({}, {}))[kind == "skill"]
            case = f" ({case_in_short(limit)})" if limit.for_ else ""
            side[say("{}{}", view.link(kind, id_), case)] = None
    rows = [(f"Under {years}" if years else "Age not yet told", joined(things, ", "), joined(skills, ", "))
            for years, (things, skills) in sorted(found.items(), key=lambda item: float(item[0] or 0))]
    return table_of("Our own lines; the law may draw them tighter", ("Who is", "Keeps off", "Does not yet do"), rows)


def _aged(view: NotebookView) -> Iterator[tuple[str, str, tuple[Limit, ...]]]:
    nb = view.notebook
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


def exposure_ledger(uses: Uses) -> Grid | None:
    """Noise and vibration as written on machines and tools, and how they were found."""
    rows = []
    for id_, tool in uses.view.notebook.tools.items():
        found = [_told(uses.view, tool, name) for name in EXPOSURES]
        if any(value for value, _ in found):
            how = joined(dict.fromkeys(how for _, how in found))
            rows.append((uses.view.link("tool", id_), *(v for v, _ in found), uses.in_short("tool", id_), how))
    return table_of("As it was measured or told", ("What", "Noise", "Vibration", "Work", "How it is known"), rows)


def _told(view: NotebookView, tool: Thing, name: str) -> tuple[Prose, Prose]:
    scope = scope_of(view, tool)
    limits = next((found for known, found in tool.properties.items() if known == name), ())
    how = [scope.words(limit.note) for limit in limits]
    how += [sentence(scope.source(str(limit.source))) for limit in limits if limit.source is not None]
    values = (told(scope, limit.with_changes(note=None, source=None)) for limit in limits)
    return joined(values, "; "), sentences(how)
