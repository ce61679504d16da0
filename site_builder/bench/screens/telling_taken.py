"""A sentence taken up: the form opens filled in, and what is written keeps the moment."""

from __future__ import annotations

from urllib.parse import urlencode

from werkzeug.exceptions import NotFound
from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.amend import Amendment, Written, write
from site_builder.amend.telling import open_again
from site_builder.bench.choice import Choice
from site_builder.bench.screens.telling import not_written, on_the_desk
from site_builder.bench.tellings.becomes import BECOMES
from site_builder.bench.tellings.clash import (
    Clash,
    agrees,
    ask_about,
    clash_with,
    first_holds,
    second_holds,
    taken_back,
)
from site_builder.bench.tellings.desk import OnTheDesk
from site_builder.bench.tellings.filled_in import Filled, filled_in
from site_builder.bench.tellings.taking_up import (
    NEW_STEP,
    WHOLE,
    Sent,
    Unreadable,
    Work,
    place_of,
    taken_up,
    told,
    value_of,
)
from site_builder.bench.visit import DESK, Route, Visit
from site_builder.quantity import for_people, parse_value
from site_builder.tellings.cue import Cue

_TOGETHER = 4
"""So many sentences further may be taken up with one."""


def take(visit: Visit, name: str) -> Response:
    """The form."""
    desk = on_the_desk(visit, name)
    cues = _cues(desk, visit.request.args.getlist("cue"))
    work = _work(desk, visit.request.args.get("work", ""))
    filled = filled_in([desk.understood[one.id] for one in cues], visit.request.args.get("kind", ""))
    if filled.kind not in BECOMES:
        raise NotFound()
    return _form(visit, desk, cues, work, _first(desk, filled, cues, work))


def taken(visit: Visit, name: str) -> Response:
    """Write it; where something else stands already, show both first."""
    desk = on_the_desk(visit, name)
    form = visit.form
    cues = _cues(desk, form.getlist("cue"))
    work = _work(desk, form.get("work", ""))
    sent = Sent(*(form.get(one, "") for one in ("kind", "words", "value", "name", "because", "thing", "new", "where")))
    back = f"/telling/{name}?{urlencode({'from': cues[0].id, 'work': work.id})}"
    if form.get("other"):
        again = urlencode([*(("cue", one.id) for one in cues), ("work", work.id), ("kind", sent.kind)])
        return redirect(f"/telling/{name}/take?{again}", 303)
    moment = told(name, cues)
    try:
        clash = clash_with(sent, work)
        if clash is None:
            amendment = taken_up(sent, work, moment, desk.book, desk.own(cues))
        elif not clash.differs:
            amendment = agrees(clash, work, moment)
        else:
            settled = _settle(desk, clash, work, form.get("holds", ""), moment, cues)
            if settled is None:
                return _both(visit, desk, cues, work, sent, clash)
            amendment = settled
    except Unreadable as wrong:
        return _form(visit, desk, cues, work, sent, wrong)
    reopened = open_again(desk.file, desk.tree, [one.id for one in cues])
    made = write(visit.here.root, amendment + Amendment("", reopened.changes), visit.writer or DESK, visit.here.now())
    if isinstance(made, Written):
        return redirect(f"{back}#{cues[-1].id}", 303)
    return not_written(visit, made, back)


def _settle(desk: OnTheDesk, clash: Clash, work: Work, holds: str, moment: str, cues: list[Cue]) -> Amendment | None:
    who, on = desk.teller, str(desk.telling.date or "")
    if holds == "ask":
        return ask_about(clash, work, who, moment, on)
    if holds == "first":
        return first_holds(clash, work, who, moment, on)
    if holds == "second":
        return second_holds(clash, work, moment)
    return taken_back(clash, work, moment) if holds == "taken-back" and _takes_back(desk, cues) else None


def _takes_back(desk: OnTheDesk, cues: list[Cue]) -> bool:
    return any(desk.understood[one.id].takes_back for one in cues)


def _cues(desk: OnTheDesk, wanted: list[str]) -> list[Cue]:
    """In the order in which they were said. A correction and what it corrects go together, where both are open."""
    ids = set(wanted[: _TOGETHER + 2])
    states = desk.coverage.states
    for id_, one in desk.understood.items():
        if states[id_] == "open" and (id_ in ids or ids.intersection(one.takes_back)):
            open_before = {back for back in one.takes_back if states.get(back) == "open"}
            ids |= {id_, *open_before} if id_ in ids or ids & open_before else set()
    found = [cue for cue in desk.coverage.cues if cue.id in ids]
    if not found:
        raise NotFound()
    return found


def _work(desk: OnTheDesk, id_: str) -> Work:
    works = desk.works()
    work = desk.work(id_ or (works[0][0] if works else ""))
    if work is None:
        raise NotFound()
    return work


def _first(desk: OnTheDesk, filled: Filled, cues: list[Cue], work: Work) -> Sent:
    """As the form opens: at the step that was written to last, or that holds what is taken back."""
    where = str(len(work.steps) - 1) if work.steps else WHOLE
    if filled.kind == "step":
        where = NEW_STEP
    name = filled.name
    for back in (one for cue in cues for one in desk.understood[cue.id].takes_back):
        for place in desk.coverage.by.get(back, ()):
            step = getattr(place, "step", None)
            owner = desk.book.procedures.get(getattr(place, "owner_id", ""))
            if owner is not None and step is not None and getattr(place, "name", None) and owner.id == work.id:
                where, name = str(_number(work, owner.numbers.get(id(step), ""))), str(place.name)  # type: ignore[union-attr]
    return Sent(filled.kind, filled.words, filled.value, name, filled.because, filled.thing, "", where)


def _number(work: Work, shown: object) -> int:
    number = str(shown)
    return int(number) - 1 if number.isdigit() and int(number) <= len(work.steps) else len(work.steps) - 1


def _form(
    visit: Visit, desk: OnTheDesk, cues: list[Cue], work: Work, sent: Sent, wrong: Unreadable | None = None,
) -> Response:
    kind = BECOMES[sent.kind] if sent.kind in BECOMES else BECOMES["step"]
    found = [desk.understood[one.id] for one in cues]
    asked = filled_in(found, sent.kind).asked if sent.kind in BECOMES else ()
    follow = desk.coverage.cues[desk.coverage.cues.index(cues[-1]) + 1 :][:_TOGETHER]
    together = [one for one in follow if desk.coverage.states[one.id] == "open"]
    suggested = [one for each in found for one in each.kinds if one in BECOMES]
    order = list(dict.fromkeys([sent.kind, *suggested, *BECOMES]))
    kinds = [Choice(one, BECOMES[one].label) for one in order if one in BECOMES]
    steps = [Choice(str(n), f"Step {n + 1}: {_short(one.do)}") for n, one in enumerate(desk.grown(work))]
    if kind.shape == "step":
        steps = [Choice(NEW_STEP, "A new step at the end"),
                 *(Choice(one.value, f"A new step behind {one.words[:1].lower()}{one.words[1:]}") for one in steps)]
    else:
        steps = [*steps, Choice(WHOLE, "The work as a whole")]
    book = desk.book
    shelf = book.tools if kind.key == "tools" else book.materials
    things = [Choice(str(id_), str(one.title)) for id_, one in shelf.items()]
    return visit.page(
        "telling/take.j2", 422 if wrong is not None else 200, desk=desk, cues=cues, work=work, sent=sent, kind=kind,
        kinds=kinds, first=kinds[:3], steps=steps, things=things, together=together, wrong=wrong, asked=asked,
        grown=desk.grown(work), takes_back=[back for one in found for back in one.takes_back],
        backs={one.id: one.text for one in desk.coverage.cues}, read=_read(sent))


def _short(text: str) -> str:
    return text if len(text) <= 60 else f"{text[:57].rstrip()} …"


def _read(sent: Sent) -> str:
    """What the figure in the form says, in words; empty where none stands there or it is not read."""
    try:
        notation = value_of(sent) if sent.value else ""
    except Unreadable:
        return ""
    return for_people(parse_value(notation)).main if notation else ""


def _both(visit: Visit, desk: OnTheDesk, cues: list[Cue], work: Work, sent: Sent, clash: Clash) -> Response:
    at = place_of(sent, work)
    where = f"step {int(at[1]) + 1}" if len(at) > 1 else "the work as a whole"
    return visit.page(
        "telling/both.j2", 200, desk=desk, cues=cues, work=work, sent=sent, clash=clash, where=where,
        takes_back=_takes_back(desk, cues), stands=for_people(parse_value(clash.stands)).main,
        says=for_people(parse_value(clash.said)).main)


take.desk_only = taken.desk_only = True  # type: ignore[attr-defined]

ROUTES: tuple[Route, ...] = (
    ("/telling/<name>/take", ("GET",), take),
    ("/telling/<name>/take", ("POST",), taken),
)
