"""A word that must be one of a list: misspelt, in other letters, or one that somebody would say instead."""

from tests.mistakes.hand import becomes, capital, doubled, dropped, group, swapped
from tests.mistakes.kind import Fix, Kind

_R = Fix.RESTORES


def _word(what: str, files: str, find: str, says: str = "word-unknown") -> tuple[Kind, ...]:
    return (
        Kind(f"{what}, letters swapped", files, find, group(swapped), says, _R),
        Kind(f"{what}, with a capital", files, find, group(capital), says, _R),
    )


KINDS = (
    *_word("signal word", "", r"word: (danger|warning|caution|notice)"),
    *_word("sense", "procedure", r"sense: (touch|sight|sound|smell|weight|warmth)"),
    *_word("which end wins", "procedure", r"wins: (first|last|sign|clock)", "word-unknown wins-none"),
    *_word("level in a book", "sign-off practice", r"^level: (watches|beside|alone|teaches|within call)$"),
    *_word("level of a skill that is needed", "skill", r"level: (watches|beside|alone|teaches|within call)"),
    _word("working day", "shop", r"days: \[(Monday|Tuesday)")[0],
    *_word("outcome of a change", "change", r"^outcome: (kept|dropped|on trial)$"),
    *_word("evidence of an item", "skill", r"evidence: (practice|trial|measurement|seen)"),
    *_word("piece or lot of a loop", "procedure", r"times: .*per: (piece|load|lot|spot|coat)"),
    *_word("piece or lot of a step", "procedure", r"^    per: (piece|load|lot|spot|coat)$"),
    *_word("where it goes on", "procedure", r"then: (next|again|aside|stop|scrap)", "word-unknown route-none"),
    Kind("where it goes on, a letter too few", "procedure", r"then: (again|aside|scrap)", group(dropped), "route-none", _R),
    Kind("where it goes on, a letter twice", "procedure", r"then: (next|stop|scrap)", group(doubled), "route-none", _R),
    Kind("signal word: high", "", r"word: (danger)", becomes("high"), "word-unknown"),
    Kind("signal word: attention", "", r"word: (caution)", becomes("attention"), "word-unknown"),
    Kind("sense: by hand", "procedure", r"sense: (touch)", becomes("by hand"), "word-unknown", _R),
    Kind("sense: hearing", "procedure", r"sense: (sound)", becomes("hearing"), "word-unknown", _R),
    Kind("sense: eye", "procedure", r"sense: (sight)", becomes("eye"), "word-unknown", _R),
    Kind("level: on his own", "sign-off practice", r"^level: (alone)$", becomes("on his own"), "word-unknown", _R),
    Kind("level: on her own", "sign-off practice", r"^level: (alone)$", becomes("on her own"), "word-unknown", _R),
    Kind("level: supervised", "sign-off practice", r"^level: (within call|beside)$", becomes("supervised"), "word-unknown"),
    Kind("level: teacher", "sign-off", r"^level: (teaches)$", becomes("teacher"), "word-unknown", _R),
    Kind("level: watching", "sign-off practice", r"^level: (watches)$", becomes("watching"), "word-unknown", _R),
    Kind("level: a figure", "sign-off practice", r"^level: (alone|beside|teaches)$", becomes("4"), "word-unknown"),
    Kind("level of a skill that is needed: on his own", "skill", r"level: (alone|beside|within call|teaches)", becomes("on his own"),
         "word-unknown level-unknown"),
    Kind("working day: short", "shop", r"days: \[(Monday)", becomes("Mon"), "word-unknown", _R),
    Kind("founding: perhaps", "people", r"founding: (yes|true)", becomes("founder"), "word-unknown"),
    Kind("guide: a misspelt yes", "procedure", r"guide: (yes)", becomes("yse"), "word-unknown", _R),
    Kind("outcome: worked", "change", r"^outcome: (kept)$", becomes("worked"), "word-unknown"),
    Kind("where it goes on: back", "procedure", r"then: (again)", becomes("back"), "route-none"),
    Kind("where it goes on: waste", "procedure", r"then: (scrap)", becomes("waste"), "route-none"),
    Kind("where it goes on: continue", "procedure", r"then: (next)", becomes("continue"), "route-none"),
    Kind("a verdict of a trial misspelt", "trial", r": (good|bad)\b", group(doubled), "verdict-unknown"),
    Kind("which reading counts", "procedure", r"take: (highest|lowest|mean|last)", group(swapped), "word-unknown", _R),
    Kind("how often: misspelt", "", r"when: (start|each|every) ?", group(dropped), "", Fix.TRIED),
    Kind("how often: daily", "machine", r"when: (each day)", becomes("daily"), "", Fix.TRIED),
    Kind("a counted word misspelt", "procedure", r"every \d+ (pieces)", group(dropped), "unit-unknown", _R),
)
