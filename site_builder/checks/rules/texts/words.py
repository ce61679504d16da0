"""Rules on what sentences leave open."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from itertools import islice

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.texts.figures import figures_in
from site_builder.notebook.answered import read_answer
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.entry import keys_of
from site_builder.notebook.model.harm import Point
from site_builder.notebook.model.judging import End
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.model.small import Time, Yield
from site_builder.notebook.model.things import Material
from site_builder.notebook.nearest import did_you_mean, nearest
from site_builder.notebook.tree import Text

MOST = 10
"""So many figures of one sentence are told; whoever mends them sees the rest."""


def do_figure(analysis: Analysis) -> Iterator[Found]:
    told = [
        (step.do, figure, place)
        for step, place in analysis.index.of(Step)
        if step.do is not None and any(map(str.isdigit, step.do))
        for figure in islice(figures_in(step.do), MOST)
    ]
    if not told:
        return
    kept = _kept(analysis, {id(place.entry) for _, _, place in told})
    for do, figure, place in told:
        if figure.kind not in kept[id(place.entry)] and figure.text not in kept[id(place.owner)]:
            yield Found(
                do.at_letter(figure.start),
                f"`{figure.text}` stands only in the sentence, where nothing can check it.",
                "Give it a name under `settings` or `limits` of this step and leave it out of the sentence.",
                place.owner_id,
            )


def _kept(analysis: Analysis, steps: set[int]) -> dict[int, set[str]]:
    """What is kept as values: for each step the kinds of units, for each page the figures that hold throughout.

    How long a thing takes or how much of it is lost says nothing about the figures in its sentence.
    """
    kept: dict[int, set[str]] = defaultdict(set)
    for leaf, place, _ in analysis.index.values:
        for around in place.up():
            if isinstance(around.entry, (Time, Yield)):
                break
            if type(around.entry) is Step:
                if id(around.entry) in steps:
                    kept[id(around.entry)].update(figure.kind for figure in figures_in(leaf.text))
                break
            if around.parent is None:
                kept[id(around.entry)].update(figure.text for figure in figures_in(leaf.text))
    return kept


DO_FIGURE = Rule(
    "do-figure", Level.WARNING, "A figure hidden in a sentence.",
    "A figure among `settings` or `limits` is checked against the machine, found in the tables and changed in "
    "one place; in a sentence it is only read.",
    """\
=== procedures/foot/cure-foot.yml
procedure: cure-foot
title: Harden the paint of the foot
steps:
✓   - do: Hang 12 feet in the oven and heat them.
✓     settings: {oven temperature: 80 ±5 °C}
✗   - do: Hang 12 feet in the oven and heat them to ▸80 °C.
""", do_figure,
)


_QUESTIONS: Mapping[str, str] = {
    "some": "How much is “some”?",
    "a bit": "How much is “a bit”?",
    "a little": "How much is “a little”?",
    "enough": "How does one see that it is enough?",
    "as needed": "How does one see that it is needed?",
    "as usual": "What is usual here?",
    "carefully": "“Carefully”: what must not happen?",
    "properly": "How does one see that it is done properly?",
}
_WORDS = re.compile(rf"\b({'|'.join(_QUESTIONS)})\b(?! to\b)", re.IGNORECASE)
_COMPARED = re.compile(r"\blike (?:an?|the)\b", re.IGNORECASE)
"""`A little flared, like the bell of a horn` says how much, and so does `thin enough to give`."""


def word_vague(analysis: Analysis) -> Iterator[Found]:
    for text, place in _texts(analysis):
        word = _WORDS.search(text)
        if word is not None and not _COMPARED.search(text):
            yield Found(
                text.at_letter(word.start()), _QUESTIONS[word[1].lower()],
                "Write a figure under `settings`, or what one sees, hears or feels under `until`.",
                place.owner_id,
            )


def _texts(analysis: Analysis) -> Iterator[tuple[Text, Place]]:
    for step, place in analysis.index.of(Step):
        if step.do is not None:
            yield step.do, place
    for end, place in analysis.index.of(End):
        if end.sign is not None:
            yield end.sign, place
    for point, place in analysis.index.of(Point):
        yield point.point, place


WORD_VAGUE = Rule(
    "word-vague", Level.QUESTION, "A word that only somebody understands who can do it already.",
    "“Enough” is what the master's hand knows and the learner's does not.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
✓   - do: Put grease on the belt.
✓     settings: {grease: 2 g}
✓     until: The belt shines from edge to edge.
✗   - do: Put ▸some grease on the belt.
✗     until: It shines ▸enough.
""", word_vague,
)


def sheet_none(analysis: Analysis) -> Iterator[Found]:
    for material, place in analysis.index.of(Material):
        if material.hazards and material.sheet is None and "sheet" not in material.asked:
            yield Found(
                material.at, f"Where is the safety data sheet of “{material.title}”?",
                "Add `sheet:` with its title and date; the supplier sends it for nothing.", place.owner_id,
            )


SHEET_NONE = Rule(
    "sheet-none", Level.QUESTION, "A material that can hurt, without a safety data sheet.",
    "The sheet knows more than the shop, and in an accident the doctor asks for it.",
    """\
=== tools/materials/white-spirit.yml
▸material: white-spirit
title: White spirit
hazards: {hazard: fire, word: danger}
✓ sheet: {title: Safety data sheet of white spirit, date: 2025-01-15}
""", sheet_none,
)


def picture_undescribed(analysis: Analysis) -> Iterator[Found]:
    for picture in analysis.pictures:
        if not picture.shows and not picture.asked:
            fix = "Write it between `[` and `]`." if picture.story else "Add `shows:` with what one sees."
            yield Found(picture.at, f"What does `{picture.name}` show?", fix, picture.about)


PICTURE_UNDESCRIBED = Rule(
    "picture-undescribed", Level.QUESTION, "A picture without a word on what it shows.",
    "Who cannot see it has it read aloud, and who can see it looks at the right spot.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     pictures: {file: sole.jpg, shows: The sole lies flat on the belt}
✗     pictures: ▸sole.jpg
""", picture_undescribed,
)


_FORM = "Write the answer, who said it and the day: `not known; edda; 2026-11-28`."


def asked_unread(analysis: Analysis) -> Iterator[Found]:
    for places in analysis.index.places.values():
        for place in places:
            for key, text in place.entry.answered.items():
                if read_answer(text) is None:
                    yield Found(text.at, f"`{text}` is no answer that can stand under `asked`.", (
                        f"{_FORM} Besides `not known` there are `ask tilde`, `does not matter` and `cannot hurt`."))
                elif key not in keys_of(type(place.entry)) and "-" not in key:
                    yield Found(key.at, f"`{key}` is no key of this entry, so nothing was asked of it.",
                                did_you_mean(nearest(key, keys_of(type(place.entry)))) or "Name the key that is open.")


ASKED_UNREAD = Rule(
    "asked-unread", Level.WARNING, "An answer under `asked` that cannot be understood.",
    "Who said on which day that a thing is not known is read from there; what cannot be read is asked again.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
✓ asked: {troubles: not known; edda; 2026-11-28, yield: ask tilde; edda; 2026-11-28}
✗ asked:
✗   troubles: ▸nobody knows
✗   ▸trubles: not known; edda; 2026-11-28
steps: Sweep it along the belt.
""", asked_unread,
)
