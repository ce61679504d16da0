"""The face of the handbook: page skeleton, stylesheet, drawn parts, and how MkDocs is told of them.

``overrides/`` is laid over the Material theme and copied into every site; ``components.j2`` holds one
macro for each part of a page and never leaves the package. Nothing here knows what a shop wrote: the
macros take plain values, which are escaped, prose (``views.prose``), and finished HTML (``markupsafe.Markup``).
"""

from site_builder.handbook.theme.parts import environment
from site_builder.handbook.theme.reading import outline, reading_rules
from site_builder.handbook.theme.wiring import OVERRIDES, equip, wire

__all__ = ["OVERRIDES", "environment", "equip", "outline", "reading_rules", "wire"]
