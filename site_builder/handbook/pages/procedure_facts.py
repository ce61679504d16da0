"""Single facts of a piece of work in words: time, loss, hands, skill, place."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup, escape

from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.ages_told import age_words
from site_builder.handbook.pages.procedure_remedies import remedies
from site_builder.handbook.pages.procedure_signs import told
from site_builder.handbook.pages.procedure_values import amount
from site_builder.handbook.pages.procedure_view import ProcedureView, meant
from site_builder.notebook.model.harm import Hands, Role
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.model.small import Time, Yield


def time_words(view: ProcedureView, time: Time) -> Markup:
    """``about 5 min, 20 min to set up; timed over 40 pieces, 2 March 2026``."""
    told_parts: list[Markup] = []
    named = ((time.each, "{}"), (time.load, "{} for a load"), (time.lot, "{} for the whole lot"),
             (time.setup, "{} to set up"))
    for leaf, words in named:
        if leaf is not None:
            told_parts.append(filled(words, amount(view, leaf)))
    told_words = Markup(", ").join(told_parts)
    if time.source is not None:
        told_words = filled("{}; {}", told_words, view.source(time.source))
    if time.date is not None:
        told_words = filled("{}, {}", told_words, view.context.date(time.date))
    extra = [view.inline_why(time), *view.tail(time.with_changes(source=None))]
    return in_words.joined_sentences([told_words, *extra]) if any(extra) else in_words.capital(told_words)


def yield_words(view: ProcedureView, loss: Yield) -> Markup:
    """``1.5 % scrapped, 4 % done again; counted over 200 pieces, 2 March 2026``."""
    named = ((loss.scrap, "{} scrapped"), (loss.rework, "{} done again"), (loss.returns, "{} of the metal goes back"))
    parts = [filled(words, amount(view, leaf)) for leaf, words in named if leaf is not None]
    words = in_words.listed(parts)
    if loss.source is not None:
        words = filled("{}; {}", words, view.source(loss.source))
    if loss.date is not None:
        words = filled("{}, {}", words, view.context.date(loss.date))
    extra = [view.inline_why(loss), *view.tail(loss.with_changes(source=None))]
    return in_words.joined_sentences([words, *extra]) if any(extra) else in_words.capital(words)


def hands_words(view: ProcedureView, found: tuple[Hands, ...], here: Step | None) -> Markup:
    """How many at once, who does what, who leads, and what if one is missing."""
    return Markup(" ").join(view.meant(hands, _hands(view, hands, here)) for hands in found)


def _hands(view: ProcedureView, hands: Hands, here: Step | None) -> Markup:
    said: list[str | Markup] = []
    if hands.count is not None:
        count = str(amount(view, hands.count))
        said.append(filled("{} at once", Markup(count)) if count != "1" else "one person")
    said += [_role(view, str(name), role) for name, role in hands.roles.items()]
    if hands.leads is not None:
        said.append(filled("{} leads", view.who(str(hands.leads))))
    if hands.missing:
        said.append(filled("If one is missing: {}", remedies(view, hands.missing, here)))
    if hands.because:
        said.append(view.inline_why(hands))
    return in_words.joined_sentences([*said, *view.tail(hands)])


def _role(view: ProcedureView, name: str, role: Role) -> Markup:
    skill = filled(" ({})", view.context.link("skill", str(role.skill))) if role.skill is not None else ""
    does = view.within(role.does) if role.does is not None else view.untold("what he does is not told yet", role.at)
    extra = [view.inline_why(role), *view.tail(role)]
    more = Markup(" ").join(e for e in extra if e)
    return view.meant(role, filled("The {}{}: {} {}", escape(name), skill, in_words.sentence(does), more))


def skill_words(view: ProcedureView, id_: str) -> Markup:
    skill = view.nb.skills.get(id_)
    if skill is None:
        return view.words(id_)
    link = view.context.link("skill", id_)
    return filled("{}, {}", link, age_words(view.context, skill.age)) if skill.age else link


def skill_table(view: ProcedureView, table: Mapping[str, object]) -> Markup:
    rows = []
    for name, row in table.items():
        inner = skill_table(view, row) if isinstance(row, dict) else skill_words(view, str(row))
        rows.append(filled("{}: {}", view.words(name), inner))
    return Markup("; ").join(rows)


def work_facts(view: ProcedureView, work: Work, here: Step | None) -> list[tuple[str, Markup]]:
    """Time, loss, hands, place and skill of a single step."""
    rows: list[tuple[str, Markup]] = []
    if work.hands:
        rows.append(("Hands", hands_words(view, work.hands, here)))
    if isinstance(work.skill, dict):
        rows.append(("Skill", skill_table(view, work.skill)))
    elif work.skill is not None:
        rows.append(("Skill", skill_words(view, str(work.skill))))
    if work.where is not None:
        rows.append(("Where", in_words.capital(view.words(work.where))))
    if work.load:
        rows.append(("In one load", in_words.joined_sentences([told(view, limit) for limit in work.load])))
    rows += [("Takes", meant(view.only(t), time_words(view, t))) for t in work.time]
    rows += [("Loss", meant(view.only(y), yield_words(view, y))) for y in work.yield_]
    if work.makes:
        rows.append(("Makes", in_words.listed(view.things(map(str, work.makes)))))
    if work.part:
        rows.append(("Work on", in_words.listed(view.things(map(str, work.part)))))
    return rows
