"""What a figure may ask: the notebook with its references and reckoning, who holds what, and the day."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Protocol

from site_builder.batch.batch import Batch
from site_builder.formulas.errors import Impossible
from site_builder.notebook.index import Index
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.reckoning import Reckoning
from site_builder.notebook.references import References
from site_builder.notebook.route import Route
from site_builder.skills.holders import Holders
from site_builder.skills.readings import ReadingJudge


class FigureInputs(Protocol):
    """A analysis of the notebook, as far as figures need it."""

    @property
    def notebook(self) -> Notebook: ...
    @property
    def index(self) -> Index: ...
    @property
    def references(self) -> References: ...
    @property
    def reckoning(self) -> Reckoning: ...
    @property
    def judge(self) -> ReadingJudge: ...
    @property
    def route(self) -> Route: ...
    @property
    def holders(self) -> Holders: ...
    @property
    def batches(self) -> Mapping[str, tuple[Batch, ...] | Impossible]: ...
    @property
    def today(self) -> date: ...
