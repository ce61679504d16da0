"""What a cue most likely is: the first suggestions of the desk, for a hand to confirm."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from site_builder.tellings.cue import Cue
from site_builder.tellings.in_context import hear
from site_builder.tellings.kind_words import KINDS, PHRASES, TALK
from site_builder.tellings.names import Mention, mentions
from site_builder.tellings.spoken import Spoken
from site_builder.tellings.talk import master_of, talk_score, trade_words
from site_builder.tellings.unit_words import TIME_UNITS

_OF_UNITS = {
    **dict.fromkeys(TIME_UNITS, (("time", 2.2), ("wait", 1.6))),
    **dict.fromkeys(("°C", "°F", "degrees"), (("setting", 2.2), ("limit", 1.9))),
    **dict.fromkeys(("°C difference", "°F difference", "degrees difference", "%"), (("limit", 2.2), ("check", 0.6))),
    **dict.fromkeys(
        ("rev/min", "bar", "psi", "kPa", "MPa", "V", "A", "mA", "W", "kW", "Hz", "° angle"),
        (("setting", 3.0), ("limit", 1.0)),
    ),
    **dict.fromkeys(("g", "kg", "mg", "lb", "oz", "mL", "L", "gal", "fl oz", "part", "t"), (("amount", 2.6),)),
    **dict.fromkeys(("mm", "cm", "µm", "in", "mil", "thou", "ft", "m"), (("limit", 1.9), ("setting", 1.7))),
    "person": (("person", 4.0),),
    "man": (("person", 4.0),),
    "coat": (("loop", 1.6), ("amount", 1.6)),
    "time": (("loop", 2.5),),
    "grit": (("tool", 1.0), ("step", 1.0)),
}
_WINDOW_TOLD = 4
"""Of a cue that scores so much the window is the subject."""
_STAYS = 6
"""For so many cues from there on, spans of time are rows of the same table."""
MOST_LETTERS = 1000
"""Of a longer cue no more is weighed: nobody says so much in one breath."""
_BOUNDS = frozenset(("min", "max", "over", "under"))
_LEANING = {
    "step": 0.85,
    "tool": 0.65,
    "material": 0.65,
    "history": 0.75,
    "reason": 1.05,
    "branch": 0.85,
    "time": 0.8,
    "loop": 0.9,
    "check": 0.95,
    "feel": 0.95,
    "word": 0.95,
    "person": 0.9,
    "remedy": 0.95,
    "setting": 0.95,
}
"""How far the words for a kind are trusted: those for steps stand in nearly every sentence."""


_TRUST = {"limit": 0.75, "branch": 1.1, "check": 1.2, "never": 0.85}
"""Of all that speaks for a kind: figures and *must* stand in many a sentence that is about something else."""


@dataclass(frozen=True, slots=True)
class Understood:
    """One cue with what it suggests."""

    cue: Cue
    kinds: tuple[str, ...]
    """All kinds that something speaks for, the likeliest first; ``talk`` first where it is most likely nothing to
    keep.
    """
    quantities: tuple[Spoken, ...] = ()
    takes_back: tuple[str, ...] = ()
    """Cues of which something is corrected here."""
    things: tuple[Mention, ...] = ()
    """Tools and materials of the notebook that are named."""
    scores: Mapping[str, float] = field(default_factory=dict, compare=False)

    @property
    def is_talk(self) -> bool:
        """Whether it is most likely nothing to keep."""
        return self.kinds[0] == TALK


def understand(
    cues: Sequence[Cue], things: Mapping[str, Sequence[str]] | None = None, scale: str = ""
) -> tuple[Understood, ...]:
    """Suggest for every cue of a telling: its kind, its quantities, what it takes back, the things it names.

    ``things`` are the notebook's tools and materials, names by id; ``scale`` is ``°C`` or ``°F`` where the shop's
    is known.
    """
    heard = hear(cues, scale)
    corrected: dict[int, list[str]] = {}
    for one in heard.takings_back:
        corrected.setdefault(one.cue, []).append(cues[one.target].id)
    trade, master = trade_words(cues), master_of(cues)
    found = []
    since_window = _STAYS + 1
    for n, cue in enumerate(cues):
        spoken = heard.quantities[n]
        before = cues[n - 1].text if n else ""
        scores = kind_scores(cue.text[:MOST_LETTERS], spoken, before[-MOST_LETTERS:])
        since_window = 0 if scores["window"] >= _WINDOW_TOLD else since_window + 1
        if since_window <= _STAYS and any(one.unit in TIME_UNITS and one.high is not None for one in spoken):
            scores["window"] += _WINDOW_TOLD + 2
        best = max(scores.values())
        is_talk = talk_score(cue, trade, master, any(one.known for one in spoken), best) > 0 and n not in corrected
        ranked = sorted(
            (kind for kind in KINDS if scores[kind] > 0), key=lambda kind: (-scores[kind], KINDS.index(kind))
        )
        kinds = (TALK, *ranked) if is_talk else (*(ranked or ["step"]), TALK)
        found.append(
            Understood(
                cue, kinds, spoken, tuple(dict.fromkeys(corrected.get(n, ()))), mentions(cue.text, things or {}), scores
            )
        )
    return tuple(found)


def kind_scores(text: str, spoken: Sequence[Spoken], before: str = "") -> dict[str, float]:
    """How much speaks for each kind in these words. ``before`` is what was said right before: sentences run on."""
    scores = dict.fromkeys(KINDS, 0.0)
    for kind, phrases in PHRASES.items():
        weights = sorted((weight for weight, pattern in phrases for _ in pattern.findall(text)), reverse=True)
        # the second sign counts half, the third a quarter
        scores[kind] = sum(weight / 2**n for n, weight in enumerate(weights)) * _LEANING.get(kind, 1.0)
    for one in spoken:
        for kind, weight in _OF_UNITS.get(one.unit, ()):
            scores[kind] += weight
        if one.unit in TIME_UNITS:
            bounded = one.lead in ("max", "under", "min", "over") or one.high is not None
            scores["window"] += 2.4 * (one.lead in ("max", "under")) + 0.8 * (one.high is not None)
            scores["limit"] += 1.6 * (one.lead in _BOUNDS)
            scores["wait"] += 0.8 * bounded
        elif one.lead in _BOUNDS and one.form in ("value", "x"):
            scores["limit"] += 2.8
        if one.unit == "%" and _IS_MADE_OF.search(text):
            scores["material"] += 4.0
        if one.form in ("every", "times"):
            scores["loop"] += 2.0
        if one.form in ("of", "x") or one.spread is not None:
            scores["limit"] += 2.0
        if "/" in one.unit and one.unit.split("/")[1] not in TIME_UNITS:
            scores["amount"] += 2.6
        elif "/" in one.unit:
            scores["setting"] += 2.6
    for kind, weight, opening in _OPENINGS:
        scores[kind] += weight * bool(opening.match(text))
    if any(one.known for one in spoken) and _OBLIGED.search(text):
        scores["limit"] += 1.4
    _run_on(scores, text, before)
    for kind, trust in _TRUST.items():
        scores[kind] *= trust
    return scores


_BINDS = r"(?:and |but |so |then |now |first |next |right, |good\. |oh, |ah, |oh yes, |yes, |no, |well, ){0,6}"
_OPENINGS: tuple[tuple[str, float, re.Pattern[str]], ...] = (
    (
        "reason",
        2.5,
        re.compile(rf"{_BINDS}(?:because|otherwise|else|that way|which is why|that's why|so that)\b", re.IGNORECASE),
    ),
    (
        "never",
        2.0,
        re.compile(rf"{_BINDS}(?:you )?(?:must )?(?:never|mustn't|don't (?!know|think|mind|care))\b", re.IGNORECASE),
    ),
    (
        "branch",
        0.8,
        re.compile(
            rf"{_BINDS}(?:if|unless|in case|for (?:a|an|the) \w+ \w+,|with (?:a|the) \w+ \w+,)\b", re.IGNORECASE
        ),
    ),
    (
        "step",
        2.0,
        re.compile(
            rf"{_BINDS}(?:after that |before that |when (?:it|that)(?:'s| is| has)? \w{{1,24}}, )?(?:you |we |i )?"
            rf"(?!have|are|can|get|know|see|"
            rf"will|must|may|need|want|do\b|don't|feel|hear|would|could|should|might|were|never|like|think|is|it|"
            rf"that|this|there|if|"
            rf"no\b|not\b|a\b|an\b|the\b|to\b|on\b|in\b|at\b|for\b|from\b|of\b|with\b|by\b|one\b|some|or\b|as\b|"
            rf"he\b|she\b|they\b)"
            rf"(?![a-z]{{0,24}}[^s]s\b)[a-z]{{1,24}} (?:it|them|that|the|a|an|your|some|each|both|off|on|out|up|down|"
            rf"in|over|round|back)\b",
            re.IGNORECASE,
        ),
    ),
)
"""How a cue begins says most of what it is; what follows behind a comma explains it."""
_IS_MADE_OF = re.compile(
    r"\b(?:copper|zinc|tin|lead|silver|gold|nickel|iron|carbon|chrom\w+|cotton|linen|wool|silk|malt|rye|wheat|"
    r"gluten|fat)\b",
    re.IGNORECASE,
)
"""What percentages of make up a material."""
_OBLIGED = re.compile(r"\b(?:must|has to|have to|should|needs? to)\b", re.IGNORECASE)


def _run_on(scores: dict[str, float], text: str, before: str) -> None:
    """A sentence that goes on from the cue before keeps some of what that one began: ``… so | you never …``."""
    if not before or before.rstrip().endswith((".", "!", "?")) or text[:1].isupper():
        return
    opening = _open_sentence(before)
    for kind, phrases in PHRASES.items():
        for weight, pattern in phrases:
            if weight >= 3 and pattern.search(opening):
                scores[kind] += 1.0
                break


def _open_sentence(text: str) -> str:
    """The words of the sentence that is still open at the end of a cue."""
    return text.replace("!", ".").replace("?", ".").rsplit(".", 1)[-1]
