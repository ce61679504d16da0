"""What a person meant when YAML could not be read: the traps that craft texts fall into."""

from __future__ import annotations

import re

from site_builder.notebook.yaml_lines import never_closed, out_of_line

Place = tuple[int, int]

UNWRITTEN = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
"""What no text holds: the control characters that YAML 1.1 (5.1) refuses."""

_VALUE = re.compile(r"^(?P<lead>\s*(?:- )*(?:[^\s:#'\"\[\]{},][^:]*?:\s+)?)(?P<value>\S.*)?$")
_SECOND_COLON = re.compile(r"[{,][^,:{}\[\]'\"]+: [^,:{}\[\]'\"]+:(?= )")


def explain(lines: list[str], line: int, column: int) -> tuple[Place, str, str]:
    """Place (from 0), message and mend for a parse error at ``line`` and ``column`` (from 0).

    The parser often stops a line late; the line itself and then the lines above it
    are looked through for a known trap.
    """
    unwritten = UNWRITTEN.search(lines[line])
    if unwritten is not None:
        return (line, unwritten.start()), "A character stands here that no keyboard writes.", (
            "Delete it; was this a text file?"
        )
    open_quote = never_closed(lines, line)
    if open_quote is not None:
        return open_quote, "This quote is never closed.", "Close it, or leave quotes out; they are seldom needed."
    for number in _candidates(lines, line):
        told = _trap(lines[number]) or _no_key(lines[number])
        if told is not None:
            at, message, fix = told
            return (number, at), message, fix
    told_here = _bare_item(lines, line) or out_of_line(lines, line)
    if told_here is not None:
        return told_here
    if line > 0 and not lines[line].strip():
        line, column = _last_written(lines, line)
    return (line, min(column, len(lines[line]))), "This line cannot be read as `key: value`.", (
        "Check the indentation (two blanks), the colon with a blank after it, and quotes that are not closed."
    )


def _candidates(lines: list[str], line: int) -> list[int]:
    found: list[int] = []
    number = min(line, len(lines) - 1)
    while number >= 0 and len(found) < 3:
        if lines[number].strip() and lines[number].lstrip()[0] != "#":
            found.append(number)
        number -= 1
    return found


def _bare_item(lines: list[str], line: int) -> tuple[Place, str, str] | None:
    """A thing of a list written as a bare text, with keys beneath it that have nothing to hang on."""
    below = re.match(r"^( +)[^\s:#-][^:]*:(?: |$)", lines[line])
    above = [number for number in range(line - 1, -1, -1) if lines[number].strip()][:1]
    item = re.match(r"^( *- +)([^\s:#'\"\[\]{}][^:]*)$", lines[above[0]]) if above else None
    if below is None or item is None or len(below[1]) < len(item[1]):
        return None
    words = item[2].strip()
    return (above[0], len(item[1])), "Keys hang on this text, but a text can carry none.", (
        f"Put its key before it: `- do: {words}`, if it is a step."
    )


def _last_written(lines: list[str], line: int) -> Place:
    while line > 0 and not lines[line].strip():
        line -= 1
    return line, len(lines[line].rstrip())


def _trap(line: str) -> tuple[int, str, str] | None:
    match = _VALUE.match(line)
    if match is None or not match["value"]:
        return None
    at, value = len(match["lead"]), match["value"]
    if value.startswith("[["):
        return at, "A text cannot begin with `[`.", "Put a word before the link."
    if value.rstrip() == "?":
        return at, "A question mark cannot stand there.", "What is not known yet is asked for: write `ask`."
    if re.match(r">=?\s*\d", value):
        return at, "`>` opens a block of text here.", f"Write `{_in_words(value)}`."
    if re.match(r"%\s*\d", value):
        number = re.sub(r"^%\s*", "", value)
        return at, "A text cannot begin with `%`.", f"The number comes first: `{number} %`."
    if value[0] in "*&!%@`":
        return at, f"A text cannot begin with {_quoted(value[0])}.", "Begin with a word."
    if value[0] in "{[" and value.count(value[0]) > value.count("}" if value[0] == "{" else "]"):
        return at, f"This `{value[0]}` is never closed.", (
            "Close it on the same line; if a text was meant, begin it with a word."
        )
    quoted = re.match(r"""("[^"]*"|'[^']*')\s*[^\s#,}\]]""", value)
    if quoted:
        return at + quoted.end() - 1, "Text stands after a closed quote.", (
            "Begin with a word, or leave the quotes out."
        )
    if value[0] in "\"'" and value.count(value[0]) == 1:
        return at, "This quote is never closed.", "Close it, or leave quotes out; they are seldom needed."
    colon = re.search(r"\S(: )\S", value) if value[0] not in "\"'{[" else None
    if colon:
        return at + colon.start(1), "A colon inside a sentence ends the key.", (
            "Use a dash, or put the text on the next line after `do: >`."
        )
    if value[0] in "{[":
        return _between_brackets(at, value)
    return None


def _no_key(line: str) -> tuple[int, str, str] | None:
    """A key that its colon, or the blank behind the colon, was left out of; a dash without its blank."""
    if re.match(r"<{7}|={7}|>{7}", line):
        return 0, "Two versions of this file were put together, and the mark between them was left.", (
            "Keep the lines that hold, and delete the marks."
        )
    dash = re.match(r"^( *)-(?=[a-z])", line)
    if dash:
        return len(dash[1]), "A blank stands behind a dash.", f"Write `- {line[len(dash[0]):].strip()}`."
    key = re.match(r"^( *(?:- )*)([a-z][a-z-]*)(:(?=\S)| *[=;](?= )|(?= ))(?!.*:(?: |$)) *(.*)$", line)
    if key is None or not key[4] or key[4].startswith("//"):
        return None
    at = len(key[1])
    if key[3]:
        return at + len(key[2]), "A key ends with a colon and a blank.", f"Write `{key[2]}: {key[4].strip()}`."
    return at, "There is no colon in this line.", (
        f"If `{key[2]}` is a key, write `{key[2]}: {key[4].strip()}`; if the line goes on with the text above, put it "
        "further in."
    )


def _in_words(value: str) -> str:
    """``> 3 mm, < 5 mm`` as ``over 3 mm; under 5 mm``; ``>=`` as ``min``."""
    for sign, word in ((">=", "min"), ("<=", "max"), (">", "over"), ("<", "under")):
        value = re.sub(rf"{sign}\s*(?=[\d-])", f"{word} ", value)
    return re.sub(r"(?<!\s)\s*,\s*(?=(?:min|max|over|under) )", "; ", value)


def _between_brackets(at: int, value: str) -> tuple[int, str, str] | None:
    value = re.sub(r"\"[^\"]*\"|'[^']*'", lambda quoted: "_" * len(quoted[0]), value)  # between quotes all may stand
    link = value.find("[[", 1)
    if link > 0:
        return at + link, "A link cannot stand between braces.", "Give the text with the link a line of its own."
    colon = _SECOND_COLON.search(value)
    if colon:
        return at + colon.end() - 1, "A colon inside a sentence ends the key.", (
            "Use a dash, or give the text a line of its own after `>`."
        )
    if value[0] == "{" and re.search(r"\?\s*[,}]", value):
        return at + value.index("?"), "A question mark cannot stand there.", (
            "Doubt is a word: `perhaps 30 min`."
        )
    return None


def _quoted(sign: str) -> str:
    return "a backtick" if sign == "`" else f"`{sign}`"
