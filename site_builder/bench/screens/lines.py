"""A thing as it stands at this moment, line by line; after *Write here* each line has a pen."""

from __future__ import annotations

from werkzeug.exceptions import NotFound
from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.amend import Amendment, Plain, entry_at, kept, move_item
from site_builder.bench.acting import Not, act
from site_builder.bench.asking import open_questions
from site_builder.bench.forms.daily import ADD, children_of
from site_builder.bench.homes import Home, home_of
from site_builder.bench.names import Names
from site_builder.bench.saying import OPEN, said
from site_builder.bench.standing_lines import at, found_at, groups, lay, steps
from site_builder.bench.visit import DESK, PENS, Route, Visit
from site_builder.bench.written_lines import as_line, latest

KIND_WORDS = {
    "procedure": "The work", "machine": "A machine", "hand-tool": "A hand tool", "gauge": "A gauge",
    "tooling": "Tooling", "protection": "Protection", "sample": "A reference piece", "material": "A material",
    "skill": "A skill", "person": "Somebody of the shop", "part": "A part", "change": "A change", "order": "An order",
    "shop": "The shop", "telling": "A telling", "season": "A season",
}


def home(visit: Visit, about: str) -> Home:
    """The thing that an address names. Raises NotFound."""
    found = home_of(visit.here.root, visit.reading.survey.notebook, about)
    if found is None:
        raise NotFound()
    return found


def line(visit: Visit, about: str) -> Response:
    """The page of a thing."""
    own = home(visit, about)
    names, model = Names(visit.reading.survey, about), entry_at(own.tree, own.base)
    if model is None:
        raise NotFound()
    children = {one.key for one in children_of(model)}
    tree = own.stands
    head: Plain = {key: value for key, value in tree.items() if key not in children} \
        if isinstance(tree, dict) else tree or ""
    own_lines = said(names, model, head)
    hanging = groups(names, own, own.base, model, without="steps")
    stepped = steps(names, own) if own.kind == "procedure" else []
    everything = [one for group in hanging for one in group.lines]
    for step in stepped:
        everything += [one for group in step.groups for one in group.lines] + [step.line]
    general = lay(names, own, everything, found_at(visit.reading, own))
    because = tree.get("because") if isinstance(tree, dict) else None
    open_ones = sum(one.answer is not None for one in open_questions(visit.reading, about))
    name = visit.request.args.get("kept", "")
    last = kept(visit.here.root, name) if name else None
    adds = [(one.key, ADD[one.key]) for one in children_of(model)
            if one.key in ADD and not (isinstance(tree, dict) and _is_one(tree.get(one.key), one.fill.value))]
    return visit.page(
        "line/page.j2", own=own, kind=KIND_WORDS.get(own.kind, ""), title=_title(visit, own),
        because=_listed(because), more=[one for one in own_lines.more if one[0] != "because"],
        groups=hanging, steps=stepped, general=general, open_ones=open_ones, at=at, adds=adds,
        last=as_line(visit, last) if last is not None else None,
        since=latest(visit.here.root), living=visit.reading.survey.notebook.living)


def _is_one(stands: Plain | None, fill: str) -> bool:
    return fill == "entry" and stands is not None and stands not in OPEN


def _title(visit: Visit, own: Home) -> str:
    return visit.names.shop if own.kind == "shop" else visit.names.person(own.about) if own.kind == "person" \
        else visit.names.thing(own.about)


def _listed(value: Plain | None) -> list[str]:
    if value is None or value in OPEN:
        return []
    return [" ".join(str(one).split()) for one in (value if isinstance(value, list) else [value])]


def pens(visit: Visit) -> Response:
    """Pens out, with who writes, or put away."""
    who = visit.form.get("who", "")
    back = visit.form.get("back", "/")
    answer = redirect(back if back.startswith("/line/") else "/", 303)
    living = visit.reading.survey.notebook.living
    if visit.form.get("away"):
        answer.delete_cookie(PENS)
    else:
        answer.set_cookie(PENS, who if who in living else DESK, httponly=True, samesite="Strict")
    return answer


def move(visit: Visit, about: str) -> Response:
    """A step, up or down."""
    own = home(visit, about)
    held = own.tree.get("steps") if isinstance(own.tree, dict) else None
    start, end = visit.form.get("from", ""), visit.form.get("to", "")
    if not isinstance(held, list) or not (start.isdigit() and end.isdigit()) or max(int(start), int(end)) >= len(held):
        raise NotFound()
    if str(held[int(start)])[:200] != visit.form.get("stood", ""):
        return redirect(f"/line/{about}", 303)
    amendment: Amendment = move_item(f"{_title(visit, own)}: step {int(start) + 1} is step {int(end) + 1} now",
                                     own.file, ("steps",), held, int(start), int(end))
    made = act(visit, amendment, anyway=bool(visit.form.get("anyway")))
    if isinstance(made, Not):
        return visit.page("line/not.j2", 422, no=made, own=own, title=_title(visit, own), again=(
            ("from", start), ("to", end), ("stood", visit.form.get("stood", ""))), action=f"/line/{about}/move")
    return redirect(f"/line/{about}?kept={made.kept}#step-{int(end) + 1}", 303)


line.desk_only = pens.desk_only = move.desk_only = True  # type: ignore[attr-defined]

ROUTES: tuple[Route, ...] = (
    ("/line/<about>", ("GET",), line),
    ("/line/<about>/move", ("POST",), move),
    ("/pens", ("POST",), pens),
)
