"""The results as a table to read and as data for the handbook."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from tests.outside.registry import SEEN, Answer, Result, plain

JSON = Path(__file__).parents[2] / "site_builder" / "formulas" / "outside.json"
_COLUMNS = ("function", "source", "published", "ours", "difference")
_WIDEST = (44, 58, 26, 26, 12)
_MARKS = {"page": "", "package": "(worked out) ", "memory": "(memory) ", "practice": "(practice) "}


def as_table(results: Sequence[Result]) -> str:
    """One line a check, topic by topic: function, source, published value, ours, difference."""
    lines = []
    topic = None
    for result in results:
        check, entry = result.check, result.check.entry
        if check.topic is not topic:
            topic = check.topic
            lines += ["", f"{topic.title}", _line(_COLUMNS), _line(["-" * width for width in _WIDEST])]
        source = _MARKS[entry.seen] + entry.cited
        published = f"{'between ' if entry.between else ''}{shown(entry.published)} {entry.unit}".strip()
        apart = _difference(result)
        difference = "differs" if apart is None else f"{apart:+.3g}" if apart else "0"
        row = (check.function, source, published, shown(result.ours), difference)
        lines.append(_line(row) + ("" if result.agrees else "   DISAGREES"))
    agreed = sum(result.agrees for result in results)
    functions = len({result.check.function for result in results})
    lines += ["", f"{agreed} of {len(results)} checks of {functions} functions agree with what is published."]
    return "\n".join(lines[1:])


def shown(answer: Answer) -> str:
    """A value in a few digits."""
    answer = plain(answer)
    if isinstance(answer, bool):
        return "yes" if answer else "no"
    if isinstance(answer, float):
        return f"{answer:.6g}"
    if isinstance(answer, list):
        return ", ".join(shown(each) for each in answer) or "none"
    return str(answer)


def as_data(results: Sequence[Result]) -> dict[str, Any]:
    """What the handbook's page on trust is made from: numbers in six digits, so that machines agree on them."""
    return {
        "about": "Checks of the arithmetic against published values. Written by: make checks-from-outside",
        "seen": SEEN,
        "topics": {result.check.topic.name: result.check.topic.title for result in results},
        "functions": {result.check.function: result.check.meaning for result in results},
        "checks": [_check(result) for result in results],
    }


def as_json(results: Sequence[Result]) -> str:
    """The data as the file holds it: a line a check, so that a change shows where it is."""
    data = as_data(results)
    checks = ",\n".join(json.dumps(each, ensure_ascii=False) for each in data.pop("checks"))
    head = json.dumps(data, indent=1, ensure_ascii=False).removesuffix("\n}")
    return f'{head},\n "checks": [\n{checks}\n]\n}}\n'


def _check(result: Result) -> dict[str, Any]:
    check, entry = result.check, result.check.entry
    source = {
        key: entry.source[key] for key in ("title", "publisher", "year", "section", "url") if entry.source.get(key)
    }
    data = {
        "topic": check.topic.name,
        "function": check.function,
        "id": entry.id,
        "what": entry.what,
        "inputs": entry.inputs,
        "published": _rounded(entry.published),
        "disputed": entry.between is not None,
        "unit": entry.unit,
        "ours": _rounded(result.ours),
        "difference": _difference(result),
        "tolerance": entry.tolerance,
        "agrees": result.agrees,
        "source": source,
        "seen": entry.seen,
        "note": entry.note,
    }
    return data if entry.note else {key: value for key, value in data.items() if key != "note"}


def _rounded(answer: Answer) -> Answer:
    answer = plain(answer)
    if isinstance(answer, float):
        return float(f"{answer:.6g}")
    return [_rounded(each) for each in answer] if isinstance(answer, list) else answer


def _difference(result: Result) -> float | None:
    """Rounded to the digits the published value is told in, so that floating-point dust does not show."""
    if result.difference is None:
        return None
    entry = result.check.entry
    sizes = [abs(each) for each in plain([entry.published])[:1] if isinstance(each, float)] or [1.0]
    dust = 1e-6 * max(sizes[0], 1e-12)
    return 0.0 if abs(result.difference) < dust else float(f"{result.difference:.3g}")


def _line(row: Sequence[str]) -> str:
    cells = [text if len(text) <= width else text[: width - 1] + "…" for text, width in zip(row, _WIDEST, strict=True)]
    return "  ".join(cell.ljust(width) for cell, width in zip(cells, _WIDEST, strict=True)).rstrip()
