"""Where an entry was told: the words, who said them, and the moment at which they can be heard."""

from __future__ import annotations

from site_builder.notebook.consent import playable
from site_builder.notebook.model.telling import Telling
from site_builder.notebook.moments import moment
from site_builder.tellings.timing import Stretch, clock_text
from site_builder.views.dates import date_words
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import NO_WORDS, Prose, Ref, joined, linked, prose, say


def heard(view: NotebookView, text: str) -> Prose:
    """``Hear Edda say it: “You count to twenty.” At the mould, 3 November 2026, at 4:31.``

    The first words lead to the moment where it may be played. What is nowhere to be found stands as it was written.
    """
    found = moment(view.notebook, text)
    telling = view.notebook.tellings.get(found.telling)
    if telling is None or found.problem:
        return say("Told in {}.", text)
    who = teller(view, telling)
    said = " ".join(cue.text for cue in found.cues)
    words = say(": “{}”", said) if said else prose(".")
    where = told_where(telling, found.stretch)
    return joined((say("{}{}", voice(view, telling, found.stretch, who), words), where))


def voice(view: NotebookView, telling: Telling, stretch: Stretch | None, who: Prose) -> Prose:
    """``Hear Edda say it``, leading to the moment; ``Told by Edda`` where it cannot be played."""
    if stretch is None or playable(view.notebook, telling) is None:
        return say("Told by {}", who)
    told = say("Told by {}", who.plain)
    return linked(say("Hear {} say it", who.plain), Ref("moment", str(telling.id), stretch.fragment()), told)


def teller(view: NotebookView, telling: Telling) -> Prose:
    """Who tells, by the first name alone, as people in the shop say."""
    if telling.teller is None:
        return prose("somebody")
    person = view.notebook.people.get(str(telling.teller))
    return view.words(str(telling.teller)) if person is None else prose(str(person.name).split()[0])


def told_where(telling: Telling, stretch: Stretch | None) -> Prose:
    """``At the mould, 3 November 2026, at 4:03.``"""
    at = "" if stretch is None else f"at {clock_text(stretch.start)}"
    told = ", ".join(filter(None, (str(telling.place or ""), date_words(telling.date), at)))
    return say("{}.", told[:1].upper() + told[1:]) if told else NO_WORDS
