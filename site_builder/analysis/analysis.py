"""Everything a rule or a page may ask about a notebook, worked out once and only when asked."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import TypeVar, cast

from site_builder.batch.batch import Batch
from site_builder.figures.batch_orders import batches_of
from site_builder.figures.everything import Everything, everything_of
from site_builder.figures.figure import Fault, Figure, Missing
from site_builder.formulas.errors import Impossible
from site_builder.notebook.finding import Finding
from site_builder.notebook.index import Index, build_index
from site_builder.notebook.load import load
from site_builder.notebook.moments import Coverage, ToldEntry, coverage, told_entries
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.pictured import Pictured, pictured
from site_builder.notebook.reckoning import Reckoning
from site_builder.notebook.references import References
from site_builder.notebook.route import Route, build_route
from site_builder.notebook.told import Told, what_is_told
from site_builder.pictures.look import look_into
from site_builder.skills.book import BOOK_FILES
from site_builder.skills.holders import Holders
from site_builder.skills.law import Law
from site_builder.skills.readings import ReadingJudge
from site_builder.skills.verdict import Verdict, keys_of, verdict

T = TypeVar("T")


class Analysis:
    """A notebook with its index, references, route and holders, as of ``today``."""

    def __init__(self, notebook: Notebook, findings: list[Finding], today: date) -> None:
        self.notebook = notebook
        self.reading = findings
        """What the reader found while loading."""
        self.today = today
        self._once: dict[Hashable, object] = {}

    def once(self, what: Hashable, make: Callable[[], T]) -> T:
        """What ``make`` finds, for a rule that needs it again and again; found once and kept under this name."""
        if what not in self._once:
            self._once[what] = make()
        return cast(T, self._once[what])

    @cached_property
    def index(self) -> Index:
        return build_index(self.notebook)

    @cached_property
    def references(self) -> References:
        return References(self.index)

    @cached_property
    def pictures(self) -> tuple[Pictured, ...]:
        """Every picture of the notebook and its stories, each file looked into once."""
        return tuple(pictured(self.index, look_into))

    @cached_property
    def told(self) -> Mapping[str, Told]:
        """What each procedure tells, so that what it does not can be asked."""
        return what_is_told(self.index, self.references)

    @cached_property
    def told_entries(self) -> tuple[ToldEntry, ...]:
        """Every entry that says at which moment of a telling it was told."""
        return told_entries(self.index)

    @cached_property
    def coverage(self) -> Mapping[str, Coverage]:
        """Of each telling with a transcript, how far it is taken up."""
        return coverage(self.notebook, self.told_entries)

    @cached_property
    def reckoning(self) -> Reckoning:
        return Reckoning(self.references)

    @cached_property
    def judge(self) -> ReadingJudge:
        """Whether readings keep what they were measured against."""
        return ReadingJudge(self.reckoning)

    @cached_property
    def batches(self) -> Mapping[str, tuple[Batch, ...] | Impossible]:
        """What each order takes, or what it says that cannot be."""
        return batches_of(self)

    @cached_property
    def _everything(self) -> Everything:
        return everything_of(self)

    @property
    def figures(self) -> Mapping[tuple[str, str], tuple[Figure | Missing, ...]]:
        """What the trade's arithmetic tells, by the thing it is about."""
        return self._everything.figures

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Figures that nothing can have, met by the trade's arithmetic."""
        return self._everything.faults

    @cached_property
    def route(self) -> Route:
        return build_route(self.references)

    @cached_property
    def holders(self) -> Holders:
        return Holders(self.law, self.today)

    @cached_property
    def law(self) -> Law:
        """The book of sign-offs held against the law."""
        return Law(self.judge, self.today)

    @cached_property
    def verdicts(self) -> Mapping[str, Verdict]:
        """Of each book that there is, whether it is as it was written."""
        keys = keys_of(self.notebook)
        found = (verdict(self.notebook.root, kind, keys) for kind in BOOK_FILES)
        return {one.kind: one for one in found if one is not None}


def analysis(root: Path, today: date) -> Analysis:
    """Load the notebook in ``root`` and make it ready for questions."""
    loaded = load(root)
    return Analysis(loaded.notebook, loaded.findings, today)
