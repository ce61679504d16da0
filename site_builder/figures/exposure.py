"""People: what a full day of each work, and a day shared between several, does to ears, hands and backs."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from functools import partial
from typing import NamedTuple

from site_builder.figures import noise_day, vibration_day
from site_builder.figures.amounts import about, between
from site_builder.figures.at_machines import DECIDES, at_machines, levels_of, running_inputs, shift_of, unweighted
from site_builder.figures.batch_words import NO_BREAK
from site_builder.figures.breathed import air_figures
from site_builder.figures.day_of_person import PersonDay, days_of
from site_builder.figures.figure import Fault, Figure, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, guarded
from site_builder.figures.lifts import Judged, Lifted, judged, lift_figures, lifts
from site_builder.figures.noise_day import NoisyWork, noisy_work, reached_in_short, reached_words
from site_builder.figures.vibration_day import ShakenWork, shaken_work
from site_builder.formulas.errors import Impossible
from site_builder.safety.verdict import NOISE_NIOSH, Verdict, worst_first

_FULL = f"It is a day of nothing else, the machine running all the time; pauses make it less. {DECIDES}"
_RUNNING = f"It is a day of nothing else, with the pauses that the times tell. {DECIDES}"


class Exposed(NamedTuple):
    """One exposure of a full day: of a procedure, or of a person."""

    kind: str
    id: str
    what: str
    """``Noise``, ``Vibration``, ``Lifting``."""
    day: str
    """What comes to it in words."""
    verdicts: tuple[Verdict, ...]
    worn: str
    """What the protection that is named leaves of it; empty where none is."""

    @property
    def worst(self) -> Verdict:
        """The gravest of its verdicts. What is only recommended is no limit of the law and does not count."""
        lawful = [one for one in self.verdicts if one.yardstick is not NOISE_NIOSH]
        return worst_first(lawful or self.verdicts)[0]

    @property
    def reached(self) -> str:
        """The marks that are reached, in words; empty where none is."""
        return reached_in_short(self.verdicts)


def exposure_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of people: procedures, machines, lifts, materials, persons."""
    for name, said in (("noise", _noisy), ("vibration", _shaken)):
        for id_, found in at_machines(known, name).items():
            yield from guarded(partial(said, known, id_), [found[0][1].input, *running_inputs(known, id_)])
    yield from _machines(known)
    yield from lift_figures(known)
    yield from air_figures(known)
    for person in known.notebook.living:
        yield from guarded(partial(_person, known, person), ())


def _noisy(known: FigureInputs, id_: str) -> Iterator[Figure]:
    work = noisy_work(known, id_)
    if work is None:
        return
    title = known.notebook.tools[work.at.tool].title
    sentence = (f"A full day of this work, {work.shift.hours:g}{NO_BREAK}h at the “{title}” with "
                f"{work.at.given.input.written}{_share_words(work)}, makes {noise_day.day_words(work.day)}.")
    reached = reached_words(work.day.verdicts)
    if reached:
        sentence += f" That reaches {reached}. {noise_day.full_after(work.at.given)}"
    worn = noise_day.worn_words(known, work)
    sentence += f" {worn}" if worn else ""
    inputs = (*work.at.inputs, work.shift.input, *(work.worn.inputs if work.worn is not None else ()))
    source = noise_day.SOURCE + (f"; {work.worn.source}" if work.worn is not None and work.worn.source else "")
    drawing = noise_day.drawn([(work.at, work.shift.hours)], work.shift.hours, work.day) if reached else ""
    yield Figure("procedure", id_, sentence, inputs, "noise dose and daily level", source,
                 f"{_FULL if work.at.share.high == 1 else _RUNNING} {noise_day.BANGS}", drawing=drawing)


def _share_words(work: NoisyWork) -> str:
    share = work.at.share
    return "" if share.low == 1 else f" for {between(share.low * 100, share.high * 100, 2)}{NO_BREAK}% of the time"


def _shaken(known: FigureInputs, id_: str) -> Iterator[Figure]:
    work = shaken_work(known, id_)
    if work is None:
        return
    title = known.notebook.tools[work.at.tool].title
    sentence = (f"A full day of this work, {work.shift.hours:g}{NO_BREAK}h with the hands at the “{title}” with "
                f"{work.at.given.input.written}, makes {vibration_day.day_words(work.day)}.")
    reached = reached_words([work.day.verdict])
    sentence += f" That reaches {reached}." if reached else ""
    sentence += f" {vibration_day.time_left(work.at.given)}"
    yield Figure("procedure", id_, sentence, (*work.at.inputs, work.shift.input), "hand-arm vibration of a day",
                 vibration_day.SOURCE, _FULL if work.at.share.high == 1 else _RUNNING)


def _machines(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    for id_, given in levels_of(known, "noise").items():
        yield from guarded(partial(_beside, id_, given), [given.input])
    yield from _unweighted(known)
    for id_, given in levels_of(known, "vibration").items():
        yield from guarded(partial(_in_the_hands, id_, given), [given.input])


def _unweighted(known: FigureInputs) -> Iterator[Missing]:
    """Noise that is told by no weighting, or by one in which no day is counted, is not taken for dB(A)."""
    for id_, given in unweighted(known).items():
        at = given.input.at
        if at is not None:
            yield Missing("tool", id_, f"How long bare ears may be near it: {given.input.written} is not in dB(A), by "
                          "which a day is counted.", "noise: 92 dB(A)", at)


def _beside(id_: str, given: Given) -> Iterator[Figure]:
    yield Figure("tool", id_, f"It makes {given.input.written}. {noise_day.full_after(given)}", (given.input,),
                 "permitted time", noise_day.SOURCE, f"{noise_day.BANGS} {DECIDES}")


def _in_the_hands(id_: str, given: Given) -> Iterator[Figure]:
    yield Figure("tool", id_, f"It shakes the hands with {given.input.written}. {vibration_day.time_left(given)}",
                 (given.input,), "time until an exposure value", vibration_day.SOURCE, DECIDES)


def _person(known: FigureInputs, person: str) -> Iterator[Figure]:
    for day in days_of(known, person):
        yield Figure("person", person, f"{day.told} {day.makes}{_reaches(day)}", day.inputs, day.formula, day.source,
                     f"{day.caution} {DECIDES}", drawing=day.drawing)


def _reaches(day: PersonDay) -> str:
    reached = reached_words(day.verdicts)
    told = f"That reaches {reached}." if reached else "No action value is reached."
    return f" {told} {day.worn}".rstrip()


# ------------------------------------------------------------- worst first, for the page of staying whole


def exposed_works(known: FigureInputs) -> tuple[Exposed, ...]:
    """Every exposure of a full day of each procedure, worst first; what cannot be is left to its fault."""
    return _ranked([*_each_noise(known), *_each_vibration(known), *_each_lift(known)])


def exposed_people(known: FigureInputs) -> tuple[Exposed, ...]:
    """Every exposure of the days of each person, worst first."""
    found: list[Exposed] = []
    for person in known.notebook.living:
        with suppress(Impossible):
            found += [Exposed("person", person, day.what, f"{day.told} {day.makes}", day.verdicts, day.worn)
                      for day in days_of(known, person)]
    return _ranked(found)


def _ranked(found: list[Exposed]) -> tuple[Exposed, ...]:
    order = {id(verdict): number for number, verdict in enumerate(worst_first(one.worst for one in found))}
    return tuple(sorted(found, key=lambda one: order[id(one.worst)]))


def noisy_works(known: FigureInputs) -> Iterator[tuple[str, NoisyWork]]:
    """Every procedure with a full day of its noise."""
    for id_ in at_machines(known, "noise"):
        with suppress(Impossible):
            work = noisy_work(known, id_)
            if work is not None:
                yield id_, work


def shaken_works(known: FigureInputs) -> Iterator[tuple[str, ShakenWork]]:
    """Every procedure with a full day of its vibration."""
    for id_ in at_machines(known, "vibration"):
        with suppress(Impossible):
            work = shaken_work(known, id_)
            if work is not None:
                yield id_, work


def judged_lifts(known: FigureInputs) -> Iterator[tuple[Lifted, Judged]]:
    """Every lift of which enough is told."""
    for one in lifts(known):
        with suppress(Impossible):
            found = judged(one, shift_of(known))
            if found is not None:
                yield one, found


def _each_noise(known: FigureInputs) -> Iterator[Exposed]:
    for id_, work in noisy_works(known):
        level, worn = noise_day.decibels(work.day.level, work.day.rough), noise_day.worn_in_short(known, work)
        yield Exposed("procedure", id_, "Noise", f"{level} over eight hours", work.day.verdicts, worn)


def _each_vibration(known: FigureInputs) -> Iterator[Exposed]:
    for id_, work in shaken_works(known):
        yield Exposed("procedure", id_, "Vibration", vibration_day.day_words(work.day), (work.day.verdict,), "")


def _each_lift(known: FigureInputs) -> Iterator[Exposed]:
    for one, found in judged_lifts(known):
        index = about(between(found.lifting_index.low, found.lifting_index.high, 2), one.load.rough)
        yield Exposed("procedure", str(one.procedure.procedure), "Lifting",
                      f"lifting index {index} with {one.load.input.written}", (found.verdict,), "")
