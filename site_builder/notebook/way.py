"""The way of each part through the shop: which work makes it, what it takes of hands, what gets lost."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from site_builder.formulas.hands_time import HandsShare, hands_time
from site_builder.formulas.yields import reach_the_end
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure, Work
from site_builder.notebook.model.small import Time
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.route import Route
from site_builder.quantity import Bounds, bounds, kind_of

NO_PART = ""
"""The way of work that belongs to no part."""

Ways = Mapping[str, tuple[str, ...]]
"""Of each part the procedures on its way through the shop, in order."""


def lane_of(nb: Notebook, procedure: Procedure) -> str:
    """The part on whose way a procedure lies: what it works on, or the whole where several are joined."""
    worked_on = nb.parts_of(procedure)
    made = [str(m) for m in procedure.makes if m in nb.parts]
    if made:
        return made[0]
    if len(worked_on) > 1:
        whole = next((id_ for id_, p in nb.parts.items() if all(w in p.of for w in worked_on)), None)
        if whole is not None:
            return whole
    return next((p for p in worked_on if p in nb.parts), NO_PART)


def ways(nb: Notebook, route: Route) -> Ways:
    """Of each part the procedures on its way, in order; shared procedures stand on no way.

    Parts come in the order of the shop's list, then the products, then `NO_PART`.
    """
    shared = set(route.shared(nb))
    found: dict[str, list[str]] = {part: [] for part in (*nb.parts, NO_PART)}
    for id_ in route.order:
        if id_ not in shared:
            found[lane_of(nb, nb.procedures[id_])].append(id_)
    return {part: tuple(ids) for part, ids in found.items() if ids}


def stands_after(procedure: Procedure) -> tuple[Limit, ...]:
    """How long the piece stands when the procedure is done: its own wait, or that of its last step."""
    if procedure.wait or not procedure.steps:
        return procedure.wait
    return procedure.steps[-1].wait


@dataclass(frozen=True, slots=True)
class PieceAccount:
    """What one part asks: seconds of hands a piece, and how many of 100 begun reach the end of its way.

    ``untimed`` and ``uncounted`` are the procedures that do not tell; the figures are of the others.
    """

    least: Fraction
    most: Fraction
    untimed: tuple[str, ...]
    of_hundred: Fraction
    uncounted: tuple[str, ...]


def account(nb: Notebook, way: Iterable[str]) -> PieceAccount:
    """Sum up a way. Where a time or a loss holds only for a variant, the span over the variants counts."""
    shares: list[HandsShare] = []
    scraps: list[Fraction] = []
    untimed: list[str] = []
    uncounted: list[str] = []
    for id_ in way:
        procedure = nb.procedures[id_]
        # work done outside is nobody's time here
        share = _share(procedure) if procedure.where is None else None
        untimed += [id_] if share is None and procedure.where is None else []
        shares += [] if share is None else [share]
        scrap = _scrap(procedure)
        uncounted += [id_] if scrap is None else []
        scraps += [] if scrap is None else [scrap]
    least, most = hands_time(shares)
    return PieceAccount(least, most, tuple(untimed), reach_the_end(Fraction(100), scraps), tuple(uncounted))


def with_parts(nb: Notebook, all_ways: Ways, part: str) -> tuple[Fraction, Fraction, bool]:
    """Seconds of hands in one whole with all its parts, least and most, and whether every procedure tells.

    A part that holds itself is counted once: that circle is an error of the notebook and told elsewhere.
    """
    return _with_parts(nb, all_ways, part, frozenset())


def _with_parts(
    nb: Notebook, all_ways: Ways, part: str, above: frozenset[str]
) -> tuple[Fraction, Fraction, bool]:
    own = account(nb, all_ways.get(part, ()))
    least, most, told = own.least, own.most, not own.untimed
    for one, count in nb.parts[part].of.items():
        if one in nb.parts and str(one) not in above and one != part:
            low, high, all_told = _with_parts(nb, all_ways, str(one), above | {part})
            number = span(count)
            if number is not None:
                least, most = least + low * number[0], most + high * number[1]
            told = told and all_told and number is not None
    return least, most, told


def _share(procedure: Procedure) -> HandsShare | None:
    """The work time of the whole, or else of its steps together; None where nothing is told for a piece."""
    whole = _of_work(procedure, procedure)
    if whole is not None or procedure.time:
        return whole
    parts = [share for step in procedure.steps if (share := _of_work(step, procedure)) is not None]
    if not parts:
        return None
    return HandsShare(*hands_time(parts))


def _of_work(work: Work, whole: Procedure) -> HandsShare | None:
    spans = [span for time in work.time if (span := _for_a_piece(time, work, whole)) is not None]
    if not spans:
        return None
    return HandsShare(min(s[0] for s in spans), max(s[1] for s in spans), _hands(work))


def _for_a_piece(time: Time, work: Work, whole: Procedure) -> tuple[Fraction, Fraction] | None:
    """Seconds for one piece: told for each, or told for a load of a known size."""
    each = span(time.each) if time.each is not None else None
    if each is not None:
        return each
    load = span(time.load) if time.load is not None else None
    size = _load_size(work) or _load_size(whole)
    if load is None or size is None:
        return None
    return hands_time([HandsShare(*load, pieces=size)])


def _load_size(work: Work) -> Fraction | None:
    sizes = [s for limit in work.load if limit.written is not None and (s := span(limit.written)) is not None]
    return sizes[0][1] if sizes and sizes[0][1] > 0 else None


def _hands(work: Work) -> int:
    counts = [s for hands in work.hands if hands.count is not None and (s := span(hands.count)) is not None]
    return max((int(count[1]) for count in counts), default=1) or 1


def _scrap(procedure: Procedure) -> Fraction | None:
    """The share lost, the worst of its variants; a step's own loss (warming up) is not that of the lot."""
    told = [y.scrap for y in procedure.yield_ if y.scrap is not None and kind_of(y.scrap.value) == "ratio"]
    found = [s[1] for scrap in told if (s := span(scrap)) is not None]
    return max(found) if found and 0 <= max(found) <= 1 else None


def span(leaf: Written) -> tuple[Fraction, Fraction] | None:
    """Least and most of a value in base units: where it aims, or else what it allows; None if it tells no figure."""
    found = bounds(leaf.value)
    return None if found is None else ends_of(found)


def ends_of(found: Bounds) -> tuple[Fraction, Fraction] | None:
    """Least and most of these figures: where they aim, or else what they allow; None where there is no figure."""
    low = found.aim_low if found.aim_low is not None else found.low
    high = found.aim_high if found.aim_high is not None else found.high
    if low is None:
        low = high
    if high is None:
        high = low
    return None if low is None or high is None else (low, high)
