"""PINs: slow hashes in the user's own folder, and a wait after wrong ones that a restart does not shorten.

A PIN is four to eight figures, so whoever has the file of hashes finds it in minutes whatever the hash (10^4 to 10^8
tries). What keeps it is that the file is on the desk alone, and that the bench makes one wait.
"""

from __future__ import annotations

import hashlib
import hmac
import json
import re
import secrets
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path
from threading import Lock

from site_builder.bench.own_files import read_own, write_own

_FIGURES = re.compile(r"[0-9]{4,8}")
_COST, _BLOCK, _WAYS = 1 << 15, 8, 1
"""scrypt (RFC 7914): 32 MB and about a tenth of a second a try."""
FREE = 3
"""So many wrong ones cost no wait."""
_FIRST, _LONGEST = 5.0, 3600.0
"""Seconds: the first wait, doubled with every further wrong one, and the longest."""


@dataclass(frozen=True, slots=True)
class _Held:
    salt: str
    hash: str
    wrong: int = 0
    until: float = 0.0


class Pins:
    """The PINs of one notebook. ``clock`` tells seconds since some fixed moment that outlasts a restart."""

    def __init__(self, folder: Path, notebook: str, clock: Callable[[], float]) -> None:
        self._file = folder / f"pins-{notebook}.json"
        self._clock = clock
        self._alone = Lock()

    def has(self, person: str) -> bool:
        """Whether somebody has a PIN."""
        return person in self._read()

    def put(self, person: str, pin: str) -> str:
        """Give somebody a PIN; what is wrong with it, or nothing."""
        if not _FIGURES.fullmatch(pin):
            return "A PIN has four to eight figures and nothing else."
        if len(set(pin)) == 1 or pin in "0123456789876543210":
            return "That is the first one anybody would try. Take another."
        salt = secrets.token_bytes(16)
        with self._alone:
            held = self._read()
            self._write({**held, person: _Held(salt.hex(), _slow(pin, salt))})
        return ""

    def forget(self, person: str) -> bool:
        """Take somebody's PIN away; False where there was none."""
        with self._alone:
            held = self._read()
            if held.pop(person, None) is None:
                return False
            self._write(held)
        return True

    def wrong(self, person: str, pin: str) -> str:
        """Why a PIN does not hold; nothing where it is the right one. While one waits no PIN is even tried."""
        with self._alone:
            people = self._read()
            held = people.get(person)
            if held is None:
                return "There is no PIN for this name yet. It is made at the desk."
            now = self._clock()
            if now < held.until:
                return f"Too many wrong ones. Wait {_in_words(held.until - now)}, then try again."
            right = hmac.compare_digest(_slow(pin[:64], bytes.fromhex(held.salt)), held.hash)
            wrong = 0 if right else held.wrong + 1
            wait = 0.0 if wrong < FREE else min(_LONGEST, _FIRST * 2.0 ** min(wrong - FREE, 20))
            if not right or held.wrong:
                self._write({**people, person: _Held(held.salt, held.hash, wrong, now + wait if wait else 0.0)})
            if right:
                return ""
            return "That is not the PIN." + (f" Wait {_in_words(wait)} before the next try." if wait else "")

    def _read(self) -> dict[str, _Held]:
        try:
            told = json.loads(read_own(self._file) or b"{}")
            return {str(who): _Held(**held) for who, held in told.items()}
        except (ValueError, TypeError, AttributeError):
            raise OSError(f"{self._file}, the file with the PINs, cannot be understood. Take it away; then everybody "
                          "makes a new one at the desk.") from None

    def _write(self, people: dict[str, _Held]) -> None:
        write_own(self._file, json.dumps({who: asdict(held) for who, held in people.items()}, indent=1).encode())


def _slow(pin: str, salt: bytes) -> str:
    made = hashlib.scrypt(pin.encode(), salt=salt, n=_COST, r=_BLOCK, p=_WAYS, maxmem=64 << 20, dklen=32)
    return made.hex()


def _in_words(seconds: float) -> str:
    whole = max(1, round(seconds))
    if whole < 60:
        return f"{whole} {'second' if whole == 1 else 'seconds'}"
    minutes = -(-whole // 60)
    return f"{minutes} {'minute' if minutes == 1 else 'minutes'}"
