"""For thirty years: what an archive of the notebook holds, in which forms and why, and how it is kept."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.site import THIRTY_YEARS, WRITERS, Page, Site
from site_builder.notebook.archiving import What, answer
from site_builder.views.prose import Prose, Ref, linked, prose, say

_TITLE = "For thirty years"
# What archives say was looked up in 2026: the Recommended Formats Statement of the Library of Congress (summary of
# preferences; its older page on sound), the format registry of the Simon Fraser University Archives (2021), the NDSA
# levels, RFC 8493. Where a line says "from memory" it could not be looked up.
FORMS: tuple[tuple[str, str, str], ...] = (
    ("The notebook", "As it was written: plain text in UTF-8 (YAML, Markdown)",
     "A text editor is enough, and the bytes are those that were sealed. Plain text is an accepted form everywhere."),
    ("The book", "PDF/A-2a with PDF/UA-1",
     "Pages that look the same for ever, with their fonts inside, and that can be read aloud. The Library of Congress "
     "prefers PDF/UA and PDF/A among forms with pages."),
    ("The e-book", "EPUB 3.3",
     "Text that fits every screen. The Library of Congress puts EPUB 3 first among forms for text."),
    ("The handbook", "HTML with its stylesheet, from the folder",
     "The book with its search. Of these forms the one that depends most on a program, the browser; the others stand "
     "beside it for that reason."),
    ("The whole text", "Plain text, 78 letters a line; and one JSON file with its schema",
     "The first for people when nothing else opens, the second for programs that nobody has written yet."),
    ("Photos", "JPEG, PNG and TIFF as they came; WebP, GIF and BMP also as PNG",
     "Archives take JPEG, PNG and TIFF as they are. Turned into another form a JPEG would only lose; PNG loses "
     "nothing."),
    ("Drawings", "SVG as it was drawn",
     "An open standard in plain text; archives accept it and watch it. What it shows is told in words beside it."),
    ("Sound", "As it came",
     "Wave files with linear PCM are preferred. MP3, M4A and Ogg are kept as they were recorded: turned into Wave they "
     "would grow tenfold and gain nothing, and no tool for it is here."),
    ("Film", "As it came", "As with sound. What is seen and said should stand in words beside it."),
    ("The folder", "A BagIt bag (RFC 8493) with SHA-512",
     "Archives everywhere take bags. Its lists can be tried with `sha512sum`, which needs nothing of ours."),
)
CARE: tuple[tuple[str, str], ...] = (
    ("Three copies", "of the whole folder, on two kinds of disk, one of them in another house (NDSA levels 1 and 2)."),
    ("Once a year", "and after every copying: `benchlore keep --check DIR`, or `sha512sum -c manifest-sha512.txt` "
                    "(NDSA level 3)."),
    ("What is broken", "is mended from another copy, on a word of its own: "
                       "`benchlore keep --check DIR --from COPY --mend` (NDSA level 4)."),
    ("Every five years", "onto a new disk, before the old one fails. Common practice; no disk is made for thirty "
                         "years."),
    ("On paper", "the book, printed and bound. It needs no program, and what is printed cannot be changed on a disk."),
)


def thirty_years_pages(site: Site) -> Iterator[Page]:
    """One page."""
    context = PageContext(site, THIRTY_YEARS)
    html = pressed(
        "thirty_years.html.j2", context, kicker=say("{}", linked("For writers", Ref("chapter", WRITERS))), title=_TITLE,
        lede=say("`benchlore keep DIR` makes one folder to burn, copy or bury. It holds the notebook and all that is "
                 "made of it, in forms of which one at least should open when our children are old."),
        forms=[(what, form, say(why)) for what, form, why in FORMS],
        care=[(say("**{}**", when), say(what)) for when, what in CARE], said=[*_said(site)],
    )
    parts = (Part("forms", "Which forms, and why"), Part("care", "How it is kept"))
    yield Page(THIRTY_YEARS, _TITLE, html, "What an archive of this notebook holds, in which forms, and why.", parts)


def _said(site: Site) -> Iterator[Prose]:
    """What the shop lets in."""
    shop = site.notebook.shop
    both: tuple[tuple[What, str, str], ...] = (
        ("places", "Photos go in as they came, with the place where they were taken.",
         "Photos that tell where they were taken go in only as a copy without the place."),
        ("voices", "Recordings go in.", "Recordings in which people are heard who have not agreed stay out."),
    )
    for what, yes, no in both:
        told = answer(shop, what)
        if told is None:
            yield say("{} The shop has not said yet that they may: `{}` in `procedures/shop.yml` would say so.", no,
                      f"archive: {{{what}: yes}}")
        else:
            yield prose(yes if told == "yes" else no)
