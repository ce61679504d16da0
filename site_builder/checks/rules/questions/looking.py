"""Questions about pictures, looking, and when to stop."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.judging import doing, judged, judged_by_feel
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import Loop
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.model.things import Upkeep
from site_builder.quantity import Limits


def picture_asked(analysis: Analysis) -> Iterator[Found]:
    pictured = {place.owner_id for _, place in analysis.index.of(Picture)}
    for feel, place in judged_by_feel(analysis):
        if feel.sense == "sight" and not feel.with_ and place.owner_id not in pictured and (feel.good or feel.bad):
            pictured.add(place.owner_id)  # asked once a procedure
            yield Found(
                feel.at, f"Is there a photograph of good and one of bad: {quoted(feel.good or feel.bad[0])}?",
                "Add `pictures:` with `file` and `shows`, one for each.", place.owner_id,
            )


PICTURE_ASKED = Rule(
    "picture-asked", Level.QUESTION, "A judgement by eye without a picture.",
    "What good looks like and what bad looks like is seen in two photographs sooner than it is said in a page.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Hold it under the lamp.
✓     feel:
✓       sense: sight
✓       good: The line of the lamp runs without a break.
✓       bad: It breaks at the post.
✓       pictures: {file: photos/lamp.jpg, shows: The line of the lamp}
✓ === procedures/photos/lamp.jpg photo 40x30
✗     feel: ▸{sense: sight, good: The line of the lamp runs without a break., bad: It breaks at the post.}
""", picture_asked,
)


def look_cadence(analysis: Analysis) -> Iterator[Found]:
    for look, place in judged(analysis):
        if look.when is None and "when" not in look.asked and (look.good or look.bad):
            yield Found(
                look.at, f"How often do you look: {quoted(look.good or look.bad[0])}?",
                "Add `when:`, as `each piece` or `every 10 pieces`.", place.owner_id,
            )


LOOK_CADENCE = Rule(
    "look-cadence", Level.QUESTION, "A check or a feel that does not say how often.",
    "What is looked at when somebody thinks of it is not looked at in the last week before the delivery.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Draw the edge over the fine belt.
✓     checks: {good: No grey is left., when: each piece}
✗     checks: ▸{good: No grey is left.}
""", look_cadence,
)


def act_cadence(analysis: Analysis) -> Iterator[Found]:
    for kind in (Step, Upkeep):
        for act, place in analysis.index.of(kind):
            if place.key in ("also", "upkeep") and act.when is None and "when" not in act.asked:
                yield Found(
                    act.at, f"How often: {quoted(act.do or act.use or place.owner_id)}?",
                    "Add `when:`, as `every 10 pieces`, `each week` or `last 10 s`.", place.owner_id,
                )


ACT_CADENCE = Rule(
    "act-cadence", Level.QUESTION, "An act within a step, or a piece of upkeep, that does not say how often.",
    "Every so often is the part of the work that is forgotten first.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     also: {do: Touch the grease stick to the belt., when: every 10 pieces}
✗     also: ▸Touch the grease stick to the belt.
""", act_cadence,
)


def ended_asked(analysis: Analysis) -> Iterator[Found]:
    for loop, place in analysis.index.of(Loop):
        work = place.parent.entry if place.parent is not None else None
        if loop.times is None or loop.until or "until" in loop.asked or not isinstance(work, Work):
            continue
        # A step that measures, judges or has its own end says by that when the round is over.
        if not (work.until or work.limits or work.feel or work.checks or "until" in work.asked):
            yield Found(
                loop.at, f"How do you know that it was done often enough: {doing(place)}?",
                "Add `until:` to `repeat` with the sign by which it is over.", place.owner_id,
            )


ENDED_ASKED = Rule(
    "ended-asked", Level.QUESTION, "A round that is gone again and again without a word on when it is enough.",
    "A loop ends by a sign. Without it one hand stops a round too early, another a round too late.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     repeat: {until: The grey skin is gone., times: about 2; max 5}
✗     repeat: ▸about 2; max 5
""", ended_asked,
)


def loop_most(analysis: Analysis) -> Iterator[Found]:
    for loop, place in analysis.index.of(Loop):
        if "times" in loop.asked or any(end.count for end in loop.until):
            continue
        if loop.times is None and not loop.until:
            continue  # that it never ends is more than a question
        if loop.times is None or _is_open(loop.times):
            yield Found(
                loop.at if loop.times is None else loop.times.at,
                f"How often at most does one go round: {doing(place)}?",
                "Write `times:` with both, as `about 2; max 5`.", place.owner_id,
            )


def _is_open(times: Written) -> bool:
    """Whether a count has a usual or a least, but no most."""
    what = times.value.what
    return isinstance(what, Limits) and what.get("max") is None and what.get("under") is None


LOOP_MOST = Rule(
    "loop-most", Level.QUESTION, "A round that does not say how often at most.",
    "What is not good after so many rounds does not get good by another. The number says when to stop and ask.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     repeat: {until: The grey skin is gone., times: about 2; max 5}
✗     repeat: ▸{until: The grey skin is gone.}
✗   - do: Sweep it along the fine belt.
✗     repeat: {until: It shines., times: ▸about 2}
""", loop_most,
)
