"""Ways of writing a value that are customary elsewhere, each with what to write here."""

from __future__ import annotations

import re
from fractions import Fraction

from site_builder.quantity.errors import NotationError
from site_builder.quantity.mends import broken, spaced, spoken_unit

_SPOKEN_LEADS = {
    "approx": "about", "approx.": "about", "approximately": "about", "circa": "about", "ca": "about",
    "ca.": "about", "roughly": "about", "around": "about", "nearly": "about", "~": "about", "≈": "about",
    "maximum": "max", "max.": "max", "minimum": "min", "min.": "min", "at least": "min", "at most": "max",
    "up to": "max", "no more than": "max", "not more than": "max", "no less than": "min",
    "not less than": "min", "down to": "min", "not over": "max", "not under": "min", "less than": "under",
    "more than": "over", "below": "under", "above": "over", "target": "aim", "nominal": "aim",
}  # fmt: skip
_SPOKEN = re.compile(
    r"\s*("
    + "|".join(re.escape(lead) for lead in sorted(_SPOKEN_LEADS, key=len, reverse=True))
    + r")\s*(-?\d.*)",
    re.IGNORECASE | re.DOTALL,
)
_BETWEEN = re.compile(r"\s*between\s+(-?\d\S*(?:\s+\S+)?)\s+and\s+(-?\d.*)", re.IGNORECASE | re.DOTALL)
_INCH_MARKS = re.compile(r"""(\d)\s*(?:"|''|″|”|“)""")
_FOOT_MARKS = re.compile(r"""(\d)\s*(?:'|′|’)""")
_NUMBER = r"(?:\d+[- ]\d+/\d+|\d+/\d+|\d+\.\d+|\.\d+|\d+)"
_UNIT = r"(?:[^\W\d_][^\s\d±+,;-]*|°\s?[CF]|%)"
_EVEN = re.compile(
    rf"(?P<size>-?{_NUMBER})\s*(?P<unit>{_UNIT})?\s*(?:±|\+\s*/\s*-|\+-|-/\+)\s*(?P<off>{_NUMBER})\s*(?P<off_unit>{_UNIT})?"
)
_UNEVEN = re.compile(
    rf"(?P<size>-?{_NUMBER})\s*(?P<unit>{_UNIT})\s*\+\s*(?P<up>{_NUMBER})\s*(?P<up_unit>{_UNIT})?\s*[/,]?\s*"
    rf"-\s*(?P<down>{_NUMBER})\s*(?P<down_unit>{_UNIT})?"
)
_SCALE = re.compile(
    r"(?<=\d)\s*(?:(?:degrees?|degs?\.?)\s*(?:celsius|fahrenheit|centigrade|[CF]\b)|°?\s*(?:celsius|fahrenheit|centigrade))",
    re.IGNORECASE,
)
_COUNTED = {
    "a": "1", "an": "1", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7",
    "eight": "8", "nine": "9", "ten": "10", "eleven": "11", "twelve": "12", "twenty": "20", "half a": "1/2",
    "half an": "1/2", "a quarter of a": "1/4", "a quarter of an": "1/4", "a quarter": "1/4",
    "three quarters of a": "3/4", "one and a half": "1-1/2", "a dozen": "12",
}  # fmt: skip
_IN_WORDS = re.compile(rf"({'|'.join(sorted(_COUNTED, key=len, reverse=True))})\s+([^\W\d_]+)", re.IGNORECASE)
_NOT_KNOWN = re.compile(
    r"(?:unknown|not known|not sure|nobody knows|don'?t know|tbd|tbc|to be (?:told|decided|asked)|n\.?\s?/?\s?k\.?)\.?",
    re.IGNORECASE,
)


def known_slip(text: str, start: int = 0) -> NotationError | None:
    """A way of writing that is customary elsewhere, with ours; None when it is none we know.

    ``start`` is where the text stands in the text as given.
    """
    whole, end = spaced(text), start + len(text)
    if not whole:
        return None
    found = _slip(whole)
    return None if found is None else broken(found[0], start, end, found[1])


def _slip(whole: str) -> tuple[str, str] | None:
    """What is said and what to write instead, "" where we cannot know it."""
    if whole.endswith("?"):
        told = whole.rstrip("? ").removeprefix("perhaps ")
        if not told:
            return "What is not known yet is asked for: write `ask`.", "ask"
        fix = f"perhaps {told}"
        return f"Doubt is a word: write `{fix}`.", fix
    return _untold(whole) or _written(whole) or _of_a_figure(whole) or _shares(whole) or _leading(whole)


_RANGE_LIKE = re.compile(r"(?:up|down)\s+to\s+-?\d.*", re.IGNORECASE | re.DOTALL)
_SHARE_OF_FIGURE = re.compile(
    rf"(?P<share>{_NUMBER})(?P<percent>\s*%)?\s+of\s+(?P<figure>\d+(?:\.\d+)?)\s*(?P<unit>{_UNIT})"
)


def read_wrongly(plain: str) -> NotationError | None:
    """What the notation reads as something that was not meant: ``up to 80 °F``, as if something were called up."""
    return known_slip(plain) if _RANGE_LIKE.fullmatch(plain.strip()) else None


def _of_a_figure(whole: str) -> tuple[str, str] | None:
    """``4/7 of 6.5 gal``: a share is of something with a name; of a figure it is worked out."""
    found = _SHARE_OF_FIGURE.fullmatch(whole)
    if found is None:
        return None
    whole_part, _, part = found["share"].replace(" ", "-").rpartition("-")
    share = Fraction(part) + (int(whole_part) if whole_part else 0)
    worked = share * Fraction(found["figure"]) / (100 if found["percent"] else 1)
    fix = f"about {float(worked):.3g} {found['unit']}"
    share_of = f"{found['share']}{' %' if found['percent'] else ''} of oil"
    return f"Work it out: `{fix}`. Or write it as a share of what has a name, as `{share_of}`.", fix


def _untold(whole: str) -> tuple[str, str] | None:
    """``unknown``, ``ask Edda``, ``n/a``: words that say that there is no figure."""
    if re.match(r"ask\s+\w", whole):
        return "`ask` stands alone; whom to ask goes under `note`.", "ask"
    if _NOT_KNOWN.fullmatch(whole):
        return "What is not known yet is asked for: write `ask`.", "ask"
    if re.fullmatch(r"n\.?\s?/?\s?a\.?|not applicable", whole, re.IGNORECASE):
        return "What does not apply is left out. If there is something, and nobody knows it yet, write `ask`.", "ask"
    return None


def _written(whole: str) -> tuple[str, str] | None:
    """Signs and spellings of another custom."""
    if re.match(r"%\s*\d", whole):
        fix = f"{whole[1:].strip()} %"
        return f"The number comes first: write `{fix}`.", fix
    if re.match(r"[$€£]\s*\d|-?\d[\d.]*\s*[$€£]", whole):
        return "Money is no unit of the notebook.", ""
    plain = _inches_and_feet(whole)
    tolerance = _tolerance(plain)
    if tolerance is not None:
        return tolerance
    if plain != whole:
        return f"Write `{plain}`.", plain
    if re.match(r"(\+\s*/\s*-|\+-|-/\+)\s*\d", whole):
        fix = re.sub(r"^(\+\s*/\s*-|\+-|-/\+)\s*", "±", whole)
        return f"Write `{fix}`.", fix
    if _SCALE.search(whole):
        fix = _SCALE.sub(lambda found: " °F" if "f" in found[0].lower() else " °C", whole)
        return f"Write `{fix}`.", fix
    clock = re.fullmatch(r"(\d+)(?:\s*h|:(?=\d\d\s*h))(\d{1,2})\s*(?:min?|h|hrs?\.?|hours?)?", whole)
    if clock:
        fix = f"{clock[1]} h {int(clock[2])} min"
        return f"Write `{fix}`.", fix
    if re.search(r"\d\s*:\s*\d", whole) and whole[0].isdigit():
        return "For a mix write `composition` with parts; for a time `1 h 5 min`.", ""
    if re.fullmatch(r".*\d\s*(?:degrees?|degs?\.?)\s+angle", whole):
        fix = re.sub(r"\s*(?:degrees?|degs?\.?)\s+angle", " ° angle", whole)
        return f"Write `{fix}`.", fix
    if re.match(r"-?\.\d", whole):
        fix = whole.replace(".", "0.", 1)
        return f"Write the nought before the point: `{fix}`.", fix
    if re.match(r"[Øø⌀∅]\s*\d", whole):
        fix = whole[1:].strip()
        return f"That it is a diameter stands in the name: write `{fix}`.", fix
    if re.fullmatch(r".*\d\s?[^\W\d_]+\.", whole) or re.fullmatch(r".*\d\.", whole):
        fix = whole.rstrip(". ")
        return f"No full stop after a value: write `{fix}`.", fix
    sizes = re.fullmatch(rf"({_NUMBER})\s*({_UNIT})?\s*x\s*({_NUMBER})\s*({_UNIT})(\s*x\s.*)?", whole)
    if sizes and not sizes[2]:
        return (f"Each size has a name and a line of its own, as `length: {sizes[1]} {sizes[4]}` and "
                f"`width: {sizes[3]} {sizes[4]}`."), ""
    gauge = re.fullmatch(r"(\d+)\s*(?:ga|gauge|gage|swg|awg)\.?", whole, re.IGNORECASE)
    if gauge:
        return ("A gauge number means another thickness for each metal and country: write the thickness, as "
                f"`1.2 mm`, or the name, `gauge {gauge[1]}`."), f"gauge {gauge[1]}"
    return None


def _shares(whole: str) -> tuple[str, str] | None:
    """Numbers in words, shares and dozens."""
    told = _IN_WORDS.fullmatch(whole)
    unit = spoken_unit(told[2]) if told else ""
    if told and unit:
        fix = f"{_COUNTED[told[1].lower()]} {unit}"
        return f"Write figures: `{fix}`.", fix
    share = re.fullmatch(r"(\d+)\s*(?:out of|of|in)\s*(\d+)", whole)
    if share and 0 < int(share[1]) <= int(share[2]):
        fix = f"{float(Fraction(100 * int(share[1]), int(share[2]))):.3g} %"
        return f"A share is written `{fix}`.", fix
    dozen = re.fullmatch(r"(\d+)\s*(?:dozen|doz\.?)(?:\s+(\w+))?", whole)
    if dozen:
        fix = f"{int(dozen[1]) * 12} {dozen[2] or 'pieces'}"
        return f"Write `{fix}`.", fix
    times = re.fullmatch(rf"({_NUMBER}) times (\D.*)", whole)
    if times:
        fix = f"{times[1]} x {times[2]}"
        return f"Write `{fix}`.", fix
    apiece = re.fullmatch(r"(\d[^;,]*?\D)\s+(?:each|a piece|apiece|per pcs?\.?|/\s?pcs?\.?)", whole)
    if apiece:
        return f"Write `{apiece[1]} per piece`.", f"{apiece[1]} per piece"
    rate = re.match(rf"({_NUMBER})\s+per\b", whole)
    if rate:
        return f"{rate[1]} what? Write what is counted, as `{rate[1]} strokes per min`.", ""
    return None


def _leading(whole: str) -> tuple[str, str] | None:
    """The words that lead a limit, in another place or of another custom."""
    spoken = _SPOKEN.fullmatch(whole)
    if spoken:
        fix = f"{_SPOKEN_LEADS[spoken[1].lower()]} {spoken[2]}"
        return f"Write `{fix}`.", fix
    between = _BETWEEN.fullmatch(whole)
    if between:
        fix = f"{between[1]}..{between[2]}"
        return f"Write `{fix}`.", fix
    rough = re.fullmatch(r"(-?\d[^;,]*?)\s+(?:approx\.?|approximately|circa|ca\.?|roughly|or so|about)", whole)
    if rough:
        return f"The word comes first: write `about {rough[1]}`.", f"about {rough[1]}"
    after = re.fullmatch(r"(\S*\d.*?[^\d\s.])\s+(max|min)(?:imum|\.)?", whole)  # `20 min` is no floor
    if after:
        fix = f"{after[2]} {after[1]}"
        return f"The word comes first: write `{fix}`.", fix
    ending = re.fullmatch(r"(-?\d[^;,]*?)\s+(?:or|and)\s+(more|over|above|up|upwards|less|fewer|under|below)", whole)
    if ending:
        fix = f"{'min' if ending[2] in ('more', 'over', 'above', 'up', 'upwards') else 'max'} {ending[1]}"
        return f"Write `{fix}`.", fix
    return None


def _inches_and_feet(whole: str) -> str:
    """``2' 6"`` as ``2 ft 6 in``."""
    if not (_INCH_MARKS.search(whole) or _FOOT_MARKS.search(whole)):
        return whole
    plain = _FOOT_MARKS.sub(r"\1 ft ", _INCH_MARKS.sub(r"\1 in ", whole))
    return re.sub(r"\s+(?=[,;])", "", spaced(plain))


def _tolerance(whole: str) -> tuple[str, str] | None:
    """A tolerance with its unit in the wrong place, twice, or not written with ``±``."""
    even = _EVEN.fullmatch(whole)
    if even:
        unit, other = even["unit"] or even["off_unit"], even["off_unit"] or even["unit"]
        if unit is None:
            return None
        off = even["off"]
        if other == "%" and unit != "%":
            off, other = f"{float(_exact(even['size']) * _exact(off) / 100):.3g}", unit
        if unit != other:
            return "Write the size and how far off it may be in one unit.", ""
        fix = f"{_joined(even['size'])} ±{_joined(off)} {unit}"
        if fix == whole:  # it is the unit that is wrong
            known = spoken_unit(unit)
            fix = f"{_joined(even['size'])} ±{_joined(off)} {known}"
            return (f"`{unit}` is no unit we know. Write `{fix}`.", fix) if known and known != unit else (
                f"`{unit}` is no unit we know.", "")
        once = "The unit comes once, at the end: write" if even["unit"] else "Write"
        return f"{once} `{fix}`.", fix
    uneven = _UNEVEN.fullmatch(whole)
    if uneven is None or {uneven["unit"], uneven["up_unit"], uneven["down_unit"]} - {None, uneven["unit"]}:
        return None
    up, down = ("0" if _exact(uneven[side]) == 0 else sign + _joined(uneven[side])
                for side, sign in (("up", "+"), ("down", "-")))
    fix = f"{_joined(uneven['size'])} {up}/{down} {uneven['unit']}"
    return f"The unit comes once, at the end: write `{fix}`.", fix


def _joined(number: str) -> str:
    """``1 1/2`` as ``1-1/2``, ``.5`` as ``0.5``."""
    return ("0" + number) if number[0] == "." else number.replace(" ", "-")


def _exact(number: str) -> Fraction:
    whole, _, part = number.lstrip("-").replace(" ", "-").rpartition("-")
    return (int(whole) if whole else 0) + Fraction(part)
