"""The element that shows or plays a published file."""

from __future__ import annotations

from html import escape

from site_builder.pictures.publish import Published

# The column of text is 29rem of 20 px; below 720 px the picture takes the width of the phone.
_SIZES = "(min-width: 720px) 580px, 100vw"


def media_html(published: Published, alt: str, base_url: str = "") -> str:
    """``<img>``, ``<audio>`` or ``<video>``; empty if there is nothing to show.

    ``alt`` says in words what is seen or heard; ``base_url`` leads from the page to the book's root
    (``..`` or ``../..``).
    """
    if not published.files:
        return ""
    base = f"{base_url.rstrip('/')}/" if base_url else ""
    addresses = [escape(base + file.name) for file in published.files]
    words = escape(alt)
    if published.kind == "sound":
        return f'<audio controls preload="metadata" src="{addresses[0]}" aria-label="{words}"></audio>'
    if published.kind == "film":
        return f'<video controls preload="metadata" src="{addresses[0]}" aria-label="{words}"></video>'
    size = f' width="{published.width}" height="{published.height}"' if published.width else ""
    rest = f'{size} alt="{words}" loading="lazy" decoding="async">'
    if len(addresses) == 1:
        return f'<img src="{addresses[0]}"{rest}'
    choices = ", ".join(
        f"{address} {file.width}w" for address, file in zip(addresses, published.files, strict=True)
    )
    return f'<img src="{addresses[-2]}" srcset="{choices}" sizes="{_SIZES}"{rest}'
