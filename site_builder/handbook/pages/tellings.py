"""What was told and stands nowhere yet, telling by telling; where the shop wants it, each from end to end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.site import UNWRITTEN, Page, Site
from site_builder.notebook.index import Place
from site_builder.notebook.moments import Coverage, State
from site_builder.tellings.cue import Cue
from site_builder.tellings.timing import Stretch, clock_text
from site_builder.views.anchors import token
from site_builder.views.counts import number
from site_builder.views.heard import teller, told_where, voice
from site_builder.views.prose import NO_WORDS, Linked, Prose, Ref, joined, linked, prose, say

_STATES: tuple[State, ...] = ("taken up", "laid aside", "open")


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence as it stands on the page: when, who, the words, what can be done with it."""

    id: str
    at: str
    who: str
    words: str
    foot: Prose


def telling_pages(site: Site) -> Iterator[Page]:
    """Of each telling that was written down what is still open; the whole of it, if the shop says so."""
    for id_ in site.notebook.transcripts:
        yield site.remember("telling", id_, partial(_open, id_=id_))
        if ("whole telling", id_) in site.addresses:
            yield site.remember("whole telling", id_, partial(_whole, id_=id_))


def listed_tellings(context: PageContext) -> list[tuple[Prose, Prose]]:
    """(link, how far it is) of every telling with a transcript, for the page of questions."""
    coverage = context.book.analysis.coverage
    return [(context.link("telling", id_), prose(_how_far(coverage[id_]))) for id_ in context.book.notebook.transcripts]


def _open(site: Site, id_: str) -> Page:
    src_uri = site.addresses["telling", id_]
    context = PageContext(site, src_uri)
    found = site.analysis.coverage[id_]
    lede = say("{} What is taken up stands in the work, what is laid aside is talk; what is open stands nowhere yet.",
               _how_far(found))
    is_whole = ("whole telling", id_) in site.addresses
    whole = context.link("whole telling", id_, "See the whole telling") if is_whole else NO_WORDS
    said = [_said(context, found, cue, NO_WORDS) for cue in found.of("open")]
    shares = [round(598 * len(found.of(state)) / len(found.cues)) for state in _STATES]
    html = pressed("telling.html.j2", context, kicker=_kicker(context), title=_title(context, found), lede=lede,
                   told=_told(context, found), said=said, shares=shares, whole=whole, open=True)
    parts = tuple(Part(one.id, one.words) for one in said)
    return Page(src_uri, _title(context, found), html, lede.plain, parts, str(found.telling.at.path))


def _whole(site: Site, id_: str) -> Page:
    src_uri = site.addresses["whole telling", id_]
    context = PageContext(site, src_uri)
    found = site.analysis.coverage[id_]
    lede = say("All that was said, sentence by sentence. {}", _how_far(found))
    said = [_said(context, found, cue, _state(context, found, cue)) for cue in found.cues]
    title = f"{_title(context, found)}, from end to end"
    html = pressed("telling.html.j2", context, kicker=_kicker(context), title=title, lede=lede,
                   told=_told(context, found), said=said, shares=[], whole=NO_WORDS, open=False)
    return Page(src_uri, title, html, lede.plain, (), str(found.telling.at.path))


def _kicker(context: PageContext) -> Prose:
    return linked("Still unwritten", Ref("chapter", UNWRITTEN)) if context.book.notebook.transcripts else NO_WORDS


def _title(context: PageContext, found: Coverage) -> str:
    return context.title("telling", str(found.telling.id))


def _told(context: PageContext, found: Coverage) -> Prose:
    """``Told by Edda. At the mould, 3 November 2026.``"""
    who = say("Told by {}.", teller(context.book.views, found.telling))
    return joined((who, told_where(found.telling, None)))


def _how_far(found: Coverage) -> str:
    counts = {state: len(found.of(state)) for state in _STATES}
    total = len(found.cues)
    if counts["open"] == 0:
        return f"All {number(total)} sentences are taken up or laid aside."
    return (f"Of {number(total)} sentence{'' if total == 1 else 's'} {number(counts['taken up'])} "
            f"{'is' if counts['taken up'] == 1 else 'are'} taken up, {number(counts['laid aside'])} laid aside and "
            f"{number(counts['open'])} still open.")


def _said(context: PageContext, found: Coverage, cue: Cue, foot: Prose) -> Said:
    stretch = None if cue.start is None or cue.end is None or cue.end <= cue.start else Stretch(cue.start, cue.end)
    who = teller(context.book.views, found.telling)
    heard = voice(context.book.views, found.telling, stretch, who)
    at = "" if cue.start is None else clock_text(cue.start)
    to = heard[0].to if len(heard) == 1 and isinstance(heard[0], Linked) else None
    playing = heard if to is not None and context.address(to) is not None else NO_WORDS
    return Said(f"s-{token(cue.id)}", at, cue.speaker, cue.text, joined((playing, foot), " · "))


def _state(context: PageContext, found: Coverage, cue: Cue) -> Prose:
    """What became of a sentence, with links to what took it up."""
    state = found.states[cue.id]
    if state != "taken up":
        return prose(state)
    kinds = ("procedure", "tool", "material", "part", "skill")
    places = [context.any_link(one.owner_id, kinds) if isinstance(one, Place) else prose(str(one))
              for one in found.by.get(cue.id, ())]
    unique = list(dict.fromkeys(places))
    return say("taken up in {}", joined(unique, ", ")) if unique else prose(state)
