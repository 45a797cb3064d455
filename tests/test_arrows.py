"""The layers look only downstairs, and a start loads only what it needs."""

from __future__ import annotations

import ast
import subprocess
import sys
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
# What the pure floor may use of the standard library: nothing with files, a clock, chance or a process behind it.
PURE = {
    "__future__", "bisect", "collections", "dataclasses", "difflib", "enum", "fractions", "functools", "itertools",
    "math", "operator", "re", "statistics", "string", "textwrap", "typing", "unicodedata",
}  # fmt: skip


def imported_names(file: Path) -> list[str]:
    names = []
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{file}: write imports in full"
            names.append(node.module or "")
            if node.module == "companion":
                names += [f"companion.{alias.name}" for alias in node.names]
    return names


@pytest.mark.parametrize("file", sorted(PACKAGE.rglob("*.py")), ids=lambda file: str(file.relative_to(PACKAGE)))
def test_a_file_looks_only_downstairs(file: Path) -> None:
    floor = file.relative_to(PACKAGE).parts[0].removesuffix(".py")
    for name in imported_names(file):
        top, _, rest = name.partition(".")
        if top == "companion":
            ours = rest.partition(".")[0]
            allowed = ours in ("", "__version__", floor) or any(
                rest == other or rest.startswith(f"{other}.") for other in FLOORS[floor]
            )
            assert allowed, f"{file.name} on the floor {floor} looks at {name}"
        elif floor == "core":
            assert top in PURE, f"core/{file.name} uses {name}"


def test_the_guard_sees_a_wrong_arrow(tmp_path: Path) -> None:
    wrong = tmp_path / "wrong.py"
    wrong.write_text("import sqlite3\nfrom companion.tui import app\n")
    assert imported_names(wrong) == ["sqlite3", "companion.tui"]


def loaded_by(*arguments: str) -> set[str]:
    code = (
        "import sys\n"
        f"sys.argv = ['companion', *{list(arguments)!r}]\n"
        "from companion.__main__ import main\n"
        "main()\n"
        "print('\\n'.join(sys.modules), file=sys.stderr)\n"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=PACKAGE.parent)
    return {name.partition(".")[0] for name in run.stderr.split()}


@pytest.mark.parametrize("arguments", [["pieces"], ["--version"]])
def test_a_line_command_loads_neither_yaml_nor_pydantic_nor_the_app(arguments: list[str]) -> None:
    assert not loaded_by(*arguments) & {"yaml", "pydantic", "textual", "rich"}


def test_going_on_with_a_piece_needs_no_design_reader(skerry: Path) -> None:
    code = (
        "import sys, asyncio\n"
        "from pathlib import Path\n"
        "from companion.workshop import open_at\n"
        f"skerry = Path({str(skerry)!r})\n"
        "if sys.argv[1] == 'start':\n"
        "    open_at().start(skerry)\n"
        "else:\n"
        "    from companion.tui.app import CompanionApp\n"
        "    async def look():\n"
        "        app = CompanionApp(open_at(), design=skerry)\n"
        "        async with app.run_test() as pilot:\n"
        "            await pilot.pause()\n"
        "            print(type(app.screen).__name__)\n"
        "    asyncio.run(look())\n"
        "    print('yaml' in sys.modules, 'pydantic' in sys.modules)\n"
    )
    subprocess.run([sys.executable, "-c", code, "start"], check=True, cwd=PACKAGE.parent)
    run = subprocess.run([sys.executable, "-c", code, "look"], check=True, cwd=PACKAGE.parent, capture_output=True)
    assert run.stdout.decode().split() == ["FollowScreen", "False", "False"]
