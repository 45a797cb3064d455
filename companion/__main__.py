"""`tallycord` on the command line: hands over to the commands."""

from __future__ import annotations

import atexit
import gc
import sys
from collections.abc import Sequence
from importlib import import_module

from companion import __version__


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; its exit code: 0 done, 1 something for the maker to see to, 2 wrong usage."""
    arguments = list(sys.argv[1:] if argv is None else argv)
    if arguments == ["--version"]:  # asked by scripts and installers: nothing else is loaded for it
        print(f"tallycord {__version__}")
        return 0
    gc.disable()  # while modules load there is nothing to collect, and looking takes a tenth of the start;
    atexit.register(gc.freeze)  # nor at the end, when the system takes all of it back
    _load_values()
    from companion.cli.main import run  # the app turns it on again once its first screen stands

    return run(arguments)


def _load_values() -> None:
    """Load msgspec without what it needs on older Pythons only, which takes as long to load as all else of it: it has
    to do without wherever that is not installed. Whoever asks for it later gets it."""
    older = "typing_extensions"
    if older not in sys.modules:
        sys.modules[older] = None  # type: ignore[assignment]  # so it is not to be had
        try:
            import_module("msgspec")
        finally:
            del sys.modules[older]


if __name__ == "__main__":
    sys.exit(main())
