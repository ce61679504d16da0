"""The hand that writes of one procedure on the page for study: the same words, addressed from there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from hashlib import blake2b

from markupsafe import Markup

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_view import Common, ProcedureView
from site_builder.handbook.pages.procedure_views import EVERY, NO_WORDS, Only
from site_builder.handbook.pages.study_wording import deed, quoted, small, stop
from site_builder.handbook.site import Site
from site_builder.notebook.model.procedure import Procedure, Step, Work

_LONG = 160
"""Of what a step does, more letters than this are cut down to the first sentence."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question to ask oneself, and the answer as the notebook gives it."""

    ask: str
    lines: tuple[Markup, ...] = ()
    items: tuple[Markup, ...] = ()
    ordered: bool = False
    where: Markup = NO_WORDS
    """Where the answer is written."""
    context: str = ""
    """What the step does, to tell two questions of the same words apart."""

    @property
    def key(self) -> str:
        """What a browser remembers it by: another one as soon as the question or its answer changes."""
        told = "\n".join((self.ask, *(str(part.striptags()) for part in (*self.lines, *self.items, self.where))))
        return blake2b(told.encode("utf-8"), digest_size=5).hexdigest()


class StudyScribe(ProcedureView):
    """Writes of ``own`` for the page of ``pen``."""

    def __init__(self, site: Site, own: Procedure, shared: Common, context: PageContext) -> None:
        super().__init__(site, own, shared)
        self.src_uri, self.context = context.src_uri, context
        self.id = str(own.procedure)

    def here(self, anchor: str) -> str:
        """The address of a place on the page of the procedure itself."""
        return self.context.href("procedure", self.id, anchor) or ""

    def route(self, then: str, here: Step | None) -> Markup:
        """As on the page of the procedure; there is no "this step" here."""
        if here is not None and (then == "again" or then == here.id):
            return Markup("do {} again").format(self.step_link(here))
        return super().route(then, here)

    @cached_property
    def title(self) -> str:
        """What the work is called."""
        return self.context.plain(self.own.title)

    @cached_property
    def before_you(self) -> str:
        """``before you grind the sole flat``."""
        return self.when_you.replace("when you", "before you", 1) if self.when_you.startswith("when you") else \
            f"before {quoted(self.title)}"

    @cached_property
    def when_you(self) -> str:
        """``when you grind the sole flat``; ``in “Sole grinding”`` where the title is no instruction."""
        done = deed(self.title, self.common.proper, told_to=True)
        return f"when you {done}" if done is not None else f"in {quoted(self.title)}"

    def does(self, work: Work) -> str:
        """What a step does, or the title of the work, as a sentence in front of a question."""
        if not isinstance(work, Step):
            return stop(self.title)
        if work.do is None:
            return stop(self.context.title("procedure", str(work.use))) if work.use is not None else ""
        told = self.context.plain(work.do)
        return stop(told if len(told) <= _LONG else told.split(". ")[0])

    def asked(
        self, ask: str, lines: Iterable[Markup] = (), items: Iterable[Markup] = (), *, step: Step | None = None,
        only: Only = EVERY, ordered: bool = False,
    ) -> Question:
        """A question on this work, of a step or the whole, perhaps for one variant only."""
        if only.words:
            for_whom = str(only.words.striptags()).removeprefix("Only ")
            ask = f"{for_whom[:1].upper()}{for_whom[1:]}: {small(ask, self.common.proper)}"
        at = self.step_words(step) if step is not None else ""
        shown = Markup("{}, {}").format(self.title, at) if at else Markup("{}").format(self.title)
        where = self.context.link("procedure", self.id, shown, self.book.anchor(step) if step is not None else "")
        return Question(" ".join(ask.split()), tuple(line for line in lines if line),
                        tuple(item for item in items if item), ordered, where,
                        self.does(step) if step is not None else "")

    def because(self, work: Work | None = None, *, reasons: Iterable[Markup] = ()) -> tuple[Markup, ...]:
        """Reasons as sentences of their own."""
        told = (*reasons, *(self.words(why) for why in (work.because if work is not None else ())))
        return tuple(in_words.capital(in_words.sentence(why)) for why in told)


__all__ = ["Question", "StudyScribe"]
