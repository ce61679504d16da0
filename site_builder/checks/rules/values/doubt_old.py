from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.limits import is_open
from site_builder.checks.rules.values.wording import thing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit, Window
from site_builder.notebook.model.procedure import Procedure

_YEAR = timedelta(days=365)


def check(analysis: Analysis) -> Iterator[Found]:
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            doubted = limit.doubt or (limit.written is not None and limit.written.value.perhaps)
            if not doubted and not (limit.said and is_open(limit)):
                continue
            since = _since(limit, place)
            if since is not None and analysis.today - since > _YEAR:
                at = limit.written.at if limit.written is not None else limit.at
                yield Found(
                    at, f"This doubt about {thing(place)} has stood since {since.isoformat()} at least.",
                    "Measure it or ask, and write what holds; or add to `said` who was asked, and when.",
                    place.owner_id,
                )


def _since(limit: Limit, place: Place) -> date | None:
    """The day of the last answer, or else of the last revision of the page."""
    said = [one.date.value.last for one in limit.said if one.date is not None]
    if said:
        return max(said)
    if isinstance(place.owner, Procedure):
        return max((one.date.value.last for one in place.owner.revisions if one.date is not None), default=None)
    return None


RULE = Rule(
    code="doubt-old",
    level=Level.WARNING,
    summary="A doubt that has stood for more than a year.",
    reason=(
        "A doubt is meant to be cleared. After a year people work by the doubtful value as if it were "
        "sure."
    ),
    passes="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps: Press the filler in.
limits: {depth of the pit: perhaps max 2 mm}
revisions: {date: 2026-05-02, what: Written down.}
""",
    fails="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps: Press the filler in.
limits: {depth of the pit: ▸perhaps max 2 mm}
revisions: {date: 2024-05-02, what: Written down.}
""",
    check=check,
)
