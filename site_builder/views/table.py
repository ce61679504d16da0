"""Small tables from which a value is read: by a variant, or by something measured."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.notebook.model.limit import Limit, Table, Window
from site_builder.notebook.model.procedure import Step
from site_builder.quantity import spelt
from site_builder.views.blocks import Grid, Row
from site_builder.views.check import by_words, check_lines, grades_in_line
from site_builder.views.limit_in_words import doubts, shifted
from site_builder.views.prose import (
    EVERY,
    NO_WORDS,
    Disputed,
    Only,
    Prose,
    capital,
    capital_text,
    joined,
    listed,
    prose,
    say,
    sentences,
    without_start,
)
from site_builder.views.remedy import exemption, remedies
from site_builder.views.rest import all_but, rest
from site_builder.views.scope import Scope
from site_builder.views.side import sides
from site_builder.views.typeset import typeset
from site_builder.views.value import limit_value, teller

NEITHER = prose("–")
_FEW = 4  # rows that still fit into a sentence


def is_short(limit: Limit) -> bool:
    """Whether a table fits on one line: few rows of plain values, read by one name."""
    if not isinstance(limit.is_, Table) or len(limit.by) != 1 or len(limit.is_.rows) > _FEW:
        return False
    by = limit.by[0]
    if by.model_fields_set - {"name", "at"}:
        return False
    plain = {"is_", "at"}
    return all(isinstance(row, Limit) and row.written is not None and not row.model_fields_set - plain
               for row in limit.is_.rows.values())


def table(scope: Scope, limit: Limit, here: Step | None) -> Grid:
    """Every row with its value and whatever it says besides."""
    assert isinstance(limit.is_, Table)
    names = tuple(str(by.name) for by in limit.by)
    cells = list(limit.is_.cells())
    timed = isinstance(limit, Window) and not all(_is_plain(scope, cell) for _, cell in cells)
    notes = {id(cell): sentences(list(besides(scope, cell, here))) for _, cell in cells}
    has_notes = any(notes.values())
    ends = {id(cell): _ends(scope, cell) for _, cell in cells} if timed else {}
    open_below = timed and all(pair[0] == NEITHER for pair in ends.values())
    ends = {key: pair[1:] for key, pair in ends.items()} if open_below else ends
    columns = [capital_text(typeset(name)) for name in names] or ["For"]
    columns += ["Value"] if not timed else ["Not after"] if open_below else ["Not before", "Not after"]
    columns += ["Besides"] if has_notes else []
    rows = []
    for row_names, cell in cells:
        heads = [_head(scope, name, str(row)) for name, row in zip(names or ("",), row_names, strict=False)]
        values = ends[id(cell)] if timed else [limit_value(scope, cell).inline]
        more = [notes[id(cell)]] if has_notes else []
        rows.append(Row((*heads, *values, *more), _row_only(scope, names, tuple(map(str, row_names)))))
    by = listed(by_words(scope, one) for one in limit.by)
    caption = prose(f"By {by.plain}" if limit.by else "Row by row")  # a caption holds no links
    return Grid(caption=caption, columns=tuple(columns), rows=tuple(rows), tail=_rules(scope, names))


def _is_plain(scope: Scope, cell: Limit) -> bool:
    """Whether a cell names a time and no end of it: ``15 s`` is neither the earliest nor the latest."""
    told = sides(scope, cell.written, scope.place(cell), of_time=True) if cell.written is not None else None
    return told is not None and not told.low and not told.high


def _head(scope: Scope, name: str, row: str) -> Prose:
    if scope.is_variant(name) and name not in scope.dimensions:
        return capital(scope.variant(name, row))
    return prose(spelt(typeset(row)))


def _row_only(scope: Scope, names: tuple[str, ...], rows: tuple[str, ...]) -> Only:
    values = tuple((name, (str(row),)) for name, row in zip(names, rows, strict=False) if scope.is_variant(name))
    return Only(NO_WORDS, values) if values else EVERY


def _ends(scope: Scope, cell: Limit) -> list[Prose]:
    """Earliest and latest in two columns; where it is disputed, only on the side on which they differ."""
    if cell.written is None and cell.said:
        told = [(_pair(scope, said), teller(scope, said, dated=False)) for said in cell.said]
        return [_agreed(cell, [(pair[side], who) for pair, who in told]) for side in (0, 1)]
    return list(_pair(scope, cell))


def _pair(scope: Scope, cell: Limit) -> tuple[Prose, Prose]:
    if cell.written is None:
        return NEITHER, limit_value(scope, cell).inline
    told = sides(scope, cell.written, scope.place(cell), of_time=True)
    if not told.low and not told.high:
        return NEITHER, limit_value(scope, cell).inline
    return without_start(told.low, "Before ") or NEITHER, without_start(told.high, "After ") or NEITHER


def _agreed(cell: Limit, told: list[tuple[Prose, Prose]]) -> Prose:
    if len({value for value, _ in told}) == 1:
        return told[0][0]
    return Prose((Disputed(tuple(told), cell.at),))


def besides(scope: Scope, cell: Limit, here: Step | None, *, told: tuple[str, ...] = ()) -> Iterator[Prose]:
    """What a limit says besides its value; ``told``: `for` and `source` that stand elsewhere already."""
    only = scope.only(cell)
    if only is not EVERY and "for" not in told:
        yield only.words
    if cell.written is not None:
        yield from limit_value(scope, cell).lines
    yield from shifted(scope, cell)
    if cell.below:
        yield say("Below: {}", remedies(scope, cell.below, here))
    if cell.above:
        yield say("Above: {}", remedies(scope, cell.above, here))
    for check in cell.check:
        yield scope.meant(check, joined(check_lines(scope, check, here)))
        yield grades_in_line(scope, check)
        yield rest(scope, check, all_but(check, "pictures"))
    if cell.unless is not None:
        yield exemption(scope, cell.unless)
    yield from doubts(scope, cell)
    yield scope.inline_why(cell)
    yield from scope.tail(cell, told=("because", "is", *told))


def _rules(scope: Scope, names: tuple[str, ...]) -> tuple[Prose, ...]:
    if all(scope.is_variant(name) or name == "place" for name in names):
        return ()
    return (prose("On a shared end, or between two rows, the stricter one holds. Outside the table there is no "
                   "value: stop and ask."),)
