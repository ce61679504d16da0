"""Questions about time, troubles, loss and what is felt."""

from __future__ import annotations

import re
from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import ask, asks_for, named, on_its_own
from site_builder.checks.rules.questions.judging import judged_by_feel
from site_builder.notebook.finding import Found, Level

TIME_ASKED = Rule(
    "time-asked", Level.QUESTION, "A procedure that does not say how long it takes.",
    "Without times nobody can promise a day of delivery, and no newcomer knows how slow is too slow.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
✓ time: {setup: 20 min, each: 5 min, source: timed over 40 pieces}
steps: Sweep it along the belt.
""",
    asks_for(
        "time",
        question="How long does it take, to get ready and for each piece: {}?",
        fix="Add `time:` with `setup` and `each`, and under `source` how it was found.",
    ),
)


TROUBLES_ASKED = Rule(
    "troubles-asked", Level.QUESTION, "A procedure in which nothing ever goes wrong.",
    "Anybody can follow the steps while all goes well. What the master does when it does not is the better half "
    "of what he knows.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
✓ troubles: {sign: It rocks., cause: The belt is worn., do: Change the belt., then: again}
steps: Sweep it along the belt.
""",
    asks_for(
        "troubles",
        question="What goes wrong, how does one see it, and what do you do then: {}?",
        fix="Add `troubles:`, each with `sign`, `cause`, `do` and `then`.",
    ),
)


YIELD_ASKED = Rule(
    "yield-asked", Level.QUESTION, "A procedure that does not say how many pieces fail.",
    "So many more must be begun than are ordered, and only a number shows whether a change has helped.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
✓ yield: {scrap: 1.5 %, rework: 4 %}
steps: Sweep it along the belt.
""",
    asks_for(
        "yield_", "yield",
        question="Of a hundred pieces, how many are lost and how many must be done again: {}?",
        of_a_lot="How often does a lot fail, and what is lost then: {}?",
        fix="Add `yield:` with `scrap` and `rework`; `scrap: 0 %` is an answer too.",
        worth=on_its_own,
        whole=True,
    ),
)


def stand_asked(analysis: Analysis) -> Iterator[Found]:
    for id_, told in analysis.told.items():
        followers = analysis.route.after[id_]
        if not followers or told.knows("wait", "windows"):
            continue
        if any(analysis.told[one].knows("windows") for one in followers):
            continue
        following = analysis.notebook.procedures[followers[0]]
        yield ask(
            told.procedure, id_,
            f"How long may it stand between {named(told.procedure)} and {named(following)}, and how long must it?",
            "Add `wait:` to the last step, as `min 4 h; max 2 d`, or a window where both ends matter.",
        )


STAND_ASKED = Rule(
    "stand-asked", Level.QUESTION, "Work that goes on to the next without a word on how long it may stand.",
    "Metal stains, paint closes, filler stiffens. Who does not know how long a thing may stand finds out on a "
    "Monday.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
✓ wait: max 2 d
steps: Sweep it along the belt.
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
after: grind-foot
steps: Spray it.
""", stand_asked,
)


def feel_one_sided(analysis: Analysis) -> Iterator[Found]:
    for feel, place in judged_by_feel(analysis):
        if feel.good and not feel.bad and "bad" not in feel.asked:
            yield Found(
                feel.at, f"{quoted(feel.good)} is good: what is it like when it is bad?",
                "Add `bad:` in the words of somebody who has felt it.", place.owner_id,
            )
        elif feel.bad and not feel.good and "good" not in feel.asked:
            yield Found(
                feel.at, f"{quoted(feel.bad[0])} is bad: what is it like when it is good?",
                "Add `good:` in the words of somebody who has felt it.", place.owner_id,
            )


FEEL_ONE_SIDED = Rule(
    "feel-one-sided", Level.QUESTION, "A feel of which only one side is told.",
    "One learns a feel between two pieces, the good and the bad. With one of them alone the hand has nothing to "
    "compare.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Draw the edge over the fine belt.
✓     feel: {good: It runs over like a worn coin., bad: It catches the skin.}
✗     feel:
✗       - ▸good: It runs over like a worn coin.
✗       - ▸bad: It catches the skin.
""", feel_one_sided,
)


_SKIN = re.compile(r"\b(finger|thumb|nail|palm|hand|skin|lip)", re.IGNORECASE)
"""Where the skin meets the piece; what an arm or a wrist feels is in the work and not in a piece."""


def feel_no_sample(analysis: Analysis) -> Iterator[Found]:
    feels = list(judged_by_feel(analysis))
    sampled = {place.owner_id for feel, place in feels if feel.with_ or "with" in feel.asked}
    for feel, place in feels:
        if feel.sense == "touch" and feel.good and _SKIN.search(feel.where or "") and place.owner_id not in sampled:
            sampled.add(place.owner_id)  # asked once a procedure
            yield Found(
                feel.at, f"Is there a good piece and a bad one on which a hand can learn it: {quoted(feel.good)}?",
                "Add `with:` with the ids of reference pieces under `tools/samples/`.", place.owner_id,
            )


FEEL_NO_SAMPLE = Rule(
    "feel-no-sample", Level.QUESTION, "A touch that is to be learned without a piece to learn it on.",
    "Words for a feel mean something only to who has felt it. A good piece and a bad one in a drawer outlast "
    "every teacher.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Draw the edge over the fine belt.
✓     feel: {sense: touch, where: the thumb, good: It runs over like a worn coin., with: edge-good}
✓ === tools/samples/edge-good.yml
✓ sample: edge-good
✓ title: Good edge
✗     feel: ▸{sense: touch, where: the thumb, good: It runs over like a worn coin.}
""", feel_no_sample,
)
