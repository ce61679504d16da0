"""Questions about ends, troubles and decisions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.judging import doing, judged
from site_builder.checks.rules.values.wording import subject
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.judging import End, Remedy, Trouble
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.small import Time, Variant
from site_builder.quantity import Ask, as_said

_BY: Mapping[str, str] = {
    "clock": "the clock", "count": "the count", "sign": "the sign", "feel": "the feel",
    "check": "the test", "state": "what is measured",
}


def several_ends(analysis: Analysis) -> Iterator[Found]:
    for end, place in analysis.index.of(End):
        told = end.ways()
        if len(told) > 1 and end.wins is None and "wins" not in end.asked:
            signs = ", ".join(_BY[one] for one in told[:-1])
            yield Found(
                end.at, f"{doing(place)}: over by {signs} or {_BY[told[-1]]}, which of them decides?",
                "Add `wins:` with `first`, `last`, or the one that decides.", place.owner_id,
            )


SEVERAL_ENDS = Rule(
    "several-ends", Level.QUESTION, "Several signs that a thing is over, and not a word on which of them decides.",
    "The clock says stop and the hand says not yet. Somebody has to have said which of the two is right.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Let the belt run up.
✓     until: {clock: about 30 s, sign: The belt has stopped wandering., wins: last}
✗     until: ▸{clock: about 30 s, sign: The belt has stopped wandering.}
""", several_ends,
)


def trouble_causeless(analysis: Analysis) -> Iterator[Found]:
    for trouble, place in analysis.index.of(Trouble):
        if not trouble.cause and "cause" not in trouble.asked:
            yield Found(
                trouble.at, f"Why does it happen: {quoted(trouble.sign)}?",
                "Add `cause:`; of several the likeliest first, or a trouble for each that has its own remedy.",
                place.owner_id,
            )


TROUBLE_CAUSELESS = Rule(
    "trouble-causeless", Level.QUESTION, "A trouble without its cause.",
    "A remedy without its cause is tried in all cases, also in those in which it makes things worse.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
✓ troubles: {sign: It rocks., cause: The belt is worn., do: Change the belt., then: again}
✗ troubles: ▸{sign: It rocks., do: Change the belt., then: again}
""", trouble_causeless,
)


def fail_wayless(analysis: Analysis) -> Iterator[Found]:
    for trouble, place in analysis.index.of(Trouble):
        if _is_wayless(trouble):
            yield _found(trouble, place, trouble.sign)
    for remedy, place in analysis.index.of(Remedy):
        if _is_wayless(remedy) and remedy.trouble is None and remedy.means is not None:
            yield _found(remedy, place, remedy.means)
    for look, place in judged(analysis):
        work = place.parent.entry if place.parent is not None else None
        goes_round = isinstance(work, Work) and work.repeat is not None
        if not look.fails and "fails" not in look.asked and look.good and not goes_round:
            yield Found(
                look.at, f"What do you do when it is not so: {quoted(look.good)}?",
                "Add `fails:` with `do`, and `then` for where the work goes on.", place.owner_id,
            )


def _is_wayless(way: Remedy | Trouble) -> bool:
    return not (way.do or way.then or way.asked & {"do", "then"})


def _found(way: Remedy | Trouble, place: Place, sign: str) -> Found:
    return Found(
        way.at, f"What do you do then: {quoted(sign)}?",
        "Add `do:` with the remedy, and `then:` for where the work goes on; `then: none` if nothing can be done.",
        place.owner_id,
    )


FAIL_WAYLESS = Rule(
    "fail-wayless", Level.QUESTION, "Something that fails, and no way on from there.",
    "With a bad piece in the hand everybody does something. What the master would do should stand there before.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Try it on the plate.
✓     checks: {good: It does not rock., when: each piece, fails: {do: Grind it again., then: again}}
✓ troubles: {sign: Pits come up., cause: Gas in the metal., then: aside}
✗     checks: ▸{good: It does not rock., when: each piece}
✗     limits:
✗       height:
✗         is: min 32 mm
✗         below: ▸{means: The glass has no hold.}
✗ troubles: ▸{sign: Pits come up., cause: Gas in the metal.}
""", fail_wayless,
)


def time_unobserved(analysis: Analysis) -> Iterator[Found]:
    asked: set[str] = set()
    for time, place in analysis.index.of(Time):
        told = time.each or time.load or time.lot
        own = place.procedure
        if own is None or told is None or isinstance(told.value.what, Ask) or place.owner_id in asked or (
                "source" in time.asked):
            continue
        # What stands on a step is a share of what was taken for the whole.
        if place.parent is not None and place.parent.entry is not own and own.time:
            continue
        if time.source is None or time.source == "memory" or time.source.startswith("told by"):
            asked.add(place.owner_id)
            of = "" if time.each is not None else " a load" if time.load is not None else " a lot"
            yield Found(
                time.at,
                f"“{subject(place)}” is said to take {as_said(told.value)}{of}: has anybody ever timed it?",
                "Time a dozen pieces, and add `source: timed over 12 pieces` and `date`.", place.owner_id,
            )


TIME_UNOBSERVED = Rule(
    "time-unobserved", Level.QUESTION, "A time that somebody told, and nobody has taken.",
    "Everybody remembers the good days. A time taken over forty pieces is mostly longer than the one that is told.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
✓ time: {each: about 5 min, source: timed over 40 pieces, date: 2026-03-02}
✗ time: ▸{each: about 5 min, source: told by edda}
""", time_unobserved,
)


def question_noted(analysis: Analysis) -> Iterator[Found]:
    for spots in (analysis.index.plain, analysis.index.texts):
        for spot in spots:
            if spot.key == "questions":
                yield Found(
                    spot.text.at, " ".join(spot.text.split()),
                    "Write the answer where it belongs, and take the question out.", spot.place.owner_id,
                )


QUESTION_NOTED = Rule(
    "question-noted", Level.QUESTION, "A question that somebody has written down.",
    "Somebody stood at the bench, did not know, and wrote it down so that it would be asked.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
✗ questions:
✗   - ▸How soon must it be filled before the sole stains?
""", question_noted,
)


def decided_asked(analysis: Analysis) -> Iterator[Found]:
    open_ = [
        (variant, place) for variant, place in analysis.index.of(Variant)
        if not variant.decided and "decided" not in variant.asked and place.name is not None
    ]
    if not open_:
        return
    brought = _brought(analysis)
    for variant, place in open_:
        if place.name not in brought:
            yield Found(
                variant.at, f"Who decides the {place.name}, and when is it decided at the latest?",
                "Add `decided:` with a step or an event, as `start of cast-foot`.", place.owner_id,
            )


def _brought(analysis: Analysis) -> set[str]:
    """What the work shows, and what an order, a customer or a part brings along."""
    notebook, shop = analysis.notebook, analysis.notebook.shop
    bringing = [*notebook.orders.values(), *notebook.parts.values(), *(shop.customers.values() if shop else ())]
    chosen = {str(name) for one in bringing for name in one.chosen}
    return chosen | {
        str(name) for work in (Procedure, Step) for one, _ in analysis.index.of(work) for name in one.finds
    }


DECIDED_ASKED = Rule(
    "decided-asked", Level.QUESTION, "A choice of which nobody has said when it is made.",
    "A choice that is made too late is made twice: once by chance and once by scrap.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
✓ variants: {batch: {values: [half, tray], decided: start of weigh}}
✗ variants: {batch: ▸{values: [half, tray]}}
steps: {id: weigh, do: Weigh the paste.}
""", decided_asked,
)
