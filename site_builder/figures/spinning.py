"""Spinning: the disc by equal area, how far it is drawn in, and the discs that come out of a sheet."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from math import atan2, ceil, degrees
from typing import NamedTuple

from site_builder.figures.amounts import both, figure, percent, percent_of
from site_builder.figures.batch_orders import coming, decided
from site_builder.figures.batch_words import NO_BREAK, listed
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_here, guarded, limits_by_name, property_of
from site_builder.figures.shell_drawing import shell_drawing
from site_builder.figures.shells import SHAPES, Shell, outline_faults, shells
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval, spread
from site_builder.formulas.reductions import COMMON_BETWEEN_ANNEALS, anneals_due, drawing_ratio, passes, reduction
from site_builder.formulas.sheet_cutting import SheetCut, discs_from_sheet, straight_rows
from site_builder.formulas.spinning_wall import sheared_wall

GAP = "gap between discs"
_BLANKS = "Machinery's Handbook, diameters of shell blanks; any profile by Pappus' rule"
_DRAWN = "reduction in drawing, Groover, chapter 20; annealing after about half, common practice"
_MIDDLE = ("Sizes are taken as those of the middle of the sheet, and the wall as thick as the sheet. A trial piece "
           "tells what the hands do to it.")


class Blank(NamedTuple):
    """A shell with the disc it needs: as it is, and with what is trimmed."""

    shell: Shell
    bare: Interval
    needed: Interval


def blanks(known: FigureInputs) -> Iterator[Blank]:
    """Every shell whose blank can be reckoned."""
    for shell in shells(known):
        try:
            bare, needed = shell.blank(with_trim=False), shell.blank()
        except Impossible:
            continue
        if bare is not None and needed is not None:
            yield Blank(shell, bare, needed)


def too_small(known: FigureInputs) -> Iterator[Blank]:
    """Discs that even at their largest have less surface than the smallest shell with its trim."""
    return (one for one in blanks(known) if one.shell.disc.span.high < one.needed.low * (1 - 1e-9))


def spinning_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of spinning: parts with a disc, and the work that cuts it from sheet."""
    yield from (Fault(at, str(problem)) for at, problem in outline_faults(known))
    for shell in shells(known):
        if shell.outline is None and shell.shape not in SHAPES:
            if shell.told is None and shell.mouth is not None and "height" in shell.sizes:
                yield Missing("part", shell.part, "How large the disc must be to have as much surface.",
                              "sizes: {shape: " + SHAPES[1] + "}", shell.at)
        else:
            yield from guarded(partial(_blank, known, shell), shell.inputs)
        yield from guarded(partial(_drawn, known, shell), shell.inputs)
        yield from _sheets(known, shell)


def _blank(known: FigureInputs, shell: Shell) -> Iterator[Figure]:
    bare, needed = shell.blank(with_trim=False), shell.blank()
    if bare is None or needed is None:
        return
    is_inch, disc = shell.disc.is_inch, shell.disc.span
    sentence = f"As much surface as it has a disc of {both(bare, 'mm', 'in', is_inch)}"
    if needed != bare:
        sentence += f", with what is trimmed at the rim one of {both(needed, 'mm', 'in', is_inch)}"
    rest = disc.middle - needed.middle
    if disc.high < needed.low:
        spare = f"{both(Interval(-rest, -rest), 'mm', 'in', is_inch, 2)} too small"
    elif disc.low > needed.high:
        spare = f"{both(Interval(rest, rest), 'mm', 'in', is_inch, 2)} to spare"
    else:
        spare = "just enough"
    sentence += f". The disc that is cut, {shell.disc.input.written}, is {spare}."
    title = known.notebook.parts[shell.part].title
    drawing = shell_drawing(title, shell.outline, disc, needed, is_inch) if shell.outline is not None else ""
    yield Figure("part", shell.part, sentence, shell.inputs, "disc of equal area", _BLANKS, _MIDDLE, drawing=drawing)


def _drawn(known: FigureInputs, shell: Shell) -> Iterator[Figure]:
    mouth = shell.mouth
    if mouth is None or mouth.high > shell.disc.span.low:
        return
    ratio = spread(drawing_ratio, shell.disc.span, mouth)
    in_all = spread(reduction, shell.disc.span, mouth)
    sentence = (f"From the disc to the mouth it is drawn in {figure(ratio.middle, 3)} to 1, by {percent(in_all)} of "
                "its width.")
    inputs = [shell.disc.input, *(shell.sizes[name].input for name in ("mouth", "rim") if name in shell.sizes)]
    most, told = _between_anneals(known, shell)
    inputs += told
    steps = _passes(known, shell, mouth)
    if steps is not None:
        sizes, from_line = steps
        inputs += from_line
        ends = (shell.disc.span.middle, *sizes)
        due = anneals_due([reduction(a, b) for a, b in zip(ends, sizes, strict=False)], most)
        if len(sizes) == 1:
            sentence += " The metal bears that in one pass."
        else:
            sentence += (f" With what the metal bears in each it takes {len(sizes)} passes, to "
                         f"{listed([both(Interval(one, one), 'mm', 'in', shell.disc.is_inch) for one in sizes])}; "
                         + (f"annealed before pass {listed([str(number + 1) for number in due])}." if due
                            else "none of them needs annealing first."))
    elif in_all.low > most:
        sentence += f" That is more than the {percent_of(most)} after which it is annealed."
    elif in_all.high <= most:
        sentence += (f" That is less than the {percent_of(most)} after which it is annealed; many strokes harden it "
                     "sooner than that.")
    sentence += _sheared(known, shell)
    yield Figure("part", shell.part, sentence, tuple(inputs), "drawing ratio and reduction", _DRAWN,
                 "The ear and the spring of the metal tell better than any figure when it must be annealed.")


def _metal_property(known: FigureInputs, shell: Shell, name: str, kind: str) -> Given | None:
    for material in known.notebook.parts[shell.part].material:
        given = property_of(known, str(material), name)
        if given is not None and given.unit.kind == kind:
            return given
    return None


def _between_anneals(known: FigureInputs, shell: Shell) -> tuple[float, list[Input]]:
    told = _metal_property(known, shell, "reduction between anneals", "ratio")
    if told is not None:
        return told.span.high, [told.input]
    common = f"{COMMON_BETWEEN_ANNEALS * 100:g}{NO_BREAK}%"
    return COMMON_BETWEEN_ANNEALS, [Input("reduction between anneals", f"assumed: {common}, common practice")]


def _passes(known: FigureInputs, shell: Shell, mouth: Interval) -> tuple[tuple[float, ...], list[Input]] | None:
    first = _metal_property(known, shell, "first reduction", "ratio")
    later = _metal_property(known, shell, "later reduction", "ratio") or first
    if first is None or later is None:
        return None
    sizes = passes(shell.disc.span.middle, mouth.middle, first.span.high, later.span.high)
    return sizes, list(dict.fromkeys((first.input, later.input)))


def _sheared(known: FigureInputs, shell: Shell) -> str:
    """What the wall would be if a cone were sheared over its chuck in one pass."""
    sheet, mouth, height = _metal_property(known, shell, "thickness", "length"), shell.mouth, shell.sizes.get("height")
    if shell.shape != "cone" or sheet is None or mouth is None or height is None:
        return ""
    bottom = shell.sizes["bottom"].span.middle if "bottom" in shell.sizes else 0.0
    half = degrees(atan2((mouth.middle - bottom) / 2, height.span.middle))
    wall = spread(sheared_wall, sheet.span, half)
    return (f" Sheared in one pass instead, the sine law would leave a wall of "
            f"{both(wall, 'mm', 'in', shell.disc.is_inch, 2)}.")


# ---------------------------------------------------------------------- discs out of a sheet


def _sheets(known: FigureInputs, shell: Shell) -> Iterator[Figure | Missing | Fault]:
    nb = known.notebook
    for material in nb.parts[shell.part].material:
        length, width = (_length(property_of(known, str(material), name)) for name in ("sheet length", "sheet width"))
        if length is None or width is None:
            continue
        for id_, own in nb.procedures.items():
            if shell.part in nb.parts_of(own) and any(use.material == material for use in own.materials):
                gap = _gap(known, id_)
                inputs = [length.input, width.input, shell.disc.input] + ([gap.input] if gap is not None else [])
                yield from guarded(partial(_cut, known, shell, id_, (length, width, gap), inputs), inputs)
                break


def _cut(
    known: FigureInputs, shell: Shell, id_: str, sheet: tuple[Given, Given, Given | None], inputs: list[Input]
) -> Iterator[Figure]:
    length, width, gap = sheet
    disc, apart = shell.disc.span.middle, gap.span.middle if gap is not None else 0.0
    best = discs_from_sheet(length.span.low, width.span.low, disc, apart)
    straight = straight_rows(length.span.low, width.span.low, disc, apart)
    is_inch = shell.disc.is_inch
    sentence = f"Out of a sheet come {_out_of(straight)} in straight rows"
    if best.laid == "staggered":
        sentence += f", and {_out_of(best)} when the rows are staggered and cut free"
    sentence += "."
    if gap is not None:
        sentence += f" They lie {both(Interval.around(apart, 0), 'mm', 'in', is_inch, 2)} apart."
    else:
        inputs = [*inputs, Input(GAP, "assumed: none")]
    begun = _begun(known, shell.part)
    if begun is not None and straight.discs:
        order, count = begun
        title = known.notebook.orders[order].title
        sentence += f" For {count:,} ({title}) that is {ceil(count / straight.discs):,} sheets"
        sentence += f" or {ceil(count / best.discs):,}." if best.discs > straight.discs else "."
        inputs = [*inputs, Input("pieces begun", f"{count:,}", "order", order)]
    yield Figure("procedure", id_, sentence, tuple(inputs), "discs out of a sheet", "geometry of rows",
                 "Corners and a rim that is marred are not counted.")


def _out_of(cut: SheetCut) -> str:
    return f"{cut.discs} discs with {percent_of(cut.waste)} of the sheet left over"


def _length(given: Given | None) -> Given | None:
    return given if given is not None and given.unit.kind == "length" else None


def _gap(known: FigureInputs, procedure: str) -> Given | None:
    for limit, place in limits_by_name(known).get(GAP, ()):
        if place.owner_id == procedure and place.key == "settings" and limit.written is not None:
            return _length(given_here(known, limit.written, GAP, "procedure", procedure, place.step))
    return None


def _begun(known: FigureInputs, part: str) -> tuple[str, int] | None:
    order = coming(known)
    batches = decided(known.batches.get(order)) if order is not None else ()
    begun = sum(found.starts.started for batch in batches if (found := batch.part(part)) is not None)
    return (order, begun) if order is not None and begun else None
