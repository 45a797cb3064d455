"""No sentence is taken apart by the code that shows it: core gives its parts, and screens and commands join them."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "companion"
SHOWN = [*sorted((PACKAGE / "tui").rglob("*.py")), *sorted((PACKAGE / "cli").rglob("*.py"))]
APART = {
    "split", "rsplit", "splitlines", "partition", "rpartition", "strip", "lstrip", "rstrip", "removesuffix",
    "removeprefix", "replace", "lower", "upper", "capitalize", "title", "startswith", "endswith",
}  # fmt: skip
# What may be taken apart, by the name that it goes by, and what it is.
MAY_BE = {
    "text": "what was typed, or a text to lay out, which keeps all its words",
    "values": "what was typed into a form",
    "arguments.name": "what was typed on the command line",
    "step": "a step that was typed",
    "length": "a length that was typed",
    "event.text": "what was pasted",
    "letters": "what was typed to search by",
    "word": "what was typed on the command line",
    "before": "what was typed on the command line",
    "name": "a name that another is compared with",
    "card.name": "a name that another is compared with",
    "command.keys": "the names of keys",
    "codes": "a table of colours",
    "line": "a line to type in, which is a widget",
    "error.strerror": "what the system says, to go on within a sentence",
    "body": "a text to lay out, which keeps all its words",
    "_SENTENCE_ENDS": "whole sentences, of which the last are left out where there is no room",
    "set_cell_size": "a text cut off, with a mark for it",
}
FROM_CORE = ("companion.core.words", "companion.core.remedies")
PARTS = {"headline", "detail", "action", "what", "text", "words", "coming", "last"}  # attributes that hold sentences


def taken_apart(source: str) -> Iterator[str]:
    """Each place where a text is taken apart, or searched, that may not be."""
    tree = ast.parse(source)
    said = {"str", *_imported_from_core(tree)}
    said |= {name for node in ast.walk(tree) for name in _names_given(node, said)}
    for node in ast.walk(tree):
        match node:
            case ast.Call(func=ast.Attribute(attr=method, value=value), keywords=[]) if method in APART:
                wrong = _name(value) not in MAY_BE or any(_is_sentence(part, said) for part in _chain(value))
            case ast.Compare(left=ast.Constant() | ast.JoinedStr(), ops=[ast.In() | ast.NotIn()], comparators=[text]):
                wrong = _is_sentence(text, said)
            case ast.Subscript(value=value, slice=ast.Slice()):
                wrong = _is_sentence(value, said)
            case _:
                wrong = False
        if wrong:
            yield ast.unparse(node)


def names_taken_apart(source: str) -> Iterator[str]:
    """By what name each text goes that is taken apart."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in APART:
            yield _name(node.func.value)


def _imported_from_core(tree: ast.Module) -> set[str]:
    return {
        alias.asname or alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(FROM_CORE)
        for alias in node.names
        if alias.name.islower()
    }


def _names_given(node: ast.AST, said: set[str]) -> list[str]:
    """The names that are given a sentence of core's here."""
    match node:
        case (
            ast.Assign(targets=[ast.Name(id=name)], value=value) | ast.NamedExpr(target=ast.Name(id=name), value=value)
        ):
            return [name] if _is_sentence(value, said) else []
    return []


def _is_sentence(node: ast.expr, said: set[str]) -> bool:
    match node:
        case ast.Call(func=ast.Name(id=name)) | ast.Name(id=name):
            return name in said
        case ast.Attribute(attr=attr):
            return attr in PARTS and _name(node) not in MAY_BE
    return False


def _chain(node: ast.expr) -> Iterator[ast.expr]:
    """The expression, and what its methods are called on."""
    yield node
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
        yield from _chain(node.func.value)


def _name(node: ast.expr) -> str:
    """What the first method in a row is called on; for an item, and for what is made plain or cut off, that name."""
    match node:
        case ast.Call(func=ast.Attribute(value=value)) | ast.Subscript(value=value) | ast.BoolOp(values=[value, *_]):
            return _name(value)
        case ast.Call(func=ast.Name(id="plain"), args=[value, *_]):
            return _name(value)
        case ast.Call(func=ast.Name() as name):
            return _name(name)
    return ast.unparse(node)


@pytest.mark.parametrize("file", SHOWN, ids=lambda file: str(file.relative_to(PACKAGE)))
def test_no_sentence_is_taken_apart(file: Path) -> None:
    assert list(taken_apart(file.read_text(encoding="utf-8"))) == []


def test_what_may_be_taken_apart_still_is() -> None:
    """The list of exceptions holds nothing that is gone."""
    assert set(MAY_BE) <= {name for file in SHOWN for name in names_taken_apart(file.read_text(encoding="utf-8"))}


@pytest.mark.parametrize(
    "line",
    [
        'beads, comma, knot = step.text.rpartition(", then ")',
        'text = verdict.text.replace("on now.", "on now (m).")',
        'word, mark, rest = notice.headline.partition(".")',
        'if "Measure the strand now." in verdict.text:\n    pass',
        'from companion.core.words.step_words import step_line\nline = step_line(plan, 3).removesuffix(".")',
        "from companion.core.words.spoken import spoken\ntext = spoken(plan, outlook)\nprint(text.lower())",
        'from companion.core.words.undo_words import undone\nplace = undone(plan, outlook).rstrip(".")',
        "from companion.core.words.recap import recap\nfirst = recap(plan, piece).last[:1]",
        'shown = str(notice)\nprint(shown.split(". "))',
    ],
)
def test_the_guard_sees_a_sentence_taken_apart(line: str) -> None:
    assert list(taken_apart(line)) != []


@pytest.mark.parametrize(
    "line",
    ["values[key].strip()", 'text.strip().rpartition(":")', "replace(notice, level='off')", "now.replace(second=0)"],
)
def test_the_guard_lets_what_was_typed_be_read(line: str) -> None:
    assert list(taken_apart(line)) == []
