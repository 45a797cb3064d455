"""What is wrong with a design file, each with its place, in words for the maker."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from companion.core.values.design import Design

Severity = Literal["error", "warning"]


class Problem(Struct, frozen=True):
    """One finding. `line` and `column` count from 1; line 0: the file as a whole. Texts are clean for any screen."""

    file: str
    line: int
    column: int
    severity: Severity
    code: str
    found: str
    expected: str
    hint: str = ""

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}:{self.column}" if self.line else self.file
        word = "" if self.severity == "error" else "warning: "
        sentences = [self.found, self.expected, self.hint]
        return f"{place}: {word}" + " ".join(sentence for sentence in sentences if sentence)


class DesignReading(Struct, frozen=True):
    """A design file as read: `design` is None where there is any error. `digest`: SHA-256 of its bytes, hex."""

    design: Design | None
    problems: tuple[Problem, ...]
    text: str
    digest: str
