"""Single facts of a piece of work in words: time, loss, hands, skill, place."""

from __future__ import annotations

from collections.abc import Mapping

from site_builder.notebook.model.harm import Hands, Role
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.model.small import Time, Yield
from site_builder.views.age import age_words
from site_builder.views.dates import date_words
from site_builder.views.limit_in_words import told
from site_builder.views.prose import Prose, capital, joined, listed, meant, say, sentence, sentences
from site_builder.views.remedy import remedies
from site_builder.views.scope import Scope
from site_builder.views.value import amount


def time_words(scope: Scope, time: Time) -> Prose:
    """``about 5 min, 20 min to set up; timed over 40 pieces, 2 March 2026``."""
    told_parts: list[Prose] = []
    named = ((time.each, "{}"), (time.load, "{} for a load"), (time.lot, "{} for the whole lot"),
             (time.setup, "{} to set up"))
    for leaf, words in named:
        if leaf is not None:
            told_parts.append(say(words, amount(scope, leaf)))
    told_words = joined(told_parts, ", ")
    if time.source is not None:
        told_words = say("{}; {}", told_words, scope.source(time.source))
    if time.date is not None:
        told_words = say("{}, {}", told_words, date_words(time.date))
    extra = [scope.inline_why(time), *scope.tail(time.with_changes(source=None))]
    return sentences([told_words, *extra]) if any(extra) else capital(told_words)


def yield_words(scope: Scope, loss: Yield) -> Prose:
    """``1.5 % scrapped, 4 % done again; counted over 200 pieces, 2 March 2026``."""
    named = ((loss.scrap, "{} scrapped"), (loss.rework, "{} done again"), (loss.returns, "{} of the metal goes back"))
    parts = [say(words, amount(scope, leaf)) for leaf, words in named if leaf is not None]
    words = listed(parts)
    if loss.source is not None:
        words = say("{}; {}", words, scope.source(loss.source))
    if loss.date is not None:
        words = say("{}, {}", words, date_words(loss.date))
    extra = [scope.inline_why(loss), *scope.tail(loss.with_changes(source=None))]
    return sentences([words, *extra]) if any(extra) else capital(words)


def hands_words(scope: Scope, found: tuple[Hands, ...], here: Step | None) -> Prose:
    """How many at once, who does what, who leads, and what if one is missing."""
    return joined(scope.meant(hands, _hands(scope, hands, here)) for hands in found)


def _hands(scope: Scope, hands: Hands, here: Step | None) -> Prose:
    said: list[str | Prose] = []
    if hands.count is not None:
        count = amount(scope, hands.count)
        said.append(say("{} at once", count) if count.plain != "1" else "one person")
    said += [_role(scope, str(name), role) for name, role in hands.roles.items()]
    if hands.leads is not None:
        said.append(say("{} leads", scope.who(str(hands.leads))))
    if hands.missing:
        said.append(say("If one is missing: {}", remedies(scope, hands.missing, here)))
    if hands.because:
        said.append(scope.inline_why(hands))
    return sentences([*said, *scope.tail(hands)])


def _role(scope: Scope, name: str, role: Role) -> Prose:
    skill = say(" ({})", scope.view.link("skill", str(role.skill))) if role.skill is not None else ""
    does = scope.within(role.does) if role.does is not None else scope.untold("what he does is not told yet", role.at)
    told = say("The {}{}: {}", name, skill, sentence(does))
    return scope.meant(role, joined((told, scope.inline_why(role), *scope.tail(role))))


def skill_words(scope: Scope, id_: str) -> Prose:
    skill = scope.nb.skills.get(id_)
    if skill is None:
        return scope.words(id_)
    link = scope.view.link("skill", id_)
    return say("{}, {}", link, age_words(scope, skill.age)) if skill.age else link


def skill_table(scope: Scope, table: Mapping[str, object]) -> Prose:
    rows = []
    for name, row in table.items():
        inner = skill_table(scope, row) if isinstance(row, dict) else skill_words(scope, str(row))
        rows.append(say("{}: {}", scope.words(name), inner))
    return joined(rows, "; ")


def work_facts(scope: Scope, work: Work, here: Step | None) -> list[tuple[str, Prose]]:
    """Time, loss, hands, place and skill of a single step."""
    rows: list[tuple[str, Prose]] = []
    if work.hands:
        rows.append(("Hands", hands_words(scope, work.hands, here)))
    if isinstance(work.skill, dict):
        rows.append(("Skill", skill_table(scope, work.skill)))
    elif work.skill is not None:
        rows.append(("Skill", skill_words(scope, str(work.skill))))
    if work.where is not None:
        rows.append(("Where", capital(scope.words(work.where))))
    if work.load:
        rows.append(("In one load", sentences([told(scope, limit) for limit in work.load])))
    rows += [("Takes", meant(scope.only(t), time_words(scope, t))) for t in work.time]
    rows += [("Loss", meant(scope.only(y), yield_words(scope, y))) for y in work.yield_]
    if work.makes:
        rows.append(("Makes", listed(scope.things(map(str, work.makes)))))
    if work.part:
        rows.append(("Work on", listed(scope.things(map(str, work.part)))))
    return rows
