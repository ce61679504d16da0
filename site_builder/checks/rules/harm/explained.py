"""Questions about what can hurt."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.gather import hazards_of
from site_builder.notebook.hazard_kinds import injuries_in
from site_builder.notebook.model.harm import Hazard, Never
from site_builder.notebook.model.judging import Check


def hazard_unworded(analysis: Analysis) -> Iterator[Found]:
    for hazard, place in analysis.index.of(Hazard):
        if hazard.word is None and "word" not in hazard.asked:
            yield Found(
                hazard.at, f"How badly can “{hazard.hazard}” hurt somebody?",
                "Add `word:` with `danger` (it kills or maims), `warning` (it may), `caution` (it hurts and "
                "heals) or `notice` (it harms only the work).",
                place.owner_id,
            )


HAZARD_UNWORDED = Rule(
    "hazard-unworded", Level.QUESTION, "A hazard without its signal word.",
    "A scratched knuckle and a lost eye must not look alike on the page. The four words are those of ANSI Z535.6 "
    "and ISO 3864-2.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    hazards:
      - ▸hazard: abrasion
✓         word: caution
        harm: The belt takes the skin off a finger.
        avoid: Hold the foot by its rim.
✗       - ▸the belt may tear
""", hazard_unworded,
)


def harm_unsaid(analysis: Analysis) -> Iterator[Found]:
    for hazard, place in analysis.index.of(Hazard):
        if hazard.harm is None and "harm" not in hazard.asked:
            yield Found(
                hazard.at, f"What does “{hazard.hazard}” do to whoever meets it?",
                "Add `harm:` with what it does, as `It burns to the bone.`", place.owner_id,
            )


HARM_UNSAID = Rule(
    "harm-unsaid", Level.QUESTION, "A hazard without the harm it does.",
    "Who knows what it does keeps his hands away; a bare name frightens nobody.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     hazards: {hazard: abrasion, word: warning, harm: The belt takes the skin off a finger.}
✗     hazards: ▸{hazard: abrasion, word: warning, avoid: Hold the foot by its rim.}
""", harm_unsaid,
)


def never_unexplained(analysis: Analysis) -> Iterator[Found]:
    for never, place in analysis.index.of(Never):
        if not never.because and "because" not in never.asked:
            yield Found(
                never.at, f"Why must one never do this: “{never.do.rstrip('.')}”?",
                "Add `because:` with what happened, or would happen.", place.owner_id,
            )


NEVER_UNEXPLAINED = Rule(
    "never-unexplained", Level.QUESTION, "A prohibition without its reason.",
    "A rule whose reason is lost is broken by the first clever newcomer, and kept by the next where it no longer "
    "holds.",
    """\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
never:
✓   - do: Wear gloves at the belt.
✓     because: The belt takes the glove, and the hand is in it.
✗   - ▸Wear gloves at the belt.
""", never_unexplained,
)


def accident_unsaid(analysis: Analysis) -> Iterator[Found]:
    shop = analysis.notebook.shop
    if shop is None or "accident" in shop.asked:
        return
    if not shop.accident:
        yield Found(
            shop.at, "What is done first when somebody is hurt, and whom does one call?",
            "Add `accident:` with a line for each kind of injury, and the number to call.", str(shop.shop),
        )
        return
    told = set(injuries_in(shop.accident))
    for hazard, place in analysis.index.of(Hazard):
        if hazard.word != "danger":
            continue
        for injury in injuries_in((hazard.hazard, hazard.harm or ""), hazard.kind):
            if injury not in told:
                told.add(injury)  # asked once, where it is met first
                yield Found(
                    hazard.at, f"What is done first after {injury}? “{hazard.hazard}” can lead to it.",
                    "Add a line to `accident:` of the shop, as first aid where you live teaches it.",
                    place.owner_id,
                )


ACCIDENT_UNSAID = Rule(
    "accident-unsaid", Level.QUESTION,
    "Nobody has said what to do after an accident, or after one that the pages warn of.",
    "In the minute after, nobody looks anything up. What to do first must be on the page by the door before it "
    "is needed.",
    """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
accident:
  - Call 112. Say where, what has happened and how many are hurt.
✓   - Burn - cool running water, twenty minutes.
=== tools/machines/furnace.yml
machine: furnace
title: Furnace
hazards:
  - ▸hazard: splash
    word: danger
    harm: Molten metal burns to the bone.
    avoid: Nothing damp near the pot.
""", accident_unsaid,
)


def tasted_danger(analysis: Analysis) -> Iterator[Found]:
    """Common practice in every laboratory: nothing is tasted where something dangerous is handled."""
    for feel, place in analysis.index.of(Check):
        own = place.procedure
        if feel.sense != "taste" or own is None or feel.note is not None or (
                place.step is not None and place.step.note is not None):
            continue
        grave = [one.item for one in hazards_of(analysis.notebook, own)
                 if isinstance(one.item, Hazard) and one.item.word in ("danger", "warning")]
        if grave:
            yield Found(
                feel.at,
                f"It is tasted where “{grave[0].hazard}” is met. Is there another way to tell, or why is it safe?",
                "Add `note:` with the way that needs no tongue, or with what makes it safe.", place.owner_id,
            )


TASTED_DANGER = Rule(
    "tasted-danger", Level.QUESTION, "Something is tasted at work that can kill or maim.",
    "What the old hands did with the tongue a strip of paper or a drop of indicator often tells as well. "
    "Nothing is tasted where something dangerous is handled; that is common practice.",
    """\
=== procedures/soap/boil.yml
procedure: boil
title: Boil the soap
steps:
  - do: Try the cooled soap.
✓     note: A drop of indicator tells the same without the tongue.
    hazards: {hazard: lye, word: danger, harm: It blinds., avoid: Goggles on.}
    feel: ▸{sense: taste, good: A faint bite stays., bad: There is no bite.}
""", tasted_danger,
)
