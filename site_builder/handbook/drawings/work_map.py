"""The map of the work: wide, tall, and in words, all from one graph."""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.handbook.drawings import abreast, pen, rows
from site_builder.handbook.drawings.flow import Flow, flow_of
from site_builder.handbook.drawings.graph import WorkGraph
from site_builder.handbook.drawings.in_words import LaneInWords, in_words, words_html
from site_builder.handbook.drawings.plan import plan

WIDE, TALL = 880.0, 328.0  # px


@dataclass(frozen=True)
class WorkMap:
    """Two drawings as inline SVG, and the same in words, as a structure and as HTML."""

    wide: str
    tall: str
    words: tuple[LaneInWords, ...]
    words_html: str


def work_map(graph: WorkGraph, label: str = "Map of the work") -> WorkMap:
    """Draw `graph`. `label` is what a screen reader calls the drawing. An empty graph draws nothing."""
    if not graph.stops:
        return WorkMap("", "", (), "")
    flow = flow_of(graph)
    words = in_words(flow)
    return WorkMap(_wide(flow, label), _tall(flow, TALL, "map", f"{label}, one stop a line"), words, words_html(words))


def mark_svg(outside: bool) -> str:
    """The ring or the diamond alone, 22 px, for the line that explains the map. Hidden from readers."""
    size = 'viewBox="0 0 22 22" width="22" height="22" aria-hidden="true" focusable="false"'
    return f'<svg class="bl-drawing" {size}>{pen.mark(11, 11, outside)}</svg>'


def _wide(flow: Flow, label: str) -> str:
    found = plan(flow, WIDE)
    if found is None:
        # Too many lines for the width: one stop a row never fails.
        return _tall(flow, WIDE, "work", label)
    return pen.picture(WIDE, found.height, abreast.drawing(flow, found), "work", label)


def _tall(flow: Flow, width: float, css: str, label: str) -> str:
    page = rows.sheet(flow, width, rows.PHONE if width == TALL else rows.TABLET)
    return pen.picture(width, page.height, rows.inked(flow, page), css, label)
