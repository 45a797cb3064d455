"""`tallycord --help`: every command in its group, on one screen."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import fill

from companion.cli.command_table import COMMANDS

# A group of commands: its title, and each line's commands with a word or two for what they do.
Group = tuple[str, tuple[tuple[tuple[str, ...], str], ...]]

LEFT: tuple[Group, ...] = (
    ("Make a design", (
        (("design",), "draw one on the screen"),
        (("plan", "sheet"), "all steps; on paper"),
        (("check",), "its errors and warnings"),
        (("compare",), "made in other ways"),
        (("reach",), "how far your cord goes"),
        (("forecast",), "what readings mean"),
        (("schema",), "for your editor"),
    )),
    ("Follow a piece", (
        (("try",), "two minutes, nothing kept"),
        (("follow",), "make it, step by step"),
        (("start",), "begin, without a screen"),
        (("next",), "this step is done"),
        (("undo", "redo"), "the latest act, whatever"),
        (("jump",), "set the count to a step"),
        (("note",), "write a note here"),
        (("finish",), "it is done: its length"),
        (("abandon",), "put it away, unfinished"),
    )),
)  # fmt: skip
RIGHT: tuple[Group, ...] = (
    ("Measure", (
        (("measure",), "what the ruler says"),
        (("readings",), "all of them; take one out"),
        (("recount",), "how many beads you count"),
        (("remedy",), "ways to put it right"),
        (("join",), "new cord joined on"),
    )),
    ("Look", (
        (("pieces",), "all of them"),
        (("status", "journal"), "now, and all before"),
        (("knots",), "how each is worked"),
        (("serve",), "on a tablet"),
    )),
    ("Keep", (
        (("cords", "cord"), "cards and test knots"),
        (("settings", "risk"), "unit, colours, more"),
        (("rename",), "another name"),
        (("export", "import"), "all of it in one file"),
        (("rescue",), "save a damaged file"),
        (("completion",), "for your Tab key"),
    )),
)  # fmt: skip
COLUMN = 39
ABOUT = "Follow a design of knotted cord jewellery, bead by bead and knot by knot."
USAGE = "usage: tallycord [COMMAND ...]     Without a command it opens the bench."
AFTER = (
    "  tallycord plan patterns/skerry-bracelet.yaml     tallycord COMMAND --help",
    "Options: --version; --spoken writes marks as words. A piece that is not named",
    "is the latest. Exit codes: 0 done, 1 needs attention, 2 wrong usage.",
)


def help_screen(columns: int, spoken: bool) -> str:
    """The commands side by side; one after another where there is no room; as sentences where it is listened to."""
    if spoken:
        return "\n".join((*_sentences(), ""))
    left, right = (list(_lines(groups)) for groups in (LEFT, RIGHT))
    if columns < 2 * COLUMN - 1:
        shown = [*left, *right]
    else:
        right += [""] * (len(left) - len(right))
        shown = [f"{one:<{COLUMN}}{other}" if other else one for one, other in zip(left, right, strict=True)]
    above, below = (fill(text, columns - 1) for text in (ABOUT, " ".join(AFTER[1:])))
    return "\n".join((USAGE, above, *shown, AFTER[0], below, ""))


def _lines(groups: Sequence[Group]) -> Iterator[str]:
    for title, commands in groups:
        yield title
        gap = max(len(", ".join(names)) for names, _ in commands) + 2
        yield from (f"  {', '.join(names):<{gap}}{words}" for names, words in commands)


def _sentences() -> Iterator[str]:
    """The same for the ear: a sentence for each command, as its own line of the help has it."""
    words = {command.name: command.words for command in COMMANDS}
    yield "Usage: tallycord COMMAND. Without a command it opens the bench."
    yield ABOUT
    for title, commands in (*LEFT, *RIGHT):
        yield f"{title}."
        yield from (f"tallycord {name}: {words[name]}." for names, _ in commands for name in names)
    yield "An example: tallycord plan patterns/skerry-bracelet.yaml."
    yield "tallycord COMMAND --help tells more of one command."
    yield "tallycord --version tells the version. With --spoken marks are written as words."
    yield "A piece that is not named is the latest."
    yield "Exit code 0 is done, 1 needs attention, 2 is wrong usage."


def listed() -> list[str]:
    """Every command that it names."""
    return [name for _, commands in (*LEFT, *RIGHT) for names, _ in commands for name in names]
