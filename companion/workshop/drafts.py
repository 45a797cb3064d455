"""A design made on the screen: judged by the reader of design files, kept half-made, saved as a file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from msgspec import Struct

from companion.core.draft.draft import Draft, draft_document, draft_from
from companion.core.draft.file_text import FileText, file_text
from companion.core.draft.pattern import PatternError
from companion.core.draft.wanting import DraftFinding, wanting
from companion.core.plan.plan import Plan
from companion.core.values.design_reading import Problem
from companion.core.values.errors import NotPossible, NotStored, WorkshopError
from companion.core.values.text import plain
from companion.storage.database import Database
from companion.storage.design.as_draft import as_draft
from companion.storage.design.files import read_design, read_design_text
from companion.storage.export.writing import write_new
from companion.storage.files import make_folder
from companion.storage.folders import DESIGNS
from companion.storage.sentences import reason
from companion.storage.settings import read_draft, write_draft
from companion.workshop.designs import Designs, ReadyDesign


class JudgedDraft(Struct, frozen=True):
    """What a draft comes to. `plan` is None while anything is missing or wrong; `text`: its file, "" until then."""

    plan: Plan | None
    findings: tuple[DraftFinding, ...]
    text: str = ""


class Drafts:
    """The design that is being made; one at a time."""

    def __init__(self, database: Database, designs: Callable[[], Designs]) -> None:
        self._database, self._designs = database, designs

    @property
    def folder(self) -> Path:
        """Where the maker's own designs are kept."""
        return self._database.path.with_name(DESIGNS)

    def judge(self, draft: Draft) -> JudgedDraft:
        """What the draft comes to, by the reader that every design file goes through."""
        missing = wanting(draft)
        if missing:
            return JudgedDraft(None, missing)
        try:
            file = file_text(draft)
        except PatternError as error:
            return JudgedDraft(None, (DraftFinding("pattern", str(error)),))
        reading = read_design_text(file.text, "")
        planned = self._designs().planned_from(reading)
        findings = tuple(_of_problem(problem, file) for problem in planned.problems)
        return JudgedDraft(planned.plan, findings, file.text if planned.plan else "")

    def ready(self, judged: JudgedDraft) -> ReadyDesign:
        """A draft that can be planned, to be made otherwise. Raises WorkshopError."""
        designs = self._designs()
        return designs.ready(designs.planned_from(read_design_text(judged.text, "")))

    def copy_of(self, path: Path) -> Draft:
        """A design file as the design page has it. Raises WorkshopError for a file with errors, and NotPossible where
        the page has no place for something in it."""
        reading = read_design(path)
        if reading.design is None:
            raise WorkshopError("\n".join(str(problem) for problem in reading.problems))
        draft = as_draft(reading.design, reading.text)
        if draft is None:
            raise NotPossible(
                f"{plain(path.name, 60)} has several strands or two different ends. "
                "Those are changed in the file itself."
            )
        return draft

    def place_for(self, draft: Draft) -> Path:
        """Where a new design of that name would be saved: a free name in the maker's own folder."""
        words = "".join(c if c.isascii() and c.isalnum() else " " for c in draft.name.lower()).split()
        stem, number = "-".join(words)[:60] or "design", 1
        place = self.folder / f"{stem}.yaml"
        while place.exists():
            number += 1
            place = self.folder / f"{stem}-{number}.yaml"
        return place

    def save(self, judged: JudgedDraft, place: Path, over: bool = False) -> None:
        """Write the design's file, whole or not at all, and forget the draft. Raises NotStored."""
        try:
            make_folder(place.parent)
        except OSError as error:
            raise NotStored(
                f"The folder for designs can't be made: {plain(str(place.parent))}: {reason(error)}."
            ) from error
        write_new(place, iter(judged.text.splitlines()), over)
        self.keep(None)

    def kept(self) -> Draft | None:
        """The draft that was not finished, if there is one. Raises WorkshopError."""
        return draft_from(read_draft(self._database))

    def keep(self, draft: Draft | None) -> None:
        """Keep a half-made draft, in place of the one before; None: there is none any more. Raises NotStored."""
        write_draft(self._database, draft_document(draft) if draft else None)


def _of_problem(problem: Problem, file: FileText) -> DraftFinding:
    words = " ".join(text for text in (problem.found, problem.expected, problem.hint) if text)
    return DraftFinding(file.part_of(problem.line) if problem.line else "what", words)
