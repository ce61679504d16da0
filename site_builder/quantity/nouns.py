"""Nouns one counts in, and their plurals."""

from __future__ import annotations

COMMON = frozenset((
    "piece", "pass", "stroke", "coat", "shift", "belt", "time", "load", "lot", "batch", "spot", "cycle",
    "turn", "dip", "layer", "order", "reading", "sample", "hole", "screw", "plate", "sheet", "ingot",
    "casting", "box", "bottle", "tin", "can", "cup", "spoon", "wheel", "brush", "disc", "cloth", "drop",
    "blow", "tap", "melt", "pour", "shot", "person", "hand", "step", "lap", "swing", "lift", "bolt",
))  # fmt: skip
"""Known without being written under ``words``."""

_IRREGULAR = {
    "person": "people",
    "man": "men",
    "woman": "women",
    "tooth": "teeth",
    "knife": "knives",
    "leaf": "leaves",
    "half": "halves",
    "loaf": "loaves",
    "shelf": "shelves",
    "mouse": "mice",
    "die": "dies",
    "foot": "feet",
    "goose": "geese",
    "ox": "oxen",
    "child": "children",
    "calf": "calves",
    "wolf": "wolves",
    **{same: same for same in ("sheep", "fish", "dozen", "gross", "score", "hundredweight", "deer", "salmon")},
}
_SIBILANTS = ("s", "x", "z", "ch", "sh")


# Ending in s and yet one: `gas`, `lens`, `process`, `status`, `basis`.
_ONE_IN_S = ("ss", "us", "is")
_ONE = frozenset(("gas", "lens", "bias", "canvas", "atlas", "iris", "brass", "glass", "grass"))


def is_plural(noun: str) -> bool:
    """Whether a noun, or the last of several words, stands for several (``edges``, ``tools``, ``feet``)."""
    last = noun.rpartition(" ")[2]
    if last in _IRREGULAR.values():
        return last not in _IRREGULAR
    return last.endswith("s") and not last.endswith(_ONE_IN_S) and last not in _ONE


def plural(noun: str) -> str:
    """The plural of a noun; of several words the last changes (``test piece``, ``test pieces``)."""
    head, blank, last = noun.rpartition(" ")
    if last in _IRREGULAR:
        many = _IRREGULAR[last]
    elif last.endswith(_SIBILANTS):
        many = last + "es"
    elif last.endswith("y") and last[-2:-1] not in set("aeiou"):
        many = last[:-1] + "ies"
    else:
        many = last + "s"
    return head + blank + many
