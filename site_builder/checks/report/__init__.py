"""One renderer a format over the same findings: for people, for programs, for code hosts."""

from __future__ import annotations

from site_builder.checks.report.as_json import as_json
from site_builder.checks.report.as_sarif import as_sarif
from site_builder.checks.report.as_text import as_text, summary

__all__ = ["as_json", "as_sarif", "as_text", "summary"]
