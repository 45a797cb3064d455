"""The layers look only downstairs, and a start loads only what it needs."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Collection, Iterable
from functools import cache
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "companion"
FLOORS = {
    "core": (),
    "storage": ("core",),
    "workshop": ("storage", "core"),
    "cli": ("workshop", "core", "tui.app"),  # the one door from the commands to the app
    "tui": ("workshop", "core"),
    "__main__": ("cli",),
    "__init__": (),
}
# The rooms of the pure floor, each with those that it may look into besides its own.
ROOMS = {
    "maths": (),
    "values": (),
    "journal": ("values",),
    "cord": ("values", "maths", "journal"),
    "closures": ("values", "cord"),
    "plan": ("values", "maths", "journal", "cord", "closures"),
    "picture": ("values", "cord", "closures", "plan"),
    "drawing": ("values", "plan", "picture"),
    "tying": ("values", "picture", "drawing"),
    "draft": ("values", "plan", "picture"),
    "forecast": ("values", "maths", "journal", "cord", "closures", "plan"),
    "chart": ("values", "journal", "plan", "forecast"),
    "variants": ("values", "journal", "cord", "closures", "plan"),
    "words": (
        *("values", "maths", "journal", "cord", "closures", "plan", "picture", "drawing", "tying", "draft"),
        *("forecast", "chart", "variants"),
    ),
    "sheet": (
        *("values", "maths", "journal", "cord", "closures", "plan", "picture", "drawing", "tying"),
        *("forecast", "words"),
    ),
    "remedies": ("values", "maths", "journal", "cord", "closures", "plan", "forecast", "words"),
    "gate": ("values", "journal", "cord", "closures", "plan"),
}
# What the pure floor may use of the standard library: nothing with files, a clock, chance or a process behind it.
PURE = {
    "__future__", "bisect", "collections", "difflib", "enum", "fractions", "functools", "html",
    "itertools", "math", "msgspec", "operator", "re", "statistics", "string", "textwrap", "typing", "unicodedata",
}  # fmt: skip


# Never at hand on the pure floor, whoever brings it in.
IMPURE = {
    "sqlite3", "pydantic", "yaml", "textual", "rich", "platformdirs", "numpy", "scipy", "secrets", "subprocess",
    "socket", "asyncio", "tempfile", "logging",
}  # fmt: skip


@cache
def imported_names(file: Path) -> tuple[str, ...]:
    """Every module that a file names: at its top, inside functions, for types only, or by import_module."""
    names: list[str] = []
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        match node:
            case ast.Import():
                names += [alias.name for alias in node.names]
            case ast.ImportFrom():
                assert node.level == 0, f"{file}: write imports in full"
                names.append(node.module or "")
                if node.module == "companion":
                    names += [f"companion.{alias.name}" for alias in node.names]
            case ast.Call(func=ast.Name(id="import_module" | "__import__") | ast.Attribute(attr="import_module")):
                names.append(_written(node.args[0]))
    return tuple(names)


def _written(name: ast.expr) -> str:
    """The module that import_module is given, or its fixed beginning: "companion.cli." of f"companion.cli.{family}"."""
    if isinstance(name, ast.JoinedStr):
        name = name.values[0]
    assert isinstance(name, ast.Constant), "a module named by import_module is written out, its beginning at least"
    return str(name.value)


def wrong_arrows(floor: str, names: Iterable[str]) -> list[str]:
    """Those of the names that a file on that floor must not look at."""
    wrong = []
    for name in names:
        top, _, rest = name.partition(".")
        if top != "companion":
            fine = floor != "core" or top in PURE
        elif rest.partition(".")[0] in ("", "__version__", floor):
            fine = True
        else:
            fine = any(rest == other or rest.startswith(f"{other}.") for other in FLOORS[floor])
        if not fine:
            wrong.append(name)
    return wrong


@pytest.mark.parametrize("file", sorted(PACKAGE.rglob("*.py")), ids=lambda file: str(file.relative_to(PACKAGE)))
def test_a_file_looks_only_downstairs(file: Path) -> None:
    floor = file.relative_to(PACKAGE).parts[0].removesuffix(".py")
    assert wrong_arrows(floor, imported_names(file)) == []


def wrong_rooms(room: str, names: Iterable[str]) -> list[str]:
    """Those of the names that lie in a room that this one must not look into."""
    seen = [(name, name.split(".")[2]) for name in names if name.startswith("companion.core.")]
    return [name for name, other in seen if other != room and other not in ROOMS[room]]


CORE_FILES = [file for file in sorted((PACKAGE / "core").rglob("*.py")) if file.parent != PACKAGE / "core"]


@pytest.mark.parametrize("file", CORE_FILES, ids=lambda file: str(file.relative_to(PACKAGE)))
def test_a_room_looks_only_into_rooms_below(file: Path) -> None:
    assert wrong_rooms(file.relative_to(PACKAGE).parts[1], imported_names(file)) == []


def test_every_room_has_its_arrows_and_they_run_in_no_circle() -> None:
    assert {file.relative_to(PACKAGE).parts[1] for file in CORE_FILES} == set(ROOMS)
    assert [file.name for file in (PACKAGE / "core").glob("*.py")] == ["__init__.py"]
    order = list(ROOMS)
    assert all(order.index(below) < order.index(room) for room, others in ROOMS.items() for below in others)


MOST_FILES = 15  # in a folder: as many as can be taken in at a look


@pytest.mark.parametrize(
    "folder",
    sorted({file.parent for file in PACKAGE.rglob("*.py")}),
    ids=lambda folder: str(folder.relative_to(PACKAGE)),
)
def test_a_folder_can_be_taken_in_at_a_look(folder: Path) -> None:
    assert len([file for file in folder.glob("*.py") if file.name != "__init__.py"]) <= MOST_FILES


def test_the_guard_of_rooms_sees_a_wrong_arrow() -> None:
    names = ["companion.core.forecast.outlook", "companion.core.cord.cord", "companion.core.plan.plan"]
    assert wrong_rooms("plan", names) == ["companion.core.forecast.outlook"]


def module_of(file: Path) -> str:
    """The module's name, the package's for its __init__."""
    return ".".join(file.relative_to(PACKAGE.parent).with_suffix("").parts).removesuffix(".__init__")


def arrows_of(file: Path, modules: Collection[str]) -> set[str]:
    """The modules that a file imports anything from: of a package that is imported from, the module that is meant."""
    arrows = set(imported_names(file))
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom):
            meant = {f"{node.module}.{alias.name}" for alias in node.names}
            arrows = arrows - ({node.module} if meant <= set(modules) else set()) | meant
    return arrows & set(modules)


def circles(arrows: dict[str, set[str]]) -> list[str]:
    """Those that lead back to themselves."""

    def reached(module: str) -> set[str]:
        found: set[str] = set()
        new = set(arrows[module])
        while new:
            found |= new
            new = {further for name in new for further in arrows[name]} - found
        return found

    return sorted(module for module in arrows if module in reached(module))


# A door names modules and loads each when it is first asked for: to come through it is not to look at all of them.
DOORS = {"companion.workshop.parts"}


def test_no_module_leads_back_to_itself() -> None:
    """Not by an import inside a function either, nor by one for types only."""
    files = {module_of(file): file for file in PACKAGE.rglob("*.py")}
    assert files.keys() > DOORS
    arrows = {module: arrows_of(file, files) if module not in DOORS else set() for module, file in files.items()}
    assert len(arrows) > 100
    assert arrows["companion.tui.routing"] > {"companion.tui.page", "companion.tui.bench.screen"}
    assert circles(arrows) == []


def test_the_guard_sees_a_circle() -> None:
    assert circles({"a": {"b"}, "b": {"c"}, "c": {"b"}, "d": {"d"}, "e": set()}) == ["b", "c", "d"]


@pytest.mark.parametrize(
    "file", sorted((PACKAGE / "core").rglob("*.py")), ids=lambda file: str(file.relative_to(PACKAGE))
)
def test_the_pure_floor_opens_nothing(file: Path) -> None:
    """What needs no import: files, the terminal, code made up at run time."""
    calls = [node.func for node in ast.walk(ast.parse(file.read_text("utf-8"))) if isinstance(node, ast.Call)]
    named = {call.id for call in calls if isinstance(call, ast.Name)}
    assert not named & {"open", "print", "input", "exec", "eval", "compile", "__import__", "breakpoint"}


@pytest.mark.parametrize(
    ("floor", "line", "wrong"),
    [
        ("core", "import sqlite3", ["sqlite3"]),
        ("core", "def f():\n    import random", ["random"]),
        ("core", "from datetime import datetime", ["datetime"]),
        ("core", "from companion.storage import pieces", ["companion.storage"]),
        ("core", "from companion.core.plan.plan import Plan\nfrom math import pi", []),
        ("storage", "import companion.workshop", ["companion.workshop"]),
        ("workshop", "from companion import cli", ["companion.cli"]),
        ("cli", "from companion.storage.pieces import Store", ["companion.storage.pieces"]),
        ("cli", "from companion.tui.follow.screen import FollowScreen", ["companion.tui.follow.screen"]),
        ("cli", "from companion.tui.app import run", []),
        ("cli", "import_module('companion.storage.pieces')", ["companion.storage.pieces"]),
        ("cli", "import_module(f'companion.cli.{family}')", []),
        ("tui", "if TYPE_CHECKING:\n    from companion.storage import pieces", ["companion.storage"]),
        ("tui", "from companion.cli.main import run", ["companion.cli.main"]),
        ("__main__", "from companion.workshop import open_at", ["companion.workshop"]),
    ],
)
def test_the_guard_sees_a_wrong_arrow(tmp_path: Path, floor: str, line: str, wrong: list[str]) -> None:
    file = tmp_path / "some.py"
    file.write_text(line)
    assert wrong_arrows(floor, imported_names(file)) == wrong


@pytest.mark.parametrize("line", ["from . import plan", "from ..storage import pieces", "import_module(name)"])
def test_the_guard_wants_imports_in_full(tmp_path: Path, line: str) -> None:
    file = tmp_path / "some.py"
    file.write_text(line)
    with pytest.raises(AssertionError, match=r"written out|in full"):
        imported_names(file)


def test_the_pure_floor_brings_in_nothing_impure() -> None:
    """In a fresh process, every module of it: what the standard library's own modules drag along counts too."""
    names = [".".join(file.relative_to(PACKAGE.parent).with_suffix("").parts) for file in CORE_FILES]
    names = [name for name in names if not name.endswith("__init__")]
    code = f"import importlib, sys\nfor name in {names!r}:\n    importlib.import_module(name)\nprint(*sys.modules)\n"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=PACKAGE.parent)
    loaded = {name.partition(".")[0] for name in run.stdout.split()}
    assert "companion" in loaded
    assert not loaded & IMPURE


def loaded_by(*arguments: str) -> set[str]:
    code = (
        "import sys\n"
        f"sys.argv = ['tallycord', *{list(arguments)!r}]\n"
        "from companion.__main__ import main\n"
        "main()\n"
        "print('\\n'.join(sys.modules), file=sys.stderr)\n"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=PACKAGE.parent)
    return set(run.stderr.split())


@pytest.mark.parametrize("arguments", [["pieces"], ["--version"]])
def test_a_line_command_loads_neither_yaml_nor_pydantic_nor_the_app(arguments: list[str]) -> None:
    assert not loaded_by(*arguments) & {"yaml", "pydantic", "textual", "rich"}


# What no quick command needs: it is for a design, a card, a picture, a remedy, a typed length, a misspelt word.
SLOW = (
    "dataclasses difflib shutil statistics random tempfile asyncio platformdirs _strptime json shlex hashlib "
    "typing_extensions inspect fractions companion.core.values.measures.lengths companion.core.values.setting_list "
    "companion.core.forecast.faults.hypothesis companion.core.forecast.join_place companion.storage.settings "
    "companion.storage.piece_lock companion.core.words.spoken companion.core.plan.steps companion.core.closures "
    "companion.core.cord.cards companion.core.picture companion.core.plan.ends "
    "companion.core.plan.fit companion.core.plan.layout companion.core.plan.planner companion.core.plan.tray "
    "companion.core.remedies companion.core.words.trade.how_to companion.storage.cards companion.workshop.designs"
)
# What each brings besides that which opens a piece.
QUICK = {
    "next": {"companion.cli.commands.making", "companion.core.words.undo_words", "companion.storage.backups"},
    "status": {"companion.cli.commands.status", "companion.core.words.recap"},
}


@pytest.mark.parametrize("command", QUICK)
def test_a_quick_command_loads_what_it_needs_and_no_more(skerry: Path, command: str) -> None:
    loaded_by("start", str(skerry))
    loaded_by("next", "skerry-bracelet")  # a copy of the day lies there from now on
    loaded = loaded_by(command, "skerry-bracelet")
    assert loaded > QUICK[command] | {"companion.core.forecast.forecaster"}
    assert sorted(loaded & set(SLOW.split())) == []
    assert len([name for name in loaded if name.startswith("companion.cli.commands.")]) == 1


@pytest.mark.parametrize("command", ["plan", "check"])
def test_a_plan_is_made_without_the_app(skerry: Path, command: str) -> None:
    loaded = loaded_by(command, str(skerry))
    assert "yaml" in loaded  # so the run did read the design
    assert not loaded & {"textual", "rich", "numpy", "scipy"}


# What a piece at its first step does without on the smallest screens, where nothing is drawn and nothing asked yet.
LATER = (
    "companion.core.drawing companion.core.tying companion.core.plan.steps companion.tui.follow.asking "
    "companion.tui.follow.picture.drawn_picture companion.tui.follow.chart_beside"
)


def test_the_first_step_of_a_piece_loads_no_drawing_and_no_question(skerry: Path) -> None:
    code = (
        "import sys, asyncio\n"
        "from companion.workshop import open_at\n"
        "from companion.tui.app import TallycordApp\n"
        "async def look():\n"
        "    app = TallycordApp(open_at(), piece='skerry-bracelet')\n"
        "    async with app.run_test(size=(80, 24)) as pilot:\n"
        "        await pilot.pause()\n"
        "        print(*sys.modules)\n"
        "asyncio.run(look())\n"
    )
    loaded_by("start", str(skerry))
    run = subprocess.run([sys.executable, "-c", code], check=True, cwd=PACKAGE.parent, capture_output=True, text=True)
    loaded = set(run.stdout.split())
    assert "companion.tui.follow.screen" in loaded
    assert sorted(loaded & set(LATER.split())) == []


def test_going_on_with_a_piece_needs_no_design_reader(skerry: Path) -> None:
    code = (
        "import sys, asyncio\n"
        "from pathlib import Path\n"
        "from companion.workshop import open_at\n"
        f"skerry = Path({str(skerry)!r})\n"
        "if sys.argv[1] == 'start':\n"
        "    open_at().start(skerry)\n"
        "else:\n"
        "    from companion.tui.app import TallycordApp\n"
        "    async def look():\n"
        "        app = TallycordApp(open_at(), design=skerry)\n"
        "        async with app.run_test() as pilot:\n"
        "            await pilot.pause()\n"
        "            print(type(app.screen).__name__)\n"
        "    asyncio.run(look())\n"
        "    print('yaml' in sys.modules, 'pydantic' in sys.modules)\n"
    )
    subprocess.run([sys.executable, "-c", code, "start"], check=True, cwd=PACKAGE.parent)
    run = subprocess.run([sys.executable, "-c", code, "look"], check=True, cwd=PACKAGE.parent, capture_output=True)
    assert run.stdout.decode().split() == ["FollowScreen", "False", "False"]
