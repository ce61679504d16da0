"""A procedure told line by line: one line, one step; *because* and *never* belong to the step above."""

from __future__ import annotations

from site_builder.amend import Plain, clean

_LEADS = (("because ", "because"), ("never ", "never"), ("until ", "until"))
"""How a line begins that is no step of its own."""


def steps_of(text: str) -> tuple[list[dict[str, Plain]], dict[str, Plain]]:
    """The steps, and what stands before the first of them, which is said of the work as a whole."""
    steps: list[dict[str, Plain]] = []
    whole: dict[str, Plain] = {}
    for line in clean(text).split("\n"):
        line = " ".join(line.lstrip("-*•0123456789.) ").split()) if line.strip() else ""
        if not line:
            continue
        lead, key = next(((lead, key) for lead, key in _LEADS if line.lower().startswith(lead)), ("", ""))
        if not key or (key == "until" and not steps):
            steps.append({"do": line})
            continue
        said = line[len(lead):].strip()
        said = said[:1].upper() + said[1:] if key != "until" else said.rstrip(".")
        home = steps[-1] if steps else whole
        was = home.get(key)
        home[key] = said if was is None else [*was, said] if isinstance(was, list) else [was, said]
    return steps, whole
