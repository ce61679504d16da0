"""Something new: a procedure line by line, or any other thing by its first few words."""

from __future__ import annotations

from werkzeug.exceptions import NotFound
from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.amend import Amendment, Change, id_for
from site_builder.bench.acting import Not, act
from site_builder.bench.forms.filled import filled
from site_builder.bench.forms.new_things import FOLDERS, in_a_list, taken_in
from site_builder.bench.forms.placing import in_order, short
from site_builder.bench.forms.sent import sent
from site_builder.bench.homes import Home
from site_builder.bench.reading_back import ReadBack
from site_builder.bench.shelves import shelf_choices
from site_builder.bench.ten_lines import steps_of
from site_builder.bench.visit import DESK, Route, Visit
from site_builder.notebook.kinds import models
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.people import Person
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.shop import Part

ALL = (
    ("hand-tool", "A hand tool", "file, hammer, brush"), ("machine", "A machine", "lathe, grinder, oven"),
    ("gauge", "A gauge", "what is measured with"), ("tooling", "Tooling that wears", "belt, mould, chuck, mop"),
    ("protection", "Protection", "what is worn, or shields"), ("sample", "A reference piece", "itself the gauge"),
    ("material", "A material", "metal, paint, glue"), ("part", "A part", "what is made or bought"),
    ("product", "A product", "what leaves the shop"), ("skill", "A skill", "what one can do"),
    ("person", "Somebody", "who works or learns here"), ("change", "A change", "to the way of working"),
    ("order", "An order", "a batch to deliver"),
)
_IN_LISTS: dict[str, type[Entry]] = {"person": Person, "part": Part, "product": Part}


def overview(visit: Visit) -> Response:
    """What can be begun."""
    return visit.page("new/all.j2", all=ALL)


def procedure(visit: Visit) -> Response:
    """A title, and one line a step."""
    book, form = visit.reading.survey.notebook, visit.form
    lines, title = form.get("lines", ""), " ".join(form.get("title", "").split())
    steps, whole = steps_of(lines)
    wrong, no = {}, None
    if visit.request.method == "POST" and not form.get("show"):
        if not title:
            wrong["title"] = "Say first what it is called."
        if not steps:
            wrong["lines"] = "Write at least one line: what one does first."
        if not wrong:
            part = form.get("part", "")
            part = part if part in book.parts else ""
            id_ = id_for(title, taken_in(book))
            tree = in_order(Procedure, {"procedure": id_, "title": title, **whole,
                                      "steps": [in_order(Step, one) for one in steps]})
            amendment = Amendment(f"{title}: the first lines", (
                Change(f"procedures/{part or 'shared'}/{id_}.yml", (), None, tree),))
            made = act(visit, amendment, anyway=bool(form.get("anyway")))
            if not isinstance(made, Not):
                return _with_pens(visit, f"/line/{id_}?kept={made.kept}")
            no = made
    if form.get("only"):
        return visit.page("new/steps.j2", steps=steps, whole=whole, title=title)
    return visit.page("new/procedure.j2", 422 if wrong or no else 200, wrong=wrong, no=no, title=title, lines=lines,
                      steps=steps, whole=whole, part=form.get("part", ""),
                      parts=[*shelf_choices(book, ("part",))])


def thing(visit: Visit, kind: str) -> Response:
    """The first few words of anything else."""
    words = next((words for one, words, _ in ALL if one == kind), "")
    if not words:
        raise NotFound()
    model = _IN_LISTS.get(kind) or models()[kind]
    book, names = visit.reading.survey.notebook, visit.names
    nowhere = Home("", kind, "", (), {})
    typed = {key: tuple(visit.form.getlist(key)) for key in visit.form} if visit.request.method == "POST" else None
    wrong: dict[str, ReadBack] = {}
    no = None
    if typed is not None:
        asked = sent(model, None, typed, names, nowhere)
        wrong = asked.wrong
        if not wrong:
            given = {key: value for key, value in asked.shall.items() if value is not None}
            name = str(given.get("title") or given.get("name") or "")
            id_ = id_for(name.partition(" ")[0] if kind == "person" else name, taken_in(book), kind)
            if kind in _IN_LISTS:
                begun = in_a_list(book, kind, id_, short(model, in_order(model, given)))
            else:
                begun = id_, Change(f"{FOLDERS[kind]}/{id_}.yml", (), None, in_order(model, {kind: id_, **given}))
            if isinstance(begun, str):
                wrong = {"title": ReadBack(wrong=begun)}
            else:
                made = act(visit, Amendment(name, (*asked.besides, begun[1])), anyway=bool(visit.form.get("anyway")))
                if not isinstance(made, Not):
                    return _with_pens(visit, f"/line/{id_}?kept={made.kept}")
                no = made
    first, rest = filled(model, None, names, nowhere, typed, wrong)
    return visit.page("new/thing.j2", 422 if wrong or no else 200, words=words, first=first, rest=rest, no=no)


def _with_pens(visit: Visit, address: str) -> Response:
    """To the page of what was begun, with the pens out: whoever begins a thing writes on."""
    answer = redirect(address, 303)
    if not visit.writer:
        answer.set_cookie("bench-pens", DESK, httponly=True, samesite="Strict")
    return answer


overview.desk_only = procedure.desk_only = thing.desk_only = True  # type: ignore[attr-defined]

ROUTES: tuple[Route, ...] = (
    ("/new", ("GET",), overview),
    ("/new/procedure", ("GET", "POST"), procedure),
    ("/new/<kind>", ("GET", "POST"), thing),
)
