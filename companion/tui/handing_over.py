"""What was worked out in a thread, handed to the app that asked for it."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from concurrent.futures import Future
from contextlib import suppress
from contextvars import copy_context
from typing import TypeVar

T = TypeVar("T")


def hand_over(answer: Future[T], arrived: Callable[[Future[T]], None]) -> None:
    """Have `arrived` called by the app, in its own thread, once the answer is there; not if the app has ended."""
    loop, context = asyncio.get_running_loop(), copy_context()

    def tell(answer: Future[T]) -> None:
        with suppress(RuntimeError):  # the app has ended meanwhile
            loop.call_soon_threadsafe(arrived, answer, context=context)

    answer.add_done_callback(tell)
