"""A page for each material: what it is, what it can do to you, what must never meet it."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from site_builder.handbook.book import TOOLS, Book, Sheet
from site_builder.handbook.filled import filled
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.in_words import capital, sentence
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.readings import Fact
from site_builder.handbook.pages.sayings import valued
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.thing_view import parts_to_find, thing_view
from site_builder.handbook.pages.uses import Uses, uses_of
from site_builder.handbook.pen import Pen, dated_day
from site_builder.handbook.text import typeset
from site_builder.notebook.due import keeps_until
from site_builder.notebook.model.things import Material


def material_sheets(book: Book) -> Iterator[Sheet]:
    """One sheet a material, in the order of the notebook."""
    uses = uses_of(book)
    asunder = _asunder(book)
    for id_, material in book.notebook.materials.items():
        yield _sheet(book, uses, asunder.get(id_, ()), id_, material)


def _asunder(book: Book) -> dict[str, tuple[str, ...]]:
    """Of each material those it must not meet: told on either side."""
    found: dict[str, dict[str, None]] = {}
    for id_, material in book.notebook.materials.items():
        for other in material.apart:
            found.setdefault(id_, {})[str(other)] = None
            found.setdefault(str(other), {})[id_] = None
    return {id_: tuple(others) for id_, others in found.items()}


def _sheet(book: Book, uses: Uses, asunder: tuple[str, ...], id_: str, material: Material) -> Sheet:
    src_uri = book.addresses["material", id_]
    pen = Pen(book, src_uri)
    title = pen.title("material", id_)
    view = thing_view(pen, uses, material, tuple(_own_facts(pen, uses, id_, material)))
    maker = Markup("From: {}").format(sentence(pen.words(material.maker))) if material.maker else Markup("")
    html = pressed(
        "material.html.j2",
        kicker=Markup('<a href="{}">The tools</a> · Materials').format(pen.to(TOOLS)),
        title=title, lede=Markup(" ").join(pen.words(reason) for reason in material.because),
        maker=Markup(" ").join(filter(None, (maker, pen.words(material.note)))), v=view,
        law=_outranks(pen, material), apart=[_apart(pen, other) for other in asunder],
        figures=figure_views(pen, "material", str(material.id)), unsound=unsound(book, (material.at.path,)),
    )
    told = " ".join(filter(None, (*map(pen.plain, material.because[:1]), pen.plain(material.maker))))
    return Sheet(src_uri, title, html, told, parts_to_find(pen, material), material.at.path)


def _own_facts(pen: Pen, uses: Uses, id_: str, material: Material) -> Iterator[Fact]:
    """What it is for and what is in it."""
    made = [use.id for use in uses.of("material", id_) if use.kind == "part"]
    if made:
        yield Fact("For", words=Markup(", ").join(pen.link("part", part) for part in made))
    if material.composition:
        yield Fact("Made of", words=Markup(", ").join(
            Markup("{} {}").format(_ingredient(pen, str(name)), valued(pen, share))
            for name, share in material.composition.items()
        ))
    if material.opened is not None:
        yield Fact("In use", words=_in_use(pen, material))


def _in_use(pen: Pen, material: Material) -> Markup:
    """Since when, and how long it keeps; what is past that says so."""
    kept = keeps_until(material)
    words = filled("Opened {}", pen.date(material.opened))
    if kept is None:
        return words
    last, life = kept
    if last < pen.book.survey.today:
        return filled("{}; <strong>past its {} since {}: do not use it</strong>", words, life, dated_day(last))
    return filled("{}; good until {} ({})", words, dated_day(last), life)


def _ingredient(pen: Pen, name: str) -> Markup:
    nb = pen.book.notebook
    return pen.link("material", name) if name in nb.materials else Markup("{}").format(typeset(name))


def _outranks(pen: Pen, material: Material) -> Markup:
    """Which sheet goes before this page; where none is named, that one must be got."""
    sheet = material.sheet
    if sheet is None:
        if not material.hazards:
            return Markup("")
        return Markup(
            "<b>No safety data sheet is named here.</b> Get it from the supplier and read it first: "
            "it outranks this page."
        )
    dated = f", {pen.date(sheet.date)}" if sheet.date is not None else ""
    where = Markup(" It is kept as {}.").format(pen.words(sheet.file, glossary=False)) if sheet.file else Markup("")
    return Markup(
        "<b>The safety data sheet outranks this page:</b> {}{}.{} "
        "Where this page says less, do what the sheet says."
    ).format(pen.words(sheet.title, glossary=False), dated, where)


def _apart(pen: Pen, other: str) -> Markup:
    return capital(pen.link("material", other))
