"""Amendments that a telling gives rise to: sentences laid aside, opened again, taken up, set against what stands."""

from __future__ import annotations

from collections.abc import Sequence

from site_builder.amend.amendment import Amendment, Change, Plain, TreePath
from site_builder.notebook.told_by import teller_of

_ASIDE = "laid aside"
_OF_ONE_SAYING = ("is", "source", "told", "note", "because")
"""What belongs to one answer; what holds whatever the answer is (`with`, `check`, `below`) stays where it stands."""


def lay_aside(file: str, tree: Plain | None, cues: Sequence[str]) -> Amendment:
    """Nothing in these sentences is to be kept. ``tree`` is what the telling's file says now."""
    was, before = _aside(tree)
    new = [cue for cue in dict.fromkeys(cues) if cue not in before]
    return Amendment("Sentences laid aside", (Change(file, (_ASIDE,), was, [*before, *new]),) if new else ())


def open_again(file: str, tree: Plain | None, cues: Sequence[str]) -> Amendment:
    """These sentences are open again."""
    was, before = _aside(tree)
    left: list[Plain] = [cue for cue in before if cue not in cues]
    if len(left) == len(before):
        return Amendment("Sentences opened again")
    return Amendment("Sentences opened again", (Change(file, (_ASIDE,), was, left or None),))


def _aside(tree: Plain | None) -> tuple[Plain | None, list[Plain]]:
    was = tree.get(_ASIDE) if isinstance(tree, dict) else None
    if was is None or was == "":
        return was, []
    return was, list(was) if isinstance(was, list) else [was]


def told_at(file: str, path: TreePath, was: Plain, told: str, main: str = "") -> Amendment:
    """An entry that is there already was told at this moment too. ``main`` is its main key, for a short form."""
    if isinstance(was, dict):
        before = was.get("told")
        known = before if isinstance(before, list) else [] if before in (None, "") else [str(before)]
        if told in known:
            return Amendment("Where it was told")
        shall: Plain = told if not known else [*known, told]
        return Amendment("Where it was told", (Change(file, (*path, "told"), before, shall),))
    if not isinstance(was, str) or not main:
        raise ValueError("a list was not told at one moment")
    return Amendment("Where it was told", (Change(file, path, was, {main: was, "told": told}),))


def said_otherwise(
    file: str, path: TreePath, was: Plain, value: str, *, who: str, told: str = "", date: str = ""
) -> Amendment:
    """Something else was said than the limit at ``path`` says: both stand there under ``said``, and neither holds.

    Which of them holds becomes a question. Nothing of what was written is lost.
    """
    limit: dict[str, Plain] = dict(was) if isinstance(was, dict) else {"is": was}
    saying: dict[str, Plain] = {"is": value, "who": who}
    saying |= {key: text for key, text in (("date", date), ("told", told)) if text}
    before = limit.pop("said", None)
    sayings: list[Plain] = list(before) if isinstance(before, list) else [] if before is None else [before]
    if limit.get("is") not in (None, "", "ask"):
        sayings.append(_as_saying(limit))
    limit.pop("is", None)
    return Amendment("What was said otherwise", (Change(file, path, was, {"said": [*sayings, saying], **limit}),))


def _as_saying(limit: dict[str, Plain]) -> Plain:
    """What stands there, as one of several answers; who said it, if that is written."""
    own = {key: limit.pop(key) for key in _OF_ONE_SAYING if key in limit}
    source = own.get("source")
    teller, on = teller_of(source) if isinstance(source, str) else ("", "")
    if teller:
        del own["source"]
        dated: dict[str, Plain] = {"date": on} if on else {}
        own = {"is": own.pop("is"), "who": teller, **dated, **own}
    return own
