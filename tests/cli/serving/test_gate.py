"""Who is let in."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from companion.cli.serving.gate import COOKIE, Asked, answer, is_this_machine, new_word

WORD = "mooring-and-bollard"
PLAIN = Asked("GET", "127.0.0.1:8717", None, "", None, opens_socket=False)
SOCKET = replace(PLAIN, cookies=f"{COOKIE}={WORD}", origin="http://127.0.0.1:8717", opens_socket=True)


@pytest.mark.parametrize(
    ("asked", "answered"),
    [
        (PLAIN, "refuse"),
        (replace(PLAIN, word=WORD), "remember"),
        (replace(PLAIN, word=WORD[:-1]), "refuse"),
        (replace(PLAIN, word=""), "refuse"),
        (replace(PLAIN, cookies=f"{COOKIE}={WORD}"), "let in"),
        (replace(PLAIN, cookies=f"other=1; {COOKIE}={WORD}"), "let in"),
        (replace(PLAIN, cookies=f"{COOKIE}={WORD}x"), "refuse"),
        (replace(PLAIN, cookies=f"{COOKIE}={WORD}", method="POST"), "refuse"),
        (replace(PLAIN, word=WORD, method="PUT"), "refuse"),
        (SOCKET, "let in"),
        (replace(SOCKET, origin=None), "refuse"),
        (replace(SOCKET, origin="http://elsewhere.example"), "refuse"),
        (replace(SOCKET, origin="null"), "refuse"),
        (replace(SOCKET, cookies="", word=WORD), "refuse"),  # a socket is opened by a page that was let in
        (replace(PLAIN, cookies=f"{COOKIE}={WORD}", origin="http://elsewhere.example"), "refuse"),
    ],
)
def test_one_who_knows_the_word_on_the_page_itself(asked: Asked, answered: str) -> None:
    assert answer(asked, WORD) == answered


@given(st.text(max_size=60), st.text(max_size=60), st.booleans())
def test_nobody_else(told: str, cookies: str, opens_socket: bool) -> None:
    asked = replace(PLAIN, word=told, cookies=cookies, opens_socket=opens_socket)
    assert answer(asked, WORD + "\N{OCTOPUS}") == "refuse"


def test_words_are_long_and_each_time_another() -> None:
    words = {new_word() for _ in range(50)}
    assert len(words) == 50
    assert min(map(len, words)) >= 32


@pytest.mark.parametrize(
    ("address", "here"),
    [
        ("127.0.0.1", True),
        ("localhost", True),
        ("::1", True),
        ("0.0.0.0", False),
        ("192.168.1.20", False),
        ("bench.local", False),
    ],
)
def test_which_addresses_others_can_reach(address: str, here: bool) -> None:
    assert is_this_machine(address) == here
