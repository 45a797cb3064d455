"""`tallycord` on the command line: hands over to the commands."""

from __future__ import annotations

import gc
import sys
from collections.abc import Sequence

from companion import __version__


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; its exit code: 0 done, 1 something for the maker to see to, 2 wrong usage."""
    arguments = list(sys.argv[1:] if argv is None else argv)
    if arguments == ["--version"]:  # asked by scripts and installers: nothing else is loaded for it
        print(f"tallycord {__version__}")
        return 0
    gc.disable()  # while modules load there is nothing to collect, and looking takes a tenth of the start;
    from companion.cli.main import run  # the app turns it on again once its first screen stands

    return run(arguments)


if __name__ == "__main__":
    sys.exit(main())
