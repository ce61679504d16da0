"""Sit down together: one question a screen, each answer on the disk before the next one shows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import IO
from urllib.parse import urlencode

from werkzeug.exceptions import NotFound
from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.amend import (
    Amendment,
    Conflict,
    Plain,
    Written,
    add_item,
    entry_at,
    look_up,
    take_back,
    write,
)
from site_builder.amend import Refused as NotSpliced
from site_builder.bench.answers import Given, Teller, Unreadable, answer, instead
from site_builder.bench.asking import A_QUESTION, EVERYTHING, Open, can_tell, for_teller, offers, open_questions
from site_builder.bench.choice import Choice
from site_builder.bench.homes import address_of, home_of
from site_builder.bench.keeping import NotKept, keep_picture, keep_recording
from site_builder.bench.reading_back import ReadBack, read_back
from site_builder.bench.shelves import shelf_choices
from site_builder.bench.visit import DESK, PENS, Route, Visit
from site_builder.bench.where import where_it_stands
from site_builder.bench.written_lines import latest, written_since
from site_builder.checks.answering import By
from site_builder.notebook.answered import ASK, NO_HARM, NO_MATTER, NOT_KNOWN, Answered
from site_builder.notebook.model.entry import keys_of

TIMES = ((15, "A quarter of an hour"), (30, "Half an hour"), (60, "An hour"), (0, "As long as it goes"))


@dataclass(frozen=True, slots=True)
class Sitting:
    """Who tells, who writes, how many questions it was begun with, and what had been written before."""

    about: str
    teller: str
    writer: str
    count: int
    since: str

    @property
    def query(self) -> str:
        return urlencode({"teller": self.teller, "writer": self.writer, "count": self.count, "since": self.since})

    @property
    def address(self) -> str:
        return f"/sit/{self.about}?{self.query}"


def begin(visit: Visit) -> Response:
    """Who tells, who writes, how long; and the work that fits."""
    args = visit.request.args
    living = visit.reading.survey.notebook.living
    teller = args.get("teller", next(iter(living), ""))
    visit.bench.put_off.pop(visit.session, None)  # what was put off comes again at the next sitting
    minutes = args.get("long", "30")
    long = int(minutes) if minutes in {str(one) for one, _ in TIMES} else 30
    found, more = offers(visit.reading, teller, long)
    waiting = {teller: sum(can_tell(one, teller) for one in for_teller(open_questions(visit.reading), teller))}
    tellers = [*(Choice(id_, visit.names.person(id_), f"{waiting[id_]} questions wait" if id_ in waiting else "")
                 for id_ in living), Choice("", "Somebody else")]
    writers = [Choice("", "The one who tells"), *(Choice(id_, visit.names.person(id_)) for id_ in living)]
    times = [Choice(str(one), words, f"{one // A_QUESTION} questions" if one else "") for one, words in TIMES]
    return visit.page("sit/begin.j2", tellers=tellers, writers=writers, times=times, teller=teller, long=str(long),
                      writer=args.get("writer", ""), offers=found, more=more, minutes=A_QUESTION,
                      since=latest(visit.here.root))


def question(visit: Visit, about: str) -> Response:
    """The next question, or the end of the sitting."""
    sitting = _sitting(visit, about)
    found = _next(visit, sitting)
    if found is None:
        return redirect(f"/sit/{about}/end?{sitting.query}")
    return _ask(visit, sitting, found)


def answered(visit: Visit, about: str) -> Response:
    """Write the answer, and show what was read where it cannot be written."""
    sitting = _sitting(visit, about)
    found = next((one for one in open_questions(visit.reading, about) if one.id == visit.form.get("q")), None)
    if found is None or found.spot is None or found.answer is None:
        return redirect(sitting.address, 303)  # somebody has answered it meanwhile
    way = visit.form.get("way", "")
    if way == "line":
        return _at_the_line(visit, sitting, found)
    if way == "later":
        _put_off(visit, found)
        return redirect(sitting.address, 303)
    try:
        amendment = _amendment(visit, sitting, found, way)
    except (Unreadable, NotKept) as problem:
        read = problem.read if isinstance(problem, Unreadable) else ReadBack(wrong=str(problem))
        return _ask(visit, sitting, found, read)
    if amendment is None:
        return _ask(visit, sitting, found, ReadBack(wrong="Say first whom to ask."))
    made = write(visit.here.root, amendment, sitting.writer or sitting.teller, visit.here.now())
    if isinstance(made, NotSpliced):
        return _ask(visit, sitting, found, ReadBack(wrong=made.why), f"{made.file}, line {made.line}")
    if isinstance(made, Conflict):
        return _ask(visit, sitting, found, ReadBack(
            wrong="Somebody wrote here while you were writing. Nothing was written over; look at what stands there "
                  "now, and answer again."))
    if visit.form.get("kept-voice") or _voice(visit) is not None:
        _put_off(visit, found)
    return redirect(sitting.address, 303)


answered.large = True  # type: ignore[attr-defined]


def back(visit: Visit, about: str) -> Response:
    """Take back something that was written in this sitting."""
    sitting = _sitting(visit, about)
    made = take_back(visit.here.root, visit.form.get("back", ""), sitting.writer or sitting.teller, visit.here.now())
    if not isinstance(made, Written):
        why = made.why if isinstance(made, NotSpliced) else ("These lines were changed again since. They stay as they "
                                                             "are; look at them where they stand.")
        return visit.page("words.j2", 409, title="It could not be taken back", said=(why,))
    where = f"/sit/{about}/end?{sitting.query}" if visit.form.get("at") == "end" else sitting.address
    return redirect(where, 303)


def end(visit: Visit, about: str) -> Response:
    """The lines that were written, as they stand now, and what is left."""
    sitting = _sitting(visit, about)
    lines = [*written_since(visit, sitting.since)]
    left = [*_of(visit, sitting)]
    return visit.page("sit/end.j2", sitting=sitting, lines=lines, left=len(left), title=_title(visit, sitting),
                      open_ones=[visit.names.plainly(one.text) for one in left[:5]])


def read(visit: Visit) -> Response:
    """What a text says, for the line under the box while somebody types."""
    args = visit.request.args
    told = read_back(args.get("text", "")[:1000], args.get("unit", "")[:12], args.get("as", "value"),
                     visit.names.nouns)
    return visit.page("sit/read.j2", read=told)


# ------------------------------------------------------------------ the parts of it


def _sitting(visit: Visit, about: str) -> Sitting:
    args = visit.request.args
    count = args.get("count", "0")
    book = visit.reading.survey.notebook
    teller, writer = args.get("teller", ""), args.get("writer", "")
    shop = str(book.shop.shop) if book.shop is not None else ""
    if book.entry(about) is None and about not in (shop, "people", "shop", EVERYTHING):
        raise NotFound()
    return Sitting(about, teller if teller in book.people else "", writer if writer in book.people else "",
                   int(count) if count.isascii() and count.isdigit() and len(count) < 5 else 0,
                   args.get("since", "")[:40])


def _next(visit: Visit, sitting: Sitting) -> Open | None:
    later = visit.bench.put_off.get(visit.session, set())
    done = len([*written_since(visit, sitting.since)])
    waiting = [*_of(visit, sitting)]
    if sitting.count and done + sum(one.id in later for one in waiting) >= sitting.count:
        return None
    return next((one for one in waiting if one.id not in later), None)


def _of(visit: Visit, sitting: Sitting) -> Iterator[Open]:
    """What may be asked in this sitting, the next first."""
    for one in for_teller(open_questions(visit.reading, sitting.about), sitting.teller):
        if sitting.about != EVERYTHING or can_tell(one, sitting.teller):
            yield one


def _at_the_line(visit: Visit, sitting: Sitting, found: Open) -> Response:
    """To the form of the entry that the question is about, with the pens out; from there back into the sitting."""
    about, spot = found.weighed.question.about, found.spot
    assert spot is not None
    own = home_of(visit.here.root, visit.reading.survey.notebook, about)
    if own is None or own.file != spot.file or spot.entry[: len(own.base)] != own.base:
        return _ask(visit, sitting, found, ReadBack(wrong="It has no room of its own yet. Choose one below."))
    pairs = [("at", one) for one in address_of(own, spot.entry)] + [("sit", sitting.address)]
    answer = redirect(f"/line/{about}/form?{urlencode(pairs)}", 303)
    answer.set_cookie(PENS, sitting.writer or sitting.teller or DESK, httponly=True, samesite="Strict")
    return answer


def _put_off(visit: Visit, found: Open) -> None:
    visit.bench.put_off.setdefault(visit.session, set()).add(found.id)


def _amendment(visit: Visit, sitting: Sitting, found: Open, way: str) -> Amendment | None:
    """What the form says as an amendment; None where nobody was named to be asked."""
    assert found.spot is not None and found.answer is not None
    if way == "" and found.answer.by is By.LINE:
        raise Unreadable(ReadBack(wrong="It is written where it stands. Press the button above, or choose below."))
    what, today = f"{visit.names.thing(found.weighed.question.about)}: {found.text}", visit.here.today
    teller = sitting.teller or sitting.writer
    if way in ("not-known", "ask", "no-matter"):
        whom = " ".join((visit.form.get("whom-else") or visit.form.get("whom") or "").replace(";", ",").split())
        if way == "ask" and not whom:
            return None
        kind = {"not-known": NOT_KNOWN, "ask": ASK}.get(way) or (NO_HARM if found.is_harm else NO_MATTER)
        said = Answered(kind, teller or "somebody", today, whom if way == "ask" else "")  # type: ignore[arg-type]
        return instead(what, found.weighed.question.code, found.spot, said)
    by = Teller(teller or "somebody of the shop", today)
    voice = _voice(visit)
    if voice is not None:
        name = keep_recording(visit.here.root, voice, found.weighed.question.about, today)
        return _spoken(visit, what, found, name, by)
    picture = visit.request.files.get("picture")
    about = found.weighed.question.about
    kept = keep_picture(visit.here.root, picture.stream, about, today) if picture and picture.filename else ""
    form = visit.form
    given = Given(form.get("words", ""), form.get("unit", ""), form.get("name", ""),
                  tuple(form.getlist("chosen")), form.get("new", ""), form.get("new-kind", ""),
                  form.get("none") == "1", kept)
    return answer(what, found.weighed.question.code, found.answer, found.spot, given, by, visit.reading.survey)


def _voice(visit: Visit) -> IO[bytes] | None:
    sent = visit.request.files.get("voice")
    return sent.stream if sent is not None and sent.filename else None


def _spoken(visit: Visit, what: str, found: Open, name: str, by: Teller) -> Amendment:
    """The voice kept as it is, beside the work it is about; the question stays open until it is written."""
    spot = found.spot
    assert spot is not None
    entry = spot.entry
    while entry:
        model = entry_at(spot.tree, entry)
        if model is not None and "pictures" in keys_of(model) and isinstance(look_up(spot.tree, entry), dict):
            break
        entry = entry[:-1]
    path = (*entry, "pictures")
    item: Plain = {"file": name, "shows": f"{visit.names.person(by.id)} on: {found.text}", "source": by.source}
    return add_item(what, spot.file, path, look_up(spot.tree, path), item)


def _title(visit: Visit, sitting: Sitting) -> str:
    return "All the work" if sitting.about == EVERYTHING else visit.names.thing(sitting.about)


def _ask(visit: Visit, sitting: Sitting, found: Open, read: ReadBack | None = None, hand: str = "") -> Response:
    assert found.answer is not None
    written = [*written_since(visit, sitting.since)]
    form = visit.form if visit.request.method == "POST" else None
    whom = [Choice(id_, visit.names.person(id_)) for id_ in visit.reading.survey.notebook.living
            if id_ != sitting.teller]
    choices = [*shelf_choices(visit.reading.survey.notebook, found.answer.of)] if found.answer.by in (
        By.THINGS, By.THING) else [Choice(one, one) for one in found.answer.of]
    if found.weighed.question.said:
        choices = [Choice(str(number), f"{visit.names.person(who) or 'Somebody'}: {value}")
                   for number, (who, value) in enumerate(found.weighed.question.said)]
    left = sum(1 for _ in _of(visit, sitting))
    return visit.page(
        "sit/question.j2", 422 if read is not None else 200, sitting=sitting, found=found, read=read, hand=hand,
        answer=found.answer, by=found.answer.by.name, whom=whom, choices=choices, done=len(written),
        of=sitting.count or len(written) + left, last=written[-1] if written else None, title=visit.names.thing(
            found.weighed.question.about), place=where_it_stands(visit, found),
        typed=form.get("words", "") if form else _prefilled(found),
        chosen=form.getlist("chosen") if form else [], unit=form.get("unit", "") if form else "")


def _prefilled(found: Open) -> str:
    """What stands there now, where it is said again."""
    assert found.answer is not None
    if found.answer.key or found.spot is None or found.answer.by is not By.WORDS:
        return ""
    return str(look_up(found.spot.tree, found.spot.path) or "")


begin.desk_only = question.desk_only = answered.desk_only = True  # type: ignore[attr-defined]
back.desk_only = end.desk_only = read.desk_only = True  # type: ignore[attr-defined]


def _routes() -> Iterator[Route]:
    yield "/sit", ("GET",), begin
    yield "/sit/<about>", ("GET",), question
    yield "/sit/<about>/answer", ("POST",), answered
    yield "/sit/<about>/back", ("POST",), back
    yield "/sit/<about>/end", ("GET",), end
    yield "/read", ("GET",), read


ROUTES: tuple[Route, ...] = tuple(_routes())
