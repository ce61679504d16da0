"""Rules on what is due: calibration, upkeep, fresh material; and on what is not used."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from itertools import islice

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.variants import needed
from site_builder.checks.rules.values.tables import every_rows
from site_builder.notebook.due import keeps_until, next_due
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.kinds import kind_of
from site_builder.notebook.model.parsed_values import ParsedValue
from site_builder.notebook.model.things import Protection, Upkeep
from site_builder.notebook.working_days import working_days
from site_builder.quantity import Cadence, Each, Every, Word, references


def gauge_overdue(analysis: Analysis) -> Iterator[Found]:
    for id_, tool in analysis.notebook.tools.items():
        calibration = tool.calibration
        last = None if calibration is None else next_due(calibration.date, calibration.when)
        if calibration is not None and calibration.date is not None and last is not None and last < analysis.today:
            yield Found(
                calibration.date.at, f"“{tool.title}” was good until {last.isoformat()}. Nobody knows whether it still "
                "reads true.",
                "Have it calibrated and write the new date; until then, measure with another.", id_,
            )


GAUGE_OVERDUE = Rule(
    "gauge-overdue", Level.WARNING, "A gauge whose calibration is past its date.",
    "A gauge that reads wrong looks like one that reads right. All that is measured with it from now on is doubtful.",
    """\
=== tools/gauges/height-gauge.yml
gauge: height-gauge
title: Height gauge
✓ calibration: {when: every 12 mo, date: 2025-12-05}
✗ calibration: {when: every 12 mo, date: ▸2025-11-05}
""", gauge_overdue,
)


_DAY = timedelta(days=1)
_WEEK = 7
_DAILY = ("day", "working day", "morning", "evening", "shift")
_IDLE = 5
"""So many working days a machine may stand idle before its daily upkeep is called forgotten. A common working week."""


def upkeep_overdue(analysis: Analysis) -> Iterator[Found]:
    for upkeep, place in analysis.index.of(Upkeep):
        if upkeep.date is None or upkeep.for_ or upkeep.unless is not None:
            continue
        if _is_overdue(analysis, upkeep):
            what = f"“{upkeep.do.rstrip('.')}”" if upkeep.do is not None else "This"
            yield Found(
                upkeep.date.at, f"{what} is to be done {str(upkeep.when).replace(';', ',')}, and was done last on "
                f"{upkeep.date}.",
                "Do it, and write the new date. If it was done, write when.", place.owner_id,
            )


def _is_overdue(analysis: Analysis, upkeep: Upkeep) -> bool:
    if upkeep.date is None or not isinstance(upkeep.when, ParsedValue) or not isinstance(upkeep.when.value, Cadence):
        return False
    last, today = upkeep.date.value.last, analysis.today
    if last >= today:
        return False
    items = upkeep.when.value.items
    if any(isinstance(item, Each) and _missed(analysis, item.noun, last) for item in items):
        return True
    due = next_due(upkeep.date, upkeep.when)
    if due is None or due >= today or due == last:  # what comes round within a day has no date
        return False
    if due - last < timedelta(days=_WEEK):
        return _worked(analysis, due, today - _DAY, _IDLE)
    is_rough = any(isinstance(item, Every) and item.rough for item in items)
    grace = (due - last) / 4 if is_rough else timedelta()  # `about 4 wk` may be five
    return today - due > grace


def _missed(analysis: Analysis, noun: str, last: date) -> bool:
    """Whether a whole week, month or year of work has gone by without it, or as many days as a machine may stand."""
    today = analysis.today
    if noun in _DAILY:
        return _worked(analysis, last + _DAY, today - _DAY, _IDLE)
    if noun == "week":
        monday = today - timedelta(days=today.weekday())
        return _worked(analysis, last + timedelta(days=_WEEK - last.weekday()), monday - _DAY, 1)
    if noun == "month":
        next_first = date(last.year + last.month // 12, last.month % 12 + 1, 1)
        return _worked(analysis, next_first, today.replace(day=1) - _DAY, 1)
    return noun == "year" and last.year + 1 < today.year


def _worked(analysis: Analysis, begin: date, end: date, days: int) -> bool:
    """Whether there were so many working days from the one to the other."""
    shop = analysis.notebook.shop
    worked = working_days(shop.calendar if shop is not None else None, begin, end)
    return next(islice(worked, days - 1, None), None) is not None


UPKEEP_OVERDUE = Rule(
    "upkeep-overdue", Level.WARNING, "Upkeep that should long have been done again.",
    "A slack spring and a clogged filter make no noise. The day they are noticed is the day the piece is spoilt, "
    "or a hand is hurt.",
    """\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
upkeep:
✓   - {do: Grease both bearings., when: every 6 mo, date: 2026-06-04}
✓   - {do: Blow out the extraction., when: each week, date: 2026-11-16}
✗   - {do: Grease both bearings., when: every 6 mo, date: ▸2026-05-04}
✗   - {do: Blow out the extraction., when: each week, date: ▸2026-11-12}
""", upkeep_overdue,
)


def material_stale(analysis: Analysis) -> Iterator[Found]:
    for id_, material in analysis.notebook.materials.items():
        kept = keeps_until(material)
        if material.opened is None or kept is None:
            continue
        last, name = kept
        if last < analysis.today:
            yield Found(
                material.opened.at,
                f"“{material.title}” was opened on {material.opened} and kept until {last.isoformat()}: that was its "
                f"{name}.",
                "Throw it away as its sheet says, and write the day on which the next one was opened.", id_,
            )


MATERIAL_STALE = Rule(
    "material-stale", Level.WARNING, "A material that has been open longer than it keeps.",
    "Stale primer looks like fresh primer. It comes off a year later, on the customer's wall.",
    """\
=== tools/materials/primer.yml
material: primer
title: Grey primer
properties: {shelf life after opening: 4 mo}
✓ opened: 2026-08-03
✗ opened: ▸2026-07-03
""", material_stale,
)


_REFUSING = frozenset({"not_", "apart", "members"})
"""Keys that name a thing without using it. A group and its members are looked at together."""


def tool_unused(analysis: Analysis) -> Iterator[Found]:
    notebook = analysis.notebook
    if notebook.unread or not notebook.procedures:  # whatever uses it may not have been read or written yet
        return
    unlinked = {
        id_ for id_, thing in notebook.things.items() if not isinstance(thing, Protection)
        and all(link.key in _REFUSING for link in analysis.references.used_in(kind_of(thing), id_))
    }
    unused = unlinked - _named_in_words(analysis) if unlinked else unlinked
    for id_ in notebook.things:
        if id_ in unused and not _used_as_kin(notebook.groups, analysis, id_, unused):
            thing = notebook.things[id_]
            yield Found(
                thing.at, f"No work, no upkeep and no other thing uses “{thing.title}”.",
                f"Name it where it is used, as `{kind_of(thing)}s: {id_}`, or delete its page.", id_,
            )


def _used_as_kin(groups: Mapping[str, tuple[str, ...]], analysis: Analysis, id_: str, unused: set[str]) -> bool:
    """Whether its group is used, or one of its members."""
    members = map(str, analysis.notebook.things[id_].members)
    return any(one not in unused for one in (*groups.get(id_, ()), *members))


def _named_in_words(analysis: Analysis) -> set[str]:
    """Ids that stand in a `for`, a row of a table, a value or a mix, where no key tells of which kind they are."""
    found = {str(value) for _, values, _ in needed(analysis) for value in values}
    found |= {str(row) for rows in every_rows(analysis) for row in rows.names}
    for material in analysis.notebook.materials.values():
        found |= {str(part) for part in material.composition}
    for leaf, _, _ in analysis.index.values:
        what = leaf.value.what
        names = [what.text] if isinstance(what, Word) else [one.name for one in references(leaf.value)]
        found |= {name.partition("/")[0] for name in names}
    return found


TOOL_UNUSED = Rule(
    "tool-unused", Level.WARNING, "A tool or a material that nothing uses.",
    "Either a page forgets to tell what is taken in hand, and with it what can hurt, or the thing has long been "
    "gone.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
✓ tools: belt-grinder
steps: Sweep it along the belt.
=== tools/machines/belt-grinder.yml
▸machine: belt-grinder
title: Belt grinder
""", tool_unused,
)
