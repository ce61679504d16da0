"""Rules on protection, and on machines without a hazard."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.harm.protection import Worn, can_be_worn_against
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.gather import harm_untold
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.things import Machine, Protection


def notice_wears(analysis: Analysis) -> Iterator[Found]:
    for hazard, place in analysis.index.of(Hazard):
        if hazard.word == "notice" and hazard.wear:
            yield Found(
                hazard.wear[0].at,
                f"“{hazard.hazard}” is a `notice`, which harms only the work, yet something is to be worn.",
                "Write `caution`, `warning` or `danger` if it can hurt somebody; else take `wear` away.",
                place.owner_id,
            )


NOTICE_WEARS = Rule(
    "notice-wears", Level.ERROR, "A `notice` that asks for protection.",
    "By ANSI Z535.6 and ISO 3864-2 a notice is not about injury. Either somebody can be hurt, and the word is "
    "too weak, or nobody can, and the protection is worn for nothing.",
    """\
=== procedures/foot/wipe-foot.yml
procedure: wipe-foot
title: Wipe the foot
steps:
  - do: Wipe it with spirit.
    hazards:
✓       - hazard: finger marks
✗       - hazard: dry skin
        word: notice
✓         harm: The primer lifts where a finger was.
✓         avoid: Hold the foot by the rim.
✗         harm: The spirit takes the fat out of the skin.
✗         avoid: Wring the rag out.
✗         wear: ▸nitrile-gloves
✗ === tools/protection/nitrile-gloves.yml
✗ protection: nitrile-gloves
✗ title: Nitrile gloves
""", notice_wears,
)


def protection_unlisted(analysis: Analysis) -> Iterator[Found]:
    for link in analysis.references.links:
        target = link.target
        if link.key == "wear" and target is not None and not isinstance(target.entry, Protection):
            yield Found(
                link.at, f"`{link.text}` is to be worn, but it is no protection.",
                "Name a file that begins with `protection:`, or change the first key of that file.",
                link.place.owner_id,
            )


PROTECTION_UNLISTED = Rule(
    "protection-unlisted", Level.ERROR, "Something is to be worn that is no protection.",
    "What is worn is looked over before use and changed when it is spent. That is written in a file of the kind "
    "`protection`; a tool of another kind on that list is a slip of the pen.",
    """\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
✓ wear: face-shield
✓ === tools/protection/face-shield.yml
✓ protection: face-shield
✓ title: Face shield
✗ wear: ▸feeler-gauges
✗ === tools/gauges/feeler-gauges.yml
✗ gauge: feeler-gauges
✗ title: Feeler gauges
""", protection_unlisted,
)


def hazard_unavoided(analysis: Analysis) -> Iterator[Found]:
    for hazard, place in analysis.index.of(Hazard):
        if hazard.avoid is None and "avoid" not in hazard.asked:
            yield Found(
                hazard.at, f"“{hazard.hazard}” can hurt, but not a word says how to avoid it.",
                "Add `avoid:` with what keeps one whole.", place.owner_id,
            )


HAZARD_UNAVOIDED = Rule(
    "hazard-unavoided", Level.WARNING, "A hazard without a word on how to avoid it.",
    "A warning that only frightens helps nobody; the reader needs the way round.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    hazards:
      - ▸hazard: abrasion
        word: warning
        harm: The belt takes the skin off a finger.
✓         avoid: Hold the foot by its rim.
""", hazard_unavoided,
)


GRAVE = ("danger", "warning")


def hazard_unprotected(analysis: Analysis) -> Iterator[Found]:
    worn = Worn(analysis)
    for hazard, place in analysis.index.of(Hazard):
        if hazard.word not in GRAVE or hazard.wear or hazard.note or "wear" in hazard.asked:
            continue
        if hazard.avoid is not None and can_be_worn_against(hazard) and not worn.against(place):
            yield Found(
                hazard.at,
                f"“{hazard.hazard}” is marked {hazard.word}, and nobody who meets it wears anything.",
                "Add `wear:` with what protects; if nothing one could wear would help, say so in a `note:`.",
                place.owner_id,
            )


HAZARD_UNPROTECTED = Rule(
    "hazard-unprotected", Level.WARNING, "A grave hazard, and no protection at all in the whole of the work.",
    "Care is the first thing to go when one is tired; what is worn stays. Where nothing worn would help, the "
    "page must say so, or the next one thinks it was forgotten.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
hazards:
  - ▸hazard: flying grit
    word: warning
    harm: It goes into the eye.
    avoid: Stand beside the belt, not behind it.
✓     wear: eye-shield
steps:
  - do: Sweep it along the belt.
✓ === tools/protection/eye-shield.yml
✓ protection: eye-shield
✓ title: Eye shield
""", hazard_unprotected,
)


def machine_harmless(analysis: Analysis) -> Iterator[Found]:
    notebook = analysis.notebook
    if notebook.unread:  # the group that tells its hazards may be among what could not be read
        return
    for machine, place in analysis.index.of(Machine):
        if harm_untold(notebook, machine) and "hazards" not in machine.asked:
            yield Found(
                machine.at, f"{machine.title}: not a word on what this machine can do to you.",
                "Add `hazards:` with what it can do, how to avoid it and what to wear.", place.owner_id,
            )


MACHINE_HARMLESS = Rule(
    "machine-harmless", Level.WARNING, "A machine without a single hazard.",
    "There is no machine that cannot hurt. Whoever has worked on one for years no longer sees how, and a "
    "newcomer does not see it yet.",
    """\
=== tools/machines/belt-grinder.yml
▸machine: belt-grinder
title: Belt grinder
✓ hazards:
✓   - hazard: drawn in
✓     word: warning
✓     harm: A sleeve is drawn under the rest.
✓     avoid: Sleeves above the elbow.
""", machine_harmless,
)


_ASKS = frozenset({"wear", "tool", "or_", "with_"})
"""Keys by which protection is put on or taken in hand."""


def protection_unused(analysis: Analysis) -> Iterator[Found]:
    notebook = analysis.notebook
    if notebook.unread:  # whatever asks for it may be among what could not be read
        return
    asked = {
        id_
        for kind, id_ in analysis.references.uses
        if kind == "tool" and any(link.key in _ASKS for link in analysis.references.used_in(kind, id_))
    }
    for id_, protection in notebook.protection.items():
        kin = (id_, *notebook.groups.get(id_, ()), *map(str, protection.members))
        if asked.isdisjoint(kin):
            yield Found(
                protection.at, f"Nothing in the shop asks anybody to wear the {protection.title[:1].lower()}"
                f"{protection.title[1:]}.",
                "Write it under `wear` of the hazard, the tool or the material that it protects from.", id_,
            )


PROTECTION_UNUSED = Rule(
    "protection-unused", Level.WARNING, "Protection that no hazard, tool or material asks for.",
    "It was bought for something. If no page tells for what, it hangs on its nail while somebody is hurt.",
    """\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
✓ wear: ear-defenders
=== tools/protection/ear-defenders.yml
▸protection: ear-defenders
title: Ear defenders
""", protection_unused,
)
