"""What a tool or a material tells: what it can do to you, its facts, its checks, its upkeep, its end, who uses it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from site_builder.notebook.due import next_due
from site_builder.notebook.gather import harm_untold
from site_builder.notebook.kinds import kind_of
from site_builder.notebook.model.harm import Hazard, Never, Point
from site_builder.notebook.model.judging import Check, Trouble
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.things import Thing, Upkeep
from site_builder.views.age import age_words
from site_builder.views.blocks import Grid, NeverBlock, Row, Shot, Signal
from site_builder.views.calibration import calibration_words, how_often, is_past, last_done
from site_builder.views.check import CHECK_COLUMNS, check_row
from site_builder.views.dates import dated_day
from site_builder.views.end import what_then, worn_when
from site_builder.views.fact import Fact, fact, facts_of, sources
from site_builder.views.hazard import signals
from site_builder.views.never import never_item
from site_builder.views.picture import shots
from site_builder.views.prose import Prose, joined, prose, say, sentences
from site_builder.views.remedy import causes, remedy, seen
from site_builder.views.rest import in_line, rest
from site_builder.views.scope import ProcedureScope, Scope
from site_builder.views.uses import Uses
from site_builder.views.wear import gear


@dataclass(frozen=True, slots=True)
class ThingView:
    """Everything a page of a tool or a material shows below its head."""

    pictures: tuple[Shot, ...]
    signals: tuple[Signal, ...]
    never: NeverBlock | None
    facts: tuple[Fact, ...]
    sources: tuple[Prose, ...]
    upkeep: Grid | None
    upkeep_signals: tuple[Signal, ...]
    checks: Grid | None
    life: Grid | None
    used: tuple[Prose, ...]
    members: tuple[Prose, ...]
    troubles: Grid | None
    questions: tuple[Prose, ...]


def thing_view(scope: Scope, uses: Uses, thing: Thing, extra: Sequence[Fact] = ()) -> ThingView:
    """``extra`` are the facts that only this kind of thing has; they stand first."""
    kind, id_ = scope.kind, scope.id
    hazards, nevers = with_groups(scope, thing)
    named = [(str(name), limit) for group in (thing.properties, thing.conditions)
             for name, limits in group.items() for limit in limits]
    forbidden = tuple(never_item(scope, never) for never in nevers)
    return ThingView(
        shots(scope, _pictures(thing)), signals(scope, hazards), NeverBlock(items=forbidden) if forbidden else None,
        (*extra, *_facts(scope, thing)),
        (*sources(scope, named, thing.source), *scope.heard(thing), *scope.answers(thing)),
        _upkeep(scope, thing),
        signals(scope, [h for step in thing.upkeep for h in step.hazards]), _checks(scope, thing), _life(scope, thing),
        # the parts of a material stand among its facts
        tuple(uses.said(use) for use in uses.of(kind, id_) if use.kind != "part"),
        tuple(scope.view.any_link(str(member), (kind, "tool", "material")) for member in thing.members),
        _troubles(scope, uses, thing),
        tuple(say("{} {}", scope.words(q), scope.untold("not yet answered", q.at)) for q in thing.questions),
    )


def _troubles_met(thing: Thing) -> list[Trouble]:
    return [trouble for step in thing.upkeep for trouble in step.troubles]


_UPKEEP_TOLD = ("do", "use", "when", "date", "who", "points", "hazards", "troubles", "pictures")
"""What has a column, a frame or a place of its own."""


def _pictures(thing: Thing) -> list[Picture]:
    """Of itself, of what is looked at before use, and of its upkeep."""
    points = (point for one in thing.upkeep for point in one.points)
    below: tuple[Check | Upkeep | Trouble | Point, ...] = (*thing.checks, *thing.upkeep, *_troubles_met(thing), *points)
    return [*thing.pictures, *(picture for one in below for picture in one.pictures)]


def with_groups(scope: Scope, thing: Thing) -> tuple[list[Hazard], list[Never]]:
    """Hazards and prohibitions of a thing and of the groups it belongs to."""
    all_of = _all_of(scope, thing)
    return [h for one in all_of for h in one.hazards], [n for one in all_of for n in one.never]


def _all_of(scope: Scope, thing: Thing) -> list[Thing]:
    return [thing, *(scope.nb.things[group] for group in scope.nb.groups.get(str(thing.id), ()))]


def _facts(scope: Scope, thing: Thing) -> Iterator[Fact]:
    """Properties and conditions, then who may use it, what is worn, where it lies, where to get another."""
    if harm_untold(scope.nb, thing):
        yield fact("What it can do to you", scope.untold("not told yet", thing.at))
    yield from facts_of(scope, thing.properties)
    yield from facts_of(scope, thing.conditions)
    all_of = _all_of(scope, thing)
    worn = dict.fromkeys(str(w) for one in all_of for w in (*one.wear, *(w for h in one.hazards for w in h.wear)))
    if worn:
        yield fact("Worn here", gear(scope.view, worn))
    if thing.skill is not None:
        yield fact("Skill", scope.view.link("skill", str(thing.skill)))
    if thing.age:
        reasons = [scope.words(reason) for limit in thing.age for reason in limit.because]
        yield fact("Who may use it", sentences((age_words(scope, thing.age), *reasons)))
    if thing.calibration is not None:
        yield fact("Calibration", calibration_words(scope, thing.calibration))
    if thing.where:
        yield fact("Its place", scope.words(thing.where))
    if thing.supplier:
        more = "Where to get more" if scope.kind == "material" else "Where to get another"
        yield fact(more, scope.words(thing.supplier))
    groups = all_of[1:]
    if groups:
        yield fact("Belongs to", joined((scope.view.link(kind_of(g), str(g.id)) for g in groups), ", "))


def table_of(caption: str, columns: Sequence[str], rows: Sequence[Sequence[str | Prose]]) -> Grid | None:
    """A table without the columns in which nothing stands; None without rows."""
    if not rows:
        return None
    kept = [i for i in range(len(columns)) if i == 0 or any(row[i] for row in rows)]
    return Grid(caption=prose(caption), columns=tuple(columns[i] for i in kept),
                rows=tuple(Row(tuple(prose(row[i]) for i in kept)) for row in rows))


def _upkeep(scope: Scope, thing: Thing) -> Grid | None:
    rows = [(scope.meant(one, scope.words(one.do) if one.do else scope.view.link("procedure", str(one.use or ""))),
             how_often(scope, one), last_done(scope, one.date, one.who), _next(scope, one), _mind(scope, one))
            for one in thing.upkeep]
    return table_of("What it needs, and how often", ("What", "How often", "Last done", "Due", "Mind"), rows)


def _next(scope: Scope, one: Upkeep) -> str:
    """The day on which it is due, where the calendar tells; a past one says so."""
    day = next_due(one.date, one.when)
    return "" if day is None else f"overdue since {dated_day(day)}" if is_past(scope, day) else dated_day(day)


def _mind(scope: Scope, one: Upkeep) -> Prose:
    """Why, and what makes or breaks it."""
    said = [*map(scope.words, one.because)]
    for point in one.points:
        about = sentences([scope.words(point.point), scope.inline_why(point), *scope.tail(point)])
        said.append(scope.meant(point, about))
    said += [rest(scope, one, _UPKEEP_TOLD)]
    return sentences([*said, *scope.tail(one, told=("because", "do", "when"))])


def _checks(scope: Scope, thing: Thing) -> Grid | None:
    return table_of("Look before you use it", CHECK_COLUMNS, [check_row(scope, check) for check in thing.checks])


def _life(scope: Scope, thing: Thing) -> Grid | None:
    rows = [(scope.meant(end, worn_when(scope, end)), sentences((what_then(scope, end, None), in_line(scope, end))))
            for end in thing.life]
    return table_of("How long it lasts", ("When", "What then"), rows)


def _troubles(scope: Scope, uses: Uses, thing: Thing) -> Grid | None:
    rows = [_trouble(scope, one, prose("")) for step in thing.upkeep for one in step.troubles]
    for one, where in uses.troubles(scope.kind, scope.id):
        work = ProcedureScope(scope.view, scope.nb.procedures[where], apart=True)
        rows.append(_trouble(work, one, scope.view.link("procedure", where)))
    return table_of("Troubles in which it is named", ("What you see", "Why", "What to do", "Where"), rows)


def _trouble(scope: Scope, one: Trouble, where: Prose) -> tuple[Prose, Prose, Prose, Prose]:
    return scope.meant(one, seen(scope, one)), causes(scope, one), remedy(scope, one, None), where

