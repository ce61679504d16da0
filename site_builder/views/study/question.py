"""Questions on one procedure, told away from its page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from hashlib import blake2b

from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import EVERY, NO_WORDS, Only, Prose, capital, capital_text, prose, say, sentence
from site_builder.views.scope import ProcedureScope
from site_builder.views.study.wording import deed, quoted, small, stop

_LONG = 160
"""Of what a step does, more letters than this are cut down to the first sentence."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question to ask oneself, and the answer as the notebook gives it."""

    ask: str
    lines: tuple[Prose, ...] = ()
    items: tuple[Prose, ...] = ()
    ordered: bool = False
    where: Prose = NO_WORDS
    """Where the answer is written."""
    context: str = ""
    """What the step does, to tell two questions of the same words apart."""

    @property
    def key(self) -> str:
        """What a browser remembers it by: another one as soon as the question or its answer changes."""
        told = "\n".join((self.ask, *(" ".join(part.plain.split()) for part in (*self.lines, *self.items, self.where))))
        return blake2b(told.encode("utf-8"), digest_size=5).hexdigest()


class StudyScope(ProcedureScope):
    """Tells of a procedure away from its page."""

    def __init__(self, view: NotebookView, own: Procedure) -> None:
        super().__init__(view, own, apart=True)

    @cached_property
    def title(self) -> str:
        """What the work is called."""
        return self.view.plain(self.own.title)

    @cached_property
    def before_you(self) -> str:
        """``before you grind the sole flat``."""
        return self.when_you.replace("when you", "before you", 1) if self.when_you.startswith("when you") else \
            f"before {quoted(self.title)}"

    @cached_property
    def when_you(self) -> str:
        """``when you grind the sole flat``; ``in “Sole grinding”`` where the title is no instruction."""
        done = deed(self.title, self.view.proper, told_to=True)
        return f"when you {done}" if done is not None else f"in {quoted(self.title)}"

    def does(self, work: Work) -> str:
        """What a step does, or the title of the work, as a sentence in front of a question."""
        if not isinstance(work, Step):
            return stop(self.title)
        if work.do is None:
            return stop(self.view.title("procedure", str(work.use))) if work.use is not None else ""
        told = self.view.plain(work.do)
        return stop(told if len(told) <= _LONG else told.split(". ")[0])

    def asked(
        self, ask: str, lines: Iterable[Prose] = (), items: Iterable[Prose] = (), *, step: Step | None = None,
        only: Only = EVERY, ordered: bool = False,
    ) -> Question:
        """A question on this work, of a step or the whole, perhaps for one variant only."""
        if only.words:
            for_whom = only.words.plain.removeprefix("Only ")
            ask = f"{capital_text(for_whom)}: {small(ask, self.view.proper)}"
        at = self.step_words(step) if step is not None else ""
        shown = say("{}, {}", self.title, at) if at else prose(self.title)
        where = self.view.link("procedure", self.id, shown, self.view.anchor(step) if step is not None else "")
        return Question(" ".join(ask.split()), tuple(line for line in lines if line),
                        tuple(item for item in items if item), ordered, where,
                        self.does(step) if step is not None else "")

    def because(self, work: Work | None = None, *, reasons: Iterable[Prose] = ()) -> tuple[Prose, ...]:
        """Reasons as sentences of their own."""
        told = (*reasons, *(self.words(why) for why in (work.because if work is not None else ())))
        return tuple(capital(sentence(why)) for why in told)
