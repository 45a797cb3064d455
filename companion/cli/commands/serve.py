"""serve: the app in a browser, for a tablet."""

from __future__ import annotations

import argparse
import shlex
import sys
from importlib.util import find_spec

from companion.cli.arguments import Wrong, whole_number
from companion.cli.printing import complain, say
from companion.cli.serving.gate import QUESTION, is_this_machine, new_word
from companion.core.values.text import plain
from companion.workshop import Workshop

HERE, PORT = "127.0.0.1", "8717"
MOST_PORT = 65535
HOW_TO_INSTALL = "This needs one more package. Install it with: pip install 'tallycord[serve]'"
OPEN_TO_OTHERS = (
    "▲ Anybody who has this address and can reach this machine can see your pieces and work on them, and what is sent "
    "can be read on the way. Use it in a network that you trust, tell the address to nobody else, and stop it when you "
    "are done."
)


def declare_serve(command: argparse.ArgumentParser) -> None:
    """What `serve` takes."""
    command.add_argument(
        "--host", metavar="ADDRESS", default=HERE, help="this machine's address for others (else none)"
    )
    command.add_argument("--port", metavar="NUMBER", default=PORT, help=f"the number at the end of it (else {PORT})")


def run_serve(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Serve the bench until Ctrl+C."""
    port = whole_number(arguments.port, "a port")
    if not 0 < port <= MOST_PORT:
        raise Wrong(f"Found {port}; expected a port from 1 to {MOST_PORT}.")
    if find_spec("textual_serve") is None:
        complain(HOW_TO_INSTALL)
        return 1
    from companion.cli.serving.server import TabletServer

    workshop.close()  # each browser opens the pieces for itself
    host, word = arguments.host, new_word()

    def told() -> None:
        say(f"Open this address in a browser: http://{_in_an_address(host)}:{port}/?{QUESTION}={word}")
        if not is_this_machine(host):
            say(OPEN_TO_OTHERS)
        say("Stop it with Ctrl+C.")
        sys.stdout.flush()

    try:
        TabletServer(shlex.join((sys.executable, "-m", "companion")), host, port, word, told).run()
    except OSError as error:
        complain(f"{plain(host)}:{port} can't be had: {(error.strerror or 'no reason given').lower()}.")
        return 1
    return 0


def _in_an_address(host: str) -> str:
    return f"[{host}]" if ":" in host else host
