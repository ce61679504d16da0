"""Screws that are tightened to a torque: what they pull with, and how deep they must go where the thread is in zinc."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import NamedTuple

from site_builder.figures.amounts import about, both
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_here, given_of, guarded, limits_by_name, once, property_of
from site_builder.figures.metals import main_metal, metals_of
from site_builder.figures.thread_names import UNDERSTOOD, NamedThread, named_thread
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval, spread
from site_builder.formulas.screws import DRY, preload
from site_builder.formulas.threads import IN_ZINC, engagement_needed, shear_strength
from site_builder.notebook.finding import At
from site_builder.notebook.index import Place
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.shop import Part
from site_builder.notebook.tree import Text

TORQUE, THREAD, ENGAGEMENT = "torque", "thread", "thread engagement"
_SOURCE = ("T = K d F, Machinery's Handbook; dry steel K 0.20 to 0.25; stress area, {}; two to two and a half "
           "diameters in die-cast zinc, common practice; thread area, FED-STD-H28/2B")
_CAUTION = ("Oil, locking paste and a rough thread change the pull by half. Zinc gives way under a screw: part of the "
            "pull goes within weeks, sooner in warmth. A screw that holds up a load is for a qualified person.")


class Screwed(NamedTuple):
    """A torque that is set, with the thread it is set for."""

    torque: Given
    place: Place
    procedure: Procedure
    step: Step | None
    screw: NamedThread
    thread: Input
    zinc: str
    """The zinc alloy among what is joined; empty where there is none."""
    engagement: Given | None
    shear: Given | None
    """Shear strength of the zinc in Pa, or from its tensile strength."""

    @property
    def pull(self) -> Interval:
        """Newtons, dry. Raises ``Impossible`` for a torque under 0."""
        return spread(preload, self.torque.span, self.screw.thread.diameter, DRY)

    @property
    def stress(self) -> Interval:
        """Pa over the core of the screw. Raises ``Impossible``."""
        area = self.screw.area / 1e6
        return Interval(self.pull.low / area, self.pull.high / area)

    @property
    def wanted(self) -> Interval:
        """Metres of full thread that are common in zinc."""
        diameter = self.screw.thread.diameter / 1000
        return Interval(IN_ZINC.low * diameter, IN_ZINC.high * diameter)

    @property
    def needed(self) -> float | None:
        """Metres of full thread that bear the greatest pull; None where the strength is not told."""
        if self.shear is None:
            return None
        return engagement_needed(self.screw.thread, self.pull.high, self.shear.span.low / 1e6) / 1000


class Unread(NamedTuple):
    """A torque whose screws have a thread that is not understood."""

    procedure: Procedure
    step: Step | None
    thread: Input
    why: Impossible | None
    """What is wrong with its size, where the name itself is understood."""


@once
def screws(known: FigureInputs) -> tuple[Screwed, ...]:
    """Every torque of a step that drives screws of one thread that is understood."""
    return tuple(one for one in _torques(known) if isinstance(one, Screwed))


@once
def _torques(known: FigureInputs) -> tuple[Screwed | Unread, ...]:
    return tuple(_each_torque(known))


def _each_torque(known: FigureInputs) -> Iterator[Screwed | Unread]:
    for limit, place in limits_by_name(known).get(TORQUE, ()):
        own = place.procedure
        if own is None or place.key != "settings":
            continue
        torque = given_of(known, (limit,), TORQUE, "procedure", place.owner_id, step=place.step)
        if torque is None or torque.unit.kind != "torque":
            continue
        found: dict[str, tuple[NamedThread, Input]] = {}
        for told in _threads(known, own):
            try:
                screw, why = named_thread(told.written), None
            except Impossible as problem:
                screw, why = None, problem
            if screw is None:
                yield Unread(own, place.step, told, why)
            else:
                found[screw.name] = screw, told
        if len(found) != 1:
            continue
        ((screw, told),) = found.values()
        metals = metals_of(known, known.notebook.parts_of(own))
        zinc = next((m for m in metals if main_metal(known, known.notebook.materials[m]) == "zinc"), "")
        yield Screwed(torque, place, own, place.step, screw, told, zinc, _engagement(known, own, place),
                      _shear(known, zinc) if zinc else None)


def _threads(known: FigureInputs, own: Procedure) -> Iterator[Input]:
    """The threads of the screws that a procedure uses, and of the parts it joins."""
    nb = known.notebook
    used = [str(use.material) for work in (own, *own.steps) for use in work.materials]
    for id_ in dict.fromkeys((*used, *nb.parts_of(own))):
        part = nb.parts.get(id_)
        for limit in part.sizes.get(Text(THREAD), ()) if part is not None else ():
            if limit.written is not None:
                yield Input(THREAD, str(limit.written), "part", id_, at=limit.written.at)


def _engagement(known: FigureInputs, own: Procedure, place: Place) -> Given | None:
    """As the step or the procedure tells it, or a part that is joined."""
    for limit, where in limits_by_name(known).get(ENGAGEMENT, ()):
        if where.owner is own and where.step in (place.step, None) and limit.written is not None:
            return _length(given_here(known, limit.written, ENGAGEMENT, "procedure", place.owner_id, where.step))
    for part in known.notebook.parts_of(own):
        one = known.notebook.parts.get(part)
        if isinstance(one, Part) and Text(ENGAGEMENT) in one.sizes:
            return _length(given_of(known, one.sizes[Text(ENGAGEMENT)], ENGAGEMENT, "part", part))
    return None


def _length(given: Given | None) -> Given | None:
    return given if given is not None and given.unit.kind == "length" else None


def _shear(known: FigureInputs, material: str) -> Given | None:
    told = property_of(known, material, "shear strength")
    if told is not None and told.unit.kind == "pressure":
        return told
    tensile = property_of(known, material, "tensile strength")
    if tensile is None or tensile.unit.kind != "pressure":
        return None
    return replace(tensile, span=spread(shear_strength, tensile.span)) if tensile.span.low > 0 else None


def fastening_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of screws: once for each torque of a procedure; a second round at the same torque is no news."""
    seen: set[tuple[str, object]] = set()
    for one in _torques(known):
        key = str(one.procedure.procedure), one.thread.written if isinstance(one, Unread) else one.torque.span
        if key in seen:
            continue
        seen.add(key)
        if isinstance(one, Unread):
            yield _unread(known, one)
            continue
        inputs = [given.input for given in (one.torque, one.engagement, one.shear) if given is not None]
        yield from guarded(partial(_said, known, one, (*inputs, one.thread)), (one.thread, *inputs))


def _unread(known: FigureInputs, one: Unread) -> Missing:
    title = known.notebook.parts[one.thread.id].title
    why = f"; the {one.why.argument} {one.why.why}" if one.why is not None and one.why.argument != THREAD else ""
    return Missing(
        "procedure", str(one.procedure.procedure),
        f"What the screw pulls with: the thread {one.thread.written} of “{title}” is not known here{why}. "
        f"Known are {UNDERSTOOD}.",
        "sizes: {thread: M5}", one.thread.at or At(""), one.step,
    )


def _said(known: FigureInputs, one: Screwed, inputs: tuple[Input, ...]) -> Iterator[Figure]:
    pull, stress, is_inch = one.pull, one.stress, one.torque.is_inch
    sentence = (f"Tightened so, and dry, {one.screw.called} screw pulls with "
                f"{about(both(pull, 'N', 'lbf', is_inch, 2), True)}, which is "
                f"{both(stress, 'MPa', 'psi', is_inch, 2)} over its core.")
    if one.zinc:
        title = known.notebook.materials[one.zinc].title
        sentence += (f" Where the thread is cut in “{title}”, {both(one.wanted, 'mm', 'in', is_inch, 2)} of full "
                     "thread are common practice.")
        if one.needed is not None:
            sentence += (f" To bear the greatest pull it needs at least "
                         f"{both(Interval(one.needed, one.needed), 'mm', 'in', is_inch, 2)}.")
        if one.engagement is not None:
            sentence += f" The notebook tells {one.engagement.input.written}."
    yield Figure("procedure", str(one.procedure.procedure), sentence, inputs, "torque and pull of a screw",
                 _SOURCE.format(one.screw.area_source), _CAUTION, one.step)


def shallow(known: FigureInputs) -> Iterator[tuple[Screwed, float, bool]]:
    """Threads in zinc that are told shorter than they should be: what is wanted in m, and whether it would tear out."""
    for one in screws(known):
        if not one.zinc or one.engagement is None:
            continue
        try:
            needed = one.needed
        except Impossible:
            continue
        if needed is not None and one.engagement.span.high < needed:
            yield one, needed, True
        elif one.engagement.span.high < one.wanted.low:
            yield one, one.wanted.low, False
