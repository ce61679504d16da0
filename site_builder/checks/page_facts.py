"""What a page tells that a probing question can take hold of, as words for the middle of a sentence."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.model.things import Thing
from site_builder.notebook.references import all_steps
from site_builder.notebook.told import Told
from site_builder.notebook.tree import Text
from site_builder.quantity import Ask, Judged, Limits, Some, Value, Word, as_said, kind_of

ANY_PIECE = "piece"
_ORGANS = {"touch": "hand", "sight": "eye", "sound": "ear", "smell": "nose", "taste": "tongue",
           "weight": "arm", "warmth": "hand"}
_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
           "December")
_WAS_OTHERWISE = re.compile(r"\b(instead|before|was|were|no longer|used to)\b", re.IGNORECASE)
_UNTOLD = (Ask, Some, Judged, Word)


def noun(title: str) -> str:
    """A title as a noun within a sentence: `Surface plate, granite` is a surface plate."""
    head = title.split(",")[0]
    return head if head[1:2].isupper() else head[:1].lower() + head[1:]


class PageFacts:
    """One procedure, asked for what it tells."""

    def __init__(self, analysis: Analysis, told: Told) -> None:
        self._survey = analysis
        self._told = told
        self._own = told.procedure
        self._works: tuple[Work, ...] = (told.procedure, *all_steps(told.procedure))

    @property
    def title(self) -> str:
        return quoted(self._own.title)

    @cached_property
    def piece(self) -> str:
        """What is worked on, where it is one thing."""
        parts = self._survey.notebook.parts_of(self._own)
        known = [self._survey.notebook.parts[one] for one in parts if one in self._survey.notebook.parts]
        return noun(known[0].title) if len(known) == 1 else ANY_PIECE

    @property
    def a_piece(self) -> str:
        return f"{'An' if self.piece[0] in 'aeiou' else 'A'} {self.piece}"

    @cached_property
    def product(self) -> str:
        """The product that the part goes into; nothing for the product itself."""
        notebook = self._survey.notebook
        parts = set(notebook.parts_of(self._own))
        for id_, product in notebook.products.items():
            if id_ not in parts and not parts.isdisjoint(map(str, product.of)):
                return noun(product.title)
        return ""

    @cached_property
    def before(self) -> list[str]:
        return self._titles(self._survey.route.before.get(str(self._own.procedure), ()))

    @cached_property
    def following(self) -> list[str]:
        return self._titles(self._survey.route.after.get(str(self._own.procedure), ()))

    def _titles(self, ids: tuple[str, ...]) -> list[str]:
        return [quoted(self._survey.notebook.procedures[id_].title) for id_ in ids]

    @property
    def revisions(self) -> list[tuple[str, str]]:
        """When the way of working changed, and how; a page that was only timed anew has not changed it."""
        return [
            (_when(str(one.date)), quoted(one.what)) for one in self._own.revisions
            if one.date is not None and (one.change is not None or _WAS_OTHERWISE.search(one.what))
        ]

    @property
    def steps(self) -> tuple[Step, ...]:
        return self._own.steps

    @cached_property
    def barest_step(self) -> str:
        """The step of which least is told besides what to do; the last, which is mostly putting away, not."""
        steps = [step for step in self._own.steps if step.do]
        steps = steps[:-1] if len(steps) > 2 else steps
        least = min(steps, key=lambda step: len(step.model_fields_set), default=None)
        return quoted(least.do) if least is not None and least.do else ""

    @cached_property
    def points_without_reason(self) -> list[str]:
        return [
            quoted(point.point) for work in self._works for point in work.points
            if not point.because and "because" not in point.asked
        ]

    @cached_property
    def _feels(self) -> list[Check]:
        return [feel for work in self._works for feel in work.feel]

    @property
    def senses(self) -> set[str]:
        return {str(feel.sense) for feel in self._feels}

    @property
    def told_good(self) -> list[tuple[str, str]]:
        """What good is like, and the organ that judges it."""
        return [(quoted(f.good), _ORGANS.get(str(f.sense), "judgement")) for f in self._feels if f.good]

    @property
    def told_bad(self) -> list[str]:
        """What bad is like."""
        return [quoted(feel.bad[0]) for feel in self._feels if feel.bad]

    @cached_property
    def time(self) -> str:
        """The work time of one piece."""
        for time in self._own.time:
            if time.each is not None and kind_of(time.each.value) == "time":
                return as_said(time.each.value)
        return ""

    @property
    def several_hands(self) -> bool:
        return any(hands.roles for work in self._works for hands in work.hands)

    @property
    def troubles(self) -> int:
        return sum(len(work.troubles) for work in self._works)

    @cached_property
    def limits(self) -> list[tuple[str, str]]:
        """The limits by name, each with its gauge where one is named."""
        tools = self._survey.notebook.tools
        return [
            (str(name), next((noun(tools[g].title) for g in reversed(limit.with_) if g in tools), ""))
            for work in self._works for name, limits in work.limits.items() for limit in limits[:1]
            if limit.is_ is not None and limit.guide is None
        ]

    @cached_property
    def first_condition(self) -> tuple[str, str] | None:
        """The first condition with a figure, and the figure."""
        return next(_told_in(work.conditions for work in self._works), None)

    @cached_property
    def first_setting(self) -> tuple[str, str] | None:
        """The first setting with a figure, and the figure."""
        return next(_told_in(work.settings for work in self._works), None)

    @property
    def judged_settings(self) -> list[tuple[str, str]]:
        """Settings found by the hand, without a word on how one knows them."""
        return [
            (str(name), quoted(limit.written.text))
            for work in self._works for name, limits in work.settings.items() for limit in limits
            if limit.written is not None and isinstance(limit.written.value.what, Judged) and not limit.check
        ]

    def named(self, kind: type[Thing]) -> list[str]:
        """The things of a kind that are used, as nouns."""
        things = self._survey.notebook.things
        return [noun(things[id_].title) for id_ in self._told.things if isinstance(things.get(id_), kind)]

    def without_substitute(self, *kinds: type[Thing]) -> list[str]:
        """The same, without those of which the page says what else will do."""
        things = self._survey.notebook.things
        replaced = {
            str(id_) for work in self._works
            for id_ in (
                *(use.tool for use in work.tools if use.or_ or use.not_),
                *(use.material for use in work.materials if use.or_ or use.not_),
            )
        }
        return [
            noun(things[id_].title) for id_ in self._told.things
            if isinstance(things.get(id_), kinds) and id_ not in replaced
        ]


def _told_in(groups: Iterable[Mapping[Text, tuple[Limit, ...]]]) -> Iterator[tuple[str, str]]:
    """Values with a figure that a sentence can take, in the unit in which they were written."""
    for named in groups:
        for name, limits in named.items():
            written = limits[0].written if limits and not limits[0].for_ else None
            if written is not None and _is_simple(written.value):
                yield str(name), as_said(written.value)


def _is_simple(value: Value) -> bool:
    """One figure or one range, told for certain."""
    what = value.what
    several = isinstance(what, Limits) and len(what.clauses) > 1
    return not (value.perhaps or several or isinstance(what, _UNTOLD))


def _when(date: str) -> str:
    """A month by its name, for ``2019-10`` could be a span of years; a day and a year as they were written."""
    year, _, month = date.partition("-")
    return f"{_MONTHS[int(month) - 1]} {year}" if re.fullmatch(r"\d\d", month) else date
