"""Where the words of the glossary are used."""

from __future__ import annotations

import re
from collections.abc import Mapping

from site_builder.analysis.analysis import Analysis


def word_uses(analysis: Analysis, few: int) -> Mapping[str, tuple[str, ...]]:
    """Each word with the first few procedures whose texts hold it, in the order of the work, and one more."""
    patterns = {word: re.compile(rf"\b{re.escape(word)}(?:e?s)?\b") for word in map(str.lower, analysis.notebook.words)}
    texts = _texts(analysis)
    found: dict[str, list[str]] = {word: [] for word in patterns}
    for procedure in analysis.route.order:
        if not patterns:
            break
        text = texts.get(procedure, "")
        for word, pattern in [*patterns.items()]:
            if word in text and pattern.search(text):  # the first half is the quick one
                found[word].append(procedure)
                if len(found[word]) > few:
                    del patterns[word]
    return {word: tuple(ids) for word, ids in found.items()}


def _texts(analysis: Analysis) -> Mapping[str, str]:
    """All that a procedure says, in one text of small letters; a single word is an id and not said to anybody."""
    index = analysis.index
    found: dict[str, list[str]] = {}
    for spot in (*index.plain, *index.texts):
        if spot.place.procedure is not None and " " in spot.text:
            found.setdefault(spot.place.owner_id, []).append(str(spot.text))
    return {procedure: "\n".join(texts).lower() for procedure, texts in found.items()}
