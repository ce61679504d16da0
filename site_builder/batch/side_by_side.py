"""The ways in which a batch can be made, reckoned side by side and never added up."""

from __future__ import annotations

from site_builder.batch.batch import Batch, Wanted, reckon_each_way
from site_builder.batch.used_up import used_up
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.reckoning import Reckoning
from site_builder.notebook.route import Route


def side_by_side(nb: Notebook, route: Route, reckoning: Reckoning, wanted: Wanted) -> tuple[Batch, ...]:
    """One batch for each way that comes to something else in pieces, hours, parts or materials.

    Raises ``Impossible`` as ``reckon_batch``, and ``Undecided`` only where there are too many ways to look at.
    """
    return reckon_each_way(
        nb, route, reckoning, wanted,
        lambda batch: (batch.parts, batch.bought, batch.made_beside, used_up(nb, reckoning, batch)),
    )
