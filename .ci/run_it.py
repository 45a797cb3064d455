"""Run the README's own `## Run it` line in a fresh clone and an empty home, in a real pseudo-terminal.

It must end in a shipped design open on the screen: Enter begins, and the first step is there to be made.
"""

import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import tempfile
import termios
import time
from pathlib import Path

REPO = Path(__file__).parents[1]
GIVE_UP_SECONDS = 300


def run_line() -> str:
    section = (REPO / "README.md").read_text(encoding="utf-8").split("## Run it\n", 1)[1].split("\n## ", 1)[0]
    (line,) = re.search(r"```sh\n(.*?)```", section, re.S).group(1).strip().splitlines()
    return line


def seen(master: int, words: str, written: bytearray) -> None:
    end = time.monotonic() + GIVE_UP_SECONDS
    while words.encode() not in written:
        if time.monotonic() > end:
            sys.exit(f"never saw {words!r}; what was written:\n{written.decode('utf-8', 'replace')[-2000:]}")
        if select.select([master], [], [], 1)[0]:
            written += os.read(master, 65536)


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        clone = Path(folder) / "clone"
        subprocess.run(["git", "clone", "--quiet", str(REPO), str(clone)], check=True)
        master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        kept = {name: value for name, value in os.environ.items() if not name.startswith(("TALLYCORD", "XDG"))}
        home = {**kept, "HOME": str(Path(folder) / "home"), "TERM": "xterm-256color"}
        line = run_line()
        print(f"+ {line}", flush=True)
        run = subprocess.Popen(
            ["bash", "-c", line], cwd=clone, env=home, stdin=slave, stdout=slave, stderr=slave, start_new_session=True
        )
        os.close(slave)
        written = bytearray()
        seen(master, "Count out", written)
        os.write(master, b"\r")
        seen(master, "step 1 of ", written)
        os.killpg(run.pid, signal.SIGTERM)
        run.wait(30)
    print("the shipped design is open, its first step on the screen")


if __name__ == "__main__":
    main()
