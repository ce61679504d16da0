"""How a question is put: an instruction, a sign or a name of the notebook turned into an English question.

Nothing here guesses: a text is bent only where its own form shows that the outcome will be English. Any other
text is left as it stands, as a sentence of its own, and the question follows it.
"""

from __future__ import annotations

import re

from site_builder.views.prose import capital_text, lowered_text
from site_builder.views.typeset import typeset

_LONGEST = 110
"""A deed of more letters than this would be lost inside a question."""

_ONE_SENTENCE = re.compile(r"[^.!?;]+(?:\.\d[^.!?;]*)*[.!]?")
_DETERMINERS = frozenset({
    "the", "a", "an", "it", "them", "him", "her", "this", "that", "these", "those", "each", "every", "all", "both",
    "no", "one", "your", "its", "their", "only",
})
_NOT_VERBS = frozenset({
    "about", "above", "across", "after", "against", "all", "along", "although", "always", "and", "any", "around", "as",
    "at", "because", "before", "behind", "below", "beneath", "beside", "besides", "between", "beyond", "both", "but",
    "by", "down", "during", "each", "either", "even", "ever", "every", "everybody", "except", "few", "first", "for",
    "from", "half", "here", "how", "if", "in", "inside", "into", "it", "just", "last", "less", "like", "many", "more",
    "most", "near", "neither", "never", "next", "no", "nobody", "not", "nothing", "now", "of", "off", "often", "on",
    "once", "one", "only", "onto", "or", "out", "outside", "over", "past", "per", "quite", "rather", "since", "so",
    "some", "soon", "still", "such", "than", "that", "the", "then", "there", "these", "this", "those", "though",
    "through", "till", "to", "too", "toward", "towards", "twice", "under", "until", "unless", "up", "upon", "what",
    "when", "where", "which", "while", "who", "with", "within", "without", "yet", "you", "your", "a", "an",
    "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
})
_ING_VERBS = frozenset({"bring", "cling", "fling", "ring", "sing", "sling", "spring", "string", "swing", "wring"})
_LY_VERBS = frozenset({"apply", "fly", "multiply", "ply", "rely", "reply", "supply"})
_LEADS = {"Do not ": "not", "Don’t ": "not", "Never ": "never", "Always ": "always"}
_PRONOUN = re.compile(r"(?:It|They|He|She|There)\s+(?=[a-z])")
_FINITE = re.compile(r"\b(?:is|are|was|were|has|have|does|do|cannot|can|will)\b")
_BREAKS = re.compile(r",|\b(?:that|which|who|where|when|while|if|and|or)\b", re.IGNORECASE)
_QUALITIES = {
    "flatness": "flat", "straightness": "straight", "roundness": "round", "hardness": "hard", "sharpness": "sharp",
    "smoothness": "smooth", "squareness": "square", "evenness": "even", "tightness": "tight",
}
_EXTENTS = {
    "height": "high", "width": "wide", "length": "long", "depth": "deep", "thickness": "thick", "weight": "heavy",
    "mass": "heavy", "heat": "hot", "age": "old", "speed": "fast",
}
_OF = re.compile(r"(\w+) of ((?:the|a|an|each|every|one|this) .+)", re.IGNORECASE)
_AFTER_THE_HEAD = re.compile(r",| (?:of|in|on|at|under|over|below|above|between|for|from|with|to|left|after|before)\b")
_ARTICLED = re.compile(r"(?:the|a|an|each|every|all|no|one|its|their|this)\b", re.IGNORECASE)


def bare(text: str) -> str:
    """Words without the full stop at their end."""
    return text[:-1] if text.endswith(".") and not text.endswith("..") else text


def stop(text: str) -> str:
    """Words with a mark at their end."""
    return text if text.endswith((".", "!", "?", "”", "…")) else f"{text}."


def small(text: str, proper: frozenset[str] = frozenset()) -> str:
    """The first letter small, names left alone."""
    return lowered_text(text, proper)


def deed(text: str, proper: frozenset[str] = frozenset(), *, told_to: bool = False) -> str | None:
    """``hold it by the shoulders`` for "Hold it by the shoulders.": what may follow "you"; else None.

    ``told_to``: the notebook's grammar says that this is an instruction (a title, what a step does), so its
    first word is taken for the verb. Elsewhere an article or the like after that word must show it.
    """
    if len(text) > _LONGEST or not _ONE_SENTENCE.fullmatch(text):
        return None
    for lead, word in _LEADS.items():
        if text.startswith(lead):
            rest = deed(capital_text(text.removeprefix(lead)), proper, told_to=True)
            return None if rest is None else f"{word} {rest}"
    first, *rest_words = bare(text).split()
    verb = first.lower()
    if not rest_words or not first.isalpha() or verb in _NOT_VERBS or first in proper or first[1:] != first[1:].lower():
        return None
    if (verb.endswith("ing") and verb not in _ING_VERBS) or (verb.endswith("ly") and verb not in _LY_VERBS):
        return None
    if not told_to and (rest_words[0].lower() not in _DETERMINERS or (verb.endswith("s") and not verb.endswith("ss"))):
        return None
    return small(bare(text), proper)


def clause(sign: str, proper: frozenset[str] = frozenset()) -> str | None:
    """``a corner is torn out`` for "A corner is torn out.": what may follow "when"; else None.

    A sign is a clause where it begins with a pronoun, or where a finite verb follows its first words.
    """
    if len(sign) > _LONGEST or not _ONE_SENTENCE.fullmatch(sign):
        return None
    text = bare(sign)
    verb = _FINITE.search(text)
    if _PRONOUN.match(text) or (verb is not None and verb.start() > 0 and not _BREAKS.search(text[: verb.start()])):
        return small(text, proper)
    return None


def named(name: str) -> str:
    """``the run off centre``; a name that brings its own article keeps it."""
    return name if _ARTICLED.match(name) else f"the {name}"


def be(name: str) -> str:
    """``is`` or ``are``: a noun with an s at its end is taken for several, but not glass or flatness."""
    head = _AFTER_THE_HEAD.split(name, maxsplit=1)[0]
    return "are" if head.endswith("s") and not head.endswith(("ss", "us")) else "is"


def how_much(name: str, *, least: bool, most: bool) -> str | None:
    """``How flat must the sole be`` for "flatness of the sole"; None for a name of another make.

    ``least`` and ``most``: on which sides there is an end.
    """
    found = _OF.fullmatch(name)
    if found is None:
        return None
    noun, whose = found[1].lower(), found[2]
    if noun in _QUALITIES:
        return f"How {_QUALITIES[noun]} must {whose} be"
    if noun not in _EXTENTS:
        return None
    adjective = _EXTENTS[noun]
    if most and not least:
        return f"How {adjective} may {whose} be at most"
    return f"How {adjective} must {whose} be at least" if least and not most else f"How {adjective} must {whose} be"


def why(text: str, proper: frozenset[str] = frozenset(), *, told_to: bool = False) -> str:
    """``Why do you hold it by the shoulders?``, or the words as they stand and "Why?" after them."""
    done = deed(text, proper, told_to=told_to)
    return f"Why do you {done}?" if done is not None else f"{stop(text)} Why?"


def quoted(title: str) -> str:
    """A title within a sentence."""
    return f"“{typeset(bare(title))}”"



