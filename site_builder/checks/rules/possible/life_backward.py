from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.signers import first_signed
from site_builder.checks.rules.possible.life_doubtful import YOUNGEST
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.parsed_values import Dated
from site_builder.notebook.model.people import Person

_ORDER = (("born", "joined"), ("born", "left"), ("joined", "left"))


def check(analysis: Analysis) -> Iterator[Found]:
    for person, place in analysis.index.of(Person):
        days: dict[str, Dated | None] = {"born": person.born, "joined": person.joined, "left": person.left}
        for first, second in _ORDER:
            earlier, later = days[first], days[second]
            if earlier is not None and later is not None and later.value.last < earlier.value.first:
                signed = first_signed(analysis).get(place.owner_id)
                # What was signed in between tells which of the two is wrong.
                is_later = first == "joined" or (
                    signed is not None and signed.year >= earlier.value.first.year + YOUNGEST
                )
                yield Found(
                    later.at if is_later else earlier.at,
                    f"{person.name}: `{second}` {later} is before `{first}` {earlier}.",
                    f"Put right the day under `{first}` or the one under `{second}`.", place.owner_id,
                )
                break


RULE = Rule(
    code="life-backward",
    level=Level.ERROR,
    summary="Somebody who joined before birth, or left before joining.",
    reason="Ages, sign-offs and who may do what are reckoned from these days.",
    passes="""\
=== skills/people.yml
people:
  havel: {name: Havel, born: 1919, joined: 1946, left: 1994}
""",
    fails="""\
=== skills/people.yml
people:
  havel: {name: Havel, born: 1919, joined: 1946, left: ▸1934}
  benno: {name: Benno, born: ▸2019, joined: 2018}
""",
    check=check,
)
