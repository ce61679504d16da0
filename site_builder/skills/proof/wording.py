"""Every proof in a sentence for a craftsman: first what it means, then the number.

Plain text. Shares are rounded so that nothing becomes sure by rounding: 99.97 % is never told as 100 %.
"""

from __future__ import annotations

from math import ceil, floor, log10
from numbers import Real

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import finite, not_negative, one_of, whole
from site_builder.formulas.guards import share as checked_share
from site_builder.skills.proof.agreement import Agreed, Kappa, ManyKappa, strength
from site_builder.skills.proof.capability import Capability
from site_builder.skills.proof.comparison import SharesCompared
from site_builder.skills.proof.control_limits import Limits
from site_builder.skills.proof.curve_fit import Fitted
from site_builder.skills.proof.demands import counted
from site_builder.skills.proof.gauge_study import GaugeStudy
from site_builder.skills.proof.leaning import Leaning
from site_builder.skills.proof.pieces import wilson
from site_builder.skills.proof.sequential import Standing
from site_builder.skills.proof.standard_time import AllowanceOf, Standard
from site_builder.skills.proof.steadiness import Steadiness
from site_builder.skills.proof.success_run import Due
from site_builder.skills.proof.until_able import FURTHER
from site_builder.skills.proof.values_compared import Moved

ASKED = 0.945
"""Limits that are meant to hold in 95 of 100 and hold more seldom, say so."""
RARE, SELDOM = 0.01, 0.05
"""Luck that is no explanation, and luck that is a poor one (common practice)."""


def percent(share: float) -> str:
    """A share in per cent, whole ones as a rule; neither 0 % nor 100 % unless it is exactly that."""
    value = 100 * checked_share("share", share)
    if value in (0, 100):
        return f"{value:.0f} %"
    if value < 0.1:
        return "under 0.1 %"
    if value > 99.9:
        return "over 99.9 %"
    if value < 1:
        return f"{value:.1f} %"
    if value > 99:
        return f"{floor(value * 10 + 1e-9) / 10:.1f} %"
    return f"{value:.0f} %"


def odds(luck: float) -> str:
    """How often something comes by luck: "once in 30 times", "less than once in 1000 times"."""
    if checked_share("luck", luck) < 0.001:
        return "less than once in 1000 times"
    if luck < 0.095:
        return f"once in {_two_digits(1 / luck)} times"
    tenths = round(luck * 10)
    return "nearly always" if tenths >= 10 else f"{_word(tenths)} time{'s' * (tenths > 1)} in ten"


def verdict_on_luck(luck: float) -> str:
    """What may be concluded from how often luck alone would do it."""
    if checked_share("luck", luck) < RARE:
        return "chance alone does not do that"
    if luck < SELDOM:
        return f"chance alone would seldom do that ({odds(luck)})"
    return f"chance alone could well have done that ({odds(luck)})"


def figure(value: float, digits: int = 3) -> str:
    """A number in a few digits that count, without an exponent."""
    whole("digits", digits, 1, 15)
    if finite("figure", "", value) == 0:
        return "0"
    places = max(0, digits - 1 - floor(log10(abs(value))))
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def tell_share(good: int, made: int, confidence: float = 0.95) -> str:
    """Share of good pieces, with Wilson limits."""
    counted("good pieces", good, whole("pieces made", made), "pieces made")
    if made == 0:
        return "No pieces yet, so nothing is known."
    limits = wilson(good, made, confidence)
    all_of_them = "All were good" if good == made else "None was good" if good == 0 else f"{good} were good"
    return (
        f"{all_of_them} of {made}. In the long run somewhere from {percent(limits.low)} to {percent(limits.high)} "
        f"would be ({percent(confidence)} sure)."
    )


def tell_due(due: Due) -> str:
    """What a run of pieces has proved and what is missing."""
    wanted = f"{percent(due.share)} good with {percent(due.confidence)} confidence"
    had = f"{_count(due.made, 'piece')} so far, {_none(due.faults)} with a fault"
    prior = " (reckoned with a uniform prior, n + 1)" if due.formula == "uniform prior" else ""
    if due.proved:
        return f"Proved: {wanted}. {had}; they show {percent(_down(due.shown))} at least{prior}."
    shown = f"; so far at least {percent(_down(due.shown))} is shown" if due.made else ""
    return f"{_count(due.more, 'more piece')} without a fault prove {wanted}. {had}{shown}{prior}."


def tell_test(standing: Standing) -> str:
    """Where the test that ends early stands."""
    plan = standing.plan
    asked = f"{percent(1 - plan.ready)} good against {percent(1 - plan.unready)}"
    seen = f"{_count(standing.pieces, 'piece')}, {_none(standing.faults)} with a fault"
    if standing.verdict == "ready":
        return f"Clearly good enough since piece {standing.at}: {seen} ({asked})."
    if standing.verdict == "not ready":
        return f"Clearly not ready yet, seen at piece {standing.at}: {seen} ({asked}). More practice, then a new test."
    return f"Not to be told yet: {seen}. Go on ({asked}; without a fault {plan.shortest_pass} pieces would do)."


def tell_steadiness(steadiness: Steadiness) -> str:
    """Since when the hand is steady."""
    if not steadiness.turns:
        return "The hand has not become steady yet."
    last = steadiness.turns[-1]
    if last.to == "unsteady":
        told = "The hand was steady and has lost it"
    else:
        told = f"The hand is steady{' again' if len(steadiness.turns) > 1 else ''}"
    return f"{told}, most likely from piece {last.since} on (seen at piece {last.seen})."


def tell_agreement(
    agreed: Agreed, kappa: Kappa | None, leaning: Leaning | None = None, *, ordered: bool = False,
) -> str:
    """How master and apprentice judge the same pieces: words, the pieces, and then kappa.

    ``ordered``: there were more than two grades, and kappa is weighted by how many apart they lie.
    """
    parts = [f"Master and apprentice judged {agreed.alike} of {_count(agreed.pieces, 'piece')} alike."]
    if leaning is not None:
        parts.append(_tell_leaning(leaning, ordered))
    if kappa is None:
        parts.append("As all pieces got one and the same grade, it cannot be told from luck: mix in some bad ones.")
    else:
        word = strength(kappa.value)
        parts.append(
            f"Beyond luck that is {_article(word)} {word} agreement: kappa {kappa.value:.2f}"
            f"{', weighted by how many grades apart they judged' if ordered else ''}, "
            f"between {kappa.limits.low:.2f} and {kappa.limits.high:.2f} ({percent(kappa.confidence)} sure)."
        )
    return " ".join(parts)


def tell_many(kappa: ManyKappa | None, graders: int) -> str:
    """How several graders judge the same pieces."""
    whole("graders", graders, 2)
    if kappa is None:
        return f"All {graders} gave every piece the same grade, so it cannot be told from luck: mix in some bad ones."
    word = strength(max(-1.0, kappa.value))
    return f"The {graders} hands judge alike to {_article(word)} {word} degree (Fleiss' kappa {kappa.value:.2f})."


def tell_curve(fitted: Fitted, target: float | None = None, unit: str = "") -> str:
    """How fast the time falls, and when it reaches the standard time."""
    form = "each piece" if fitted.form == "unit" else "the average of all so far"
    low, high = percent_of_rate(fitted.rate_limits.low), percent_of_rate(fitted.rate_limits.high)
    if fitted.learns:
        told = (
            f"With every doubling of pieces {form} takes {percent_of_rate(fitted.rate)} of the time ({low} to {high})."
        )
    else:
        told = f"That the work gets faster cannot be told yet ({low} to {high} of the time with every doubling)."
    if target is None:
        return told
    wanted = f"The standard time of {figure(target)}{' ' * bool(unit)}{unit}"
    reach = fitted.reaches(target)
    if reach.piece is None:
        return f"{told} {wanted} is out of reach at this pace."
    if reach.piece <= fitted.made:
        return f"{told} {wanted} was reached at about piece {ceil(reach.piece)}."
    if reach.piece > FURTHER * fitted.made:
        return f"{told} {wanted} is not in sight yet: at this pace not before piece {ceil(reach.earliest or 1)}."
    span = f"not before piece {ceil(reach.earliest or 1)}"
    span += f", by piece {ceil(reach.latest)} at the latest" if reach.latest else ", and it may never be"
    at = ceil(reach.piece)
    return f"{told} {wanted} is likely reached at piece {at}, {at - fitted.made} more ({span})."


def percent_of_rate(rate: float) -> str:
    """A learning rate in whole per cent; it may be more than 100."""
    if not isinstance(rate, Real) or not rate >= 0:
        raise Impossible("learning rate", "share", rate, "must be 0 or more")
    return f"{100 * rate:.0f} %" if rate < 10 else "any number of times"


def tell_standard(standard: Standard, allowance: float, of: AllowanceOf, unit: str) -> str:
    """The standard time, what it is made of, and whether it was timed often enough."""
    one_of("what the allowance is a share of", of, ("job time", "work day"))
    enough = standard.enough
    more = f"; time it {_count(enough.more, 'more time')} to be sure of it" if enough.more else ", timed often enough"
    return (
        f"A piece takes {figure(standard.standard)} {unit}{more}. Observed {figure(standard.observed)} {unit}, "
        f"at the usual pace {figure(standard.normal)} {unit}, with an allowance of {percent(allowance)} of the {of}."
    )


def tell_limits(limits: Limits, unit: str) -> str:
    """Whether measurements are steady, and where."""
    places = _places(limits.upper - limits.lower)
    span = f"{_rounded(limits.lower, places)} to {_rounded(limits.upper, places)} {unit}"
    if limits.steady:
        return f"Steady: every measurement lies where this way of working puts it, {span}."
    wild = sorted({*limits.outside, *limits.jumps})
    if not wild:
        return (
            f"It drifts: by measurement {limits.drifted[0]} a long run lay on one side of "
            f"{_rounded(limits.mean, places)} {unit}. Steady work would lie on both, within {span}."
        )
    named = ", ".join(map(str, wild[:5])) + (" and others" if len(wild) > 5 else "")
    return f"Something changed: look at measurement {named}. Steady work would lie within {span}."


def tell_capability(found: Capability) -> str:
    """Whether steady work fits the tolerance."""
    sure = found.ppk_limits.low
    if sure >= 1:
        told = "The work fits the tolerance with room to spare"
    elif found.ppk >= 1:
        told = f"The work fits the tolerance, but {found.measured} measurements are too few to be sure of it"
    elif found.pp is not None and found.pp >= 1:
        told = "The spread would fit the tolerance, but it does not lie in the middle: set it over"
    else:
        told = "The work spreads wider than the tolerance allows"
    out = f" {found.outside} of {found.measured} measurements were outside." if found.outside else ""
    limits = f"between {sure:.2f} and {found.ppk_limits.high:.2f} ({percent(found.confidence)} sure)"
    return f"{told}: Ppk {found.ppk:.2f}, {limits}.{out}"


def tell_gauge(study: GaugeStudy) -> str:
    """Whether a gauge is good enough."""
    told = {
        "good": "The gauge is good enough",
        "usable with care": "The gauge will do with care",
        "not good enough": "The gauge is not good enough",
    }[study.verdict]
    used, of = (
        (study.of_tolerance, "the tolerance")
        if study.of_tolerance is not None
        else (study.of_spread, "all the spread that is seen")
    )
    most = "people who read it differently" if study.between_people > study.repeating else "the reading itself"
    return f"{told}: it uses up {_wide(used)} of {of}, most of that through {most}."


def tell_failures(found: SharesCompared, failing: str = "failed") -> str:
    """What a change did to the share that fails; ``failing`` is the verb, "came back broken", empty after a heading."""
    had = _none(found.failed_before)
    before = f"Of {found.before}, {had} {failing} before" if failing else (
        f"{had[0].upper()}{had[1:]} of {found.before} before")
    since = f"{_none(found.failed_since)} of {found.since} since"
    low, high = sorted((abs(found.limits.low), abs(found.limits.high)))
    if found.luck.either < SELDOM and (found.limits.high < 0 or found.limits.low > 0):
        less = "fewer" if found.difference < 0 else "more"
        size = f" In the long run that is {_points(low)} to {_points(high)} in a hundred {less}."
    else:
        fewer, more = max(0.0, -found.limits.low), max(0.0, found.limits.high)
        size = f" It may be {_points(fewer)} in a hundred fewer, or {_points(more)} more."
    return f"{before} and {since}; {verdict_on_luck(found.luck.either)}.{size}"


def tell_values(found: Moved, what: str, unit: str) -> str:
    """What a change did to a measured value."""
    way = "more" if found.shift > 0 else "less"
    luck = verdict_on_luck(found.luck)
    if found.luck >= SELDOM:
        head = f"No change in {what} can be told: {luck}"
    else:
        head = f"Since the change {what} is about {figure(abs(found.shift))} {unit} {way}; {luck}"
    low, high = (f"{'+' if end > 0 else ''}{figure(end)}" for end in (found.limits.low, found.limits.high))
    few = f"; so few values are only {percent(found.covers)} sure of that" if found.covers < ASKED else ""
    return f"{head}. The change lies between {low} and {high} {unit} ({found.before} before, {found.since} since{few})."


def tell_batch(old: float, new: float, pieces: int) -> str:
    """What a change of the time for a piece, in minutes, costs or saves a batch."""
    whole("pieces", pieces)
    each = not_negative("new time for a piece", "min", new) - not_negative("old time for a piece", "min", old)
    if each == 0:
        return "The change costs no time."
    verb = "costs" if each > 0 else "saves"
    return f"The change {verb} {lasting(abs(each) * pieces)} on a batch of {pieces} ({lasting(abs(each))} a piece)."


def lasting(minutes: float) -> str:
    """A time in the units one would say it in: "17 s", "45 min", "2 h 10 min", "22 h"."""
    if not_negative("time", "min", minutes) < 1:
        return f"{figure(minutes * 60, 2)} s"
    if minutes < 90:
        return f"{figure(minutes)} min"
    hours, rest = divmod(round(minutes), 60)
    return f"{hours} h {rest} min" if rest and hours < 10 else f"{round(minutes / 60)} h"


def _tell_leaning(leaning: Leaning, ordered: bool) -> str:
    passed, thrown = len(leaning.passed), len(leaning.thrown)
    if not passed + thrown:
        return "No piece was judged otherwise."
    lists = []
    if passed:
        what = "graded better than the master did" if ordered else "let pass what the master would not"
        lists.append(f"{what}: {', '.join(leaning.passed)}")
    if thrown:
        what = "graded worse" if ordered else "threw away what the master would keep"
        lists.append(f"{what}: {', '.join(leaning.thrown)}")
    told = f"The apprentice {'; '.join(lists)}."
    if leaning.way == "both ways":
        return f"{told} That errs both ways alike."
    way = ("grades too well" if passed > thrown else "grades too hard") if ordered else leaning.way
    if leaning.luck < SELDOM:
        return f"{told} It is a habit: {way}."
    return f"{told} Rather {way}, but so few do not prove a habit."


def _places(width: float) -> int:
    """Decimals that tell a hundredth of a width at least."""
    return max(0, 2 - ceil(log10(width))) if width > 0 else 3


def _rounded(value: float, places: int) -> str:
    return f"{value:.{places}f}"


def _wide(share: float) -> str:
    return percent(share) if share <= 1 else f"{100 * share:.0f} %"


def _down(share: float) -> float:
    """What is proved is rounded towards less."""
    return floor(share * 100) / 100 if 0.01 <= share <= 0.99 else share


def _points(share: float) -> str:
    return figure(100 * share, 2)


def _two_digits(value: float) -> int:
    return round(value) if value < 100 else round(value / 10 ** floor(log10(value) - 1)) * 10 ** floor(log10(value) - 1)


def _word(number: int) -> str:
    return ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")[number]


def _article(word: str) -> str:
    return "an" if word[0] in "aeiou" else "a"


def _count(number: int, thing: str) -> str:
    return f"{number} {thing}{'s' * (number != 1)}"


def _none(number: int) -> str:
    return "none" if number == 0 else str(number)
