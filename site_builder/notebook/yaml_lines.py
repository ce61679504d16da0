"""What spoils a file over several lines: a quote never closed, a line that is out of line with its neighbours."""

from __future__ import annotations

import re

Place = tuple[int, int]

_KEY = re.compile(r"^ *(?:- +)*[A-Za-z][^\s:#'\"\[\]{},][^:#'\"\[\]{},]*:(?: |$)|^ *- |^ *$")
_QUOTE = re.compile(r"(?:^ *(?:- +)*+(?:[^\s:#'\"][^:#'\"]*: +)?|[{,\[] *+(?:[^:#'\",{}\[\]]+: +)?)(?P<quote>[\"'])")


def never_closed(lines: list[str], line: int) -> Place | None:
    """Where the first quote stands, down to ``line`` (from 0), that its own line does not close and the next not go on.

    A quoted text may run over several lines; it does not where the line below begins with a key or a dash.
    """
    for number, text in enumerate(lines[: line + 1]):
        if '"' not in text and "'" not in text:
            continue
        at = 0
        while found := _QUOTE.search(text, at):
            start, quote = found.start("quote"), found["quote"]
            end = _closed(text, start, quote)
            if end < 0:
                below = lines[number + 1] if number + 1 < len(lines) else ""
                if _KEY.match(below):
                    return number, start
                break
            at = end + 1
    return None


def _closed(text: str, start: int, quote: str) -> int:
    """Where the quote that opens at ``start`` is closed on its line, or -1."""
    end = start + 1
    while end < len(text):
        if text[end] == "\\" and quote == '"':
            end += 2
            continue
        if text[end] == quote:
            if quote == "'" and text[end + 1 : end + 2] == "'":  # two of them are one that is meant
                end += 2
                continue
            return end
        end += 1
    return -1


def out_of_line(lines: list[str], line: int) -> tuple[Place, str, str] | None:
    """A line that stands too far in or out, told at that line: the parser stops at it or at the one below."""
    written = [number for number in range(len(lines)) if lines[number].strip() and lines[number].lstrip()[0] != "#"]
    if line not in written:
        return None
    here = written.index(line)
    if here == 0:
        return None
    dashless = _without_dash(lines, written[: here + 1])
    if dashless is not None:
        return (dashless, _begins(lines[dashless])), "A dash is missing here; the things below begin with one.", (
            "Put a dash and a blank before it, in line with the dashes below."
        )
    above = written[here - 1]
    stands, wanted = _begins(lines[line]), _begins(lines[above])
    if stands == wanted or (_opens(lines[above]) and stands > wanted):
        return None
    below = written[here + 1] if here + 1 < len(written) else None
    before = written[here - 2] if here > 1 else None
    alike = [other for other in (before, below) if other is not None and _begins(lines[other]) == stands]
    if alike and len(lines[above]) - len(lines[above].lstrip()) != _dash_of(lines, written[:here], stands):
        return _told(above, lines, stands)
    return _told(line, lines, min(_levels(lines, written[:here]), key=lambda level: abs(level - stands)))


def _levels(lines: list[str], above: list[int]) -> list[int]:
    """The columns at which the next line may begin: those of the lines it could go on with, the innermost first."""
    levels: list[int] = []
    for number in reversed(above):
        begins = _begins(lines[number])
        if not levels or begins < levels[-1]:
            levels.append(begins)
        if begins == 0:
            break
    return levels


def _without_dash(lines: list[str], written: list[int]) -> int | None:
    """The first line of a list whose other things begin with a dash, as the last of these lines does."""
    last = lines[written[-1]]
    dash = len(last) - len(last.lstrip())
    if not last.lstrip().startswith("- ") or any(
        lines[number].lstrip().startswith("- ") and len(lines[number]) - len(lines[number].lstrip()) < dash
        for number in written[:-1]
    ):
        return None
    for number, above in zip(written[-2::-1], written[-3::-1], strict=False):
        if _begins(lines[number]) < _begins(last) or lines[number].lstrip().startswith("- "):
            return None
        if _opens(lines[above]) and _begins(lines[above]) < _begins(last) == _begins(lines[number]):
            return number
    return None


def _dash_of(lines: list[str], above: list[int], stands: int) -> int:
    """Where the dash of the nearest thing above stands whose keys begin at this column; -1 if there is none."""
    for number in reversed(above):
        text = lines[number]
        if text.lstrip().startswith("- ") and _begins(text) == stands:
            return len(text) - len(text.lstrip())
    return -1


def _told(number: int, lines: list[str], wanted: int) -> tuple[Place, str, str]:
    text = lines[number]
    blanks, dash = len(text) - len(text.lstrip()), text.lstrip().startswith("- ")
    off = _begins(text) - wanted
    way = "out" if off > 0 else "in"
    return (number, blanks), f"This line stands {abs(off)} {'blank' if abs(off) == 1 else 'blanks'} too far "\
        f"{'in' if off > 0 else 'out'} for its neighbours.", (
        f"Move it {abs(off)} {'blank' if abs(off) == 1 else 'blanks'} {way}"
        + (", with all that belongs to it." if dash else ", or end the line above with a colon if this belongs to it.")
    )


def _begins(text: str) -> int:
    """The column of the first letter behind blanks and dashes."""
    found = re.match(r"^ *(?:- +)*", text)
    return found.end() if found else 0


def _opens(text: str) -> bool:
    """Whether the line ends with a key that waits for what is under it."""
    return text.rstrip().endswith((":", ">", "|", ">-", "|-")) or text.rstrip() == "-"
