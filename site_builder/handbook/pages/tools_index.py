"""All tools and materials in ledgers: what, used for what, what is due."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from markupsafe import Markup

from site_builder.handbook.finder import Part as FinderPart
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.harms import gravity
from site_builder.handbook.pages.in_words import capital, joined_sentences, lowered
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.sayings import end_words, how_often
from site_builder.handbook.pages.thing_view import Ledger, due_words, late, ledger
from site_builder.handbook.pages.tool import KINDS
from site_builder.handbook.pages.uses import Uses, uses_of
from site_builder.handbook.site import TOOLS, Page, Site
from site_builder.notebook.model.things import Material, Thing, Tool
from site_builder.notebook.references import kind_of
from site_builder.views.anchors import token
from site_builder.views.counts import number

Block = tuple[str, str, Ledger]
_MOST_DUE = 2


def tools_pages(site: Site) -> Iterator[Page]:
    """One sheet."""
    context = PageContext(site, TOOLS)
    uses = uses_of(site)
    nb = site.notebook
    blocks: list[Block] = []
    for kind, title in KINDS.items():
        tools = [tool for tool in nb.tools.values() if kind == tool.KIND]
        _add(blocks, title, _tools(context, uses, _counted(len(tools), title), tools))
    materials = list(nb.materials.values())
    _add(blocks, "Materials", _materials(context, uses, _counted(len(materials), "Materials"), materials))
    html = pressed("tools_index.html.j2", blocks=blocks, overdue=_overdue(context, nb.tools.values()))
    parts = tuple(FinderPart(id_, title) for title, id_, _ in blocks)
    yield Page(TOOLS, "The tools", html, "What we work with, where it is used and what is due.", parts)


def _add(blocks: list[Block], title: str, table: Ledger | None) -> None:
    if table is not None:
        blocks.append((title, token(title), table))


def _counted(count: int, title: str) -> str:
    """`Seven machines`; protection is not counted by the piece."""
    if title == "Protection":
        return "What is worn or shields"
    name = title.lower().removesuffix("s") if count == 1 else title.lower()
    return f"{capital(number(count))} {name}"


def _tools(context: PageContext, uses: Uses, caption: str, tools: Iterable[Tool]) -> Ledger | None:
    rows: list[tuple[Markup | str, ...]] = [
        (_name(context, tool), _used(context, uses, tool), _due(context, tool)) for tool in tools
    ]
    return ledger(caption, ("What", "Used for", "Due"), rows)


def _materials(context: PageContext, uses: Uses, caption: str, materials: Iterable[Material]) -> Ledger | None:
    rows: list[tuple[Markup | str, ...]] = [
        (_name(context, one), _used(context, uses, one), _mind(context, one)) for one in materials
    ]
    return ledger(caption, ("What", "Used for", "Mind"), rows)


def _name(context: PageContext, thing: Thing) -> Markup:
    name = context.link(kind_of(thing), str(thing.id))
    return Markup("{} (a group)").format(name) if thing.members else name


def _used(context: PageContext, uses: Uses, thing: Thing) -> Markup:
    kind, id_ = kind_of(thing), str(thing.id)
    parts = [use.id for use in uses.of(kind, id_) if use.kind == "part"]
    if parts:
        return Markup(", ").join(context.link("part", part) for part in parts)
    return uses.in_short(context, kind, id_)


def _due(context: PageContext, tool: Tool) -> Markup:
    """Calibration with its day; else the rhythms of upkeep; else when it is changed."""
    said: list[Markup | str] = []
    if tool.calibration is not None:
        due = due_words(context, tool.calibration)
        often = how_often(context, tool.calibration.when)
        said.append(f"Calibration {due}" if due else Markup("Calibration {}").format(often or "not yet told how often"))
    rhythms = dict.fromkeys(filter(None, (how_often(context, step.when) for step in tool.upkeep)))
    if rhythms:
        said.append(Markup("Upkeep {}").format(Markup("; ").join(rhythms)))
    if not said:
        said += [Markup("Its end: {}").format(lowered(end_words(context, end)[0])) for end in tool.life[:1]]
    return joined_sentences(said[:_MOST_DUE])


def _mind(context: PageContext, material: Material) -> Markup:
    """Its gravest hazard and what it must not meet."""
    said: list[Markup | str] = [
        Markup("{}: {}").format(capital(str(hazard.word or "hazard")), context.words(hazard.hazard))
        for hazard in sorted(material.hazards, key=gravity)[:1]
    ]
    if material.apart:
        apart = Markup(", ").join(context.link("material", str(other)) for other in material.apart)
        said.append(Markup("Keep apart from {}").format(apart))
    return joined_sentences(said)


def _overdue(context: PageContext, tools: Iterable[Tool]) -> list[Markup]:
    """What should have been done by now, tool by tool."""
    return [
        Markup("{}: {}.").format(context.link("tool", str(tool.id)), "; ".join(said))
        for tool in tools
        if (said := late(context, tool))
    ]
