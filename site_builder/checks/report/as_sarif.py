"""Findings as SARIF 2.1.0 (OASIS), which editors and code hosts read."""

from __future__ import annotations

import json
from collections.abc import Iterable
from urllib.parse import quote

from site_builder.checks.rules import BY_CODE
from site_builder.notebook.finding import Finding, Level

_LEVELS = {Level.ERROR: "error", Level.WARNING: "warning", Level.QUESTION: "note"}


def as_sarif(findings: Iterable[Finding]) -> str:
    """One run of the tool with its rules and results."""
    findings = list(findings)
    codes = sorted({f.code for f in findings})
    rules = []
    for code in codes:
        rule = BY_CODE.get(code)
        described = {} if rule is None else {
            "shortDescription": {"text": rule.summary}, "fullDescription": {"text": rule.reason},
        }
        rules.append({"id": code, **described})
    results = [
        {
            "ruleId": f.code,
            "ruleIndex": codes.index(f.code),
            "level": _LEVELS[f.level],
            "message": {"text": f"{f.message} {f.fix}".strip()},
            "locations": [
                {
                    "physicalLocation": {
                        "artifactLocation": {"uri": quote(f.at.path), "uriBaseId": "NOTEBOOK"},
                        "region": {"startLine": f.at.line, "startColumn": f.at.column},
                    }
                }
            ],
        }
        for f in findings
    ]
    log = {
        "$schema": "https://json.schemastore.org/sarif-2.1.0.json",
        "version": "2.1.0",
        "runs": [
            {
                "tool": {"driver": {"name": "benchlore", "rules": rules}},
                "columnKind": "unicodeCodePoints",
                "results": results,
            }
        ],
    }
    return json.dumps(log, ensure_ascii=False, indent=1)
