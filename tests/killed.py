"""A process that is killed at a step that touches the disk, as a power cut or a full stop would do."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable

TOUCHING = {"open", "os.mkdir", "os.rename", "os.rmdir", "os.remove", "os.chmod", "tempfile.mkdtemp"}
"""Audit events of Python; of those that open, only what opens to write."""


def killed_at(number: int, act: Callable[[], object]) -> bool:
    """Do it in a process of its own that is killed at its ``number``-th touch of the disk; whether it came to its end.

    What calls this forks, so it is a process of its own too, without threads.
    """
    child = os.fork()
    if child == 0:
        count = 0

        def touched(event: str, arguments: tuple[object, ...]) -> None:
            nonlocal count
            if event not in TOUCHING or (event == "open" and not _writes(arguments)):
                return
            count += 1
            if count == number:
                os.kill(os.getpid(), signal.SIGKILL)

        sys.addaudithook(touched)
        act()
        os._exit(0)
    _, status = os.waitpid(child, 0)
    if os.WIFEXITED(status):
        assert os.WEXITSTATUS(status) == 0, "it ended by itself, with an error"
        return True
    assert os.WTERMSIG(status) == signal.SIGKILL, status
    return False


def _writes(arguments: tuple[object, ...]) -> bool:
    flags = arguments[2]
    return isinstance(flags, int) and bool(flags & (os.O_WRONLY | os.O_RDWR))
