"""The server: who is let in, what it sends with its page, and a few steps of a piece over its socket."""

from __future__ import annotations

import asyncio
import random
import re
import socket
from collections.abc import Iterator
from pathlib import Path

import pytest

from companion.cli.serving.gate import COOKIE
from companion.cli.serving.server import _plain_host
from companion.workshop import open_at
from tests.cli.serving.served import Served, served

aiohttp = pytest.importorskip("aiohttp")
SECONDS = 60
BOUNCE_SECONDS = 0.3  # within a quarter of a second the same key once more is the same press


@pytest.fixture(scope="module")
def home(tmp_path_factory) -> Path:
    home = tmp_path_factory.mktemp("served")
    workshop = open_at(home)
    workshop.start(Path(__file__).parents[3] / "patterns" / "skerry-bracelet.yaml")
    workshop.close()
    return home


@pytest.fixture(scope="module")
def server(home) -> Iterator[Served]:
    with served(home) as one:
        yield one


def test_the_word_is_told_once_and_then_remembered(server: Served) -> None:
    assert server.ask("/").status == 403
    assert server.ask("/?word=wrong").status == 403
    first = server.ask(f"/?word={server.word}")
    assert (first.status, first.getheader("Location")) == (303, "/")
    cookie = first.getheader("Set-Cookie") or ""
    assert cookie.startswith(f"{COOKIE}={server.word};")
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie
    page = server.ask("/", Cookie=f"{COOKIE}={server.word}")
    assert page.status == 200
    policy = page.getheader("Content-Security-Policy") or ""
    assert "default-src 'none'" in policy
    assert f"connect-src 'self' ws://127.0.0.1:{server.port}" in policy
    assert page.getheader("Referrer-Policy") == "no-referrer"


@pytest.mark.parametrize("path", ["/page.js", "/page.css", "/static/js/textual.js", "/static/css/xterm.css"])
def test_what_the_page_needs_is_there_and_behind_the_gate(server: Served, path: str) -> None:
    assert server.ask(path).status == 403
    assert server.ask(path, Cookie=f"{COOKIE}={server.word}").status == 200


def test_it_answers_on_the_address_that_was_told_and_on_no_other(server: Served) -> None:
    with pytest.raises(OSError), socket.create_connection(("127.0.0.2", server.port), timeout=5):
        pass


def test_a_hundred_hostile_requests_change_nothing(server: Served, home: Path) -> None:
    before = open_at(home).open("skerry-bracelet")
    chance = random.Random(8717)
    paths = [
        "/",
        "/ws",
        "/ws?word=x",
        "/../../etc/passwd",
        "/static/%2e%2e/server.py",
        "/download/x",
        "/?word=",
        "/%00",
    ]
    for _ in range(100):
        headers = {
            "Cookie": f"{COOKIE}={chance.randbytes(12).hex()}",
            "Origin": chance.choice(["http://elsewhere.example", f"http://127.0.0.1:{server.port}", "null"]),
            "Upgrade": "websocket",
            "Connection": "Upgrade",
        }
        method = chance.choice(["GET", "POST", "PUT", "DELETE", "OPTIONS", "HEAD"])
        assert server.ask(chance.choice(paths), method, **headers).status >= 400
    assert open_at(home).open("skerry-bracelet") == before
    assert server.ask("/", Cookie=f"{COOKIE}={server.word}").status == 200


async def test_a_few_steps_over_the_socket(server: Served, home: Path) -> None:
    """What the page does: the bench, the piece, five steps; then it goes, and the steps are there."""
    workshop = open_at(home)
    headers = {"Cookie": f"{COOKIE}={server.word}", "Origin": f"http://127.0.0.1:{server.port}"}
    address = f"http://127.0.0.1:{server.port}/ws?width=100&height=30"
    async with aiohttp.ClientSession() as browser, browser.ws_connect(address, headers=headers) as page:
        await seen(page, "Under way")
        await page.send_json(["stdin", "\r"])
        await seen(page, "step 1 of 33")
        painted = asyncio.create_task(drained(page))
        for done in range(1, 6):
            await asyncio.sleep(BOUNCE_SECONDS)
            await page.send_json(["stdin", " "])
            async with asyncio.timeout(SECONDS):
                while workshop.open("skerry-bracelet").piece.done < done:
                    await asyncio.sleep(0.02)
        painted.cancel()
    assert workshop.open("skerry-bracelet").piece.done == 5


async def seen(page, words: str) -> None:
    """Wait until these words have come, as a whole screen that is new has them."""
    come = ""
    async with asyncio.timeout(SECONDS):
        while words not in come:
            message = await page.receive()
            assert message.type in (aiohttp.WSMsgType.BINARY, aiohttp.WSMsgType.TEXT), message
            if message.type == aiohttp.WSMsgType.BINARY:
                come += re.sub(r"\x1b\[[0-9;?]*[A-Za-z]", "", message.data.decode("utf-8", "replace"))


async def drained(page) -> None:
    async for _ in page:
        pass


@pytest.mark.parametrize(
    ("host", "shown"),
    [("127.0.0.1:8717", "127.0.0.1:8717"), ('x"><script>', "xscript"), ("[::1]:80", "[::1]:80"), ("a{b}c", "abc")],
)
def test_nothing_but_a_name_and_a_port_gets_into_the_page(host: str, shown: str) -> None:
    assert _plain_host(host) == shown
