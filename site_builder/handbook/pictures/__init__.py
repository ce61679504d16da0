"""Pictures, drawings, sound and film, made ready for the handbook.

``publish`` takes a file as it came from the phone and leaves derivatives in a cache: photos upright, in
three sizes, without a word about where, when and with what they were taken; drawings without anything
that acts or reaches outside; recordings as they are, without the place. Originals are only ever read.

    source file -> publish -> photo | drawing | recording -> cache -> Published -> media_html
"""

from site_builder.handbook.pictures.markup import media_html
from site_builder.handbook.pictures.publish import Published, PublishedFile, publish, publish_all

__all__ = ["Published", "PublishedFile", "media_html", "publish", "publish_all"]
