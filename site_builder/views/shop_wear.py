"""What to wear for which work: by the work, and by the piece of protection."""

from __future__ import annotations

from site_builder.views.blocks import Grid
from site_builder.views.end import worn_when
from site_builder.views.prose import Prose, joined
from site_builder.views.scope import scope_of
from site_builder.views.thing import table_of
from site_builder.views.uses import Uses
from site_builder.views.wear import worn_by_work


def wear_ledger(uses: Uses) -> Grid | None:
    """A row for each way of being protected, with all the work it is for."""
    procedures = uses.view.notebook.procedures
    rows = worn_by_work(uses.view, (procedures[id_] for id_, worn in uses.worn_for.items() if worn))
    return table_of("By the work", ("Work", "Wear"), rows)


def unprotected(uses: Uses) -> list[Prose]:
    """Work for which nobody has written anything to wear."""
    return [uses.view.link("procedure", id_) for id_, worn in uses.worn_for.items() if not worn]


def kinds_ledger(uses: Uses) -> Grid | None:
    """A row for each piece of protection: which work, how it is looked at, when it is changed."""
    rows = []
    for id_, tool in uses.view.notebook.protection.items():
        scope = scope_of(uses.view, tool)
        looked = joined(scope.words(check.good) for check in tool.checks if check.good)
        changed = joined(worn_when(scope, end) for end in tool.life)
        rows.append((uses.view.link("tool", id_), uses.in_short("tool", id_, most=4), looked, changed))
    return table_of("By what is worn", ("What", "For", "Check first", "Change it when"), rows)
