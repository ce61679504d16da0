"""Hours of hands and standing time of a batch, by procedure, part and order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from site_builder.batch.batch import LegSpent, PartBatch, hands_of_all, most_hours
from site_builder.batch.span import Span, total
from site_builder.figures.batch_said import Said, time_inputs
from site_builder.figures.batch_words import (
    NO_BREAK,
    between,
    days_of,
    figure,
    hours,
    standing,
    whole,
    working_week,
)
from site_builder.figures.figure import Figure, Input, Missing
from site_builder.notebook.way import NO_PART
from site_builder.notebook.ways import in_words
from site_builder.notebook.working_days import working_days

BATCH_TIME = "batch time: setting up, and the pieces times the time for one"
GROOVER = "Groover, Automation, Production Systems and Computer-Integrated Manufacturing, chapter 2"
NO_PLAN = "Rests, errands and waiting for a machine are not in it, nor who is free when."


class BatchSaid(Said):
    """A batch as figures: each method yields those of one kind of page."""

    def of_order(self) -> Iterator[Figure | Missing]:
        """The whole batch, on the page of its order."""
        if self.batch.timed:
            yield from self._hours("order", self.order, self.batch.legs, "the whole batch")
            yield from self._costliest("order", self.order, self.batch.legs)
            yield from self._until_due()

    def of_part(self, part: PartBatch) -> Iterator[Figure | Missing]:
        """What one part takes of it; the product is told with all its parts on the page of the order."""
        if any(spent.work is not None for spent in part.legs):
            what = "putting it together" if self.nb.parts[part.part].of else "its way"
            yield from self._hours("part", part.part, part.legs, what)
            yield from self._costliest("part", part.part, part.legs)

    def of_procedure(self, spent: LegSpent) -> Iterator[Figure | Missing]:
        """What one procedure takes of it."""
        leg = spent.leg
        if leg.times is None and not leg.outside:
            yield Missing("procedure", leg.id, f"How many hours {self.whole} take here.",
                          "time: {setup: 20 min, each: about 5 min}", leg.procedure.at)
            return
        come = f"{self.lead} {whole(spent.pieces):,} pieces come to it"
        lots = f", in {spent.lots}{NO_BREAK}lots" if spent.lots > 1 else ""
        if spent.work is None:
            stand = f", and stand {standing(spent.standing)}" if spent.standing.most else ""
            sentence = f"{come}{lots}{stand}. It is done outside." if leg.outside else f"{come}{lots}."
        else:
            setup = f"Set-up {hours(spent.setup)}; hands" if spent.setup is not None and spent.setup.most else "Hands"
            days = f"That is {self._days([spent])} for one pair of hands."
            sentence = f"{come}{lots}. {setup} {hours(spent.work)}. {days}"
        yield Figure("procedure", leg.id, sentence, (self.ordered(), *time_inputs(self, spent), self._day()),
                     BATCH_TIME, GROOVER, NO_PLAN if spent.work is not None else "")

    # ------------------------------------------------------------------ sentences

    def _hours(self, kind: str, id_: str, legs: Sequence[LegSpent], what: str) -> Iterator[Figure]:
        hands = hands_of_all(legs)
        setup = total(spent.setup for spent in legs if spent.setup is not None)
        stand = total(spent.standing for spent in legs)
        whole = kind == "order" and not self.batch.wanted.way
        lead = what.capitalize() if whole else f"{self.lead} {what}"
        sentence = f"{lead} takes {hours(hands)} of hands, {self._days(legs)} for one pair."
        if setup.most:
            sentence += f" Of that, {hours(setup)} goes into setting up."
        if stand.most and kind == "part":
            sentence += f" Besides, the pieces stand {standing(stand)}" + (
                "." if stand.least == stand.most else ", the more where one lot waits for the other.")
        untold = [spent.leg.id for spent in legs if not spent.tells_time and not spent.leg.outside]
        outside = [spent.leg.id for spent in legs if spent.leg.outside]
        caution = NO_PLAN
        if outside:
            caution = f"Done outside and not counted: {self.procedures(outside)}. {caution}"
        if untold:
            caution = f"Not told, or not wholly, and left out: {self.procedures(untold)}. {caution}"
        inputs = [self.ordered()]
        for spent in legs if kind == "part" else ():
            inputs += time_inputs(self, spent)
        inputs += [Input(self.part_title(part.part), f"{part.starts.started:,} started", "part", part.part)
                   for part in self.batch.parts if kind == "order" and part.part != NO_PART]
        yield Figure(kind, id_, sentence, (*inputs, self._day()), BATCH_TIME, GROOVER, caution)

    def _costliest(self, kind: str, id_: str, legs: Sequence[LegSpent]) -> Iterator[Figure]:
        told = [spent for spent in legs if spent.work is not None]
        most = most_hours(told)
        if len(told) < 4 or not most:
            return
        named = [f"“{spent.leg.procedure.title}”, {hours(spent.hands)}" for spent in most]
        share = sum(spent.hands.most for spent in most) / hands_of_all(told).most
        yield Figure(
            kind, id_,
            f"Most hours go into three procedures, {round(share * 100)}{NO_BREAK}% of all: {'; '.join(named)}.",
            tuple(Input("hands", hours(spent.hands), "procedure", spent.leg.id) for spent in most),
            "Pareto order, the greatest first", "common practice",
        )

    def _until_due(self) -> Iterator[Figure]:
        """The working days that are left, beside the hours that are needed."""
        order = self.nb.orders.get(self.order)
        if order is None or order.due is None or order.due.value.last < self.today:
            return
        days = sum(1 for _ in working_days(self.calendar, self.today, order.due.value.last))
        a_day, _, _ = working_week(self.calendar)
        hands = hands_of_all(self.batch.legs)
        if not days or not hands.most:
            return
        people = Span(hands.least / (a_day * 3600 * days), hands.most / (a_day * 3600 * days), True)
        share = (f"as much as {between(people)} pairs of hands that do nothing else" if people.most > 1
                 else f"{between(people * 100)}{NO_BREAK}% of that")
        way = in_words(self.batch.wanted.way)
        batch = f"The batch of {self.whole}, {way}," if way else "The batch"
        yield Figure(
            "order", self.order,
            f"Until the day it is due the calendar has {days:,} working days: {figure(a_day * days)}{NO_BREAK}h "
            f"for one pair of hands. {batch} takes {hours(hands)}, {share}.",
            (Input("due", str(order.due), "order", self.order, at=order.due.at),
             Input("today", self.today.isoformat()), self._day()),
            "hours needed over hours there are", "common practice", NO_PLAN,
        )

    def _days(self, legs: Sequence[LegSpent]) -> str:
        a_day, week, _ = working_week(self.calendar)
        return days_of(hands_of_all(legs), a_day, week)

    def _day(self) -> Input:
        a_day, week, told = working_week(self.calendar)
        days = f"{week}{NO_BREAK}days a week"
        written = f"{float(a_day):g}{NO_BREAK}h a day, {days}"
        if not told:
            hours_told = self.calendar is not None and self.calendar.hours is not None
            written = f"{float(a_day):g}{NO_BREAK}h a day; assumed: {days}" if hours_told else f"assumed: {written}"
        at = self.calendar.at if self.calendar is not None else None
        return Input("working time", written, at=at)
