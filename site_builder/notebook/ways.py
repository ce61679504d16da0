"""The ways of a notebook: which choices of variants there are, which of them can hold together, how each is named.

Whatever takes several inputs asks here whether these can be true of one and the same piece: rows of tables, `for` of
an entry and of all it stands in. Two that exclude each other are never taken together.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from itertools import product
from math import prod

from site_builder.notebook.conditions import exclude, figures
from site_builder.notebook.index import Place
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import Variant
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.references import all_steps
from site_builder.notebook.tree import Text

Way = Mapping[str, str]
"""A choice of variants: dimension to value."""

OTHERWISE = "none of these"
"""The value of a dimension of which the notebook names a single value, where it is not that one."""
MOST = 48
"""So many ways of one thing are looked at; of more, something must be chosen first."""


class Ways:
    """The dimensions of a notebook, their values, and the choices that can be made of them."""

    def __init__(self, nb: Notebook) -> None:
        self._values: dict[str, dict[str, None]] = defaultdict(dict)
        found: set[str] = set()
        declared: list[Mapping[Text, Variant]] = [nb.shop.variants] if nb.shop is not None else []
        declared += [own.variants for own in nb.procedures.values()]
        for variants in declared:
            for name, variant in variants.items():
                self._values[str(name)].update(dict.fromkeys(map(str, variant.values)))
        for own in nb.procedures.values():
            for work in (own, *all_steps(own)):
                for name, signs in work.finds.items():
                    found.add(str(name))
                    self._values[str(name)].update(dict.fromkeys(map(str, signs)))
        self.found = frozenset(found)
        """Dimensions that the work itself finds out, piece by piece: nobody chooses them for a whole batch."""

    @property
    def declared(self) -> Mapping[str, tuple[str, ...]]:
        """Every dimension that is declared, with its values."""
        return {name: tuple(values) for name, values in self._values.items()}

    def values_of(self, name: str, conditions: Iterable[Condition]) -> tuple[str, ...]:
        """The values between which these conditions tell: the declared ones, or else those that they name."""
        named = dict.fromkeys(
            str(value) for condition in conditions for choice in condition for value in choice.get(Text(name), ())
        )
        declared = self._values.get(name, {})
        if not declared and len(named) == 1:
            return (*named, OTHERWISE)
        return tuple(dict.fromkeys((*declared, *named)))

    def choices(self, conditions: Iterable[Condition], chosen: Way, *, found: bool) -> tuple[Way, ...] | None:
        """Every choice between these conditions that is still open; one empty choice where none is.

        ``found``: of the dimensions that the work finds out, else of those that are chosen. None where there are
        more than ``MOST``.
        """
        told = [condition for condition in dict.fromkeys(map(_frozen, conditions)) if condition]
        given = [tuple({Text(name): tuple(map(Text, values)) for name, values in choice} for choice in condition)
                 for condition in told]
        names = dict.fromkeys(str(name) for condition in given for choice in condition for name in choice)
        open_ = {name: self.values_of(name, given) for name in names
                 if name not in chosen and (name in self.found) is found}
        if prod(map(len, open_.values())) > MOST:
            return None
        return tuple(dict(zip(open_, values, strict=True)) for values in product(*open_.values()))


def _frozen(condition: Condition) -> tuple[tuple[tuple[str, tuple[str, ...]], ...], ...]:
    return tuple(
        tuple((str(name), tuple(map(str, values))) for name, values in choice.items()) for choice in condition
    )


def as_condition(way: Way) -> Condition:
    """What is chosen, as a `for` would say it."""
    return ({Text(name): (Text(value),) for name, value in way.items()},) if way else ()


def together(*conditions: Condition) -> Condition:
    """All these conditions at once. Of conditions that exclude each other the later counts."""
    found: Condition = ()
    for condition in conditions:
        if not condition or not found:
            found = condition or found
            continue
        joined = [{**a, **b, **_shared(a, b)} for a in found for b in condition if not exclude((a,), (b,))]
        found = tuple(joined or [{**a, **b} for a in found for b in condition])
    return found


def _shared(a: Mapping[Text, tuple[Text, ...]], b: Mapping[Text, tuple[Text, ...]]) -> dict[Text, tuple[Text, ...]]:
    """Of a name that both know the values that keep to both."""
    return {name: tuple(value for value in b[name]
                        if not exclude(({name: a[name]},), ({name: (value,)},))) for name in a if name in b}


def can_hold_together(*conditions: Condition) -> bool:
    """Whether no two of these exclude each other."""
    return not any(exclude(a, b) for number, a in enumerate(conditions) for b in conditions[:number])


def row_of(limit: Limit, rows: Iterable[Text], cell: Limit | None = None) -> Condition:
    """When a cell of a limit holds: its `for`, that of its table, and the row it stands in."""
    read = {by.name: (row,) for by, row in zip(limit.by, rows, strict=False)}
    own = cell.for_ if cell is not None and cell is not limit else ()
    return together(limit.for_, ({**read},) if read else (), own)


def around(place: Place) -> Condition:
    """When an entry holds: its own `for`, the row of a table it is, and all that these stand in."""
    told: list[Condition] = []
    for one in place.up():
        told.append(one.entry.for_)
        outer = one.entry
        if isinstance(outer, Limit) and outer.by and place.rows:
            told.append(row_of(outer.with_changes(for_=()), place.rows))
    return together(*reversed(told))


def in_words(way: Way) -> str:
    """``pattern deck, finish gloss``: a choice as it is told; a value that names itself stands alone."""
    return ", ".join(f"{name} {value}" if value != OTHERWISE else f"{value} as {name}" for name, value in way.items())


def told_condition(condition: Condition) -> str:
    """A condition as it is told: ``pattern deck``, ``pattern deck or harbour``; empty for what always holds."""
    return ", or ".join(
        ", ".join(f"{name} {' or '.join(map(str, values))}" for name, values in choice.items()) for choice in condition
    )


def conditions_of(procedures: Iterable[Procedure]) -> Iterator[Condition]:
    """Every condition on which what these procedures take, lose or leave standing depends."""
    for own in procedures:
        yield own.for_
        for work in (own, *all_steps(own)):
            yield work.for_
            for entry in (*work.time, *work.yield_, *work.keep, *work.materials, *work.tools, *work.hands):
                yield entry.for_
            for limit in (*work.load, *work.wait):
                for rows, cell in limit.cells():
                    yield row_of(limit, rows, cell)


def is_measured(value: str) -> bool:
    """Whether a value of a dimension is a figure, as `10..15 °C`, and no name."""
    return figures(value) is not None
