"""Words before and after a number that widen or bound it: ``a bit under``, ``not more than``, ``or so``."""

from __future__ import annotations

import re
from dataclasses import dataclass

from site_builder.tellings.numerals import numeral_at
from site_builder.tellings.tokens import Token, listed

_BEFORE = {
    "about": """about; around; round; round about; roughly; approximately; approx; circa; some; close to; close on;
        near;
        nearly; almost; somewhere round; somewhere around; somewhere about; somewhere near; somewhere in the region of;
        something like; something around; in the region of; in the neighbourhood of; in the neighborhood of; of the
        order of;
        more or less; say; call it; towards; getting on for; just about; in the order of; give or take; let's say;
        i'd say; or thereabouts; anything round; anything around; usually about; pretty close to; not far off;
        roundabout;
        somewhere between; nearer; closer to; a rough; a scant; barely; hardly""",
    "under": """under; below; less than; just under; a bit under; a shade under; a little under; a touch under; a
        hair under;
        a tad under; short of; just short of; a bit short of; a little short of; shy of; just shy of; a bit less than;
        a little less than; slightly less than; slightly under; slightly below; not quite; fewer than; a bit below;
        just below; a little below; well under; well below; not even""",
    "over": """over; above; more than; just over; a bit over; a little over; a shade over; a touch over; a hair over;
        slightly over; slightly above; slightly more than; a bit more than; a little more than; a bit above; just above;
        a little above; well over; well above; beyond; upwards of; in excess of; exceeding; better than; past;
        hotter than""",
    "min": """at least; at the least; at the very least; a minimum of; minimum; minimum of; min; not before; a good;
        a solid; no sooner than; not until; starting at; starting from; a good full; the least is; never before; no
        closer than""",
    "max": """at most; at the most; at the very most; a maximum of; maximum; maximum of; max; up to; as much as;
        as many as; within; inside; no later than; not past; not beyond; anything up to; no later than; by no means
        more than;
        inside of; never past; not a hair over; the limit is; the most is; it may have; capped at; to a maximum of;
        the end is at""",
    "aim": """aim for; aim at; aiming for; aiming at; shoot for; ideally; the target is; target; best at; best is;
        go for;
        i go for; you go for; what you want is; you want to be at; i like; i try for; try for; try to hit; you're after;
        we're after; it should come out at; best; the best is; i want; we want; the aim is; aim to get; aim; for choice;
        what i like is; i like to see; we like; where i like it is; nominal; nominally""",
    "perhaps": """perhaps; maybe; possibly; i think; i guess; i believe; i reckon; probably; i suppose; might be;
        could be""",
}
_AFTER = {
    "about": """about; or so; or thereabouts; thereabouts; give or take; more or less; roughly; or near it;
        near enough; ish;
        or about; or a bit less or more; approximately; or something like that; or something; or round about; or
        close to it;
        or there or thereabouts; round about; or near enough; mostly; usually; normally; as a rule; in most cases;
        most times; most of the time""",
    "min": """or more; or better; or over; and up; and over; and upwards; or upwards; upwards; at least; minimum;
        at the least; at the very least; at minimum; and more; or above; and above; or longer; or even more; min;
        or hotter; or thicker; or higher; or older; not less; no less; and not less""",
    "max": """at most; at the most; at the very most; at the outside; maximum; max; tops; or less; or under; no more;
        not more; and no more; and not more; and below; or below; or fewer; and less; and under; no longer; not longer;
        and no longer; no higher; no further; no deeper; and no further; or shorter; not a degree more; not a minute
        more;
        not one more; and that's the limit; at the latest; that's the limit; that's the end; and that's it;
        and that's all; no later; not later; at worst; then it's over; that's the most; is the limit; is the most;
        is the end; and not a minute longer""",
    "perhaps": """i think; i guess; i believe; perhaps; maybe; if i remember; if i remember right; i suppose;
        or am i wrong""",
}
_MORE_THAN = listed(
    "more bigger larger longer thicker hotter deeper higher warmer wider faster greater heavier later "
    "older further farther taller harder stronger"
)
_LESS_THAN = listed(
    "less smaller shorter thinner cooler colder shallower lower narrower slower fewer lighter sooner "
    "earlier younger nearer closer weaker"
)
_NOT = listed(
    "not no never don't mustn't can't cannot shouldn't won't nothing doesn't nor isn't aren't wouldn't "
    "needn't nobody neither"
)
_MOVING = listed(
    "go goes going bring brings heat heats warm warms get gets take takes come comes came run runs work "
    "works climb climbs rise rises build raise up"
)
_BREAKS = frozenset(".;:?!")
_SPEAKERS = listed("they i you we he she people books to papers sheet must would can't who")
_SPANS = listed("minute minutes hour hours day days week weeks month months")
_SPREAD = listed("slowly gradually evenly spread steadily up down")
_DEGREES = listed("degree degrees celsius fahrenheit centigrade percent")
_COMPARED = re.compile(
    r"^(?: (?:thick|wide|deep|long|high|apart|across|over|or so))? ?,? ?(?:and |but )?(?:not|no|"
    r"never) (?:a \w+ )?(?:(?P<max>more|faster|hotter|thicker|deeper|higher|wider|"
    r"longer|"
    r"larger|bigger|heavier|later|warmer|further|taller)|(?P<min>less|slower|colder|cooler|thinner|shallower|"
    r"lower|narrower|"
    r"shorter|smaller|lighter|sooner|earlier|closer|nearer))(?! than| of| \w+ing)(?!\w)"
)
"""``fifty degrees an hour, not faster``."""
_BEHIND = re.compile(
    r"^(?: (?:thick|wide|deep|long|high|tall|across|apart|round|up|down|over|each|either side|all round)| (?:for|"
    r"of|in|on|to|"
    r"under|from|between)(?: \w+){1,4}) ?,? (?:(?P<max>at (?:the )?(?:very )?most|at the outside|maximum|no more|"
    r"not more|"
    r"and no more)|(?P<min>at (?:the )?(?:very )?least|minimum|no less|not less)|(?P<about>or so|or thereabouts|"
    r"thereabouts|"
    r"roughly|give or take|more or less))(?= ?(?:[,.;:?!]|$|and |but |or |then ))"
)
"""``lines an inch apart or so``: a few words lie between."""
_EXACTLY = re.compile(r"^ ,? ?(?:no|not) (?:more|less) ,? ?(?:and |or )?(?:no|not) (?:more|less)")
_OR_LESS = re.compile(
    r"^ [a-z]{3,} or (?:(?P<max>less|under|lower|below|fewer)|(?P<min>more|over|better|above))(?= ?(?:[,.;:?!]|$))"
)
_REFUSED_BELOW = re.compile(
    r"^ (?:\w+ )?(?:(?:is|are)(?:n't| not| never| no)\b|won't (?:do|hold|pass|count)|doesn't (?:count|pass|do|hold)|"
    r"don't (?:count|pass)|(?:i|we|they|you) (?:don't|won't|never) (?:take|accept|pass|allow)|goes back|is (?:refused|"
    r"rejected|scrap|too little|too much))"
)
"""``less than three is not taken``: three is the least."""


def _table(spelled: dict[str, str]) -> dict[tuple[str, ...], str]:
    return {tuple(phrase.split()): lead for lead, text in spelled.items() for phrase in text.split(";")}


_PREFIX = _table(_BEFORE)
_SUFFIX = _table(_AFTER)
_LONGEST_BEFORE = max(map(len, _PREFIX))
_LONGEST_AFTER = max(map(len, _SUFFIX))


@dataclass(frozen=True, slots=True)
class Hedge:
    """What stands around a number; ``start`` and ``end`` are tokens."""

    start: int
    end: int
    lead: str = ""
    """``min``, ``max``, ``over``, ``under``, ``aim``, or nothing."""
    about: bool = False
    perhaps: bool = False


def hedged(words: list[Token], start: int, end: int) -> Hedge:
    """The hedges around the tokens ``start`` to ``end``, the outermost last."""
    found = Hedge(start, end)
    for _ in range(3):
        before = _one_before(words, found.start)
        if before is None:
            break
        found = _with(found, before[0], start=before[1])
    found = _refused(words, found)
    told = _told_beside(words, found)
    if told and not found.lead:
        found = _with(found, told)
    for _ in range(2):
        if _EXACTLY.match(_following(words, found.end)):
            break
        after = _one_after(words, found.end)
        if after is None or (after[0] not in ("about", "perhaps") and found.lead):
            break
        found = _with(found, after[0], end=after[1])
    return _from_behind(words, found)


def _following(words: list[Token], i: int, count: int = 9) -> str:
    return " " + " ".join(word.text for word in words[i : i + count])


def _refused(words: list[Token], found: Hedge) -> Hedge:
    """``less than three is not taken``, ``over forty won't do``: what is refused begins there, the bound is kept."""
    opens = found.start == 0 or words[found.start - 1].text in _BREAKS or words[found.start - 1].text in ("and", "but")
    if found.lead not in ("under", "over") or not opens or not _REFUSED_BELOW.search(_following(words, found.end)):
        return found
    return Hedge(found.start, found.end, "min" if found.lead == "under" else "max", found.about, found.perhaps)


def _from_behind(words: list[Token], found: Hedge) -> Hedge:
    """A bound told a few words later: ``an eighth of an inch for the rasp, not more``."""
    after = _following(words, found.end)
    if _EXACTLY.match(after):
        return found
    match = (None if found.lead else _COMPARED.search(after)) or _BEHIND.search(after) or _OR_LESS.search(after)
    if match is None or match.lastgroup is None:
        return found
    if match.lastgroup == "about":
        return _with(found, "about")
    return found if found.lead else _with(found, match.lastgroup)


_MOST = "maximum|most|limit|longest|latest|highest|thickest|hottest|ceiling|upper limit|biggest|fastest|widest|deepest"
_LEAST = "minimum|least|lowest|shortest|earliest|thinnest|coldest|floor|lower limit|smallest|slowest"
_BEST = (
    "aim|target|ideal|optimum|nominal|best|what (?:i|you|we) (?:want|like|prefer|aim)|"
    "what (?:i|you|we)(?:'m|'re| are) after|what's (?:preferred|wanted|best|ideal)"
)
_TOLD_BEFORE = re.compile(
    rf"(?<!\w)(?P<aim2>(?:i|you|we)(?:'d| would) (?:like|prefer|rather have))(?: (?!not|never|to|and|or|"
    rf"but)\w+){{0,4}} $|"
    rf"(?<!\w)(?:(?P<max>{_MOST})|(?P<min>{_LEAST})|(?P<aim>{_BEST}))(?: (?!not|never)\w+){{0,5}} "
    rf"(?:is|are|at|of|was|stands at) $"
)
_TOLD_AFTER = re.compile(
    rf"^ ?,? ?(?:is|are|that's|that is|and that's|it's)? ?(?:(?:the|your|my|our|a|about the|as a) )"
    rf"(?:(?P<max>{_MOST})|(?P<min>{_LEAST})|(?P<aim>{_BEST}|middle))(?!\w| of (?:it|them|the))|"
    rf"^ (?:is|are|would be) (?P<aim2>best|ideal|right|perfect|preferred|what's (?:preferred|wanted|best|ideal)|"
    rf"what (?:i|you|we)(?:'d)? (?:want|like|go for|prefer|aim (?:for|at)))(?!\w)|"
    rf"^ (?:is|are)(?: still| just)? (?P<max3>allowed|permitted|tolerated|as far as|all you get|all you have|too much)|"
    rf"^ [,.;]? ?(?:and |but )?(?:(?P<max2>more|longer|thicker|bigger|higher|hotter|deeper|wider|later)|"
    rf"(?P<min2>less|shorter|thinner|smaller|lower|colder|sooner|fewer))"
    rf"(?: than that)?(?: and| is| are| isn't| won't| doesn't| does| makes| makes it)(?!\w)|"
    rf"^ [,.;] ?(?:(?P<max4>(?:over|above|beyond|after) that|any (?:more|longer|thicker|hotter|higher))|"
    rf"(?P<min4>(?:under|below|before) that|any (?:less|shorter|thinner|colder|lower)))(?!\w)"
)


def _told_beside(words: list[Token], found: Hedge) -> str:
    """``the longest you may wait is sixteen hours``, ``four hours is the limit``: a lead, or nothing."""
    before = " ".join(word.text for word in words[max(0, found.start - 9) : found.start]) + " "
    after = " " + " ".join(word.text for word in words[found.end : found.end + 9])
    match = _TOLD_BEFORE.search(before) or _TOLD_AFTER.search(after)
    return "" if match is None or match.lastgroup is None else match.lastgroup.rstrip("234")


def _with(found: Hedge, lead: str, start: int | None = None, end: int | None = None) -> Hedge:
    start = found.start if start is None else start
    end = found.end if end is None else end
    if lead == "about":
        return Hedge(start, end, found.lead, True, found.perhaps)
    if lead == "perhaps":
        return Hedge(start, end, found.lead, found.about, True)
    return Hedge(start, end, found.lead or lead, found.about, found.perhaps)


def _one_before(words: list[Token], i: int) -> tuple[str, int] | None:
    if i and words[i - 1].text in ("a", "an", "the") and _one_before_plain(words, i - 1) is not None:
        return _one_before_plain(words, i - 1)
    if i and words[i - 1].text == "," and _perhaps_before(words, i - 1):
        return _one_before_plain(words, i - 1)
    return _one_before_plain(words, i)


def _perhaps_before(words: list[Token], i: int) -> bool:
    found = _one_before_plain(words, i)
    return (
        found is not None
        and found[0] in ("perhaps", "about")
        and words[i - 1].text in ("think", "say", "believe", "guess")
    )


def _one_before_plain(words: list[Token], i: int) -> tuple[str, int] | None:
    if i >= 2 and words[i - 1].text == "than" and words[i - 2].text in _MORE_THAN | _LESS_THAN:
        return _bound(words, "over" if words[i - 2].text in _MORE_THAN else "under", i - 2)
    for length in range(min(_LONGEST_BEFORE, i), 0, -1):
        phrase = tuple(word.text for word in words[i - length : i])
        lead = _PREFIX.get(phrase)
        if phrase == ("over",) and _lasts(words, i):
            return None
        if lead in ("over", "under"):
            return _bound(words, lead, i - length)
        if phrase == ("say",) and i >= 2 and words[i - 2].text in _SPEAKERS:
            continue  # they say ten: that is what they say
        if phrase == ("up", "to") and words[i - 3].text in _MOVING | {"it", "that", "them"} and i >= 3:
            return None  # heat it up to ninety: where it ends, not what it may not pass
        if lead is not None:
            return lead, i - length
    return None


def _lasts(words: list[Token], i: int) -> bool:
    """``to ninety degrees over an hour``: in the course of it, not longer."""
    first = words[i].text in ("a", "an", "the") or numeral_at(words, i) is not None
    timed = any(words[k].text in _SPANS for k in range(i + 1, i + 5))
    return first and timed and i >= 2 and (words[i - 2].text in _SPREAD or words[i - 2].text in _DEGREES)


def _bound(words: list[Token], lead: str, start: int) -> tuple[str, int]:
    """``not more than`` is a ceiling, ``never below`` a floor."""
    denied = _denied(words, start)
    if denied is None:
        return lead, start
    return ("max" if lead == "over" else "min"), denied


def _denied(words: list[Token], start: int) -> int | None:
    """Where a ``not`` stands in the same sentence, up to six words before; it may not be asked with ``if``."""
    for back in range(1, 7):
        at = start - back
        if at < 0 or words[at].text in _BREAKS:
            return None
        if words[at].text == "," and back > 1:
            return None
        if words[at].text in _NOT:
            return at
        if words[at].text in ("but", "because", "if", "when", "so"):
            return None
    return None


def _one_after(words: list[Token], i: int) -> tuple[str, int] | None:
    j = i + 1 if words[i].text in (",", "-") else i
    for length in range(_LONGEST_AFTER, 0, -1):
        phrase = tuple(word.text for word in words[j : j + length])
        lead = _SUFFIX.get(phrase)
        if lead is not None and not _leads_on(words, j, j + length):
            return lead, j + length
    return None


def _leads_on(words: list[Token], first: int, i: int) -> bool:
    """Whether it belongs to what follows instead: ``two coats, at least three hours``, ``no more sanding``."""
    after = words[i]
    if after.text == "than" or numeral_at(words, i) is not None or after.text in ("a", "an", "some", "half"):
        return True
    if words[i - 1].text == "about" and first == i - 1:
        return after.is_word or after.kind in ("number", "vulgar")
    single = words[i - 1].text in ("more", "less", "longer") and words[first].text in ("no", "not")
    return single and after.is_word and after.text not in ("and", "or", "then", "but", "at", "in", "for", "on")
