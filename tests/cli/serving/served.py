"""A server of its own for a test, in a process of its own."""

from __future__ import annotations

import os
import re
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path

from msgspec import Struct


class Served(Struct, frozen=True):
    """Where it answers, and the word that lets one in."""

    port: int
    word: str

    @property
    def address(self) -> str:
        """As it was printed."""
        return f"http://127.0.0.1:{self.port}/?word={self.word}"

    def ask(self, path: str, method: str = "GET", **headers: str) -> HTTPResponse:
        """The answer to one request, its body read."""
        connection = HTTPConnection("127.0.0.1", self.port, timeout=20)
        connection.request(method, path, headers={name.replace("_", "-"): value for name, value in headers.items()})
        answered = connection.getresponse()
        answered.read()
        connection.close()
        return answered


def free_port() -> int:
    """One that nobody listens on."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])


@contextmanager
def served(home: Path) -> Iterator[Served]:
    """`tallycord serve` on pieces in that folder."""
    port = free_port()
    environment = {**os.environ, "TALLYCORD_HOME": str(home)}
    command = [sys.executable, "-m", "companion", "serve", "--port", str(port)]
    with subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout
            told = process.stdout.readline()
            found = re.search(rf"http://127\.0\.0\.1:{port}/\?word=(\S+)", told)
            assert found, told
            assert process.stdout.readline() == "Stop it with Ctrl+C.\n"
            yield Served(port, found[1])
        finally:
            process.terminate()
