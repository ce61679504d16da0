"""Questions about values that are doubted, disputed or missing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.limits import cell_place, is_guide, is_judged, limits_of, told_in
from site_builder.checks.rules.values.names import path_of
from site_builder.checks.rules.values.sides import is_plain
from site_builder.checks.rules.values.wording import name_of, question, thing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit, Saying, Window
from site_builder.notebook.names import NamedValue
from site_builder.quantity import Ask, Limits, Some, Value, as_said, kind_of


def value_perhaps(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, key in analysis.index.values:
        if leaf.value.perhaps or (isinstance(place.entry, Limit) and place.entry.doubt):
            told = as_said(_sure(leaf.value))
            doubt = f" {place.entry.doubt}" if isinstance(place.entry, Limit) and place.entry.doubt else ""
            # a time or a share has no name of the shop's own, and its key is no word for the master
            asked = f"Does {told} hold for {thing(place, key)}?" if name_of(place) else (
                f"{question(place, key, things=analysis.notebook.things)} Is it {told}?")
            yield Found(
                leaf.at, f"{asked}{doubt}",
                "Take `perhaps` or `doubt` away once it is sure, or write what is right.", place.owner_id,
            )


def _sure(value: Value) -> Value:
    what = value.what
    if isinstance(what, Limits):
        what = Limits(tuple(replace(clause, perhaps=False) for clause in what.clauses))
    return Value(what)


VALUE_PERHAPS = Rule(
    "value-perhaps", Level.QUESTION, "A value that is doubted.",
    "A guess that nobody marks is believed after a year. A guess that is marked can be asked about.",
    """\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
✓ properties: {shelf life: 12 mo}
✗ properties: {shelf life: ▸perhaps 12 mo}
""", value_perhaps,
)


def value_disputed(analysis: Analysis) -> Iterator[Found]:
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            if limit.said and not limit.is_settled:
                answers = "; ".join(_answer(analysis, said) for said in limit.said)
                ends = "Which of them holds?" if len(limit.said) > 1 else "Does it hold?"
                name = thing(place)
                yield Found(
                    limit.at, f"{name[0].upper()}{name[1:]}: {answers}. {ends}",
                    "Write what holds under `is`, and leave `said` as it stands.", place.owner_id,
                )


def _answer(analysis: Analysis, said: Saying) -> str:
    people = analysis.notebook.people
    who = "somebody" if said.who is None else str(people[said.who].name) if said.who in people else str(said.who)
    return f"{who} says {as_said(said.written.value) if said.written is not None else 'nothing yet'}"


VALUE_DISPUTED = Rule(
    "value-disputed", Level.QUESTION, "Several people say different things, and nobody has settled it.",
    "Two who know the work see it differently. That is worth an hour at the bench, with both of them.",
    """\
=== procedures/hood/spin-hood.yml
procedure: spin-hood
title: Spin the hood over the chuck
steps: Lay the brass down.
settings:
  strokes before annealing:
✓     is: about 20 strokes
    ▸said:
      - {is: about 20 strokes, who: edda}
      - {is: about 30 strokes, who: josk}
=== skills/people.yml
people:
  edda: {name: Edda}
  josk: {name: Josk}
""", value_disputed,
)


def size_asked(analysis: Analysis) -> Iterator[Found]:
    for naming in reckoning(analysis).namings:
        if len(naming.hits) == 1 and not naming.whole and is_untold(naming.hits[0]):
            yield Found(
                naming.at, f"How much is `{naming.name}`? {_capital(thing(naming.place))} hangs on it.",
                f"Write the figure at `{path_of(naming.hits[0])}`.", naming.place.owner_id,
            )


def is_untold(named: NamedValue) -> bool:
    """Whether no variant of the value tells anything."""
    cells = [cell for limit in named.limits for _, cell in limit.cells()]
    return bool(cells) and all(
        cell.written is not None and isinstance(cell.written.value.what, Ask | Some) for cell in cells
    )


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]


SIZE_ASKED = Rule(
    "size-asked", Level.QUESTION, "A limit leans on a value that is not told yet.",
    "Until the other value is told, this one cannot be reckoned either, and nobody can check it.",
    """\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - do: Press the filler in.
✓     limits: {depth of the pit: max 2 mm}
✗     limits: {depth of the pit: ask}
    settings: {one layer: 'max 1/2 of [▸depth of the pit]'}
""", size_asked,
)


def given_missing(analysis: Analysis) -> Iterator[Found]:
    for kind in (Limit, Window, Saying):
        for limit, place in analysis.index.of(kind):
            for trend in limit.follows:
                name = trend.value.name
                if trend.value.per is None and name not in limit.given:
                    value = as_said(limit.written.value) if limit.written is not None else thing(place)
                    yield Found(
                        trend.at, f"At which {name} does {value} hold? It {trend.value.way} from there.",
                        f"Add `given:` with `{name}` and the figure at which it holds.", place.owner_id,
                    )


GIVEN_MISSING = Rule(
    "given-missing", Level.QUESTION, "A value shifts with something, and nobody said from where.",
    "Even without a figure for the trend, one must know in which weather the value was found.",
    """\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties:
  pot life:
    is: about 5 min
✓     given: {room temperature: 20 °C}
    follows: ▸falls with room temperature
""", given_missing,
)


_BOUND = ("limits", "sizes", "settings", "conditions")
# A count is exact, and the parts of a mix are weighed as they are told.
_EXACT = ("count", "part", "part by weight", "part by volume")


def no_limits(analysis: Analysis) -> Iterator[Found]:
    for limit, place in limits_of(analysis):
        if place.key not in _BOUND or is_judged(limit) or is_guide(limit):
            continue
        plain = [
            (cell, written) for cell, written in told_in(limit)
            if is_plain(written) and kind_of(written.value) not in _EXACT
        ]
        if plain:  # a table is asked about once
            cell, written = plain[0]
            about = thing(cell_place(analysis, cell, place)) if len(plain) == 1 else thing(place)
            yield Found(
                written.at, f"How far off may {about} be? It says only {as_said(written.value)}.",
                "Write it with `±`, as a range, or with `min` and `max`.", place.owner_id,
            )


NO_LIMITS = Rule(
    "no-limits", Level.QUESTION, "A figure that does not say how far off it may be.",
    "Nothing is ever exactly 32 mm. Whoever does not know how far off it may be either takes endless pains or none.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
✓ limits: {height of the foot: 32 +0.3/0 mm}
✗ limits: {height of the foot: ▸32 mm}
""", no_limits,
)
