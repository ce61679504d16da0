"""Runs every rule over an analysis. A rule that crashes becomes a finding; the others still run."""

from __future__ import annotations

from collections.abc import Iterable
from operator import attrgetter

from site_builder.analysis.analysis import Analysis
from site_builder.checks.answering import open_ones
from site_builder.checks.rule import Rule
from site_builder.checks.rules import RULES
from site_builder.notebook.finding import At, Finding, Level

CRASHED = "rule-crashed"

_IN_ORDER = attrgetter("at", "code", "level", "message", "fix", "about")  # far quicker than comparing findings


def examine(analysis: Analysis, rules: Iterable[Rule] = RULES) -> list[Finding]:
    """All findings in order of their places: those of the reader, then those of the rules."""
    findings = list(analysis.reading)
    for rule in rules:
        if rule.check is None:
            continue
        try:
            found = [
                Finding(f.at, rule.code, rule.level, f.message, f.fix, f.about) for f in rule.check(analysis)
            ]
        except Exception as problem:  # a rule must never take the others down with it
            found = [
                Finding(
                    At("procedures/shop.yml"), CRASHED, Level.ERROR,
                    f"The rule `{rule.code}` failed: {type(problem).__name__}: {problem}.",
                    "This is a fault of the program, not of the notebook; please report it with this line.",
                )
            ]
        findings += found
    return open_ones(analysis, sorted(set(findings), key=_IN_ORDER))


def has_errors(findings: Iterable[Finding]) -> bool:
    """True where something must be mended before a handbook can be trusted."""
    return any(f.level is Level.ERROR for f in findings)
