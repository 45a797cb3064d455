"""How each event changes a piece: the piece as it stands is the fold over its journal.

Undoing is an event too. The latest act is undone, whatever it was, and the piece stands as it did before; redoing
restores the act, until something else is done. So several undos in a row walk back in time. A jump sets aside the
readings of the steps that it takes back, because the count may have been wrong when they were taken. A reading that is
taken out keeps its place among the others, and returns to it when it is put back.

Journals of earlier versions have another undo (`Undone`). It takes back the latest confirm, jump, change or join that
still stands, or reopens a piece that has ended, and it sets aside the readings of the step that it takes back.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import reduce

from msgspec.structs import replace

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
    Recounted,
    RedoneAct,
    Renamed,
    Started,
    TakenOut,
    TakenUp,
    Undone,
    UndoneAct,
    Withdrawn,
)
from companion.core.journal.piece import NOT_BEGUN, STATE_WORDS, Join, Move, Piece, Reading
from companion.core.values.errors import NotPossible

Act = (
    CutEntered
    | Confirmed
    | Jumped
    | Measured
    | Withdrawn
    | TakenOut
    | PutBack
    | Changed
    | Joined
    | Recounted
    | Noted
    | Finished
    | Abandoned
    | TakenUp
    | Renamed
)


def after(piece: Piece, event: Event) -> Piece:
    """The piece after one more event. Raises NotPossible if the event cannot follow."""
    match event:
        case UndoneAct():
            return _act_undone(piece)
        case RedoneAct():
            return _act_redone(piece)
        case Undone(back_to=back_to):
            return _with_time_before(_undone(piece, back_to), piece)
        case Started(total_steps=total):
            return replace(piece, total_steps=total)
    return replace(_acted(piece, event), act=event, before=piece, later=None)


def _acted(piece: Piece, event: Act) -> Piece:
    if isinstance(event, Renamed):  # a name is no part of how a piece stands: one that has ended can have another too
        return piece
    if isinstance(event, TakenUp):
        return _taken_up(piece)
    if piece.state != "under way":
        raise NotPossible(f"This piece is {STATE_WORDS[piece.state]}. Undo opens it again.")
    match event:
        case Confirmed(step=step):
            return _confirmed(piece, step)
        case Jumped():
            return _jumped(piece, event)
        case Changed():
            return _changed(piece, event)
        case Joined():
            return _joined(piece, event)
        case Finished(length_mm=length_mm):
            return replace(piece, state="finished", finished_mm=length_mm)
        case Abandoned():
            return replace(piece, state="abandoned")
        case _:
            return _told(piece, event)


def _taken_up(piece: Piece) -> Piece:
    if piece.state != "abandoned":
        raise NotPossible(f"This piece is {STATE_WORDS[piece.state]}, so there is nothing to take up again.")
    return replace(piece, state="under way")


def fold(events: Iterable[Event], piece: Piece = NOT_BEGUN) -> Piece:
    """The piece after these events, starting from `piece`."""
    return reduce(after, events, piece)


def _act_undone(piece: Piece) -> Piece:
    if piece.before is None:
        raise NotPossible("Nothing to undo: nothing is done yet.")
    return replace(piece.before, later=piece)


def _act_redone(piece: Piece) -> Piece:
    if piece.later is None:
        raise NotPossible("Nothing to redo.")
    return piece.later


def _with_time_before(new: Piece, old: Piece) -> Piece:
    """The piece after an undo of an earlier version: what can be undone next is what came before the act it took
    back."""
    moves = (Confirmed, Jumped, Changed, Joined, Finished, Abandoned)
    undone: Piece | None = old
    while undone is not None and not isinstance(undone.act, moves):
        undone = undone.before
    earlier = undone.before if undone else None
    return replace(new, act=earlier.act if earlier else None, before=earlier.before if earlier else None, later=None)


def undo_of(piece: Piece) -> Undone:
    """The event by which earlier versions undid the latest move, or reopened a piece that had ended. Raises
    NotPossible."""
    if piece.state != "under way":
        return Undone(piece.done)
    if not piece.moves:
        raise NotPossible("Nothing to undo: no step is done yet.")
    last = piece.moves[-1]
    if last.moved:
        raise NotPossible("Earlier versions cannot undo that the screen was set right.")
    return Undone(last.end - 1 if last.stepwise else last.start)


# -- moves, which undo takes back -------------------------------------------------------------------------------------


def _confirmed(piece: Piece, step: int) -> Piece:
    if piece.done == piece.total_steps:
        raise NotPossible("Every step is done already.")
    if step != piece.done + 1:
        raise NotPossible(f"Step {step} is not the present one: {piece.done} of {piece.total_steps} are done.")
    earlier, start = piece.moves, piece.done
    if earlier and earlier[-1].stepwise and earlier[-1].end == piece.done:
        earlier, start = earlier[:-1], earlier[-1].start
    return replace(piece, done=step, moves=(*earlier, Move(start, step, stepwise=True)))


def _jumped(piece: Piece, jump: Jumped) -> Piece:
    to, places = jump.to, dict(jump.moved)
    wrong = [step for step in (to, *places.values()) if not (NOWHERE if step != to else 0) <= step <= piece.total_steps]
    if wrong:
        raise NotPossible(f"There is no step {wrong[0]}: this piece has {piece.total_steps}.")
    readings = [replace(one, measured=_moved(one.measured, places)) for one in piece.all_readings]
    stand = [NOWHERE < one.measured.step <= to for one in readings]
    put_aside = tuple((place, one) for place, one in enumerate(piece.all_readings) if not stand[place])
    move = Move(piece.done, to, stepwise=False, put_aside=put_aside, counted=piece.counted, moved=bool(places))
    counted = _still_counted(piece.counted if jump.counted is None else _moved_counts(piece.counted, jump), to)
    joins = tuple(_moved_join(join, places) for join in piece.joins)
    piece = _with_readings(piece, (one for place, one in enumerate(readings) if stand[place]))
    return replace(piece, done=to, moves=(*piece.moves, move), joins=joins, counted=counted)


def _moved(reading: Measured, places: Mapping[int, int]) -> Measured:
    return replace(reading, step=places[reading.step]) if reading.step in places else reading


def _moved_join(join: Join, places: Mapping[int, int]) -> Join:
    step = places.get(join.step, join.step)
    return join if step == NOWHERE else Join(step, join.added_mm, tuple(_moved(one, places) for one in join.before))


def _moved_counts(counted: tuple[Recounted, ...], jump: Jumped) -> tuple[Recounted, ...]:
    """The counts after the screen was set right. Those of earlier steps stay, those of later ones move along, and one
    that covers the steps counted now is replaced."""
    assert jump.counted is not None
    (since, step), places = jump.counted, dict(jump.moved)
    if not 0 <= since < step <= jump.to:
        raise NotPossible(f"Step {since + 1} comes after step {step}: name the earlier step first.")
    stand = [one for one in counted if one.step <= since]
    later = [replace(one, since=places[one.since], step=places[one.step]) for one in counted if _both_in(one, places)]
    return (*stand, Recounted(step, since), *(one for one in later if step <= one.since < one.step))


def _both_in(one: Recounted, places: Mapping[int, int]) -> bool:
    return one.since in places and one.step in places


def _changed(piece: Piece, event: Changed) -> Piece:
    move = Move(piece.done, piece.done, stepwise=False, steps_before=piece.total_steps)
    changes = (*piece.changes, event)
    return replace(piece, total_steps=event.total_steps, changes=changes, moves=(*piece.moves, move))


def _joined(piece: Piece, event: Joined) -> Piece:
    if event.step != piece.done:
        raise NotPossible(f"Cord is joined on where you are: {piece.done} of {piece.total_steps} are done.")
    here = (one.measured for one in piece.all_readings if one.measured.step == event.step)
    join = Join(event.step, event.added_mm, tuple(here))
    move = Move(piece.done, piece.done, stepwise=False, join=True)
    return replace(piece, joins=(*piece.joins, join), moves=(*piece.moves, move))


def _undone(piece: Piece, back_to: int) -> Piece:
    if undo_of(piece).back_to != back_to:
        raise NotPossible(f"The piece has changed since: {piece.done} of {piece.total_steps} are done.")
    if piece.state != "under way":
        return replace(piece, state="under way", finished_mm=None)
    *earlier, last = piece.moves
    if last.join:
        return replace(piece, joins=piece.joins[:-1], moves=tuple(earlier))
    if last.steps_before is not None:
        return replace(piece, total_steps=last.steps_before, changes=piece.changes[:-1], moves=tuple(earlier))
    if last.stepwise and back_to > last.start:
        earlier.append(replace(last, end=back_to))
    readings = [reading for reading in piece.all_readings if reading.measured.step <= back_to]
    for place, reading in last.put_aside:
        readings.insert(place, reading)
    counted = piece.counted if last.stepwise else _counted_again(piece.counted, last)
    counted = _still_counted(counted, back_to)
    return replace(_with_readings(piece, readings), done=back_to, moves=tuple(earlier), counted=counted)


# -- what the maker tells of the piece --------------------------------------------------------------------------------


def _told(piece: Piece, event: CutEntered | Measured | Withdrawn | TakenOut | PutBack | Recounted | Noted) -> Piece:
    match event:
        case CutEntered(cord=cord):
            return replace(piece, cuts=(*(cut for cut in piece.cuts if cut.cord != cord), event))
        case Measured():
            _check_made(piece, event.step)
            return replace(piece, readings=(*piece.readings, event))
        case Withdrawn():
            return _withdrawn(piece)
        case TakenOut(number=number, reading=reading):
            return _with_reading(piece, number, reading, counts=False)
        case PutBack(number=number, reading=reading):
            return _with_reading(piece, number, reading, counts=True)
        case Recounted():
            return _recounted(piece, event)
        case Noted():
            return replace(piece, notes=(*piece.notes, event))


def _check_made(piece: Piece, step: int) -> None:
    if not 0 <= step <= piece.done:
        made = f"Step {step} is not done yet: {piece.done} of {piece.total_steps} are."
        raise NotPossible(f"{made} If you worked from a sheet, jump to that step first.")


def _withdrawn(piece: Piece) -> Piece:
    """The piece without the latest reading that counts."""
    for number, one in reversed([*enumerate(piece.all_readings, start=1)]):
        if one.counts:
            return _with_reading(piece, number, one.measured, counts=False)
    raise NotPossible("There is no reading to take out.")


def _with_reading(piece: Piece, number: int, measured: Measured, counts: bool) -> Piece:
    """The piece with one of its readings taken out, or put back."""
    readings = list(piece.all_readings)
    if not 1 <= number <= len(readings) or readings[number - 1].measured != measured:
        raise NotPossible(f"Reading {number} is another one now. Look at the list again.")
    one = readings[number - 1]
    if one.counts == counts:
        raise NotPossible(f"Reading {number} {'counts' if counts else 'is taken out'} already.")
    readings[number - 1] = replace(one, counts=counts)
    return _with_readings(piece, readings)


def _with_readings(piece: Piece, readings: Iterable[Reading]) -> Piece:
    readings = tuple(readings)
    counting = tuple(one.measured for one in readings if one.counts)
    out = tuple((place, one.measured) for place, one in enumerate(readings) if not one.counts)
    return replace(piece, readings=counting, out=out)


def _recounted(piece: Piece, event: Recounted) -> Piece:
    _check_made(piece, event.step)
    if not (0 <= event.since < event.step or event.since == event.step == 0):
        raise NotPossible(f"Step {event.since + 1} comes after step {event.step}: name the earlier step first.")
    return replace(piece, counted=(*(one for one in piece.counted if not _covers(event, one)), event))


def _covers(later: Recounted, earlier: Recounted) -> bool:
    """Whether a count covers every step of an earlier one."""
    return later.since <= earlier.since <= earlier.step <= later.step


def _still_counted(counted: tuple[Recounted, ...], made: int) -> tuple[Recounted, ...]:
    """Which of these counts still hold with so many steps done. A count that was not right holds whole or not at all,
    because nobody knows in which part the fault lies."""
    whole = (one for one in counted if one.step <= made)
    cut = (replace(one, step=made) for one in counted if one.since < made < one.step and one.beads == 0)
    return (*whole, *cut)


def _counted_again(counted: tuple[Recounted, ...], jump: Move) -> tuple[Recounted, ...]:
    """The counts that hold once a jump is undone: those from before it, unless they were counted again since, and those
    made since."""
    left = _still_counted(jump.counted, jump.end)
    since = tuple(one for one in counted if one not in left)

    def stands(one: Recounted) -> bool:
        return one in counted if one in left else not any(_covers(later, one) for later in since)

    return (*filter(stands, jump.counted), *since)
