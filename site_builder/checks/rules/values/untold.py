"""Questions about values that are not told whole."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.wording import SIDES, question, question_for_key, thing
from site_builder.notebook.finding import At, Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit, Window
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import Time
from site_builder.notebook.tree import Text
from site_builder.quantity import (
    WHICH_GALLON,
    Ask,
    Cadence,
    Limits,
    Some,
    Word,
    had_phone_signs,
    kind_of,
    show_cadence,
    show_value,
    units_in,
)


def time_unbased(analysis: Analysis) -> Iterator[Found]:
    for time, place in analysis.index.of(Time):
        told = [one for one in (time.each, time.load, time.lot, time.setup) if one is not None]
        figures = [one for one in told if not isinstance(one.value.what, Ask | Some)]
        if figures and not (time.source or "source" in time.asked or _within_a_timed_whole(time, place)):
            yield Found(
                figures[0].at, f"Nothing says how `{figures[0]}` was found.",
                "Add `source:`, as `timed over 40 pieces`, `memory` or `told by` somebody.", place.owner_id,
            )


def _within_a_timed_whole(time: Time, place: Place) -> bool:
    """Whether the procedure around it says how its times were found."""
    own = place.procedure
    return own is not None and any(whole.source for whole in own.time if whole is not time)


TIME_UNBASED = Rule(
    "time-unbased", Level.WARNING, "A work time, and nothing on how it was found.",
    "A time that was measured over forty pieces and one that was guessed at a desk look the same; the season is "
    "planned on both.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
✓ time: {setup: 20 min, each: about 5 min, source: timed over 40 pieces}
✗ time: {setup: 20 min, each: ▸about 5 min}
""", time_unbased,
)


_YEAR = timedelta(days=365)


def doubt_old(analysis: Analysis) -> Iterator[Found]:
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            doubted = limit.doubt or (limit.written is not None and limit.written.value.perhaps)
            if not doubted and (limit.is_settled or not limit.said):
                continue
            since = _since(limit, place)
            if since is not None and analysis.today - since > _YEAR:
                at = limit.written.at if limit.written is not None else limit.at
                yield Found(
                    at, f"This doubt about {thing(place)} has stood since {since.isoformat()} at least.",
                    "Measure it or ask, and write what holds; or add to `said` who was asked, and when.",
                    place.owner_id,
                )


def _since(limit: Limit, place: Place) -> date | None:
    """The day of the last answer, or else of the last revision of the page."""
    said = [one.date.value.last for one in limit.said if one.date is not None]
    if said:
        return max(said)
    if isinstance(place.owner, Procedure):
        return max((one.date.value.last for one in place.owner.revisions if one.date is not None), default=None)
    return None


DOUBT_OLD = Rule(
    "doubt-old", Level.WARNING, "A doubt that has stood for more than a year.",
    "A doubt is meant to be cleared. After a year people work by the doubtful value as if it were sure.",
    """\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps: Press the filler in.
limits: {depth of the pit: ▸perhaps max 2 mm}
✓ revisions: {date: 2026-05-02, what: Written down.}
✗ revisions: {date: 2024-05-02, what: Written down.}
""", doubt_old,
)


def phone_sign(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, _ in analysis.index.values:
        if not leaf.text.isascii() and had_phone_signs(leaf.text):
            yield _found_phone_sign(leaf.text, show_value(leaf.value), place)
    for other, place, _ in analysis.index.leaves:
        if not other.text.isascii() and had_phone_signs(other.text):
            plain = show_cadence(other.value) if isinstance(other.value, Cadence) else ""
            yield _found_phone_sign(other.text, plain, place)


def _found_phone_sign(text: Text, plain: str, place: Place) -> Found:
    first = next(i for i, letter in enumerate(text) if not letter.isascii() and _is_sign(text, i))
    read = f" It is read as `{plain}`." if plain else ""
    fix = f"Write `{plain}`." if plain else "Type it with a plain `-`, `..`, `x` or a plain blank."
    return Found(text.at_letter(first), f"`{text}` holds a sign that only phones write.{read}", fix, place.owner_id)


def _is_sign(text: Text, at: int) -> bool:
    """Whether this letter is such a sign, given what follows up to the next letter beyond the plain ones."""
    rest = text[at + 1 :]
    end = next((i for i, letter in enumerate(rest) if not letter.isascii()), len(rest))
    return had_phone_signs(text[at] + (rest[:end] or "0"))


PHONE_SIGN = Rule(
    "phone-sign", Level.WARNING, "A sign that a phone or a word processor put in place of a plain one.",
    "A long dash looks the same whether it is a minus or a range. It is read, but what is written plainly cannot "
    "be read wrongly.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
✓ conditions: {room temperature: 12..30 °C}
✗ conditions: {room temperature: 12▸–30 °C}
""", phone_sign,
)


def value_ask(analysis: Analysis) -> Iterator[Found]:
    things = analysis.notebook.things
    for leaf, place, key in analysis.index.values:
        what = leaf.value.what
        if type(what) is Ask:
            if not _is_disputed(place):
                yield _found_value_ask(leaf.at, question(place, key, things=things), place)
        elif type(what) is Limits:
            for clause in what.clauses:
                if type(clause.what) is Ask:
                    text = question(place, key, kind_of(leaf.value), SIDES.get(clause.lead, ""), things=things)
                    yield _found_value_ask(leaf.at, text, place)
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            if limit.is_ is None and not (limit.said or limit.sum or limit.opens or limit.closes):
                yield _found_value_ask(limit.at, question(place, place.key, things=things), place)
    for places in analysis.index.places.values():
        for place in places:
            if place.entry.asked:
                for asked in place.entry.asked:
                    yield _found_value_ask(asked.at, question_for_key(place, asked, things), place)


def _is_disputed(place: Place) -> bool:
    """Whether several have answered already; which of them is right, another rule asks."""
    return isinstance(place.entry, Limit) and len(place.entry.said) > 1


def _found_value_ask(at: At, text: str, place: Place) -> Found:
    return Found(at, text, "Write the answer here; it is asked until then.", place.owner_id)


VALUE_ASK = Rule(
    "value-ask", Level.QUESTION, "A value, or a key, that was written down as not known.",
    "What the master has not told yet stands here, so that it is asked while there is still somebody to ask.",
    """\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
✓ properties: {pot life: about 5 min}
✗ properties: {pot life: ▸ask}
✗ ▸supplier: ask
""", value_ask,
)


def value_some(analysis: Analysis) -> Iterator[Found]:
    things = analysis.notebook.things
    for leaf, place, key in analysis.index.values:
        if type(leaf.value.what) is Some:
            unit = leaf.value.what.unit
            text = question(place, key, unit.kind, things=things).removesuffix("?")
            yield Found(leaf.at, f"{text}, in {unit.many}?", _FIX, place.owner_id)
        elif type(leaf.value.what) is Limits:
            for clause in leaf.value.what.clauses:
                if type(clause.what) is Some:
                    side = SIDES.get(clause.lead, "")
                    text = question(place, key, clause.what.unit.kind, side, things=things).removesuffix("?")
                    yield Found(leaf.at, f"{text}, in {clause.what.unit.many}?", _FIX, place.owner_id)


_FIX = "Write the figure in place of `some`."


VALUE_SOME = Rule(
    "value-some", Level.QUESTION, "A value of which only the kind is known.",
    "“Some minutes” is enough for whoever has done it a thousand times, and nothing for the one who does it first.",
    """\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps: Press the filler in.
✓ wait: min 40 min
✗ wait: ▸some min
""", value_some,
)


def gallon_asked(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, key in analysis.index.values:
        if WHICH_GALLON in units_in(leaf.value):
            yield Found(
                leaf.at, f"Which gallon is meant for {thing(place, key)}, the American or the imperial?",
                "Write `US gal` or `imp gal`.", place.owner_id,
            )


GALLON_ASKED = Rule(
    "gallon-asked", Level.QUESTION, "A gallon of which nobody says whose it is.",
    "The imperial gallon is a fifth larger than the American. Until it is told, the figure stands as it was "
    "written and is turned into no other unit.",
    """\
=== tools/materials/lye.yml
material: lye
title: Lye
✓ properties: {capacity of the barrel: 36 imp gal}
✗ properties: {capacity of the barrel: ▸36 gal}
""", gallon_asked,
)


def grit_asked(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, key in analysis.index.values:
        word = leaf.value.what
        if type(word) is Word and word.text[:1].isdigit() and " grit" in word.text.lower():
            grade = word.text.partition(" ")[0]
            yield Found(
                leaf.at, f"What stands on the back of {word.text} for {thing(place, key)}, and by which standard?",
                f"Write what stands on the back, as `P{grade}` or `CAMI {grade}`.", place.owner_id,
            )


GRIT_ASKED = Rule(
    "grit-asked", Level.QUESTION, "A grit of which nobody says by which standard it is counted.",
    "Two makers count grit by two standards, and above 220 the same number is no longer the same grain: P400 is "
    "coarser than CAMI 400.",
    """\
=== procedures/top/sand-top.yml
procedure: sand-top
title: Sand the top
steps:
✓   - {do: Sand it with the grain., settings: {grit: P80}}
✗   - {do: Sand it with the grain., settings: {grit: ▸80 grit}}
""", grit_asked,
)
