"""The entries of one person's own work, each in a line."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import OwnBook, PeopleIndex, entry_anchor
from site_builder.notebook.model.records import Incident, Measurement, Practice, Record, SignOff, Trial
from site_builder.views.counts import number
from site_builder.views.path import named_value, place_of_work
from site_builder.views.prose import NO_WORDS, Prose, capital, joined, listed, prose, say, sentence
from site_builder.views.typeset import typeset

KINDS = {
    "practice": ("Practice", "of practice"), "sign-off": ("Sign-off", "of sign-offs"),
    "trial": ("Feel trial", "of feel trials"), "measurement": ("Measurement", "of measurements"),
    "incident": ("Incident", "of incidents"),
}
Line = tuple[str, str, str, Prose]
_READINGS = 6


def lines(people_index: PeopleIndex, context: PageContext, own: OwnBook) -> list[Line]:
    """(anchor, date, kind, words) of each entry shown."""
    return [
        (entry_anchor(r), context.date(r.date), KINDS[r.KIND][0], words(people_index, context, r)) for r in own.shown
    ]


def counted(own: OwnBook) -> str:
    """How many entries there are, by book, and which of them stand here."""
    by_book = listed(f"{number(count)} in the book {KINDS[kind][1]}" for kind, count in own.counts.items())
    if own.total == len(own.shown):
        return str(sentence(capital(by_book)))
    return f"{sentence(capital(by_book))} Here stand the newest, and those on which a sign-off or a change rests."


def words(people_index: PeopleIndex, context: PageContext, record: Record) -> Prose:
    """What an entry says."""
    if isinstance(record, Practice):
        said = _practice(context, record)
    elif isinstance(record, SignOff):
        said = _sign_off(people_index, context, record)
    elif isinstance(record, Trial):
        said = _trial(context, record)
    elif isinstance(record, Measurement):
        said = _measurement(context, record)
    elif isinstance(record, Incident):
        said = _incident(context, record)
    else:
        said = iter(())
    note = [sentence(context.words(record.note))] if record.note is not None else []
    return joined([*said, *note])


def _practice(context: PageContext, record: Practice) -> Iterator[Prose]:
    told = [context.any_link(str(record.procedure), ("procedure",))] if record.procedure is not None else []
    for count, noun in ((record.pieces, "pieces"), (record.scrap, "lost"), (record.rework, "done again")):
        if count is not None and (noun == "pieces" or str(count) != "0"):
            told.append(say("{} {}", context.value(count)[0], noun))
    if record.took is not None:
        told.append(say("in {}", context.value(record.took)[0]))
    yield sentence(joined(told, ", "))
    if record.teacher is not None:
        yield _with(context, str(record.teacher))


def _sign_off(people_index: PeopleIndex, context: PageContext, record: SignOff) -> Iterator[Prose]:
    later = people_index.taken_back.get(record.number)
    if later is not None:
        what = "Corrected" if later.corrects is not None else "Taken back"
        yield say("**{} by entry {}.**", what, later.number)
    skill = str(record.skill or "")
    known = skill in context.book.notebook.skills
    named = context.link("skill", skill, None, entry_anchor(record)) if known else context.words(skill)
    told = [named, *([prose(record.level)] if record.level is not None else [])]
    by = say(" by {}", context.person(str(record.who))) if record.who is not None else NO_WORDS
    yield sentence(say("{}, signed{}", joined(told, ", "), by))
    if record.override is not None:
        yield say("**Without the proof asked for:** {}", sentence(context.words(record.override)))


def _trial(context: PageContext, record: Trial) -> Iterator[Prose]:
    felt = place_of_work(context.book.views, str(record.felt)) if record.felt is not None else NO_WORDS
    verdicts = listed(f"{_piece(context, str(piece))} {verdict}" for piece, verdict in record.verdicts.items())
    yield sentence(say("{}: {}", felt, verdicts) if felt else verdicts)
    if record.teacher is not None:
        yield _with(context, str(record.teacher))


def _with(context: PageContext, teacher: str) -> Prose:
    known = teacher in context.book.notebook.people
    return say("With {}.", context.title("person", teacher) if known else context.words(teacher))


def _piece(context: PageContext, piece: str) -> str:
    """A reference piece by its title, any other by the name it was given."""
    return context.title("tool", piece) if piece in context.book.notebook.tools else typeset(piece)


def _measurement(context: PageContext, record: Measurement) -> Iterator[Prose]:
    told = [context.value(reading)[0] for reading in record.readings[:_READINGS]]
    more = len(record.readings) - len(told)
    if more > 0:
        told.append(f"{more} more")
    what = named_value(context.book.views, str(record.measured)) if record.measured is not None else NO_WORDS
    yield sentence(say("{}: {}", what, listed(told)) if told else what)


def _incident(context: PageContext, record: Incident) -> Iterator[Prose]:
    if record.during is not None:
        yield sentence(place_of_work(context.book.views, str(record.during)))
    for text in (record.what, record.harm, record.aid):
        if text is not None:
            yield sentence(context.words(text))
    if record.change is not None:
        yield say("It led to a change: {}.", context.any_link(str(record.change), ("change",)))
