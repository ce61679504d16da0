"""What a skill asks for: what it covers, what comes first, from which age, who teaches it, how it is proven."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.people import Proof, Skill
from site_builder.notebook.model.small import Need, Paper
from site_builder.quantity import for_people, spelt
from site_builder.views.age import age_words
from site_builder.views.path import named_value
from site_builder.views.prose import (
    NO_WORDS,
    Prose,
    Untold,
    capital,
    joined,
    listed,
    lowered,
    prose,
    say,
    sentence,
    toned,
)
from site_builder.views.rest import tailed
from site_builder.views.scope import Scope
from site_builder.views.value import limit_value

EVIDENCE = {
    "practice": "pieces in the book of practice", "trial": "a feel trial", "measurement": "the gauge",
    "seen": "doing it under the teacher’s eyes",
}
"""By what an item of a checklist is shown."""


def skill_facts(
    scope: Scope, skill: Skill, teachers: Sequence[str], signers: Sequence[str], *, untaught: bool,
    hours: Prose = NO_WORDS,
) -> Iterator[tuple[str, Prose]]:
    """(what, words). ``teachers`` may teach it today, ``signers`` may sign for it; ``untaught``: nobody is left.

    The ``hours`` it takes are told in their place where a face has them.
    """
    view = scope.view
    if skill.covers:
        yield "Covers", capital(listed(view.any_link(str(one), ("procedure",)) for one in skill.covers))
    if skill.needs:
        yield "Needs first", capital(joined((_need(scope, need) for need in skill.needs), "; "))
    if skill.age:
        yield "Age", capital(joined(_age(scope, limit) for limit in skill.age))
    if skill.papers:
        yield "Papers", capital(listed(
            _paper(scope, one) for one in skill.papers))
    if teachers:
        yield "May teach it", capital(listed(view.link("person", one) for one in teachers))
    elif untaught:
        yield "May teach it", capital(prose("nobody who is here now"))
    founders = [one for one in signers if one not in teachers]
    if founders:
        named = listed(view.link("person", one) for one in founders)
        also = "who may teach it, and " if teachers else ""
        yield "May sign for it", capital(say("{}{} as a founder", also, named))
    if hours:
        yield "Lessons", hours
    if skill.refresh:
        yield "Goes stale", capital(joined(
            (_stale(scope, limit) for limit in skill.refresh if limit.written is not None), "; "))
    if skill.source is not None:
        yield "Where from", capital(scope.source(skill.source))
    if skill.told:
        yield "Told", joined(scope.heard(skill))
    if skill.answered:
        yield "Asked", joined(scope.answers(skill))
    for key, name in (("covers", "Covers"), ("age", "Age"), ("refresh", "Goes stale"), ("proof", "Proof")):
        written = next((one for one in skill.asked if one == key), None)
        if written is not None:
            yield name, Prose((Untold("Not yet told", written.at),))


def _main(scope: Scope, leaf: Written | None) -> str:
    return for_people(leaf.value, scope.view.system).main if leaf is not None else ""


def _age(scope: Scope, limit: Limit) -> Prose:
    """A least age on a line of its own, and why."""
    reasons = joined(sentence(scope.words(why)) for why in limit.because)
    age = toned("line", capital(age_words(scope, [limit])))
    return joined((age, toned("besides", reasons)))


def _need(scope: Scope, need: Need) -> Prose:
    told = say("{}, at least {}", scope.view.link("skill", str(need.skill)), need.level or "alone")
    reasons = joined(sentence(scope.words(why)) for why in need.because)
    return scope.meant(need, joined((told, toned("besides", joined((reasons, *scope.tail(need)))))))


def _paper(scope: Scope, paper: Paper) -> Prose:
    named, valid = scope.words(paper.paper), _main(scope, paper.valid)
    said = say("{}, not older than {}", named, valid) if valid else named
    return tailed(scope, paper, said, ("paper", "valid"))


def _stale(scope: Scope, limit: Limit) -> Prose:
    return tailed(scope, limit, say("after {} without practice", spelt(_main(scope, limit.written))), ("is_",))


def proof_words(scope: Scope, proof: Proof) -> Iterator[Prose]:
    """What proves it, one line each."""
    if proof.pieces is not None:
        yield say("**{}** pieces made", spelt(_main(scope, proof.pieces)))
    if proof.share is not None:
        sure = _main(scope, proof.confidence)
        also = f", and {spelt(sure)} certainty that it was not luck" if sure else ""
        yield say("**{}** of them good{}", spelt(_main(scope, proof.share)), also)
    for limit in proof.agreement:
        same = say("**{}** of the verdicts by feel the same as the teacher’s", limit_value(scope, limit).main)
        yield tailed(scope, limit, same, ("is_",))
    if proof.limits:
        yield say("measured by {}", listed(named_value(scope.view, str(one)) for one in proof.limits))
    for check in proof.checks:
        told = [scope.words(check.do), scope.words(check.good)]
        bad = say("Not if: {}", listed((scope.words(one) for one in check.bad), "or")) if check.bad else ""
        words = joined(sentence(part) for part in (*told, bad) if part)
        yield say("a test piece: {}", lowered(tailed(scope, check, words, ("do", "good", "bad"))))
    about = joined((scope.inline_why(proof), *scope.tail(proof)))
    if about or proof.for_:
        yield scope.meant(proof, about)
