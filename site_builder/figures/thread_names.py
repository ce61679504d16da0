"""Threads as a shop writes them: metric ``M5`` and ``M8x1``, inch ``1/4-20``, ``#10-24 UNC`` and ``No. 10-32 UNF``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from unicodedata import normalize

from site_builder.formulas.errors import Impossible
from site_builder.formulas.inch_threads import SIZES, unified
from site_builder.formulas.screws import stress_area, stress_area_inch
from site_builder.formulas.threads import Thread, metric
from site_builder.quantity.thread_names import INCH_THREAD, METRIC_THREAD

UNDERSTOOD = ("metric threads from M2 to M24, coarse as M5 or fine as M8x1, and inch threads from #4 to 1/2 in, UNC "
              "and UNF, as 1/4-20 or No. 10-32 UNF")
"""The threads that are known, to be told where another one stands."""

_HELD = frozenset(("6g", "6h", "4g6g", "4h6h", "5H", "6H", "6H/6g", "6g/6H", "2A", "2B", "3A", "3B"))
"""Classes whose sizes bear as much as is reckoned, or more; looser ones (8g, 7H, 1A, 1B) are not understood."""
_SIGNS = str.maketrans({"\u2044": "/", "\u2010": "-", "\u2011": "-", "\u2212": "-"})
"""What ¼ is taken apart into, and the other strokes."""


@dataclass(frozen=True, slots=True)
class NamedThread:
    """A thread that is understood, and the area in mm² on which its screw is pulled."""

    name: str
    """``M5``, ``M8×1``, ``1/4-20``, ``#10-24``: the same for every way to write it."""
    thread: Thread
    area: float
    is_inch: bool

    @property
    def called(self) -> str:
        """``an M5``, ``a 1/4-20``."""
        return f"{'a' if self.is_inch else 'an'} {self.name}"

    @property
    def area_source(self) -> str:
        """The standard that the area is after."""
        return "ASME B1.1" if self.is_inch else "ISO 898-1"


def named_thread(written: str) -> NamedThread | None:
    """The thread of this name; None where it is no name of a thread that is understood.

    Raises ``Impossible`` for a size or pitch that no table has: ``M9``, ``1/4-24``.
    """
    text = " ".join(normalize("NFKC", written).translate(_SIGNS).split())
    for pattern, read in ((METRIC_THREAD, _metric), (INCH_THREAD, _inch)):
        match = pattern.fullmatch(text)
        if match is not None:
            fit = match["fit"]
            return read(match) if fit is None or fit in _HELD or fit.upper() in _HELD else None
    return None


def _metric(match: re.Match[str]) -> NamedThread:
    diameter = float(match["diameter"].replace(",", "."))
    thread = metric(diameter, None if match["pitch"] is None else float(match["pitch"].replace(",", ".")))
    is_coarse = thread.pitch == metric(diameter).pitch
    name = f"M{diameter:g}" if is_coarse else f"M{diameter:g}×{thread.pitch:g}"
    return NamedThread(name, thread, stress_area(thread.diameter, thread.pitch), False)


def _inch(match: re.Match[str]) -> NamedThread | None:
    if not (match["count"] or match["series"]):
        return None
    size = match["part"] or (f"#{int(match['number'])}" if match["number"] else _size_of(float(match["decimal"])))
    if size not in SIZES:
        raise Impossible("thread", "in", size, f"must be one of the inch sizes {', '.join(SIZES)}")
    _, coarse, fine = SIZES[size]
    series = (match["series"] or "").upper().replace("R", "").removeprefix("U")
    of_series = {"NC": coarse, "NF": fine}.get(series)
    count = int(match["count"] or of_series or 0)
    thread = unified(size, count)
    if series not in ("", "N") and count != of_series:
        raise Impossible("threads to the inch", "", count,
                         f"must be {coarse} at {size} UNC and {fine} at {size} UNF")
    return NamedThread(f"{size}-{count}", thread, stress_area_inch(thread.diameter, thread.pitch), True)


def _size_of(inches: float) -> str:
    """``0.190`` is #10; a decimal that is no size stays as it is."""
    return next((size for size, (diameter, *_) in SIZES.items() if abs(diameter - inches) < 0.0006), f"{inches:g}")
