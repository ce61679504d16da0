"""Free text of the notebook, set for people and made safe.

A writer may use ``*emphasis*``, ``**strong**``, `` `code` ``, ``[words](page)``, ``[[id]]`` and
``[[id|words]]``; everything else, HTML above all, is shown as the text it is. Numbers are set as in
print: a true minus, "15 to 25" for ``15..25``, no line break between a number and its unit.

    text -> tokens that must not be touched -> escaped -> typeset -> emphasis -> allow-list
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from html import escape

import nh3


@dataclass(frozen=True, slots=True)
class Link:
    """Where a reference leads: an address within the book, seen from the page, and the words to show."""

    href: str
    words: str


Resolver = Callable[[str, str | None], Link | None]
"""Finds what ``[[id|words]]`` means, given the id and the writer's words if any; None if nothing has it."""
PageFinder = Callable[[str], str | None]
"""The address, seen from the page, of what ``[words](target)`` names; None if there is no such page."""

TAGS = frozenset(("a", "em", "strong", "code"))
"""All elements that ``inline`` lets through; the only attribute is ``href``, and only within the book."""

# Nearly all texts hold none of these and are done after one search.
_ACTIVE = re.compile(r"[&<>'*_`\[\\\d\x00-\x1f\x7f-\x9f\ud800-\udfff\U000f0000-\U0010ffff]|  |^ | $| - ")
_MARKUP = re.compile(r"[*_`\[\\]|https?://")
# What has no meaning in a text, and the private letters that stand for tokens below.
_UNFIT = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\U000f0000-\U0010ffff]")
_BLANKS = re.compile(r"[ \t]*[\r\n]\s*|[ \t]{2,}|\t")

_TOKEN = re.compile(
    r"\\(?P<plain>[\\`*_\[\]()|<>!#-])"
    r"|`(?P<code>[^`]+)`"
    r"|\[\[(?P<id>[^\[\]|]+)(?:\|(?P<shown>[^\[\]]*))?\]\]"
    r"|(?<!!)\[(?P<words>[^\[\]]+)\]\((?P<target>[^()\s]*(?:\([^()\s]*\)[^()\s]*)*)\)"
    r"|(?P<bare>https?://[^\s<>\"\[\]]+)",
    re.IGNORECASE,
)
_FIRST_TOKEN = 0xF0000
_MOST_TOKENS = 0xFFF0
_SEALED = re.compile("[\U000f0000-\U000fffef]")

_OUTSIDE = re.compile(r"(?:https?://|mailto:)[^\s<>\"']+", re.IGNORECASE)
# No colon before the anchor, so no scheme; no slash in front, so no host.
_INSIDE = re.compile(r"(?=[^/])[\w./?=&%~+,;@()\-]*(?:#[\w./?=&%~+,;:@()\-]*)?")

_UNITS = (
    "mm|cm|m|km|µm|μm|nm|mm²|cm²|m²|mm³|cm³|m³|in|ft|yd|mil|thou|kg|g|mg|t|lb|oz|N|kN|Nm|N·m|Pa|kPa|MPa|bar|psi"
    "|°C|°F|K|%|s|ms|min|h|d|wk|mo|y|ml|mL|l|L|gal|W|kW|V|mV|A|mA|Hz|kHz|rpm|J|kJ|dB|dB\\(A\\)|HV|HB|HRC"
    "|g/cm³|kg/m³|m/s²|m/s2|(?:m|mm|ft|in|rev|L|l)/(?:s|min|h)|(?:h|d)/(?:day|wk|week|mo|y)"
)
_BEFORE_UNIT = re.compile(rf"(?<=\d) (?=(?:{_UNITS}|° angle)(?![\w/]))")
_RANGE = re.compile(rf"(?<=\d)((?: ?(?:{_UNITS}))?) ?(?:(?<!\.)\.\.(?!\.)|…) ?(?=[-−+]?[A-Z]?\d)")
_MINUS = re.compile(r"(?<![\w.\-−)\]%°\U000f0000-\U000fffef])-(?=\.?\d)")
_APOSTROPHE = re.compile("(?<=[^\\W\\d_]|[\U000f0000-\U000fffef])'(?=[^\\W\\d_])")
_OWNERS = re.compile(r"(?<=s)'(?=\s+\w)")
_OPENING_QUOTE = re.compile(r"(?:^|[\s(])'")
_DASH = re.compile(r"(?<=\S) - (?=\S)(?!\d)")
_ISO_DAY = re.compile(r"(?<![\w-])(\d{4})-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])(?![\w-])")
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
          "November", "December")
_STARS = re.compile(r"\*{1,2}|_{1,2}")


def inline(text: str, link: Resolver | None = None, page: PageFinder | None = None) -> str:
    """HTML for the inside of an element, safe whatever the text holds.

    A reference that ``link`` does not find is shown as its words. ``page`` finds the target of an
    ordinary link; without it a relative target is taken as it stands. An address outside the book is
    shown after the words, never as a link: the book must reach nowhere. Any other target is refused and
    the whole construct shown as it was written.
    """
    if not _ACTIVE.search(text):
        return text
    if not _MARKUP.search(text):
        return typeset(escape(_tidy(text), quote=False))
    out = _Writer(link, page, html=True).write(text)
    if "<" not in out:
        return out
    safe = nh3.clean(
        out, tags=set(TAGS), attributes={"a": {"href"}}, url_schemes=set(), link_rel=None, strip_comments=True
    )
    return safe.replace("&nbsp;", "\u00a0")


def plain(text: str, link: Resolver | None = None) -> str:
    """The words alone, set as in print: for titles, alternative text and the search. Not yet HTML."""
    if not _ACTIVE.search(text):
        return text
    if not _MARKUP.search(text):
        return typeset(_tidy(text))
    return _Writer(link, None, html=False).write(text)


def heading(text: str, link: Resolver | None = None) -> str:
    """``plain`` for the text of a Markdown heading of a generated page: nothing in it acts as Markdown."""
    return re.sub(r"[\\`*_{}\[\]<>()#+!|~^:=$&\"-]", lambda mark: f"&#{ord(mark[0])};", plain(text, link))


def typeset(text: str) -> str:
    """Numbers, ranges, days, minus signs, dashes and apostrophes as in print. Takes text or escaped text, no tags."""
    if "'" in text:
        text = _APOSTROPHE.sub("’", text)
        if not _OPENING_QUOTE.search(text):
            text = _OWNERS.sub("’", text)
    if ".." in text or "…" in text:
        text = _RANGE.sub(r"\1 to ", text)
    if "-" in text:
        text = _DASH.sub(" – ", _ISO_DAY.sub(_day, text))
        text = _MINUS.sub("−", text)
    return _BEFORE_UNIT.sub("\u00a0", text)


def _day(found: re.Match[str]) -> str:
    """``9 February 2026`` for ``2026-02-09``."""
    return f"{int(found[3])} {MONTHS[int(found[2]) - 1]} {found[1]}"


def _tidy(text: str) -> str:
    """One line, single blanks, no control characters."""
    return _BLANKS.sub(" ", _UNFIT.sub("\ufffd", text)).strip()


class _Writer:
    """Writes one text. Tokens are sealed as single private letters while the words around them are set."""

    def __init__(self, link: Resolver | None, page: PageFinder | None, html: bool) -> None:
        self._link = link
        self._page = page
        self._html = html
        self._sealed: list[str] = []

    def write(self, text: str) -> str:
        parts: list[str] = []
        end = 0
        tidy = _tidy(text)
        for match in _TOKEN.finditer(tidy):
            if len(self._sealed) >= _MOST_TOKENS:
                break
            parts += [self._escape(tidy[end : match.start()]), self._seal(self._token(match))]
            end = match.end()
        words = self._emphasis(typeset("".join(parts) + self._escape(tidy[end:])))
        return _SEALED.sub(lambda letter: self._sealed[ord(letter[0]) - _FIRST_TOKEN], words)

    def _escape(self, text: str) -> str:
        return escape(text, quote=False) if self._html else text

    def _seal(self, finished: str) -> str:
        self._sealed.append(finished)
        return chr(_FIRST_TOKEN + len(self._sealed) - 1)

    def _token(self, match: re.Match[str]) -> str:
        kind = match.lastgroup
        if kind == "plain" or kind == "bare":
            return self._escape(match[0] if kind == "bare" else match["plain"])
        if kind == "code":
            code = self._escape(match["code"])
            return f"<code>{code}</code>" if self._html else code
        if kind == "target":
            return self._web_link(match[0], match["words"], match["target"])
        target, shown = match["id"].strip(), (match["shown"] or "").strip() or None
        found = self._link(target, shown) if self._link else None
        if found is None:
            return self._set(shown or target)
        return self._anchor(found.href, shown or found.words)

    def _web_link(self, written: str, words: str, target: str) -> str:
        if _OUTSIDE.fullmatch(target):
            address = re.sub("^mailto:", "", target, flags=re.IGNORECASE)
            if words in (target, address):
                return self._escape(address)
            return f"{self._set(words)} ({self._escape(address)})" if self._html else self._set(words)
        if not _INSIDE.fullmatch(target):
            return self._escape(written)
        href = self._page(target) if self._page else target
        return self._set(words) if href is None else self._anchor(href, words)

    def _anchor(self, href: str, words: str) -> str:
        if not self._html or not _INSIDE.fullmatch(href):
            return self._set(words)
        return f'<a href="{escape(href)}">{self._set(words)}</a>'

    def _set(self, words: str) -> str:
        """Words of a link: typeset, with emphasis, but no link within the link."""
        return self._emphasis(typeset(self._escape(words)))

    def _emphasis(self, text: str) -> str:
        """Pairs of stars and underlines become elements, always well nested; a single one stays a sign."""
        if "*" not in text and "_" not in text:
            return text
        parts: list[str] = []
        open_marks: list[tuple[str, int]] = []
        end = 0
        for match in _STARS.finditer(text):
            mark, start = match[0], match.start()
            parts += [text[end:start], mark]
            end = match.end()
            before, after = text[start - 1 : start], text[end : end + 1]
            if before.isdigit() and after.isdigit():
                continue  # 10*20*30 mm
            under = mark[0] == "_"  # a_name_of_a_file is not emphasis
            closes = before.strip() not in ("", mark[0]) and not (under and after.isalnum())
            opens = after.strip() != "" and not (under and before.isalnum())
            place = next((n for n, (other, _) in enumerate(open_marks) if other == mark), None)
            if closes and place is not None:
                tag = "em" if len(mark) == 1 else "strong"
                parts[open_marks[place][1]] = f"<{tag}>" if self._html else ""
                parts[-1] = f"</{tag}>" if self._html else ""
                del open_marks[place:]
            elif opens and place is None:
                open_marks.append((mark, len(parts) - 1))
        return "".join(parts) + text[end:]
