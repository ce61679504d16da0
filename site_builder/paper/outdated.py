"""Which of the cards on the wall no longer hold, by the codes in their feet."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from site_builder.analysis.analysis import Analysis
from site_builder.paper.cards import card_code
from site_builder.skills.code_letters import PART, CodeProblem, digest, letters_of
from site_builder.views.notebook_view import NotebookView, System

_CODE = re.compile(r"\b[A-Za-z2-9]{3}[-–][A-Za-z2-9]{3}[-–][A-Za-z2-9]{3}\b")


@dataclass(frozen=True, slots=True)
class OnTheWall:
    """A card by its code: ``procedure`` is empty where no work has such a card; ``now`` is the code it has today."""

    code: str
    procedure: str
    title: str
    now: str
    problem: str = ""

    @property
    def holds(self) -> bool:
        """Whether it says what the notebook says today."""
        return bool(self.now) and self.now == self.code


def codes_in(text: str) -> tuple[str, ...]:
    """The codes of a list of what hangs on the wall, whatever stands beside them."""
    return tuple(dict.fromkeys(found[0] for found in _CODE.finditer(text)))


def looked_over(analysis: Analysis, codes: Iterable[str], system: System = "both") -> Iterator[OnTheWall]:
    """What each card is of, and what its code would be today."""
    view = NotebookView(analysis, system)
    known = {digest(("card", id_)): id_ for id_ in analysis.notebook.procedures}
    for code in codes:
        try:
            letters = letters_of(code)
        except CodeProblem as problem:
            yield OnTheWall(code, "", "", "", str(problem))
            continue
        told = "-".join(letters[at : at + 3] for at in range(0, len(letters), 3))
        id_ = known.get(letters[:PART])
        if id_ is None:
            yield OnTheWall(told, "", "", "", "No procedure of this notebook has this card: it is of another shop, or "
                            "the procedure was taken out or given another id. Take the card down.")
        else:
            yield OnTheWall(told, id_, view.title("procedure", id_), card_code(view, id_))
