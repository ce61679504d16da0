"""For writers: the names that figures look for, from the table that the rule on units reads."""

from __future__ import annotations

from site_builder.checks.known_names import TOPICS, KnownName
from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.site import NAMES, TRUST, WRITERS, Page, Site
from site_builder.views.anchors import token
from site_builder.views.prose import Prose, Ref, linked, say

TITLE = "Names that figures look for"

Row = tuple[Prose, Prose, Prose]


def names_sheet(site: Site) -> Page:
    """A table for each part of the trade: what to write, where it stands, what is told from it."""
    context = PageContext(site, NAMES)
    lede = say("A name of your own is always understood by those who read it. These names are understood by the "
                  "book too: from them it reckons, and it says so when two of them cannot both be true.")
    topics = [
        (topic, f"names-{token(topic)}", [_row(context, known) for known in names]) for topic, names in TOPICS.items()
    ]
    html = pressed(
        "names.html.j2", context, title=TITLE, lede=lede, topics=topics, trust=context.to(TRUST),
        kicker=say("{}", linked("For writers", Ref("chapter", WRITERS))),
    )
    parts = tuple(Part(anchor, f"Names: {topic}", " ".join(known.name for known in TOPICS[topic]))
                  for topic, anchor, _ in topics)
    return Page(NAMES, TITLE, html, lede.plain, parts)


def _row(context: PageContext, known: KnownName) -> Row:
    gives = known.gives or "Nothing yet but that its unit is checked."
    return (say("`{}: {}`", known.name, known.example), context.words(known.where, glossary=False),
            context.words(gives, glossary=False))
