"""A page for each material: what it is, what it can do to you, what must never meet it."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.tool import parts_to_find
from site_builder.handbook.site import TOOLS, Page, Site
from site_builder.notebook.due import keeps_until
from site_builder.notebook.model.things import Material
from site_builder.views.calibration import is_past
from site_builder.views.dates import date_words, dated_day
from site_builder.views.fact import Fact, fact
from site_builder.views.prose import NO_WORDS, Prose, Ref, capital, joined, linked, prose, say, sentence, toned
from site_builder.views.scope import Scope
from site_builder.views.thing import thing_view
from site_builder.views.typeset import typeset
from site_builder.views.uses import Uses
from site_builder.views.value import amount


def material_pages(site: Site) -> Iterator[Page]:
    """One sheet a material, in the order of the notebook."""
    asunder = _asunder(site)
    for id_, material in site.notebook.materials.items():
        yield _sheet(site, asunder.get(id_, ()), id_, material)


def _asunder(site: Site) -> dict[str, tuple[str, ...]]:
    """Of each material those it must not meet: told on either side."""
    found: dict[str, dict[str, None]] = {}
    for id_, material in site.notebook.materials.items():
        for other in material.apart:
            found.setdefault(id_, {})[str(other)] = None
            found.setdefault(str(other), {})[id_] = None
    return {id_: tuple(others) for id_, others in found.items()}


def _sheet(site: Site, asunder: tuple[str, ...], id_: str, material: Material) -> Page:
    context = PageContext(site, site.addresses["material", id_])
    scope = context.scope(material)
    title = context.title("material", id_)
    maker = say("From: {}", sentence(scope.words(material.maker))) if material.maker else NO_WORDS
    html = pressed(
        "thing.html.j2", context, kicker=say("{} · Materials", linked("The tools", Ref("chapter", TOOLS))), title=title,
        lede=joined(map(scope.words, material.because)), note=joined((maker, scope.words(material.note))),
        v=thing_view(scope, site.uses, material, tuple(_own_facts(scope, site.uses, material))), legend=(),
        weeks=None, law=_comes_before(scope, material),
        apart=[capital(scope.view.link("material", other)) for other in asunder],
        figures=figure_views(context, "material", id_), unsound=unsound(site, (material.at.path,)),
    )
    told = " ".join(filter(None, (*map(context.plain, material.because[:1]), context.plain(material.maker))))
    return Page(context.src_uri, title, html, told, parts_to_find(context, material), material.at.path)


def _own_facts(scope: Scope, uses: Uses, material: Material) -> Iterator[Fact]:
    """What it is for and what is in it."""
    made = [use.id for use in uses.of("material", scope.id) if use.kind == "part"]
    if made:
        yield fact("For", joined((scope.view.link("part", part) for part in made), ", "))
    if material.composition:
        yield fact("Made of", joined((say("{} {}", _ingredient(scope, str(name)), amount(scope, share))
                                      for name, share in material.composition.items()), ", "))
    if material.opened is not None:
        yield fact("In use", _in_use(scope, material))


def _in_use(scope: Scope, material: Material) -> Prose:
    """Since when, and how long it keeps; what is past that says so."""
    kept = keeps_until(material)
    opened = f"Opened {date_words(material.opened)}"
    if kept is None:
        return prose(opened)
    last, life = kept
    if is_past(scope, last):
        return say("{}; {}", opened, toned("strong", f"past its {life} since {dated_day(last)}: do not use it"))
    return prose(f"{opened}; good until {dated_day(last)} ({life})")


def _ingredient(scope: Scope, name: str) -> Prose:
    return scope.view.link("material", name) if name in scope.nb.materials else prose(typeset(name))


def _comes_before(scope: Scope, material: Material) -> Prose:
    """Which sheet goes before this page; where none is named, that one must be got."""
    sheet = material.sheet
    if sheet is None:
        return say("{} Get it from the supplier and read it first: it outranks this page.",
                   toned("lead", "No safety data sheet is named here.")) if material.hazards else NO_WORDS
    dated = f", {date_words(sheet.date)}" if sheet.date is not None else ""
    kept = say(" It is kept as {}.", scope.view.words(sheet.file, glossary=False)) if sheet.file else ""
    return say("{} {}{}.{} Where this page says less, do what the sheet says.",
               toned("lead", "The safety data sheet outranks this page:"),
               scope.view.words(sheet.title, glossary=False), dated, kept)
