"""Phones and tablets that were let in: each once, by a code that is shown on the desk; each can be thrown out."""

from __future__ import annotations

import hashlib
import hmac
import json
import secrets
from collections.abc import Callable
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from pathlib import Path
from threading import Lock

from site_builder.bench.own_files import read_own, write_own

WORDS = (
    "lamp", "otter", "brass", "quay", "apple", "boot", "candle", "door", "eagle", "fern", "glove", "hammer",
    "island", "jar", "kettle", "ladder", "maple", "needle", "oak", "paper", "rope", "saddle", "table", "umbrella",
    "violet", "wagon", "yarn", "anchor", "basket", "chalk", "drum", "egg", "feather", "grape", "hinge", "ink",
    "jug", "knot", "leaf", "mirror", "nail", "onion", "pebble", "quilt", "river", "spoon", "thimble", "urn",
    "valley", "wheel", "acorn", "bell", "cork", "dove", "ember", "fiddle", "gate", "harp", "ivy", "jacket", "key",
    "lemon", "moon", "nettle", "orchard", "plum", "ribbon", "sail", "tile", "vine", "willow", "axle", "barrel",
    "crate", "dial", "elm", "flint", "goose", "honey", "iron", "kite", "linen", "meadow", "nest", "oar", "pear",
    "reed", "stove", "tin", "wool", "bread", "cliff", "daisy", "elbow", "frost", "ginger", "heron", "juniper",
    "lantern", "mill", "nutmeg", "olive", "pine", "rye", "slate", "thorn", "wax", "birch", "clover", "drift",
)
"""Plain words that are not mistaken for one another when called across a shop."""
HOLDS = 600.0
"""Seconds that a code holds: ten minutes."""
TRIES = 5
"""So many wrong codes, and the code is void."""


@dataclass(frozen=True, slots=True)
class Device:
    """A phone or tablet."""

    id: str
    name: str
    key: str
    """Digest of what its cookie says."""
    since: str
    last: str


class Devices:
    """The devices of one notebook. ``clock`` tells seconds, ``now`` the time that is shown."""

    def __init__(self, folder: Path, notebook: str, clock: Callable[[], float], now: Callable[[], datetime]) -> None:
        self._file = folder / f"devices-{notebook}.json"
        self._clock, self._now = clock, now
        self._alone = Lock()
        self._code, self._until, self._tries = "", 0.0, 0

    def new_code(self) -> str:
        """A code for one device: four words. What held before is void."""
        with self._alone:
            self._code = " ".join(secrets.choice(WORDS) for _ in range(4))
            self._until, self._tries = self._clock() + HOLDS, 0
            return self._code

    def let_in(self, code: str, name: str) -> str | None:
        """What the cookie of the new device says; None where the code does not hold (any longer)."""
        given = " ".join(code.lower().replace("-", " ").split())
        with self._alone:
            if not self._code or self._clock() > self._until:
                return None
            if not hmac.compare_digest(given.encode(), self._code.encode()):
                self._tries += 1
                if self._tries >= TRIES:
                    self._code = ""
                return None
            self._code = ""
            cookie = secrets.token_urlsafe(32)
            shown = "".join(one for one in " ".join(name.split()) if one.isprintable())[:40] or "A phone"
            stamp = self._now().isoformat(timespec="minutes")
            made = Device(secrets.token_hex(6), shown, _digest(cookie), stamp, stamp)
            self._write([*self._read(), made])
            return cookie

    def known(self, cookie: str) -> Device | None:
        """The device whose cookie this is."""
        if not cookie:
            return None
        key = _digest(cookie)
        with self._alone:
            held = self._read()
            found = next((one for one in held if hmac.compare_digest(one.key, key)), None)
            if found is not None:
                stamp = self._now().isoformat(timespec="minutes")
                if stamp != found.last:
                    self._write([replace(one, last=stamp) if one.id == found.id else one for one in held])
            return found

    def all(self) -> tuple[Device, ...]:
        with self._alone:
            return tuple(self._read())

    def throw_out(self, id_: str) -> None:
        """From now on it is a stranger."""
        with self._alone:
            self._write([one for one in self._read() if one.id != id_])

    def _read(self) -> list[Device]:
        try:
            return [Device(**one) for one in json.loads(read_own(self._file) or b"[]")]
        except (ValueError, TypeError):
            return []  # nobody is let in on the word of a file that cannot be understood

    def _write(self, held: list[Device]) -> None:
        write_own(self._file, json.dumps([asdict(one) for one in held], indent=1).encode())


def _digest(cookie: str) -> str:
    return hashlib.sha256(cookie.encode()).hexdigest()
