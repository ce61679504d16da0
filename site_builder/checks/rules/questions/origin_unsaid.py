from __future__ import annotations

from collections.abc import Iterator

from site_builder.checks.rule import Rule
from site_builder.checks.survey import Survey
from site_builder.notebook.finding import Found, Level


def check(survey: Survey) -> Iterator[Found]:
    notebook = survey.notebook
    if notebook.shop is None or notebook.unread:
        return
    made = {one for own in notebook.procedures.values() for one in (*notebook.parts_of(own), *notebook.makes_of(own))}
    for id_, part in notebook.parts.items():
        if part.supplier is None and "supplier" not in part.asked and id_ not in made:
            yield Found(
                part.title.at, f"Who makes “{part.title}”, or where is it bought?",
                "Write the procedure that makes it, or add `supplier:`.", id_,
            )


RULE = Rule(
    code="origin-unsaid",
    level=Level.QUESTION,
    summary="A part that nobody makes and nobody delivers.",
    reason="On the map it hangs in the air: either the work on it is not written yet, or nobody has said "
    "where it is bought.",
    passes="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts:
  glass: {title: Glass, supplier: Pellmoor Glass}
""",
    fails="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts:
  glass: ▸Glass
""",
    check=check,
)
