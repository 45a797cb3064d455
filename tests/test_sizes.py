"""A function is short enough to be read at a look."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

PACKAGE = Path(__file__).parents[1] / "companion"
MOST_LINES = 30  # of a function, its docstring apart
TABLES: set[str] = set()  # those that really are one table: "core/room/file.py function"


def functions(text: str) -> Iterator[tuple[str, int]]:
    """Every function of a file, those within others too, and how many lines it has without its docstring."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            first, own = node.body[0], (node.end_lineno or 0) - node.lineno + 1
            if ast.get_docstring(node) is not None:
                own -= (first.end_lineno or 0) - first.lineno + 1
            yield node.name, own


def too_long() -> set[str]:
    files = {str(file.relative_to(PACKAGE)): file.read_text("utf-8") for file in PACKAGE.rglob("*.py")}
    found = {f"{file} {name}": lines for file, text in files.items() for name, lines in functions(text)}
    assert len(found) > 1000
    return {place for place, lines in found.items() if lines > MOST_LINES}


def test_no_function_is_long() -> None:
    assert too_long() == TABLES


def test_the_guard_counts_lines_but_no_docstring() -> None:
    text = 'def short():\n    """Two\n    lines."""\n    return 1\n\n\nasync def long():\n' + "    x = 1\n" * 31
    assert dict(functions(text)) == {"short": 2, "long": 32}
