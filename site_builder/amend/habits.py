"""How this file is written: how far lists and keys stand in, how long its lines are, how braces stand."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from site_builder.amend.placed import Leaf, Mapped, Placed

WIDTH = 120
"""So long a line may become before what stands on it is broken, unless the file has longer ones."""
NARROW = 80
"""Folded texts are broken here where the file shows no other width."""


@dataclass(frozen=True, slots=True)
class Habits:
    """What a hand that goes on in this file would keep to."""

    step: int = 2
    """A key below a key stands so much further in."""
    dash: int = 2
    """The dashes of a list below a key stand so much further in than the key."""
    inside: str = ""
    """What stands between a brace and what is within it."""
    width: int = WIDTH
    folds: str = ""
    """How long texts are broken: ``>`` behind a sign, ``plain`` without one, empty: not at all."""
    fold_at: int = NARROW


def habits_of(text: str, top: Placed | None) -> Habits:
    """The habits of a file, the commonest way first; where it shows none, those of this house."""
    steps: Counter[int] = Counter()
    dashes: Counter[int] = Counter()
    insides: Counter[str] = Counter()
    folds: Counter[str] = Counter()
    broken: list[int] = []

    def column(at: int) -> int:
        return at - (text.rfind("\n", 0, at) + 1)

    def look(node: Placed, key: int | None) -> None:
        if isinstance(node, Leaf):
            piece = text[node.start : node.end]
            if "\n" in piece and node.style in (">", ""):
                folds[node.style or "plain"] += 1
                lines = piece.split("\n")[1 if node.style else 0 : -1]
                if lines:
                    broken.append(max(map(len, lines)) + (0 if node.style else column(node.start)))
            return
        if node.flow:
            if node.end - node.start > 2:
                insides[" " if text[node.start + 1] == " " else ""] += 1
        elif key is not None:
            (steps if isinstance(node, Mapped) else dashes)[column(node.start) - key] += 1
        if isinstance(node, Mapped):
            for pair in node.pairs:
                look(pair.value, column(pair.key.start))
        else:
            for one in node.items:
                look(one, None)

    if top is not None:
        look(top, None)
    longest = max(map(len, text.split("\n")), default=0)
    step = next((n for n, _ in steps.most_common() if n > 0), 2)
    fold = folds.most_common(1)[0][0] if folds else ""
    return Habits(
        step=step, dash=next((n for n, _ in dashes.most_common() if n >= 0), 2),
        inside=insides.most_common(1)[0][0] if insides else "", width=max(longest, WIDTH), folds=fold,
        fold_at=max(max(broken, default=0), 40) if fold else NARROW,
    )


