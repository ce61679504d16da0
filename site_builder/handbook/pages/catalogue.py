"""What is checked: every rule with its reason and both of its examples, as the tests run them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from site_builder.checks.example import ExampleFile, files_of
from site_builder.checks.rule import Rule
from site_builder.checks.rules import (
    RULES,
    agreeing,
    harm,
    people,
    possible,
    questions,
    reading,
    records,
    route,
    slips,
    tellings,
    texts,
    tools,
    trade,
    values,
)
from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.site import CATALOGUE, WRITERS, Page, Site
from site_builder.notebook.finding import At, Level
from site_builder.views.counts import number
from site_builder.views.prose import Prose, Ref, capital, joined, linked, merged, prose, say, toned

GROUPS = (
    ("reading", "Files and keys", reading.RULES),
    ("slips", "Slips of the pen", slips.RULES),
    ("values", "Values", values.RULES),
    ("possible", "What can be", possible.RULES),
    ("agreeing", "What must agree", agreeing.RULES),
    ("trade", "What the trade knows", trade.RULES),
    ("texts", "Sentences", texts.RULES),
    ("tellings", "What was told", tellings.RULES),
    ("route", "The way of the work", route.RULES),
    ("tools", "Tools and materials", tools.RULES),
    ("harm", "Harm", harm.RULES),
    ("people", "People and skills", people.RULES),
    ("records", "The books", records.RULES),
    ("questions", "What is still untold", questions.RULES),
)
_LEVELS = (
    (Level.ERROR, "The notebook contradicts itself or says what cannot be. No handbook is made from it."),
    (Level.WARNING, "It may be meant so, but it is worth a look. The handbook is made."),
    (Level.QUESTION, "The master has not told us yet. It is printed on the sheet of questions."),
)
Shown = tuple[str, Prose]


@dataclass(frozen=True, slots=True)
class Told:
    """A rule as it stands on the page."""

    code: str
    level: str
    summary: Prose
    reason: Prose
    fails: tuple[Shown, ...]
    passes: tuple[Shown, ...]


def catalogue_pages(site: Site) -> Iterator[Page]:
    """The page of all rules."""
    context = PageContext(site, CATALOGUE)
    groups = [(id_, title, [_told(context, rule) for rule in rules]) for id_, title, rules in GROUPS if rules]
    lede = say("{} rules read the notebook whenever a handbook is made. `benchlore check` runs them at "
                  "any time, `benchlore explain` with the code of a rule says what stands here.",
        capital(number(len(RULES))))
    html = pressed(
        "catalogue.html.j2", context, lede=lede, groups=groups,
        kicker=say("{}", linked("For writers", Ref("chapter", WRITERS))),
        levels=[(capital(level), says) for level, says in _LEVELS],
    )
    parts = tuple(Part(rule.code, rule.code, rule.summary) for rule in RULES)
    yield Page(CATALOGUE, "What is checked", html, lede.plain, parts)


def _told(context: PageContext, rule: Rule) -> Told:
    fails, marks = files_of(rule.fails)
    return Told(
        rule.code,
        str(rule.level),
        context.words(rule.summary, glossary=False),
        context.words(rule.reason, glossary=False),
        tuple(_shown(file, marks) for file in fails),
        tuple(_shown(file, ()) for file in files_of(rule.passes)[0]),
    )


def _shown(file: ExampleFile, marks: tuple[At, ...] | list[At]) -> Shown:
    """A file of an example; the letters at which the rule finds something are marked."""
    how = f" ({file.how})" if file.how else ""
    lines = file.text.rstrip("\n").split("\n")
    columns = {(mark.line, mark.column) for mark in marks if mark.path == file.path}
    shown = [_line(line, sorted(column for row, column in columns if row == at)) for at, line in enumerate(lines, 1)]
    return f"{file.path}{how}", merged(piece for line in shown for piece in ("\n", *line))


def _line(line: str, columns: list[int]) -> Prose:
    """A line in which the word that begins at each of these columns is marked."""
    out, end = [], 0
    for column in columns:
        start = column - 1
        word = line[start:].split(" ")[0].split(":")[0] or line[start : start + 1] or " "
        out += [prose(line[end:start]), toned("found", word)]
        end = start + len(word)
    return joined([*out, line[end:]], "")
