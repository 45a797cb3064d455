"""What is asked of a draft once it is shown, for it takes several plans: what would let it come out, and what the cord
in hand would make."""

from __future__ import annotations

from msgspec import Struct

from companion.core.draft.cures import Cured
from companion.core.draft.draft import Draft
from companion.core.values.errors import WorkshopError
from companion.core.values.measures.lengths import LengthError
from companion.core.variants.reach import Reach
from companion.workshop.drafts import Drafts, JudgedDraft


class Further(Struct, frozen=True):
    """The ways to let it come out, which the digits take; `reach` None: no length of cord was typed."""

    cured: tuple[Cured, ...] = ()
    reach: Reach | None = None


def further(drafts: Drafts, draft: Draft, judged: JudgedDraft) -> Further:
    """That of a draft as it was judged."""
    try:
        reach = drafts.reach(draft, judged)
    except (LengthError, WorkshopError):
        reach = None
    return Further(tuple(drafts.cures(draft, judged)), reach)
