"""A design made on the screen: judged by the reader of design files, kept half-made, saved as a file."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from companion.core.draft.cures import Cured, cures, misses, off_mm, worth_showing
from companion.core.draft.draft import BeadDraft, Draft, draft_document, draft_from, with_unit
from companion.core.draft.file_text import FileText, file_text
from companion.core.draft.pattern import PatternError
from companion.core.draft.wanting import DraftFinding, wanting
from companion.core.plan.plan import Plan
from companion.core.values.design_reading import DesignReading, Problem
from companion.core.values.errors import NotPossible, NotStored, WorkshopError
from companion.core.values.measures.lengths import read_length_mm
from companion.core.values.text import plain
from companion.storage.database import Clock, Database
from companion.storage.design.as_draft import as_draft
from companion.storage.design.bead_box import put_beads, read_beads, take_out_bead
from companion.storage.design.files import read_design, read_design_text
from companion.storage.export.writing import write_new, write_new_copy
from companion.storage.files import make_folder
from companion.storage.folders import DESIGNS
from companion.storage.sentences import reason
from companion.storage.settings import read_draft, write_draft
from companion.workshop.designs import Designs, ReadyDesign

if TYPE_CHECKING:
    from companion.core.variants.reach import Reach

ANY_LENGTH = "180 mm"  # of a draft that has none yet
_COMMENT = re.compile(r"^([^\"'#]*\s)?#", re.MULTILINE)


class JudgedDraft(Struct, frozen=True):
    """What a draft comes to. `plan` is None while anything is missing or wrong; `text`: its file, "" until then."""

    plan: Plan | None
    findings: tuple[DraftFinding, ...]
    text: str = ""


class Drafts:
    """The design that is being made; one at a time."""

    def __init__(self, database: Database, designs: Callable[[], Designs], now: Clock) -> None:
        self._database, self._designs, self._now = database, designs, now
        self._boxed: tuple[BeadDraft, ...] = ()  # put in the box already

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

    def as_if_strung(self, draft: Draft) -> Plan | None:
        """The plan of a draft with what it still lacks made up, so that beads and cord can be held against each other
        before there is a pattern; None where beads or cord are not known yet."""
        made_up = replace(
            draft,
            name=draft.name.strip() or "Not named yet",
            body=draft.body.strip() or ANY_LENGTH,
            pattern=draft.pattern.strip() or "".join(bead.letter for bead in draft.beads),
        )
        return self.judge(made_up).plan

    def ready(self, judged: JudgedDraft) -> ReadyDesign:
        """A draft that can be planned, to be made otherwise. Raises WorkshopError."""
        designs = self._designs()
        return designs.ready(designs.planned_from(read_design_text(judged.text, "")))

    def cures(self, draft: Draft, judged: JudgedDraft) -> list[Cured]:
        """What would make a draft come out that can be planned but doesn't: each way planned as the draft is."""
        plan = judged.plan
        if plan is None:
            return []
        tried = []
        for cure in cures(draft, plan):
            cured = self.judge(cure.draft).plan
            if cured is not None:
                tried.append(Cured(cure, cured, not misses(cured)))
        return worth_showing(tried, off_mm(plan))

    def reach(self, draft: Draft, judged: JudgedDraft) -> Reach | None:
        """What the cord in hand makes of a draft that can be planned; None where its length is not given. Raises
        LengthError for what is no length, WorkshopError."""
        if not draft.cord_in_hand.strip() or judged.plan is None:
            return None
        cord_mm = read_length_mm(with_unit(draft.cord_in_hand, draft.unit), above_zero=True)
        return self.ready(judged).reach(float(cord_mm))

    def beads(self) -> tuple[BeadDraft, ...]:
        """The bead box: every bead that was ever typed, the latest first. Raises WorkshopError."""
        return read_beads(self._database)

    def take_out_of_box(self, bead: BeadDraft) -> None:
        """Take a bead out of the bead box; designs keep theirs. Raises NotStored."""
        take_out_bead(self._database, bead, self._now())

    def copy_of(self, path: Path) -> Draft:
        """A design file as the design page has it. Raises WorkshopError for a file with errors, and NotPossible where
        the page has no place for something in it."""
        reading = read_design(path)
        if reading.design is None:
            raise WorkshopError("\n".join(str(problem) for problem in reading.problems))
        draft = as_draft(reading.design, reading.text)
        if draft is None:
            raise NotPossible(
                f"{plain(path.name, 60)} has two different ends, or strands that are worked in different ways. "
                "Those are changed in the file itself."
            )
        return replace(draft, source=str(path.resolve()))

    def place_for(self, draft: Draft) -> Path:
        """Where a new design of that name would be saved: a free name in the maker's own folder."""
        words = "".join(c if c.isascii() and c.isalnum() else " " for c in draft.name.lower()).split()
        stem, number = "-".join(words)[:60] or "design", 1
        place = self.folder / f"{stem}.yaml"
        while place.exists():
            number += 1
            place = self.folder / f"{stem}-{number}.yaml"
        return place

    def opened_own(self, draft: Draft) -> Path | None:
        """The maker's own design that a draft was opened from, where it is still there."""
        place = Path(draft.source)
        mine = draft.source and place.parent == self.folder.resolve() and place.is_file()
        return place if mine else None

    def save(self, draft: Draft, judged: JudgedDraft, place: Path, over: bool = False) -> None:
        """Write the design's file, whole or not at all, and forget the draft. What was opened and not changed is
        written as it was, byte for byte. `over`: in place of what is there. Raises NotStored."""
        try:
            make_folder(place.parent)
        except OSError as error:
            raise NotStored(
                f"The folder for designs can't be made: {plain(str(place.parent))}: {reason(error)}."
            ) from error
        opened = _unchanged(draft, _source(draft))
        if opened is not None:
            write_new_copy(place, opened, over)
        else:
            write_new(place, iter(judged.text.splitlines()), over)
        self.keep(None)

    def leaves_comments(self, draft: Draft) -> bool:
        """Whether the file that a draft was opened from has comments that the draft's own file will not have."""
        source = _source(draft)
        return bool(source and _unchanged(draft, source) is None and _COMMENT.search(source.text))

    def kept(self) -> Draft | None:
        """The draft that was not finished, if there is one. Raises WorkshopError."""
        return draft_from(read_draft(self._database))

    def keep_typing(self, draft: Draft) -> None:
        """Keep a draft whose form is still being filled in: what is typed there is not lost if the window goes.
        Raises NotStored."""
        write_draft(self._database, draft_document(draft))

    def keep(self, draft: Draft | None) -> None:
        """Keep a half-made draft, in place of the one before; None: there is none any more. Its beads go into the box
        as well. Raises NotStored."""
        write_draft(self._database, draft_document(draft) if draft else None)
        beads = tuple(map(partial(_boxed, draft.unit), draft.beads)) if draft else ()
        new = tuple(bead for bead in beads if bead not in self._boxed)
        if new:
            put_beads(self._database, new, self._now())
            self._boxed = beads


def _source(draft: Draft) -> DesignReading | None:
    return read_design(Path(draft.source)) if draft.source else None


def _unchanged(draft: Draft, source: DesignReading | None) -> bytes | None:
    """The bytes of the file that a draft was opened from, where it still says what that file says. `source`: it as it
    was read."""
    if source is None or source.design is None or as_draft(source.design, source.text) != _of_file(draft):
        return None
    try:
        data = Path(draft.source).read_bytes()
    except OSError:
        return None
    return data if sha256(data).hexdigest() == source.digest else None  # not changed while it was looked at


def _of_file(draft: Draft) -> Draft:
    """The draft without what no design file holds."""
    beads = tuple(replace(bead, in_hand="") for bead in draft.beads)
    return replace(draft, beads=beads, source="", cord_in_hand="")


def _boxed(unit: str, bead: BeadDraft) -> BeadDraft:
    """A bead as it lies in the box: of no design, its lengths with their units."""
    lengths = {name: with_unit(getattr(bead, name), unit) for name in ("length", "diameter", "hole")}
    return replace(bead, letter="", key="", name=bead.name.strip() or bead.key, **lengths)


def _of_problem(problem: Problem, file: FileText) -> DraftFinding:
    words = " ".join(text for text in (problem.found, problem.expected, problem.hint) if text)
    return DraftFinding(file.part_of(problem.line) if problem.line else "what", words)
