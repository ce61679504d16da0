"""The kinds of mistakes, one table a class."""

from __future__ import annotations

from collections.abc import Mapping

from tests.mistakes.kind import Kind
from tests.mistakes.tables import (
    against,
    beyond,
    figures,
    keys,
    layout,
    leads,
    missing,
    names,
    twice,
    values,
    words,
)

CLASSES: Mapping[str, tuple[Kind, ...]] = {
    "written twice": twice.KINDS,
    "left out, or not together": missing.KINDS,
    "leads nowhere": leads.KINDS,
    "a word of a list": words.KINDS,
    "a key": keys.KINDS,
    "a name of a value": names.KINDS,
    "how a value is written": values.KINDS,
    "a figure that cannot be": figures.KINDS,
    "one thing against another": against.KINDS,
    "the layout of the file": layout.KINDS,
    "beyond the notebook": beyond.KINDS,
}
"""All kinds by class."""
