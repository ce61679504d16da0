"""What kind of file was meant by a first key that is none."""

from __future__ import annotations

from collections.abc import Mapping

from site_builder.notebook.model.entry import Entry, keys_of
from site_builder.notebook.nearest import slip_of
from site_builder.notebook.tree import Map

_ALSO = {"tool": "hand-tool", "hand tool": "hand-tool", "person": "people", "persons": "people", "signoff": "sign-off"}


def meant_kind(tree: Map, kinds: Mapping[str, type[Entry]], stem: str) -> str:
    """What to do with a file, called ``stem``, that begins with a key of no kind.

    Its first key misspelt; else the kind whose keys these are, which may stand further down or be missing.
    """
    first = str(next(iter(tree)))
    slip = slip_of(first, kinds) or _ALSO.get(first.lower(), "")
    if slip:
        return f"Did you mean `{slip}`?"
    fits = {kind: sum(key in keys_of(model) for key in tree) for kind, model in kinds.items()}
    best = max(fits.values(), default=0)
    likely = [kind for kind, count in fits.items() if count == best and count > 0]
    late = next((kind for kind in likely if kind in tree), None)
    if late is not None:
        return f"Put `{late}:` first, so that the file explains itself."
    one_of = f"one of: {', '.join(kinds)}"
    if len(likely) == 1:
        return f"Begin with a line `{likely[0]}: {stem}`, if that is what it is; a file begins with {one_of}."
    return f"Begin with what this is, {one_of}."
