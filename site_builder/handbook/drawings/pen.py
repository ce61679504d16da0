"""SVG by hand: the few strokes every drawing is made of. Ink is `currentColor`; the classes are
those of the stylesheet (`l heavy thin dash stream mark hit sub lane paper`)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape

RING = 7.0
DIAMOND = 9.0


def number(value: float) -> str:
    """A coordinate with at most one decimal: shorter files, and the same text on every machine."""
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def path(points: str, css: str) -> str:
    return f'<path class="{css}" d="{points}"/>'


def curve(x1: float, y1: float, x2: float, y2: float) -> str:
    """From above to below in one S: leaves and arrives upright, flat in the middle."""
    if abs(x1 - x2) < 0.05:
        return f"V{number(y2)}"
    bend = (y2 - y1) * 0.78
    ends = (x1, y1 + bend, x2, y2 - bend, x2, y2)
    return "C" + " ".join(number(value) for value in ends)


def text(x: float, y: float, lines: Sequence[str], css: str, pitch: float, anchor: str = "start") -> str:
    """Lines of text; `y` is the first line. One element where the lines begin together, so that a line
    break is read as a space; elsewhere that space would push the lines aside."""
    where = f'class="{css}"' + ("" if anchor == "start" else f' text-anchor="{anchor}"')
    if len(lines) == 1 or anchor != "start":
        return "\n".join(
            f'<text {where} x="{number(x)}" y="{number(y + i * pitch)}">{escape(line, quote=False)}</text>'
            for i, line in enumerate(lines)
        )
    spans = "\n".join(
        f'<tspan x="{number(x)}" y="{number(y + i * pitch)}">{escape(line, quote=False)}</tspan>'
        for i, line in enumerate(lines)
    )
    return f"<text {where}>{spans}</text>"


def mark(x: float, y: float, outside: bool, radius: float = RING) -> str:
    """A ring for a stop in our shop, a diamond for work outside."""
    if outside:
        d = number(radius * DIAMOND / RING)
        return path(f"M{number(x)} {number(y - radius * DIAMOND / RING)}l{d} {d}-{d} {d}-{d}-{d}z", "mark")
    return f'<circle class="mark" cx="{number(x)}" cy="{number(y)}" r="{number(radius)}"/>'


def rect(x: float, y: float, width: float, height: float, css: str) -> str:
    box = zip(("x", "y", "width", "height"), (x, y, width, height), strict=True)
    return f'<rect class="{css}" ' + " ".join(f'{name}="{number(value)}"' for name, value in box) + "/>"


def link(href: str, body: str, hit: str, label: str = "") -> str:
    """`body` as a link with `hit`, the field that takes the finger; plain where there is no href.

    `label` is read instead of the text where a mark alone carries a meaning."""
    if not href:
        return f"<g>{body}</g>"
    said = f' aria-label="{escape(label)}"' if label else ""
    return f'<a href="{escape(href)}"{said}>{hit}{body}</a>'


def picture(width: float, height: float, body: Iterable[str], css: str, label: str) -> str:
    """The whole drawing. A group, not an image, so that its links stay reachable."""
    size = f'viewBox="0 0 {number(width)} {number(height)}" width="{number(width)}" height="{number(height)}"'
    inside = "\n".join(part for part in body if part)
    return f'<svg class="bl-drawing {css}" {size} role="group" aria-label="{escape(label)}">\n{inside}\n</svg>\n'
