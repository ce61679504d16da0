from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.limits import is_open
from site_builder.checks.rules.values.wording import thing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit, Saying, Window
from site_builder.quantity import as_said


def check(analysis: Analysis) -> Iterator[Found]:
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            if limit.said and is_open(limit):
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


RULE = Rule(
    code="value-disputed",
    level=Level.QUESTION,
    summary="Several people say different things, and nobody has settled it.",
    reason=(
        "Two who know the work see it differently. That is worth an hour at the bench, with both of "
        "them."
    ),
    passes="""\
=== procedures/hood/spin-hood.yml
procedure: spin-hood
title: Spin the hood over the chuck
steps: Lay the brass down.
settings:
  strokes before annealing:
    is: about 20 strokes
    said:
      - {is: about 20 strokes, who: edda}
      - {is: about 30 strokes, who: josk}
=== skills/people.yml
people:
  edda: {name: Edda}
  josk: {name: Josk}
""",
    fails="""\
=== procedures/hood/spin-hood.yml
procedure: spin-hood
title: Spin the hood over the chuck
steps: Lay the brass down.
settings:
  strokes before annealing:
    ▸said:
      - {is: about 20 strokes, who: edda}
      - {is: about 30 strokes, who: josk}
=== skills/people.yml
people:
  edda: {name: Edda}
  josk: {name: Josk}
""",
    check=check,
)
