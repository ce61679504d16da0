"""The knowledge of a shop, drawn from its notebook and its book of sign-offs, for the reckoning of losses."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from fractions import Fraction

from site_builder.notebook.gather import material_uses, skills_of, tool_uses, used_procedures
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.route import Route
from site_builder.notebook.way import account, span, ways
from site_builder.skills.holders import Holders
from site_builder.skills.ledger import rank
from site_builder.skills.loss import Knowledge, People, Work

_ALONE = rank("alone")


def knowledge_of(notebook: Notebook, route: Route, holders: Holders) -> Knowledge:
    """Everybody who is here, with what they can do and teach, and the work of the shop.

    A sign-off that rests counts for nothing until the work is practised again. Where nobody was ever signed to
    teach a skill, the founders count as its masters: with them the chain of sign-offs begins. Who may teach is asked
    of the law: who does it alone, and may sign for it.
    Work that is done outside the shop is nobody's knowledge here.
    """
    all_ways = {part: way for part, way in ways(notebook, route).items() if part}
    able, teachers, resting = {}, {}, {}
    for skill in notebook.skills:
        able[skill], teachers[skill], resting[skill] = _hands(holders, skill)
    whole = {product: _times(notebook, product) for product in _products(notebook)}
    here = {id_ for id_, procedure in notebook.procedures.items() if procedure.where is None}
    return Knowledge(
        people=tuple(notebook.living), able=able, teachers=teachers, resting=resting,
        works={id_: work for id_, work in _works(notebook).items() if id_ in here},
        ways={part: tuple(one for one in way if one in here) for part, way in all_ways.items()},
        products={product: frozenset(parts) for product, parts in whole.items()},
        seconds={product: dict(_seconds(notebook, all_ways, parts)) for product, parts in whole.items()},
        untold={product: tuple(_untold(notebook, all_ways, parts)) for product, parts in whole.items()},
    )


def _hands(holders: Holders, skill: str) -> tuple[People, People, People]:
    """Who can do a skill alone, who may teach it, and whose sign-off for it rests."""
    signed = frozenset(held.person for held in holders.of_skill(skill) if held.rank >= _ALONE)
    able = frozenset((*holders.able(skill), *holders.masters(skill)))
    return able, frozenset(holders.teachers(skill)), signed - able


def _works(notebook: Notebook) -> Mapping[str, Work]:
    covering: dict[str, list[frozenset[str]]] = defaultdict(list)
    for id_, skill in notebook.skills.items():
        for one in skill.covers:
            covering[str(one)].append(frozenset({id_}))
    makers: dict[str, set[str]] = defaultdict(set)
    for id_, procedure in notebook.procedures.items():
        for made in procedure.makes:
            makers[str(made)].add(id_)
    return {
        id_: Work(_skills(procedure) or tuple(covering[id_]), tuple(_needs(notebook, procedure, makers)))
        for id_, procedure in notebook.procedures.items()
    }


def _skills(procedure: Procedure) -> tuple[frozenset[str], ...]:
    """What a procedure names itself; all of it together."""
    named = frozenset(map(str, skills_of(procedure)))
    return (named,) if named else ()


def _needs(notebook: Notebook, procedure: Procedure, makers: Mapping[str, set[str]]) -> Iterator[frozenset[str]]:
    """The shared procedures it uses, and those that make a tool or a mix it works with."""
    own = str(procedure.procedure)
    for used in used_procedures(notebook, procedure):
        yield frozenset({str(used.procedure)})
    things = [str(use.tool) for use in tool_uses(notebook, procedure, with_used=False)]
    things += [str(use.material) for use in material_uses(notebook, procedure, with_used=False)]
    for thing in dict.fromkeys(things):
        made_by = makers.get(thing, set())
        if made_by and own not in made_by:
            yield frozenset(made_by)


def _products(notebook: Notebook) -> Iterator[str]:
    """What leaves the shop; where no product is written, every part that is in no other."""
    within = {str(one) for part in notebook.parts.values() for one in part.of}
    yield from notebook.products or (part for part in notebook.parts if part not in within)


def _times(notebook: Notebook, product: str) -> Mapping[str, Fraction]:
    """How often each part stands in one product, itself once; a part that holds itself is counted once."""
    todo: list[tuple[str, Fraction, frozenset[str]]] = [(product, Fraction(1), frozenset())]
    counts: dict[str, Fraction] = {}
    while todo:
        part, times, above = todo.pop()
        if part not in notebook.parts or part in above:
            continue
        counts[part] = counts.get(part, Fraction(0)) + times
        for one, count in notebook.parts[part].of.items():
            told = span(count)
            each = (told[0] + told[1]) / 2 if told is not None else Fraction(1)
            todo.append((str(one), times * each, above | {part}))
    return counts


def _seconds(
    notebook: Notebook, all_ways: Mapping[str, tuple[str, ...]], parts: Mapping[str, Fraction],
) -> Iterator[tuple[str, Fraction]]:
    """Hands-on seconds of each procedure in one product: the middle where a span is told."""
    for part, times in parts.items():
        for id_ in all_ways.get(part, ()):
            one = account(notebook, (id_,))
            if not one.untimed and one.most:
                yield id_, (one.least + one.most) / 2 * times


def _untold(
    notebook: Notebook, all_ways: Mapping[str, tuple[str, ...]], parts: Mapping[str, Fraction],
) -> Iterator[str]:
    for part in parts:
        yield from account(notebook, all_ways.get(part, ())).untimed
