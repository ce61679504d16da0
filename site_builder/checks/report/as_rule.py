"""A rule in words, for the terminal."""

from __future__ import annotations

from site_builder.checks.example import ExampleFile, files_of
from site_builder.checks.rule import Rule


def rule_text(rule: Rule) -> str:
    """Summary, reason, and both examples."""
    lines = [f"{rule.code} ({rule.level})", "", rule.summary, rule.reason, "", "Found here:", ""]
    files, marks = files_of(rule.fails)
    for file in files:
        lines += _file(file, {(m.line, m.column) for m in marks if m.path == file.path})
    lines += ["Not found here:", ""]
    for file in files_of(rule.passes)[0]:
        lines += _file(file, set())
    return "\n".join(lines).rstrip()


def _file(file: ExampleFile, marks: set[tuple[int, int]]) -> list[str]:
    lines = [f"  {file.path}{f'  ({file.how})' if file.how else ''}"]
    for number, line in enumerate(file.text.rstrip("\n").split("\n"), 1):
        lines.append(f"    {line}".rstrip())
        columns = sorted(column for at, column in marks if at == number)
        if columns and line:
            carets = "".join("^" if i + 1 in columns else " " for i in range(max(columns)))
            lines.append(f"    {carets}")
    return [*lines, ""]
