"""Stories written with ill will: the browser asks for nothing outside, runs nothing, and shows it all as words."""

from __future__ import annotations

from pathlib import Path

import pytest
import sitecheck
from playwright.sync_api import BrowserContext

from site_builder.handbook.build import build_handbook

SETTINGS = """\
site_name: Small shop
docs_dir: procedures
theme: {name: material}
plugins: [search, offline, benchlore]
markdown_extensions: [attr_list, md_in_html, admonition, footnotes, def_list, abbr, tables]
strict: true
validation: {nav: {omitted_files: ignore}}
"""
GRIND = """\
procedure: grind
title: "**Grind** ![x](https://far.example/title.png) <img src=https://far.example/t.png onerror=told('title')>"
steps:
  - do: Sweep it along the belt.
"""
ILL = r"""---
title: "<img src=https://far.example/head.png onerror=told('head')>"
description: "\"><img src=https://far.example/about.png>"
template: https://far.example/page.html
---

# Old <img src="https://far.example/heading.png" onerror="told('heading')">

<script>told('script')</script>

<script src="https://far.example/far.js"></script>

Within a line <img src="https://far.example/line.png" onerror="told('line')"> and <b onclick="told('b')">bold</b>.

<div onmouseover="told('div')" style="background:url(https://far.example/style.png)" markdown="1">
![in a block](https://far.example/block.png)
</div>

<meta http-equiv="refresh" content="0; url=https://far.example/refresh.html">
<link rel="stylesheet" href="https://far.example/sheet.css">
<style>@import url(https://far.example/import.css);</style>
<iframe src="https://far.example/frame.html"></iframe>
<object data="https://far.example/object.svg"></object>
<video poster="https://far.example/poster.png" src="https://far.example/film.mp4" autoplay></video>
<svg xmlns="http://www.w3.org/2000/svg" onload="told('svg')"><image href="https://far.example/in.svg"/></svg>
<base href="https://far.example/">

<!-- a comment, <img src="https://far.example/comment.png"> -->

<!-- a comment that ends too early --> <img src="https://far.example/after.png"> -->

<!--> <img src="https://far.example/odd.png">

![outside](https://far.example/inline.png) ![without a scheme](//far.example/slashes.png)
![backslashes](\\\\far.example\\backslashes.png) ![by name][far] ![far] ![a script](javascript:told('image'))
![packed](data:image/svg+xml;base64,PHN2Zy8+) ![upper](HTTPS://far.example/upper.png)

[far]: https://far.example/defined.png
[run]: javascript:told('defined')
[^1]: A note ![of far](https://far.example/note.png).

A note[^1], a [script](javascript:told('link')), [another](java&#115;cript:told('entity')), [one by name][run],
[packed](data:text/html,<script>told('data')</script>), [a file](file:///etc/passwd), <javascript:told('auto')>,
[plainly outside](https://far.example/page.html), <https://far.example/auto.html> and <edda@far.example>.

![with attributes](grind.png){: src="https://far.example/attr.png" onerror="told('attr')" }

A paragraph of *some*{: style="background-image:url(https://far.example/para.png)" onclick="told('para')" } words.
{: class="mermaid md-overlay" data-md-component="announce" style="background:url(//far.example/a.png)" }

[a link](other.md){: href="javascript:told('href')" ping="https://far.example/ping" target="_blank" }

[[grind]] and [[grind|<img src=https://far.example/words.png onerror=told('words')> ![w](https://far.example/w.png)]]

| What | Where |
| --- | ---: |
| [[grind|the grinding]] | <img src="https://far.example/cell.png"> |

!!! note "<img src=https://far.example/note-title.png onerror=told('admonition')>"
    ![inside](https://far.example/admonition.png)

Term
: <img src="https://far.example/definition.png">

*[HTML]: "><img src=https://far.example/abbr.png>

HTML as `<img src="https://far.example/code.png">`.

```{ .html onload="told('fence')" }
<img src="https://far.example/fence.png">
```
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    shop = tmp_path_factory.mktemp("ill")
    (shop / "procedures" / "stories").mkdir(parents=True)
    (shop / "mkdocs.yml").write_text(SETTINGS, "utf-8")
    (shop / "procedures" / "grind.yml").write_text(GRIND, "utf-8")
    (shop / "procedures" / "stories" / "ill.md").write_text(ILL, "utf-8")
    (shop / "procedures" / "stories" / "other.md").write_text("# Another\n\nOf the [ill](ill.md) one.\n", "utf-8")
    build_handbook(shop / "mkdocs.yml", into=None, with_errors=True)
    return shop / "site"


@pytest.mark.parametrize("page", ["stories/ill.html", "stories/other.html", "the-work/grind.html", "index.html"])
def test_nothing_is_asked_for_outside_and_nothing_runs(page: str, site: Path, context: BrowserContext) -> None:
    context.add_init_script("window.heard = []; window.told = word => window.heard.push(word);")
    with sitecheck.opened(context, site / page) as (open_page, log):
        open_page.wait_for_load_state("load")
        for element in open_page.query_selector_all("article p, article a, article b, article div"):
            element.dispatch_event("mouseover")
        assert log.leaving() == []
        assert open_page.evaluate("window.heard") == []
        assert open_page.url.endswith(page)


def test_what_was_written_is_shown_as_words(site: Path, context: BrowserContext) -> None:
    with sitecheck.opened(context, site / "stories/ill.html") as (page, _):
        shown = page.inner_text("article")
        assert "<script>told('script')</script>" in shown
        assert "outside (https://far.example/inline.png)" in shown
        assert "plainly outside (https://far.example/page.html)" in shown
        assert 'HTML as <img src="https://far.example/code.png">.' in shown
        assert "a comment, <img" not in shown
        assert page.query_selector_all("article img, article script, article iframe, article [style*=url]") == []
        addresses = [link.get_attribute("href") for link in page.query_selector_all("article a[href]")]
        assert "../the-work/grind.html" in addresses
        assert [one for one in addresses if one and (":" in one.split("#")[0] or one.startswith("/"))] == []
        assert page.inner_text("article td a") == "the grinding"


def test_the_finder_shows_it_as_words_too(site: Path, context: BrowserContext) -> None:
    context.add_init_script("window.heard = []; window.told = word => window.heard.push(word);")
    with sitecheck.opened(context, site / "stories/ill.html") as (page, log):
        page.get_by_role("button", name="Find").click()
        page.keyboard.type("plainly")
        page.locator(".bl-finder li").first.wait_for()
        assert log.leaving() == []
        assert page.evaluate("window.heard") == []
