"""Whether a journal from outside can have been written here: every event follows from those before it."""

from __future__ import annotations

from collections.abc import Iterable

from companion.core.closures.table import CLOSURES
from companion.core.cord.lessons import of_event
from companion.core.journal.events import (
    NOWHERE,
    Abandoned,
    Changed,
    Confirmed,
    CutEntered,
    Event,
    Finished,
    Joined,
    Jumped,
    Measured,
    Noted,
    PutBack,
    RedoneAct,
    Renamed,
    Started,
    Undone,
    UndoneAct,
)
from companion.core.journal.fold import after
from companion.core.journal.names import can_be_kept
from companion.core.journal.piece import NOT_BEGUN, Piece
from companion.core.plan.plan import Plan
from companion.core.values.design import Bead, Element
from companion.core.values.element_codes import from_code
from companion.core.values.errors import NotPossible
from companion.core.values.measures.units import COARSEST_RULER_MM, MOST_MM
from companion.core.values.text import plain

MOST_EVENTS = 200_000
MOST_OTHERS = 5_000  # events that are neither a step nor its undoing: a piece carries every one of them with it
MOST_READINGS = 500  # that count at one time: a forecast weighs each against all others
MOST_CHANGED = 1_000_000  # elements worked out anew over all changes of what is left
MOST_WORDS = 2_000


class Unlikely(ValueError):
    """An event that can't stand where it stands; `number` from 1, the text says why in a few words."""

    def __init__(self, number: int, why: str) -> None:
        super().__init__(why)
        self.number = number


def fold_checked(plan: Plan, events: Iterable[Event]) -> Piece:
    """The piece after these events, begun with that plan. Raises Unlikely at the first that can't be."""
    journal = _Journal(plan)
    for number, event in enumerate(events, start=1):
        why = journal.fault(number, event)
        if why:
            raise Unlikely(number, why)
        try:
            journal.take(event)
        except NotPossible as error:
            raise Unlikely(number, str(error).removesuffix(".")) from error
    if journal.piece is NOT_BEGUN:
        raise Unlikely(0, "a journal begins with the start of the piece")
    return journal.piece


class _Journal:
    """The piece so far, with the plan as it then stands."""

    def __init__(self, plan: Plan) -> None:
        self.first, self.plan, self.piece = plan, plan, NOT_BEGUN
        self.others = self.changed = 0

    def take(self, event: Event) -> None:
        before, self.piece = self.piece, after(self.piece, event)
        if self.piece.changes != before.changes:
            self.plan = _changed(self.first, self.piece.changes)

    def fault(self, number: int, event: Event) -> str:
        """Why an event can't come next; "" if only the fold itself could object."""
        if isinstance(event, Started) != (number == 1):
            return "a piece starts once, and that comes first"
        self.others += not isinstance(event, Confirmed | Undone | UndoneAct | RedoneAct)
        if number > MOST_EVENTS or self.others > MOST_OTHERS:
            return "there are more events than a piece can have"
        return self._words(event) or self._numbers(event)

    def _words(self, event: Event) -> str:
        match event:
            case CutEntered(typed=text) | Measured(typed=text) | Joined(typed=text) | Changed(words=text):
                pass
            case Noted(text=text) | Abandoned(reason=text):
                pass
            case Renamed(name=name, was=was):
                return "" if can_be_kept(name) and can_be_kept(was) else "the name can't be one"
            case _:
                return ""
        return "" if plain(text, MOST_WORDS) == text else "the text is no line of plain text"

    def _numbers(self, event: Event) -> str:
        match event:
            case Started(total_steps=total):
                return "" if total == self.plan.total_steps else f"the plan has {self.plan.total_steps} steps"
            case CutEntered(cord=cord, length_mm=length):
                return "" if 0 <= cord < len(self.plan.cuts) and 0 < length <= MOST_MM else "no such cord or length"
            case Measured() | PutBack() if len(self.piece.readings) >= MOST_READINGS:
                return "there are more readings than a piece can have"
            case Measured(length_mm=length, ruler_step_mm=ruler):
                return "" if 0 <= length <= MOST_MM and 0 < ruler <= COARSEST_RULER_MM else "no such length"
            case Jumped():
                return "" if _can_be_moved(event, self.piece.total_steps) else "no such steps"
            case Joined(added_mm=length):
                return "" if -MOST_MM <= length <= MOST_MM else "no such length"
            case Noted(step=step):
                return "" if 0 <= step <= self.piece.total_steps else "no such step"
            case Finished():
                return self._end(event)
            case Changed():
                return self._change(event)
        return ""

    def _end(self, event: Finished) -> str:
        if self.piece.done < self.piece.total_steps:
            return "steps are left to do"
        if not (event.length_mm is None or 0 < event.length_mm <= MOST_MM):
            return "no such length"
        if not (event.left_mm is None or 0 <= event.left_mm <= MOST_MM):
            return "no such length of cord left"
        if plain(event.card, MOST_WORDS) != event.card:
            return "the name of the card is no line of plain text"
        try:
            of_event("", event)
        except ValueError as error:
            return str(error)
        return ""

    def _change(self, event: Changed) -> str:
        from companion.core.plan.replan import same_steps_made

        rests = ((event.entry, event.made, event.rest), *event.more)
        self.changed += sum(len(strand.elements) for strand in self.plan.strands) * len(rests)
        self.changed += sum(len(rest) for _, _, rest in rests)
        if self.changed > MOST_CHANGED:
            return "there is more changed than a piece can have"
        for entry, made, rest in rests:
            if not 0 <= entry < len(self.plan.strands) or not 0 <= made <= len(self.plan.strands[entry].elements):
                return "no such place in the plan"
            if made + len(rest) == 0 or not all(self._can_be(code) for code in rest):
                return "what is left holds what the plan has not"
        if not -MOST_MM <= event.closure_mm <= MOST_MM or event.end_closure not in ("", *CLOSURES):
            return "no such closure"
        plan = _changed(self.plan, (event,))
        if plan.total_steps != event.total_steps or not same_steps_made(self.plan, plan, self.piece.done):
            return "the steps are not those of the change"
        return "a closure is 0 or more" if plan.strands[event.entry].closure_length_mm < 0 else ""

    def _can_be(self, code: str | float) -> bool:
        try:
            element: Element = from_code(code)
        except ValueError:
            return False
        if isinstance(element, Bead):
            return any(kind.key == element.key for kind in self.plan.beads)
        return isinstance(code, str) or 0 <= code <= MOST_MM


def _can_be_moved(jump: Jumped, total_steps: int) -> bool:
    """Whether those are steps of the piece, and no more than a piece may have of what is moved."""
    steps = (step for pair in jump.moved for step in pair)
    return len(jump.moved) <= 2 * MOST_READINGS and all(NOWHERE <= step <= total_steps for step in steps)


def _changed(plan: Plan, changes: tuple[Changed, ...]) -> Plan:
    from companion.core.plan.replan import changed_plan

    return changed_plan(plan, changes)
