"""A batch as tables, for the page of an order and for the terminal alike."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from site_builder.batch.batch import LegSpent, PartBatch
from site_builder.batch.used_up import Material, UsedUp
from site_builder.figures.batch_said import Said
from site_builder.figures.batch_used import RETURNS_SAID, new_ones
from site_builder.figures.batch_words import NO_BREAK, amount, amount_up, capital, hours, percent, standing, whole
from site_builder.notebook.ways import in_words
from site_builder.quantity import same_dimensions
from site_builder.skills.holders import Holders


class Ref(NamedTuple):
    """A thing that a cell names; pages make a link of it."""

    kind: str
    id: str


class Named(NamedTuple):
    """Things with a few words before them: ``how much goes into`` this and that."""

    lead: str
    refs: tuple[Ref, ...]


class Code(NamedTuple):
    """A line to be written."""

    line: str


Cell = str | Ref | Code | Named


@dataclass(frozen=True, slots=True)
class BatchTable:
    """Rows under their columns; the first cell of a row names it. ``name`` is a short word for anchors and JSON."""

    name: str
    caption: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def tables_of_all(batches: Sequence[tuple[Said, UsedUp]], holders: Holders) -> tuple[BatchTable, ...]:
    """The tables of an order. Shares of it are bought for together; ways of which one will be gone never are."""
    shares = [said.batch.wanted.share for said, _ in batches]
    together = len(batches) > 1 and len(set(shares)) == len(shares)
    tables = [table for said, used in batches for table in batch_tables(said, used, holders)
              if not (together and table.name in ("bought", "materials"))]
    if together:
        bought = bought_table([said for said, _ in batches])
        materials = material_table(_summed([row for _, used in batches for row in used.materials]))
        tables += [replace(table, caption=f"{table.caption}, for the whole order")
                   for table in (bought, materials) if table.rows]
    return tuple(tables)


def batch_tables(said: Said, used: UsedUp, holders: Holders) -> tuple[BatchTable, ...]:
    """Every table that has rows."""
    tables = (start_table(said), *(hours_table(said, part, holders) for part in said.batch.parts),
              bought_table([said]), material_table(used.materials), wear_table(said, used), unknown_table(said, used))
    way = in_words(said.batch.wanted.way)
    return tuple(replace(table, caption=f"{capital(way)}: {table.caption[0].lower()}{table.caption[1:]}")
                 if way else table for table in tables if table.rows)


def _summed(rows: Iterable[Material]) -> tuple[Material, ...]:
    found: list[Material] = []
    for row in rows:
        for number, one in enumerate(found):
            if one.id == row.id and same_dimensions(one.unit, row.unit):
                found[number] = replace(one, takers=(*one.takers, *row.takers))
                break
        else:
            found.append(row)
    return tuple(found)


def start_table(said: Said) -> BatchTable:
    """How many to start of each part."""
    rows = tuple(
        (Ref("part", part.part), f"{part.starts.started:,}", f"{part.wanted:,}", f"{int(part.starts.good):,}",
         _right_first(part))
        for part in said.batch.parts
    )
    return BatchTable(
        "start", f"Pieces to start, so that with a chance of {percent(said.batch.wanted.confidence)} enough come out",
        ("Part", "Start", "Good ones wanted", "Good ones on average", "Right at the first try"), rows,
    )


def _right_first(part: PartBatch) -> str:
    untold = [spent for spent in part.legs if spent.leg.scrap is None]
    if len(untold) == len(part.legs) and not any(spent.leg.rework for spent in part.legs):
        return "not told"
    return f"{'at most ' if untold else ''}{round(part.starts.right_first * 100)} of 100"


def hours_table(said: Said, part: PartBatch, holders: Holders) -> BatchTable:
    """What each procedure of a part takes, and who may do it alone."""
    return BatchTable(
        f"hours-{part.part}", f"{said.part_title(part.part)}, {part.starts.started:,} to start",
        ("Procedure", "Pieces", "Set-up", "Hands", "Then it stands", "Alone"),
        tuple(_leg_row(spent, holders) for spent in part.legs),
    )


def _leg_row(spent: LegSpent, holders: Holders) -> tuple[Cell, ...]:
    leg = spent.leg
    able = tuple(Ref("person", one) for one in holders.able_to_do(leg.procedure))
    who: Cell = Named("", able) if able else "" if leg.outside else "nobody is signed for it"
    setup = hours(spent.setup) if spent.setup is not None and spent.setup.most else ""
    work = "done outside" if leg.outside else "not told" if spent.work is None else hours(spent.work)
    if leg.hands > 1:
        work += f", {leg.hands}{NO_BREAK}at once"
    pieces = f"{whole(spent.pieces):,}" + (f" in {spent.lots}{NO_BREAK}lots" if spent.lots > 1 else "")
    stand = standing(spent.standing) if spent.standing.most else "not told" if leg.waits_untold else ""
    return Ref("procedure", leg.id), pieces, setup, work, stand, who


def bought_table(batches: Sequence[Said]) -> BatchTable:
    """Parts that are bought, with those that are lost on the way."""
    counts: dict[str, int] = {}
    for id_, count in (pair for said in batches for pair in said.batch.bought):
        counts[id_] = counts.get(id_, 0) + count
    parts = batches[0].nb.parts
    rows = tuple((Ref("part", id_), f"{count:,}", str(parts[id_].supplier or "")) for id_, count in counts.items())
    return BatchTable("bought", "Bought in, with some for what is lost on the way", ("Part", "Pieces", "From"), rows)


def material_table(materials: Iterable[Material]) -> BatchTable:
    """Materials with their amounts: what is taken, what of it goes back, and what is new."""
    rows = tuple(materials)
    back = any(one.back.most for one in rows)
    told: list[tuple[Cell, ...]] = []
    for one in rows:
        takers = Named("", tuple(dict.fromkeys(Ref("procedure", taken.procedure) for taken in one.takers)))
        made = f", made here in {len(one.made)}{NO_BREAK}procedures" if len(one.made) > 1 else ", made here"
        new = amount_up(one.new, one.unit) + (made if one.made else "")
        goes = (amount(one.amount, one.unit), amount(one.back, one.unit) if one.back.most else "") if back else ()
        told.append((Ref("material", one.id), *goes, new, takers))
    if back:
        columns: tuple[str, ...] = ("Material", "Taken", "Goes back", "New", "In")
        return BatchTable("materials", f"Used up. {RETURNS_SAID}", columns, tuple(told))
    return BatchTable("materials", "Used up", ("Material", "Amount", "In"), tuple(told))


def wear_table(said: Said, used: UsedUp) -> BatchTable:
    """What is changed after a count."""
    rows = tuple(
        (Ref("material" if one.id in said.nb.materials else "tool", one.id), new_ones(one), f"after {one.life}",
         Named("", tuple(Ref("procedure", id_) for id_ in one.procedures)))
        for one in used.renewed
    )
    columns = ("What", "Have ready", "Changed", "Used in")
    return BatchTable("wear", "Changed on the way, if no sign shows before", columns, rows)


def unknown_table(said: Said, used: UsedUp) -> BatchTable:
    """What nobody has told yet, and the line that would tell it."""
    return BatchTable("unknown", "What is not known, and left out above", ("Of what", "Not told", "Write, for example"),
                      tuple(_unknown(said, used)))


def _unknown(said: Said, used: UsedUp) -> Iterator[tuple[Cell, ...]]:
    for spent in said.batch.legs:
        leg, here = spent.leg, Ref("procedure", spent.leg.id)
        if not spent.tells_time and not leg.outside:
            yield here, "how long it takes", Code("time: {setup: 20 min, each: about 5 min}")
        if leg.scrap is None:
            yield here, "how many are lost", Code("yield: {scrap: 4 %}")
        if leg.waits_untold and not spent.standing.most:
            yield here, "how long it must stand", Code("wait: min 4 h")
    for part, count in said.batch.made_beside:
        yield (Ref("part", part), f"what {count:,} of them take: they come out of other work of the shop",
               Code(f"part: {part}"))
    for one in used.materials:
        if one.made:
            yield (Ref("material", one.id), Named("what goes into it, made in", tuple(
                Ref("procedure", id_) for id_ in one.made)), Code("amount: 9 g per batch"))
    for material, procedures in _by_material(used).items():
        takers = Named("how much goes into", tuple(Ref("procedure", one) for one in procedures))
        yield Ref("material", material), takers, Code("amount: 9 g per piece")


def _by_material(used: UsedUp) -> Mapping[str, list[str]]:
    found: dict[str, list[str]] = {}
    for material, procedure in used.untold:
        found.setdefault(material, []).append(procedure)
    return found
