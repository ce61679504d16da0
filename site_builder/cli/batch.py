"""``benchlore batch N``: what a batch takes, whether it is ordered or not."""

from __future__ import annotations

import json
import re
import shlex
import textwrap
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import click

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.batch.batch import CONFIDENCE, Undecided, Wanted, hands_of_all
from site_builder.batch.side_by_side import side_by_side
from site_builder.batch.span import Span
from site_builder.batch.used_up import UsedUp, used_up
from site_builder.batch.variant import chosen_for
from site_builder.cli.shared import ERRORS, day, notebook_in, notebook_option, today_option
from site_builder.figures.batch_hours import BatchSaid
from site_builder.figures.batch_orders import calendar_of
from site_builder.figures.batch_starts import RUNS_OF_BAD_LUCK, start_figure
from site_builder.figures.batch_tables import BatchTable, Cell, Code, Named, Ref, batch_tables
from site_builder.figures.batch_words import capital
from site_builder.figures.figure import Figure
from site_builder.formulas.errors import Impossible
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.ways import OTHERWISE, in_words, row_of
from site_builder.quantity import Unit

_WIDTH, _WIDEST = 118, 36


def _chance(_context: click.Context, _option: click.Parameter, value: str) -> float:
    """`0.95`, `95` and `95 %` are the same chance."""
    found = re.fullmatch(r"(\d+(?:\.\d+)?)\s*(%?)", value.strip())
    share = float(found[1]) if found else 0.0
    if found and (found[2] or share > 1):
        share /= 100
    if not 0 < share < 1:
        raise click.BadParameter(f"`{value}` is no chance. Write `95 %` or `0.95`; 0 and 100 % are none.")
    return share


def _pieces(_context: click.Context, _argument: click.Parameter, value: str) -> int:
    plain = value.strip()
    if not (plain.isascii() and plain.isdigit() and 1 <= int(plain) <= _MOST):
        raise click.BadParameter(f"`{value}` is no number of pieces. Write a whole number, as `120`, up to {_MOST:,}.")
    return int(plain)


def _variants(_context: click.Context, _option: click.Parameter, value: tuple[str, ...]) -> dict[str, str]:
    found: dict[str, str] = {}
    for one in value:
        name, sign, choice = (word.strip() for word in one.partition("="))
        if not sign or not name or not choice:
            raise click.BadParameter(f"`{one}` is no choice. Write the name, = and the value, as `pattern=deck`.")
        if found.setdefault(name, choice) != choice:
            raise click.BadParameter(f"`{name}` cannot be `{found[name]}` and `{choice}` at once. Choose one of them.")
    return found


_MOST = 1_000_000


@click.command()
@click.argument("pieces", callback=_pieces, metavar="N")
@click.option("--product", "-p", metavar="ID", help="The product or part (default: the only product).")
@click.option("--confidence", "-c", callback=_chance, metavar="CHANCE", default=f"{CONFIDENCE:.0%}", show_default=True,
              help="With what chance N good ones are to come out.")
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", help="For people or programs.")
@click.option("--with", "variants", multiple=True, metavar="NAME=VALUE", callback=_variants,
              help="The way it is made, as pattern=deck; may be given again. Ways left open stand side by side.")
@notebook_option
@today_option
@click.pass_context
def batch(
    context: click.Context, pieces: int, product: str | None, confidence: float, form: str,
    variants: dict[str, str], folder: Path, today: Any,
) -> None:
    """Tell what a batch of N takes: pieces to start, hours, standing time, what is used up, what is not known."""
    surveyed = analysis(notebook_in(folder), day(today, folder))
    nb = surveyed.notebook
    id_ = _product(surveyed, product)
    try:
        found = side_by_side(nb, surveyed.route, surveyed.reckoning,
                             Wanted(id_, pieces, {**chosen_for(nb, id_), **_known(surveyed, variants)}, confidence))
    except Undecided as problem:
        click.echo("It can be made in too many ways to show them all. Choose some of them: "
                   + "; ".join(f"--with {shlex.quote(f'{name}={value}')}" for name, values in problem.open.items()
                               for value in values[:1]), err=True)
        context.exit(ERRORS)
    except Impossible as problem:
        click.echo(f"This cannot be reckoned: {problem}.", err=True)
        context.exit(ERRORS)
    told = [(BatchSaid(nb, one, "", "", calendar_of(nb, None), surveyed.today), used_up(nb, surveyed.reckoning, one))
            for one in found]
    for fault in dict.fromkeys(fault for one in found for fault in one.faults):
        click.echo(f"{fault.at.path}:{fault.at.line}: {fault.message}; it is left out.", err=True)
    if form == "json":
        data = [as_data(said, used) for said, used in told]
        click.echo(json.dumps(data[0] if len(data) == 1 else {"ways": data}, indent=1, ensure_ascii=False))
        return
    click.echo(f"{nb.parts[id_].title}, {pieces:,} pieces\n")
    if len(told) > 1:
        one_way = " ".join(f"--with {shlex.quote(f'{name}={value}')}" for name, value in found[0].wanted.way.items()
                           if value != OTHERWISE)
        see = f" To see one of them: {one_way}" if one_way else ""
        click.echo(textwrap.fill(f"It can be made in {len(told)} ways, told one beside the other and never added up."
                                 f"{see}", _WIDTH) + "\n")
    for said, used in told:
        if len(told) > 1:
            click.echo(f"== {capital(in_words(said.batch.wanted.way))} ==\n")
        _show(surveyed, said, used)


def _show(surveyed: Analysis, said: BatchSaid, used: UsedUp) -> None:
    for sentence in _sentences(said):
        click.echo(textwrap.fill(sentence, _WIDTH))
    for table in batch_tables(said, used, surveyed.holders):
        click.echo("\n" + "\n".join(_lines(surveyed, table)))
    click.echo("\n" + textwrap.fill(said.silent or RUNS_OF_BAD_LUCK, _WIDTH) + "\n")


def _known(surveyed: Analysis, variants: dict[str, str]) -> dict[str, str]:
    """The variants that were given, if the notebook knows them."""
    ways = surveyed.reckoning.ways
    conditions = [place.entry.for_ for place in surveyed.index.conditioned]
    conditions += [row_of(limit, rows, cell) for limit, _ in surveyed.index.of(Limit)
                   if limit.by for rows, cell in limit.cells()]
    names = sorted({*ways.declared, *(str(name) for one in conditions for choice in one for name in choice)})
    for name, value in variants.items():
        if name not in names:
            raise click.UsageError(f"Nothing that varies is called `{name}`. There is {', '.join(names) or 'nothing'}.")
        values = [one for one in ways.values_of(name, conditions) if one != OTHERWISE]
        if value not in values:
            raise click.UsageError(f"`{name}` is never `{value}`. Write --with {shlex.quote(f'{name}={values[0]}')}"
                                   + "".join(f" or {one}" for one in values[1:]) + ".")
    return variants


def _product(surveyed: Analysis, product: str | None) -> str:
    nb = surveyed.notebook
    if product is not None:
        if product not in nb.parts:
            raise click.UsageError(f"`{product}` is no product or part of this shop: {', '.join(nb.parts) or 'none'}.")
        return product
    if len(nb.products) == 1:
        return next(iter(nb.products))
    if not nb.products:
        raise click.UsageError("procedures/shop.yml names no product. Write it under `products`, or say --product.")
    raise click.UsageError(f"Of which product? Say --product {' or '.join(nb.products)}.")


def _sentences(said: BatchSaid) -> Iterator[str]:
    whole = said.batch.part(said.batch.wanted.product)
    if whole is not None:
        yield start_figure(said, whole).sentence
    for figure in said.of_order():
        if isinstance(figure, Figure):
            yield figure.sentence
            if figure.caution:
                yield figure.caution


# --- tables of text -----------------------------------------------------------------------------------


def _lines(surveyed: Analysis, table: BatchTable) -> Iterator[str]:
    yield table.caption
    rows = [[_text(surveyed, cell) for cell in row] for row in table.rows]
    widths = [min(max(len(line[n]) for line in (table.columns, *rows)), _WIDEST) for n in range(len(table.columns))]
    yield from _row(table.columns, widths)
    yield "  ".join("-" * width for width in widths)
    for row in rows:
        yield from _row(row, widths)


def _row(cells: Sequence[str], widths: Sequence[int]) -> Iterator[str]:
    wrapped = [textwrap.wrap(cell, width) or [""] for cell, width in zip(cells, widths, strict=True)]
    for n in range(max(map(len, wrapped))):
        line = (lines[n] if n < len(lines) else "" for lines in wrapped)
        yield "  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip()


def _text(surveyed: Analysis, cell: Cell) -> str:
    if isinstance(cell, Code):
        return cell.line
    if isinstance(cell, Ref):
        entry = surveyed.notebook.people.get(cell.id) if cell.kind == "person" else surveyed.notebook.entry(cell.id)
        return str(getattr(entry, "title", None) or getattr(entry, "name", None) or cell.id)
    if isinstance(cell, Named):
        return f"{cell.lead} {', '.join(_text(surveyed, one) for one in cell.refs)}".strip()
    return cell


# --- for programs -------------------------------------------------------------------------------------


def as_data(said: BatchSaid, used: UsedUp) -> dict[str, Any]:
    """The batch with its figures in seconds and base units, each range as [least, most]."""
    found = said.batch
    return {
        "product": found.wanted.product, "pieces": found.wanted.pieces,
        "way": dict(found.wanted.way), "confidence": found.wanted.confidence,
        "hands_s": _ends(hands_of_all(found.legs)),
        "parts": [
            {
                "part": part.part, "start": part.starts.started, "wanted": part.wanted,
                "confidence": part.confidence, "good_on_average": float(part.starts.good),
                "right_first": part.starts.right_first,
                "procedures": [
                    {
                        "procedure": spent.leg.id, "pieces": float(spent.pieces), "lots": spent.lots,
                        "kept_or_thrown_back": spent.lost, "setup_s": _ends(spent.setup), "work_s": _ends(spent.work),
                        "standing_s": _ends(spent.standing), "outside": spent.leg.outside,
                        "tells_time": spent.tells_time, "tells_loss": spent.leg.scrap is not None,
                    }
                    for spent in part.legs
                ],
            }
            for part in found.parts
        ],
        "bought": dict(found.bought),
        "materials": [
            {"material": one.id, "unit": one.unit.symbol,
             "amount": _in_unit(one.amount, one.unit), "goes_back": _in_unit(one.back, one.unit),
             "new": _in_unit(one.new, one.unit), "made_here": list(one.made),
             "procedures": [taken.procedure for taken in one.takers]}
            for one in used.materials
        ],
        "renewed": [{"id": one.id, "life": str(one.life), "new": [one.least, one.most],
                     "procedures": list(one.procedures)} for one in used.renewed],
        "amounts_untold": [list(pair) for pair in used.untold],
    }


def _in_unit(span: Span, unit: Unit) -> list[float] | None:
    return _ends(Span(span.least / unit.factor, span.most / unit.factor))


def _ends(span: Span | None) -> list[float] | None:
    return None if span is None else [float(span.least), float(span.most)]
