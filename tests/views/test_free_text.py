"""What a writer may put into free text, and what a page makes of it."""

from __future__ import annotations

import time
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.handbook.prose_html import Media, html
from site_builder.notebook.finding import At
from site_builder.views.blocks import Shot
from site_builder.views.free_text import PageFinder, free_words, plain
from site_builder.views.prose import Ref

NBSP = "\u00a0"
TAGS = {"a", "em", "strong", "code"}
"""All that free text can become; the only attribute is ``href``, and only within the book."""
HOMES = {"foot": ("The foot", Ref("part", "foot")), "true-the-sole/try": ("Try it", Ref("procedure", "sole", "try"))}
HREFS = {Ref("part", "foot"): "../parts/foot.html", Ref("procedure", "sole", "try"): "sole.html#try"}


class Sheet:
    """A page that knows of one part, one step and the stories."""

    def address(self, to: Ref) -> str | None:
        return f"../{to.id}" if to.kind == "story" else HREFS.get(to)

    def question_href(self, at: At) -> str:
        raise AssertionError(at)

    def media(self, shot: Shot) -> Media:
        raise AssertionError(shot)

    def first_use(self, word: str) -> bool:
        raise AssertionError(word)


def resolve(target: str) -> tuple[str, Ref] | None:
    return HOMES.get(target)


def inline(text: str, page: PageFinder | None = None) -> str:
    """What a page makes of a text."""
    return str(html(free_words(text, resolve, page), Sheet()))


def stories(target: str) -> Ref | None:
    return Ref("story", target.replace(".md", ".html")) if target.startswith("stories/") else None


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("Keep it wet.", "Keep it wet."),
        ("Keep it *wet*, **never** dry.", "Keep it <em>wet</em>, <strong>never</strong> dry."),
        (
            "__Never__ _dry_, a_file_name, 3 * 4 * 5",
            "<strong>Never</strong> <em>dry</em>, a_file_name, 3 * 4 * 5",
        ),
        ("**It *may* rock**", "<strong>It <em>may</em> rock</strong>"),
        ("*one **two* three**", "<em>one **two</em> three**"),
        ("10*20*30 mm", f"10*20*30{NBSP}mm"),
        ("Set `G0 X-5..6`", "Set <code>G0 X-5..6</code>"),
        (r"\*not so\*", "*not so*"),
        ("two\n\nlines   here ", "two lines here"),
        ("a < b & c", "a &lt; b &amp; c"),
        ("<b onclick='x()'>bold</b>", "&lt;b onclick='x()'&gt;bold&lt;/b&gt;"),
        ("<script>alert(1)</script> *x*", "&lt;script&gt;alert(1)&lt;/script&gt; <em>x</em>"),
    ],
)
def test_emphasis_code_and_html(written: str, shown: str) -> None:
    assert inline(written) == shown


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("[[foot]] first", '<a href="../parts/foot.html">The foot</a> first'),
        ("the [[foot|sole *down*]]", 'the <a href="../parts/foot.html">sole <em>down</em></a>'),
        ("**[[true-the-sole/try]]**", '<strong><a href="sole.html#try">Try it</a></strong>'),
        ("the [[foot|foot]]'s rim", 'the <a href="../parts/foot.html">foot</a>’s rim'),
        ("[[frame]] and [[frame|the frame]]", "frame and the frame"),
        ("![a picture](x.png)", "![a picture](x.png)"),
    ],
)
def test_links_within_the_book(written: str, shown: str) -> None:
    assert inline(written) == shown


def test_pages_are_found_by_whoever_knows_them() -> None:
    assert inline("[then](stories/history.md)", stories) == '<a href="../stories/history.html">then</a>'
    assert inline("[then](other/lost.md)", stories) == "then"


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        (
            "[the sheet](https://maker.example/sds?a=1&b=-2)",
            "the sheet (https://maker.example/sds?a=1&amp;b=-2)",
        ),
        ("[https://maker.example](https://maker.example)", "https://maker.example"),
        ("[the maker](mailto:desk@maker.example)", "the maker (desk@maker.example)"),
        ("see https://maker.example/a_b_c", "see https://maker.example/a_b_c"),
        ("[x](javascript:alert(1))", "[x](javascript:alert(1))"),
        ("[x](JaVaScRiPt:alert)", "[x](JaVaScRiPt:alert)"),
        ("[x](data:text/html,hi)", "[x](data:text/html,hi)"),
        ("[x](//maker.example/a)", "[x](//maker.example/a)"),
        (r"[x](\\maker.example)", r"[x](\\maker.example)"),
        ("[x](javascript&colon;alert)", "<a"),
    ],
)
def test_the_book_links_to_nothing_outside(written: str, shown: str) -> None:
    if shown == "<a":
        # Escaped once more, the would-be scheme is a relative address or it is no link at all.
        assert "javascript:" not in inline(written)
    else:
        assert inline(written) == shown


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("18 m/s", f"18{NBSP}m/s"),
        ("80 dB(A) for 2 h", f"80{NBSP}dB(A) for 2{NBSP}h"),
        ("12 pieces", "12 pieces"),
        ("5 miles", "5 miles"),
        ("+0.3/-0.1 mm", f"+0.3/−0.1{NBSP}mm"),
        ("at -5 °C", f"at −5{NBSP}°C"),
        ("1-1/2 in", f"1-1/2{NBSP}in"),
        ("on 2024-02-11", "on 11 February 2024"),
        ("drawing 2024-02-11-b", "drawing 2024-02-11-b"),
        ("Burn - cool running water", "Burn – cool running water"),
        ("5 - 3 mm", f"5 - 3{NBSP}mm"),
        ("15..25 °C", f"15 to 25{NBSP}°C"),
        ("-5..-2 °C", f"−5 to −2{NBSP}°C"),
        ("12 mm..3 in", f"12{NBSP}mm to 3{NBSP}in"),
        ("P80..P120", "P80 to P120"),
        ("wait...5", "wait...5"),
        ("it's the belt's edge", "it’s the belt’s edge"),
        ("the pots' lids", "the pots’ lids"),
        ("a 'ping' is good", "a 'ping' is good"),
    ],
)
def test_numbers_and_signs_as_in_print(written: str, shown: str) -> None:
    assert inline(written) == shown
    assert plain(written) == shown


def test_plain_words_for_titles_and_search() -> None:
    assert plain("*Lay* the [[foot]] on [the plate](plate.html), `P80` & <b>", resolve) == (
        "Lay the The foot on the plate, P80 & <b>"
    )
    assert plain("the [[frame|old frame]]") == "the old frame"


class Elements(HTMLParser):
    """What a browser would find: elements, attributes, text; and whether the elements are well nested."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.names: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.text = ""
        self.nested = True
        self._open: list[str] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.names.append(tag)
        self.attributes += attrs
        self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        self.nested = self.nested and bool(self._open) and self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data

    def handle_comment(self, data: str) -> None:
        self.names.append(f"comment {data}")

    def handle_decl(self, decl: str) -> None:
        self.names.append(f"declaration {decl}")

    def handle_pi(self, data: str) -> None:
        self.names.append(f"instruction {data}")


PIECES = st.sampled_from(
    [
        "*",
        "**",
        "_",
        "__",
        "`",
        "[",
        "]",
        "(",
        ")",
        "[[",
        "]]",
        "|",
        "\\",
        "<",
        ">",
        "&",
        '"',
        "'",
        "foot",
        "<img src=x onerror=alert(1)>",
        "<script>",
        "<!--",
        "-->",
        "<a href=",
        "javascript:",
        "data:text/html,",
        "&#106;avascript:",
        "&lt;",
        "](",
        "[a](b.html)",
        "[[foot]]",
        "[[foot|",
        "\n",
        "\t",
        "\0",
        " ",
        "5 mm",
        "-5",
        "..",
        "\U000f0000",
        "\U000f0001",
        "\ufffd",
        "\u202e",
        "https://x.example/",
        "mailto:",
        "//",
        "é",
    ]
)
ANYTHING = st.one_of(st.text(), st.lists(st.one_of(PIECES, st.text(max_size=3)), max_size=30).map("".join))


@given(ANYTHING)
def test_whatever_is_written_only_the_allowed_comes_out(text: str) -> None:
    page = Elements(inline(text))

    assert set(page.names) <= TAGS
    assert page.nested
    for attribute, value in page.attributes:
        assert attribute == "href"
        assert value is not None and ":" not in value.partition("#")[0] and not value.startswith("/")


@given(ANYTHING, ANYTHING)
def test_whatever_a_thing_is_called_only_the_allowed_comes_out(text: str, title: str) -> None:
    page = Elements(html(free_words(text + "[[x]]", lambda _: (title, Ref("part", "foot"))), Sheet()))

    assert set(page.names) <= TAGS
    assert all(attribute == ("href", "../parts/foot.html") for attribute in page.attributes)


@given(ANYTHING)
def test_the_plain_words_are_the_words_of_the_page(text: str) -> None:
    assert Elements(inline(text)).text == plain(text, resolve)


@pytest.mark.parametrize(
    "knot", ["*a ", "[a](", "[[", "`a", "_a_*b**c ", "\\", " 5", "'", "5 mm ", "[a](b(c)"]
)
def test_no_text_is_so_knotted_that_it_stops_the_build(knot: str) -> None:
    start = time.process_time()
    inline(knot * 20_000)
    assert time.process_time() - start < 3
