"""A plan as a file of the notebook: written, read back as a plan, and looked through by the checker."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from site_builder.batch.span import written_span
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.notebook.model.season import PlannedStint, Season
from site_builder.plans.make import Made
from site_builder.plans.told import narrow_told
from site_builder.plans.wanted import Wants, wants
from site_builder.plans.words import brings, hours
from site_builder.season.chance import PLAYS, SEED
from site_builder.season.checker import Broken, check
from site_builder.season.engine import version
from site_builder.season.problem import Plan, Stint
from site_builder.skills.last import write_whole

FOLDER = "procedures/seasons"


def write(root: Path, known: FigureInputs, made: Made, ways: Iterable[str] = ()) -> Path:
    """Write a plan under a name of its own; what is there already is never written over. Raises ``OSError``."""
    stem = f"{made.wants.order}-planned-{made.on:%Y-%m-%d}"
    folder = root / FOLDER
    folder.mkdir(parents=True, exist_ok=True)
    number = 1
    while True:
        id_ = stem if number == 1 else f"{stem}-{number}"
        target = folder / f"{id_}.yml"
        if not target.exists():
            target.write_text("\n".join(_lines(known, made, id_, ways)) + "\n", "utf-8")
            return target
        number += 1


def _lines(known: FigureInputs, made: Made, id_: str, ways: Iterable[str]) -> Iterator[str]:
    wanted, found, days = made.wants, made.season, made.wants.days
    yield "# yaml-language-server: $schema=../../.schemas/season.json"
    yield f"season: {id_}"
    yield f"title: {_text(f'{known.notebook.orders[wanted.order].title}, planned {made.on}')}"
    yield f"order: {wanted.order}"
    yield f"date: {made.on}"
    yield f"starts: {days.first}"
    yield f"due: {days.on(wanted.due)}"
    yield f"pieces: {wanted.pieces}"
    if found.finish is not None:
        yield f"ends: {days.on(found.finish)}"
    if found.bound is not None:
        yield f"bound: {days.on(found.bound)}"
    yield f"proven: {'yes' if found.proven else 'no'}"
    yield f"engine: {version()}"
    if made.played is not None:
        yield f"chance: {made.played.in_time(wanted.due) * 100:.1f} %"
        if made.played.by(0.9) < days.count:
            yield f"nine of ten: {days.on(made.played.by(0.9))}"
        yield f"plays: {PLAYS} plays, seed {SEED}"
    if made.narrow:
        yield "narrow:"
        yield from (f"  - {{what: {_text(narrow_told(known, one))}, brings: {max(round(one.days * 4), 1) / 4:g} d, "
                    f"note: {_text(brings(one.days))}}}" for one in made.narrow)
    yield from _listed("cannot", made.cannot)
    yield from _listed("ways", (*made.ways, *ways))
    yield from _listed("assumed", wanted.assumed)
    own = {work: day for work, day in made.latest.items() if wanted.means[work].order == wanted.order}
    if own:
        yield "latest:"
        yield from (f"  {wanted.means[work].procedure}: {days.on(day)}" for work, day in own.items())
    if found.plan:
        yield "work:"
        yield from (f"  - {_stint(wanted, stint)}" for stint in found.plan)


def keep_what_if(path: Path, sentence: str) -> None:
    """Write one more sentence under ``what if`` of a kept plan; every other byte stays. Raises ``OSError``."""
    text = path.read_bytes().decode("utf-8")
    end = "\r\n" if "\r\n" in text else "\n"
    line = f"  - {_text(sentence)}{end}"
    at = re.search(r"^what if:[ \t]*+\r?+\n(?:[ \t]++[^\n]*+\n|\r?+\n)*+", text, re.MULTILINE)
    if at is not None:
        told = text[:at.end()] + line + text[at.end():]
    else:
        before = re.search(r"^work:", text, re.MULTILINE)
        place = before.start() if before is not None else len(text)
        gap = "" if place == 0 or text[:place].endswith("\n") else end
        told = f"{text[:place]}{gap}what if:{end}{line}{text[place:]}"
    write_whole(path, told.encode("utf-8"))


def _listed(key: str, sentences: Iterable[str]) -> Iterator[str]:
    told = list(sentences)
    if told:
        yield f"{key}:"
        yield from (f"  - {_text(one)}" for one in told)


def _text(words: str) -> str:
    """As YAML reads it back whatever it holds: JSON's quotes are YAML's."""
    return json.dumps(words, ensure_ascii=False)


def _stint(wanted: Wants, stint: Stint) -> str:
    planned = wanted.means[stint.work]
    parts = [f"date: {wanted.days.on(stint.day)}"]
    if stint.person:
        parts.append(f"who: {stint.person}")
    parts.append(f"does: {planned.procedure}")
    if stint.leads:
        parts.append(f"pieces: {stint.pieces}")
    if stint.seconds:
        parts.append(f"time: {hours(stint.seconds)}")
    if not stint.leads:
        parts.append("helps: yes")
    if planned.order != wanted.order:
        parts.append(f"order: {planned.order}")
    return f"{{{', '.join(parts)}}}"


# ---------------------------------------------------------------------- read back


@dataclass(frozen=True)
class Looked:
    """A plan held against the notebook as it is now; ``unread`` are lines of it that name what is not there."""

    season: Season
    wants: Wants
    plan: Plan
    broken: tuple[Broken, ...]
    unread: tuple[PlannedStint, ...]


def look(known: FigureInputs, season: Season) -> Looked:
    """Look a plan through. Raises ``CannotPlan`` where its order cannot be planned any more."""
    start = season.starts.value.first if season.starts is not None else None
    ordered = season.date.value.first if season.date is not None else start
    wanted = wants(known, str(season.order), start=start, ordered=ordered)
    plan, unread = read(season, wanted)
    return Looked(season, wanted, plan, check(wanted.problem, plan) if not unread else (), unread)


def read(season: Season, wanted: Wants) -> tuple[Plan, tuple[PlannedStint, ...]]:
    """The plan of a file, and the lines that name work, people or days that the notebook does not know (any more).

    Times are written rounded up to five minutes; what the work needs exactly is taken where it is less.
    """
    ids = {(planned.order, planned.procedure): id_ for id_, planned in wanted.means.items()}
    people = {hand.id for hand in wanted.problem.hands}
    found: list[Stint] = []
    unread: list[PlannedStint] = []
    for line in season.work:
        work = ids.get((str(line.order or season.order), str(line.does)))
        day = wanted.days.number(line.date.value.first)
        who = str(line.who) if line.who is not None else ""
        if work is None or not 0 <= day < wanted.problem.days or (who and who not in people):
            unread.append(line)
            continue
        found.append(Stint(day, who, work, _pieces(line), _seconds(line), line.helps not in ("yes", "true")))
    return _exact(wanted, found), tuple(unread)


def _pieces(line: PlannedStint) -> int:
    span = written_span(line.pieces, "count") if line.pieces is not None else None
    return int(span.most) if span is not None else 0


def _seconds(line: PlannedStint) -> int:
    span = written_span(line.time, "time") if line.time is not None else None
    return int(span.most) if span is not None else 0


def _exact(wanted: Wants, stints: list[Stint]) -> Plan:
    """The stints with the seconds that were rounded up taken back to what the work needs."""
    needs: dict[tuple[int, str], int] = {}
    exact: list[Stint] = []
    for stint in stints:
        if stint.leads and stint.person:
            work = wanted.problem.work(stint.work)
            loads = -(-stint.pieces // work.load) if work.load and work.load_time else 0
            need = work.setup + work.each * stint.pieces + work.load_time * loads
            seconds = need if need <= stint.seconds < need + 300 else stint.seconds
            needs[stint.day, stint.work] = seconds
            exact.append(Stint(stint.day, stint.person, stint.work, stint.pieces, seconds))
        elif stint.leads:
            exact.append(stint)
    for stint in stints:
        if not stint.leads:
            lead = needs.get((stint.day, stint.work), stint.seconds)
            seconds = lead if lead <= stint.seconds < lead + 300 else stint.seconds
            exact.append(Stint(stint.day, stint.person, stint.work, 0, seconds, leads=False))
    return tuple(sorted(exact))


def newest(seasons: Mapping[str, Season], order: str) -> Season | None:
    """The plan of an order that was made last."""
    own = [one for one in seasons.values() if one.order == order]
    return max(own, key=lambda one: (one.date.value.first if one.date is not None else date.min, str(one.season)),
               default=None)
