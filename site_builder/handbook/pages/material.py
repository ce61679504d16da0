"""A page for each material: what it is, what it can do to you, what must never meet it."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.in_words import capital, sentence
from site_builder.handbook.pages.readings import Fact
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.sayings import valued
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.thing_view import parts_to_find, thing_view
from site_builder.handbook.pages.uses import Uses, uses_of
from site_builder.handbook.site import TOOLS, Page, Site
from site_builder.notebook.due import keeps_until
from site_builder.notebook.model.things import Material
from site_builder.views.dates import dated_day
from site_builder.views.typeset import typeset


def material_pages(site: Site) -> Iterator[Page]:
    """One sheet a material, in the order of the notebook."""
    uses = uses_of(site)
    asunder = _asunder(site)
    for id_, material in site.notebook.materials.items():
        yield _sheet(site, uses, asunder.get(id_, ()), id_, material)


def _asunder(site: Site) -> dict[str, tuple[str, ...]]:
    """Of each material those it must not meet: told on either side."""
    found: dict[str, dict[str, None]] = {}
    for id_, material in site.notebook.materials.items():
        for other in material.apart:
            found.setdefault(id_, {})[str(other)] = None
            found.setdefault(str(other), {})[id_] = None
    return {id_: tuple(others) for id_, others in found.items()}


def _sheet(site: Site, uses: Uses, asunder: tuple[str, ...], id_: str, material: Material) -> Page:
    src_uri = site.addresses["material", id_]
    context = PageContext(site, src_uri)
    title = context.title("material", id_)
    view = thing_view(context, uses, material, tuple(_own_facts(context, uses, id_, material)))
    maker = Markup("From: {}").format(sentence(context.words(material.maker))) if material.maker else Markup("")
    html = pressed(
        "material.html.j2", context,
        kicker=Markup('<a href="{}">The tools</a> · Materials').format(context.to(TOOLS)),
        title=title, lede=Markup(" ").join(context.words(reason) for reason in material.because),
        maker=Markup(" ").join(filter(None, (maker, context.words(material.note)))), v=view,
        law=_outranks(context, material), apart=[_apart(context, other) for other in asunder],
        figures=figure_views(context, "material", str(material.id)), unsound=unsound(site, (material.at.path,)),
    )
    told = " ".join(filter(None, (*map(context.plain, material.because[:1]), context.plain(material.maker))))
    return Page(src_uri, title, html, told, parts_to_find(context, material), material.at.path)


def _own_facts(context: PageContext, uses: Uses, id_: str, material: Material) -> Iterator[Fact]:
    """What it is for and what is in it."""
    made = [use.id for use in uses.of("material", id_) if use.kind == "part"]
    if made:
        yield Fact("For", words=Markup(", ").join(context.link("part", part) for part in made))
    if material.composition:
        yield Fact("Made of", words=Markup(", ").join(
            Markup("{} {}").format(_ingredient(context, str(name)), valued(context, share))
            for name, share in material.composition.items()
        ))
    if material.opened is not None:
        yield Fact("In use", words=_in_use(context, material))


def _in_use(context: PageContext, material: Material) -> Markup:
    """Since when, and how long it keeps; what is past that says so."""
    kept = keeps_until(material)
    words = filled("Opened {}", context.date(material.opened))
    if kept is None:
        return words
    last, life = kept
    if last < context.book.analysis.today:
        return filled("{}; <strong>past its {} since {}: do not use it</strong>", words, life, dated_day(last))
    return filled("{}; good until {} ({})", words, dated_day(last), life)


def _ingredient(context: PageContext, name: str) -> Markup:
    nb = context.book.notebook
    return context.link("material", name) if name in nb.materials else Markup("{}").format(typeset(name))


def _outranks(context: PageContext, material: Material) -> Markup:
    """Which sheet goes before this page; where none is named, that one must be got."""
    sheet = material.sheet
    if sheet is None:
        if not material.hazards:
            return Markup("")
        return Markup(
            "<b>No safety data sheet is named here.</b> Get it from the supplier and read it first: "
            "it outranks this page."
        )
    dated = f", {context.date(sheet.date)}" if sheet.date is not None else ""
    where = Markup(" It is kept as {}.").format(context.words(sheet.file, glossary=False)) if sheet.file else Markup("")
    return Markup(
        "<b>The safety data sheet outranks this page:</b> {}{}.{} "
        "Where this page says less, do what the sheet says."
    ).format(context.words(sheet.title, glossary=False), dated, where)


def _apart(context: PageContext, other: str) -> Markup:
    return capital(context.link("material", other))
