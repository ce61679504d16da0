from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.answered import read_answer
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.entry import keys_of
from site_builder.notebook.nearest import did_you_mean, nearest

_FORM = "Write the answer, who said it and the day: `not known; edda; 2026-11-28`."


def check(analysis: Analysis) -> Iterator[Found]:
    for places in analysis.index.places.values():
        for place in places:
            for key, text in place.entry.answered.items():
                if read_answer(text) is None:
                    yield Found(text.at, f"`{text}` is no answer that can stand under `asked`.", (
                        f"{_FORM} Besides `not known` there are `ask tilde`, `does not matter` and `cannot hurt`."))
                elif key not in keys_of(type(place.entry)) and "-" not in key:
                    yield Found(key.at, f"`{key}` is no key of this entry, so nothing was asked of it.",
                                did_you_mean(nearest(key, keys_of(type(place.entry)))) or "Name the key that is open.")


RULE = Rule(
    code="asked-unread",
    level=Level.WARNING,
    summary="An answer under `asked` that cannot be understood.",
    reason="Who said on which day that a thing is not known is read from there; what cannot be read is asked again.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
asked: {troubles: not known; edda; 2026-11-28, yield: ask tilde; edda; 2026-11-28}
steps: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
asked:
  troubles: ▸nobody knows
  ▸trubles: not known; edda; 2026-11-28
steps: Sweep it along the belt.
""",
    check=check,
)
