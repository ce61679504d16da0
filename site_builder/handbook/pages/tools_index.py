"""All tools and materials in ledgers: what, used for what, what is due."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from site_builder.handbook.finder import Part as FinderPart
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.site import TOOLS, Page, Site
from site_builder.notebook.kinds import on_shelf
from site_builder.notebook.model.things import Material, Thing, Tool
from site_builder.views.anchors import token
from site_builder.views.blocks import Grid
from site_builder.views.calibration import due_words, how_often, late
from site_builder.views.counts import number
from site_builder.views.end import worn_when
from site_builder.views.hazard import gravity
from site_builder.views.prose import Prose, capital_text, joined, lowered, say, sentences
from site_builder.views.scope import Scope, scope_of
from site_builder.views.thing import table_of

Block = tuple[str, str, Grid]
_MOST_DUE = 2


def tools_pages(site: Site) -> Iterator[Page]:
    """One sheet."""
    context, nb = PageContext(site, TOOLS), site.notebook
    blocks: list[Block] = []
    for kind in on_shelf("tool"):
        tools = [tool for tool in nb.tools.values() if kind.key == tool.KIND]
        _add(blocks, kind.several, _tools(site, _counted(len(tools), kind.several), tools))
    materials = list(nb.materials.values())
    _add(blocks, "Materials", _materials(site, _counted(len(materials), "Materials"), materials))
    html = pressed("tools_index.html.j2", context, blocks=blocks, overdue=_overdue(site, nb.tools.values()))
    parts = tuple(FinderPart(id_, title) for title, id_, _ in blocks)
    yield Page(TOOLS, "The tools", html, "What we work with, where it is used and what is due.", parts)


def _add(blocks: list[Block], title: str, table: Grid | None) -> None:
    if table is not None:
        blocks.append((title, token(title), table))


def _counted(count: int, title: str) -> str:
    """`Seven machines`; protection is not counted by the piece."""
    if title == "Protection":
        return "What is worn or shields"
    name = title.lower().removesuffix("s") if count == 1 else title.lower()
    return f"{capital_text(number(count))} {name}"


def _tools(site: Site, caption: str, tools: Iterable[Tool]) -> Grid | None:
    scopes = [(tool, scope_of(site.views, tool)) for tool in tools]
    rows = [(_name(scope, tool), _used(site, scope), _due(scope, tool)) for tool, scope in scopes]
    return table_of(caption, ("What", "Used for", "Due"), rows)


def _materials(site: Site, caption: str, materials: Iterable[Material]) -> Grid | None:
    scopes = [(one, scope_of(site.views, one)) for one in materials]
    rows = [(_name(scope, one), _used(site, scope), _mind(scope, one)) for one, scope in scopes]
    return table_of(caption, ("What", "Used for", "Mind"), rows)


def _name(scope: Scope, thing: Thing) -> Prose:
    name = scope.view.link(scope.kind, scope.id)
    return say("{} (a group)", name) if thing.members else name


def _used(site: Site, scope: Scope) -> Prose:
    parts = [use.id for use in site.uses.of(scope.kind, scope.id) if use.kind == "part"]
    if parts:
        return joined((scope.view.link("part", part) for part in parts), ", ")
    return site.uses.in_short(scope.kind, scope.id)


def _due(scope: Scope, tool: Tool) -> Prose:
    """Calibration with its day; else the rhythms of upkeep; else when it is changed."""
    said: list[Prose] = []
    if tool.calibration is not None:
        due = due_words(scope, tool.calibration)
        said.append(say("Calibration {}", due or how_often(scope, tool.calibration)))
    rhythms = dict.fromkeys(scope.cadence(step.when) for step in tool.upkeep if step.when is not None)
    if rhythms:
        said.append(say("Upkeep {}", joined(rhythms, "; ")))
    if not said:
        said += [say("Its end: {}", lowered(worn_when(scope, end))) for end in tool.life[:1]]
    return sentences(said[:_MOST_DUE])


def _mind(scope: Scope, material: Material) -> Prose:
    """Its gravest hazard and what it must not meet."""
    said = [say("{}: {}", capital_text(str(hazard.word or "hazard")), scope.words(hazard.hazard))
            for hazard in sorted(material.hazards, key=gravity)[:1]]
    if material.apart:
        apart = joined((scope.view.link("material", str(other)) for other in material.apart), ", ")
        said.append(say("Keep apart from {}", apart))
    return sentences(said)


def _overdue(site: Site, tools: Iterable[Tool]) -> list[Prose]:
    """What should have been done by now, tool by tool."""
    return [say("{}: {}.", site.views.link("tool", str(tool.id)), "; ".join(said))
            for tool in tools if (said := late(scope_of(site.views, tool), tool))]
