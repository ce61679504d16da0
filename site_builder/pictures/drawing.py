"""An SVG drawing without anything that acts, loads or leads elsewhere.

Kept is what is on a list; all else is taken out and named. Links lose their target and keep their
words; pictures inside the drawing are kept as bare pixels; animation goes, since it can set any attribute.
Element and attribute names after SVG 2 (W3C Candidate Recommendation, 2018) and Filter Effects 1.
"""

from __future__ import annotations

import base64
import binascii
import io
import re
from collections import Counter
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from site_builder.notebook.picture_facts import (
    MAX_DRAWING_BYTES,
    PictureProblem,
    broken_drawing,
    drawing_size,
    drawing_text,
    too_large_a_drawing,
)
from site_builder.pictures.photo import plain_copy

_SVG = "http://www.w3.org/2000/svg"
_XLINK_HREF = "{http://www.w3.org/1999/xlink}href"
_XML = "{http://www.w3.org/XML/1998/namespace}"
_DEEPEST = 150

_NAMES = """
    svg g defs symbol use switch title desc path rect circle ellipse line polyline polygon text tspan
    textPath marker pattern linearGradient radialGradient stop clipPath mask style image filter
    feBlend feColorMatrix feComponentTransfer feComposite feConvolveMatrix feDiffuseLighting
    feDisplacementMap feDistantLight feDropShadow feFlood feFuncA feFuncB feFuncG feFuncR
    feGaussianBlur feMerge feMergeNode feMorphology feOffset fePointLight feSpecularLighting
    feSpotLight feTile feTurbulence
"""
_KEPT = frozenset(_NAMES.split())
# What programs for drawing leave behind; it shows nothing, so it is dropped without a word.
_SILENT = frozenset(("metadata", "namedview"))
# Whatever makes a style sheet load something or hides how it does so: escapes, imports, schemes.
_LOADS = re.compile(
    r"""\\|@import|@font-face|@namespace|image-set|(?<![\w-])(?:image|src|cross-fade|element|expression)\s*\("""
    r"""|url\((?!\s*["']?\#)|//|javascript:|data:|-moz-binding|behavior\s*:""",
    re.IGNORECASE,
)
_EMBEDDED = re.compile(r"data:image/(?:png|jpe?g|webp|gif);base64,([A-Za-z0-9+/=\s]+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class CleanDrawing:
    """A safe drawing, its size in pixels where it tells one, and what was taken out of it."""

    data: bytes
    width: int | None
    height: int | None
    removed: tuple[str, ...]


def clean_drawing(data: bytes) -> CleanDrawing | PictureProblem:
    """The drawing made safe, or why it cannot be."""
    if len(data) > MAX_DRAWING_BYTES:
        return too_large_a_drawing(len(data))
    text = drawing_text(data)
    if isinstance(text, PictureProblem):
        return text
    try:
        root = ET.fromstring(text)
    except (ET.ParseError, ValueError):
        return broken_drawing()
    if _local(root.tag) != "svg":
        return broken_drawing()
    removed: Counter[str] = Counter({"outside style sheet": text.count("<?xml-stylesheet")})
    if not _clean_tree(root, removed):
        return PictureProblem("unsafe-drawing", "The drawing is nested too deep. Ungroup it, save it again.")
    width, height = drawing_size(root.attrib)
    root.set("xmlns", _SVG)
    if "viewBox" not in root.attrib and width and height:
        root.set("viewBox", f"0 0 {width} {height}")  # without it a browser crops where it should shrink
    counted = sorted((name, count) for name, count in removed.items() if count)
    names = tuple(f"{name} ({count})" if count > 1 else name for name, count in counted)
    return CleanDrawing(ET.tostring(root, encoding="unicode").encode(), width, height, names)


def _local(tag: str) -> str:
    """The element's name if it is one of SVG (or has no namespace), else its name with the namespace."""
    namespace, _, name = tag.rpartition("}")
    return name if namespace in ("", "{" + _SVG) else tag


def _clean_tree(root: ET.Element, removed: Counter[str]) -> bool:
    """Cleans every element in place. False if the tree is deeper than it can be written again."""
    waiting = [(root, 0)]
    while waiting:
        element, depth = waiting.pop()
        if depth > _DEEPEST:
            return False
        element.tag = _local(element.tag)
        _clean_attributes(element, removed)
        before: ET.Element | None = None
        for child in list(element):
            name = _local(child.tag)
            if name == "a":
                removed["link"] += 1
                child.tag = "tspan" if element.tag in ("text", "tspan", "textPath") else "g"
                child.attrib = _linkless(child)
            elif reason := _unwanted(child, name):
                removed[reason] += reason != "silent"
                _hand_on_tail(element, child, before)
                element.remove(child)
                continue
            before = child
            waiting.append((child, depth + 1))
    return True


def _linkless(element: ET.Element) -> dict[str, str]:
    gone = {"href", _XLINK_HREF, "target", "download", "ping", "rel", "type"}
    return {key: value for key, value in element.attrib.items() if key not in gone}


def _hand_on_tail(parent: ET.Element, child: ET.Element, before: ET.Element | None) -> None:
    """Words that follow a child taken out stay where they were."""
    if not child.tail:
        return
    if before is None:
        parent.text = (parent.text or "") + child.tail
    else:
        before.tail = (before.tail or "") + child.tail


def _unwanted(element: ET.Element, name: str) -> str | None:
    """Why an element must go, in a word for the report; ``silent`` for what nobody would miss."""
    if name not in _KEPT:
        short = name.rpartition("}")[2]
        return "silent" if short in _SILENT else short
    if name == "style" and (len(element) or _LOADS.search(element.text or "")):
        return "style that loads something"
    if name == "image":
        return _settle_image(element)
    return None


def _settle_image(element: ET.Element) -> str | None:
    """Replaces an embedded picture by its bare pixels; an outside one must go."""
    target = element.attrib.pop(_XLINK_HREF, "")
    embedded = _EMBEDDED.fullmatch((element.attrib.pop("href", "") or target).strip())
    if not embedded:
        return "picture from outside"
    try:
        found = base64.b64decode("".join(embedded[1].split()), validate=True)
    except binascii.Error:
        return "broken picture"
    copy = plain_copy(io.BytesIO(found))
    if isinstance(copy, PictureProblem):
        return "broken picture"
    data, media = copy
    element.set("href", f"data:{media};base64,{base64.b64encode(data).decode()}")
    return None


def _clean_attributes(element: ET.Element, removed: Counter[str]) -> None:
    kept: dict[str, str] = {}
    for key, value in element.attrib.items():
        name = "href" if key == _XLINK_HREF else key
        if name.lower().startswith("on"):
            removed["event handler"] += 1
        elif name == "href":
            if element.tag == "image" or value.strip().startswith("#"):
                kept[name] = value.strip()
            else:
                removed["outside reference"] += 1
        elif name.startswith("{"):
            if name in (_XML + "lang", _XML + "space"):
                kept[name] = value
        elif name == "src" or (not name.startswith("aria-") and _LOADS.search(value)):
            removed["outside reference"] += 1
        else:
            kept[name] = value
    element.attrib = kept
