"""From a telling: its sentences on one side, the work as it grows on the other."""

from __future__ import annotations

from urllib.parse import urlencode

from werkzeug.exceptions import NotFound
from werkzeug.utils import redirect, send_file
from werkzeug.wrappers import Response

from site_builder.amend import Amendment, Conflict, Refused, Written, take_back, write
from site_builder.amend.telling import lay_aside, open_again
from site_builder.bench.choice import Choice
from site_builder.bench.tellings.brought import AGREED, DECLINED, agreement
from site_builder.bench.tellings.desk import OnTheDesk
from site_builder.bench.visit import DESK, Route, Visit

AT_A_TIME = 10
_BEFORE = 3
"""Sentences that stand before the open one, so that one knows what was spoken of."""


def tellings(visit: Visit) -> Response:
    """All of them, and how far each is."""
    survey = visit.reading.survey
    found = [(id_, str(survey.notebook.tellings[id_].title), len(one.of("open")), len(one.cues))
             for id_, one in survey.coverage.items()]
    silent = [(id_, str(one.title)) for id_, one in survey.notebook.tellings.items() if id_ not in survey.coverage]
    return visit.page("telling/all.j2", found=found, silent=silent)


def telling(visit: Visit, name: str) -> Response:
    """Ten sentences, and the work beside them."""
    desk = on_the_desk(visit, name)
    sentences = desk.sentences()
    args = visit.request.args
    first_open = next((n for n, one in enumerate(sentences) if one.state == "open"), 0)
    start = next((n for n, one in enumerate(sentences) if one.cue.id == args.get("from", "")), None)
    if start is None or args.get("next") == "open":
        after = start if start is not None else 0
        start = next((n for n, one in enumerate(sentences) if one.state == "open" and n >= after), first_open)
        start -= _BEFORE
    start = max(0, min(start, len(sentences) - 1))
    shown = sentences[start : start + AT_A_TIME]
    works = desk.works()
    work = desk.work(args.get("work", "") or (works[0][0] if works else ""))
    before = sentences[max(0, start - AT_A_TIME)].cue.id if start else ""
    after_that = sentences[start + AT_A_TIME].cue.id if start + AT_A_TIME < len(sentences) else ""
    return visit.page(
        "telling/desk.j2", desk=desk, counts=desk.counts(), of=len(sentences), shown=shown, before=before,
        after=after_that, works=[Choice(id_, title) for id_, title in works], work=work,
        grown=desk.grown(work) if work is not None else [], query=urlencode({"work": work.id} if work else {}),
        here=shown[0].cue.id if shown else "", who=desk.teller)


def on_the_desk(visit: Visit, name: str) -> OnTheDesk:
    """Raises NotFound where there is no such telling, or nothing of it can be read."""
    if name not in visit.reading.survey.coverage:
        raise NotFound()
    return OnTheDesk(visit, name)


def aside(visit: Visit, name: str) -> Response:
    """A sentence laid aside, opened again, or what took it up taken back."""
    desk = on_the_desk(visit, name)
    form = visit.form
    back = f"/telling/{name}?{urlencode({'from': form.get('here', ''), 'work': form.get('work', '')})}"
    if form.get("back"):
        made = take_back(visit.here.root, form["back"], visit.writer or DESK, visit.here.now())
    else:
        known = {cue.id for cue in desk.coverage.cues}
        cue = form.get("aside", "") or form.get("reopen", "")
        if cue not in known:
            raise NotFound()
        change = lay_aside if form.get("aside") else open_again
        amendment = change(desk.file, desk.tree, [cue])
        if not amendment.changes:
            return redirect(back, 303)
        amendment = Amendment(f"{desk.title}: {amendment.what.lower()}", amendment.changes)
        made = write(visit.here.root, amendment, visit.writer or DESK, visit.here.now())
    if isinstance(made, Written):
        return redirect(f"{back}#{form.get('aside', '') or form.get('reopen', '') or 'says'}", 303)
    return not_written(visit, made, back)


def not_written(visit: Visit, made: Conflict | Refused, back: str) -> Response:
    """Why nothing was written; both versions where two hands met."""
    said = ("These lines were changed meanwhile by somebody else. Nothing was written over. Go back and try again.",) \
        if isinstance(made, Conflict) else (made.why,)
    both = (made.seen, made.stands) if isinstance(made, Conflict) else None
    return visit.page("telling/not.j2", 409, said=said, both=both, back=back)


def agreed(visit: Visit, name: str) -> Response:
    """Whether somebody's voice may be played from the handbook."""
    desk = on_the_desk(visit, name)
    who, answer = visit.form.get("who", ""), visit.form.get("answer", "")
    if desk.book.shop is None or who not in desk.to_ask or answer not in (AGREED, DECLINED):
        raise NotFound()
    first = visit.names.first(who)
    what = f"{first} {'agrees' if answer == AGREED else 'does not agree'} to be heard in the handbook"
    amendment = Amendment(what, tuple(agreement(visit.here.root, desk.book, who, answer)))
    made = write(visit.here.root, amendment, visit.writer or DESK, visit.here.now())
    back = f"/telling/{name}"
    return redirect(back, 303) if isinstance(made, Written) else not_written(visit, made, back)


def voice(visit: Visit, name: str) -> Response:
    """The recording, from the disk; the browser may ask for a stretch of it."""
    file = on_the_desk(visit, name).voice
    if file is None:
        raise NotFound()
    return send_file(file, visit.request.environ, conditional=True)


tellings.desk_only = telling.desk_only = aside.desk_only = True  # type: ignore[attr-defined]
agreed.desk_only = voice.desk_only = True  # type: ignore[attr-defined]

ROUTES: tuple[Route, ...] = (
    ("/telling", ("GET",), tellings),
    ("/telling/<name>", ("GET",), telling),
    ("/telling/<name>/aside", ("POST",), aside),
    ("/telling/<name>/agreed", ("POST",), agreed),
    ("/telling/<name>/voice", ("GET",), voice),
)
