"""One mistake tried: is it named at its place, only where it bites or not at all, and does the fix mend it?"""

from __future__ import annotations

from collections import Counter
from enum import Enum
from typing import NamedTuple

from site_builder.notebook.finding import At, Finding, Level
from tests.mistakes.fixes import mended
from tests.mistakes.kind import Fix, Kind, Mistake
from tests.mistakes.notebooks import Copy


class Outcome(Enum):
    """What came of a mistake."""

    NAMED = "named at its place"
    BITES = "only where it bites"
    ASTRAY = "fix astray"
    SILENT = "not named"
    BEYOND = "cannot be known"


class Trial(NamedTuple):
    """A mistake of a kind in one notebook, and what came of it; ``told`` are the findings it brought."""

    kind: Kind
    notebook: str
    mistake: Mistake
    outcome: Outcome
    told: list[Finding]


def try_out(kind: Kind, mistake: Mistake, copy: Copy) -> Trial:
    """Make the mistake and look at what is found that was not found before."""
    told = news(copy, mistake)
    here = [f for f in told if f.at.path == mistake.path and f.at.line in mistake.lines and _expected(kind, f)]
    if any(f.code == "rule-crashed" for f in told):
        outcome = Outcome.ASTRAY
    elif not kind.known:
        outcome = Outcome.BEYOND
    elif here:
        outcome = Outcome.ASTRAY if all(_leads_astray(kind, mistake, copy, f) for f in here) else Outcome.NAMED
    else:
        outcome = Outcome.BITES if told else Outcome.SILENT
    return Trial(kind, copy.name, mistake, outcome, told)


def _expected(kind: Kind, finding: Finding) -> bool:
    return not kind.says or finding.code in kind.says.split()


def news(copy: Copy, mistake: Mistake, text: str | None = None) -> list[Finding]:
    """What is found in the notebook with the mistake and not without it."""
    after = mistake.after if text is None else text
    old = Counter((_moved(f.at, mistake.path, mistake.before, after), f.code, f.message) for f in copy.sound)
    fresh = []
    for finding in copy.found_with(mistake.path, after):
        same = (finding.at[:2], finding.code, finding.message)
        if old[same]:
            old[same] -= 1
        else:
            fresh.append(finding)
    return fresh


def _moved(at: At, path: str, before: str, after: str) -> tuple[str, int]:
    """Path and line of a finding, behind what was changed as many lines further as there are more of them."""
    if at.path != path:
        return at.path, at.line
    old, new = before.split("\n"), after.split("\n")
    same = next((n for n, (a, b) in enumerate(zip(old, new, strict=False)) if a != b), min(len(old), len(new)))
    return path, at.line + (len(new) - len(old) if at.line > same + 1 else 0)


def _leads_astray(kind: Kind, mistake: Mistake, copy: Copy, finding: Finding) -> bool:
    """Whether a fix that can be written to the letter does not mend it; one in words is not tried."""
    tries = mended(mistake.after, finding)
    if kind.fix is Fix.RESTORES:
        return mistake.before not in tries
    return bool(tries) and not any(_mends(mistake, copy, finding, text) for text in tries)


def _mends(mistake: Mistake, copy: Copy, finding: Finding, text: str) -> bool:
    """Whether the finding is gone and no new error stands on its line."""
    left = [f for f in news(copy, mistake, text) if f.at[:2] == finding.at[:2]]
    return not any(f.code == finding.code or f.level is Level.ERROR for f in left)
