"""Where the speaker corrects himself: ``no, twelve, not ten``; and what is taken back by it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from site_builder.tellings.cue import Cue
from site_builder.tellings.joined import Joined
from site_builder.tellings.spoken import Spoken
from site_builder.tellings.tokens import Token, tokens

_STRONG = tuple(
    tuple(phrase.split())
    for phrase in [
        "no wait",
        " wait no",
        " i mean",
        " what am i saying",
        " what am i talking about",
        "\n    correction",
        " scratch that",
        " strike that",
        " i take that back",
        " take that back",
        " that's wrong",
        " that was wrong",
        " that is wrong",
        "\n    i said that wrong",
        " i got that wrong",
        " i misspoke",
        " or rather",
        " make that",
        " i meant",
        " i meant to say",
        " no sorry",
        " sorry no",
        "\n    let me correct",
        " i was wrong",
        " i'm wrong",
        " i mixed that up",
        " i'm mixing that up",
        " that's not right",
        " that isn't right",
        "\n    wrong way round",
        " other way round",
        " i've got that wrong",
        " i have that wrong",
        " i told you wrong",
        " sorry",
        " rubbish",
        " nonsense",
        "\n    not quite right",
        " let me say that again",
        " i'm talking nonsense",
        " what do i say",
        " did i say",
        " forget that",
        " ah wrong",
        "\n    i beg your pardon",
        " excuse me",
        " no hang on",
        " no hold on",
        " hang on",
        " hold on",
    ]
)
_WEAK = tuple(
    tuple(phrase.split())
    for phrase in [
        "no",
        " ah no",
        " oh no",
        " no no",
        " hm no",
        " well no",
        " nah",
        " no but",
        " eh no",
        " er no",
        "\n    actually",
        " rather",
    ]
)
_POINTS = frozenset(
    ("that's", "it's", "that", "it", "those", "these", "they", "this", "they're", "he's", "she's", "there")
)
_IS = frozenset(("is", "are", "was", "were"))
_NEAR = 14
"""So many words lie at most between the correction and the figure that holds."""
_WINDOW = 60
"""So many words lie at most between what is taken back and the correction."""


@dataclass(frozen=True, slots=True)
class TakingBack:
    """In ``cue`` (numbers from 0) something of ``target`` is taken back; ``quantity`` is which of all quantities,
    or None.
    """

    cue: int
    target: int
    quantity: int | None = None
    by: int | None = None
    """The quantity that holds instead."""
    again: int | None = None
    """Where the old one is said once more, to be denied: twelve, *not ten*."""


def takings_back(cues: Sequence[Cue], joined: Joined, found: Sequence[Spoken]) -> list[TakingBack]:
    """All corrections, in order. ``found`` are the quantities of the joined words."""
    words = tokens(joined.text)
    taken: dict[int, TakingBack] = {}
    for i, strong, length in _markers(words):
        here = _of_figures(words, i, length, strong, joined, found) or _of_words(words, i, length, joined, cues)
        if here is not None and here.cue not in taken:
            taken[here.cue] = here
    for one in (*_that_was(joined, found), *_louder(joined, found)):
        taken.setdefault(one.cue, one)
    taken |= {one.cue: one for one in _not_that(joined, found)}
    return [taken[cue] for cue in sorted(taken)]


def _markers(words: list[Token]) -> list[tuple[int, bool, int]]:
    """Where a sentence or a part of one opens with a correction: token, whether it can be nothing else, its length."""
    plain = [(n, word) for n, word in enumerate(words) if word.kind != "end"]
    out = []
    for n, word in plain:
        if (
            n
            and words[n - 1].is_word
            and words[n - 1].text not in ("ah", "oh", "hm", "well", "er", "uh", "and", "but", "so")
        ):
            continue
        for phrases, strong in ((_STRONG, True), (_WEAK, False)):
            length = max((_spans(words, n, phrase) for phrase in phrases), default=0)
            if length:
                out.append((n, strong, length))
                break
        _ = word
    return out


def _spans(words: list[Token], n: int, phrase: tuple[str, ...]) -> int:
    """How many tokens a phrase takes here, with commas within it; 0 where it does not stand here."""
    i = n
    for word in phrase:
        if i > n and words[i].text in (",", ".", "-"):
            i += 1
        if words[i].text != word:
            return 0
        i += 1
    return i - n


def _of_figures(
    words: list[Token], i: int, length: int, strong: bool, joined: Joined, found: Sequence[Spoken]
) -> TakingBack | None:
    """The figure behind (or right before) the correction takes back a like one before it."""
    if (
        not strong
        and words[i + length].text not in (",", ".", "-", "–", "—", "!")
        and words[i + length].kind != "number"
    ):
        return None
    begins, ends = words[i].start, words[i + length - 1].end
    reach = words[min(i + length + _NEAR, len(words) - 1)].start
    stop = len(joined.text) if strong else _sentence_end(joined.text, ends)
    after = [n for n, one in enumerate(found) if ends <= one.start <= min(reach, stop)]
    right_before = [
        n for n, one in enumerate(found) if one.end <= begins and not joined.text[one.end : begins].strip(" ,.-–—")
    ]
    new, again = after[0] if after else None, None
    if (
        new is not None
        and len(after) > 1
        and _is_denied(joined, found, new)
        and found[after[1]].start - found[new].end < 12
    ):
        new, again = after[1], new  # no, not ten, twelve
    if words[i].text == "i" and right_before and not _said_before_only(found, right_before[-1], joined):
        new = right_before[-1]
    if new is None:
        return None
    first = words[max(i - _WINDOW, 0)].start
    for old in range(new - 1, -1, -1):
        one = found[old]
        if one.start < first or (one.end > begins and old not in right_before):
            continue
        if _alike(one, found[new]):
            cue, target = joined.cue_at(found[new].start), joined.cue_at(one.start)
            return None if cue - target > 2 else TakingBack(cue, target, old, new, again)
    return None


def _is_denied(joined: Joined, found: Sequence[Spoken], n: int) -> bool:
    return joined.text[: found[n].start].lower().endswith("not ")


def _sentence_end(text: str, start: int) -> int:
    """Where the sentence ends that goes on here; what stands at once behind the word ``no`` belongs to it."""
    found = [at for mark in (". ", "? ", "! ") if (at := text.find(mark, start + 2)) >= 0]
    return min(found, default=len(text))


def _said_before_only(found: Sequence[Spoken], n: int, joined: Joined) -> bool:
    return n == 0 or joined.cue_at(found[n].start) - joined.cue_at(found[n - 1].start) > 2


def _alike(old: Spoken, new: Spoken) -> bool:
    """Whether one may stand for the other: the same unit or none said, about the same size, and not the same."""
    if (old.low, old.high, old.unit or new.unit, old.form) == (new.low, new.high, new.unit or old.unit, new.form):
        return False
    if old.form != new.form and "value" not in (old.form, new.form):
        return False
    if old.unit and new.unit and old.unit != new.unit:
        scales = ("°C", "°F", "degrees")
        return old.unit in scales and new.unit in scales
    small, large = sorted((abs(old.high or old.low) or 1, abs(new.high or new.low) or 1))
    return large <= 20 * small


def _of_words(words: list[Token], i: int, length: int, joined: Joined, cues: Sequence[Cue]) -> TakingBack | None:
    """``No, that's blue``: it is said of something else than before."""
    cue = joined.cue_at(words[i].start)
    after = i + length
    while words[after].text in (",", ".", "-", "—", "–", "wait", "!"):
        after += 1
    points = words[after].text in _POINTS and (
        "'" in words[after].text or words[after + 1].text in _IS or words[after + 1].text in ("one", "goes", "comes")
    )
    question = "?" in joined.text[max(joined.starts[max(cue - 1, 0)], 0) : words[i].start][-40:]
    if question or not cue or not points or words[after].text in ("they", "there"):
        return None
    other_voice = cues[cue].speaker and cues[cue - 1].speaker and cues[cue].speaker != cues[cue - 1].speaker
    if (
        other_voice
        or words[i + length].text not in (",", ".", "-", "—", "–")
        or (words[i].text in ("actually", "rather"))
    ):
        return None
    here = joined.text[joined.starts[cue] : words[i].start].strip(" .,-–—!")
    return TakingBack(cue, cue if len(here.split()) > 2 else cue - 1)


def _not_that(joined: Joined, found: Sequence[Spoken]) -> list[TakingBack]:
    """``Twelve, not ten``, where ten was said before."""
    out = []
    for n in range(1, len(found)):
        between = joined.text[found[n - 1].end : found[n].start].strip()
        if between.lower().strip(" ,-–—") != "not" or not _alike(found[n - 1], found[n]):
            continue
        old = next((m for m in range(n - 2, -1, -1) if found[m].low == found[n].low), None)
        cue = joined.cue_at(found[n].start)
        if old is not None and cue - joined.cue_at(found[old].start) <= 3:
            out.append(TakingBack(cue, joined.cue_at(found[old].start), old, n - 1, n))
    return out


def _louder(joined: Joined, found: Sequence[Spoken]) -> list[TakingBack]:
    """``Three dabs, four! Four at least``: a second figure called out at once."""
    out = []
    for n in range(1, len(found)):
        old, new = found[n - 1], found[n]
        between = joined.text[old.end : new.start].strip()
        if between in (",", "-", "–", "—", ".") and joined.text[new.end :].startswith("!") and _alike(old, new):
            out.append(TakingBack(joined.cue_at(new.start), joined.cue_at(old.start), n - 1, n))
    return out


def _that_was(joined: Joined, found: Sequence[Spoken]) -> list[TakingBack]:
    """``Hm, four, that was the old bath. Here it's five``: a figure said again, and put elsewhere."""
    out = []
    for n in range(1, len(found)):
        rest = joined.text[found[n].end :].lstrip(" ,").lower()
        old = found[n - 1]
        near = joined.cue_at(found[n].start) - joined.cue_at(old.start) == 1
        opens = joined.text[joined.starts[joined.cue_at(found[n].start)] : found[n].start].lower().strip(" ,.")
        hesitates = opens in ("hm", "hmm", "well", "ah", "oh", "wait", "no", "er", "uh", "mm", "hang on", "now")
        if (
            near
            and hesitates
            and old.low == found[n].low
            and rest.startswith(("that was", "that's", "that is", "it was"))
        ):
            out.append(TakingBack(joined.cue_at(found[n].start), joined.cue_at(old.start), n - 1, None))
    return out
