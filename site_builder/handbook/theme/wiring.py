"""How MkDocs and Material are told of our face: called from the plugin's ``on_config`` and ``on_env``."""

from pathlib import Path

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError

from site_builder.handbook.theme.reading import plain, reading_rules

OVERRIDES = Path(__file__).parent / "overrides"

# Material puts a hash of the contents into the name, and another one with each release.
_STYLE = "assets/stylesheets/main.*.min.css"


def wire(config: MkDocsConfig) -> None:
    """Lay our templates over Material and shut every door to the network that Material leaves open.

    A shop's own ``custom_dir`` stays in front of ours. Raises PluginError if the theme is not Material.
    """
    if config.theme.name != "material":
        raise PluginError("The handbook is drawn over the theme `material`: set `theme: {name: material}`.")
    dirs = config.theme.dirs
    if str(OVERRIDES) not in dirs:
        dirs.insert(1 if config.theme.custom_dir else 0, str(OVERRIDES))
    config.theme["bl_style"] = _material_file(dirs, _STYLE)
    config.theme["font"] = False
    config.extra["generator"] = False


def equip(env: Environment) -> None:
    """Give the page skeleton the filters it uses."""
    env.filters["plain"] = plain
    env.filters["reading_rules"] = reading_rules
    env.trim_blocks = env.lstrip_blocks = True


def _material_file(dirs: list[str], pattern: str) -> str:
    for folder in dirs:
        for found in sorted(Path(folder).glob(pattern)):
            return found.relative_to(folder).as_posix()
    raise PluginError(f"The installed mkdocs-material has no `{pattern}`: the handbook needs 9.7 or later.")
