"""The use cases, one method each, in all: what is done to a piece is in `making`. Clock and store are passed in, and
`open_at` is the one place that puts the real ones together."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from contextlib import suppress
from datetime import UTC, datetime
from functools import cached_property, partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace

from companion.core.journal.events import CutEntered, Event, Finished, Measured, Started
from companion.core.journal.fold import fold
from companion.core.journal.pace import Pace, Worked, pace, seconds_worked
from companion.core.plan.plan import Plan
from companion.core.values.assumptions import USUAL
from companion.core.values.errors import WorkshopError
from companion.core.values.measures.show_lengths import display_unit
from companion.core.values.measures.units import SIXTEENTH_INCH_MM
from companion.storage.files import make_folder
from companion.storage.folders import DATABASE, DESIGNS, content_of, data_folder, full_path, shipped_designs
from companion.storage.kept import DatedEvent, DesignCopy, PieceRow, Summary
from companion.storage.pieces import Store
from companion.workshop import parts
from companion.workshop.changes import with_plans
from companion.workshop.making import Making
from companion.workshop.open_piece import OpenPiece, warning_of
from companion.workshop.results import DatedReading, Planned, Teaching

if TYPE_CHECKING:  # the types of what is loaded only when it is needed
    from companion.core.cord.cards import CardTest, CordCard
    from companion.core.cord.cord import CordChoice
    from companion.core.forecast.outlook import Outlook
    from companion.core.remedies.remedy import Remedy
    from companion.core.values.rescue_result import Rescue
    from companion.core.values.setting_list import Setting
    from companion.core.values.settings import Settings
    from companion.core.variants.hours import Hand
    from companion.workshop.bench.sketches import Sketches
    from companion.workshop.cord_cards import CordCards
    from companion.workshop.designs import Designs
    from companion.workshop.drafts import Drafts
    from companion.workshop.exports import Exports
    from companion.workshop.forecasts import Charted

HAND_PIECES = 5  # her latest ones: hands get quicker


class Workshop(Making):
    """What a maker can do. One instance a process."""

    @property
    def has_written(self) -> bool:
        """Whether anything was written since this workshop was opened."""
        return self._store.database.has_written

    def close(self) -> None:
        """Let the piece that is open and the store go."""
        self.let_go()
        self._store.database.close()

    # -- designs and cords, and what keeps all of it safe -------------------------------------------------------------

    @cached_property
    def designs(self) -> Designs:
        """Design files, read and planned."""
        return parts.designs.Designs(self.cord_cards, lambda: self.settings)

    @cached_property
    def cord_cards(self) -> CordCards:
        """The cord cards."""
        return parts.cord_cards.CordCards(self._store.database, self._now)

    @cached_property
    def drafts(self) -> Drafts:
        """The design that is being made on the screen."""
        return parts.drafts.Drafts(self._store.database, lambda: self.designs, self._now)

    @cached_property
    def exports(self) -> Exports:
        """All pieces and cards as one document, both ways."""
        return parts.exports.Exports(self._store)

    @cached_property
    def sketches(self) -> Sketches:
        """What the bench draws of pieces and designs."""
        folder = self._store.path.parent
        return parts.sketches.Sketches(lambda: open_at(folder))

    def shipped_designs(self) -> tuple[Path, ...]:
        """The designs that come with Tallycord."""
        return shipped_designs()

    @property
    def designs_folder(self) -> Path:
        """Where the maker's own designs lie, whatever folder Tallycord is started in."""
        return self._store.path.with_name(DESIGNS)

    def make_designs_folder(self) -> None:
        """Make it where it is not there. A disk that does not let it be made stops nobody."""
        with suppress(OSError):
            make_folder(self.designs_folder)

    @property
    def run_out_risk(self) -> float:
        """The chance of running out that new plans are cut for. Raises WorkshopError for unreadable settings."""
        risk = parts.settings.read_run_out_risk(self._store.database)
        return USUAL.run_out_risk if risk is None else risk

    @property
    def settings(self) -> Settings:
        """All that the maker has set. Raises WorkshopError for settings that can't be read."""
        kept = parts.settings.read_settings(self._store.database)
        return parts.setting_list.settings_from(kept, self.run_out_risk)

    def ruler_step_mm(self, unit: str) -> float:
        """The least division of the maker's ruler, mm: as it is set, else a sixteenth of an inch, or a millimetre."""
        return self.settings.ruler_mm or (SIXTEENTH_INCH_MM if display_unit(unit) == "in" else 1.0)

    def set_setting(self, setting: Setting, value: Any) -> None:
        """From now on it is that. Raises NotStored."""
        if setting.field == "risk":
            self.set_run_out_risk(value)
        else:
            parts.settings.write_setting(self._store.database, setting.field, value)

    def set_run_out_risk(self, risk: float) -> None:
        """From now on plans are cut for that chance, 0.0001 to 0.5. Raises NotStored."""
        parts.settings.write_run_out_risk(self._store.database, risk)

    def keep_a_copy(self) -> str:
        """A dated copy of all pieces where the last is a day old; what went wrong, "" for nothing.

        Never raises for what the disk does: a copy that can't be made stops nobody. Safe in a thread of its own: it has
        a connection of its own, and holds up a window that writes for milliseconds.
        """
        try:
            parts.backups.back_up_where_due(self._store.path, self._now())
        except WorkshopError as error:
            return f"No copy of the pieces could be kept today. {error}"
        return ""

    def look_for_rescue(self) -> Rescue:
        """What reads of the file of pieces and of its newest good copy. Nothing is changed. Raises WorkshopError."""
        return parts.rescue.look(self._store.path)

    def rescue(self) -> Rescue:
        """Put a new file of pieces in the place of a broken one, from all that reads; the broken one is kept beside it.
        Only on the maker's word. Raises WorkshopError, and then the file is as it was."""
        self._store.database.close()
        return parts.rescue.rescue(self._store.path, self._now())

    def wait_at_most(self, seconds: float) -> None:
        """How long to wait from now on for a file of pieces that another program holds."""
        self._store.database.wait_at_most(seconds)

    # -- the same, by the names that the screens use ------------------------------------------------------------------

    def plan(self, path: Path, choice: CordChoice | None = None) -> Planned:
        """See `Designs.plan`."""
        return self.designs.plan(path, choice)

    def planned_by(self, path: Path, planned: Planned, choice: CordChoice) -> Planned:
        """See `Designs.planned_by`."""
        return self.designs.planned_by(path, planned, choice)

    def cards(self) -> tuple[CordCard, ...]:
        """See `CordCards.all`."""
        return self.cord_cards.all()

    def card(self, name: str) -> CordCard | None:
        """See `CordCards.named`."""
        return self.cord_cards.named(name)

    def add_tests(self, card: CordCard, *tests: CardTest) -> CordCard:
        """See `CordCards.add_tests`."""
        return self.cord_cards.add_tests(card, *tests)

    def withdraw_test(self, card: CordCard) -> CordCard:
        """See `CordCards.withdraw_test`."""
        return self.cord_cards.withdraw_test(card)

    # -- pieces -------------------------------------------------------------------------------------------------------

    def pieces(self) -> tuple[PieceRow, ...]:
        """Every piece, the latest touched first."""
        return self._store.rows()

    def sizes(self, after: int = 0) -> dict[int, str]:
        """The size that each piece with a number beyond `after` is made to, as its maker wrote it; "" for none."""
        return self._store.sizes(after)

    def state(self) -> tuple[int, ...]:
        """A value that is another one once anything was written, here or elsewhere. Cheap: no piece is read."""
        return self._store.state()

    def pieces_of(self, path: Path) -> tuple[PieceRow, ...]:
        """The pieces under way of that design: by its full path or, moved, by equal content. The file is not parsed."""
        return self._pieces.under_way(path)

    def start(self, path: Path, cuts: Sequence[CutEntered] = (), planned: Planned | None = None) -> OpenPiece:
        """A new piece of that design, with the cuts really made. Raises WorkshopError where the design has errors."""
        planned = planned or self.designs.plan(path)
        if planned.plan is None:
            raise WorkshopError("\n".join(str(problem) for problem in planned.problems))
        events: list[Event] = [Started(planned.plan.total_steps), *cuts]
        piece = fold(events)
        outlook = parts.forecasts.new_forecaster(planned.plan).outlook(piece)
        word = warning_of(outlook)  # a cut too short shows on the bench at once
        reading, at = planned.reading, self._now()
        design = DesignCopy(planned.plan.design, full_path(path), reading.digest, reading.text)
        row = self._store.add(planned.plan, design, events, at, Summary.of(piece, word))
        return self._pieces.opened(row, planned.plan)

    def open(self, name: str) -> OpenPiece:
        """The piece of that name. Raises NoSuchPiece."""
        return self._pieces.open(name)

    def refresh(self, opened: OpenPiece) -> OpenPiece:
        """The piece as it stands now: the very same value where nothing has been written since."""
        return self._pieces.refresh(opened)

    def teaching(self, opened: OpenPiece, length_mm: float | None, left_mm: float | None = None) -> Teaching | None:
        """What the piece would teach its cord card, ended so; None where it has none, or nothing was measured."""
        card = self.cord_cards.named(opened.plan.cord.card) if opened.plan.cord.card else None
        if card is None or (length_mm is None and left_mm is None and not opened.piece.readings):
            return None
        return parts.teaching.teaching(opened, card, length_mm, left_mm, self.suppose)

    # -- what it means ------------------------------------------------------------------------------------------------

    def remedies(self, opened: OpenPiece, nearer: bool = False) -> tuple[Remedy, ...]:
        """What would bring the piece back to its length, the first to begin with; `nearer`: also where it is on plan,
        and could be nearer to its target."""
        outlook, miscounted = self.outlook(opened), any(one.beads for one in opened.piece.counted)
        if not (nearer or miscounted or warning_of(outlook)):
            return ()
        return parts.search.remedies(opened.plan, opened.piece, outlook, nearer=nearer)

    def charted(self, opened: OpenPiece) -> Charted:
        """See `forecasts.charted`: safe in any thread."""
        return parts.forecasts.charted(opened)

    def remember_warning(self, opened: OpenPiece, outlook: Outlook) -> OpenPiece:
        """The piece with the word of warning that its outlook gives, put on the bench where it is another one."""
        word = warning_of(outlook)
        if word == opened.warning:
            return opened
        with suppress(WorkshopError):  # whoever opens the piece next puts it right
            self._store.set_warning(opened.id, opened.revision, word)
        return replace(opened, warning=word)

    def pace(self, opened: OpenPiece) -> Pace:
        """How fast it goes, and how long the rest may take."""
        return pace(opened.confirmed_at, opened.piece.total_steps - opened.piece.done)

    def hand(self) -> Hand:
        """How fast the maker works, by the steps of her latest pieces; as is usual where they are too few."""
        from companion.core.variants.hours import hand_of, timed_steps

        timed = []
        for row in self.pieces()[:HAND_PIECES]:
            journal = self.journal_with_plans(self.open(row.name))
            timed += timed_steps((entry.at.timestamp(), entry.event, plan) for entry, plan, _ in journal)
        return hand_of(timed)

    def journal(self, opened: OpenPiece) -> tuple[DatedEvent, ...]:
        """The story of the piece: every event with its time."""
        return self._store.journal(opened.id)

    def worked(self, opened: OpenPiece) -> Worked:
        """How long the work on the piece took, pauses left out, and on how many days."""
        times = [entry.at for entry in self.journal(opened)]
        days = len({time.astimezone().date() for time in times})
        return Worked(seconds_worked([time.timestamp() for time in times]), days)

    def left_at_the_end(self, opened: OpenPiece) -> float | None:
        """The cord left of one layer that was told when the piece was finished, mm; None where it was not."""
        ends = [entry.event for entry in self.journal(opened) if isinstance(entry.event, Finished)]
        return ends[-1].left_mm if ends else None

    def readings(self, opened: OpenPiece) -> tuple[DatedReading, ...]:
        """All readings of the piece as it stands, each with when it was taken, what was expected, whether it counts."""
        journal = self.journal(opened)[: opened.revision]
        piece = fold(entry.event for entry in journal)
        listed = parts.reading_list.reading_list(self.forecasts.forecaster(opened), piece)
        return tuple(map(DatedReading, _taken_at(journal, [one.measured for one in listed]), listed))

    def journal_with_plans(self, opened: OpenPiece) -> Iterator[tuple[DatedEvent, Plan, Event | None]]:
        """Every event with the plan as it was then, and with the act that it undoes or does again, if it does."""
        return with_plans(opened.began_with, self.journal(opened))

    def design_differs(self, opened: OpenPiece) -> bool:
        """Whether the design file is there and says something else than when the piece began."""
        content = content_of(Path(opened.design_path))
        if content is None:
            return False
        return content.decode("utf-8-sig", "replace") != self._store.design_text(opened.id)


def _taken_at(journal: Sequence[DatedEvent], readings: Sequence[Measured]) -> Iterator[datetime]:
    """When each of these was taken. The fold hands on the very events, but for those that a screen set right has moved
    to another step: they are the next that are alike."""
    left = {id(entry.event): (entry.event, entry.at) for entry in journal if isinstance(entry.event, Measured)}
    there = {id(reading): left.pop(id(reading))[1] for reading in readings if id(reading) in left}
    for reading in readings:
        if id(reading) not in there:
            alike = (key for key, (taken, _) in left.items() if replace(reading, step=taken.step) == taken)
            there[id(reading)] = left.pop(next(alike))[1]
        yield there[id(reading)]


def open_at(folder: Path | None = None) -> Workshop:
    """The workshop on the user's own data folder, or on the one given. Nothing is opened or made yet."""
    return Workshop(Store((folder or data_folder()) / DATABASE, _new_uid, partial(datetime.now, UTC)))


def _new_uid() -> str:
    return os.urandom(16).hex()  # as secrets.token_hex, which loads what it does not need
