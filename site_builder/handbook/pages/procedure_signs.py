"""Signs and limits inside sentences: when a thing is over, what is kept until when, where a figure is in doubt."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_values import amount, limit_worth, named_amounts, value_link
from site_builder.handbook.pages.procedure_view import ProcedureView
from site_builder.notebook.model.judging import Check, End, Keep
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.parsed_values import Several
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.tree import Text

_BY = {"touch": "by touch", "sight": "by eye", "sound": "by ear", "smell": "by nose", "weight": "by weight",
       "warmth": "by warmth"}
_DECIDES = {"clock": "the clock", "count": "the count", "sign": "the sign", "feel": "the feel", "check": "the test",
            "state": "the state"}


def stage_words(view: ProcedureView, end: End, here: Step | None) -> Markup:
    """``the middle stops sinking, about 15 s by the clock; the sign decides.``"""
    signs = _signs(view, end)
    joint = {"first": " or ", "last": " and ", None: " and "}.get(end.wins, ", ")
    told: Markup = filled("{}", Markup(joint).join(signs)) if signs else Markup("")
    if len(signs) > 1:
        told = filled("{}{} {}", told, "," if end.wins in ("first", "last") else ";", _decides(view, end))
    said: list[str | Markup] = []
    if end.do is not None:
        said.append(view.words(end.do))
    if end.then is not None:
        said.append(filled("Then {}", view.route(str(end.then), here)))
    if end.because:
        said.append(view.inline_why(end))
    said += view.tail(end, told=("because", "wins"))
    return filled("{} {}", in_words.sentence(told), in_words.joined_sentences(said)) if said else \
        in_words.sentence(told)


def _decides(view: ProcedureView, end: End) -> Markup:
    if end.wins == "first":
        return Markup("whichever comes first")
    if end.wins == "last":
        return Markup("whichever comes last")
    if end.wins is not None:
        return filled("{} decides", _DECIDES[end.wins])
    return view.untold("which of them decides is not told yet", end.at)


def _signs(view: ProcedureView, end: End) -> list[Markup]:
    signs: list[Markup] = []
    if end.sign is not None:
        signs.append(view.within(end.sign))
    elif "sign" in end.asked:
        signs.append(view.untold("by what sign is not told yet", end.at))
    signs += [_checked(view, check, _BY.get(str(check.sense), "by feel")) for check in end.feel]
    signs += [_checked(view, check, _BY.get(str(check.sense), "by a test")) for check in end.check]
    signs += [filled("{} by the clock", told(view, limit)) for limit in end.clock]
    signs += [told(view, limit) for limit in end.count]
    signs += states(view, end.state)
    return signs


def _checked(view: ProcedureView, check: Check, how: str) -> Markup:
    if check.good is None:
        return filled("{}, as told below", how)
    return view.meant(check, filled("{} ({})", view.within(check.good), how))


def states(view: ProcedureView, state: Mapping[Text, Several[Limit]]) -> list[Markup]:
    """``flatness of the sole at most 0.10 mm``, the name linked to where it is measured."""
    found = []
    for name, limits in state.items():
        for limit in limits:
            values = view.references.values(str(name), view.place(limit))
            shown = value_link(view, str(name), values[0]) if values else view.words(name)
            found.append(filled("{} {}", shown, told(view, limit)))
    return found


def told(view: ProcedureView, limit: Limit) -> Markup:
    """A limit inside a sentence, with its variant, reason and source."""
    if isinstance(limit.is_, Table):
        rows = (filled("{} at {}", limit_worth(view, cell).inline, ", ".join(names))
                for names, cell in limit.is_.cells())
        value = in_words.listed(rows, "or")
    else:
        value = limit_worth(view, limit).inline
    extra = [view.inline_why(limit), *view.tail(limit)]
    more = Markup(" ").join(e for e in extra if e)
    return view.meant(limit, filled("{} ({})", value, more) if more else value)


def kept(view: ProcedureView, keep: Keep) -> Markup:
    """``The first good foot (1 piece). Where: the shelf. Until the order is delivered.``"""
    what = in_words.lowered(view.words(keep.what), view.common.proper)
    what = Markup(what[:-1]) if what.endswith(".") else what
    if keep.amount is not None:
        what = filled("{} ({})", what, amount(view, keep.amount))
    said: list[str | Markup] = [what]
    if keep.where is not None:
        said.append(filled("Where: {}", view.within(keep.where)))
    said += [filled("Until {}", stage_words(view, end, None)) for end in keep.until]
    if keep.because:
        said.append(view.inline_why(keep))
    return view.meant(keep, in_words.joined_sentences([*said, *view.tail(keep)]))


def shifted(view: ProcedureView, limit: Limit) -> list[Markup]:
    """At which conditions a figure holds, and how it moves away from them."""
    lines = []
    if limit.given:
        lines.append(filled("Holds at {}.", named_amounts(view, limit.given)))
    if limit.follows:
        trends = in_words.listed(map(view.trend, limit.follows))
        lines.append(filled("It {}.", trends))
    return lines


def doubts(view: ProcedureView, limit: Limit) -> list[Markup]:
    """Why a figure is not trusted, and what was said of it by whom."""
    lines = []
    if limit.doubt is not None:
        lines.append(filled("In doubt: {}", in_words.sentence(view.within(limit.doubt))))
    for said in limit.said:
        who = view.context.person(str(said.who)) if said.who is not None else Markup("Somebody")
        by_himself = str(said.source or "") == f"told by {said.who}"
        told_so = said.with_changes(date=None, source=None if by_himself else said.source)  # both stand there already
        extra = [view.inline_why(said), *view.tail(told_so), *doubts(view, said)]
        if limit.is_ is not None:
            dated = f" on {view.context.date(said.date)}" if said.date is not None else ""
            figure = told(view, said.with_changes(because=(), note=None, source=None))
            lines.append(filled("Settled. {} had said {}{}. {}", who, figure, dated,
                                Markup(" ").join(e for e in extra if e)))
        elif any(extra):
            lines.append(filled("{}: {}", who, Markup(" ").join(e for e in extra if e)))
    return lines
