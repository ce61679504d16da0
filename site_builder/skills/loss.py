"""What would be lost if some of the people left: reckoned on plain names, without a notebook.

A procedure is lost when everybody who can do it alone is gone. What leans on a lost procedure (a shared step,
a mix made in the house) is held up by it. A part cannot be made when any procedure on its way is lost or held
up; a product is concerned when any of its parts cannot be made. What is lost already is not counted again.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from itertools import combinations

People = frozenset[str]
NOBODY: People = frozenset()


@dataclass(frozen=True, slots=True)
class Work:
    """One procedure: the skills that let somebody do it alone, and the procedures without which it stands still.

    ``skills`` are alternatives: whoever holds all skills of one of them can do it; none means that it is not told.
    ``needs`` are groups of procedures, one of each group is enough.
    """

    skills: tuple[frozenset[str], ...] = ()
    needs: tuple[frozenset[str], ...] = ()


@dataclass(frozen=True)
class Knowledge:
    """Who can do what alone and may teach it, and what the work asks for.

    ``able`` and ``teachers`` are by skill; every skill of the shop is a key of ``able``. ``resting`` are those
    whose sign-off rests for want of practice. ``ways`` are the procedures by part, ``products`` the parts by
    product (itself among them), ``seconds`` the hands-on seconds of each procedure in one product, ``untold`` the
    procedures of a product whose time is not told.
    """

    people: tuple[str, ...]
    able: Mapping[str, People]
    teachers: Mapping[str, People] = field(default_factory=dict)
    resting: Mapping[str, People] = field(default_factory=dict)
    works: Mapping[str, Work] = field(default_factory=dict)
    ways: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    products: Mapping[str, frozenset[str]] = field(default_factory=dict)
    seconds: Mapping[str, Mapping[str, Fraction]] = field(default_factory=dict)
    untold: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @cached_property
    def hands(self) -> Mapping[str, People]:
        """Of each procedure whose skills are told, the people who can do it alone."""
        return {
            name: frozenset().union(*(self._holding(skills) for skills in work.skills))
            for name, work in self.works.items() if work.skills
        }

    @cached_property
    def unasked(self) -> tuple[str, ...]:
        """Procedures of which it is not told what one must hold: nothing can be said about them."""
        return tuple(name for name, work in self.works.items() if not work.skills)

    @cached_property
    def told(self) -> Mapping[str, Fraction]:
        """All the seconds of a product that are told."""
        return {product: sum(seconds.values(), Fraction(0)) for product, seconds in self.seconds.items()}

    @cached_property
    def leaning(self) -> Mapping[str, tuple[str, ...]]:
        """Of each procedure, those that need it, alone or as one of several."""
        found: dict[str, list[str]] = defaultdict(list)
        for name, work in self.works.items():
            for needed in frozenset().union(*work.needs):
                found[needed].append(name)
        return {needed: tuple(names) for needed, names in found.items()}

    def _holding(self, skills: frozenset[str]) -> People:
        groups = [self.able.get(skill, NOBODY) for skill in skills]
        return frozenset.intersection(*groups) if groups else NOBODY


@dataclass(frozen=True, slots=True)
class Hours:
    """Hands-on seconds of one product: those nobody could do any more, of those that are told."""

    product: str
    affected: Fraction
    told: Fraction
    untold: tuple[str, ...]

    @property
    def share(self) -> Fraction | None:
        """From 0 to 1; None where no time is told."""
        return self.affected / self.told if self.told else None


@dataclass(frozen=True, slots=True)
class Loss:
    """What is lost with ``gone``; all in the order of the notebook.

    ``nobody``: procedures nobody could do alone; ``held_up``: procedures that wait for those. ``unheld`` and
    ``untaught``: skills that nobody holds, and that nobody could teach. ``rests``: of the unheld ones, those who
    once held them and are still here.
    """

    gone: tuple[str, ...]
    nobody: tuple[str, ...]
    held_up: tuple[str, ...]
    unheld: tuple[str, ...]
    untaught: tuple[str, ...]
    parts: tuple[str, ...]
    products: tuple[str, ...]
    hours: tuple[Hours, ...]
    rests: tuple[tuple[str, tuple[str, ...]], ...] = ()

    @property
    def nothing(self) -> bool:
        """Whether nothing at all is lost."""
        return not (self.nobody or self.unheld or self.untaught)

    @property
    def share(self) -> Fraction | None:
        """The share of the hours of that product which loses most; None where no time is told."""
        return max((one.share for one in self.hours if one.share is not None), default=None)


@dataclass(frozen=True, slots=True)
class Point:
    """A single point of knowledge: what hangs on one person's holding these skills.

    Nobody else can do ``procedures`` alone; ``share`` of a product's hours stands still without them. ``only_hands``
    and ``only_teacher`` say whether nobody else holds, or teaches, the skills. ``asking`` are all procedures that
    ask for these skills, and ``later`` their share of a product's hours: what ends with those who hold them now
    where nobody else may teach.
    """

    person: str
    skills: tuple[str, ...]
    procedures: tuple[str, ...]
    share: Fraction | None
    only_hands: bool
    only_teacher: bool
    asking: tuple[str, ...]
    later: Fraction | None


def without(knowledge: Knowledge, gone: Iterable[str]) -> Loss:
    """What would be lost if all of ``gone`` left at once. With nobody gone: what is lost already."""
    return _lost(knowledge, frozenset(gone), already=frozenset())


def each_without(knowledge: Knowledge) -> Mapping[str, Loss]:
    """The loss with every single person."""
    return {person: without(knowledge, (person,)) for person in knowledge.people}


def pairs_without(knowledge: Knowledge) -> Mapping[tuple[str, str], Loss]:
    """Of every two people who together leave a gap that neither leaves alone, that gap and no more.

    The hours are those of the gap. Pairs that leave none are left out.
    """
    found = {}
    for pair in _suspects(knowledge):
        loss = _lost(knowledge, frozenset(pair), already=frozenset(pair))
        if not loss.nothing or loss.held_up or loss.parts:
            found[pair] = loss
    return found


def single_points(knowledge: Knowledge) -> tuple[Point, ...]:
    """Everything that hangs on one person: by share of hours, then by number of procedures, the most first.

    Where nothing stops at once because others still hold the skill, by what will stop when they too have gone.
    """
    hanging: dict[tuple[str, tuple[str, ...]], list[str]] = defaultdict(list)
    for skill in knowledge.able:
        for only in (_only(knowledge.able[skill]), _only(knowledge.teachers.get(skill, NOBODY))):
            if only is not None:
                hanging[only, (skill,)] += []
    for name, hands in knowledge.hands.items():
        person = _only(hands)
        if person is not None:
            for skills in _reasons(knowledge, name, person):
                hanging[person, skills].append(name)
    points = [_point(knowledge, person, skills, names) for (person, skills), names in hanging.items()]
    return tuple(sorted(points, key=lambda one: (
        -(one.share or 0), -len(one.procedures), -(one.later or 0), -len(one.asking), one.person, one.skills)))


def share_of(knowledge: Knowledge, procedures: Iterable[str]) -> Fraction | None:
    """The share of a product's hours that stands still without these procedures; of the worst hit product."""
    stopped = frozenset(procedures)
    stopped |= _held_up(knowledge, stopped)
    return max((one.share for one in _hours(knowledge, stopped) if one.share is not None), default=None)


# ------------------------------------------------------------------ the reckoning


def _lost(knowledge: Knowledge, gone: People, already: People) -> Loss:
    """The loss with ``gone``, less what is lost today and what each one of ``already`` takes away alone."""
    k, teachers = knowledge, _teachers(knowledge)
    nobody = _gone_with(k.hands, gone)
    held_up = _held_up(k, nobody)
    stopped = nobody | held_up
    unheld, untaught, parts = _gone_with(k.able, gone), _gone_with(teachers, gone), _parts(k, stopped)
    products = _products(k, parts)
    for less in [NOBODY, *(frozenset({one}) for one in sorted(already))] if gone else []:
        known = _gone_with(k.hands, less)
        before = known | _held_up(k, known)
        before_parts = _parts(k, before)
        nobody, held_up, stopped = nobody - known, held_up - before, stopped - before
        unheld, untaught = unheld - _gone_with(k.able, less), untaught - _gone_with(teachers, less)
        parts, products = parts - before_parts, products - _products(k, before_parts)
    return Loss(
        tuple(one for one in k.people if one in gone), _in_order(k.works, nobody), _in_order(k.works, held_up),
        _in_order(k.able, unheld), _in_order(k.able, untaught), _in_order(k.ways, parts),
        _in_order(k.products, products), tuple(_hours(k, stopped)),
        tuple((skill, still) for skill in _in_order(k.able, unheld)
              if (still := tuple(one for one in k.people if one in k.resting.get(skill, NOBODY) - gone))),
    )


def _gone_with(holders: Mapping[str, People], gone: People) -> frozenset[str]:
    return frozenset(name for name, people in holders.items() if people <= gone)


def _teachers(knowledge: Knowledge) -> Mapping[str, People]:
    return {skill: knowledge.teachers.get(skill, NOBODY) for skill in knowledge.able}


def _held_up(knowledge: Knowledge, lost: frozenset[str]) -> frozenset[str]:
    """Procedures that wait for lost ones, directly or through others."""
    stopped, todo = set(lost), [*lost]
    while todo:
        for name in knowledge.leaning.get(todo.pop(), ()):
            if name not in stopped and any(group and group <= stopped for group in knowledge.works[name].needs):
                stopped.add(name)
                todo.append(name)
    return frozenset(stopped) - lost


def _parts(knowledge: Knowledge, stopped: frozenset[str]) -> frozenset[str]:
    return frozenset(part for part, way in knowledge.ways.items() if not stopped.isdisjoint(way))


def _products(knowledge: Knowledge, parts: frozenset[str]) -> frozenset[str]:
    return frozenset(name for name, made_of in knowledge.products.items() if not parts.isdisjoint(made_of))


def _hours(knowledge: Knowledge, stopped: frozenset[str]) -> Iterator[Hours]:
    for product, seconds in knowledge.seconds.items():
        affected = sum((seconds[name] for name in stopped if name in seconds), Fraction(0))
        yield Hours(product, affected, knowledge.told[product], knowledge.untold.get(product, ()))


def _in_order(order: Iterable[str], found: frozenset[str]) -> tuple[str, ...]:
    return tuple(name for name in order if name in found)


# ------------------------------------------------------------------ pairs and points


def _suspects(knowledge: Knowledge) -> Iterator[tuple[str, str]]:
    """The pairs that may leave a gap together: the only two at something."""
    if any(len(group) > 1 for work in knowledge.works.values() for group in work.needs):
        yield from combinations(knowledge.people, 2)  # one may take the one way of a group, the other the other
        return
    groups = (knowledge.hands, knowledge.able, _teachers(knowledge))
    twos = {people for group in groups for people in group.values() if len(people) == 2}
    yield from (pair for pair in combinations(knowledge.people, 2) if frozenset(pair) in twos)


def _only(people: People) -> str | None:
    return next(iter(people)) if len(people) == 1 else None


def _reasons(knowledge: Knowledge, procedure: str, person: str) -> Iterator[tuple[str, ...]]:
    """The skills for want of which nobody else can do it: each that only this person holds, or all together."""
    asked = frozenset().union(*knowledge.works[procedure].skills)
    alone = [skill for skill in sorted(asked) if _only(knowledge.able.get(skill, NOBODY)) == person]
    yield from ((skill,) for skill in alone)
    if not alone:
        yield tuple(sorted(asked))


def _point(knowledge: Knowledge, person: str, skills: tuple[str, ...], procedures: list[str]) -> Point:
    asking = tuple(name for name, work in knowledge.works.items()
                   if any(asked.issuperset(skills) for asked in work.skills))
    return Point(
        person, skills, tuple(procedures), share_of(knowledge, procedures),
        all(_only(knowledge.able.get(skill, NOBODY)) == person for skill in skills),
        all(_only(knowledge.teachers.get(skill, NOBODY)) == person for skill in skills),
        asking, share_of(knowledge, asking),
    )
