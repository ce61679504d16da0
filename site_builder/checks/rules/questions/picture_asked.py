from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.judging import judged_by_feel
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.picture import Picture


def check(analysis: Analysis) -> Iterator[Found]:
    pictured = {place.owner_id for _, place in analysis.index.of(Picture)}
    for feel, place in judged_by_feel(analysis):
        if feel.sense == "sight" and not feel.with_ and place.owner_id not in pictured and (feel.good or feel.bad):
            pictured.add(place.owner_id)  # asked once a procedure
            yield Found(
                feel.at, f"Is there a photograph of good and one of bad: {quoted(feel.good or feel.bad[0])}?",
                "Add `pictures:` with `file` and `shows`, one for each.", place.owner_id,
            )


RULE = Rule(
    code="picture-asked",
    level=Level.QUESTION,
    summary="A judgement by eye without a picture.",
    reason="What good looks like and what bad looks like is seen in two photographs sooner than it is said "
    "in a page.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Hold it under the lamp.
    feel:
      sense: sight
      good: The line of the lamp runs without a break.
      bad: It breaks at the post.
      pictures: {file: photos/lamp.jpg, shows: The line of the lamp}
=== procedures/photos/lamp.jpg photo 40x30
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Hold it under the lamp.
    feel: ▸{sense: sight, good: The line of the lamp runs without a break., bad: It breaks at the post.}
""",
    check=check,
)
