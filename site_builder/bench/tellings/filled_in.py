"""The form of a sentence as it opens: what was spoken, in our notation; a suggestion, which a hand confirms."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from site_builder.tellings.kinds import Understood
from site_builder.tellings.spoken import Spoken
from site_builder.tellings.unit_words import TIME_UNITS, family

_BECAUSE = re.compile(r"[,.;]? ?\b(?:because|otherwise|or else|so that|'cause) (?P<why>.+)$", re.IGNORECASE | re.DOTALL)
_ALSO_WHY = re.compile(r"\b(?P<lead>otherwise|or else) ", re.IGNORECASE)
_FILLER = re.compile(
    r"^(?:(?:and|but|so|then|now|well|oh|ah|er|hm|no|right|yes|good|sorry|no wait|i mean|you see)[,.]? )+",
    re.IGNORECASE,
)
_YOU_DO = re.compile(
    r"(?:then )?you (?!can\b|can't|must|have|don't|need|will|may|should|would|could|might|are\b|were|never|want|"
    r"know|see\b|feel|hear|get\b|'|only|just|also|always)(?=[a-z])",
    re.IGNORECASE,
)
_YOU_NEVER = re.compile(
    r"(?:you )?(?:must )?(?:never|don't|do not|mustn't|must not)(?: ever)? (?=[a-z])", re.IGNORECASE)
_NAMED = re.compile(
    r"\b(?:temperature|heat|thickness|width|depth|length|height|diameter|gap|distance|overlap|speed|pressure|humidity|"
    r"weight|strength|angle|pitch|moisture|current|voltage|pot life|open time|recoat)\b",
    re.IGNORECASE,
)
_LIKE = {
    "thickness": {"thick", "thin", "thicker", "thinner", "coat"}, "width": {"wide", "wider", "narrow"},
    "depth": {"deep", "deeper", "shallow"}, "height": {"high", "tall"}, "gap": {"apart", "between"},
}
_WORD = re.compile(r"[a-z]+")
_BY_FAMILY = {
    "temperature": "temperature", "temperature difference": "difference of temperature", "time": "time",
    "length": "length", "mass": "weight", "volume": "amount", "pressure": "pressure", "angle": "angle",
    "electric current": "current", "voltage": "voltage", "frequency": "speed", "rotation speed": "speed",
    "ratio": "share",
}


@dataclass(frozen=True, slots=True)
class Filled:
    """What stands in the form when it opens."""

    kind: str
    words: str
    value: str = ""
    name: str = ""
    because: str = ""
    thing: str = ""
    asked: tuple[str, ...] = ()
    """Quantities that were heard and are not sure: which scale, of what."""


def filled_in(found: Sequence[Understood], kind: str = "") -> Filled:
    """Of one sentence or several that belong together; ``kind`` where one was chosen already."""
    first = sorted(found, key=lambda one: not one.takes_back)  # a correction says best what it is about
    kinds = [one for each in first for one in each.kinds if one != "talk"]
    kind = kind or (kinds[0] if kinds else "step")
    said = [one for each in found for one in each.quantities if not one.taken_back]
    known = [one for one in said if one.known]
    text = " ".join(one.cue.text for one in found)
    words, because = _apart(text)
    words = _as_order(kind, words)
    of_this = _best(kind, known)
    mention = next((thing.id for each in found for thing in each.things), "")
    return Filled(
        kind, words, of_this.notation if of_this is not None else "", _name(text, of_this), because, mention,
        tuple(one.notation for one in said if not one.known and one.unit.startswith("degrees")),
    )


def _apart(text: str) -> tuple[str, str]:
    """The sentence, and its reason where it is told behind ``because``."""
    found = _BECAUSE.search(text)
    if found is None or len(text[: found.start()].split()) < 3:
        return _begun(text), ""
    why = found["why"].strip()
    if _ALSO_WHY.match(text, found.start("why") - 10 if found.start("why") >= 10 else 0):
        why = f"otherwise {why}"
    return _begun(text[: found.start()]), _begun(why)


def _as_order(kind: str, words: str) -> str:
    """``You trim the ends`` as a step is *Trim the ends*; ``You never cut`` as a never is *Cut*."""
    pattern = {"step": _YOU_DO, "never": _YOU_NEVER}.get(kind)
    found = pattern.match(words) if pattern is not None else None
    rest = words[found.end() :] if found is not None else ""
    return f"{rest[:1].upper()}{rest[1:]}" if len(rest.split()) > 1 else words


def _begun(text: str) -> str:
    """As a sentence that stands alone: a capital first, a full stop last, the word of hesitation gone."""
    plain = " ".join(_FILLER.sub("", " ".join(text.split())).split()).strip(" ,;-–—")
    if not plain:
        return " ".join(text.split())
    plain = plain[:1].upper() + plain[1:]
    return plain if plain.endswith((".", "!", "?")) else f"{plain}."


def _best(kind: str, known: Sequence[Spoken]) -> Spoken | None:
    """The quantity that this kind is about."""
    timed = kind in ("wait", "window", "time")
    fitting = [one for one in known if one.form in ("value", "of", "x", "some")]
    fitting = sorted(fitting, key=lambda one: (one.unit in TIME_UNITS) != timed)
    fitting = [one for one in fitting if not timed or one.unit in TIME_UNITS]
    if kind in ("amount", "material"):
        fitting = [one for one in known if one.form == "value" and one.unit not in TIME_UNITS]
    return next(iter(fitting), None)


def _name(text: str, spoken: Spoken | None) -> str:
    """What it may be called: a name that was said, else by what it measures."""
    said = _NAMED.search(text)
    if said is not None:
        return said[0].lower()
    if spoken is None:
        return ""
    kind = family(spoken.unit)
    if kind == "length":
        words = set(_WORD.findall(text.lower()))
        return next((name for name, like in _LIKE.items() if like & words), "length")
    return _BY_FAMILY.get(kind, "")
