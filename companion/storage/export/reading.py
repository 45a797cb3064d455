"""Pieces and cards, read from the documents of an export. Everything that comes from outside is checked here: first
that each value has its type, then all that types cannot say."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from functools import cache
from hashlib import sha256
from itertools import chain
from typing import Any

from companion.core.cord.cards import MOST_KNOTS, MOST_NAME, impossible
from companion.core.draft.draft import MOST_TEXT as MOST_TEXT_OF_DRAFT
from companion.core.gate.journal_check import Unlikely, fold_checked
from companion.core.gate.plan_check import plan_fault
from companion.core.gate.plan_document import from_document
from companion.core.journal.event_document import event_from_document
from companion.core.journal.names import can_be_kept
from companion.core.plan.plan import Plan
from companion.core.values.design import MOST_LAYERS
from companion.core.values.measures.units import COARSEST_RULER_MM, MOST_MM
from companion.core.values.plain_values import MOST_TEXT, Misshapen, Reader, reader
from companion.core.values.text import FORBIDDEN, plain
from companion.storage.cards import as_test
from companion.storage.export.document import (
    BeadDocument,
    CardDocument,
    Document,
    EventDocument,
    PieceDocument,
    WithdrawalDocument,
)
from companion.storage.kept import (
    WITHDRAWN,
    BeadRow,
    CardEntry,
    CardRow,
    DatedEvent,
    DesignCopy,
    KeptBead,
    KeptCard,
    KeptPiece,
    Summary,
)

MOST_TESTS = 10_000
MOST_WARNING, MOST_TYPED = 60, 200  # columns
_YEARS = range(1970, 9999)  # a clock that has lost its time begins there
_UID = re.compile(r"[0-9a-f]{1,64}")


class NotOurs(ValueError):
    """Something that cannot be in an export, with its place in the piece or card."""


# -- pieces -----------------------------------------------------------------------------------------------------------


def piece_of(document: Any) -> KeptPiece:
    """The piece of a document. Raises NotOurs."""
    made: PieceDocument = _read(PieceDocument, document, "a piece")
    _refuse(chain(_piece_faults(made), _design_faults(made.design), _plan_faults(made)))
    try:
        piece = fold_checked(made.plan, (line.event for line in made.events))
    except Unlikely as error:
        raise NotOurs(f"event {error.number}: {error}" if error.number else f"events: {error}") from error
    if (made.state, made.steps_done, made.steps_total) != (piece.state, piece.done, piece.total_steps):
        raise NotOurs("state, steps_done or steps_total is not what the events come to")
    path = "" if re.search(FORBIDDEN, made.design.path) else made.design.path
    design = DesignCopy(made.design.name, path, made.design.digest, made.design.text)
    summary = Summary.of(piece, made.trouble)
    return KeptPiece(made.uid, made.name, design, made.plan, made.started_at, made.events, summary)


def _piece_faults(made: PieceDocument) -> Iterator[str]:
    for what, right in (("uid", _UID.fullmatch(made.uid)), ("name", can_be_kept(made.name))):
        if not right:
            yield f"{what}: not as Tallycord writes it"
    if plain(made.trouble, MOST_WARNING) != made.trouble:
        yield "trouble: a line of plain text is expected"


def _design_faults(design: DesignCopy) -> Iterator[str]:
    for what, text in (("text", design.text), ("name", design.name)):
        if re.search(FORBIDDEN, text):
            yield f"design {what}: the text holds a character that can't be seen"
            return
    raw = design.text.encode("utf-8")  # a design may begin with a byte-order mark, which is not kept
    if design.digest not in (sha256(raw).hexdigest(), sha256(b"\xef\xbb\xbf" + raw).hexdigest()):
        yield "design digest: it is not that of the design's text"


def _plan_faults(made: PieceDocument) -> Iterator[str]:
    wrong = plan_fault(made.plan)
    if wrong:
        yield f"plan: {plain(wrong)}"
    if made.plan.design != made.design.name:
        yield "plan: it is of another design"


# -- cards ------------------------------------------------------------------------------------------------------------


def card_of(document: Any) -> KeptCard:
    """The card of a document. Raises NotOurs."""
    made: CardDocument = _read(CardDocument, document, "a card")
    _refuse(chain(_card_faults(made), _entry_faults(made.tests)))
    card = CardRow(0, made.name, made.diameter_mm, made.layers, made.material, made.worked_with, made.made_at)
    return KeptCard(card, made.tests)


def _card_faults(made: CardDocument) -> Iterator[str]:
    if plain(made.name, MOST_NAME) != made.name:
        yield "name: a line of plain text is expected"
    if not made.name or not 0 < made.diameter_mm <= MOST_MM:
        yield "a card has a name, and a diameter above 0"
    if not 1 <= made.layers <= MOST_LAYERS:
        yield f"layers: 1 to {MOST_LAYERS} are expected"
    if len(made.tests) > MOST_TESTS:
        yield f"tests: a list of at most {MOST_TESTS:,} is expected"


def _entry_faults(entries: tuple[CardEntry, ...]) -> Iterator[str]:
    standing = 0
    for number, entry in enumerate(entries, start=1):
        standing += -1 if entry.kind == WITHDRAWN else 1
        wrong = "there is no test to take out" if standing < 0 else _entry_fault(entry)
        if wrong:
            yield f"test {number}: {wrong}"


def _entry_fault(entry: CardEntry) -> str:
    if entry.kind == WITHDRAWN:
        return ""
    try:
        test = as_test(entry)
    except Misshapen as error:
        return str(error)
    lengths = [length for length in (entry.before_mm, entry.after_mm, entry.row_mm) if length is not None]
    if not lengths or not all(0 < length <= MOST_MM for length in lengths):
        return "no such length"
    if not 0 < entry.ruler_step_mm <= COARSEST_RULER_MM:
        return "no such length"
    if not 1 <= entry.knots <= MOST_KNOTS or (test.row and impossible(test.row)):
        return "no such test"
    return "" if plain(entry.typed, MOST_TYPED) == entry.typed else "a line of plain text is expected"


# -- the bead box -----------------------------------------------------------------------------------------------------


def bead_of(document: Any) -> KeptBead:
    """The bead of a document. Raises NotOurs."""
    made: BeadDocument = _read(BeadDocument, document, "a bead")
    texts = (made.name, made.length, made.diameter, made.hole, made.colour, made.shape, made.in_hand)
    if any(plain(text, MOST_TEXT_OF_DRAFT) != text for text in texts):
        raise NotOurs("a line of plain text is expected")
    if not made.name or not made.length:
        raise NotOurs("a bead has a name and a length")
    return KeptBead(BeadRow(made.at, *texts), made.taken_out)


# -- types ------------------------------------------------------------------------------------------------------------


def _refuse(faults: Iterator[str]) -> None:
    first = next(faults, "")
    if first:
        raise NotOurs(first)


def _read(kind: Any, document: Any, what: str) -> Any:
    try:
        return _reader(kind)(document)
    except Misshapen as error:
        place = list(error.place) or [what]
        if place[0] in ("events", "tests") and len(place) > 1:
            place[:2] = [f"{place[0][:-1]} {place[1]}"]
        raise NotOurs(": ".join((*place, error.words))) from error


@cache
def _reader(kind: Any) -> Reader:
    """Built when it is first needed."""
    special: Mapping[Any, Reader] = {
        **{datetime: _moment, str: _text, Document: lambda data: data},
        **{Plan: _plan, DatedEvent: _event},
    }
    return reader(kind, special if kind is CardEntry else {**special, CardEntry: _entry})


def _text(value: Any) -> str:
    """Any text; what it may contain is checked later."""
    if not isinstance(value, str) or len(value) > MOST_TEXT:
        raise Misshapen(f"text of at most {MOST_TEXT:,} characters is expected")
    return value


def _moment(value: Any) -> datetime:
    """A moment with its time zone, as UTC."""
    try:
        found = datetime.fromisoformat(value)
        if found.tzinfo is not None and found.astimezone(UTC).year in _YEARS:
            return found.astimezone(UTC)
    except (TypeError, ValueError, OverflowError):
        pass
    raise Misshapen("a date with its time and zone is expected")


def _plan(document: Any) -> Plan:
    try:
        return from_document(document)
    except Misshapen:
        raise
    except ValueError as error:
        raise Misshapen(plain(str(error))) from error


def _event(document: Any) -> DatedEvent:
    line: EventDocument = _reader(EventDocument)(document)
    try:
        return DatedEvent(line.at, event_from_document(line.kind, line.data))
    except Misshapen:
        raise
    except ValueError as error:
        raise Misshapen(plain(str(error))) from error


def _entry(document: Any) -> CardEntry:
    if isinstance(document, dict) and document.get("kind") == WITHDRAWN:
        return CardEntry.withdrawal(_reader(WithdrawalDocument)(document).at)
    entry: CardEntry = _reader(CardEntry)(document)
    return entry
