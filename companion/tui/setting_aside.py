"""Set aside with Ctrl-Z and brought back with fg, as the shell's other programs are."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
from collections.abc import Callable


def can_be_set_aside() -> bool:
    """Whether a shell waits that could bring Tallycord back: a terminal that runs nothing else has none."""
    if sys.platform == "win32":
        return False
    try:
        return os.getsid(os.getppid()) == os.getsid(0)
    except OSError:
        return False


def set_aside_on_signal(set_aside: Callable[[], object], again: Callable[[], object]) -> None:
    """From now on SIGTSTP calls `set_aside` and SIGCONT `again`, through the running loop: between two keys, and so
    never in the middle of a write, which would keep everybody else from writing."""
    if sys.platform == "win32":
        return
    loop = asyncio.get_running_loop()
    try:
        signal.signal(signal.SIGTSTP, lambda *_: loop.call_soon_threadsafe(set_aside))
        signal.signal(signal.SIGCONT, lambda *_: loop.call_soon_threadsafe(again))
    except ValueError:  # not the main thread: whoever runs the app has the signals
        return


def stop_here() -> None:
    """Stop this process and those it was started with, until the shell brings them to the fore again."""
    if sys.platform == "win32":
        return
    asked = signal.signal(signal.SIGTSTP, signal.SIG_DFL)
    try:
        os.killpg(os.getpgrp(), signal.SIGTSTP)
        while not _in_front():  # gone on with in the background: there is nothing to show there
            os.kill(os.getpid(), signal.SIGSTOP)
    finally:
        signal.signal(signal.SIGTSTP, asked)


def _in_front() -> bool:
    try:
        return sys.__stdin__ is None or os.tcgetpgrp(sys.__stdin__.fileno()) == os.getpgrp()
    except (OSError, ValueError):  # no terminal of ours: nothing to wait for
        return True
