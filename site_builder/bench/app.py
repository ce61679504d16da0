"""The bench as one application: guards before everything, then the screen that an address names."""

from __future__ import annotations

import secrets
from collections.abc import Iterable
from importlib.resources import files
from typing import Any

from werkzeug.datastructures import Headers
from werkzeug.exceptions import HTTPException, RequestEntityTooLarge
from werkzeug.routing import Map, Rule
from werkzeug.utils import redirect
from werkzeug.wrappers import Request, Response

from site_builder.bench.guards import HEADERS, LARGE, SMALL, Doors, Tokens, refusal
from site_builder.bench.screens import ROUTES
from site_builder.bench.screens.let_in import LET_IN
from site_builder.bench.visit import Bench, Screen, Visit

_TYPES = {"bench.css": "text/css", "bench.js": "text/javascript", "mark.svg": "image/svg+xml"}
_STATIC = {name: (files("site_builder.bench") / "static" / name).read_bytes() for name in _TYPES}
"""All that is sent beside the screens, read once; no name from a request ever names a file."""
SESSION, DEVICE = "bench", "bench-device"


class App:
    """A WSGI application for one notebook."""

    def __init__(self, bench: Bench, doors: Doors, tokens: Tokens) -> None:
        self._bench, self._doors, self._tokens = bench, doors, tokens
        rules = [Rule(rule, methods=methods, endpoint=screen) for rule, methods, screen in ROUTES]
        self._map = Map(rules)

    def __call__(self, environ: dict[str, Any], start_response: Any) -> Iterable[bytes]:
        request = Request(environ)
        with request:  # what was sent along is closed when it has been read
            answer = self.answer(request)
        answer.headers.update(HEADERS)
        return answer(environ, start_response)

    def answer(self, request: Request) -> Response:
        """What is sent back. Whatever goes wrong, it is words."""
        why = refusal(self._doors, request.method, Headers(request.headers.items()))
        if why:
            return Response(why + "\n", 403, mimetype="text/plain")
        name = request.path.removeprefix("/own/")
        if request.path.startswith("/own/") and name in _STATIC:
            return Response(_STATIC[name], mimetype=_TYPES[name], headers={"X-Content-Type-Options": "nosniff"})
        session = request.cookies.get(SESSION, "")
        fresh = not _looks_like_ours(session)
        if fresh:
            session = secrets.token_urlsafe(24)
        visit = Visit(self._bench, request, session, self._tokens.of(session), None)
        try:
            found = self._screen(visit, request, fresh)
        except RequestEntityTooLarge:
            found = visit.page("words.j2", 413, title="That is too large", said=(
                f"A picture or a recording may have {LARGE >> 20} MB. Nothing was written.",))
        except HTTPException as problem:
            found = visit.page("words.j2", problem.code or 404, title="There is nothing here",
                               said=("The address leads to no page of the bench.",))
        except OSError as problem:
            what = f"{problem.filename}: " if problem.filename else ""
            found = visit.page("words.j2", 500, title="The disk refused", said=(
                f"{what}{problem.strerror or problem}. Nothing was acknowledged that is not on the disk.",))
        if fresh:
            found.set_cookie(SESSION, session, httponly=True, samesite="Strict", secure=self._doors.scheme == "https")
        return found

    def _screen(self, visit: Visit, request: Request, fresh: bool) -> Response:
        adapter = self._map.bind(request.host, path_info=request.path, url_scheme=self._doors.scheme,
                                 default_method=request.method)
        found, named = adapter.match()
        screen: Screen = found
        large = getattr(screen, "large", False)
        request.max_content_length = LARGE if large else SMALL
        request.max_form_memory_size = SMALL
        request.max_form_parts = 400
        if self._bench.in_the_shop and not _is_desk(request):
            visit.device = self._bench.devices.known(request.cookies.get(DEVICE, ""))
            if visit.device is None and screen not in LET_IN:
                return redirect("/in") if request.method != "POST" else visit.page(
                    "words.j2", 403, title="This phone is not let in", said=(
                        "Nothing was written. Ask at the desk for a new square, and photograph it.",))
            if visit.device is not None and getattr(screen, "desk_only", False):
                return visit.page("words.j2", 403, title="Only at the desk", said=(
                    "This is done at the desk and not with a phone.",))
        if request.method == "POST" and (fresh or not self._tokens.fits(visit.session, request.form.get("token", ""))):
            return visit.page("words.j2", 403, title="This form is not ours", said=(
                "It does not carry the token that the bench gave out. Nothing was written. Open the page again.",))
        return screen(visit, **named)


def _is_desk(request: Request) -> bool:
    return request.remote_addr in ("127.0.0.1", "::1")


def _looks_like_ours(session: str) -> bool:
    return len(session) == 32 and session.isascii() and session.replace("-", "").replace("_", "").isalnum()


