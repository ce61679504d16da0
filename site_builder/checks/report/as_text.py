"""Findings for people: like a compiler's, with the line, a caret and the mend."""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from site_builder.checks.weight import Weighed, Weight
from site_builder.notebook.finding import Finding, Level
from site_builder.notebook.notebook import Notebook

_ROOM = 96


def as_text(findings: Iterable[Finding], notebook: Notebook) -> Iterator[str]:
    """Each finding in a few lines."""
    for finding in findings:
        yield finding.line()
        line = notebook.line(finding.at)
        if line.strip():
            shown, caret = _window(line, finding.at.column - 1)
            number = str(finding.at.line)
            yield f"  {number} | {shown}"
            yield f"  {' ' * len(number)} | {' ' * caret}^"
        if finding.fix:
            yield f"      {finding.fix}"
        yield ""


def summary(findings: Iterable[Finding]) -> str:
    """How many of each, and the commonest codes."""
    findings = list(findings)
    if not findings:
        return "No findings. The notebook says nothing that it cannot mean."
    lines = []
    for level in Level:
        found = [f for f in findings if f.level is level]
        if found:
            codes = Counter(f.code for f in found)
            told = ", ".join(f"{code} {count}" for code, count in codes.most_common())
            lines.append(f"{counted(len(found), level.value)}: {told}")
    files = len({f.at.path for f in findings})
    lines.append(f"in {counted(files, 'file')}. `benchlore explain CODE` tells more about any of them.")
    return "\n".join(lines)


def weightiest_in_words(found: Sequence[Weighed], most: int) -> str:
    """How many questions there are of each weight, and the weightiest in words, each with its place."""
    counts = Counter(one.weight for one in found)
    told = ", ".join(f"{counts[weight]} {weight.words}" for weight in Weight if counts[weight])
    lines = ["", f"To be asked: {told}."]
    if len(found) > most:
        lines.append(f"The {most} weightiest; `benchlore check --all` shows all, `benchlore questions` by person:")
    for number, one in enumerate(found[:most], 1):
        lead = f"{number:>3}. "
        lines.append(textwrap.fill(one.question.text, 100, initial_indent=lead, subsequent_indent=" " * len(lead)))
        lines.append(f"     {one.question.at.path}:{one.question.at.line}")
    return "\n".join(lines)


def counted(number: int, noun: str) -> str:
    """``1 error``, ``2 errors``."""
    return f"{number} {noun}{'' if number == 1 else 's'}"


def _window(line: str, column: int) -> tuple[str, int]:
    """The part of a long line around the caret; tabs become blanks so that the caret stands right."""
    line = line.replace("\t", " ")
    column = max(0, min(column, len(line)))
    if len(line) <= _ROOM:
        return line, column
    start = max(0, min(column - _ROOM // 2, len(line) - _ROOM))
    shown = line[start : start + _ROOM]
    if start:
        shown = "…" + shown[1:]
    if start + _ROOM < len(line):
        shown = shown[:-1] + "…"
    return shown, column - start
