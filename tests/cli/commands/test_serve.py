"""What `serve` refuses before it serves anything; see tests/cli/serving for the rest."""

from __future__ import annotations

import socket

import pytest

from companion.cli.commands import serve


@pytest.mark.parametrize("port", ["0", "70000", "many", "-1"])
def test_a_port_that_is_none(tallycord, port) -> None:
    ran = tallycord("serve", f"--port={port}")
    assert (ran.code, ran.out) == (2, "")
    assert "expected a port" in ran.err


def test_without_what_it_needs_it_says_how_to_get_it(tallycord, monkeypatch) -> None:
    monkeypatch.setattr(serve, "find_spec", lambda name: None)
    ran = tallycord("serve")
    assert (ran.code, ran.out) == (1, "")
    assert "pip install" in ran.err


def test_an_address_that_is_taken(tallycord) -> None:
    pytest.importorskip("textual_serve")
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        ran = tallycord("serve", "--port", port)
    assert (ran.code, ran.out) == (1, "")
    assert f"127.0.0.1:{port} can't be had" in ran.err
