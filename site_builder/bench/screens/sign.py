"""Signing: what is signed in full, the PIN, the law's answer; acknowledged is only what lies on the disk."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass

from werkzeug.exceptions import NotFound
from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.analysis.analysis import Analysis
from site_builder.bench.entering import KEYS, carried, fields_of, oath
from site_builder.bench.visit import Route, Visit
from site_builder.cli.entering import Refused, draft, whole_book
from site_builder.cli.signing import KIND, judged, sign_off_of, written
from site_builder.skills.append import Appended, NotWritten, append
from site_builder.skills.breach import OVERRIDABLE, Article, Breach
from site_builder.skills.entry_text import Unwritable, Value
from site_builder.skills.holders import LEVELS
from site_builder.skills.keys import KeyProblem, Signer, key_file, open_key
from site_builder.skills.last import LastBroken
from site_builder.skills.sealing import NotSealed

_WRONG = (Refused, NotWritten, NotSealed, Unwritable, LastBroken)


@dataclass(frozen=True, slots=True)
class No:
    """What the law or the book says against an entry, and what would be allowed instead."""

    lines: tuple[tuple[str, str], ...]
    """What is wrong, and the way out of it."""
    instead: str = ""
    """The level that could be signed."""
    may_override: bool = False


def sign(visit: Visit, who: str, kind: str) -> Response:
    """What is signed, in full, and the PIN of the one who says so."""
    fields = _fields(visit, who, kind)
    survey = visit.reading.survey
    if kind == KIND:
        signers = [id_ for id_ in survey.holders.signers(str(fields.get("skill", ""))) if id_ != who]
        lines = _sign_off_said(visit, fields)
    else:
        signers = [who]
        lines = oath(kind, fields, visit.names, visit.here.today)
        no = _against(survey, kind, fields)
        if no is not None:
            return _refused(visit, who, kind, fields, no)
    return _ask(visit, who, kind, fields, lines, signers)


def write(visit: Visit, who: str, kind: str) -> Response:
    """Into the book, if PIN and law allow it."""
    fields = _fields(visit, who, kind)
    survey = visit.reading.survey
    mark = f"{visit.session}:{visit.form.get('mark', '')}"
    done = visit.bench.written.get(mark)
    if done is not None:
        return redirect(done, 303)
    signer = visit.form.get("signer", "") if kind == KIND else who
    lines = _sign_off_said(visit, fields) if kind == KIND else oath(kind, fields, visit.names, visit.here.today)
    signers = [id_ for id_ in survey.holders.signers(str(fields.get("skill", ""))) if id_ != who] \
        if kind == KIND else [who]
    if signer not in survey.notebook.living:
        return _ask(visit, who, kind, fields, lines, signers, "Say first who signs.")
    fields = {"who": signer, **{key: value for key, value in fields.items() if key != "who"}}
    key: Signer | None = None
    if survey.notebook.people[signer].key:
        found = _key_of(visit, signer)
        if isinstance(found, str):
            return _ask(visit, who, kind, fields, lines, signers, found, signer)
        key = found
    else:
        wrong = visit.bench.pins.wrong(signer, visit.form.get("pin", ""))
        if wrong:
            return _ask(visit, who, kind, fields, lines, signers, wrong, signer)
    no = _against(survey, kind, fields)
    if no is not None:
        return _refused(visit, who, kind, fields, no)
    try:
        made = _written(visit, survey, kind, fields, key)
    except _WRONG as problem:
        return _refused(visit, who, kind, fields, No(tuple((line.strip(), "") for line in str(problem).splitlines())))
    told = f"/books/{who}/{kind}/written/{made.number}"
    if visit.form.get("mark"):
        visit.bench.written[mark] = told
    return redirect(told, 303)


def done(visit: Visit, who: str, kind: str, number: int) -> Response:
    """What stands in the book now."""
    _known(visit, who, kind)
    entry = next((one for one in visit.reading.survey.notebook.books.get(kind, ()) if one.number == number), None)
    if entry is None:
        raise NotFound()
    return visit.page("books/done.j2", who=who, kind=kind, number=number)


def _key_of(visit: Visit, signer: str) -> Signer | str:
    """The key of somebody who signs with one; at the desk alone, since it never leaves it."""
    if visit.device is not None:
        return (f"{visit.names.first(signer)} signs with a key, and that lies on the desk. A phone cannot sign with "
                "it. Sign this at the desk.")
    try:
        return open_key(key_file(visit.bench.keys, signer), visit.form.get("passphrase", ""))
    except KeyProblem as problem:
        return str(problem)


def _written(visit: Visit, survey: Analysis, kind: str, fields: Mapping[str, Value], key: Signer | None) -> Appended:
    if kind == KIND:
        return written(visit.here.root, survey, dict(fields), key)
    whole_book(survey, kind)
    return append(visit.here.root, kind, fields, signer=key)


def _against(survey: Analysis, kind: str, fields: dict[str, Value]) -> No | None:
    """What is wrong with an entry before it is written; None where nothing is."""
    try:
        if kind != KIND:
            tried = draft(survey, kind, fields)
            lines = tuple((found.message, found.fix) for found in tried.errors)
            return No(lines) if lines else None
        tried, breaches = judged(survey, fields)
    except _WRONG as problem:
        return No(((str(problem), ""),))
    lines = (*((one.message, one.fix) for one in breaches), *((one.message, one.fix) for one in tried.errors))
    if not lines:
        return None
    may = not tried.errors and bool(breaches) and all(one.article in OVERRIDABLE for one in breaches)
    return No(lines, _instead(survey, fields, breaches), may)


def _instead(survey: Analysis, fields: dict[str, Value], breaches: list[Breach]) -> str:
    """The highest lower level that the law lets sign; empty where another is not the way out."""
    level = str(fields.get("level", ""))
    if level not in LEVELS or not any(one.article in (Article.AGE, Article.LEVEL, Article.PROOF) for one in breaches):
        return ""
    lower = reversed(LEVELS[:LEVELS.index(level)])
    lawful = (one for one in lower if not survey.law.judge_next(sign_off_of(survey, {**fields, "level": one})))
    return str(next(lawful, ""))


def _fields(visit: Visit, who: str, kind: str) -> dict[str, Value]:
    _known(visit, who, kind)
    form = visit.request.form.copy()
    fields = fields_of(kind, form)
    if kind == "practice" and "good" in form:  # asked for as a hand counts them: good at once, good later, spoiled
        counts = {name: form.get(name, "0").strip() or "0" for name in ("good", "rework", "scrap")}
        if all(one.isascii() and one.isdigit() and len(one) < 7 for one in counts.values()):
            fields["pieces"] = str(sum(map(int, counts.values())))
            fields |= {"scrap": counts["scrap"], "rework": counts["rework"]}
    if kind == KIND:
        fields["learner"] = who
    else:
        fields["who"] = who
    fields["date"] = visit.here.today.isoformat()
    return {key: fields[key] for key in KEYS[kind] if key in fields}


def _known(visit: Visit, who: str, kind: str) -> None:
    if kind not in KEYS or who not in visit.reading.survey.notebook.living:
        raise NotFound()


def _sign_off_said(visit: Visit, fields: Mapping[str, Value]) -> list[str]:
    """The words that somebody puts a name to."""
    skill = visit.reading.survey.notebook.skills.get(str(fields.get("skill", "")))
    if skill is None:
        raise NotFound()
    learner = visit.names.person(str(fields.get("learner", "")))
    items = fields.get("items", ())
    shown = {items} if isinstance(items, str) else {*items}
    lines = [f"{learner} has shown: {one.show}" for one in skill.checklist if str(one.id) in shown]
    if "level" in fields:
        lines.append(f"{learner} does “{skill.title}” at the level “{fields['level']}” from today on.")
    return [*lines, *([f"Signed although proof is missing, because: {fields['override']}"]
                      if "override" in fields else [])]


def _ask(visit: Visit, who: str, kind: str, fields: Mapping[str, Value], lines: list[str], signers: list[str],
         wrong: str = "", chosen: str = "") -> Response:
    people = visit.reading.survey.notebook.people
    hidden = [one for one in carried(fields) if not (kind == KIND and one.name == "who")]
    return visit.page("books/sign.j2", 403 if wrong else 200, who=who, kind=kind, lines=lines, hidden=hidden,
                      signers=signers, wrong=wrong, chosen=chosen or (signers[0] if signers else ""),
                      keyed=[id_ for id_ in signers if people[id_].key], mark=secrets.token_hex(8),
                      pinless=[id_ for id_ in signers if not people[id_].key and not visit.bench.pins.has(id_)])


def _refused(visit: Visit, who: str, kind: str, fields: Mapping[str, Value], no: No) -> Response:
    lines = [(visit.names.said(what), visit.names.said(way)) for what, way in no.lines]
    hidden = [one for one in carried(fields) if one.name not in ("who", "level", "override")]
    back = [one for one in carried(fields) if one.name not in ("who", "override")]
    return visit.page("books/refused.j2", 422, who=who, kind=kind, lines=lines, instead=no.instead, hidden=hidden,
                      back=back, may_override=no.may_override)


ROUTES: tuple[Route, ...] = (
    ("/books/<who>/<kind>/sign", ("POST",), sign),
    ("/books/<who>/<kind>/write", ("POST",), write),
    ("/books/<who>/<kind>/written/<int:number>", ("GET",), done),
)
