"""One line of a thing under the pen: its form, what is read while one writes, and what becomes of it in the file."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass

from werkzeug.exceptions import NotFound
from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.amend import Plain, Refused, TreePath, look_up
from site_builder.bench.acting import Not, act
from site_builder.bench.drafting import Draft
from site_builder.bench.forms.daily import ADD, NAMES_OF_VALUES, children_of, head_of
from site_builder.bench.forms.fields import Field, Fill
from site_builder.bench.forms.filled import filled
from site_builder.bench.forms.placing import in_order, one_more, short
from site_builder.bench.forms.sent import Sent, sent
from site_builder.bench.homes import Home, model_at, path_of
from site_builder.bench.keeping import NotKept, keep_picture
from site_builder.bench.names import Names
from site_builder.bench.prospect import prospect
from site_builder.bench.reading_back import ReadBack
from site_builder.bench.saying import OPEN
from site_builder.bench.screens.lines import home
from site_builder.bench.spoken_findings import all_spoken, refused
from site_builder.bench.standing_lines import at, groups
from site_builder.bench.visit import Route, Visit
from site_builder.notebook.model.entry import Entry


@dataclass(frozen=True, slots=True)
class Place:
    """What is under the pen: an entry that stands, or room for a new one under a key."""

    home: Home
    path: TreePath
    """Of the entry; for a new one, of the key that it comes under."""
    model: type[Entry]
    stands: Plain | None
    add: Field | None
    before: int | None = None
    """A new step goes before the one of this number."""

    @property
    def is_step(self) -> bool:
        return self.path[:1] == ("steps",) and len(self.path) <= 2 and self.home.kind == "procedure"

    @property
    def number(self) -> int | None:
        return self.path[1] if self.is_step and len(self.path) == 2 and isinstance(self.path[1], int) else None

    @property
    def seen(self) -> str:
        """A mark of what stood there when the form was made."""
        return hashlib.blake2b(json.dumps(self.stands).encode(), digest_size=8).hexdigest()


def place(visit: Visit, about: str) -> Place:
    """The line that an address names. Raises NotFound."""
    own = home(visit, about)
    args = visit.request.args
    path = path_of(own, args.getlist("at"))
    model = model_at(own, path) if path is not None else None
    if path is None or model is None:
        raise NotFound()
    key = args.get("add", "")
    if not key:
        if look_up(own.tree, path) is None:
            raise NotFound()
        return Place(own, path, model, look_up(own.tree, path), None)
    field = next((one for one in (*children_of(model), _STEPS) if one.key == key), None)
    inner = model_at(own, (*path, key, *(("name",) if field is not None and field.fill is Fill.NAMED else ())))
    if field is None or inner is None or (key == "steps" and own.kind != "procedure"):
        raise NotFound()
    before = args.get("before", "")
    return Place(own, (*path, key), inner, look_up(own.tree, (*path, key)), field,
                 int(before) if before.isdigit() and len(before) < 4 else None)


_STEPS = Field("steps", "A step", Fill.ENTRIES)


def form(visit: Visit, about: str) -> Response:
    """The form, and what it is sent back to."""
    where = place(visit, about)
    if not visit.writer:
        return redirect(f"/line/{about}", 302 if visit.request.method == "GET" else 303)
    if visit.request.method == "GET":
        return _show(visit, where)
    if visit.form.get("leave"):
        return redirect(_sitting(visit) or _back(where), 303)
    typed = {key: tuple(visit.form.getlist(key)) for key in visit.form}
    if visit.form.get("seen") != where.seen and not visit.form.get("anyway"):
        return _show(visit, where, typed, changed=True)
    try:
        typed |= _kept_picture(visit, where)
    except NotKept as problem:
        return _show(visit, where, typed, {"file": ReadBack(wrong=str(problem))})
    draft, wrong = drafted(visit, where, typed, visit.form.get("way", ""))
    if draft is None:
        return _show(visit, where, typed, wrong)
    made = act(visit, draft.amendment(_what(visit, where)), anyway=bool(visit.form.get("anyway")))
    if isinstance(made, Not):
        return _show(visit, where, typed, {}, made)
    return redirect(_sitting(visit) or _back(where, made.kept), 303)


def _kept_picture(visit: Visit, where: Place) -> dict[str, tuple[str, ...]]:
    """The name of a picture that was sent along, once it lies among the photos. Raises NotKept."""
    came = visit.request.files.get("f-file")
    if came is None or not came.filename:
        return {}
    return {"f-file": (keep_picture(visit.here.root, came.stream, where.home.about.strip("-"), visit.here.today),)}


def ahead(visit: Visit, about: str) -> Response:
    """What would be said of the form as it is filled at this moment; nothing is written."""
    where = place(visit, about)
    typed = {key: tuple(visit.form.getlist(key)) for key in visit.form}
    draft, _ = drafted(visit, where, typed, "")
    lines = []
    if draft is not None and draft.changes:
        seen = prospect(visit.here, draft.amendment("Ahead"))
        lines = refused(visit.names, seen.stop) if isinstance(seen.stop, Refused) else all_spoken(
            visit.names, seen.new)
    return visit.page("line/ahead.j2", lines=lines)


def drafted(
    visit: Visit, where: Place, typed: Mapping[str, tuple[str, ...]], way: str,
) -> tuple[Draft | None, dict[str, ReadBack]]:
    """What the form asks for as changes; None, and why, where it cannot be read."""
    own, draft = where.home, Draft(where.home.file, where.home.tree)
    if way == "out":
        draft.put(where.path, None)
        return draft, {}
    tree = where.stands if where.add is None else None
    asked: Sent = sent(where.model, tree, typed, visit.names, own)
    if where.add is not None and where.add.fill is Fill.NAMED:
        name = " ".join((typed.get("name") or ("",))[0].split())
        if not name:
            asked.wrong["name"] = ReadBack(wrong="Say first what it is called.")
        elif where.add.key in ("of", "made") and visit.names.part_called(name) is None:
            asked.wrong["name"] = ReadBack(wrong=f"No part is called “{name}” yet. Begin it first, as something new.")
        elif isinstance(where.stands, dict) and name in where.stands:
            asked.wrong["name"] = ReadBack(wrong=f"“{name}” stands there already. Change it where it stands.")
    given = {key: value for key, value in asked.shall.items() if value is not None}
    if where.add is not None and not given and not asked.wrong:
        first = filled(where.model, None, visit.names, own)[0][0].field.key
        asked.wrong[first] = ReadBack(wrong="Nothing is written yet.")
    if asked.wrong:
        return None, asked.wrong
    draft.add(*asked.besides)
    if where.add is None:
        draft.entry(where.path, where.model, asked.shall)
        return draft, {}
    entry = short(where.model, in_order(where.model, given))
    if where.add.key == "steps" and isinstance(entry, str):
        entry = {where.model.MAIN: entry}
    if where.add.fill is Fill.NAMED:
        if where.add.key in ("of", "made"):
            name = visit.names.part_called(name) or name
        draft.put((*where.path, name), entry)
    elif where.add.fill is Fill.ENTRY:
        draft.put(where.path, entry)
    else:
        draft.add(one_more(own.file, draft.tree, where.path, entry, where.before))
    return draft, {}


def _show(
    visit: Visit, where: Place, typed: Mapping[str, tuple[str, ...]] | None = None,
    wrong: Mapping[str, ReadBack] | None = None, no: Not | None = None, changed: bool = False,
) -> Response:
    own, names = where.home, Names(visit.reading.survey, where.home.about)
    tree = where.stands if where.add is None else None
    first, rest = filled(where.model, tree, names, own, typed, wrong)
    hanging = groups(names, own, where.path, where.model) if where.add is None and where.path != own.base else []
    adds = [] if where.add is not None or where.path == own.base else [
        (one.key, ADD.get(one.key, one.label)) for one in children_of(where.model)
        if not (one.fill is Fill.ENTRY and isinstance(tree, dict) and tree.get(one.key) not in (None, *OPEN))]
    held = look_up(own.tree, ("steps",))
    return visit.page(
        "line/form.j2", 422 if wrong or no is not None or changed else 200, own=own, where=where, first=first,
        rest=rest, groups=hanging, adds=[one for one in adds if one[0] in ADD],
        more_adds=[one for one in adds if one[0] not in ADD], at=at, head=_head(where), no=no, changed=changed,
        wrong=wrong or {}, stands=tree, name=(typed or {}).get("name", ("",))[0], address=_address(visit),
        title=names.shop if own.kind == "shop" else names.spoken(own.about), back=_back(where),
        name_label=NAMES_OF_VALUES.get(where.add.key, "What it is called") if where.add is not None and
        where.add.fill is Fill.NAMED else "", of=len(held) if isinstance(held, list) else 0,
        seen_step=str(where.stands)[:200] if where.number is not None else "")


def _head(where: Place) -> str:
    """What is under the pen, in words."""
    if where.add is not None:
        if where.add.key == "steps":
            return "A new step" if where.before is None else f"A new step before step {where.before + 1}"
        words = ADD.get(where.add.key, where.add.label)
        return f"Add {words}"
    if where.number is not None:
        return f"Step {where.number + 1}"
    if where.path == where.home.base:
        return "What it is called, and why"
    named = [one for one in where.path[len(where.home.base):] if isinstance(one, str) and one != "steps"]
    over = model_at(where.home, where.path[:-1])
    known = next((one for one in children_of(over) if one.key == where.path[-1]), None) if over is not None else None
    if known is not None:
        return head_of(known)
    parent = named[-2] if len(named) > 1 and isinstance(where.path[-1], str) else named[-1] if named else ""
    from_model = next((head_of(one) for one in children_of(model_at(where.home, where.path[:-2]) or where.model)
                       if one.key == parent), "") if len(where.path) > 1 else ""
    name = str(where.path[-1]) if isinstance(where.path[-1], str) else ""
    return f"{name[:1].upper()}{name[1:]}" if name else from_model or parent


def _what(visit: Visit, where: Place) -> str:
    title = visit.names.shop if where.home.kind == "shop" else visit.names.spoken(where.home.about)
    step = next((f", step {one + 1}" for key, one in zip(where.path, where.path[1:], strict=False)
                 if key == "steps" and isinstance(one, int)), "")
    return f"{title}{step}"


def _back(where: Place, kept: str = "") -> str:
    """The page of the thing, at the step that was under the pen."""
    number = next((one for key, one in zip(where.path, where.path[1:], strict=False)
                   if key == "steps" and isinstance(one, int)), None)
    step = f"#step-{number + 1}" if number is not None else ""
    return f"/line/{where.home.about}{f'?kept={kept}' if kept else ''}{step}"


def _sitting(visit: Visit) -> str:
    """The sitting from which one came to the line, if one did."""
    back = visit.request.args.get("sit", "")
    return back if back.startswith("/sit/") else ""


def _address(visit: Visit) -> str:
    return visit.request.full_path.rstrip("?")


form.desk_only = form.large = ahead.desk_only = True  # type: ignore[attr-defined]

ROUTES: tuple[Route, ...] = (
    ("/line/<about>/form", ("GET", "POST"), form),
    ("/line/<about>/ahead", ("POST",), ahead),
)
