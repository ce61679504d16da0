"""The proof of a skill so far, for one learner: bars that say what is missing, and what the figures mean."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.notebook.model.people import Proof, Skill
from site_builder.quantity import spelt
from site_builder.skills.feel_told import Compared, Together, compared, together
from site_builder.skills.ledger import rank
from site_builder.skills.plainly import plainly_agreed, plainly_due, plainly_pieces, plainly_steady
from site_builder.skills.progress import Progress
from site_builder.skills.proof.wording import (
    tell_agreement,
    tell_due,
    tell_many,
    tell_share,
    tell_steadiness,
    tell_test,
)
from site_builder.skills.proof_due import Line, proof_lines
from site_builder.views.dates import dated_day
from site_builder.views.path import named_value, place_of_work
from site_builder.views.prose import NO_WORDS, Prose, capital, joined, listed, prose, say, sentence
from site_builder.views.typeset import typeset

_ALONE = rank("alone")
_TRIALS = 4
"""So many trials, the newest, are told on the page of a skill."""
SPREAD = "Where several pieces stand in one entry, the bad ones are taken as spread evenly over it."
STEADY = "Steady is a hand that makes half the faults that may be made; twice as many are not steady yet."
TESTED = "The proof counts every piece from the first; the test that ends early begins anew after each “not ready”."


@dataclass(frozen=True, slots=True)
class Bar:
    """Arguments of the part ``proof``: counts on a bar as long as ``total``."""

    id: str
    label: str
    got: float
    wanted: float
    total: float
    text: str


@dataclass(frozen=True, slots=True)
class SoFar:
    """One learner: what it comes to in plain words; behind it the bars, limits as (kept, words), pieces and feel."""

    id: str
    title: Prose
    plain: tuple[Prose, ...]
    bars: tuple[Bar, ...]
    limits: tuple[tuple[bool, Prose], ...]
    pieces: tuple[Prose, ...]
    feel: tuple[Prose, ...]

    @property
    def notes(self) -> str:
        """What the sentences on pieces take for granted."""
        return f"{SPREAD} {TESTED} {STEADY}" if len(self.pieces) > 1 else ""


def proofs_so_far(people_index: PeopleIndex, context: PageContext, id_: str, skill: Skill) -> Iterator[SoFar]:
    """Everybody who is on the way to doing it alone and of whom practice or a trial is entered, the furthest first."""
    if skill.proof is None:
        return
    for held in people_index.book.analysis.holders.of_skill(id_):
        if held.rank < _ALONE and id_ in people_index.practised(held.person):
            yield _so_far(people_index, context, id_, skill, skill.proof, held.person)


def _so_far(
    people_index: PeopleIndex, context: PageContext, id_: str, skill: Skill, proof: Proof, learner: str
) -> SoFar:
    so_far = people_index.progress(learner, id_)
    lines = [*proof_lines(people_index.evidence_book, skill, learner, people_index.today)]
    bars = tuple(bar for line in lines if (bar := _bar(line, proof, so_far, learner)) is not None)
    limits = tuple((line.enough, _limit(context, line)) for line in lines if line.what == "limit")
    trials = [
        *compared(
            people_index.evidence_book, learner, id_, people_index.today, lambda piece: piece_name(context, piece)
        )
    ]
    return SoFar(
        f"proof-{learner}", say("How far {} has come", people_index.short[learner]),
        (*plain_pieces(so_far), *(plain_trial(people_index, context, learner, one) for one in reversed(trials[-1:]))),
        bars, limits,
        tuple(pieces_told(so_far)) if so_far.made else (),
        tuple(trial_told(context, one) for one in reversed(trials[-_TRIALS:])),
    )


def _bar(line: Line, proof: Proof, so_far: Progress, learner: str) -> Bar | None:
    if line.has is None or line.wants is None:
        return None
    scale = 1 if line.what == "pieces" else 100
    got, wanted = round(line.has * scale), round(line.wants * scale)
    missing = "nothing is missing" if line.enough else "not yet enough"
    if line.what == "pieces":
        label, told = "Pieces", f"{got} made"
        missing = missing if line.enough else f"{wanted - got} more are missing"
    elif line.what == "share":
        share = spelt(str(proof.share))
        label = f"How sure that {share} are good at the first go, in per cent" if proof.confidence is not None else (
            "Good at the first go, in per cent")
        told = f"{so_far.good} of {so_far.made} were"
    else:
        label, told = "Verdicts by feel as the teacher’s, in per cent", line.told.partition(" verdicts")[0]
    total = max(got, wanted) if line.what == "pieces" else 100
    return Bar(f"{line.what}-{learner}", typeset(label), got, wanted, total, typeset(f"{told}: {missing}"))


def _limit(context: PageContext, line: Line) -> Prose:
    what = named_value(context.book.views, line.of)
    return say("{}: {}", what, context.words(line.told.removeprefix(f"{line.of}: ")))


def pieces_told(progress: Progress) -> Iterator[Prose]:
    """What all the pieces of a learner mean."""
    yield _said(tell_share(progress.good, progress.made))
    if progress.due is not None:
        yield _said(tell_due(progress.due))
    if progress.tests:
        *earlier, last = progress.tests
        again = f"The test began anew after piece {earlier[-1].at}, when it said “not ready”. " if earlier else ""
        yield _said(again + tell_test(last))
    if progress.steadiness is not None:
        yield _said(tell_steadiness(progress.steadiness))


def plain_pieces(progress: Progress) -> Iterator[Prose]:
    """The same without a statistic, in one line."""
    if progress.made:
        told = [plainly_pieces(progress.good, progress.made)]
        told += [plainly_due(progress.due)] if progress.due is not None else []
        told += [plainly_steady(progress.steadiness)] if progress.steadiness is not None else []
        yield prose(typeset(" ".join(told)))


def plain_trial(people_index: PeopleIndex, context: PageContext, learner: str, one: Compared) -> Prose:
    """A feel trial beside the teacher's, without a statistic."""
    teacher = str(one.trial.teacher or "")
    told = plainly_agreed(one.agreed, one.leaning, people_index.short.get(learner, learner),
                          people_index.short.get(teacher, "the teacher"))
    return say("**{}.** {}", context.date(one.trial.date), typeset(told))


def trial_told(context: PageContext, one: Compared) -> Prose:
    """A feel trial beside the teacher's: what it means, then the number."""
    on = context.date(one.trial.date)
    at = place_of_work(context.book.views, str(one.trial.felt)) if one.trial.felt is not None else NO_WORDS
    head = joined((part for part in (prose(on), at) if part), ", ")
    told = typeset(tell_agreement(one.agreed, one.kappa, one.leaning, ordered=len(one.scale) > 2))
    return say("**{}.** {}", capital(head), told)


def hands_together(people_index: PeopleIndex, context: PageContext, skill: str) -> Iterator[Prose]:
    """Where three people or more judged the same pieces."""
    for one in together(people_index.evidence_book, skill, people_index.today):
        yield _together(people_index, context, one)


def _together(people_index: PeopleIndex, context: PageContext, one: Together) -> Prose:
    named = listed(people_index.short.get(person, person) for person in one.people)
    told = typeset(tell_many(one.kappa, len(one.people)))
    return say("**{}.** {} judged the same {} pieces ({}). {}", dated_day(one.day), named, one.pieces,
                  place_of_work(context.book.views, one.felt), told)


def kept_fresh(people_index: PeopleIndex, context: PageContext, id_: str) -> Iterator[Prose]:
    """With whom it rests, and who must practise it by when, whoever rests first."""
    found = []
    for held in people_index.book.analysis.holders.of_skill(id_):
        if held.paper is not None and held.paper.last is not None:
            found.append((held.paper.last, say(
                "**{} rests** since {}. It holds again when “{}” is renewed.", context.link("person", held.person),
                dated_day(held.paper.last), context.words(held.paper.paper.paper))))
        until = people_index.fresh_until(held)
        if until is not None:
            last = people_index.book.analysis.holders.fresh.last_practice(held.person, id_, people_index.today)
            found.append((until, _fresh(context.link("person", held.person), until, last, people_index.today)))
    for _, words in sorted(found, key=lambda pair: pair[0]):
        yield words


def _fresh(who: Prose, until: date, last: date | None, today: date) -> Prose:
    practised = "No practice of it stands in the books." if last is None else f"Last practised on {dated_day(last)}."
    if until < today:
        return say("**{} rests** since {}. {} It holds again with the next practice that is entered.", who,
                      dated_day(until), practised)
    return say("**{}** by {}. {}", who, dated_day(until), practised)


def piece_name(context: PageContext, piece: str) -> str:
    """A reference piece by its title, any other by the name it was given."""
    return context.title("tool", piece) if piece in context.book.notebook.tools else typeset(piece)


def _said(told: str) -> Prose:
    return sentence(typeset(told))


__all__ = ["Bar", "SoFar", "hands_together", "kept_fresh", "piece_name", "pieces_told", "plain_pieces", "plain_trial",
           "proofs_so_far", "trial_told"]
