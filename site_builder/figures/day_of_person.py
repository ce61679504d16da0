"""The days of a person: a full day of the work that does most, and one shared as the coming order shares it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from site_builder.figures import noise_day, vibration_day
from site_builder.figures.amounts import percent_of
from site_builder.figures.at_machines import EXPOSURES, AtMachine, at_machines, shift_of, strongest
from site_builder.figures.batch_orders import coming, decided
from site_builder.figures.batch_words import NO_BREAK, listed
from site_builder.figures.figure import Input
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import once
from site_builder.figures.hearing import worn_on_ears
from site_builder.safety.verdict import Verdict

_LEVEL = "beside"
"""From this level on somebody works at a machine: learners have ears too."""
_NAMED = 4
"""So many works are named one by one; the rest together."""


class PersonDay(NamedTuple):
    """One day of a person, assumed in words (``told``), and what it ``makes``."""

    what: str
    told: str
    makes: str
    verdicts: tuple[Verdict, ...]
    worn: str
    """What the protection that is named leaves of it; empty where none is."""
    inputs: tuple[Input, ...]
    formula: str
    source: str
    caution: str
    drawing: str = ""


class Planned(NamedTuple):
    """The share of a person's day (0 to 1) that each procedure has in the coming order."""

    order: str
    shares: Mapping[str, float]


def days_of(known: FigureInputs, person: str) -> Iterator[PersonDay]:
    """Noise and vibration of the days of a person, as far as any is told. Raises ``Impossible``."""
    for name in EXPOSURES:
        works = [at for id_ in at_machines(known, name) if person in _doing(known)[id_]
                 and (at := strongest(known, id_, name)) is not None]
        if not works:
            continue
        hours = shift_of(known).hours
        most = max(works, key=lambda at: (at.given.span.high, at.share.high))
        title = known.notebook.procedures[most.procedure].title
        yield _day(known, name, [(most, hours)], f"Of what {_name(known, person)} does, most comes of “{title}”: "
                   f"a full day of it, {hours:g}{NO_BREAK}h, makes")
        planned = _planned(known, person)
        if planned is None:
            continue
        mixed = [(at, planned.shares[at.procedure] * hours) for at in works if planned.shares.get(at.procedure)]
        if mixed:
            yield _day(known, name, mixed, _mixed_words(known, planned, mixed, hours))


@once
def _doing(known: FigureInputs) -> Mapping[str, tuple[str, ...]]:
    """Of each procedure with an exposure the people who do it, alone or beside a teacher."""
    ids = {id_ for name in EXPOSURES for id_ in at_machines(known, name)}
    return {id_: known.holders.able_to_do(known.notebook.procedures[id_], _LEVEL) for id_ in ids}


def _day(known: FigureInputs, name: str, works: Sequence[tuple[AtMachine, float]], told: str) -> PersonDay:
    shift = shift_of(known)
    inputs = (*dict.fromkeys(one for at, _ in works for one in at.inputs), shift.input)
    if name == "noise":
        noise = noise_day.shared_day(known, works)
        worn = dict.fromkeys(one for at, _ in works if (muffled := worn_on_ears(known, at.procedure)) is not None
                             for one in muffled.inputs)
        return PersonDay(
            "Noise", told, f"{noise_day.day_words(noise)} on bare ears.", noise.verdicts, noise_day.at_ear_words(noise),
            (*inputs, *worn), "noise dose and daily level", noise_day.SOURCE,
            f"What no machine tells counts as quiet. {noise_day.BANGS}",
            noise_day.drawn(works, shift.hours, noise),
        )
    shaken = vibration_day.shared_day(works)
    return PersonDay(
        "Vibration", told, f"{vibration_day.day_words(shaken)}.", (shaken.verdict,), "", inputs,
        "hand-arm vibration of a day", vibration_day.SOURCE, "The hands are taken to be on it all the time.",
    )


@once
def _hours(known: FigureInputs) -> tuple[str, Mapping[str, float]] | None:
    """The coming order and the hours of hands that it takes of each procedure, at the middle."""
    order = coming(known)
    batches = decided(known.batches.get(order)) if order is not None else ()
    if order is None or not batches:
        return None
    found: dict[str, float] = {}
    for spent in (spent for batch in batches for spent in batch.legs):
        found[spent.leg.id] = found.get(spent.leg.id, 0.0) + float(spent.hands.least + spent.hands.most) / 2
    return order, found


def _planned(known: FigureInputs, person: str) -> Planned | None:
    looked_up = _plans(known)
    if person not in looked_up:
        looked_up[person] = _plan(known, person)
    return looked_up[person]


@once
def _plans(_known: FigureInputs) -> dict[str, Planned | None]:
    """Plans that were made already: noise and vibration ask for the same."""
    return {}


def _plan(known: FigureInputs, person: str) -> Planned | None:
    found = _hours(known)
    if found is None:
        return None
    order, hours = found
    own = {id_: spent for id_, spent in hours.items()
           if spent > 0 and person in known.holders.able_to_do(known.notebook.procedures[id_], _LEVEL)}
    total = sum(own.values())
    return Planned(order, {id_: spent / total for id_, spent in own.items()}) if total else None


def _mixed_words(
    known: FigureInputs, planned: Planned, mixed: Sequence[tuple[AtMachine, float]], hours: float
) -> str:
    most = sorted(mixed, key=lambda one: -one[1])
    named = [f"{percent_of(spent / hours)} “{known.notebook.procedures[at.procedure].title}”"
             for at, spent in most[:_NAMED]]
    rest = sum(spent for _, spent in most[_NAMED:])
    if rest:
        named.append(f"{percent_of(rest / hours)} at other machines")
    order = known.notebook.orders[planned.order].title
    return (f"A day of {hours:g}{NO_BREAK}h, shared as “{order}” needs the work that this person does: "
            f"{listed(named)}, the rest quiet. It makes")


def _name(known: FigureInputs, person: str) -> str:
    return str(known.notebook.people[person].name).split(" ")[0]
