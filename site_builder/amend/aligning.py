"""Which items of an old list are which of a new one: the same, changed, moved, new or gone."""

from __future__ import annotations

import json
from collections import defaultdict
from difflib import SequenceMatcher

from site_builder.amend.amendment import Plain

_ALIKE = 0.2
"""From so much in common on, an item is taken for the changed form of another."""


def aligned(old: list[Plain], new: list[Plain]) -> list[tuple[int | None, int | None]]:
    """Pairs of numbers in the order of the new list: (old, new), (None, new) for a fresh one, (old, None) for one gone.

    An item that stands elsewhere in the new list is gone at its old place and fresh at the new one (``moved``).
    """
    matcher = SequenceMatcher(None, [_token(one) for one in old], [_token(one) for one in new], autojunk=False)
    out: list[tuple[int | None, int | None]] = []
    for kind, a, b, c, d in matcher.get_opcodes():
        if kind == "equal":
            out += zip(range(a, b), range(c, d), strict=True)
        else:
            out += _within(old, new, range(a, b), range(c, d))
    return out


def moved(old: list[Plain], new: list[Plain], pairs: list[tuple[int | None, int | None]]) -> dict[int, int]:
    """Of fresh items the old ones that they were word by word: number in the new list to number in the old one."""
    gone: dict[str, list[int]] = defaultdict(list)
    for before, after in pairs:
        if after is None and before is not None:
            gone[_token(old[before])].append(before)
    found: dict[int, int] = {}
    for before, after in pairs:
        if before is None and after is not None and gone.get(_token(new[after])):
            found[after] = gone[_token(new[after])].pop(0)
    return found


def _within(old: list[Plain], new: list[Plain], gone: range, fresh: range) -> list[tuple[int | None, int | None]]:
    """Changed items between equal ones, by likeness and in order."""
    if len(gone) == 1 and len(fresh) == 1:
        return [(gone[0], fresh[0])]
    best: dict[tuple[int, int], tuple[float, list[tuple[int, int]]]] = {}

    def run(i: int, j: int) -> tuple[float, list[tuple[int, int]]]:
        if i >= gone.stop or j >= fresh.stop:
            return 0.0, []
        if (i, j) not in best:
            found = max(run(i + 1, j), run(i, j + 1), key=lambda one: one[0])
            like = _likeness(old[i], new[j])
            if like > _ALIKE:
                rest = run(i + 1, j + 1)
                if like + rest[0] >= found[0]:
                    found = (like + rest[0], [(i, j), *rest[1]])
            best[i, j] = found
        return best[i, j]

    paired = run(gone.start, fresh.start)[1] if len(gone) * len(fresh) <= 2500 else []
    out: list[tuple[int | None, int | None]] = []
    i, j = gone.start, fresh.start
    for a, b in [*paired, (gone.stop, fresh.stop)]:
        out += [(n, None) for n in range(i, a)] + [(None, n) for n in range(j, b)]
        if a < gone.stop and b < fresh.stop:
            out.append((a, b))
        i, j = a + 1, b + 1
    return out


def _likeness(a: Plain, b: Plain) -> float:
    """From 0 to 1, how likely one is the other after a change; a little more where an id is the same."""
    if isinstance(a, str) and isinstance(b, str):
        one, other = set(a.split()), set(b.split())
        return len(one & other) / max(len(one | other), 1)
    if isinstance(a, dict) and isinstance(b, dict):
        if "id" in a and "id" in b:
            return 1.5 if a["id"] == b["id"] else 0.0
        same = sum(1.0 if a[key] == b[key] else 0.3 for key in a if key in b)
        return same / max(len(a.keys() | b.keys()), 1)
    if isinstance(a, str) and isinstance(b, dict):
        return float(a in b.values())
    if isinstance(a, dict) and isinstance(b, str):
        return float(b in a.values())
    return float(isinstance(a, list) and isinstance(b, list)) / 2


def _token(node: Plain) -> str:
    return json.dumps(node, sort_keys=True)
