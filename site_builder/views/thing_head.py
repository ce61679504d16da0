"""The head of a tool or a material: who made it, what its marks say, what it is made of, what outranks it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from site_builder.notebook.due import keeps_until
from site_builder.notebook.model.things import Material, Sample, Thing, Tool
from site_builder.notebook.notebook import Notebook
from site_builder.views.calibration import is_past
from site_builder.views.dates import date_words, dated_day
from site_builder.views.fact import Fact, fact
from site_builder.views.prose import NO_WORDS, Prose, joined, prose, say, sentence, toned
from site_builder.views.scope import Scope
from site_builder.views.typeset import typeset
from site_builder.views.uses import Uses
from site_builder.views.value import amount


def maker_and_note(scope: Scope, thing: Thing) -> Prose:
    """Who made it or where it comes from, and what is noted besides."""
    lead = "From: {}" if isinstance(thing, Material) else "Made by: {}"
    maker = say(lead, sentence(scope.words(thing.maker))) if thing.maker else NO_WORDS
    return joined((maker, scope.words(thing.note)))


def legend(scope: Scope, tool: Tool) -> tuple[Fact, ...]:
    """What the marks on a reference piece mean."""
    marks = tool.legend.items() if isinstance(tool, Sample) else ()
    return tuple(fact(typeset(str(mark)), scope.words(meaning)) for mark, meaning in marks)


def kept_apart(nb: Notebook) -> Mapping[str, tuple[str, ...]]:
    """Of each material those it must not meet: told on either side."""
    found: dict[str, dict[str, None]] = {}
    for id_, material in nb.materials.items():
        for other in material.apart:
            found.setdefault(id_, {})[str(other)] = None
            found.setdefault(str(other), {})[id_] = None
    return {id_: tuple(others) for id_, others in found.items()}


def material_facts(scope: Scope, uses: Uses, material: Material) -> Iterator[Fact]:
    """What it is for and what is in it."""
    made = [use.id for use in uses.of("material", scope.id) if use.kind == "part"]
    if made:
        yield fact("For", joined((scope.view.link("part", part) for part in made), ", "))
    if material.composition:
        yield fact("Made of", joined((say("{} {}", _ingredient(scope, str(name)), amount(scope, share))
                                      for name, share in material.composition.items()), ", "))
    if material.lead_time is not None:
        yield fact("From ordering until it is here", amount(scope, material.lead_time))
    if material.stock is not None:
        yield fact("There, and not promised", amount(scope, material.stock))
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


def comes_before(scope: Scope, material: Material) -> Prose:
    """Which sheet goes before this page; where none is named, that one must be got."""
    sheet = material.sheet
    if sheet is None:
        return say("{} Get it from the supplier and read it first: it outranks this page.",
                   toned("lead", "No safety data sheet is named here.")) if material.hazards else NO_WORDS
    dated = f", {date_words(sheet.date)}" if sheet.date is not None else ""
    kept = say(" It is kept as {}.", scope.view.words(sheet.file, glossary=False)) if sheet.file else ""
    more = joined((scope.inline_why(sheet), *scope.tail(sheet.with_changes(date=None))))
    return scope.meant(sheet, joined((say("{} {}{}.{} Where this page says less, do what the sheet says.",
                       toned("lead", "The safety data sheet outranks this page:"),
                       scope.view.words(sheet.title, glossary=False), dated, kept), more)))
