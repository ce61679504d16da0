"""A finding as it is said at the bench: no key, no brace, no id; the line of the file is folded away."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from site_builder.amend import Refused
from site_builder.bench.names import Names
from site_builder.notebook.finding import Finding, Level

_MARKED = re.compile(r"`([^`]*)`")
_OF_FILES = re.compile(r"[:{}\[\]]|\bkeys?\b|\bYAML\b|line \d|\.yml")


@dataclass(frozen=True, slots=True)
class Spoken:
    """What is wrong, what to do about it, and where it stands for whoever mends files."""

    text: str
    mend: str
    hand: str
    grave: bool


def spoken(names: Names, finding: Finding) -> Spoken:
    """A finding in the words of the trade."""
    mend = names.said(finding.fix)
    told = _MARKED.sub(lambda found: f"“{found[1]}”", mend) if not _OF_FILES.search(mend) else ""
    return Spoken(_MARKED.sub(lambda found: f"“{found[1]}”", names.said(finding.message)), told,
                  f"{finding.at.path}, line {finding.at.line}: {finding.message} {finding.fix}".strip(),
                  finding.level is Level.ERROR)


def all_spoken(names: Names, findings: Iterable[Finding]) -> list[Spoken]:
    """Several, the grave ones first, each once."""
    told = {one.text: one for one in (spoken(names, finding) for finding in findings)}
    return sorted(told.values(), key=lambda one: not one.grave)


def refused(names: Names, why: Refused) -> list[Spoken]:
    """Why something could not be written."""
    if why.findings:
        return all_spoken(names, why.findings)
    return [Spoken(why.why, "", f"{why.file}, line {why.line}", True)]
