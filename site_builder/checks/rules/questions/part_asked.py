from __future__ import annotations

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import asks_for
from site_builder.notebook.finding import Level
from site_builder.notebook.told import Told


def _belongs_to_none(analysis: Analysis, told: Told) -> bool:
    """Neither its folder nor the procedures that use it say what it is for."""
    notebook = analysis.notebook
    return bool(notebook.parts) and not told.shared and not notebook.unread and not notebook.parts_of(told.procedure)


RULE = Rule(
    code="part-asked",
    level=Level.QUESTION,
    summary="A procedure that names no part.",
    reason="By its part a procedure finds its place in the map of the work, its sizes and its material.",
    passes="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: Foot}
=== procedures/new/file-seam.yml
procedure: file-seam
title: File the seam
part: foot
steps: File along the seam.
""",
    fails="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: Foot}
=== procedures/new/file-seam.yml
procedure: file-seam
title: ▸File the seam
steps: File along the seam.
""",
    check=asks_for(
        "part", "makes",
        question="Which part is worked on: {}?",
        fix="Add `part:` with its id under the shop's `parts`, or `makes:` with what comes of it.",
        worth=_belongs_to_none,
    ),
)
