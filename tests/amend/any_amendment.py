"""Amendments of every kind at any place of a tree, as ``random.Random`` chooses."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random
from typing import NamedTuple

from site_builder.amend import (
    Amendment,
    Change,
    Plain,
    TreePath,
    add_item,
    add_key,
    change,
    join_steps,
    look_up,
    move_item,
    remove,
    remove_file,
    remove_item,
    split_step,
)

TEXTS = (
    "Press lightly.", "12..30 °C", "max 0.1 mm", "ask", "Hold it: not too tight", "first #3, then # 4", '"so" she said',
    "don't", "both \"kinds\" and 'kinds'", "Bürste, groß", "[[true-the-sole]] first", "- a dash", "? asked", "{braces}",
    "a, b; c", "100 %", "%", "* star", "& so on", "ends with a colon:", "012", "no", "1:30", "~", "back\\slash",
    "Two lines\nof words", "A list:\n- one\n- two", "tief in der Nacht – ⅜ Zoll", "e\u0301 composed, or not", "",
    "x" * 130, "The sound of the belt changes when the grease is gone, and whoever has heard it once will not need to "
    "look again, since it comes before the smoke and before the smell: stop then.",
    "A long one without any sign in it that would need to be quoted by anybody who writes it down on one line or on "
    "several of them as the rest of the file may have it",
)
KEYS = ("because", "note", "source", "with", "sense", "age", "a name of ours", "name: odd", "größe", "12", "yes")


class Spot(NamedTuple):
    """A place in a tree and what stands there."""

    file: str
    tree: Plain
    path: TreePath
    was: Plain


def places(tree: Plain, path: TreePath = ()) -> Iterator[tuple[TreePath, Plain]]:
    """Every place of a tree with what stands there, the whole file first."""
    yield path, tree
    if isinstance(tree, dict):
        for key, value in tree.items():
            yield from places(value, (*path, key))
    elif isinstance(tree, list):
        for number, value in enumerate(tree):
            yield from places(value, (*path, number))


def any_node(chance: Random, depth: int = 0) -> Plain:
    """Any text, list or mapping, none of them empty."""
    kind = chance.random()
    if kind < 0.6 or depth > 2:
        return chance.choice(TEXTS)
    if kind < 0.75:
        return [any_node(chance, depth + 1) for _ in range(chance.randint(1, 3))]
    return {key: any_node(chance, depth + 1) for key in chance.sample(KEYS, chance.randint(1, 3))}


def any_amendment(file: str, tree: Plain, chance: Random) -> Amendment:
    """One amendment of a kind that fits somewhere in the tree."""
    everywhere = [one for one in places(tree) if one[0]]
    while True:
        kind = chance.choice(tuple(KINDS))
        for path, was in chance.sample(everywhere, min(len(everywhere), 60)):
            made = KINDS[kind](Spot(file, tree, path, was), chance)
            if made is not None:
                return made


def _text(at: Spot, chance: Random) -> Amendment | None:
    if not isinstance(at.was, str) or len(at.path) < 2:
        return None
    return change("a text", at.file, at.path, at.was, chance.choice(TEXTS))


def _longer(at: Spot, chance: Random) -> Amendment | None:
    if not isinstance(at.was, str) or not at.was or len(at.path) < 2:
        return None
    key = chance.choice(KEYS)
    return add_key("a second key", at.file, at.path, at.was, key, any_node(chance), main="is")


def _shorter(at: Spot, chance: Random) -> Amendment | None:
    texts = [one for one in at.was.values() if isinstance(one, str)] if isinstance(at.was, dict) else []
    return change("short again", at.file, at.path, at.was, chance.choice(texts)) if texts else None


def _more_keys(at: Spot, chance: Random) -> Amendment | None:
    if not isinstance(at.was, dict) or chance.choice(KEYS) in at.was:
        return None
    key = next((one for one in chance.sample(KEYS, len(KEYS)) if one not in at.was), None)
    if key is None:
        return None
    after = chance.choice((None, "", *at.was))
    made = Change(at.file, (*at.path, key), None, any_node(chance), after)
    return Amendment("a key more", (made,))


def _root_key(at: Spot, chance: Random) -> Amendment | None:
    key = chance.choice(KEYS)
    if not isinstance(at.tree, dict) or key in at.tree:
        return None
    return Amendment("a key of the file", (Change(at.file, (key,), None, any_node(chance)),))


def _fewer_keys(at: Spot, _chance: Random) -> Amendment | None:
    around = look_up(at.tree, at.path[:-1])
    if not isinstance(around, dict) or len(around) < 2 or (len(at.path) == 1 and at.path[0] == next(iter(around))):
        return None
    return remove("a key less", at.file, at.path, at.was)


def _more_items(at: Spot, chance: Random) -> Amendment | None:
    if not isinstance(at.was, list):
        return None
    like = chance.choice(at.was) if at.was and chance.random() < 0.5 else any_node(chance)
    return add_item("one more", at.file, at.path, at.was, like, chance.randint(0, len(at.was)))


def _of_one_a_list(at: Spot, chance: Random) -> Amendment | None:
    if isinstance(at.was, list) or len(at.path) < 2 or at.was == "":
        return None
    return add_item("a second one", at.file, at.path, at.was, any_node(chance))


def _fewer_items(at: Spot, chance: Random) -> Amendment | None:
    if not isinstance(at.was, list) or len(at.was) < 2:
        return None
    return remove_item("one less", at.file, at.path, at.was, chance.randrange(len(at.was)))


def _moved(at: Spot, chance: Random) -> Amendment | None:
    if not isinstance(at.was, list) or len(at.was) < 2:
        return None
    return move_item("moved", at.file, at.path, at.was, chance.randrange(len(at.was)), chance.randrange(len(at.was)))


def _split(at: Spot, chance: Random) -> Amendment | None:
    if not isinstance(at.was, list) or at.path[-1] != "steps":
        return None
    number = chance.randrange(len(at.was))
    return split_step("split", at.file, at.path, at.was, number, chance.choice(TEXTS[:7]), TEXTS[8])


def _joined(at: Spot, chance: Random) -> Amendment | None:
    if not isinstance(at.was, list) or at.path[-1] != "steps" or len(at.was) < 2:
        return None
    for number in chance.sample(range(len(at.was) - 1), len(at.was) - 1):
        made = join_steps("joined", at.file, at.path, at.was, number, chance.choice(TEXTS[:7]))
        if isinstance(made, Amendment):
            return made
    return None


def _anything(at: Spot, chance: Random) -> Amendment | None:
    return change("something else", at.file, at.path, at.was, any_node(chance)) if len(at.path) > 1 else None


def _several(at: Spot, chance: Random) -> Amendment | None:
    """Several changes of one at.file in one act, at places that lie apart."""
    texts = [one for one in places(at.tree) if isinstance(one[1], str) and len(one[0]) > 1]
    chosen = chance.sample(texts, min(len(texts), chance.randint(2, 4)))
    return Amendment("several", tuple(Change(at.file, path, old, chance.choice(TEXTS)) for path, old in chosen)) \
        if chosen else None


def _gone(at: Spot, chance: Random) -> Amendment | None:
    return remove_file("gone", at.file, at.tree) if chance.random() < 0.1 else None


KINDS = {
    "text": _text, "longer": _longer, "shorter": _shorter, "more keys": _more_keys, "root key": _root_key,
    "fewer keys": _fewer_keys, "more items": _more_items, "of one a list": _of_one_a_list,
    "fewer items": _fewer_items, "moved": _moved, "split": _split, "joined": _joined, "anything": _anything,
    "several": _several, "gone": _gone,
}
