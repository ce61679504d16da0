"""``benchlore check`` and ``benchlore explain``."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine, has_errors
from site_builder.checks.interview import interview
from site_builder.checks.report import as_json, as_sarif, as_text, summary
from site_builder.checks.report.as_rule import rule_text
from site_builder.checks.report.as_text import weightiest_in_words
from site_builder.checks.rules import BY_CODE
from site_builder.checks.weight import weighed
from site_builder.cli.shared import ERRORS, OK, day, notebook_at, notebook_option, path_argument, today_option
from site_builder.handbook.undisturbed import undisturbed
from site_builder.notebook.finding import Level
from site_builder.notebook.nearest import did_you_mean, nearest

TEN = 10
"""So many questions are told in words where not all are."""
_GRAVITY = {level: place for place, level in enumerate((Level.ERROR, Level.WARNING, Level.QUESTION))}
_COLOURS = {Level.ERROR: "red", Level.WARNING: "yellow", Level.QUESTION: "cyan"}


@click.command()
@path_argument
@notebook_option
@today_option
@click.option("--format", "form", type=click.Choice(["text", "json", "sarif"]), default="text",
              help="For people, for programs, for code hosts.")
@click.option("--only", "levels", multiple=True, type=click.Choice([level.value for level in Level]),
              help="Show only findings of this level; may be given again.")
@click.option("--all", "everything", is_flag=True, help="Show every question at its place, not only the weightiest.")
@click.pass_context
def check(
    context: click.Context, path: Path | None, folder: Path, today: Any, form: str, levels: tuple[str, ...],
    everything: bool,
) -> None:
    """Tell what is contradictory, doubtful or untold in the notebook.

    PATH is the notebook, or a file or folder of it: then only what stands there is told.

    Errors come first, then warnings; of the questions, how many there are and the ten weightiest in words.
    """
    with undisturbed():
        root, within = notebook_at(path, folder)
        surveyed = analysis(root, day(today, root))
        findings = [f for f in examine(surveyed) if _stands_in(f.at.path, within)]
    shown = [f for f in findings if not levels or f.level.value in levels]
    if form == "json":
        click.echo(as_json(shown))
    elif form == "sarif":
        click.echo(as_sarif(shown))
    else:
        in_full = everything or Level.QUESTION.value in levels
        told = sorted((f for f in shown if in_full or f.level is not Level.QUESTION), key=lambda f: _GRAVITY[f.level])
        for line in as_text(told, surveyed.notebook):
            click.echo(_coloured(line))
        click.echo(summary(shown))
        if not in_full and len(told) < len(shown):
            click.echo(weightiest_in_words(weighed(surveyed, interview(surveyed, shown, probing=False)), TEN))
    context.exit(ERRORS if has_errors(findings) else OK)


@click.command()
@click.argument("code")
def explain(code: str) -> None:
    """Tell more about a finding: why it matters, a notebook that has it, and one that has not."""
    rule = BY_CODE.get(code)
    if rule is None:
        raise click.UsageError(f"No rule is called `{code}`. {did_you_mean(nearest(code, BY_CODE))}".rstrip())
    click.echo(rule_text(rule))


def _stands_in(path: str, within: str) -> bool:
    return not within or path == within or path.startswith(f"{within}/")


def _coloured(line: str) -> str:
    for level, colour in _COLOURS.items():
        mark = f" {level.value}["
        if mark in line:
            return line.replace(mark, " " + click.style(mark.strip(), fg=colour, bold=True), 1)
    return line
