"""The fix of a finding followed to the letter: the file as it then stands."""

from __future__ import annotations

import re
from collections.abc import Iterator

from site_builder.notebook.finding import Finding

_LITERAL = re.compile(r"(?:Did you mean|\bWrite) `([^`]+)`(?!, `)(?: or `([^`]+)`)?")
_SCALAR = re.compile(r"\"[^\"]*\"|'[^']*'|[^\n]*?(?=\s*(?:$|[,}\]](?:[\s,}\]]|$)|: |:$))", re.MULTILINE)
_WORD = re.compile(r"[\w.-]+")


def mended(text: str, finding: Finding) -> list[str]:
    """The text with each literal of the fix written where a reader may take it to belong; empty if it has none."""
    literals = [one for found in _LITERAL.findall(finding.fix) for one in found if one and "…" not in one]
    lines = text.split("\n")
    if not literals or finding.at.line > len(lines):
        return []
    out = []
    for literal in literals:  # what a comma cut in two is written whole
        for cut in (literal.replace("; ", ", "), literal.replace(".", ",")):
            if cut != literal and cut in lines[finding.at.line - 1]:
                anew = [*lines]
                anew[finding.at.line - 1] = lines[finding.at.line - 1].replace(cut, literal, 1)
                out.append("\n".join(anew))
    for start, end in _spots(lines[finding.at.line - 1], finding):
        for literal in literals:
            line = lines[finding.at.line - 1]
            anew = [*lines]
            anew[finding.at.line - 1] = line[:start] + literal + line[end:]
            out.append("\n".join(anew))
    return list(dict.fromkeys(out))


def _spots(line: str, finding: Finding) -> Iterator[tuple[int, int]]:
    """Where on the line what is wrong begins and ends: as the message quotes it, or what stands at the place."""
    column = finding.at.column - 1
    for quoted in re.findall(r"`([^`]+)`", finding.message):
        for one in (quoted, quoted.strip("[]")):
            found = line.find(one, max(0, column - len(one)))
            if found >= 0:
                yield found, found + len(one)
    begin = column
    while begin > 0 and not re.match(r"[:\-,{\[] ?|^ +$", line[begin - 2 : begin]):
        begin -= 1
    for start in (column, begin):
        for pattern in (_SCALAR, _WORD):
            match = pattern.match(line, start)
            if match and match[0]:
                yield start, match.end()
    yield column, len(line.rstrip())
    yield len(line) - len(line.lstrip()), len(line.rstrip())
