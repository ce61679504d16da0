"""When it goes wrong: every trouble with its cause, its remedy and the way back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from site_builder.handbook.filled import filled
from site_builder.handbook.finder import Part
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_remedies import pictures, remedy, way_back
from site_builder.handbook.pages.procedure_scribe import Scribe
from site_builder.handbook.pages.procedure_views import NO_WORDS, Grid, Pictures, Row, Said
from site_builder.notebook.model.judging import Trouble
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.references import all_steps


@dataclass(frozen=True, slots=True)
class Wrong:
    """The section."""

    ledger: Grid
    pictures: Pictures | None
    parts: tuple[Part, ...]


def goes_wrong(scribe: Scribe) -> Wrong | None:
    """All troubles, those of the whole work first, then step by step."""
    rows: list[Row] = []
    shots: list[Picture] = []
    parts: list[Part] = []
    for work in (scribe.own, *all_steps(scribe.own)):
        here = work if isinstance(work, Step) else None
        for trouble in work.troubles:
            rows.append(_row(scribe, trouble, here))
            shots += trouble.pictures
            sign, what = scribe.pen.plain(trouble.sign), scribe.pen.plain(trouble.do)
            parts.append(Part(scribe.trouble_anchors[id(trouble)], sign, f"{scribe.pen.plain(trouble.cause)} {what}"))
    if not rows:
        return None
    ledger = Grid(caption=Markup("Troubles at this work"), columns=("What you see", "Why", "What to do", "Then"),
                  rows=tuple(rows))
    return Wrong(ledger, pictures(scribe, shots), tuple(parts))


def _row(scribe: Scribe, trouble: Trouble, here: Step | None) -> Row:
    sign = scribe.words(trouble.sign)
    if here is not None:
        sign = filled('{} <span class="bl-atstep">({})</span>', sign, scribe.step_link(here))
    only = scribe.only(trouble)
    if only.words:
        sign = filled('<i class="bl-for">{}:</i> {}', only.words, sign)
    if trouble.cause is not None:
        cause = scribe.words(trouble.cause)
    elif "cause" in trouble.asked:
        cause = scribe.untold("not told yet", trouble.at)
    else:
        cause = NO_WORDS
    what = remedy(scribe, trouble, here, way=False)
    way = _then(scribe, trouble, here)
    return Row((sign, cause, what, way), only, scribe.trouble_anchors[id(trouble)])


def _then(scribe: Scribe, trouble: Trouble, here: Step | None) -> Markup:
    if trouble.then == "none":
        return Markup("Not recoverable")
    if trouble.then == "again" and here is not None and trouble.times is None:
        return filled("{} again", in_words.capital(scribe.step_link(here)))
    told = way_back(scribe, trouble, here)
    plain = Markup(told.removeprefix("Then ").removeprefix("go to ").removeprefix("it is "))
    return in_words.capital(plain) if plain else NO_WORDS


def at_step(scribe: Scribe, work: Work) -> list[Said]:
    """What may go wrong at this step, each leading to its row."""
    links = _links(scribe, work.troubles)
    return [Said(label="Goes wrong", words=links)] if links else []


def _links(scribe: Scribe, troubles: Sequence[Trouble]) -> Markup:
    signs = (filled('<a href="#{}">{}</a>', scribe.trouble_anchors[id(t)], _bare(scribe, t)) for t in troubles)
    return Markup("; ").join(signs)


def _bare(scribe: Scribe, trouble: Trouble) -> Markup:
    return escape(scribe.pen.plain(trouble.sign).rstrip("."))
