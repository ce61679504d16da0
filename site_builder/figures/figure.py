"""A figure: a sentence with a number in it, and all that the number rests on."""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.notebook.finding import At
from site_builder.notebook.model.procedure import Step


@dataclass(frozen=True, slots=True)
class Input:
    """A value that went into a figure: what it is, as it was written, and the thing that says it."""

    name: str
    """``belt speed``, ``ring diameter``."""
    written: str
    """The value as the shop wrote it, or ``assumed: …`` where nobody did."""
    kind: str = ""
    """The kind of thing whose page shows it (procedure, part, tool, material, skill, person, order)."""
    id: str = ""
    step: Step | None = None
    at: At | None = None
    """The line that wrote it."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One result, shown on the page of the thing it is about."""

    kind: str
    id: str
    sentence: str
    """Plain words with the number; a range where an input is uncertain."""
    inputs: tuple[Input, ...]
    formula: str
    """The name of the rule: ``surface speed of a wheel``, ``Faraday's law``."""
    source: str
    """The published source of the rule, or `common practice`."""
    caution: str = ""
    """What must be said with it: who decides, what it does not know."""
    step: Step | None = None
    """The step at which it is needed; None where it belongs to the whole page."""
    drawing: str = ""
    """A small inline SVG that says it better, where there is one; its words are in the sentence."""


@dataclass(frozen=True, slots=True)
class Missing:
    """A figure that could not be reckoned, and the line that would allow it."""

    kind: str
    id: str
    sentence: str
    """What could be told: ``How many pieces to start so that 260 come out.``"""
    write: str
    """The line to write, with figures of the shop's own in place of these: ``yield: {scrap: 4 %}``."""
    at: At
    """The thing or step to write it in."""
    step: Step | None = None


@dataclass(frozen=True, slots=True)
class Fault:
    """A figure of the notebook that nothing in the shop can have (``craft.errors.Impossible``)."""

    at: At
    """The line that wrote it."""
    message: str
    """What is wrong with it: ``share lost (share) must be 0 or more and less than 1, not 1.2``."""
