"""Who may ask anything of the bench: exact names, no other site's page, a token in each form."""

from __future__ import annotations

import hashlib
import hmac
import secrets
from dataclasses import dataclass
from pathlib import Path

from werkzeug.datastructures import Headers

from site_builder.bench.own_files import read_own, write_own

SMALL = 256 << 10
"""So many bytes a form without a picture or a recording may have."""
LARGE = 48 << 20
"""So many bytes a form with one may have."""

HEADERS = {
    "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; "
                               "media-src 'self' blob:; connect-src 'self'; form-action 'self'; base-uri 'none'; "
                               "frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}
"""On every answer. `same-origin` and not `no-referrer`: with that a browser sends no origin along with a form."""


@dataclass(frozen=True, slots=True)
class Doors:
    """Under which names the bench is reached, and its origins."""

    scheme: str
    hosts: frozenset[str]
    """Each with its port, as a browser writes it."""

    @property
    def origins(self) -> frozenset[str]:
        return frozenset(f"{self.scheme}://{host}" for host in self.hosts)


def refusal(doors: Doors, method: str, headers: Headers) -> str:
    """Why a request is not even looked at; empty where it may be."""
    if headers.get("Host", "") not in doors.hosts:
        return "This name does not belong to the bench. Open it by the address that it printed when it was started."
    if method not in ("GET", "HEAD", "POST"):
        return "The bench does not know what to do with that."
    fetched = headers.get("Sec-Fetch-Site") or None
    if method != "POST":
        if fetched in ("cross-site", "same-site") and headers.get("Sec-Fetch-Mode") != "navigate":
            return "Another site's page has asked for this. Nothing was shown."
        return ""
    if fetched is not None and fetched != "same-origin":
        return "Another site's page has sent this form. Nothing was written."
    origin = headers.get("Origin") or None
    if origin is None and fetched is None:
        return "Nobody can say where this form came from. Nothing was written. Open the page again in a browser."
    if origin is not None and origin not in doors.origins:
        return "Another site's page has sent this form. Nothing was written."
    return ""


class Tokens:
    """Tokens of forms: made from what the cookie says and a secret that only this user of the machine can read."""

    def __init__(self, folder: Path) -> None:
        file = folder / "forms.key"
        held = read_own(file)
        if len(held) != 32:
            held = secrets.token_bytes(32)
            write_own(file, held)
        self._secret = held

    def of(self, session: str) -> str:
        """The token that a form of this session carries."""
        return hmac.new(self._secret, session.encode(), hashlib.sha256).hexdigest()

    def fits(self, session: str, token: str) -> bool:
        """Whether a form was handed out to this session."""
        return bool(session) and hmac.compare_digest(self.of(session).encode(), token.encode("utf-8", "replace"))
