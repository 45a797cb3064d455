"""What Textual does over and over in a test, done once, or not before somebody looks.

Nothing of it changes what stands on a screen. In the long run (tests/examples.py) every frame is painted.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache, wraps
from typing import Any
from weakref import WeakKeyDictionary, WeakSet

import pytest
from textual._compositor import Compositor
from textual._context import visible_screen_stack
from textual._styles_cache import StylesCache
from textual.app import App
from textual.css import stylesheet
from textual.css.model import RuleSet
from textual.css.tokenize import Token
from textual.strip import Strip

# -- stylesheets ------------------------------------------------------------------------------------------------------

parse = stylesheet.parse
parsed: dict[object, list[RuleSet]] = {}


@cache
def names_in(css: str) -> tuple[str, ...]:
    """The variables of that text."""
    return tuple(sorted(set(re.findall(r"\$([\w-]+)", css))))


def parse_once(
    scope: str, css: str, read_from: tuple[str, str], *, variable_tokens: dict[str, list[Token]], **more: Any
) -> list[RuleSet]:
    """The rules of that text, the same for every app whose variables have the same values: nobody changes a rule."""
    used = (variable_tokens.get(name, ()) for name in names_in(css))
    values = tuple(tuple((token.name, token.value) for token in tokens) for tokens in used)
    key = (scope, css, read_from, values, *sorted(more.items()))
    if key not in parsed:
        parsed[key] = list(parse(scope, css, read_from, variable_tokens=variable_tokens, **more))
    return parsed[key]


# -- lines ------------------------------------------------------------------------------------------------------------


class Forgetful:
    """In place of the seven caches that each line of a screen is born with: to make them takes longer than they save
    on a screen that is painted a few times."""

    def get(self, _key: object, default: object = None) -> object:
        return default

    def __getitem__(self, key: object) -> object:
        raise KeyError(key)

    def __setitem__(self, _key: object, _value: object) -> None:
        pass

    def __contains__(self, _key: object) -> bool:
        return False


# -- frames -----------------------------------------------------------------------------------------------------------


class Looks:
    """What the screens looked like when a test last looked, and which of them have a frame to paint since."""

    def __init__(self) -> None:
        self.watching = False
        self.changes = 0  # of the look or the place of any widget
        self.last: WeakKeyDictionary[App[Any], tuple[object, list[Strip]]] = WeakKeyDictionary()
        self.due: WeakSet[Compositor] = WeakSet()

    def changing(self, method: Callable[..., Any]) -> Callable[..., Any]:
        """That method, after which a screen may look different."""

        @wraps(method)
        def changed(*args: Any, **more: Any) -> Any:
            self.changes += 1
            return method(*args, **more)

        return changed

    def leave_frame(self, compositor: Compositor, *_args: object, **_more: object) -> None:
        """In place of painting it: a frame that nobody looks at is over with the next one."""
        compositor._dirty_regions.clear()
        self.due.add(compositor)

    def paint(self, app: App[Any]) -> None:
        """Paint what is due: some things begin only when they are painted for the first time."""
        if app.screen._compositor in self.due:
            self.strips(app)

    def strips(self, app: App[Any]) -> list[Strip]:
        """The screen as it goes to the terminal. A dialog is drawn over the page below it: where nobody says which
        page that is, it is drawn over none, and stays so, for what was drawn is kept."""
        compositor = app.screen._compositor
        now = (self.changes, [id(screen) for screen in app.screen_stack])
        before, strips = self.last.get(app, (None, []))
        if now != before or not self.watching:
            self.due.discard(compositor)
            visible_screen_stack.set(app._background_screens)
            strips = compositor.render_strips()
            self.last[app] = now, strips
        return strips


looks = Looks()


def save_time(monkeypatch: pytest.MonkeyPatch, every_frame: bool = False) -> None:
    """Do once what need not be done twice."""
    from tests.examples import LONG  # not known before the command line is read

    forgetful = Forgetful()
    monkeypatch.setattr(looks, "watching", True)
    monkeypatch.setattr(stylesheet, "parse", parse_once)
    monkeypatch.setattr("textual.strip.FIFOCache", lambda _maxsize: forgetful)
    for whose, name in (
        (StylesCache, "set_dirty"), (StylesCache, "clear"), (Compositor, "reflow"), (Compositor, "reflow_visible"),
    ):  # fmt: skip
        monkeypatch.setattr(whose, name, looks.changing(getattr(whose, name)))
    if not (every_frame or LONG):
        monkeypatch.setattr(Compositor, "render_update", lambda *args, **more: looks.leave_frame(*args, **more))
