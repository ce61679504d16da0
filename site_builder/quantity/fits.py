"""ISO 286-1 limits and fits: deviations of a tolerance class on a nominal size, in micrometres.

Standard tolerances IT5 to IT14 and the fundamental deviations of holes D to H, JS, K to S and shafts
d to h, js, k to s, for nominal sizes from 1 to 500 mm (ISO 286-1:2010, tables 1 to 5, from memory; the tests
hold them against published values).
"""

from __future__ import annotations

from bisect import bisect_left
from fractions import Fraction

# Upper ends of the steps of nominal size in mm; a step holds its upper end, not its lower (over 3 up to 6).
_MAIN = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
_FINE = (
    3,
    6,
    10,
    14,
    18,
    24,
    30,
    40,
    50,
    65,
    80,
    100,
    120,
    140,
    160,
    180,
    200,
    225,
    250,
    280,
    315,
    355,
    400,
    450,
    500,
)
GRADES = range(5, 15)

# Standard tolerances, µm, by main step (ISO 286-1:2010 table 1).
_IT: dict[int, tuple[int, ...]] = {
    4: (3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20),
    5: (4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27),
    6: (6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40),
    7: (10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63),
    8: (14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97),
    9: (25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155),
    10: (40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250),
    11: (60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400),
    12: (100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520, 570, 630),
    13: (140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810, 890, 970),
    14: (250, 300, 360, 430, 520, 620, 740, 870, 1000, 1150, 1300, 1400, 1550),
}
# Upper deviations es of clearance shafts, µm, by main step (table 4).
_UPPER: dict[str, tuple[int, ...]] = {
    "d": (-20, -30, -40, -50, -65, -80, -100, -120, -145, -170, -190, -210, -230),
    "e": (-14, -20, -25, -32, -40, -50, -60, -72, -85, -100, -110, -125, -135),
    "f": (-6, -10, -13, -16, -20, -25, -30, -36, -43, -50, -56, -62, -68),
    "g": (-2, -4, -5, -6, -7, -9, -10, -12, -14, -15, -17, -18, -20),
    "h": (0,) * 13,
}
# Lower deviations ei of transition and interference shafts, µm, by main step (table 5).
# k holds for IT4 to IT7; outside these grades it is 0.
_LOWER: dict[str, tuple[int, ...]] = {
    "k": (0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5),
    "m": (2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23),
    "n": (4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40),
    "p": (6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68),
}
# r and s go by finer steps over 50 mm.
_LOWER_FINE: dict[str, tuple[int, ...]] = {
    "r": (
        10, 15, 19, 23, 23, 28, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80,
        84, 94, 98, 108, 114, 126, 132,
    ),
    "s": (
        14, 19, 23, 28, 28, 35, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122,
        130, 140, 158, 170, 190, 208, 232, 252,
    ),
}  # fmt: skip
SHAFTS = frozenset((*_UPPER, *_LOWER, *_LOWER_FINE, "js"))
HOLES = frozenset(letter.upper() for letter in SHAFTS)
_CLASS_LETTERS = HOLES | frozenset((
    "A", "B", "C", "J", "T", "U", "V", "X", "Y", "Z", "ZA", "ZB", "ZC", "CD", "EF", "FG",
))  # fmt: skip


def known_class(letters: str) -> bool:
    """Whether ISO 286 has a tolerance class with these letters, computed here or not."""
    return letters.upper() in _CLASS_LETTERS and (letters.isupper() or letters.islower())


def _step(size: Fraction, ends: tuple[int, ...]) -> int:
    if not 1 <= size <= 500:
        raise ValueError("Fits are worked out for sizes from 1 to 500 mm.")
    return bisect_left(ends, size)


def tolerance(size: Fraction, grade: int) -> int:
    """The width of a standard tolerance in µm for a size in mm. ``ValueError`` outside what is tabled."""
    if grade not in GRADES:
        raise ValueError("Fits are worked out for the grades 5 to 14.")
    return _IT[grade][_step(size, _MAIN)]


def deviations(size: Fraction, letters: str, grade: int) -> tuple[Fraction, Fraction]:
    """Lower and upper deviation in µm of a class on a size in mm: 25 H7 gives (0, 21).

    Raises ``ValueError`` for a class or size that is not tabled here.
    """
    width = Fraction(tolerance(size, grade))
    if letters in ("js", "JS"):
        # The grades 7 to 11 are rounded down to an even width where it is odd, so that both sides are whole.
        half = width / 2 if grade < 7 or grade > 11 else Fraction(int(width) // 2)
        return -half, half
    if letters in SHAFTS:
        return _shaft(size, letters, grade, width)
    if letters in HOLES:
        return _hole(size, letters, grade, width)
    raise ValueError(
        f"The class {letters}{grade} is not worked out here: holes {', '.join(sorted(HOLES))} and shafts "
        f"{', '.join(sorted(SHAFTS))} are. Write the limits instead, as in `25 +0.2/-0.05 mm`."
    )


def _shaft(size: Fraction, letter: str, grade: int, width: Fraction) -> tuple[Fraction, Fraction]:
    if letter in _UPPER:
        upper = Fraction(_UPPER[letter][_step(size, _MAIN)])
        return upper - width, upper
    lower = Fraction(_shaft_lower(size, letter, grade))
    return lower, lower + width


def _shaft_lower(size: Fraction, letter: str, grade: int) -> int:
    """The lower deviation ei of a transition or interference shaft, µm."""
    if letter in _LOWER_FINE:
        return _LOWER_FINE[letter][_step(size, _FINE)]
    if letter == "k" and grade > 7:
        return 0
    return _LOWER[letter][_step(size, _MAIN)]


def _hole(size: Fraction, letter: str, grade: int, width: Fraction) -> tuple[Fraction, Fraction]:
    if letter.lower() in _UPPER:
        lower = Fraction(-_UPPER[letter.lower()][_step(size, _MAIN)])
        return lower, lower + width
    upper = Fraction(_hole_upper(size, letter, grade))
    return upper - width, upper


def _hole_upper(size: Fraction, letter: str, grade: int) -> int:
    """The upper deviation ES of K to S: that of the shaft with the sign turned, plus Δ = IT(n) - IT(n-1).

    Δ holds over 3 mm for K, M, N up to IT8 and for P, R, S up to IT7 (ISO 286-1, table 3); it makes a hole of
    one grade fit like the shaft of the next finer grade. Coarser holes have no Δ, and N is 0 over 3 mm.
    """
    step = _step(size, _MAIN)
    turned = -_shaft_lower(size, letter.lower(), min(grade, 7))
    last = 8 if letter in "KMN" else 7
    if size <= 3:
        return turned
    if grade > last:
        if letter == "K":
            raise ValueError("The hole class K is tabled up to K8 over 3 mm.")
        return 0 if letter == "N" else turned
    if letter == "M" and grade == 6 and 250 < size <= 315:
        # The standard's one exception: M6 over 250 to 315 mm is -9 by table, -11 by rule.
        return -9
    return turned + _IT[grade][step] - _IT[grade - 1][step]
