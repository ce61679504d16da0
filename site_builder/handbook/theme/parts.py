"""The Jinja environment in which pages are made from the parts in ``components.j2``."""

import sys
from contextlib import suppress
from importlib.util import cache_from_source
from pathlib import Path

from jinja2 import Environment, FileSystemBytecodeCache, FileSystemLoader, StrictUndefined
from jinja2.bccache import Bucket

from site_builder.handbook.drawings.marks_beside import beside
from site_builder.handbook.prose_html import links, media, on_page, unlinked
from site_builder.views.anchors import token
from site_builder.views.prose import lowered

THEME = Path(__file__).parent


class _Compiled(FileSystemBytecodeCache):
    """Compiled templates, where Python keeps the compiled modules of this package and under the same trust.

    Compiling them anew is a fifth of what the pages of a small handbook cost. Where nothing can be written, they are.
    """

    def dump_bytecode(self, bucket: Bucket) -> None:
        with suppress(OSError):
            super().dump_bytecode(bucket)


def _compiled() -> _Compiled | None:
    folder = Path(cache_from_source(__file__)).parent
    if sys.dont_write_bytecode or not folder.is_dir():
        return None
    return _Compiled(str(folder), "template-%s.pyc")


def environment(*folders: Path) -> Environment:
    """An environment that escapes everything not marked safe, prints prose for the page that is being made, and
    stumbles over every missing name.

    ``folders`` hold the page makers' own templates; ``{% import "components.j2" as b %}`` works in all of
    them. Import without context: then Jinja keeps the macros and does not build them anew for each page.
    """
    env = Environment(
        loader=FileSystemLoader([*folders, THEME]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        bytecode_cache=_compiled(),
    )
    env.finalize = on_page
    env.globals["media"] = media
    env.filters["token"] = token
    env.filters["lower_first"] = lowered
    env.filters["beside"] = beside
    env.filters["unlinked"] = unlinked
    env.filters["links"] = links
    return env
