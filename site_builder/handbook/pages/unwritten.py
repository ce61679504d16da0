"""Still unwritten: the questions for the master as a sheet to sit down with, by person and by work."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from site_builder.checks.interview import Question, Sitting
from site_builder.checks.weight import weighed
from site_builder.handbook.asking import AskingSheet
from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext, question_anchor
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.tellings import listed_tellings
from site_builder.handbook.site import UNWRITTEN, Page, Site
from site_builder.notebook.finding import At
from site_builder.notebook.model.procedure import Step
from site_builder.views.anchors import token
from site_builder.views.counts import number
from site_builder.views.prose import Prose, Ref, capital, capital_text, linked, listed, prose, say

_FIRST = 10
"""So many are to be asked before all others."""
_NAMED = 3
"""So many people are named at the top."""
_LINES = 5
_LINES_TO_SETTLE = 3
"""Ruled lines for an answer; fewer where two answers are there already and one is to be chosen."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A question as it stands on the sheet."""

    id: str
    number: int
    text: Prose
    why: Prose
    where: tuple[str, str | None]
    lines: int
    said: tuple[tuple[Prose, Prose], ...]


@dataclass(frozen=True, slots=True)
class Sat:
    """What to ask about one thing."""

    id: str
    title: Prose
    questions: tuple[Asked, ...]
    probes: tuple[Prose, ...]

    @property
    def count(self) -> str:
        """How many questions."""
        return _questions(len(self.questions))


@dataclass(frozen=True, slots=True)
class Weighty:
    """One of the questions to ask first: what hangs on it, and where it stands."""

    text: Prose
    href: str
    stake: str
    about: Prose


def unwritten_pages(site: Site) -> Iterator[Page]:
    """One page for all questions, or in a large shop several and a page that leads to them."""
    steps = _steps_at(site)
    if len(site.asking) == 1 and site.asking[0].src_uri == UNWRITTEN:
        yield _whole(site, site.asking[0], steps)
        return
    yield _leading(site)
    first = 1
    for before, asking, after in zip((None, *site.asking), site.asking, (*site.asking[1:], None), strict=False):
        yield _one_of_several(site, asking, steps, first, (before, after))
        first += asking.count


def _whole(site: Site, asking: AskingSheet, steps: Mapping[At, Step]) -> Page:
    sheet = _Sheet(site, UNWRITTEN, steps)
    groups = [*sheet.groups(asking.sittings)]
    total = asking.count
    lede = _lede(total, [sheet.context.title("person", id_) for id_ in sheet.people])
    html = pressed("unwritten.html.j2", sheet.context, kicker="Questions for the master", title="Still unwritten",
                   lede=lede, groups=groups, first=_ask_first(site, sheet.context, sheet.anchors), neighbours=(),
                   tellings=listed_tellings(sheet.context))
    parts = tuple(Part(q.id, q.text.plain, q.why.plain)
                  for _, _, sat in groups for s in sat for q in s.questions)
    return Page(UNWRITTEN, "Still unwritten", html, lede.plain, parts)


_Group = tuple[str, Prose, list[Sat]]


def _ask_first(site: Site, context: PageContext, anchors: Mapping[int, str]) -> list[Weighty]:
    """The questions on which most hangs; none where there are so few that all are seen at once."""
    sittings = [sitting for asking in site.asking for sitting in asking.sittings]
    found = weighed(site.analysis, sittings)
    if len(found) <= _FIRST:
        return []
    return [
        Weighty(context.words(one.question.text, glossary=False),
                f"#{anchors[id(one.question)]}" if id(one.question) in anchors
                else context.question_href(one.question.at),
                capital_text(one.weight.words), context.words(one.sitting.title, glossary=False))
        for one in found[:_FIRST]
    ]


# --- several sheets ---------------------------------------------------------------------------------------


def _leading(site: Site) -> Page:
    """The page that leads to the sheets."""
    context = PageContext(site, UNWRITTEN)
    total = sum(asking.count for asking in site.asking)
    people = dict.fromkeys(one for asking in site.asking for one in asking.who)
    lede = _lede(total, [context.title("person", id_) for id_ in people], "one of the sheets")
    groups = []
    for who, sheets in groupby(site.asking, key=lambda asking: asking.who):
        rows = [(f"Sheet {a.number}", context.to(a.src_uri), _span(context, a), _questions(a.count)) for a in sheets]
        groups.append((f"ask-{token(' '.join(who))}", _all_who(context, who), rows))
    html = pressed("unwritten_sheets.html.j2", context, lede=lede, groups=groups, first=_ask_first(site, context, {}),
                   tellings=listed_tellings(context))
    return Page(UNWRITTEN, "Still unwritten", html, lede.plain)


def _one_of_several(
    site: Site, asking: AskingSheet, steps: Mapping[At, Step], first: int,
    beside: tuple[AskingSheet | None, AskingSheet | None],
) -> Page:
    sheet = _Sheet(site, asking.src_uri, steps, first)
    context = sheet.context
    groups = [*sheet.groups(asking.sittings)]
    title = _sheet_title(context, asking)
    lede = say("{}, from number {} on: {}.", capital(_questions(asking.count)), f"{first:,}", _span(context, asking))
    neighbours = [(word, (_sheet_title(context, one), context.to(one.src_uri)))
                  for word, one in zip(("Before", "Next"), beside, strict=True) if one is not None]
    kicker = linked("Still unwritten", Ref("chapter", UNWRITTEN))
    html = pressed("unwritten.html.j2", context, kicker=kicker, title=title, lede=lede, groups=groups,
                   first=[], neighbours=neighbours, tellings=[])
    # so many questions would make the finder slow: here it knows what each sitting is about
    parts = tuple(Part(s.id, f"Questions: {s.title}") for _, _, sat in groups for s in sat)
    return Page(asking.src_uri, title, html, lede.plain, parts)


def _sheet_title(context: PageContext, asking: AskingSheet) -> str:
    names = [context.title("person", id_) for id_ in asking.who]
    if not names:
        who = "whoever knows"
    elif len(names) <= _NAMED:
        who = listed(names, "or").plain
    else:
        who = f"{names[0]} or one of {number(len(names) - 1)} others"
    return f"Questions for {who}, sheet {asking.number}"


def _span(context: PageContext, asking: AskingSheet) -> Prose:
    """``Trim the rim to Polish the hood``: what the sheet is about."""
    first, last = asking.sittings[0], asking.sittings[-1]
    words = context.words(first.title, glossary=False)
    return words if first is last else say("{} to {}", words, context.words(last.title, glossary=False))


def _all_who(context: PageContext, people: Sequence[str]) -> Prose:
    return listed((context.title("person", id_) for id_ in people), "or") or prose("Whoever knows")


def _questions(count: int) -> str:
    return f"{number(count)} question{'' if count == 1 else 's'}"


def _lede(total: int, people: Sequence[str], sheet: str = "this sheet") -> Prose:
    if not total:
        return say("Nothing that we know of. The day somebody asks at the bench and no page answers, write the "
                      "question down under `questions`, and it will stand here.")
    things = capital(f"{number(total)} thing{'' if total == 1 else 's'}")
    return say("{} that only {} can tell. Print {}, sit down together with a pot of tea, and write down "
                  "what is said in the words in which it is said.", things, _who(people), sheet)


def _who(people: Sequence[str]) -> Prose:
    if not people:
        return prose("somebody who was there")
    return listed(people, "or") if len(people) <= _NAMED else prose("the people named below")


class _Sheet:
    """Writes the sheet: numbers run through it, and no two questions share an anchor."""

    def __init__(self, site: Site, src_uri: str, steps: Mapping[At, Step], first: int = 1) -> None:
        self.book = site
        self._steps = steps
        self.context = PageContext(site, src_uri)
        self._number = first - 1
        self.people: dict[str, None] = {}
        self.anchors: dict[int, str] = {}
        """Identity of a question to its anchor."""
        self._taken: set[str] = set()

    def groups(self, sittings: Sequence[Sitting]) -> Iterator[_Group]:
        """(anchor, who, sittings) for each person or group of people to ask."""
        for people, group in groupby(sittings, key=lambda sitting: sitting.who):
            self.people.update(dict.fromkeys(people))
            yield (self._id(f"ask-{token(' '.join(people))}"), _all_who(self.context, people),
                   [self._sat(sitting) for sitting in group])

    def _sat(self, sitting: Sitting) -> Sat:
        return Sat(
            self._id(f"sitting-{token(sitting.about)}"), self.context.words(sitting.title, glossary=False),
            tuple(self._asked(question) for question in sitting.questions),
            tuple(self.context.words(probe, glossary=False) for probe in sitting.probes),
        )

    def _asked(self, question: Question) -> Asked:
        self._number += 1
        said = tuple(
            (self.context.person(who), self.context.words(what, glossary=False)) for who, what in question.said
        )
        anchor = self.anchors[id(question)] = self._id(question_anchor(question.at))
        return Asked(
            anchor, self._number,
            self.context.words(question.text, glossary=False), self.context.words(question.why, glossary=False),
            self._where(question), _LINES_TO_SETTLE if said else _LINES, said,
        )

    def _where(self, question: Question) -> tuple[str, str | None]:
        """The page that waits for the answer, down to the step."""
        target = self.book.analysis.references.find(question.about)
        if target is None:
            return "", None
        title, href = self.context.pair(target.kind, target.id)
        procedure = self.book.notebook.procedures.get(question.about)
        step = self._steps.get(question.at)
        if procedure is None or step is None:
            return title, href
        return (f"{title}, {self.book.step_name(procedure, step)}",
                self.context.href("procedure", question.about, self.book.anchor(step)))

    def _id(self, wanted: str) -> str:
        name, n = wanted, 2
        while name in self._taken:
            name, n = f"{wanted}-{n}", n + 1
        self._taken.add(name)
        return name


def _steps_at(site: Site) -> Mapping[At, Step]:
    """The step to which the place of each question belongs, where it is within one."""
    index = site.analysis.index
    wanted = {question.at for asking in site.asking for sitting in asking.sittings for question in sitting.questions}
    found: dict[At, Step] = {}
    for places in index.places.values():
        for place in places:
            if place.step is not None and place.at in wanted:
                found.setdefault(place.at, place.step)
    left = wanted - found.keys()
    lines = {(at.path, at.line) for at in left}
    texts = [(spot.text, spot.place.step) for spot in (*index.plain, *index.texts)]
    texts += [(leaf.text, place.step) for leaf, place, _ in index.values]
    texts += [(leaf.text, place.step) for leaf, place, _ in index.leaves]
    for text, step in texts:
        if step is not None and (text.path, text.line) in lines and text.at in left:
            found.setdefault(text.at, step)
    return found
