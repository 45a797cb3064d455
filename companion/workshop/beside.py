"""Work done beside the screen, in a thread that nobody waits for when the program ends."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future
from threading import Thread
from typing import TypeVar

T = TypeVar("T")


def started(work: Callable[[], T], name: str) -> Future[T]:
    """What the work will come to: it is begun now, in a thread of that name."""
    answer: Future[T] = Future()
    Thread(target=_done, args=(work, answer), daemon=True, name=name).start()
    return answer


def _done(work: Callable[[], T], answer: Future[T]) -> None:
    try:
        answer.set_result(work())
    except BaseException as error:  # whoever waits for the answer gets it
        answer.set_exception(error)
