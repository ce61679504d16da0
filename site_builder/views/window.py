"""Windows and waits on a line of time: too early, in time, missed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from site_builder.notebook.model.limit import Limit, Table, Window
from site_builder.notebook.model.parsed_values import Several
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.tree import Text
from site_builder.views.blocks import Block, Gauge, GaugeSide
from site_builder.views.end import sign_words, what_then
from site_builder.views.limit import anchor_of, check_blocks, how_told
from site_builder.views.prose import NO_WORDS, Prose, capital, joined, listed, prose, say, toned
from site_builder.views.remedy import remedies
from site_builder.views.rest import in_line
from site_builder.views.rhythm import counted_from
from site_builder.views.scope import Scope
from site_builder.views.side import asked_end, ends_of, sides
from site_builder.views.standing import in_time, signs
from site_builder.views.table import table
from site_builder.views.value import ShownValue, limit_value


def windows(scope: Scope, group: Mapping[Text, Several[Window]], here: Step | None) -> list[Block]:
    """The time between two moments: too early, in time, missed."""
    return [block for name, found in group.items() for nth, window in enumerate(found)
            for block in _window(scope, str(name), window, here, anchor_of(scope, name, here, nth))]


def _window(scope: Scope, name: str, window: Window, here: Step | None, anchor: str) -> list[Block]:
    what = say("{}, {}", toned("lead", capital(scope.words(name))), _counted(scope, window, here))
    return _time_line(scope, what, window, here, anchor)


def _counted(scope: Scope, window: Window, here: Step | None) -> Prose:
    start = listed(counted_from(scope.moment(one)) for one in window.after) if window.after else \
        scope.untold("from when is not told yet", window.at)
    end = prose("the start of this step" if here is not None else "the end of this work")
    if window.before is not None:
        end = counted_from(scope.moment(window.before))
    return say("counted from {} to {}", start, end)


def waits(scope: Scope, found: Sequence[Limit], here: Step | None) -> list[Block]:
    """Standing time from the end of this to the start of the next."""
    this = "work" if here is None else "step"
    blocks: list[Block] = []
    for limit in found:
        lead = toned("lead", capital(f"{stands(scope, limit)} stand"))
        what = say("{}, from the end of this {} to the start of the next", lead, this)
        blocks += _time_line(scope, what, limit, here, "")
    return blocks


def stands(scope: Scope, limit: Limit) -> str:
    """``it may``, ``it must``, ``let it``: a time that is only a longest one is no wait."""
    found = [sides(scope, one.written, scope.place(one)) for _, one in limit.cells() if one.written is not None]
    least, most = any(one.low for one in found), any(one.high for one in found)
    return "let it" if least == most else "it must" if least else "it may"


def _time_line(scope: Scope, what: Prose, limit: Limit, here: Step | None, anchor: str) -> list[Block]:
    value = ShownValue(prose("by the table")) if isinstance(limit.is_, Table) else limit_value(scope, limit)
    opens, closes = sign_words(scope, limit.opens), sign_words(scope, limit.closes)
    by_sign = signs(scope, limit)
    if by_sign:
        value = ShownValue(joined((value.main, by_sign), "; "), value.other) if limit.is_ is not None else \
            ShownValue(by_sign)
    early = late = good = None
    if isinstance(limit.is_, Table):
        early = GaugeSide(prose("Earlier"), _early(scope, limit, here)) if limit.below else None
        late = GaugeSide(prose("Later"), _late(scope, limit, here)) if limit.above else None
        good = GaugeSide(prose("Inside the times of the table"), prose("In time."))
    elif limit.written is not None:
        words = sides(scope, limit.written, scope.place(limit), of_time=True)
        early = GaugeSide(words.low, _early(scope, limit, here)) if words.low else None
        late = GaugeSide(words.high, _late(scope, limit, here)) if words.high else None
        good = GaugeSide(words.good, prose("In time.")) if words.good else None
    if opens:
        early = GaugeSide(_either(early, say("before {}", opens)), _early(scope, limit, here))
    if closes:
        late = GaugeSide(_either(late, say("once {}", closes)), _closed(scope, limit, here))
    if by_sign and limit.is_ is None:
        good = GaugeSide(capital(in_time(scope, limit)), prose("In time."))
    how = (*how_told(scope, limit, here, value),
           *(then for end in limit.opens if (then := what_then(scope, end, here))),
           *(more for end in (*limit.opens, *limit.closes) if (more := in_line(scope, end))))
    line = Gauge(what=what, value=value.main, other=value.other, how=how, low=early,
                 good=good if early or late else None, high=late, anchor=anchor, reasons=scope.reasons(limit),
                 only=scope.only(limit), of_time=True, ends=ends_of(scope, limit.written, scope.place(limit)))
    shown = [table(scope, limit, here)] if isinstance(limit.is_, Table) else []
    return [line, *shown, *check_blocks(scope, limit)]


def _early(scope: Scope, limit: Limit, here: Step | None) -> Prose:
    return _led("Too early.", remedies(scope, limit.below, here))


def _either(figure: GaugeSide | None, sign: Prose) -> Prose:
    return say("{}, or {}", figure.words, sign) if figure is not None else capital(sign)


def _closed(scope: Scope, limit: Limit, here: Step | None) -> Prose:
    """What is done once the sign shows that it is too late."""
    then = joined([done for end in limit.closes if (done := what_then(scope, end, here))])
    if then and not limit.above:
        return _led("Missed.", then)
    return joined([_late(scope, limit, here), then]) if then else _late(scope, limit, here)


def _late(scope: Scope, limit: Limit, here: Step | None) -> Prose:
    if limit.above:
        return _led("Missed.", remedies(scope, limit.above, here))
    if limit.written is not None and asked_end(limit.written.value, "high"):
        return NO_WORDS
    return say("Missed. {}", capital(scope.untold("what then is not told yet", limit.at)))


def _led(lead: str, then: Prose) -> Prose:
    return then if then.plain.lower().startswith(("too ", "missed")) else joined((lead, then))
