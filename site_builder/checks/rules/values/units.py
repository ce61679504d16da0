"""Rules on the unit of a figure."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.bearing import borne, told
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.kinds import IN_WORDS, OF_KEY, OF_LIMIT, OF_NAME, in_words
from site_builder.checks.rules.values.limits import limits_of, told_in
from site_builder.checks.rules.values.wording import key_of, name_of
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.parsed_values import Written
from site_builder.quantity import Bounds, Word, difference, kind_of, same_dimensions, same_kind, unit_of_value

UNIT_MISSING = Rule(
    "unit-missing", Level.ERROR, "A figure without its unit.",
    "0.1 mm and 0.1 in are two different feet, and a bare degree may be °C or °F: two different accidents.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     limits: {flatness of the sole: max 0.1 mm}
✗     limits: {flatness of the sole: max ▸0.1}
""",
)


UNIT_UNKNOWN = Rule(
    "unit-unknown", Level.ERROR, "A unit that nobody listed and the shop does not count in.",
    "A unit that only one person knows dies with that person. What the shop counts in stands under `words`, with "
    "what it means.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     materials: {material: belt-grease, amount: 3 g}
✗     materials: {material: belt-grease, amount: ▸3 dollops}
""",
)


def unit_wrong_kind(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, key in analysis.index.values:
        entry = place.entry
        if not isinstance(entry, Limit):
            wanted = OF_KEY.get((type(entry).__name__, key))
        else:
            wanted = _of_limit(place) if key == "is_" else None
        if wanted is not None:
            kind = kind_of(leaf.value)
            if kind is not None and kind not in wanted:
                name = (isinstance(entry, Limit) and name_of(place)) or key_of(place, key)
                yield Found(
                    leaf.at, f"`{leaf}` stands under `{name}`, which is {in_words(wanted)}.",
                    _mend(leaf, kind, wanted), place.owner_id,
                )
    yield from _tables(analysis)
    yield from _sums(analysis)
    yield from _gauges(analysis)


def _mend(leaf: Written, kind: str, wanted: tuple[str, ...]) -> str:
    if kind == "time" and wanted == ("time per time",):
        return f"Write `{leaf} per day` or `{leaf} per week`."
    return "Write the right unit, or give the value the name it belongs to."


def _of_limit(place: Place) -> tuple[str, ...] | None:
    """What a limit must be: by its key, as a wait, or by its name, as a pot life."""
    while place.key in ("is_", "said") and place.parent is not None:
        place = place.parent
    if place.key in OF_LIMIT:
        return OF_LIMIT[place.key]
    # In other lists (the results of a change, a grade) a known name may mean something else.
    return OF_NAME.get(str(place.name)) if place.name is not None and place.key in _NAMED else None


_NAMED = ("properties", "settings", "limits", "conditions", "sizes", "state")


def _tables(analysis: Analysis) -> Iterator[Found]:
    """Cells of one table that cannot be compared."""
    for limit, place in limits_of(analysis):
        if isinstance(limit.is_, Table):
            cells = [written for _, written in told_in(limit) if kind_of(written.value) is not None]
            for written in cells[1:]:
                if not same_kind(cells[0].value, written.value):
                    yield Found(
                        written.at, f"`{written}` cannot be compared with `{cells[0]}` in the same table.",
                        "Write all rows in units of one kind.", place.owner_id,
                    )


def _sums(analysis: Analysis) -> Iterator[Found]:
    """Parts of a sum that cannot be added to it."""
    held = reckoning(analysis)
    for limit, place in limits_of(analysis):
        whole = held.bounds(limit.written) if limit.sum and limit.written is not None else None
        for part, _, hits in held.parts(limit) if whole is not None else ():
            found = held.widest(hits)
            if whole is not None and found is not None and not _addable(found, whole):
                yield Found(
                    part.at,
                    f"`{part}` is {IN_WORDS.get(found.kind, found.kind)}; it cannot be summed to `{limit.written}`.",
                    "Take it out of the sum, or write the limit in a unit of the same kind.", place.owner_id,
                )


def _addable(part: Bounds, whole: Bounds) -> bool:
    return same_dimensions(difference(part.unit), difference(whole.unit))


_READING = ("division", "resolution", "range")
"""What tells in which kind of unit a gauge reads; the last goes first."""


def _gauges(analysis: Analysis) -> Iterator[Found]:
    """Limits in a unit that their gauge does not read."""
    ranges = {
        id_: found[0] for id_, tool in analysis.notebook.tools.items() for name in _READING
        if name in tool.properties and len(found := borne(analysis, id_, name)) == 1
    }
    for limit, place in limits_of(analysis) if ranges else ():
        for gauge in limit.with_:
            reads = ranges.get(str(gauge))
            other = None if reads is None else _of_another_kind(limit, reads)
            if reads is not None and other is not None:
                title = analysis.notebook.tools[gauge].title
                yield Found(
                    gauge.at, f"“{title}” reads {told(reads)}, and `{other}` is of another kind.",
                    "Name the gauge that reads this unit, or put right the unit.", place.owner_id,
                )


def _of_another_kind(limit: Limit, reads: Bounds) -> Written | None:
    for _, written in told_in(limit):
        unit = unit_of_value(written.value)
        if unit is not None and not same_dimensions(difference(reads.unit), difference(unit)):
            return written
    return None


UNIT_WRONG_KIND = Rule(
    "unit-wrong-kind", Level.ERROR, "A value of the wrong kind for its name or its key.",
    "A noise in kilograms or a wait in metres is a slip: two lines were swapped, or a unit was copied.",
    """\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
✓ properties: {noise: 92 dB(A), mass: 64 kg}
✗ properties: {noise: ▸64 kg, mass: 64 kg}
""", unit_wrong_kind,
)


def figure_worded(analysis: Analysis) -> Iterator[Found]:
    led = {naming.at for naming in reckoning(analysis).namings if naming.hits}
    for leaf, place, key in analysis.index.values:
        if not isinstance(leaf.value.what, Word) or leaf.at in led:
            continue
        if (type(place.entry).__name__, key) == ("Loop", "times"):
            yield Found(
                leaf.at, f"`{leaf}` is no number of times.",
                f"If it ends the round, write `{{until: {leaf}}}`; beside it `times: about 2; max 5`.", place.owner_id,
            )
            continue
        wanted = _wanted(place, key)
        if wanted:
            yield Found(
                leaf.at, f"`{leaf}` is a word; under `{key_of(place, key)}` belongs {in_words(wanted)}.",
                "Write a figure, with `about` or `perhaps` before it if it is not sure; the word goes under `note`.",
                place.owner_id,
            )


def _wanted(place: Place, key: str) -> tuple[str, ...]:
    """What kind of figure must stand here; nothing where a word may do."""
    if not isinstance(place.entry, Limit):
        return OF_KEY.get((type(place.entry).__name__, key), ())
    named = key_of(place, key)
    # What goes in at once may be told in words: a tray, a full rack.
    return OF_LIMIT.get(named, ()) if key == "is_" and named != "load" else ()


FIGURE_WORDED = Rule(
    "figure-worded", Level.WARNING, "A word where only a figure can be reckoned with.",
    "Everybody in the shop knows today how long `overnight` is. No plan can add it up, no skill goes stale by "
    "it, and the next one will take it for eight hours, or for twenty.",
    """\
=== skills/filing.yml
skill: filing
title: Filing
✓ refresh: {is: 12 mo, note: Before the season.}
✗ refresh: ▸yearly
""", figure_worded,
)
