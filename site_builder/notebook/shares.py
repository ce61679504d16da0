"""Amounts that are shares of another material of the same work: ``1/8 of flour``."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import MaterialUse
from site_builder.notebook.names import NamedValue
from site_builder.notebook.notebook import Notebook
from site_builder.quantity.portion import share_in_figures, share_named
from site_builder.quantity.value import Value


def amounts_named(nb: Notebook, own: Procedure) -> Iterator[NamedValue]:
    """The amounts of what goes into a work, each by the id of its material and by its title in small letters."""
    for work in (own, *own.every_step):
        for use in work.materials:
            if use.amount is not None:
                for name in _names(nb, use):
                    yield NamedValue(name, "amount", (), "procedure", str(own.procedure), own, None, use.amount)


def amount_in_figures(nb: Notebook, own: Procedure, use: MaterialUse) -> Value | None:
    """The amount as written; a share worked out, None where what it is a share of is not told or leads in a circle."""
    return _figures(nb, own, use, ())


def _figures(nb: Notebook, own: Procedure, use: MaterialUse, open_: tuple[str, ...]) -> Value | None:
    if use.amount is None:
        return None
    value = use.amount.value
    name = share_named(value)
    if name is None:
        return value
    wholes = [one for work in (own, *own.every_step) for one in work.materials
              if name in _names(nb, one) and one.amount is not None and (not one.for_ or one.for_ == use.for_)]
    if name in open_ or len(wholes) != 1:
        return None
    whole = _figures(nb, own, wholes[0], (*open_, name))
    return share_in_figures(value, whole) if whole is not None else None


def _names(nb: Notebook, use: MaterialUse) -> tuple[str, ...]:
    id_ = str(use.material)
    titles = (str(nb.materials[id_].title).casefold(),) if id_ in nb.materials else ()
    return tuple(dict.fromkeys((id_, id_.replace("-", " "), *titles)))
