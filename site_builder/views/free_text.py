"""Free text of the notebook as pieces.

A writer may use ``*emphasis*``, ``**strong**``, `` `code` ``, ``[words](page)``, ``[[id]]`` and ``[[id|words]]``;
everything else, HTML above all, is the text it is. Numbers are set as in print.

    text -> tokens that must not be touched -> typeset -> emphasis -> words of the glossary
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from site_builder.views.prose import NO_WORDS, GlossaryWord, Linked, Piece, Prose, Ref, Toned, merged
from site_builder.views.typeset import typeset

Finder = Callable[[str], tuple[str, Ref] | None]
"""What ``[[id]]`` means: what to call it, and where it is told; None if nothing has that id."""
PageFinder = Callable[[str], Ref | None]
"""Where ``[words](target)`` leads; None if there is no such page."""

# Nearly all texts hold none of these and are done after one search.
_ACTIVE = re.compile(r"['*_`\[\\\d\x00-\x1f\x7f-\x9f\ud800-\udfff\U000f0000-\U0010ffff]|  |^ | $| - ")
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
_SEALED = re.compile("([\U000f0000-\U000fffef])")

_OUTSIDE = re.compile(r"(?:https?://|mailto:)[^\s<>\"']+", re.IGNORECASE)
# No colon before the anchor, so no scheme; no slash in front, so no host.
_INSIDE = re.compile(r"(?=[^/])[\w./?=&%~+,;@()\-]*(?:#[\w./?=&%~+,;:@()\-]*)?")
_STARS = re.compile(r"\*{1,2}|_{1,2}")


@dataclass(frozen=True, slots=True)
class Glossary:
    """The words that a text may use, as one pattern with a group ``word``, and what a match of it is a form of."""

    pattern: re.Pattern[str]
    word_of: Callable[[str], str | None]


def free_words(
    text: str, find: Finder | None = None, page: PageFinder | None = None, glossary: Glossary | None = None
) -> Prose:
    """A text in pieces, safe to print piece by piece whatever it holds.

    A reference that ``find`` does not find is shown as its words. An address outside the handbook is shown after the
    words, never as a link: the handbook must reach nowhere. Any other target is refused and the whole construct shown
    as it was written.
    """
    if not _ACTIVE.search(text):
        said = Prose((text,)) if text else NO_WORDS
    elif not _MARKUP.search(text):
        said = Prose((typeset(_tidy(text)),))
    else:
        said = _Reader(find, page).read(text)
    return _with_terms(said, glossary) if glossary is not None else said


def plain(text: str, find: Finder | None = None) -> str:
    """The words alone, set as in print: for titles, alternative text and the finder."""
    return text if not _ACTIVE.search(text) else free_words(text, find).plain


def _tidy(text: str) -> str:
    """One line, single blanks, no control characters."""
    return _BLANKS.sub(" ", _UNFIT.sub("\ufffd", text)).strip()


def _with_terms(said: Prose, glossary: Glossary) -> Prose:
    """Words of the glossary marked, except within links and code."""
    if not any((isinstance(p, str) and glossary.pattern.search(p)) or isinstance(p, Toned) for p in said):
        return said
    return merged(piece for whole in said for piece in _terms(whole, glossary))


def _terms(piece: Piece, glossary: Glossary) -> Iterator[Piece]:
    if isinstance(piece, Toned) and piece.tone != "code":
        yield Toned(piece.tone, _with_terms(piece.words, glossary))
    elif isinstance(piece, str):
        end = 0
        for match in glossary.pattern.finditer(piece):
            word = glossary.word_of(match["word"])
            if word is not None:
                yield piece[end : match.start()]
                yield GlossaryWord(word, match["word"])
                end = match.end()
        yield piece[end:]
    else:
        yield piece


class _Reader:
    def __init__(self, find: Finder | None, page: PageFinder | None) -> None:
        self._find = find
        self._page = page
        self._sealed: list[Prose] = []

    def read(self, text: str) -> Prose:
        parts: list[str] = []
        end = 0
        tidy = _tidy(text)
        for match in _TOKEN.finditer(tidy):
            if len(self._sealed) >= _MOST_TOKENS:
                break
            parts += [tidy[end : match.start()], self._seal(self._token(match))]
            end = match.end()
        return self._unsealed(_emphasis(typeset("".join(parts) + tidy[end:])))

    def _seal(self, finished: Prose) -> str:
        self._sealed.append(finished)
        return chr(_FIRST_TOKEN + len(self._sealed) - 1)

    def _unsealed(self, said: Prose) -> Prose:
        return merged(piece for whole in said for piece in self._opened(whole))

    def _opened(self, piece: Piece) -> Iterator[Piece]:
        if isinstance(piece, Toned):
            yield Toned(piece.tone, self._unsealed(piece.words))
        elif isinstance(piece, str):
            for nth, part in enumerate(_SEALED.split(piece)):
                if nth % 2:
                    yield from self._sealed[ord(part) - _FIRST_TOKEN]
                else:
                    yield part

    def _token(self, match: re.Match[str]) -> Prose:
        kind = match.lastgroup
        if kind == "bare":
            return Prose((match[0],))
        if kind == "plain":
            return Prose((match["plain"],))
        if kind == "code":
            return Prose((Toned("code", Prose((match["code"],))),))
        if kind == "target":
            return self._page_link(match[0], match["words"], match["target"])
        target, shown = match["id"].strip(), (match["shown"] or "").strip() or None
        found = self._find(target) if self._find else None
        return Prose((Linked(_set(shown or found[0]), found[1]),)) if found is not None else _set(shown or target)

    def _page_link(self, written: str, words: str, target: str) -> Prose:
        if _OUTSIDE.fullmatch(target):
            address = re.sub("^mailto:", "", target, flags=re.IGNORECASE)
            if words in (target, address):
                return Prose((address,))
            return merged((*_set(words), f" ({address})"))
        if not _INSIDE.fullmatch(target):
            return Prose((written,))
        to = self._page(target) if self._page else None
        return _set(words) if to is None else Prose((Linked(_set(words), to),))


def _set(words: str) -> Prose:
    """Prose of a link: typeset, with emphasis, but no link within the link."""
    return _emphasis(typeset(words))


def _emphasis(text: str) -> Prose:
    """Pairs of stars and underlines become tones, always well nested; a single one stays a sign."""
    if "*" not in text and "_" not in text:
        return Prose((text,)) if text else NO_WORDS
    parts: list[str] = []
    ends: dict[int, int] = {}
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
            ends[open_marks[place][1]] = len(parts) - 1
            del open_marks[place:]
        elif opens and place is None:
            open_marks.append((mark, len(parts) - 1))
    parts.append(text[end:])
    return _nested(parts, ends, 0, len(parts))


def _nested(parts: list[str], ends: dict[int, int], start: int, stop: int) -> Prose:
    """The parts from ``start`` to ``stop``, each pair of marks with what stands between them as one piece."""
    found: list[Piece] = []
    at = start
    while at < stop:
        if at in ends:
            inner = _nested(parts, ends, at + 1, ends[at])
            found.append(Toned("emphasis" if len(parts[at]) == 1 else "strong", inner))
            at = ends[at] + 1
        else:
            found.append(parts[at])
            at += 1
    return merged(found)
