"""Line drawings of the handbook: the map of the work and the lineage, as inline SVG.

Data flows one way: frozen descriptions (`graph`) are put in order (`flow`, `layout`), drawn side by
side (`abreast`) or one a row (`rows`), and said again in words (`in_words`, `lineage`). Nothing here
reads the notebook; a page describes what it wants drawn. The drawings carry no `id`, so any number
of them may stand on one page.
"""

from site_builder.handbook.drawings.graph import (
    Bought,
    Edge,
    Lane,
    Loop,
    Person,
    Stop,
    Taught,
    WorkGraph,
)
from site_builder.handbook.drawings.in_words import LaneInWords, StopInWords, work_in_words
from site_builder.handbook.drawings.lineage import Lineage, lineage
from site_builder.handbook.drawings.work_map import WorkMap, mark_svg, work_map

__all__ = [
    "Bought",
    "Edge",
    "Lane",
    "LaneInWords",
    "Lineage",
    "Loop",
    "Person",
    "Stop",
    "StopInWords",
    "Taught",
    "WorkGraph",
    "WorkMap",
    "lineage",
    "mark_svg",
    "work_in_words",
    "work_map",
]
