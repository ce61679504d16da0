"""Many known words, made ready once, so that a misspelt one need not be held against each of them.

Up to ``SMALL`` words all are candidates. Of more, only those that share the rarest pairs of neighbouring letters with
the misspelt word are looked at, ``CLOSE`` at the most: a nearest word may be missed, and none is told then.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from difflib import SequenceMatcher, get_close_matches
from functools import cached_property, lru_cache

from site_builder.notebook.slips import least_slips, letters, plain, slips

SMALL = 400
"""So many known words are looked through one by one."""
CLOSE = 60
"""So many of a larger number are looked at closely."""
_GATHERED = 2000
"""When so many words were met that share a pair of letters, no more are gathered."""
_ALIKE = 0.7
_LONGEST = 80
"""A longer text is a sentence, not a misspelt word."""


class Vocabulary:
    """Known words, of which a misspelt one may mean one."""

    def __init__(self, words: Iterable[str]) -> None:
        self._by_plain: dict[str, str] = {}
        for one in dict.fromkeys(map(str, words)):
            self._by_plain.setdefault(plain(one), one)
        self._few = [(one, letters(one)) for one in self._by_plain] if len(self._by_plain) <= SMALL else []

    def slip_of(self, word: str) -> str:
        """The known word of which this one is no more than a slip of a letter or two; empty where there is none."""
        if not word or len(word) > _LONGEST:
            return ""
        wanted = plain(word)
        if wanted in self._by_plain:
            return self._by_plain[wanted]
        near = [one for one, _ in self._close(wanted) if _near_enough(wanted, one)]
        return self._by_plain[min(near, key=lambda one: _order(wanted, one))] if near else ""

    def nearest(self, word: str) -> str:
        """The known word that was meant; empty where none comes near enough to be told."""
        slip = self.slip_of(word)
        if slip or not word or len(word) > _LONGEST:
            return slip
        wanted = plain(word)
        longer = self.longer(wanted)
        if len(longer) == 1:
            return longer[0]
        alike = get_close_matches(wanted, [one for one, most in self._close(wanted) if most >= _ALIKE], 1, _ALIKE)
        return self._by_plain[alike[0]] if alike else ""

    def like(self, word: str) -> list[str]:
        """The known words that can be near, for whoever judges for himself how near."""
        return [self._by_plain[one] for one, _ in self._close(plain(word))] if len(word) <= _LONGEST else []

    def longer(self, word: str) -> list[str]:
        """The known words that begin or end with this one and a stroke; three at the most."""
        return [self._by_plain[one] for one in self._longer.get(word, ())]

    def _close(self, wanted: str) -> Iterator[tuple[str, float]]:
        """The words that can be near, each with the greatest share of letters that it can have in common."""
        had = letters(wanted)
        for one, has in self._few or [(one, letters(one)) for one in self._gathered(wanted)]:
            apart = least_slips(had, has)
            total = len(one) + len(wanted)
            alike = min(len(wanted) - (had & ~has).bit_count(), len(one) - (has & ~had).bit_count())
            most = 2 * alike / total if total else 1.0
            if most >= _ALIKE or (apart <= 3 and abs(len(one) - len(wanted)) <= 3):
                yield one, most

    def _gathered(self, wanted: str) -> list[str]:
        """Of many words those that share most pairs of letters with this one, the rarest pairs first."""
        shared: Counter[str] = Counter()
        met = 0
        for words in sorted((self._by_pair[pair] for pair in _pairs(wanted) if pair in self._by_pair), key=len):
            if shared and met + len(words) > _GATHERED:
                break
            part = words[:_GATHERED]
            shared.update(part)
            met += len(part)
        return [one for one, _ in shared.most_common(CLOSE)]

    @cached_property
    def _by_pair(self) -> Mapping[str, list[str]]:
        found: dict[str, list[str]] = defaultdict(list)
        for one in self._by_plain:
            if len(one) <= 2 * _LONGEST:
                for pair in _pairs(one):
                    found[pair].append(one)
        return dict(found)

    @cached_property
    def _longer(self) -> Mapping[str, list[str]]:
        """By its first or last words, between strokes, what goes on from there."""
        found: dict[str, list[str]] = defaultdict(list)
        for one in self._by_plain:
            if len(one) <= 2 * _LONGEST:
                at = [at for at, letter in enumerate(one) if letter == "-"]
                for part in dict.fromkeys((*(one[:cut] for cut in at), *(one[cut + 1 :] for cut in at))):
                    if len(found[part]) < 3:
                        found[part].append(one)
        return dict(found)


class Titled:
    """Ids and what the things or people are called."""

    def __init__(self, titles: Mapping[str, str]) -> None:
        self._ids = Vocabulary(titles)
        self._titles = Vocabulary(titles.values())
        self._by_title = {title: id_ for id_, title in reversed([*titles.items()])}
        self._called = (_only((plain(title), id_) for id_, title in titles.items()),
                        _only((plain([*title.split(), ""][0]), id_) for id_, title in titles.items()))

    def nearest(self, word: str) -> str:
        """The id that was meant by an id with a slip in it, or by the title (of a person also the first name)."""
        wanted = plain(word)
        for called in self._called:
            if wanted in called:
                return called[wanted]
        near = self._ids.nearest(word)
        if near:
            return near
        title = self._titles.slip_of(word)
        return self._by_title[title] if title else ""


@lru_cache(maxsize=256)
def vocabulary(words: tuple[str, ...]) -> Vocabulary:
    """The same words are made ready once."""
    return Vocabulary(words)


def _only(called: Iterable[tuple[str, str]]) -> Mapping[str, str]:
    """The id of each name that one alone bears."""
    found: dict[str, list[str]] = defaultdict(list)
    for name, id_ in called:
        found[name].append(id_)
    return {name: ids[0] for name, ids in found.items() if len(ids) == 1}


def _pairs(word: str) -> set[str]:
    """The pairs of neighbouring letters; where the word begins and ends counts as a letter."""
    whole = f"^{word}$"
    return {whole[at : at + 2] for at in range(len(whole) - 1)}


def _near_enough(word: str, known: str) -> bool:
    if abs(len(word) - len(known)) > 3:
        return False
    count, length = slips(word, known), min(len(word), len(known))
    if length < 3:
        return count == 1 and sorted(word) == sorted(known)
    return count <= (1 if length < 5 else 2 if length < 9 else 3)


def _order(word: str, known: str) -> tuple[int, bool, bool, float, str]:
    """What comes first: the fewest slips, the same letters, the same beginning."""
    return (slips(word, known), sorted(word) != sorted(known), word[:1] != known[:1],
            -SequenceMatcher(None, word, known).ratio(), known)
