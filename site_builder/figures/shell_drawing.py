"""A spun shell cut through the middle, and below it the disc, as a plain drawing."""

from __future__ import annotations

from html import escape

from site_builder.figures.amounts import amount
from site_builder.figures.shells import Outline
from site_builder.formulas.interval import Interval
from site_builder.formulas.profile import Line, Point, circle_through

_WIDTH, _SIDE, _TOP, _GAP = 420, 10, 12, 40
_PARTS_OF_ARC = 16


def shell_drawing(title: str, outline: Outline, disc: Interval, needed: Interval, is_inch: bool) -> str:
    """An SVG that needs no colour, with what it shows in words. All in metres."""
    points = _points(outline)
    most = max(disc.high, needed.high, 2 * max(radius for radius, _ in points))
    scale = (_WIDTH - 2 * _SIDE) / most
    top, bottom = max(height for _, height in points), min(height for _, height in points)
    middle = _WIDTH / 2
    unit = "in" if is_inch else "mm"

    def at(point: Point, side: int) -> str:
        return f"{middle + side * point[0] * scale:.1f} {_TOP + (top - point[1]) * scale:.1f}"

    halves = " ".join("M" + " L".join(at(point, side) for point in points) for side in (-1, 1))
    line = _TOP + (top - bottom) * scale + _GAP
    rows = [
        f'<path stroke-width="2.5" d="{halves}"/>',
        f'<path stroke-dasharray="12 4 2 4" d="M{middle} {_TOP - 8} V{line + _GAP}"/>',
    ]
    for number, (what, span) in enumerate((("disc", disc), ("as much surface", needed))):
        y, half = line + number * _GAP, (span.low + span.high) / 4 * scale
        thick = 2.5 if number == 0 else 1.2
        rows.append(f'<path stroke-width="{thick}" d="M{middle - half:.1f} {y:.1f} H{middle + half:.1f}"/>'
                    f'<path d="M{middle - half:.1f} {y - 6:.1f} v12 M{middle + half:.1f} {y - 6:.1f} v12"/>'
                    f'<text x="{middle + 6:.1f}" y="{y - 8:.1f}" fill="currentColor" stroke="none">'
                    f"{escape(what)}, {escape(amount(span, unit))}</text>")
    height = line + _GAP + 16
    words = (f"{title} cut through the middle, {amount(Interval(top - bottom, top - bottom), unit)} high and "
             f"{amount(Interval(2 * points[-1][0], 2 * points[-1][0]), unit)} wide at the rim. The disc is "
             f"{amount(disc, unit)}, as much surface has one of {amount(needed, unit)}.")
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="bl-shell" viewBox="0 0 {_WIDTH} {height:.0f}" role="img" '
        f'aria-label="{escape(words, quote=True)}" style="max-width:{_WIDTH}px;width:100%;height:auto">'
        f'<g fill="none" stroke="currentColor" stroke-width="1" font-size="16">{"".join(rows)}</g></svg>'
    )


def _points(outline: Outline) -> list[Point]:
    """The outline as a row of points, arcs in short pieces."""
    points = [outline.start]
    for piece in outline.pieces:
        if isinstance(piece, Line):
            points.append(piece.to)
        else:
            circle = circle_through(points[-1], piece.through, piece.to)
            points += [circle.at(circle.start + circle.sweep * part / _PARTS_OF_ARC) for part in
                       range(1, _PARTS_OF_ARC + 1)]
    return points
