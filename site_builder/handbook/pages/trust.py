"""How far to trust the numbers: every check of the arithmetic against what others published, by topic and function."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from importlib.resources import files
from typing import Any

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.site import TRUST, WRITERS, Page, Site
from site_builder.views.prose import Prose, Ref, linked, say, toned
from site_builder.views.typeset import typeset

Check = Mapping[str, Any]
_FEW = 6
"""Digits of a value that are shown."""


@dataclass(frozen=True, slots=True)
class Told:
    """A function with its checks: what it gives, how many agree, the worst difference, the checks by source."""

    name: str
    meaning: Prose
    count: int
    agree: int
    worst: str
    sources: tuple[tuple[str, tuple[Prose, ...]], ...]


@cache
def outside() -> Mapping[str, Any]:
    """The results of the checks, as ``python -m tests.outside`` wrote them."""
    found: Mapping[str, Any] = json.loads(files("site_builder.formulas").joinpath("outside.json").read_text("utf-8"))
    return found


def trust_pages(site: Site) -> Iterator[Page]:
    """The one page. It stands in no finder but by its title: nobody looks for a single check."""
    context = PageContext(site, TRUST)
    data = outside()
    html = pressed(
        "trust.html.j2", context, kicker=linked("For writers", Ref("chapter", WRITERS)), checks=len(data["checks"]),
        functions=len(data["functions"]), agree=sum(check["agrees"] for check in data["checks"]),
        disputed=sum(check["disputed"] for check in data["checks"]), found=[*_found(data)],
        topics=[*_topics(context, data)],
    )
    yield Page(TRUST, "How far to trust the numbers", html)


def _found(data: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """How the published values were found, and how many of each."""
    counts = Counter(check["seen"] for check in data["checks"])
    for seen, words in data["seen"].items():
        if counts[seen]:
            yield str(words).capitalize(), str(counts[seen])


def _topics(context: PageContext, data: Mapping[str, Any]) -> Iterator[tuple[str, str, int, list[Told]]]:
    for topic, title in data["topics"].items():
        checks = [check for check in data["checks"] if check["topic"] == topic]
        names = dict.fromkeys(check["function"] for check in checks)
        told = [_told(context, name, data["functions"][name], [c for c in checks if c["function"] == name])
                for name in names]
        yield topic, title, len(checks), told


def _told(context: PageContext, name: str, meaning: str, checks: Sequence[Check]) -> Told:
    sources: dict[str, list[Prose]] = {}
    for check in checks:
        sources.setdefault(_cited(check, context), []).append(_line(check))
    return Told(
        name, context.words(meaning.partition(" Raises ")[0].replace("``", "`"), glossary=False), len(checks),
        sum(check["agrees"] for check in checks), _worst(checks),
        tuple((source, tuple(lines)) for source, lines in sources.items()),
    )


def _cited(check: Check, context: PageContext) -> str:
    source = check["source"]
    named = [source["title"], source.get("publisher"), source.get("year"), source.get("section")]
    words = ", ".join(str(one) for one in named if one not in (None, "", "-"))
    seen = {"memory": ", from memory", "package": ", worked out"}.get(check["seen"], "")
    return context.plain(words) + seen


def _line(check: Check) -> Prose:
    between = "between " if check["disputed"] else ""
    unit = f"\u00a0{check['unit']}" if check["unit"] else ""
    published = f"{between}{_shown(check['published'], ' and ' if between else ', ')}{unit}"
    words = say("{}: **{}**; {}", typeset(check["what"]), published, _shown(check["ours"]))
    return words if check["agrees"] else say("{} {}", words, toned("strong", "differs"))


def _plainly(figure: float) -> str:
    """Two figures that matter, without powers of ten: ``0.0000067``, ``11000``."""
    return format(Decimal(f"{figure:.2g}"), "f")


def _worst(checks: Sequence[Check]) -> str:
    """The difference that is greatest beside the size of what it is of; `none` where all are the same."""
    differing = [check for check in checks if check["difference"]]
    if not differing:
        return "none"
    worst = max(differing, key=lambda check: abs(check["difference"]) / _size(check["published"]))
    unit = f"\u00a0{worst['unit']}" if worst["unit"] else ""
    return f"{_plainly(abs(worst['difference']))} in {_shown(worst['published'])}{unit}"


def _size(published: object) -> float:
    figures = published if isinstance(published, list) else [published]
    return max((abs(one) for one in figures if isinstance(one, int | float)), default=1.0) or 1.0


def _shown(answer: object, between: str = ", ") -> str:
    if isinstance(answer, bool):
        return "yes" if answer else "no"
    if isinstance(answer, float):
        return f"{answer:.{_FEW}g}"
    if isinstance(answer, list):
        return between.join(_shown(one) for one in answer) or "none"
    return "none" if answer is None else str(answer)
