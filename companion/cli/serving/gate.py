"""Who is let in: only one who knows the word that is in the address. It is told once, and kept in a cookie."""

from __future__ import annotations

import secrets
from http.cookies import SimpleCookie
from ipaddress import ip_address
from typing import Literal

from msgspec import Struct

COOKIE, QUESTION = "tallycord_word", "word"
WORD_BYTES = 24
REFUSED = "Open the whole address that Tallycord has printed, with its word at the end."

Answer = Literal["let in", "remember", "refuse"]


def new_word() -> str:
    """A word that nobody guesses; another one each time."""
    return secrets.token_urlsafe(WORD_BYTES)


class Asked(Struct, frozen=True):
    """What is known of a request before it is answered. `origin`: the page that a socket was opened from, None where
    the browser does not say; `opens_socket`: whether it would send keys."""

    method: str
    host: str
    word: str | None
    cookies: str
    origin: str | None
    opens_socket: bool


def answer(asked: Asked, word: str) -> Answer:
    """Whether a request is let in, or told the word for the first time and to be remembered by a cookie."""
    if asked.method not in ("GET", "HEAD"):
        return "refuse"
    if asked.opens_socket and asked.origin is None:
        return "refuse"
    if asked.origin is not None and asked.origin not in (f"http://{asked.host}", f"https://{asked.host}"):
        return "refuse"  # another page that the same browser has open
    if _same(_remembered(asked.cookies), word):
        return "let in"
    return "remember" if not asked.opens_socket and _same(asked.word, word) else "refuse"


def _remembered(cookies: str) -> str | None:
    try:
        found = SimpleCookie(cookies).get(COOKIE)
    except Exception:  # whatever a stranger sends
        return None
    return found.value if found else None


def _same(told: str | None, word: str) -> bool:
    return told is not None and secrets.compare_digest(told.encode("utf-8", "replace"), word.encode())


def is_this_machine(address: str) -> bool:
    """Whether an address can be reached from this machine only."""
    if address == "localhost":
        return True
    try:
        return ip_address(address).is_loopback
    except ValueError:
        return False
