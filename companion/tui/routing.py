"""Which page each route leads to. Each is loaded when it is first shown."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from msgspec.structs import replace

from companion.core.values.errors import WorkshopError
from companion.core.values.text import plain
from companion.core.words.notices import Notice
from companion.tui.page import Page
from companion.tui.routes import (
    Route,
    ToBench,
    ToCard,
    ToCords,
    ToDesign,
    ToDesignPlan,
    ToDraft,
    ToKnots,
    ToPiece,
    ToPlan,
    ToSettings,
    ToSteps,
    ToTrial,
)
from companion.workshop import OpenPiece, Planned, Workshop

if TYPE_CHECKING:
    from companion.core.plan.plan import Plan
    from companion.tui.follow.session import PieceSession

MOST_PROBLEMS = 4  # the bench has room for so many; `tallycord check` tells all


class House(Protocol):
    """The app, as the way to a page needs it."""

    left_bench_by: object

    @property
    def workshop(self) -> Workshop:
        """The workshop that pages work in now: hers, or that of the sample piece."""

    def wait_for_others(self, wait: bool) -> None:
        """Whether a file of pieces that another program holds is waited for, for a moment."""

    def begin_trial(self) -> OpenPiece:
        """The sample piece, new; its workshop stands in place of hers."""


def page_of(route: Route, house: House) -> Page:
    """The page that the route leads to. Raises WorkshopError or NotPossible where it can't be shown."""
    match route:
        case ToBench(said, at):
            from companion.tui.bench.screen import BenchScreen

            house.workshop.let_go()
            return BenchScreen(house.workshop, said, at or house.left_bench_by)
        case ToDesign(path, new):
            return _page_of_design(path, new, house)
        case ToDesignPlan(path):
            from companion.tui.piece.plan_page import DesignPlanScreen

            return DesignPlanScreen(path, _planned(path, house.workshop)[1])
        case ToPiece(name, said):
            return _page_of_piece(house.workshop.open(name), house, said)
        case ToSteps(opened):
            from companion.tui.follow.screen import FollowScreen

            return FollowScreen(_session(opened, house))
        case ToPlan(opened):
            from companion.tui.piece.plan_page import PlanScreen

            return PlanScreen(house.workshop, house.workshop.refresh(opened))
        case ToDraft(copy_of):
            return _page_of_draft(copy_of, house.workshop)
        case ToTrial():
            return page_of(ToSteps(house.begin_trial()), house)
        case _:
            return _page_to_look_up(route, house.workshop)


def _page_to_look_up(route: ToCords | ToSettings | ToKnots | ToCard, workshop: Workshop) -> Page:
    match route:
        case ToCords(new):
            from companion.tui.cords.screen import CordsScreen

            return CordsScreen(new)
        case ToSettings():
            from companion.tui.settings.screen import SettingsScreen

            return SettingsScreen()
        case ToKnots():
            from companion.tui.knots.screen import KnotsScreen

            return KnotsScreen()
        case ToCard(name):
            from companion.tui.cords.card import CardScreen

            card = workshop.card(name)
            if card is None:
                raise WorkshopError(f"There is no cord card named {plain(name)}.")
            return CardScreen(card)


def _page_of_piece(opened: OpenPiece, house: House, said: Notice | None = None) -> Page:
    """The recap of a piece that is under way, or its steps at once where nothing is made yet or it is put away; the
    result of a finished one."""
    if opened.piece.state == "finished":
        from companion.tui.piece.result_page import ResultScreen

        return ResultScreen(house.workshop, opened, said)
    if opened.piece.done == 0 or opened.piece.state == "abandoned":
        return page_of(ToSteps(opened), house)
    from companion.tui.follow.recap import RecapScreen

    return RecapScreen(_session(opened, house))


def _session(opened: OpenPiece, house: House) -> PieceSession:
    from companion.tui.follow.session import PieceSession

    return PieceSession(house.workshop, opened, house.wait_for_others)


def _page_of_draft(copy_of: Path | None, workshop: Workshop) -> Page:
    from companion.core.draft.draft import empty_draft
    from companion.core.words.drafting.draft_words import opened_words
    from companion.tui.design.screen import DesignScreen

    empty = empty_draft(workshop.settings.unit)
    if copy_of is not None:
        draft = workshop.drafts.copy_of(copy_of)
        own = workshop.drafts.opened_own(draft) is not None
        return DesignScreen(draft, Notice("quiet", opened_words(copy_of.stem, own)), empty)
    kept = workshop.drafts.kept()
    said = Notice("quiet", "This is the design you left. n begins a new one.")
    return DesignScreen(kept or empty, said if kept else None, empty)


def _page_of_design(path: Path, new: bool, house: House) -> Page:
    """Start, recap or choice, as many pieces of the design are under way."""
    workshop = house.workshop
    pieces = () if new else workshop.pieces_of(path)
    if len(pieces) == 1:
        return _page_of_piece(workshop.open(pieces[0].name), house)
    if pieces:
        from companion.tui.start.which_piece import WhichPieceScreen

        return WhichPieceScreen(path, pieces)
    from companion.tui.start.screen import StartScreen

    return StartScreen(path, _planned(path, workshop)[0])


def _planned(path: Path, workshop: Workshop) -> tuple[Planned, Plan]:
    """The design with its plan. Raises WorkshopError for one with errors."""
    planned = workshop.plan(path)
    if planned.plan is None:
        problems = [replace(problem, file=plain(path.name)) for problem in planned.problems]
        more = f"\nand {len(problems) - MOST_PROBLEMS} more" if len(problems) > MOST_PROBLEMS else ""
        raise WorkshopError("\n".join(str(problem) for problem in problems[:MOST_PROBLEMS]) + more)
    return planned, planned.plan
