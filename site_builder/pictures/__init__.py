"""Pictures, drawings, sound and film, made ready for the handbook.

``publish`` takes a file as it came from the phone and leaves derivatives in a cache: photos upright, in
three sizes, without a word about where, when and with what they were taken; drawings without anything
that acts or reaches outside; recordings without what they say of themselves. Originals are only ever read.

    source file -> publish -> photo | drawing | recording -> cache -> Published
"""

from site_builder.pictures.publish import Published, PublishedFile, publish, publish_all

__all__ = ["Published", "PublishedFile", "publish", "publish_all"]
