"""How the app ends when it is asked to, or when its terminal goes: in good order, and in any case."""

from __future__ import annotations

import asyncio
import os
import select
import signal
import sys
import threading
from collections.abc import Callable
from typing import NoReturn

LOOK_SECONDS = 2.0
GRACE_SECONDS = 3.0
DRIVER = "TEXTUAL_DRIVER"  # set where a server passes keys and screens on


def end_on_signals(leave: Callable[[int], object]) -> None:
    """From now on SIGTERM and SIGHUP call `leave` with the exit code, through the running loop; a loop that is stuck
    (a terminal that takes no more text) is not waited for longer than the grace. Every step is on disk already."""
    loop = asyncio.get_running_loop()

    def ask(number: int, _frame: object) -> None:
        _leave_in_time(loop, leave, 128 + number)

    for number in (signal.SIGTERM, getattr(signal, "SIGHUP", signal.SIGTERM)):
        try:
            signal.signal(number, ask)
        except ValueError:  # not the main thread: whoever runs the app has the signals
            return


def end_without_terminal(leave: Callable[[int], object]) -> None:
    """A terminal can go without a signal, and text written to it can then wait for ever: looked after from outside
    the loop."""
    loop = asyncio.get_running_loop()
    gone = 128 + int(getattr(signal, "SIGHUP", signal.SIGTERM))

    def look() -> None:
        while terminal_there():
            threading.Event().wait(LOOK_SECONDS)
        _leave_in_time(loop, leave, gone)

    threading.Thread(target=look, daemon=True, name="terminal").start()


def terminal_there() -> bool:
    """Whether anybody can read and type: at a terminal, or in a browser at the other end of a pipe."""
    try:
        if sys.__stdin__ is None:
            return False
        number = sys.__stdin__.fileno()
        return os.isatty(number) or (DRIVER in os.environ and not _hung_up(number))
    except (OSError, ValueError):
        return False


def _hung_up(pipe: int) -> bool:
    poll = select.poll()
    poll.register(pipe, select.POLLHUP)
    return any(event & (select.POLLHUP | select.POLLERR | select.POLLNVAL) for _, event in poll.poll(0))


def _leave_in_time(loop: asyncio.AbstractEventLoop, leave: Callable[[int], object], code: int) -> None:
    late = threading.Timer(GRACE_SECONDS, _leave_now, (code,))
    late.daemon = True
    late.start()
    try:
        loop.call_soon_threadsafe(leave, code)
    except RuntimeError:  # the loop has ended: the app is leaving as it is
        return


def _leave_now(code: int) -> NoReturn:
    os._exit(code)
