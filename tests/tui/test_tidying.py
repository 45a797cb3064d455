"""Garbage goes when keys rest, once, and not before."""

from __future__ import annotations

import gc
import weakref

import pytest

from companion.tui.tidying import QUIET_SECONDS, RARELY, Tidying


class Knot:
    """Holds on to itself."""

    def __init__(self) -> None:
        self.own = self


@pytest.fixture
def thresholds():
    before = gc.get_threshold()
    yield before
    gc.set_threshold(*before)
    gc.unfreeze()


def test_it_waits_until_keys_have_rested_and_looks_once() -> None:
    now = [100.0]
    tidying = Tidying(clock=lambda: now[0])
    gc.disable()
    try:
        left = weakref.ref(Knot())
        assert not tidying.look()  # nothing was typed
        tidying.typed()
        now[0] += QUIET_SECONDS / 2
        assert not tidying.look()
        tidying.typed()
        now[0] += QUIET_SECONDS * 0.9
        assert not tidying.look()
        assert left() is not None
        now[0] += QUIET_SECONDS * 0.2
        assert tidying.look()
        assert left() is None
        assert not tidying.look()
    finally:
        gc.enable()


def test_all_is_looked_through_unasked_but_rarely(thresholds) -> None:
    Tidying.begin()
    assert gc.get_threshold() == (*thresholds[:2], RARELY)
    assert gc.get_freeze_count() > 0
