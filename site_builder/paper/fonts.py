"""The two typefaces of the papers, which letters they have, and what is said where one is lacking.

Source Serif and Source Sans under the SIL Open Font License 1.1, each from a package with its licence inside.
Fonts of the machine are never used: they would make another book on every machine.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path

from site_builder.paper.problem import CannotPrint

SERIF, SANS = "Source Serif Pro", "Source Sans Pro"
HOW_TO_GET = "pip install 'benchlore[print]'"
_PACKAGES = {"font_source_serif_pro": "SourceSerifPro", "font_source_sans_pro": "SourceSansPro"}
_STYLES = ("Regular", "It", "Semibold", "SemiboldIt", "Bold", "BoldIt")
_SIGNS = str.maketrans({"⌀": "Ø", "∅": "Ø", "μ": "µ", "\u2011": "-", "\u202f": "\u00a0", "\u2009": "\u00a0"})
"""Signs that the two typefaces have only by another number: of the diameter, of a millionth, hyphens, thin blanks."""
_ALWAYS = frozenset("\n\t\u00a0\u00ad\u200b\u2060")


def font_files(also: Path | None = None) -> tuple[Path, ...]:
    """The files of the typefaces, and those that the shop brings in the folder ``also``. Raises CannotPrint."""
    found: list[Path] = []
    for package, family in _PACKAGES.items():
        spec = find_spec(package)
        places = spec.submodule_search_locations if spec is not None else None
        files = [Path(place) / "files" / f"{family}-{style}.otf" for place in places or () for style in _STYLES]
        missing = [file for file in files if not file.is_file()]
        if not files or missing:
            what = missing[0].name if missing else f"the package {package.replace('_', '-')}"
            raise CannotPrint(f"The typeface of the papers is missing: {what} is not there. Install it: {HOW_TO_GET}")
        found += files
    if also is not None:
        own = sorted(file for file in also.rglob("*") if file.suffix.lower() in (".otf", ".ttf", ".ttc", ".otc"))
        if not own:
            raise CannotPrint(f"There is no font in {also}: no file that ends in .otf, .ttf, .ttc or .otc.")
        found += own
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Font:
    """What has to be known of a font file: its family and its letters."""

    family: str
    letters: frozenset[str]


@lru_cache(64)
def look_into(file: Path) -> tuple[Font, ...]:
    """The fonts in a file. Raises CannotPrint if it is none."""
    from fontTools.ttLib import TTCollection, TTFont, TTLibError

    opener = TTCollection if file.suffix.lower() in (".ttc", ".otc") else TTFont
    try:
        with file.open("rb") as stream, opener(stream, lazy=True) as opened:
            faces = opened.fonts if isinstance(opened, TTCollection) else [opened]
            return tuple(Font(str(face["name"].getBestFamilyName()), frozenset(map(chr, face.getBestCmap())))
                         for face in faces)
    except (TTLibError, OSError, KeyError, AssertionError) as problem:
        raise CannotPrint(f"{file} cannot be read as a font: {problem}. Take it out of the folder, or copy it "
                          "again.") from None


@dataclass
class Letters:
    """Which letters can be set. What cannot is set as its number in Unicode and remembered with its place."""

    families: tuple[str, ...]
    _known: frozenset[str]
    _lacking: re.Pattern[str]
    lacking: dict[str, str] = field(default_factory=dict)
    """Each letter that no font has, and where it stood first."""

    def set(self, text: str, where: str) -> str:
        """The text with nothing in it that cannot be set."""
        if text.isascii():
            return text
        told = text.translate(_SIGNS)
        return self._lacking.sub(lambda found: self._numbers(found[0], where), told)

    def _numbers(self, letters: str, where: str) -> str:
        for letter in letters:
            self.lacking.setdefault(letter, where)
        return f"[{' '.join(f'U+{ord(letter):04X}' for letter in letters)}]"


def letters_of(files: Iterable[Path]) -> Letters:
    """What a set of font files can write: all that both typefaces have in every style, and all that is brought."""
    ours: list[frozenset[str]] = []
    brought: dict[str, frozenset[str]] = {}
    for file in files:
        for font in look_into(file):
            if font.family in (SERIF, SANS):
                ours.append(font.letters)
            else:
                brought[font.family] = brought.get(font.family, frozenset()) | font.letters
    known = frozenset.intersection(*ours).union(*brought.values(), _ALWAYS)
    return Letters((SERIF, SANS, *brought), known, _pattern(known))


def _pattern(known: frozenset[str]) -> re.Pattern[str]:
    """Everything but the known letters, as spans: a class of single letters would be slow to match."""
    codes = sorted(map(ord, known))
    spans: list[list[int]] = []
    for code in codes:
        if spans and code == spans[-1][1] + 1:
            spans[-1][1] = code
        else:
            spans.append([code, code])
    return re.compile("[^" + "".join(f"\\U{first:08x}-\\U{last:08x}" for first, last in spans) + "]+")


def lacking_told(lacking: Mapping[str, str]) -> str:
    """What is said of letters that no font has; empty where there are none."""
    if not lacking:
        return ""
    letters = list(lacking)
    shown = " ".join(letters[:12]) + (f" and {len(letters) - 12} more" if len(letters) > 12 else "")
    places = list(dict.fromkeys(lacking.values()))
    where = "; ".join(places[:3]) + (f" and {len(places) - 3} more places" if len(places) > 3 else "")
    return (f"The typefaces of the papers do not have: {shown} (in: {where}). On paper their numbers in Unicode stand "
            "instead. Put a font that has them into a folder of its own and print again with --fonts FOLDER.")
