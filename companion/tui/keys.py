"""Keys in their turn: each is done before the next one, which goes to the screen that is there by then.

Textual passes a key on the moment it is typed, from widget to widget, to whatever screen is on top. Typed faster than
screens are built, it would reach a dialog that has no line to type in yet, or one that is already gone.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from time import monotonic
from typing import Any, TypeVar, cast

from rich.console import RenderableType
from textual import events, on
from textual.app import App
from textual.dom import DOMNode
from textual.screen import Screen
from textual.widget import Widget
from textual.worker import Worker, get_current_worker

from companion.tui.commands import Command
from companion.tui.widgets.text import KeyLine

T = TypeVar("T")
Answer = TypeVar("Answer")


class KeysInTurnApp(App[int]):
    """An app that keeps what is typed until the screen it is meant for is there.

    An Enter that is typed before the app has the terminal to itself comes as Ctrl+J: it is one all the same.
    """

    def __init__(self) -> None:
        super().__init__()
        self._typed: deque[events.Key | events.Paste] = deque()
        self._there: KeysInTurnScreen[Any] | None = None  # the screen that was last on top, built and drawn
        self._called = False  # the next key is on its way already
        self._typed_at: float | None = None  # when the key that is being done was typed
        self.on_typed: Callable[[], None] = lambda: None  # told of every key

    async def on_event(self, event: events.Event) -> None:
        if isinstance(event, events.Key | events.Paste) and not event.is_forwarded:
            early = isinstance(event, events.Key) and event.key == "ctrl+j"
            self._typed.append(events.Key("enter", "\r") if early else event)
            self.on_typed()
            self.next_key()
        elif isinstance(event, events.MouseEvent) and not event.is_forwarded and not self._has_screen:
            return  # the click was meant for what stood there before
        else:
            await super().on_event(event)

    def arrived(self, screen: KeysInTurnScreen[Any]) -> None:
        """That screen is built and drawn: what is typed can go to it."""
        if screen.is_active:
            self._there = screen
            self.next_key()

    def exit(self, result: int | None = None, return_code: int = 0, message: RenderableType | None = None) -> None:
        """Leave the app; what is typed from now on is for nobody."""
        self._there = None
        super().exit(result, return_code, message)

    @property
    def _has_screen(self) -> bool:
        return self._there is not None and self._there.is_active

    def takes_keys(self) -> bool:
        """Whether the screen on top is there, and nothing that was begun on it puts a question next."""
        return self._has_screen and not cast("KeysInTurnScreen[Any]", self._there).is_about_to_ask()

    def next_key(self) -> None:
        """Have the next key done, once the app has done what the last one set going: a line may get the focus."""
        if self._typed and not self._called:
            self._called = self.post_message(events.Callback(self._do_next_key))

    async def _do_next_key(self) -> None:
        self._called = False
        if self._typed and self.takes_keys():
            event = self._typed.popleft()
            self._typed_at = event.time
            await self._do(event)
            self._typed_at = None
            self.next_key()

    def typed_at(self) -> float:
        """When the key that is being done was typed, in seconds as `monotonic` has them; now, where it is none."""
        return monotonic() if self._typed_at is None else self._typed_at

    async def _do(self, event: events.Key | events.Paste) -> None:
        """What Textual does with a key, without the way through the queues of all widgets."""
        self.app_focus = True
        if isinstance(event, events.Paste):
            text = next(iter(event.text.splitlines()), "")
        elif await self._check_bindings(event.key, priority=True):
            return
        else:
            text = event.character if event.is_printable and event.character else ""
        typed = bool(text) and self._there is not None and self._there.type_text(text)
        if not typed and isinstance(event, events.Key):
            await self._check_bindings(event.key)

    async def run_action(
        self,
        action: str | tuple[str, str, tuple[object, ...]],
        default_namespace: DOMNode | None = None,
        namespaces: Mapping[str, DOMNode] | None = None,
    ) -> bool:
        """Do what a key or a click asks for, but nothing on a screen that is not there yet, or not any more."""
        if isinstance(default_namespace, Widget):
            screen = next((node for node in default_namespace.ancestors_with_self if isinstance(node, Screen)), None)
            if screen is None or not (screen.is_mounted and screen.is_active):
                return False
        return await super().run_action(action, default_namespace, namespaces)


class KeysInTurnScreen(Screen[T]):
    """A screen of that app: says when it is there, and when keys have to wait for a question."""

    def __init__(self) -> None:
        super().__init__()
        self._waits_for: dict[Worker[Any], Screen[Any]] = {}  # the screen on top of which a worker has nothing to do

    @property
    def turns(self) -> KeysInTurnApp:
        """The app, as the one who gives each key its turn."""
        return cast("KeysInTurnApp", self.app)

    async def on_event(self, event: events.Event) -> None:
        """A screen of an app that ends before it is built has nothing to begin with."""
        if self.is_attached or not isinstance(event, events.Mount | events.Resize | events.ScreenResume):
            await super().on_event(event)

    def on_screen_resume(self) -> None:
        self.app.call_later(self.turns.arrived, self)

    def on_worker_state_changed(self) -> None:
        self.turns.next_key()

    def type_text(self, text: str) -> bool:
        """Type that text where the hand is; whether there is a line to type in."""
        return False

    # -- questions ----------------------------------------------------------------------------------------------------

    def is_about_to_ask(self) -> bool:
        """Whether something was begun here that may put a question next: the keys after it are the answer."""
        stack = self.app.screen_stack
        mine = (worker for worker in self.workers if worker.node is self and not worker.is_finished)
        return any(self._waits_for.get(worker) not in stack for worker in mine)

    async def answer(self, dialog: Screen[Answer]) -> Answer:
        """What the maker answers to that dialog."""
        with self._waiting_for(dialog):
            return await self.app.push_screen_wait(dialog)

    @contextmanager
    def keys_go_on(self) -> Iterator[None]:
        """Meanwhile keys are taken here: what is worked out beside the screen holds up no step."""
        with self._waiting_for(self):
            self.turns.next_key()
            yield

    @contextmanager
    def _waiting_for(self, screen: Screen[Any]) -> Iterator[None]:
        worker = get_current_worker()
        self._waits_for[worker] = screen
        try:
            yield
        finally:
            del self._waits_for[worker]

    # -- clicks -------------------------------------------------------------------------------------------------------

    @on(KeyLine.Chosen)
    async def key_chosen(self, message: KeyLine.Chosen) -> None:
        await self.choose(message.command)

    async def choose(self, command: Command) -> None:
        """Do the command that was clicked."""
        await self.click(command.action)

    async def click(self, action: str) -> None:
        """Do what a click asks for, where a key would be taken as well."""
        if self.is_active and self.turns.takes_keys():
            await self.run_action(action)
