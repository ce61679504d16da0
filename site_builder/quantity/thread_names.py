"""Names of threads that look like quantities and are none: ``1/4-20``, ``#10-24 UNC``, ``M8 x 1``."""

from __future__ import annotations

import re

_NUMBER = r"\d+(?:[.,]\d+)?"
METRIC_THREAD = re.compile(
    rf"(?i:M) ?(?P<diameter>{_NUMBER})(?: ?[xX×*-] ?(?P<pitch>{_NUMBER})(?: ?mm)?)?"
    r"(?:[ -]+(?P<fit>\d[a-zA-Z](?:[/ ]?\d[a-zA-Z])?))?(?:[ -]+LH)?"
)
"""Diameter, pitch and tolerance class as shops write them."""
INCH_THREAD = re.compile(
    r"(?:(?P<sign>#|no\.?|nr\.?)? ?(?P<number>\d{1,2})|(?P<part>\d/\d{1,2})|(?P<decimal>0?\.\d{2,4}))"
    r"(?: ?(?:inch|in\.?|\"|''|′′))?(?: ?[-–] ?(?P<count>\d{2})(?: ?tpi)?)?"
    r"(?:[ -]*(?P<series>UNR?C|UNR?F|UNEF|UNS|UN|NC|NF))?(?:[ -]+(?P<fit>[123][AB]))?(?:[ -]+LH)?",
    re.IGNORECASE,
)
"""Size, threads to the inch, series and class. Matches more than a name: see ``is_thread``."""

_BARE_THREAD = re.compile(r"(?:[4568]|10|12)-(?:24|28|32|36|40|44|48)")


def is_thread(text: str) -> bool:
    """Whether this is the name of a thread, and cannot be meant for a range or a product.

    ``8-32`` may be a range; ``#8-32``, ``8-32 UNC`` and ``1/4-20`` may not.
    """
    metric = METRIC_THREAD.fullmatch(text)
    if metric is not None:
        return metric["pitch"] is not None
    match = INCH_THREAD.fullmatch(text)
    if match is None:
        return False
    return bool(match["series"] or (match["count"] and (match["sign"] or match["part"])))


def may_be_thread(text: str) -> bool:
    """Whether a range with a hyphen may be meant for an inch thread of a numbered size, as ``8-32`` is."""
    return _BARE_THREAD.fullmatch(text) is not None
