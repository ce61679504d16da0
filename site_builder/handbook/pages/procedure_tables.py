"""Small tables from which a value is read: by a variant, or by something measured."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup, escape

from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_checks import by_words, check_lines
from site_builder.handbook.pages.procedure_remedies import exemption, remedies
from site_builder.handbook.pages.procedure_sides import sides
from site_builder.handbook.pages.procedure_signs import doubts, shifted
from site_builder.handbook.pages.procedure_values import limit_worth
from site_builder.handbook.pages.procedure_view import ProcedureView, meant, parts
from site_builder.handbook.pages.procedure_views import EVERY, Grid, Only, Row
from site_builder.handbook.text import typeset
from site_builder.notebook.model.limit import Limit, Saying, Table, Window
from site_builder.notebook.model.procedure import Step

NEITHER = Markup("–")
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


def short_table(view: ProcedureView, limit: Limit) -> Markup:
    """``about 2 s for the harbour pattern, about 1 s for the deck pattern``."""
    name = str(limit.by[0].name)
    told = []
    assert isinstance(limit.is_, Table)
    for names, cell in limit.is_.cells():
        only = _row_only(view, (name,), names)
        for_whom = view.variant(name, str(names[0]))
        words = filled("{} for {}", limit_worth(view, cell).inline, for_whom)
        told.append(meant(Only(Markup(""), only.values), words) if only.values else words)
    return Markup("; ").join(told)


def table(view: ProcedureView, limit: Limit, here: Step | None) -> Grid:
    """Every row with its value and whatever it says besides."""
    assert isinstance(limit.is_, Table)
    names = tuple(str(by.name) for by in limit.by)
    cells = list(limit.is_.cells())
    timed = isinstance(limit, Window)
    notes = {id(cell): in_words.joined_sentences(list(_notes(view, cell, here))) for _, cell in cells}
    has_notes = any(notes.values())
    ends = {id(cell): _ends(view, cell) for _, cell in cells} if timed else {}
    open_below = timed and all(pair[0] == NEITHER for pair in ends.values())
    ends = {key: pair[1:] for key, pair in ends.items()} if open_below else ends
    columns = [str(in_words.capital(typeset(name))) for name in names] or ["For"]
    columns += ["Value"] if not timed else ["Not after"] if open_below else ["Not before", "Not after"]
    columns += ["Besides"] if has_notes else []
    rows = []
    for row_names, cell in cells:
        heads = [_head(view, name, str(row)) for name, row in zip(names or ("",), row_names, strict=False)]
        values = ends[id(cell)] if timed else [limit_worth(view, cell).inline]
        besides = [notes[id(cell)]] if has_notes else []
        rows.append(Row((*heads, *values, *besides), _row_only(view, names, tuple(map(str, row_names)))))
    by = in_words.listed(by_words(view, one) for one in limit.by)
    caption = escape(f"By {by.striptags()}") if limit.by else Markup("Row by row")  # a caption holds no links
    return Grid(caption=caption, columns=tuple(columns), rows=tuple(rows), tail=_rules(view, names))


def _head(view: ProcedureView, name: str, row: str) -> Markup:
    if view.is_variant(name) and name not in view.dimensions:
        return in_words.capital(view.variant(name, row))
    return escape(in_words.spelt(typeset(row)))


def _row_only(view: ProcedureView, names: tuple[str, ...], rows: tuple[str, ...]) -> Only:
    values = {name: (str(row),) for name, row in zip(names, rows, strict=False) if view.is_variant(name)}
    return Only(Markup(""), values) if values else EVERY


def _ends(view: ProcedureView, cell: Limit) -> list[Markup]:
    """Earliest and latest in two columns; where it is disputed, only on the side on which they differ."""
    if cell.written is None and cell.said:
        told = [(_pair(view, said), _teller(view, said)) for said in cell.said]
        return [_agreed(view, cell, [(pair[side], who) for pair, who in told]) for side in (0, 1)]
    return list(_pair(view, cell))


def _pair(view: ProcedureView, cell: Limit) -> tuple[Markup, Markup]:
    if cell.written is None:
        return NEITHER, limit_worth(view, cell).inline
    told = sides(view, cell.written, view.place(cell), of_time=True)
    if not told.low and not told.high:
        return NEITHER, limit_worth(view, cell).inline
    low = Markup(told.low.removeprefix("Before "))
    high = Markup(told.high.removeprefix("After ").removeprefix("Later than "))
    return low or NEITHER, high or NEITHER


def _agreed(view: ProcedureView, cell: Limit, told: list[tuple[Markup, Markup]]) -> Markup:
    if len({value for value, _ in told}) == 1:
        return told[0][0]
    return Markup(parts().disputed(told, view.question(cell.at)))


def _teller(view: ProcedureView, said: Saying) -> Markup:
    return view.context.person(str(said.who)) if said.who is not None else Markup("somebody")


def _notes(view: ProcedureView, cell: Limit, here: Step | None) -> Iterator[Markup]:
    only = view.only(cell)
    if only is not EVERY:
        yield only.words
    if cell.written is not None:
        yield from limit_worth(view, cell).lines
    yield from shifted(view, cell)
    if cell.below:
        yield filled("Below: {}", remedies(view, cell.below, here))
    if cell.above:
        yield filled("Above: {}", remedies(view, cell.above, here))
    for check in cell.check:
        yield from check_lines(view, check, here)
    if cell.unless is not None:
        yield exemption(view, cell.unless)
    yield from doubts(view, cell)
    yield view.inline_why(cell)
    yield from view.tail(cell, told=("because", "is"))


def _rules(view: ProcedureView, names: tuple[str, ...]) -> tuple[Markup, ...]:
    if all(view.is_variant(name) or name == "place" for name in names):
        return ()
    return (Markup("On a shared end, or between two rows, the stricter one holds. Outside the table there is no "
                   "value: stop and ask."),)
