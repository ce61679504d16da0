"""What an entry holds and its place has no sentence of its own for: key by key, so that nothing is lost."""

from __future__ import annotations

from collections.abc import Iterable

from site_builder.notebook.index import Place
from site_builder.notebook.kinds import own_references
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.judging import ROUTES, End
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.parsed_values import ParsedValue
from site_builder.quantity import Cadence, Moment, Trend
from site_builder.quantity.dates import DateSpan
from site_builder.views.dates import date_words
from site_builder.views.prose import (
    NO_WORDS,
    Prose,
    capital,
    joined,
    listed,
    prose,
    say,
    sentence,
    sentences,
    unstopped,
)
from site_builder.views.scope import Scope
from site_builder.views.value import limit_value, shown_value

_NOT_TOLD = frozenset({"at", "asked", "for_", "because", "note", "source", "rather"})
_LABELS = {
    "is_": "value", "with_": "with", "above": "too much", "below": "too little", "fails": "if not", "do": "what to do",
    "given": "holds at", "follows": "moves so", "opens": "from when", "closes": "until when", "write": "write down",
    "means": "what it means", "sign": "known by", "feel": "by feel", "clock": "by the clock", "count": "how many",
    "state": "at", "check": "looked at", "times": "how often at most", "share": "how many must be good", "then": "then",
    "tighten": "stricter", "relax": "easier", "shows": "picture", "pictures": "pictures", "marks": "marked on it",
    "yield_": "loss", "by": "by what", "sum": "the sum of", "doubt": "in doubt", "said": "said", "use": "as in",
    "wins": "which decides", "unless": "unless", "guide": "a guide only", "hands": "hands", "settings": "set",
    "conditions": "around the work", "limits": "what must come out", "keep": "kept", "who": "by whom", "date": "on",
}


def rest(scope: Scope, entry: Entry, told: Iterable[str] = ()) -> Prose:
    """``Looked at: every 10 pieces. Too much: Grind it again.``, without the keys that are ``told`` elsewhere.

    Reason, note and source are told by `Scope.inline_why` and `Scope.tail`, for whom it holds by `Scope.meant`.
    """
    skipped = {*_NOT_TOLD, *told}
    lines = []
    for key, value in tuple(entry.fields().items()):  # an entry may keep what is worked out of it
        if key not in skipped and value:
            words = _said(scope, entry, key, value)
            if words:
                lines.append(say("{}: {}", capital(_LABELS.get(key, key.rstrip("_").replace("_", " "))), words))
    return sentences(lines)


def whole(scope: Scope, entry: Entry, told: Iterable[str] = ()) -> Prose:
    """All of an entry in a sentence or two: its main key first, then the rest, with its reason, note and source."""
    main = next((name for name, held in type(entry).model_fields.items() if (held.alias or name) == entry.MAIN), "")
    first = _said(scope, entry, main, getattr(entry, main)) if main and getattr(entry, main) else None
    more = [rest(scope, entry, (main, *told)), scope.inline_why(entry), *scope.tail(entry)]
    said = sentences([capital(first), *more]) if first else sentences(more)
    return scope.meant(entry, said)


def tailed(scope: Scope, entry: Entry, said: str | Prose, told: Iterable[str] = ()) -> Prose:
    """``said``, then all that an entry tells besides the keys that are ``told`` in it."""
    reasons = scope.inline_why(entry) if "because" not in told else NO_WORDS
    more = joined([rest(scope, entry, told), reasons, *scope.tail(entry, told=("because", *told))])
    return scope.meant(entry, joined((sentence(said), more)) if more else prose(said))


def in_line(scope: Scope, end: End) -> Prose:
    """What its checks say that the sentence of an end cannot hold, where there is no room below it."""
    return joined([said for check in (*end.feel, *end.check) if (said := joined(
        [rest(scope, check, ("good", "sense")), scope.inline_why(check), *scope.tail(check)]))])


def all_but(entry: Entry, *keys: str) -> frozenset[str]:
    """All keys of a kind but these."""
    return frozenset(type(entry).model_fields) - {*keys}


def _said(scope: Scope, entry: Entry, key: str, value: object) -> Prose:
    if isinstance(value, Entry):
        return unstopped(whole(scope, value))
    if isinstance(value, ParsedValue):
        return _leaf(scope, entry, value)
    if isinstance(value, Table):
        return joined((say("{}: {}", ", ".join(names), unstopped(whole(scope, cell))) for names, cell in value.cells()),
                      "; ")
    if isinstance(value, dict):
        return joined((say("{}: {}", scope.words(name), _said(scope, entry, key, one)) for name, one in value.items()),
                      "; ")
    if isinstance(value, tuple):
        told = [_said(scope, entry, key, one) for one in value]
        return listed(told) if all(isinstance(one, str) for one in value) else joined(map(sentence, told))
    if not isinstance(value, str):
        return Prose()
    kinds = own_references(type(entry)).get(key)
    return scope.view.any_link(str(value), kinds) if kinds else _text(scope, key, str(value))


def _leaf(scope: Scope, entry: Entry, leaf: ParsedValue[object]) -> Prose:
    what = leaf.value
    if isinstance(what, Cadence):
        return scope.cadence(leaf)  # type: ignore[arg-type]
    if isinstance(what, Moment):
        return scope.moment(leaf)  # type: ignore[arg-type]
    if isinstance(what, Trend):
        return say("it {}", scope.trend(leaf))  # type: ignore[arg-type]
    if isinstance(what, DateSpan):
        return say("{}", date_words(leaf))  # type: ignore[arg-type]
    if isinstance(entry, Limit) and leaf is entry.is_:
        return limit_value(scope, entry).inline
    place: Place = scope.place(entry)
    return shown_value(scope, leaf, place).inline  # type: ignore[arg-type]


def _text(scope: Scope, key: str, text: str) -> Prose:
    if key == "then":
        return scope.route(text, None) if text in ROUTES else scope.named(text)
    if key == "who":
        return scope.who(text)
    if key in ("with_", "tool", "wear", "sum", "use", "skill", "from_"):
        return scope.named(text)
    return scope.within(text)
