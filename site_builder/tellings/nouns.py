"""What is counted: the noun behind a number, where no unit stands."""

from __future__ import annotations

from site_builder.quantity.nouns import COMMON, plural
from site_builder.tellings.numerals import numeral_at
from site_builder.tellings.tokens import Token, listed

_IRREGULAR = {
    "people": "person",
    "men": "man",
    "women": "woman",
    "teeth": "tooth",
    "knives": "knife",
    "leaves": "leaf",
    "halves": "half",
    "loaves": "loaf",
    "shelves": "shelf",
    "mice": "mouse",
    "dice": "die",
    "feet": "foot",
    "dies": "die",
    "children": "child",
    "geese": "goose",
    "oxen": "ox",
    "sheep": "sheep",
    "fish": "fish",
    "passes": "pass",
    "persons": "person",
    "axes": "axe",
    "staves": "stave",
    "halfs": "half",
}
_NO_PLURALS = listed(
    "is was has does always this as us yes less across his its hers ours theirs yours perhaps sometimes besides else "
    "afterwards upwards downwards towards inwards outwards sideways plus minus thus unless glass brass grass gas gloss "
    "press pass mass class cross boss loss moss process focus bias canvas chassis lens status atlas axis basis bus "
    "stress dress harness thickness hardness softness because whereas serious various previous anyways overseas alas "
    "goes comes takes makes gets says looks wants needs runs sits stands turns gives keeps stays works happens means "
    "holds lies seems feels tells knows thinks uses helps shows starts stops breaks dries cools sets melts pulls does"
)
STOPS = listed(
    "a an the of to in on at by for from with without into onto over under and or but nor so then than that this these "
    "those it he she they we you i me him them my your our their his her its not no is are was were be been "
    "being am do "
    "does did have has had will would can could shall should may might must if when while until till before after as "
    "because where who what which how why there here out up down off again only also just still even yet too very more "
    "less most least all both each every any some never always about around per o'clock whichever else ago later "
    "sometimes enough together apart away back"
)
OF_THE_BODY = frozenset(("fingers", "thumbs", "eyes", "knees", "elbows", "arms", "legs", "ears", "lips"))
"""Everybody has two: no number to keep."""
_COUNTED_VERBS = frozenset(("turn", "press", "pass", "end", "pull", "stop"))
"""Verbs, and things one counts."""


def counted_at(words: list[Token], i: int, one: bool) -> tuple[str, int] | None:
    """The noun counted (in the singular) within three words from here, and the token after it.

    ``one``: the number is one; ``one casting`` says which, not how many.
    """
    for j in range(i, i + 3):
        word = words[j]
        if word.text == "-" and word.glued and words[j + 1].glued:
            continue
        if not word.is_word or word.text in STOPS or (j > i and numeral_at(words, j) is not None):
            return None
        if one:
            return None
        if word.text in OF_THE_BODY:
            return None
        singular = singular_of(word.text)
        if singular is not None:
            return singular, j + 1
    return None


def singular_of(word: str) -> str | None:
    """The singular of a plural noun; None where the word is none."""
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    if (
        len(word) < 4
        or not word.endswith("s")
        or (word in _NO_PLURALS and word[:-1] not in _COUNTED_VERBS)
        or word.endswith(("ss", "us", "'s", "is"))
    ):
        return None
    tries = [word[:-1]]
    if word.endswith("es"):
        tries.append(word[:-2])
    if word.endswith("ies"):
        tries.insert(0, word[:-3] + "y")
    found = [one for one in tries if plural(one) == word]
    known = [one for one in found if one in COMMON]
    if known:
        return known[0]
    # boxes, brushes: the shorter one, where only a sibilant wants the e
    shorter = [one for one in found if one.endswith(("x", "ch", "sh", "z", "ss"))]
    return next(iter(shorter or found), None)


def last_plural(words: list[Token], before: int) -> str | None:
    """The last plural noun before a token: what `of them` may mean."""
    for j in range(before - 1, -1, -1):
        if words[j].is_word and words[j].text not in STOPS and (one := singular_of(words[j].text)) is not None:
            return one
    return None
