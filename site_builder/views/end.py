"""When work is over: by the clock, a count, a sign, by feel, by a state, and which of them decides."""

from __future__ import annotations

from collections.abc import Sequence

from site_builder.notebook.model.judging import Check, End
from site_builder.notebook.model.procedure import Step
from site_builder.views.limit_in_words import states, told
from site_builder.views.prose import Prose, capital, joined, prose, say, sentence, sentences
from site_builder.views.scope import Scope

_BY = {"touch": "by touch", "sight": "by eye", "sound": "by ear", "smell": "by nose", "taste": "by tongue",
       "weight": "by weight", "warmth": "by warmth"}
_DECIDES = {"clock": "the clock", "count": "the count", "sign": "the sign", "feel": "the feel", "check": "the test",
            "state": "the state"}


def stage_words(scope: Scope, end: End, here: Step | None) -> Prose:
    """``the middle stops sinking, about 15 s by the clock; go by the sign, not the clock.``: to go on from "until"."""
    signs = [*_signs(scope, end), *(say("{} by the clock", told(scope, limit)) for limit in end.clock),
             *(told(scope, limit) for limit in end.count), *states(scope, end.state)]
    joint = {"first": " or ", "last": " and ", None: " and "}.get(end.wins, ", ")
    return joined((sentence(_with_winner(scope, end, joined(signs, joint), len(signs))), what_then(scope, end, here)))


def sign_words(scope: Scope, ends: Sequence[End]) -> Prose:
    """``it is dry to the touch``: what shows it, to go on from "once"; without what is done then."""
    return joined([scope.meant(end, joined(_shown_by(scope, end), " and ")) for end in ends], " or ")


def _shown_by(scope: Scope, end: End) -> list[Prose]:
    return [*_signs(scope, end), *(told(scope, limit) for limit in (*end.clock, *end.count)),
            *states(scope, end.state)]


def worn_when(scope: Scope, end: End) -> Prose:
    """``About 40 h, or when it hums, whichever comes first.``: by itself, the figure first."""
    figures = [told(scope, limit) for limit in (*end.clock, *end.count)]
    signs = [say("when {}", sign) if figures or nth else sign for nth, sign in enumerate(_signs(scope, end))]
    parts = [*figures, *signs, *states(scope, end.state)]
    together = joined(parts, ", and " if end.wins == "last" else ", or ")
    return capital(sentence(_with_winner(scope, end, together, len(parts))))


def what_then(scope: Scope, end: End, here: Step | None) -> Prose:
    """What is done when it is over, and why."""
    said: list[str | Prose] = []
    if end.do is not None:
        said.append(scope.words(end.do))
    if end.then is not None:
        said.append(say("Then {}", scope.route(str(end.then), here)))
    if end.because:
        said.append(scope.inline_why(end))
    return sentences([*said, *scope.tail(end, told=("because", "wins"))])


def _with_winner(scope: Scope, end: End, signs: Prose, count: int) -> Prose:
    if count < 2:
        return signs
    return say("{}{} {}", signs, "," if end.wins in ("first", "last") else ";", _decides(scope, end))


def _decides(scope: Scope, end: End) -> Prose:
    if end.wins == "first":
        return prose("whichever comes first")
    if end.wins == "last":
        return prose("whichever comes last")
    if end.wins is not None:
        clock = ", not the clock" if end.clock and end.wins != "clock" else ""
        return say("go by {}{}", _DECIDES[end.wins], clock)
    return scope.untold("which of them decides is not told yet", end.at)


def _signs(scope: Scope, end: End) -> list[Prose]:
    signs: list[Prose] = []
    if end.sign is not None:
        signs.append(scope.within(end.sign))
    elif "sign" in end.asked:
        signs.append(scope.untold("by what sign is not told yet", end.at))
    signs += [_checked(scope, check, _BY.get(str(check.sense), "by feel")) for check in end.feel]
    signs += [_checked(scope, check, _BY.get(str(check.sense), "by a test")) for check in end.check]
    return signs


def _checked(scope: Scope, check: Check, how: str) -> Prose:
    if check.good is None:
        return say("{}, as told below", how)
    return scope.meant(check, say("{} ({})", scope.within(check.good), how))
