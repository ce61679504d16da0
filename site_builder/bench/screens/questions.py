"""All that is open, thing by thing, the weightiest first."""

from __future__ import annotations

from werkzeug.wrappers import Response

from site_builder.bench.asking import Open, open_questions
from site_builder.bench.visit import Route, Visit
from site_builder.bench.written_lines import latest


def questions(visit: Visit) -> Response:
    """What is open, whom it was handed to, and a way to sit down with each."""
    by_about: dict[str, list[Open]] = {}
    for one in open_questions(visit.reading):
        by_about.setdefault(one.weighed.question.about, []).append(one)
    told = [(about, ones[0].weighed.sitting.title, visit.names.people(ones[0].weighed.sitting.who),
             [(visit.names.plainly(one.text), one.is_harm,
               visit.names.person(one.said.whom) if one.said is not None and one.said.whom else "") for one in ones])
            for about, ones in by_about.items()]
    return visit.page("questions.j2", told=told, count=sum(len(one[3]) for one in told),
                      since=latest(visit.here.root))


questions.desk_only = True  # type: ignore[attr-defined]

ROUTES: tuple[Route, ...] = (("/questions", ("GET",), questions),)
