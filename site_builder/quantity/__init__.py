"""Quantities: the notation in which a shop writes numbers, rhythms, moments and dates.

``parse_value`` and its like turn a text into frozen parts (``value``, ``cadence``), ``show_value`` and its
like turn them back into canonical text, ``for_people`` into what a page prints, ``bounds`` into numbers.
Everything here is pure, and every text that cannot be read raises ``NotationError``.
"""

from site_builder.quantity.bounds import Bounds, bounds
from site_builder.quantity.errors import Code, NotationError
from site_builder.quantity.measure import (
    base_amount,
    kind_of,
    quantity_in,
    references,
    same_kind,
    unit_of,
    unit_of_value,
)
from site_builder.quantity.parse import parse_value
from site_builder.quantity.show import show_value
from site_builder.quantity.signs import had_phone_signs
from site_builder.quantity.units import COUNT, Unit, find_unit
from site_builder.quantity.value import (
    Ask,
    Choice,
    Clause,
    Computed,
    Deviation,
    Expression,
    Fit,
    Judged,
    Limits,
    Measure,
    Number,
    Per,
    Quantity,
    Range,
    Reference,
    Same,
    Scaled,
    Some,
    Sweep,
    Term,
    Toleranced,
    Value,
    What,
    Word,
)
