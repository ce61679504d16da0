from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.nearest import did_you_mean, nearest
from site_builder.notebook.references import all_steps


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for own in nb.procedures.values():
        variants = {**(nb.shop.variants if nb.shop is not None else {}), **own.variants}
        declared = {str(name): [str(value) for value in variant.values] for name, variant in variants.items()}
        for work in (own, *all_steps(own)):
            for name, shown in work.finds.items():
                values = declared.get(str(name), [])
                for value in shown:
                    if values and value not in values:
                        listed = ", ".join(f"`{one}`" for one in values)
                        yield Found(
                            value.at, f"The work shows `{value}`, but `{name}` is declared as {listed}.",
                            f"{did_you_mean(nearest(value, values))}Write one of its values, or add it to them.",
                            str(own.id),
                        )
                lacking = [value for value in values if value not in shown]
                if lacking and all(value in values for value in shown):
                    listed = " and ".join(f"`{one}`" for one in lacking)
                    yield Found(
                        name.at, f"How does one see {listed}? The work decides `{name}`, and shows nothing of it.",
                        f"Add `{lacking[0]}:` with its sign, or take it out of the values.", str(own.id),
                    )


RULE = Rule(
    code="finds-apart",
    level=Level.ERROR,
    summary="What the work finds out is not what was declared.",
    reason="A value that nothing declares is never met again, and one that nothing shows is never chosen.",
    passes="""\
=== procedures/pipe/solder-pipe.yml
procedure: solder-pipe
title: Solder the pipe
variants: {seam: {values: [clean, gapped]}}
steps:
  - do: Hold it against the light.
    finds: {seam: {clean: No light., gapped: A thread of light.}}
""",
    fails="""\
=== procedures/pipe/solder-pipe.yml
procedure: solder-pipe
title: Solder the pipe
variants: {seam: {values: [clean, gapped]}}
steps:
  - do: Hold it against the light.
    finds: {seam: {clean: No light., ▸open: A thread of light.}}
  - do: Hold it against the lamp.
    finds: {▸seam: {clean: No light.}}
""",
    check=check,
)
