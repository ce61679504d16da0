"""What the pages of tools and materials have in common."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from site_builder.handbook.finder import Part as FinderPart
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.harms import Ban, Signal, bans, signals
from site_builder.handbook.pages.in_words import capital
from site_builder.handbook.pages.readings import Fact, facts_of, source_lines
from site_builder.handbook.pages.sayings import end_words, how_often, remedy_words
from site_builder.handbook.pages.uses import Uses
from site_builder.notebook.due import next_due
from site_builder.notebook.finding import At
from site_builder.notebook.model.harm import Hazard, Never
from site_builder.notebook.model.small import Calibration
from site_builder.notebook.model.things import Thing, Upkeep
from site_builder.notebook.references import kind_of
from site_builder.views.age import age_words
from site_builder.views.blocks import Shot
from site_builder.views.dates import dated_day
from site_builder.views.picture import shots
from site_builder.views.typeset import typeset
from site_builder.views.wear import gear

Cells = tuple[Markup | str, ...]


@dataclass(frozen=True, slots=True)
class Ledger:
    """A table for the part `ledger` of the theme; empty columns are left out."""

    caption: str
    columns: tuple[str, ...]
    rows: tuple[Cells, ...]


@dataclass(frozen=True, slots=True)
class ThingView:
    """Everything a page of a tool or a material shows below its head."""

    pictures: tuple[Shot, ...]
    signals: tuple[Signal, ...]
    bans: tuple[Ban, ...]
    facts: tuple[Fact, ...]
    sources: tuple[Markup, ...]
    upkeep: Ledger | None
    upkeep_signals: tuple[Signal, ...]
    checks: Ledger | None
    life: Ledger | None
    used: tuple[Markup, ...]
    members: tuple[Markup, ...]
    troubles: Ledger | None
    questions: tuple[Markup, ...]


def thing_view(context: PageContext, uses: Uses, thing: Thing, extra: tuple[Fact, ...] = ()) -> ThingView:
    """``extra`` are the facts that only this kind of thing has; they stand first."""
    kind, id_ = kind_of(thing), str(thing.id)
    hazards, nevers = with_groups(context, thing)
    named = [(str(name), limit) for group in (thing.properties, thing.conditions)
             for name, limits in group.items() for limit in limits]
    return ThingView(
        shots(context.scope(thing), thing.pictures),
        signals(context, hazards),
        bans(context, nevers),
        (*extra, *facts(context, thing)),
        tuple(source_lines(context, named, thing.source)),
        _upkeep(context, thing),
        signals(context, (h for step in thing.upkeep for h in step.hazards)),
        _checks(context, thing),
        _life(context, thing),
        # the parts of a material stand among its facts
        tuple(uses.said(context, use) for use in uses.of(kind, id_) if use.kind != "part"),
        tuple(context.any_link(str(member), (kind, "tool", "material")) for member in thing.members),
        _troubles(context, uses, thing),
        tuple(Markup("{} {}").format(context.words(q), _ask(context, thing, q)) for q in thing.questions),
    )


def _ask(context: PageContext, thing: Thing, question: object) -> Markup:
    at = getattr(question, "at", thing.at)
    return Markup('<a class="bl-untold" href="{}">not yet answered</a>').format(context.question_href(at))


def with_groups(context: PageContext, thing: Thing) -> tuple[list[Hazard], list[Never]]:
    """Hazards and prohibitions of a thing and of the groups it belongs to."""
    nb = context.book.notebook
    all_of = [thing, *(nb.things[g] for g in nb.groups.get(str(thing.id), ()))]
    return [h for one in all_of for h in one.hazards], [n for one in all_of for n in one.never]


def facts(context: PageContext, thing: Thing) -> Iterator[Fact]:
    """Properties and conditions, then who may use it, what is worn, where it lies, where to get another."""
    yield from facts_of(context, thing.properties)
    yield from facts_of(context, thing.conditions)
    nb = context.book.notebook
    all_of = [thing, *(nb.things[g] for g in nb.groups.get(str(thing.id), ()))]
    worn = dict.fromkeys(str(w) for one in all_of for w in (*one.wear, *(w for h in one.hazards for w in h.wear)))
    if worn:
        yield Fact("Worn here", words=capital(context.said(gear(context.book.views, worn))))
    if thing.skill is not None:
        yield Fact("Skill", words=context.link("skill", str(thing.skill)))
    if thing.age:
        reasons = Markup(" ").join(context.words(r) for limit in thing.age for r in limit.because)
        age = context.said(age_words(context.scope(thing), thing.age))
        yield Fact("Who may use it", words=Markup("{}. {}").format(age, reasons))
    if thing.calibration is not None:
        yield Fact("Calibration", words=calibration_words(context, thing.calibration))
    if thing.where:
        yield Fact("Its place", words=context.words(thing.where))
    if thing.supplier:
        yield Fact("Where to get more" if kind_of(thing) == "material" else "Where to get another",
                   words=context.words(thing.supplier))
    groups = nb.groups.get(str(thing.id), ())
    if groups:
        yield Fact("Belongs to", words=Markup(", ").join(context.link(kind_of(nb.things[g]), g) for g in groups))


def due_day(calibration: Calibration) -> date | None:
    """The day on which a gauge is due again, as far as the calendar can tell."""
    return next_due(calibration.date, calibration.when)


def overdue(context: PageContext, calibration: Calibration) -> bool:
    """Whether the day is past."""
    day = due_day(calibration)
    return day is not None and day < context.book.analysis.today


def due_words(context: PageContext, calibration: Calibration) -> str:
    """`due on 10 February 2027`, `overdue since 5 December 2026`; empty where it cannot be told."""
    day = due_day(calibration)
    if day is None:
        return ""
    return f"overdue since {dated_day(day)}" if overdue(context, calibration) else f"due on {dated_day(day)}"


def calibration_words(context: PageContext, calibration: Calibration) -> Markup:
    """How often, when last and by whom, when next."""
    due = due_words(context, calibration)
    last = context.date(calibration.date)
    by = Markup(" by {}").format(context.person(str(calibration.who))) if calibration.who is not None else ""
    parts = [
        how_often(context, calibration.when),
        Markup("last on {}{}").format(last, by) if last else "",
        Markup("<strong>{}: do not measure with it until that is done</strong>").format(due)
        if overdue(context, calibration) else due,
    ]
    told = Markup("; ").join(part for part in parts if part)
    note = context.words(calibration.note)
    return Markup("{}. {}").format(told, note) if note else told


def ledger(caption: str, columns: tuple[str, ...], rows: list[Cells]) -> Ledger | None:
    """The table without columns in which nothing stands; None without rows."""
    if not rows:
        return None
    kept = [i for i in range(len(columns)) if i == 0 or any(row[i] for row in rows)]
    return Ledger(caption, tuple(columns[i] for i in kept), tuple(tuple(row[i] for i in kept) for row in rows))


def _upkeep(context: PageContext, thing: Thing) -> Ledger | None:
    rows: list[Cells] = []
    for one in thing.upkeep:
        what = context.words(one.do) if one.do else context.link("procedure", str(one.use or ""))
        said = [*one.because, *(point.point for point in one.points), *([one.note] if one.note else [])]
        mind = Markup(" ").join(map(context.words, said))
        by = Markup(", {}").format(context.person(str(one.who))) if one.who is not None else ""
        last = Markup("{}{}").format(context.date(one.date), by) if one.date is not None else ""
        rows.append((what, how_often(context, one.when) or _untold(context, one.at), last, _next(context, one), mind))
    return ledger("What it needs, and how often", ("What", "How often", "Last done", "Due", "Mind"), rows)


def _next(context: PageContext, one: Upkeep) -> str:
    """The day on which it is due, where the calendar tells; a past one says so."""
    day = next_due(one.date, one.when)
    if day is None:
        return ""
    return f"overdue since {dated_day(day)}" if day < context.book.analysis.today else dated_day(day)


def late(context: PageContext, thing: Thing) -> list[str]:
    """What is overdue on a thing, in words: its calibration, and upkeep that has a day."""
    said = []
    if thing.calibration is not None and overdue(context, thing.calibration):
        said.append(f"calibration {due_words(context, thing.calibration)}")
    for one in thing.upkeep:
        due = _next(context, one)
        if due.startswith("overdue"):
            said.append(f"{context.plain(one.do or one.use).rstrip('.')}, {due}")
    return said


def _untold(context: PageContext, at: At) -> Markup:
    return Markup('<a class="bl-untold" href="{}">not yet told</a>').format(context.question_href(at))


def _checks(context: PageContext, thing: Thing) -> Ledger | None:
    rows: list[Cells] = []
    for check in thing.checks:
        good = context.words(check.good or check.do)
        bad = Markup(" ").join(context.words(b) for b in check.bad)
        rows.append((good, how_often(context, check.when), bad, remedy_words(context, check.fails)))
    return ledger("Look before you use it", ("Good when", "When to look", "Bad when", "If it is not good"), rows)


def _life(context: PageContext, thing: Thing) -> Ledger | None:
    rows: list[Cells] = [end_words(context, end) for end in thing.life]
    return ledger("How long it lasts", ("When", "What then"), rows)


def _troubles(context: PageContext, uses: Uses, thing: Thing) -> Ledger | None:
    rows: list[Cells] = [
        (context.words(t.sign), context.words(t.cause), remedy_words(context, (t,)), "")
        for step in thing.upkeep for t in step.troubles
    ]
    rows += [
        (context.words(t.sign), context.words(t.cause), remedy_words(context, (t,)), context.link("procedure", where))
        for t, where in uses.troubles(kind_of(thing), str(thing.id))
    ]
    return ledger("Troubles in which it is named", ("What you see", "Why", "What to do", "Where"), rows)


def parts_to_find(context: PageContext, thing: Thing) -> tuple[FinderPart, ...]:
    """What the finder shows of a thing: its hazards and what it needs."""
    found = [FinderPart("hazards", typeset(context.plain(h.hazard)), context.plain(h.harm)) for h in thing.hazards[:1]]
    if thing.upkeep:
        found.append(FinderPart("upkeep", "Upkeep", " ".join(context.plain(s.do) for s in thing.upkeep if s.do)))
    return tuple(found)
