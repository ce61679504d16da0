from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.references import all_steps


def check(analysis: Analysis) -> Iterator[Found]:
    for own in analysis.notebook.procedures.values():
        told = [finding.at.line for finding in analysis.reading if finding.at.path == own.at.path]
        if not own.steps and not told and "steps" not in own.asked:
            yield Found(
                own.procedure.at, f"“{own.title}” has no steps.", "Write under `steps:` what the hands do, one a line.",
                str(own.id),
            )
        for step, last in _with_ends(own):
            says = step.do is not None or step.use is not None or not step.asked.isdisjoint(("do", "use"))
            # what was taken out with a slip in it is told already
            if not says and not any(step.at.line <= line < last for line in told):
                yield Found(
                    step.at, "Nothing is said of what is done in this step.",
                    "Add `do:` with what the hands do, or `use:` with a procedure that is done here.", str(own.id),
                )


def _with_ends(own: Procedure) -> Iterator[tuple[Step, float]]:
    """Each step with the line on which the next one begins."""
    steps = sorted(all_steps(own), key=lambda step: step.at)
    for number, step in enumerate(steps, 1):
        end = steps[number].at.line if number < len(steps) else float("inf")
        yield step, max(end, step.at.line + 1)


RULE = Rule(
    code="step-empty",
    level=Level.WARNING,
    summary="A step that says neither what is done nor which procedure is used.",
    reason="The learner stands there with the piece in the hand, and the page has nothing to say.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: sweep, do: Sweep it along the belt.}
  - {id: try, do: ask}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: sweep, do: Sweep it along the belt.}
  - ▸{id: try, points: Do not press.}
""",
    check=check,
)
