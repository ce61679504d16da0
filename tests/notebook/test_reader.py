"""What the reader makes of one file: every scalar as text, every place exact, every trap by its name."""

from __future__ import annotations

import pytest

from site_builder.notebook.finding import Finding
from site_builder.notebook.reader import MAX_DEPTH, MAX_TOLD, decode, read_text
from site_builder.notebook.tree import Map, Text

PATH = "procedures/foot/grind-foot.yml"


def only(text: str, *, stream: bool = False) -> Finding:
    """The one finding of a text."""
    findings = read_text(text, PATH, stream=stream).findings
    assert len(findings) == 1, findings
    return findings[0]


# ---------------------------------------------------------------- every scalar is text

@pytest.mark.parametrize("written", [
    "no", "on", "yes", "true", "null", "~", "007", "012", "0x1F", "1:30", "190:20:30", "1_000", "1e3", ".inf", "1.50",
    "2026-03-02", "=", "<<", "25 +0.2/-0.05 mm", "<= 3 mm", "12..30 °C", "−5 to 30 °C", "½ in",
])
def test_a_scalar_stays_as_it_was_written(written: str) -> None:
    reading = read_text(f"value: {written}\n", PATH)
    assert reading.findings == [] and reading.whole
    assert reading.trees == [{"value": written}]
    assert type(reading.trees[0]["value"]) is Text


def test_a_key_may_be_any_word() -> None:
    assert list(read_text("no: 1\n12..30 °C: 2\n007: 3\n", PATH).trees[0]) == ["no", "12..30 °C", "007"]


def test_an_empty_value_is_an_empty_text() -> None:
    reading = read_text("is:\nask: {by: , is: ''}\n", PATH)
    assert reading == ([{"is": "", "ask": {"by": "", "is": ""}}], [], True)


def test_long_text_is_folded_or_kept() -> None:
    reading = read_text("do: >\n  Note: keep\n  it wet.\nwrite: |\n  a\n  b\n", PATH)
    assert reading.trees == [{"do": "Note: keep it wet.\n", "write": "a\nb\n"}]


# ---------------------------------------------------------------- the traps of the format, section 2

TRAPS = {
    "keys under a bare step": (
        "steps:\n  - Leave it\n    until: dry", (2, 5), "yaml-broken",
        "Keys hang on this text, but a text can carry none.",
        "Put its key before it: `- do: Leave it`, if it is a step."),
    "a question mark for what nobody knows": (
        "is: ?", (1, 5), "yaml-broken", "A question mark cannot stand there.",
        "What is not known yet is asked for: write `ask`."),
    "two sides in signs": (
        "is: > 3 mm, < 5 mm", (1, 5), "yaml-broken", "`>` opens a block of text here.",
        "Write `over 3 mm; under 5 mm`."),
    "a colon in a sentence": (
        "do: Note: wear gloves", (1, 9), "yaml-broken", "A colon inside a sentence ends the key.",
        "Use a dash, or put the text on the next line after `do: >`."),
    "a link first": (
        "do: [[foot]] goes first", (1, 5), "yaml-broken", "A text cannot begin with `[`.",
        "Put a word before the link."),
    "a star first": (
        "do: *Never* lift it", (1, 5), "yaml-broken", "A text cannot begin with `*`.", "Begin with a word."),
    "a star before a word": (
        "do: *Never lift it", (1, 5), "anchor-used",
        "A text that begins with `*` repeats something named elsewhere.",
        "Begin with a word; for stress put the star later."),
    "an ampersand first": (
        "do: &now lift it", (1, 5), "anchor-used",
        "`&now` gives a name to be repeated; the notebook has no such thing.",
        "Write the value out. A text that begins with `&` or `!` needs a word in front."),
    "an exclamation mark first": (
        "do: !Stop at once", (1, 5), "anchor-used", "`!Stop` is a tag; the notebook has no such thing.",
        "Write the value out. A text that begins with `&` or `!` needs a word in front."),
    "an at sign first": (
        "do: @home", (1, 5), "yaml-broken", "A text cannot begin with `@`.", "Begin with a word."),
    "a backtick first": (
        "do: `x` it", (1, 5), "yaml-broken", "A text cannot begin with a backtick.", "Begin with a word."),
    "a brace first": (
        "do: {carefully", (1, 5), "yaml-broken", "This `{` is never closed.",
        "Close it on the same line; if a text was meant, begin it with a word."),
    "text after a quote": (
        'do: "Ping" means ready', (1, 12), "yaml-broken", "Text stands after a closed quote.",
        "Begin with a word, or leave the quotes out."),
    "a quote left open": (
        "do: 'Ping\nuntil: It rings.", (1, 5), "yaml-broken", "This quote is never closed.",
        "Close it, or leave quotes out; they are seldom needed."),
    "a number sign": (
        "what: belt #80", (1, 12), "text-cut", "Everything after ` #` is lost: `#80`.",
        "Write `P80` for a grit, `No. 10-24` for a thread; a comment has a blank after the `#`."),
    "more than": (
        "is: >= 3 mm", (1, 5), "yaml-broken", "`>` opens a block of text here.", "Write `min 3 mm`."),
    "a comma in braces": (
        "{is: aim 3 mm, min 2 mm}", (1, 16), "brace-comma",
        "A comma inside `{ }` ends the value, so `min 2 mm` stands here as a key.",
        "Write `aim 3 mm; min 2 mm`."),
    "a decimal comma in braces": (
        "{scrap: 1,5 %}", (1, 11), "brace-comma",
        "A comma inside `{ }` ends the value, so `5 %` stands here as a key.",
        "Write `1.5 %`."),
    "a quote that is never closed, lines above where it bites": (
        'title: "Cast the bell\nskill: casting\nbecause: It rings.', (1, 8), "yaml-broken",
        "This quote is never closed.",
        "Close it, or leave quotes out; they are seldom needed."),
    "a key without its colon": (
        "procedure: a\ntitle Cast the bell\nskill: casting", (2, 1), "yaml-broken", "There is no colon in this line.",
        "If `title` is a key, write `title: Cast the bell`; if the line goes on with the text above, put it further "
        "in."),
    "a key without the blank": (
        "procedure: a\ntitle:Cast the bell\nskill: casting", (2, 6), "yaml-broken",
        "A key ends with a colon and a blank.", "Write `title: Cast the bell`."),
    "a dash without its blank": (
        "steps:\n  -id: a\n   do: b", (2, 3), "yaml-broken", "A blank stands behind a dash.", "Write `- id: a`."),
    "a first step without its dash": (
        "steps:\n    id: a\n    do: b\n  - do: c", (2, 5), "yaml-broken",
        "A dash is missing here; the things below begin with one.",
        "Put a dash and a blank before it, in line with the dashes below."),
    "a key at the margin": (
        "steps:\n  - id: a\ndo: b\n    because: c\n    note: d", (3, 1), "yaml-broken",
        "This line stands 4 blanks too far out for its neighbours.",
        "Move it 4 blanks in, or end the line above with a colon if this belongs to it."),
    "a mark of a merge": (
        "procedure: a\n<<<<<<< ours\ntitle: b", (2, 1), "yaml-broken",
        "Two versions of this file were put together, and the mark between them was left.",
        "Keep the lines that hold, and delete the marks."),
    "a comma between words in braces": (
        "{good: smooth, bright}", (1, 16), "brace-comma",
        "A comma inside `{ }` ends the value, so `bright` stands here as a key.",
        "Use `;`, or give the value a line of its own."),
    "a comma that makes a known key": (
        "{good: smooth, bad}", (1, 16), "brace-comma",
        "A comma inside `{ }` ends the value, so `bad` stands here as a key.",
        "Use `;`, or give the value a line of its own."),
    "braces for a list": (
        "wear: {cap}", (1, 8), "brace-comma",
        "`cap` stands alone between braces; a name and its value belong there.",
        "Write `name: value`; a list stands between `[` and `]`."),
    "a link between braces": (
        "- {do: Lean on the [[rim]]., when: start}", (1, 20), "yaml-broken",
        "A link cannot stand between braces.", "Give the text with the link a line of its own."),
    "a colon between braces": (
        "- {do: Wait: it is hot., when: start}", (1, 12), "yaml-broken",
        "A colon inside a sentence ends the key.",
        "Use a dash, or give the text a line of its own after `>`."),
    "the per cent before its number": (
        "is: %50", (1, 5), "yaml-broken", "A text cannot begin with `%`.", "The number comes first: `50 %`."),
    "a tab": (
        "do:\n\tSweep it.", (2, 1), "tab-used", "A tab stands here.", "Use blanks: two for each step in."),
    "a key twice": (
        "do: a\nuntil: b\ndo: c", (3, 1), "key-twice", "`do` stands here already, on line 1.",
        "Put both under one key, or take one away."),
    "a list for a key": (
        "? [a, b]\n: c", (1, 3), "yaml-broken", "A text cannot begin with `[` or `{`.",
        "Begin with a word: put one before the link."),
    "a second document": (
        "title: a\n---\ntitle: b", (3, 1), "yaml-broken", "A second document begins after `---`.",
        "Give each thing a file of its own."),
    "a wrong indentation": (
        "steps:\n  - do: a\n until: b", (3, 2), "yaml-broken",
        "This line stands 1 blank too far in for its neighbours.",
        "Move it 1 blank out, or end the line above with a colon if this belongs to it."),
    "a character of no keyboard": (
        "do: ring\x07 it", (1, 9), "yaml-broken", "A character stands here that no keyboard writes.",
        "Delete it; was this a text file?"),
}


@pytest.mark.parametrize("trap", TRAPS.values(), ids=TRAPS)
def test_a_trap_is_told_once_by_its_own_name(trap: tuple[str, tuple[int, int], str, str, str]) -> None:
    text, (line, column), code, message, fix = trap
    found = only(text)
    assert (found.at.line, found.at.column, found.code) == (line, column, code)
    assert (found.message, found.fix) == (message, fix)


def test_the_same_trap_is_found_deep_in_a_list() -> None:
    found = only("steps:\n  - do: Sweep it.\n  - do: Then: wipe it.\n    until: dry\n")
    assert (found.at.line, found.at.column) == (3, 13)


def test_a_true_comment_loses_nothing() -> None:
    assert read_text("what: belt # the coarse one\ncolour: a#b\n", PATH).findings == []


def test_several_traps_are_told_together() -> None:
    text = "what: belt #80\ndo: &x lift\ndo: again\nlimits: {is: 3 mm, min 2 mm}\n"
    assert [(f.at.line, f.code) for f in read_text(text, PATH).findings] == [
        (1, "text-cut"), (2, "anchor-used"), (3, "key-twice"), (4, "brace-comma"),
    ]


def test_the_first_of_two_equal_keys_is_kept() -> None:
    assert read_text("a: 1\nb: {a: 2, a: {c: 3}}\na: [4]\n", PATH).trees == [{"a": "1", "b": {"a": "2"}}]


# ---------------------------------------------------------------- places

def places(text: str) -> dict[str, tuple[int, int]]:
    """Line and column of each scalar of a one-document text, by its first word."""
    found: dict[str, tuple[int, int]] = {}

    def walk(node: object) -> None:
        if isinstance(node, Text):
            found[node.split()[0] if node.split() else "(empty)"] = (node.line, node.column)
        elif isinstance(node, Map):
            for key, value in node.items():
                walk(key)
                walk(value)
        elif isinstance(node, list):
            for one in node:
                walk(one)

    walk(read_text(text, PATH).trees[0])
    return found


def test_every_kind_of_scalar_knows_its_place() -> None:
    text = """\
plain: eins
'quoted':   "zwei"
list:
  - drei
  -   key: vier
flow: [fünf, {µ: sechs, é:   sieben}]
folded: >
  acht
  neun
wrapped: zehn
  elf
empty:
"""
    assert places(text) == {
        "plain": (1, 1), "eins": (1, 8), "quoted": (2, 1), "zwei": (2, 13), "list": (3, 1), "drei": (4, 5),
        "key": (5, 7), "vier": (5, 12), "flow": (6, 1), "fünf": (6, 8), "µ": (6, 15), "sechs": (6, 18),
        "é": (6, 25), "sieben": (6, 30), "folded": (7, 1), "acht": (7, 9), "wrapped": (10, 1), "zehn": (10, 10),
        "empty": (12, 1), "(empty)": (12, 7),
    }


def test_a_letter_inside_a_text_is_pointed_at() -> None:
    tree = read_text("plain: a [[b]]\nquoted: 'a [[b]]'\nlong: >\n  a [[b]]\n", PATH).trees[0]
    assert tree["plain"].at_letter(2)[1:] == (1, 10)
    assert tree["quoted"].at_letter(2)[1:] == (2, 12)
    assert tree["long"].at_letter(2)[1:] == (3, 7), "of a text on several lines only the start is known"


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"], ids=["LF", "CRLF", "CR"])
def test_any_line_ending_gives_the_same_places(end: str) -> None:
    text = end.join(["title: Grind", "steps:", "  - do: &x Sweep", ""])
    reading = read_text(text, PATH)
    assert reading.findings[0].at[1:] == (3, 9)
    assert reading.trees == [{"title": "Grind", "steps": [{"do": "Sweep"}]}]


@pytest.mark.parametrize("hidden", ["\x85", "\u2028", "\u2029"], ids=["NEL", "LS", "PS"])
def test_a_hidden_line_end_is_a_blank_and_moves_no_line(hidden: str) -> None:
    reading = read_text(f"do: Sweep{hidden}it.\nuntil: &x flat\n", PATH)
    assert reading.trees[0]["do"] == "Sweep it."
    assert reading.findings[0].at[1:] == (2, 8)


def test_a_byte_order_mark_is_no_letter() -> None:
    text, found = decode(b"\xef\xbb\xbftitle: Grind\n", PATH)
    assert found == [] and read_text(text, PATH).trees == [{"title": "Grind"}]


@pytest.mark.parametrize(("data", "line", "column"), [
    (b"title: \xe4", 1, 8),
    ("title: Füße, ".encode() + b"\xe4", 1, 14),
    (b"\xef\xbb\xbftitle: \xe4", 1, 8),
    ("a: µ\r\nb: µ".encode() + b"\xff", 2, 5),
    (b"a: 1\rb: \xff", 2, 4),
    (b"a: 1\n\xff", 2, 1),
])
def test_a_letter_that_is_not_utf_8_is_told_with_its_place(data: bytes, line: int, column: int) -> None:
    _, (found,) = decode(data, PATH)
    assert (found.code, found.at.line, found.at.column) == ("encoding-wrong", line, column)


def test_utf_16_is_told_by_its_name() -> None:
    for name in ("utf-16-le", "utf-16-be"):
        mark = "\ufeff".encode(name)
        _, (found,) = decode(mark + "title: Grind".encode(name), PATH)
        assert found.message == "This file is UTF-16."


# ---------------------------------------------------------------- books

BOOK = """\
---
practice: 1
who: tilde
---
practice: 2
who: benno
"""


def test_a_book_is_a_row_of_documents() -> None:
    assert [tree["practice"] for tree in read_text(BOOK, PATH, stream=True).trees] == ["1", "2"]


@pytest.mark.parametrize("torn", [
    "practice: 3\nwh", 'practice: 3\nwho: "til', "practice: 3\nwho: \0\0\0\0", "practice: {3",
])
def test_a_torn_last_entry_takes_no_other_with_it(torn: str) -> None:
    reading = read_text(f"{BOOK}---\n{torn}", PATH, stream=True)
    assert [tree["practice"] for tree in reading.trees] == ["1", "2"]
    assert [f.code for f in reading.findings] == ["yaml-broken"] and not reading.whole
    assert reading.findings[0].at.line in (8, 9)


def test_faulty_entries_are_told_all_together_and_the_others_kept() -> None:
    book = "---\npractice: 1\n---\npractice: 2: 3\n---\npractice: 4 #4\n---\nnote: Ah: no\n---\npractice: 6\n"
    reading = read_text(book, PATH, stream=True)
    assert [tree["practice"] for tree in reading.trees] == ["1", "4", "6"]
    assert [(f.at.line, f.at.column, f.code) for f in reading.findings] == [
        (4, 12, "yaml-broken"), (6, 13, "text-cut"), (8, 9, "yaml-broken"),
    ]


# ---------------------------------------------------------------- too deep, too many

@pytest.mark.parametrize("text", [
    "note: " + "[" * 10_000,
    "note: " + "[" * 10_000 + "]" * 10_000,
    "note: " + "{a: " * 10_000,
    "note:\n" + "- " * 10_000 + "x",
    "".join(" " * level + "a:\n" for level in range(2_500)),
], ids=["flow lists left open", "flow lists", "flow mappings", "block lists", "block mappings"])
def test_ten_thousand_levels_are_told_in_one_sentence(text: str) -> None:
    reading = read_text(text, PATH)
    assert len(reading.findings) == 1 and not reading.whole
    assert reading.findings[0].code in ("too-deep", "yaml-broken")


def test_the_level_that_is_too_deep_is_pointed_at() -> None:
    levels = MAX_DEPTH - 1  # the mapping around them is one more
    assert read_text(f"a: {'[' * levels}x{']' * levels}", PATH).findings == []
    found = only(f"a: {'[' * (levels + 1)}x{']' * (levels + 1)}")
    assert (found.code, found.at.column) == ("too-deep", 4 + levels)


def test_aliases_are_never_unfolded() -> None:
    laughs = "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
        f"k{i}: &k{i} [{', '.join(['*k' + str(i - 1) if i else '*a'] * 9)}]\n" for i in range(10)
    )
    reading = read_text(laughs, PATH)
    assert {f.code for f in reading.findings} == {"anchor-used"} and len(reading.findings) == 11 + 90
    assert reading.trees[0]["k9"] == ["*k8"] * 9


def test_reading_stops_where_a_file_is_nothing_but_faults() -> None:
    reading = read_text("a: 1\n" * 100_000, PATH)
    assert len(reading.findings) == MAX_TOLD + 1 and not reading.whole
