"""Every event of a piece's journal in a sentence."""

from __future__ import annotations

from companion.core.journal.events import (
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
from companion.core.plan.plan import Plan
from companion.core.values.measures.show_lengths import display_unit, show, show_up
from companion.core.values.text import sentences
from companion.core.words.step_words import step_line, step_name
from companion.core.words.undo_words import act_words


def event_words(plan: Plan, event: Event, act: Event | None = None) -> str:
    """One event in words. `act`: what it undoes or does again, if it does."""
    unit = display_unit(plan.unit)
    match event:
        case Started(total_steps=total):
            return f"Begun: {plan.design}, {total} steps."
        case CutEntered(cord=cord, length_mm=mm):
            name = f"{plan.cuts[cord].name}; " if len(plan.cuts) > 1 else ""
            return f"Cut {show(mm, unit)} ({name}planned {show_up(plan.cuts[cord].cut_mm, unit)})."
        case Changed(words=words):
            return f"Chosen for the rest: {words}"
        case Joined(added_mm=added_mm):
            return f"New cord joined on: {show(added_mm, unit)} more of each cord."
        case Noted(text=text):
            return f"Note: {text}"
        case Finished(length_mm=finished_mm):
            return "Finished." if finished_mm is None else f"Finished at {show(finished_mm, unit)}."
        case Abandoned(reason=reason):
            return sentences("Put away.", reason)
        case TakenUp():
            return "Taken up again."
        case Renamed(name=name, was=was):
            return f"Renamed: {was} is now {name}."
    return _step_words(plan, event, act) or _reading_words(plan, event)


def _step_words(plan: Plan, event: Event, act: Event | None) -> str:
    """What moves a piece on or back; "" for all else."""
    match event:
        case Confirmed(step=step):
            return f"Done: {step_line(plan, step)}"
        case Undone(back_to=back_to):
            return f"Undone: {'1 step is' if back_to == 1 else f'{back_to} steps are'} done."
        case UndoneAct():
            return f"Undone: {act_words(plan, act)}."
        case RedoneAct():
            return f"Redone: {act_words(plan, act)}."
        case Jumped(to=to, moved=moved, counted=counted):
            how = "The screen was set right after a count" if moved or counted else "Jumped"
            return f"{how}: {'1 step counts' if to == 1 else f'{to} steps count'} as done."
    return ""


def _reading_words(plan: Plan, event: Event) -> str:
    """What was measured or counted, and what became of it."""
    match event:
        case Measured(kind=kind, step=step, length_mm=mm):
            what = "Strand" if kind == "strand" else "Leftover cord"
            after = step_name(plan, step) if step else "0"
            return f"{what} measured {show(mm, display_unit(plan.unit))} after step {after}."
        case Recounted(step=step, since=since, beads=beads):
            found = (
                "as many as planned" if beads == 0 else f"{abs(beads)} {'more' if beads > 0 else 'fewer'} than planned"
            )
            first = f"from step {step_name(plan, since + 1)} " if since else ""
            return f"Beads counted {first}up to step {step_name(plan, step)}, {found}." if step else "Beads counted."
        case TakenOut(reading=reading):
            return f"Taken out: {act_words(plan, reading)}."
        case PutBack(reading=reading):
            return f"Put back: {act_words(plan, reading)}."
        case Withdrawn():
            return "The latest reading was taken out."
    return ""
