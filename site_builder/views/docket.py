"""The head of a procedure: who may do it, how long it takes for one and for a batch, what is lost."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from site_builder.formulas.batch_time import WorkTime, batch_time, time_to_reckon_with, working_days
from site_builder.notebook.gather import least_ages, skills_of
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import Time
from site_builder.notebook.notebook import Notebook
from site_builder.plans.in_hand import plan_in_hand
from site_builder.plans.weeks import day_of
from site_builder.quantity import bounds
from site_builder.views.age import age_words, least_years
from site_builder.views.counts import days, span
from site_builder.views.dates import date_words, dated_day
from site_builder.views.facts import hands_words, skill_table, skill_words, time_words, yield_words
from site_builder.views.prose import Prose, Ref, capital, joined, linked, listed, meant, prose, say, sentences
from site_builder.views.remedy import exemption
from site_builder.views.scope import ProcedureScope

Row = tuple[str, Prose]


@dataclass(frozen=True, slots=True)
class Batch:
    """The first order to be delivered, and how long the shop works a day."""

    product: str
    pieces: int
    hours: Fraction | None


def first_batch(nb: Notebook) -> Batch | None:
    """From the order that is due first."""
    orders = [o for o in nb.orders.values() if o.pieces is not None and o.product is not None]
    if not orders:
        return None
    first = min(orders, key=lambda o: (o.due is None, o.due.value.first.isoformat() if o.due is not None else ""))
    assert first.pieces is not None
    found = bounds(first.pieces.value)
    figure = None if found is None else found.aim_low
    calendar = first.calendar or (nb.shop.calendar if nb.shop is not None else None)
    hours = bounds(calendar.hours.value) if calendar is not None and calendar.hours is not None else None
    if figure is None or figure < 1:
        return None
    day = None if hours is None or hours.aim_low is None else hours.aim_low * 24  # a share of the day in base units
    return Batch(str(first.product), int(figure), day)


def docket(scope: ProcedureScope, batch: Batch | None) -> list[Row]:
    """The rows, those without anything to say left out."""
    rows: list[Row] = []
    rows += _who(scope)
    rows += _skills(scope)
    rows += _order(scope)
    rows += _begin(scope)
    rows += _times(scope, batch)
    own = scope.own
    if own.per is not None and own.per != "piece":
        rows.append(("Goes through", say("The whole {} before the next work begins", scope.words(own.per))))
    if own.when is not None:
        rows.append(("When", capital(scope.cadence(own.when))))
    if own.hands:
        rows.append(("Hands", hands_words(scope, own.hands, None)))
    if own.where is not None:
        rows.append(("Where", capital(scope.words(own.where))))
    rows += [("Loss", meant(scope.only(loss), yield_words(scope, loss))) for loss in own.yield_]
    if own.unless is not None:
        rows.append(("May be left out", exemption(scope, own.unless, "If")))
    return rows


def _who(scope: ProcedureScope) -> Iterator[Row]:
    own = scope.own
    skills = skills_of(own)
    if not skills:
        if own.where is None:
            yield "Alone", scope.untold("who may do it alone is not told yet", own.at)
        return
    holders = scope.view.analysis.holders
    alone = holders.able_to_do(own)
    within = [p for p in holders.able_to_do(own, "within call") if p not in alone]
    beside = [p for p in holders.able_to_do(own, "beside") if p not in alone and p not in within]
    links = [listed(map(scope.view.person, people)) for people in (alone, within, beside)]
    resting = listed(map(scope.view.person, holders.resting_with(own)))
    yield "Alone", links[0] or prose("Nobody just now" if resting else "Nobody is signed for it yet")
    if resting:
        yield "Lapsed", resting
    if within:
        yield "Within call of one of them", links[1]
    if beside:
        yield "Beside one of them", links[2]


def _skills(scope: ProcedureScope) -> Iterator[Row]:
    own = scope.own
    skills = [str(s) for s in skills_of(own)]
    if isinstance(own.skill, dict):
        yield "Skill", skill_table(scope, own.skill)
    elif skills:
        yield "Skill", listed(skill_words(scope, s) for s in skills)
    known = {least_years(limit) for s in skills if s in scope.nb.skills for limit in scope.nb.skills[s].age}
    ages: dict[Prose, list[str]] = {}
    for limit, id_ in least_ages(scope.nb, own):
        if least_years(limit) not in known:
            ages.setdefault(age_words(scope, [limit]), []).append(id_)
    if ages:
        yield "Age", capital(listed(
            say("{} ({})", age, listed(scope.things(ids))) for age, ids in ages.items()))


def _order(scope: ProcedureScope) -> Iterator[Row]:
    """What must be past first, where a reason or an event is told with it."""
    lines = []
    for after in scope.own.after:
        target = scope.references.find(str(after.done.text), ("procedure",))
        if target is not None and not after.model_fields_set - {"done", "at"} and not after.asked:
            continue  # the way through the work tells it
        why = scope.inline_why(after)
        said = say("{}, {}", scope.named(str(after.done.text)), why) if why else \
            capital(scope.moment(after.done))
        lines.append(sentences([scope.meant(after, said), *scope.tail(after)]))
    if lines:
        yield "Only after", joined(lines)
    makes = [m for m in map(str, scope.own.makes) if m not in map(str, scope.own.part)]
    if makes:
        yield "Makes", listed(scope.things(makes))


def _begin(scope: ProcedureScope) -> Iterator[Row]:
    """The last day on which it may begin, from the plan that is kept."""
    season = plan_in_hand(scope.view.analysis)
    day = season.latest.get(scope.own.procedure) if season is not None else None
    if season is not None and day is not None:
        begins = min((day_of(one) for one in season.work if one.does == scope.own.procedure), default=None)
        told = f"; by the plan it begins on {dated_day(begins)}" if begins is not None else ""
        yield "To begin at the latest", say("{}, if all who may do it did nothing else{}", date_words(day), told)


# --- time ---------------------------------------------------------------------------------------------------


def _times(scope: ProcedureScope, batch: Batch | None) -> Iterator[Row]:
    for time in scope.own.time:
        main = "Time for one" if time.each is not None else "Time for a load" if time.load is not None else "Time"
        yield main, meant(scope.only(time), time_words(scope, time))
    pieces = pieces_of(scope.nb, scope.own, batch)
    if batch is None or pieces is None:
        return
    for time in scope.own.time:
        if time.each is None and time.load is None:
            continue
        seconds, rough = _seconds(scope.own, time, pieces)
        if seconds is not None:
            words = _batch_words(seconds, rough, batch)
            if ("procedure", str(scope.own.procedure)) in scope.view.analysis.figures:
                # the figures count what is lost on the way, and so come to more
                words = say("{}; {}", words, linked("more, with what is lost", Ref("reckoning", scope.id, "comes-to")))
            yield f"Time for {pieces:,}", meant(scope.only(time), words)


def pieces_of(nb: Notebook, procedure: Procedure, batch: Batch | None) -> int | None:
    """How many of the part it works at the first order takes; None for shared work, which has no part of its own."""
    parts = nb.makes_of(procedure)
    product = nb.parts.get(batch.product) if batch is not None else None
    if batch is None or not parts:
        return None
    count = product.of.get(parts[0]) if product is not None else None  # type: ignore[call-overload]
    found = bounds(count.value) if count is not None else None
    each = found.aim_low if found is not None and found.aim_low is not None else Fraction(1)
    return int(batch.pieces * each)


def _seconds(own: Procedure, time: Time, pieces: int) -> tuple[Fraction | None, bool]:
    rough = False
    figures: dict[str, Fraction] = {}
    for name, leaf in (("setup", time.setup), ("each", time.each), ("load", time.load), ("lot", time.lot)):
        if leaf is None:
            continue
        reckoned = time_to_reckon_with(leaf.value)
        if reckoned is None:
            return None, False
        figures[name], rough = reckoned[0], rough or reckoned[1]
    size = own.load[0].written if own.load else None
    load = bounds(size.value) if size is not None else None
    load_size = None if load is None else load.high if load.limited else load.aim_low
    if load_size is not None and load_size < 1:
        return None, False
    return batch_time(WorkTime(**figures, load_size=load_size), pieces), rough


def _batch_words(seconds: Fraction, rough: bool, batch: Batch) -> Prose:
    words = f"{'about ' if rough else ''}{span(seconds)}"
    if batch.hours is not None and seconds > batch.hours * 1800:
        words += f": {days(working_days(seconds, batch.hours))} for one pair of hands"
    return capital(words)
