"""What to do when something is not as it should be: remedies, the way back, allowed departures."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from site_builder.notebook.model.judging import Exempt, Remedy, Trouble
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.tree import Text
from site_builder.views.counts import how_often
from site_builder.views.prose import NO_WORDS, Prose, capital, joined, linked, listed, say, sentence, sentences
from site_builder.views.scope import Scope


def remedies(scope: Scope, entries: Iterable[Remedy], here: Step | None) -> Prose:
    """Several remedies, one after the other."""
    return joined(scope.meant(entry, remedy(scope, entry, here)) for entry in entries)


def remedy(scope: Scope, entry: Remedy | Trouble, here: Step | None, *, way: bool = True) -> Prose:
    """``A thick primer splits. Strip it and start again. Then go to …, at most 3 times.``; what a trouble means is
    told where it is seen.

    ``way`` is False where the way back has a column of its own.
    """
    said: list[str | Prose] = []
    if entry.means is not None and isinstance(entry, Remedy):
        said.append(scope.words(entry.means))
    if entry.do:
        said.append(_in_turn(scope, entry.do) if isinstance(entry, Trouble) else scope.words(entry.do))
    elif "do" in entry.asked:
        said.append(scope.untold("what to do is not told yet", entry.at))
    if way:
        said.append(way_back(scope, entry, here))
        if isinstance(entry, Remedy) and entry.trouble is not None:
            said.append(_see(scope, entry.trouble))
    said += _hands_and_book(scope, entry)
    reason = scope.inline_why(entry)
    if reason:
        said.append(reason)
    return sentences([*said, *scope.tail(entry, told=("because", "do", "then", "cause"))])


def _in_turn(scope: Scope, deeds: Sequence[Text]) -> Prose:
    """``Draw the fire. If that does not help, add salt.``"""
    others = [say("If that does not help, {}", sentence(scope.within(deed))) for deed in deeds[1:]]
    return joined([sentence(scope.words(deeds[0])), *others])


def causes(scope: Scope, trouble: Trouble) -> Prose:
    """Why it happens; several one after the other, the likeliest first: ``The lye is weak. Or the fat is rancid.``"""
    if len(trouble.cause) < 2:
        return joined(map(scope.words, trouble.cause))
    others = [say("Or {}", sentence(scope.within(cause))) for cause in trouble.cause[1:]]
    return joined([sentence(scope.words(trouble.cause[0])), *others])


def seen(scope: Scope, trouble: Trouble, at: Prose = NO_WORDS) -> Prose:
    """What is seen, ``at`` which step, and what it means for the work."""
    sign = joined((scope.words(trouble.sign), at))
    return joined((sentence(sign), scope.words(trouble.means))) if trouble.means is not None else sign


def way_back(scope: Scope, entry: Remedy | Trouble, here: Step | None) -> Prose:
    """``Then go back to step 4, at most 3 times``."""
    times = how_often(entry.times.value) if entry.times is not None else ""
    if "then" in entry.asked:
        return scope.untold("where to go then is not told yet", entry.at)
    if entry.then is None:
        return say("This {}", times) if times else NO_WORDS
    told = scope.way(str(entry.then), here)
    if entry.then == "aside" and entry.who is not None:
        told = say("{} by {}", told, scope.who(str(entry.who)))
    return say("{}, {}", told, times) if times else told


def _see(scope: Scope, trouble_id: Text) -> Prose:
    found = scope.trouble(trouble_id)
    if found is None:
        return scope.words(trouble_id)
    sign = say("“{}”", capital(scope.within(found.sign)).plain)  # all of it is one link
    return say("See {}.", linked(sign, scope.here(scope.trouble_anchors[id(found)])))


def _hands_and_book(scope: Scope, entry: Remedy | Trouble) -> list[Prose]:
    said = []
    if entry.who is not None and entry.then != "aside":
        said.append(say("This is for {}", scope.who(str(entry.who))))
    if entry.write:
        said.append(say("Write down {}", listed(map(scope.within, entry.write))))
    return said


def exemption(scope: Scope, entry: Exempt, lead: str = "Unless") -> Prose:
    """``Unless the wide place lies under the ring. Edda Corvane decides. Write down the batch.``"""
    said: list[str | Prose] = []
    if entry.sign is not None:
        said.append(say("{} {}", lead, scope.within(entry.sign)))
    elif "sign" in entry.asked:
        said.append(say("{} {}", lead, scope.untold("when is not told yet", entry.at)))
    if entry.who is not None:
        said.append(say("{} allows it", scope.who(str(entry.who))))
    if entry.write:
        said.append(say("Write down {}", listed(map(scope.within, entry.write))))
    if entry.because:
        said.append(scope.inline_why(entry))
    return scope.meant(entry, sentences([*said, *scope.tail(entry, told=("because", "sign"))]))
