"""Reading one design file from disk: only a plain file, only up to a certain size, and never waiting for anything."""

from __future__ import annotations

import stat
from codecs import BOM_UTF16_BE, BOM_UTF16_LE
from hashlib import sha256
from pathlib import Path
from typing import Any

from companion.core.values.design import MOST_BYTES
from companion.core.values.design_reading import DesignReading, Problem
from companion.core.values.text import plain


def read_design(path: Path) -> DesignReading:
    """The design in that file, with all problems found in it. Never raises, whatever the file is or holds."""
    try:
        mode = path.stat().st_mode
        if not stat.S_ISREG(mode):  # asked before opening: opening a pipe would wait for somebody to write
            if stat.S_ISDIR(mode):
                return _unreadable(path, "It is a folder.", "Name a design file in it.")
            return _unreadable(path, "It is not a plain file.", "A design is one file of text.")
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        return _unreadable(path, "There is no such file.", "Name a design file.")
    except (OSError, ValueError) as error:
        words = getattr(error, "strerror", None) or "it can't be opened"
        return _unreadable(path, f"It can't be read: {plain(words).lower()}.", "")
    return read_design_text(data, str(path))


def read_design_text(data: bytes | str, name: str) -> DesignReading:
    """The design in these bytes; `name` stands before each problem."""
    from companion.storage.design.build import build
    from companion.storage.design.yaml_text.strict_yaml import parse
    from companion.storage.design.yaml_text.syntax_words import CannotParse

    raw = data.encode("utf-8", "surrogatepass") if isinstance(data, str) else data
    digest = sha256(raw).hexdigest()
    shown = plain(name)
    text = ""
    try:
        text = decode(raw)
        root = parse(text)
    except CannotParse as error:
        problem = Problem(shown, error.line, error.column, "error", error.code, error.found, error.expected, error.hint)
        return DesignReading(None, (problem,), text, digest)
    design, problems = build(root, shown)
    return DesignReading(design, problems, text, digest)


def decode(raw: bytes) -> str:
    """The bytes as text. Raises CannotParse if the file is too large or not UTF-8."""
    from companion.storage.design.yaml_text.strict_yaml import place_at
    from companion.storage.design.yaml_text.syntax_words import CannotParse

    if len(raw) > MOST_BYTES:
        raise CannotParse(0, 0, "too large", "The file is larger than 1 MiB.", "A design takes a few kilobytes.")
    if raw.startswith((BOM_UTF16_LE, BOM_UTF16_BE)) or b"\0" in raw[:4]:
        raise CannotParse(0, 0, "not UTF-8", "The file is written in UTF-16 or UTF-32.", "Save it as UTF-8.")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # the place counts characters, as every other place does; what comes before is whole
        before = error.object[: error.start].decode("utf-8", "replace")
        found = f"Found the byte 0x{error.object[error.start]:02x}, which is not UTF-8 text."
        raise CannotParse(*place_at(before, len(before)), "not UTF-8", found, "Save the file as UTF-8.") from error


def design_schema() -> dict[str, Any]:
    """The JSON Schema of a design file."""
    from companion.storage.design.editor_schema import design_schema as schema

    return schema()


def _unreadable(path: Path, found: str, expected: str) -> DesignReading:
    problem = Problem(plain(str(path)), 0, 0, "error", "cannot read", found, expected)
    return DesignReading(None, (problem,), "", "")
