"""Findings for programs."""

from __future__ import annotations

import json
from collections.abc import Iterable

from site_builder.notebook.finding import Finding


def as_json(findings: Iterable[Finding]) -> str:
    """A JSON list, one object a finding, with lines and columns from 1."""
    return json.dumps(
        [
            {
                "path": f.at.path, "line": f.at.line, "column": f.at.column, "code": f.code,
                "level": f.level.value, "message": f.message, "fix": f.fix, "about": f.about,
            }
            for f in findings
        ],
        ensure_ascii=False, indent=1,
    )
