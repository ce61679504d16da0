"""What nobody can tell from the notebook: a figure or a word that is wrong and could be right."""

from tests.mistakes.hand import becomes
from tests.mistakes.kind import Kind


def _(what: str, files: str, find: str, put: str) -> Kind:
    return Kind(what, files, find, becomes(put), known=False)


KINDS = (
    _("a figure a little off", "procedure", r"each: about (\d) min", "7"),
    _("another name of the same length", "people", r"name: (\w+) ", "Rudi"),
    _("a reason that is not true", "procedure", r"because: (\w+)", "Nobody"),
    _("a maker who is another", "machine", r"^maker: (\w+)", "Brandolf"),
    _("the place where it lies", "machine gauge", r"^where: (\w+)", "Cellar"),
    _("a colder pour that still flows", "material", r"is: (1080)\.\.", "1085"),
    _("a size a tenth off", "shop", r"wall: (3.5) ±", "3.6"),
    _("good and bad changed in words", "procedure", r"good: (It)", "That"),
    _("a year of birth one off", "people", r"born: (1961)", "1962"),
    _("the wrong one of two signal words", "", r"word: (caution)", "warning"),
    _("a sense that is not the one used", "procedure", r"sense: (sound)", "touch"),
    _("the wrong tool that is there", "procedure", r"with: (micrometer)", "plug-gauge"),
    _("another day of the month", "machine", r"date: 2025-03-(01)", "02"),
    _("a name nobody looks for", "procedure", r"  (run-out|roughness of the bore):", "whatever"),
)
