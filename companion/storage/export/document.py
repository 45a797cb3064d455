"""Pieces and cards as plain values, and back: what an export holds of each, and what an import takes."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, datetime
from hashlib import sha256
from typing import Any

from companion.core.cord.cards import CardTest, CordCard, impossible
from companion.core.cord.knot_tests import KnotTest, TouchingRow
from companion.core.gate.journal_check import Unlikely, fold_checked
from companion.core.gate.plan_check import plan_fault
from companion.core.gate.plan_document import from_document, to_document
from companion.core.gate.shapes import misshapen
from companion.core.journal.event_document import event_from_document, event_to_document
from companion.core.journal.events import Event
from companion.core.journal.piece import Piece
from companion.core.plan.plan import Plan
from companion.core.values.design import KNOT_KINDS, MOST_LAYERS
from companion.core.values.lengths import COARSEST_RULER_MM, MOST_MM
from companion.core.values.text import FORBIDDEN, plain

FORMAT, KIND = 1, "companion export"
LISTS = ("cards", "pieces")
MOST_TESTS = 10_000
MOST_CARD_KNOTS = 1_000
MOST_CARD_NAME = 60
MOST_DESIGN = 1 << 20
WITHDRAWN = "withdrawn"
_NAME = re.compile(r"[a-z0-9](?:[a-z0-9-]{0,58}[a-z0-9])?")
_UID = re.compile(r"[0-9a-f]{1,64}")
_DIGEST = re.compile(r"[0-9a-f]{64}|")
_YEARS = range(1970, 9999)  # a clock that has lost its time begins there

Document = dict[str, Any]
Dated = tuple[datetime, Event]


class NotOurs(ValueError):
    """What can't be in an export, with its place in the piece or card."""


@dataclass(frozen=True, slots=True)
class KeptPiece:
    """All that is kept of a piece; `piece`: as it stands after its events."""

    uid: str
    name: str
    warning: str
    design_name: str
    design_path: str
    design_digest: str
    design_text: str
    plan: Plan
    started_at: datetime
    events: tuple[Dated, ...]
    piece: Piece


@dataclass(frozen=True, slots=True)
class KeptTest:
    """One entry of a card: a test, or the taking back of the latest that counts (None)."""

    at: datetime
    test: CardTest | None


@dataclass(frozen=True, slots=True)
class KeptCard:
    """A card with all its entries; `card`: without any."""

    card: CordCard
    made_at: datetime
    entries: tuple[KeptTest, ...]


# -- pieces -----------------------------------------------------------------------------------------------------------


def piece_document(kept: KeptPiece) -> Document:
    """A piece as an export writes it. Steps done and state are for readers; an import works them out again."""
    return {
        "uid": kept.uid,
        "name": kept.name,
        "state": kept.piece.state,
        "steps_done": kept.piece.done,
        "steps_total": kept.piece.total_steps,
        "trouble": kept.warning,
        "started_at": kept.started_at.isoformat(),
        "design": {
            "name": kept.design_name,
            "path": kept.design_path,
            "digest": kept.design_digest,
            "text": kept.design_text,
        },
        "plan": to_document(kept.plan),
        "events": [_event_document(at, event) for at, event in kept.events],
    }


def _event_document(at: datetime, event: Event) -> Document:
    kind, values = event_to_document(event)
    return {"at": at.isoformat(), "kind": kind, "data": values}


_PIECE_KEYS = frozenset(
    ("uid", "name", "state", "steps_done", "steps_total", "trouble", "started_at", "design", "plan", "events")
)


def piece_of(document: Any) -> KeptPiece:
    """The piece again, every part of it looked at. Raises NotOurs."""
    _has_keys(document, _PIECE_KEYS, "a piece")
    design = document["design"]
    _has_keys(design, frozenset(("name", "path", "digest", "text")), "design")
    plan = _plan_of(document["plan"], design)
    events = _events_of(document["events"])
    try:
        piece = fold_checked(plan, (event for _, event in events))
    except Unlikely as error:
        raise NotOurs(f"event {error.number}: {error}" if error.number else f"events: {error}") from error
    stated = (document["state"], document["steps_done"], document["steps_total"])
    if stated != (piece.state, piece.done, piece.total_steps) or bool in map(type, stated):
        raise NotOurs("state, steps_done or steps_total is not what the events come to")
    return KeptPiece(
        _matching(_UID, document["uid"], "uid"),
        _matching(_NAME, document["name"], "name"),
        _line(document["trouble"], "trouble", 60),
        design["name"],
        "" if FORBIDDEN.search(_text(design["path"], "design path", 8192)) else design["path"],
        _matching(_DIGEST, design["digest"], "design digest"),
        design["text"],
        plan,
        _moment(document["started_at"], "started_at"),
        events,
        piece,
    )


def _plan_of(document: Any, design: Document) -> Plan:
    _wholly(design["text"], "design text")
    _wholly(design["name"], "design name")
    if design["digest"] not in _digests(design["text"]):
        raise NotOurs("design digest: it is not that of the design's text")
    if not isinstance(document, dict):
        raise NotOurs("plan: an object is expected")
    try:
        plan = from_document(document)
    except (ValueError, OverflowError) as error:
        raise NotOurs(f"plan: {plain(str(error))}") from error
    wrong = plan_fault(plan)
    if wrong:
        raise NotOurs(f"plan: {plain(wrong)}")
    if plan.design != design["name"]:
        raise NotOurs("plan: it is of another design")
    return plan


def _digests(text: str) -> tuple[str, str]:
    """Of the text with and without a byte-order mark, which a design may begin with."""
    raw = text.encode("utf-8")
    return sha256(raw).hexdigest(), sha256(b"\xef\xbb\xbf" + raw).hexdigest()


def _events_of(documents: Any) -> tuple[Dated, ...]:
    if not isinstance(documents, list):
        raise NotOurs("events: a list is expected")
    events = []
    for number, document in enumerate(documents, start=1):
        place = f"event {number}"
        _has_keys(document, frozenset(("at", "kind", "data")), place)
        if not isinstance(document["kind"], str) or not isinstance(document["data"], dict):
            raise NotOurs(f"{place}: kind is text and data an object")
        try:
            event = event_from_document(document["kind"], document["data"])
        except ValueError as error:
            raise NotOurs(f"{place}: {plain(str(error))}") from error
        events.append((_moment(document["at"], place), event))
    return tuple(events)


# -- cards ------------------------------------------------------------------------------------------------------------


def card_document(kept: KeptCard) -> Document:
    """A card as an export writes it."""
    card = kept.card
    return {
        "name": card.name,
        "diameter_mm": card.diameter_mm,
        "layers": card.layers,
        "material": card.material,
        "worked_with": card.worked_with,
        "made_at": kept.made_at.isoformat(),
        "tests": [_test_document(entry) for entry in kept.entries],
    }


def _test_document(entry: KeptTest) -> Document:
    if entry.test is None:
        return {"at": entry.at.isoformat(), "kind": WITHDRAWN}
    test = entry.test
    some = test.row or test.touching
    assert some is not None  # a test has one of them
    return {
        "at": entry.at.isoformat(),
        "kind": test.kind,
        "knots": some.knots,
        "before_mm": test.row.before_mm if test.row else None,
        "after_mm": test.row.after_mm if test.row else None,
        "row_mm": test.touching.row_mm if test.touching else None,
        "ruler_step_mm": some.ruler_step_mm,
        "typed": test.typed,
    }


_CARD_KEYS = frozenset(("name", "diameter_mm", "layers", "material", "worked_with", "made_at", "tests"))
_TEST_KEYS = frozenset(("at", "kind", "knots", "before_mm", "after_mm", "row_mm", "ruler_step_mm", "typed"))


def card_of(document: Any) -> KeptCard:
    """The card again, every part of it looked at. Raises NotOurs."""
    _has_keys(document, _CARD_KEYS, "a card")
    named = (document[key] for key in ("name", "diameter_mm", "layers", "material", "worked_with"))
    card = CordCard(*named)
    wrong = misshapen(card, CordCard)
    if wrong:
        raise NotOurs(plain(wrong))
    if not _line(card.name, "name", MOST_CARD_NAME) or not 0 < card.diameter_mm <= MOST_MM:
        raise NotOurs("a card has a name, and a diameter above 0")
    if not 1 <= card.layers <= MOST_LAYERS:
        raise NotOurs(f"layers: 1 to {MOST_LAYERS} are expected")
    return KeptCard(card, _moment(document["made_at"], "made_at"), _tests_of(document["tests"]))


def _tests_of(documents: Any) -> tuple[KeptTest, ...]:
    if not isinstance(documents, list) or len(documents) > MOST_TESTS:
        raise NotOurs(f"tests: a list of at most {MOST_TESTS:,} is expected")
    entries, standing = [], 0
    for number, document in enumerate(documents, start=1):
        place = f"test {number}"
        if isinstance(document, dict) and document.get("kind") == WITHDRAWN:
            _has_keys(document, frozenset(("at", "kind")), place)
            test, standing = None, standing - 1
        else:
            _has_keys(document, _TEST_KEYS, place)
            test, standing = _test_of(document, place), standing + 1
        if standing < 0:
            raise NotOurs(f"{place}: there is no test to take back")
        entries.append(KeptTest(_moment(document["at"], place), test))
    return tuple(entries)


def _test_of(document: Document, place: str) -> CardTest:
    knots, ruler_mm = document["knots"], document["ruler_step_mm"]
    before_mm, after_mm, row_mm = (document[key] for key in ("before_mm", "after_mm", "row_mm"))
    row = None if before_mm is None and after_mm is None else KnotTest(before_mm, after_mm, knots, ruler_mm)
    touching = None if row_mm is None else TouchingRow(row_mm, knots, ruler_mm)
    test = CardTest(document["kind"], row, touching, document["typed"])
    wrong = misshapen(test, CardTest) or misshapen(knots, int) or misshapen(ruler_mm, float)
    if wrong:
        raise NotOurs(f"{place}: {plain(wrong)}")
    lengths = [length for length in (before_mm, after_mm, row_mm) if length is not None]
    if not lengths or not all(0 < length <= MOST_MM for length in lengths) or not 0 < ruler_mm <= COARSEST_RULER_MM:
        raise NotOurs(f"{place}: no such length")
    if not 1 <= knots <= MOST_CARD_KNOTS or test.kind not in KNOT_KINDS or (row and impossible(row)):
        raise NotOurs(f"{place}: no such test")
    _line(test.typed, place, 200)
    return test


# -- parts ------------------------------------------------------------------------------------------------------------


def _has_keys(document: Any, keys: frozenset[str], what: str) -> None:
    if not isinstance(document, dict):
        raise NotOurs(f"{what}: an object is expected")
    odd = sorted(set(document) ^ keys)
    if odd:
        word = "is not known" if odd[0] in document else "is missing"
        raise NotOurs(f"{what}: «{plain(odd[0], 40)}» {word}")


def _text(value: Any, what: str, most: int) -> str:
    if not isinstance(value, str) or len(value) > most:
        raise NotOurs(f"{what}: text of at most {most:,} characters is expected")
    return value


def _wholly(value: Any, what: str) -> None:
    if FORBIDDEN.search(_text(value, what, MOST_DESIGN)):
        raise NotOurs(f"{what}: the text holds a control character")


def _line(value: Any, what: str, most: int) -> str:
    if plain(_text(value, what, 4 * most), most) != value:
        raise NotOurs(f"{what}: a line of plain text is expected")
    return str(value)


def _matching(pattern: re.Pattern[str], value: Any, what: str) -> str:
    if not isinstance(value, str) or not pattern.fullmatch(value):
        raise NotOurs(f"{what}: not as the companion writes it")
    return value


def _moment(value: Any, what: str) -> datetime:
    """A moment with its zone, as UTC."""
    try:
        at = datetime.fromisoformat(_text(value, what, 40)).astimezone(UTC)
        if datetime.fromisoformat(value).tzinfo is None or at.year not in _YEARS:
            raise ValueError
    except (ValueError, OverflowError) as error:
        raise NotOurs(f"{what}: a date with its time and zone is expected") from error
    return at
