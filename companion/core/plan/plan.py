"""A compiled plan: what the cut list, the picture, the forecast and a piece under way need, as one frozen value."""

# Its annotations are types, not text: a plan that is kept is read by them, and every command reads one.
from typing import Literal

from msgspec import Struct

from companion.core.cord.cord import Cord
from companion.core.values.design import Bead, BeadKind, Element, Knot, KnotKind, Size, Space
from companion.core.values.measures.units import MM_PER_INCH

BRACELET_UNDER_MM = 12 * MM_PER_INCH  # a bare finished length under 12 in is a bracelet
StepKind = Literal["start", "string", "end"]
Side = Literal["first", "second"]


class Step(Struct, frozen=True):
    """One step. Lengths in mm, planned, after the step; cord per layer. `elements`: how many of the strand's elements
    (beads, knots, bare spans) are made once it is. `number` counts from 1 in its own entry. `trims`: it cuts the tails
    off, so what is left of the cord is measured before; `closes`: the closure holds then, and takes no more cord."""

    number: int
    kind: StepKind
    text: str
    beads: tuple[str, ...]
    knot: KnotKind | None
    strand_mm: float
    cord_used_mm: float
    free_cord_mm: float
    elements: int
    trims: bool = False
    closes: bool = False


class PlannedStrand(Struct, frozen=True):
    """One entry of the plan: a strand, or one side of a strand worked from the middle. Lengths in mm.

    `label` is what a step is written with (`label:number`). Take-up, tails, closure cord, allowance and margin are per
    layer; `cut_mm` is the whole cord to cut, layers included. `need_sd_mm` and `need_degrees` are the spread, per
    layer, of what the strand may really need: the run-out risk of any other cut follows from them.
    """

    name: str
    label: str
    side: Side | None
    layers: int
    start_closure: str
    end_closure: str
    elements: tuple[Element, ...]
    steps: tuple[Step, ...]
    beads: tuple[tuple[str, int], ...]
    knots: tuple[tuple[KnotKind, int], ...]
    strand_length_mm: float
    closure_length_mm: float
    take_up_mm: float
    start_tail_mm: float
    start_closure_cord_mm: float
    end_closure_cord_mm: float
    end_tail_mm: float
    working_allowance_mm: float
    margin_mm: float
    cut_mm: float
    run_out_risk: float
    need_sd_mm: float
    need_degrees: float
    finding: str = ""  # what closes it, by the design's own name
    finding_mm: float | None = None  # how wide that is
    strung_all_first: bool = False
    lengths_written: tuple[bool, ...] = ()  # of its ends' closures, start first, where the design writes any
    # How its steps are told: 2, a closure ties its own knots at the start in steps of their own, and a clip holds the
    # beads that are strung first; 1, as those kept before have it. What was begun keeps its steps.
    told_as: int = 1

    @property
    def title(self) -> str:
        """What a heading calls it: "first side", or the strand's own name."""
        return f"{self.label} side" if self.side else self.label

    @property
    def in_a_sentence(self) -> str:
        """The same inside a sentence: "the first side", or the strand's own name."""
        return f"the {self.title}" if self.side else self.label

    @property
    def clipped(self) -> bool:
        """Whether a clip holds the beads that are strung before the first knot."""
        return self.strung_all_first and self.told_as > 1

    @property
    def need_mm(self) -> float:
        """What one layer is expected to need, margin apart, mm."""
        return (
            self.start_tail_mm
            + self.start_closure_cord_mm
            + self.strand_length_mm
            + self.take_up_mm
            + self.end_closure_cord_mm
            + self.end_tail_mm
            + self.working_allowance_mm
        )


class ExtraCord(Struct, frozen=True):
    """A cord apart from the strands', such as a sliding knot's; `purpose` in words; mm."""

    purpose: str
    cut_mm: float


class Warning(Struct, frozen=True):
    """Something the maker should see to; `where` in words."""

    code: str
    text: str
    where: str


class Cut(Struct, frozen=True):
    """One cord to cut: a strand's, or both sides' of a strand worked from the middle. mm, layers included.

    `entries` are the numbers (from 0) of the plan entries it serves; `first_share_mm` of it is the first one's.
    """

    name: str
    entries: tuple[int, ...]
    cut_mm: float
    layers: int


class OtherCount(Struct, frozen=True):
    """What another count for `fit` would give: finished length, mm."""

    count: int
    finished_mm: float


class Plan(Struct, frozen=True):
    """A whole plan. Lengths in mm. `fit_others`: one fewer and one more, where they can be."""

    design: str
    note: str
    unit: str
    size: Size | None
    target_mm: float | None
    tolerance_mm: float | None
    finished_length_mm: float
    finished_low95_mm: float
    finished_high95_mm: float
    fit: int | None
    fit_others: tuple[OtherCount, ...]
    cord: Cord
    beads: tuple[BeadKind, ...]
    strands: tuple[PlannedStrand, ...]
    longest: tuple[int, ...]  # the entries that make the finished length: one, or the two sides of one strand
    cuts: tuple[Cut, ...]
    extra_cords: tuple[ExtraCord, ...]
    warnings: tuple[Warning, ...]
    risk: float  # the run-out risk that the margins were chosen for
    opened_mm: float | None = None  # of a piece that slides: how long it is when it is opened wide

    @property
    def total_steps(self) -> int:
        """All steps of all entries."""
        return sum(len(strand.steps) for strand in self.strands)

    def bead(self, key: str) -> BeadKind:
        """The bead kind of that key. Raises KeyError."""
        for kind in self.beads:
            if kind.key == key:
                return kind
        raise KeyError(key)

    def place(self, step: int) -> tuple[int, int]:
        """Entry (from 0) and step number in it (from 1) of the piece's step `step` (from 1).

        Raises IndexError past the last step.
        """
        for number, strand in enumerate(self.strands):
            if step <= len(strand.steps):
                return number, step
            step -= len(strand.steps)
        raise IndexError(step)

    def piece_step(self, entry: int, number: int) -> int:
        """The piece's step for a step number of one entry: the opposite of `place`; number 0 is before its first."""
        return sum(len(strand.steps) for strand in self.strands[:entry]) + number


def element_mm(element: Element, beads: dict[str, BeadKind], cord: Cord) -> float:
    """The length of one element along the strand, mm."""
    match element:
        case Bead(key=key):
            return beads[key].length_mm
        case Knot(kind=kind):
            return cord.knot(kind).length_mm
        case Space(length_mm=length_mm):
            return length_mm
