"""How long a thing stands, inside sentences: by the clock, by the signs that open and close the time, or by both."""

from __future__ import annotations

from site_builder.notebook.model.limit import Limit, Window
from site_builder.views.end import sign_words, what_then
from site_builder.views.limit_in_words import told, value_in_words
from site_builder.views.prose import NO_WORDS, Prose, joined, say
from site_builder.views.scope import Scope


def signs(scope: Scope, limit: Limit) -> Prose:
    """``until it is tacky, and on before it is hard``; of a window ``from when … until …``; nothing without a sign."""
    opens, closes = sign_words(scope, limit.opens), sign_words(scope, limit.closes)
    if isinstance(limit, Window):
        return joined([say(words, sign) for words, sign in (("from when {}", opens), ("until {}", closes)) if sign])
    if opens and closes:
        return say("until {}, and no longer than until {}", opens, closes)
    return say("until {}", opens) if opens else say("no longer than until {}", closes) if closes else NO_WORDS


def in_time(scope: Scope, limit: Limit) -> Prose:
    """``once it is tacky, before it is hard``."""
    opens, closes = sign_words(scope, limit.opens), sign_words(scope, limit.closes)
    return joined([say(words, sign) for words, sign in (("once {}", opens), ("before {}", closes)) if sign], ", ")


def standing_in_words(scope: Scope, limit: Limit) -> Prose:
    """Figure and signs."""
    shown = signs(scope, limit)
    if not shown:
        return value_in_words(scope, limit)
    return joined((value_in_words(scope, limit), shown), "; ") if limit.is_ is not None else shown


def between_rounds(scope: Scope, wait: Limit) -> Prose:
    """``at least 2 h``, ``until it is dry``, with its reason and for whom it holds."""
    opens, closes = sign_words(scope, wait.opens), sign_words(scope, wait.closes)
    parts = [told(scope, wait) if wait.is_ is not None else NO_WORDS,
             say("until {}", opens) if opens else NO_WORDS, say("and go on before {}", closes) if closes else NO_WORDS]
    parts += [what_then(scope, end, None) for end in (*wait.opens, *wait.closes)]
    said = joined([part for part in parts if part])
    return said if wait.is_ is not None else scope.meant(wait, joined((said, scope.inline_why(wait))))
