"""Which files of the folder with the procedures go into the handbook as they are: those that it needs."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File

from site_builder.handbook.stories import is_readable
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.story_links import files_in, is_media, opens_anywhere
from site_builder.pictures.look import look_into

_OF_A_STYLE = (".css", ".woff", ".woff2", ".ttf", ".otf")


def stay_home(files: Iterable[File], notebook: Notebook, config: MkDocsConfig) -> list[File]:
    """The files that do not go out.

    Whatever a link leads to outside of the notebook, or in another folder; what is no ordinary file; a story that is no
    text; pictures and recordings as they came, of which only the quiet copies go out; and what neither a story links to
    nor the settings name: a letter, a copy kept by an editor. What belongs to a style of the shop's own, under
    ``assets/``, goes out if it tells nothing.
    """
    docs = Path(config.docs_dir)
    linked = {link.path for story in notebook.stories for link in files_in(story)}
    named = {str(one) for one in (*config.extra_css, *config.extra_javascript, config.theme.get("logo"),
                                  config.theme.get("favicon"), config.extra.get("mark")) if one}

    def stays(file: File) -> bool:
        written = Path(file.abs_src_path) if file.abs_src_path else None
        if written is None or not written.is_relative_to(docs):
            return False
        if not _is_here(written, docs):
            return True
        if file.is_documentation_page():
            return not is_readable(written)
        if is_media(file.src_uri) or look_into(written).kind != "unknown":
            facts = look_into(written)
            quiet = facts.problem is None and not facts.has_location and not facts.removed
            return not (quiet and (file.src_uri in named or file.src_uri.startswith("assets/")))
        if file.src_uri in named or (file.src_uri.startswith("assets/") and file.src_uri.endswith(_OF_A_STYLE)):
            return False
        return not (f"{docs.name}/{file.src_uri}" in linked and opens_anywhere(file.src_uri))

    return [file for file in files if stays(file)]


def _is_here(file: Path, docs: Path) -> bool:
    """Whether this is an ordinary file of the notebook, and no link on the way leads elsewhere."""
    try:
        real = file.resolve()
        return file.is_file() and real.is_relative_to(docs.resolve().parent) and (
            file.parent.resolve() == docs.resolve() / file.parent.relative_to(docs))
    except (OSError, RuntimeError):
        return False
