"""Sentences about a plan that the paper and the screen before the first knot share."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise
from math import ceil
from operator import itemgetter
from typing import NamedTuple

from companion.core.closures.joint import Finding
from companion.core.maths.repeats import longest_repeat
from companion.core.plan.ends import Runs, own_beads, stringing_order
from companion.core.plan.plan import Plan, PlannedStrand
from companion.core.plan.tray import beads_to_count_out, findings, spare_beads, tools
from companion.core.values.design import Bead, BeadKind, Element
from companion.core.values.measures.show_lengths import DisplayUnit, display_unit, show, show_both
from companion.core.values.measures.units import UNNOTICED_MM
from companion.core.values.text import count_of, count_word, join_words, plural, sentences

LONGEST_PATTERN = 12  # runs of equal beads; a longer pattern is written out
UNNOTICED_TENTHS = 1e-6  # a hole that is wider than needed by rounding alone
TWO_BEADS = 1.9  # as long as this many beads, or longer, one more of what is fitted is no single bead
MOST_GROUPS = 40  # of an order without a pattern; nobody strings from a longer line


def fit_line(plan: Plan) -> str:
    """How many fit, and what one more or fewer gives; "" where nothing is to be fitted."""
    if plan.fit is None:
        return ""
    unit = display_unit(plan.unit)
    bead = _bead_by_bead(plan)
    more = sum(number for _, number in beads_to_count_out(plan)) - plan.fit if bead else 0
    others = ", ".join(f"{other.count + more} gives {show(other.finished_mm, unit)}" for other in plan.fit_others)
    best = f"Best fit: {count_of(plan.fit + more, bead or fitted_noun(plan, plan.fit))}"
    return f"{best} ({others})." if others else f"{best}."


def _bead_by_bead(plan: Plan) -> str:
    """The name of the only kind of bead, where one more or fewer of what is fitted is one of them; else ""."""
    kinds = beads_to_count_out(plan)
    apart_mm = [abs(other.finished_mm - plan.finished_length_mm) for other in plan.fit_others]
    one_by_one = len(kinds) == 1 and all(mm < TWO_BEADS * kinds[0][0].length_mm for mm in apart_mm)
    return kinds[0][0].name if one_by_one and apart_mm else ""


def fitted_noun(plan: Plan, count: int) -> str:
    """What was fitted, by its noun: a bead's name where so many of it and fewer of any other are there."""
    beads = beads_to_count_out(plan)
    names = [kind.name for kind, number in beads if number == count]
    return names[0] if len(names) == 1 and all(number <= count for _, number in beads) else "repeat"


def length_line(plan: Plan) -> str:
    """How long it will be, beside what it is made to."""
    unit = display_unit(plan.unit)
    own, other = show_both(plan.finished_length_mm, unit)
    return sentences(f"It will be {own} ({other}) long when closed.", target_line(plan))


def target_line(plan: Plan) -> str:
    """What it is made to and why: a wrist, the ease, and what the beads take by lying outside it; "" for no target."""
    size, unit = plan.size, display_unit(plan.unit)
    if size is None or plan.target_mm is None:
        return ""
    parts = [f"{size.kind} {show(size.body_mm, unit)}"]
    if size.ease_mm:
        parts.append(f"ease {show(size.ease_mm, unit)}")
    beads_mm = plan.target_mm / size.turns - size.body_mm - size.ease_mm
    if size.kind == "wrist" and beads_mm >= UNNOTICED_MM:
        parts.append(f"and {show(beads_mm, unit)} because the beads lie outside the wrist")
    why = f": {', '.join(parts)}" if len(parts) > 1 else ""
    turns = f", {size.turns} times round" if size.turns > 1 else ""
    return f"The target is {show(plan.target_mm, unit)}{why}{turns}."


def closed_length_lines(plan: Plan) -> tuple[str, str]:
    """The same in the middle of the closed piece, without its target."""
    own, other = show_both(plan.finished_length_mm, display_unit(plan.unit))
    return f"{own} ({other})", "when closed"


def opened_line(plan: Plan) -> str:
    """How long a piece is that slides, when it is opened wide; "" for any other."""
    if plan.opened_mm is None:
        return ""
    return f"Opened wide it measures about {show(plan.opened_mm, display_unit(plan.unit))}."


def drawn_in_part(beads: int, all_beads: int) -> str:
    """Under a drawing that has room for so many of a piece's beads only."""
    return f"The first {beads} of {all_beads} beads."


# -- what to lay out --------------------------------------------------------------------------------------------------


def needed_lines(plan: Plan) -> tuple[str, ...]:
    """What to lay ready besides cord and beads: the findings, if there are any, and the tools."""
    unit = display_unit(plan.unit)
    found = join_words([finding_words(one, unit) for one in findings(plan)])
    return (*([found] if found else []), join_words(list(tools(plan))))


def finding_words(finding: Finding, unit: DisplayUnit) -> str:
    """So many of a finding, with its size, which is told in millimetres wherever it is sold: "1 button (15 mm)"."""
    for joint in (" of ", " with ", ","):
        head, found, rest = finding.name.partition(joint)
        if found:
            break
    name = f"{finding.count} {plural(head, finding.count)}{found}{rest}"
    sizes = []
    if finding.size_mm is not None:
        sizes += [show(finding.size_mm, unit)] * (unit == "in") + [f"{finding.size_mm:.4g} mm"]
    if finding.hole_mm is not None:
        sizes.append(f"hole at least {_up_to_a_tenth(finding.hole_mm)} mm")
    return f"{name} ({', '.join(sizes)})" if sizes else name


def _up_to_a_tenth(length_mm: float) -> str:
    """A hole as it is sold: in tenths of a millimetre, never below what is needed."""
    return f"{ceil(10 * length_mm - UNNOTICED_TENTHS) / 10:.4g}"


def count_out_lines(plan: Plan) -> Iterator[str]:
    """The beads of each kind, and a few to spare: "24 Sea-glass rounds and 1 to spare"."""
    return (line for _, line in count_out(plan))


def count_out(plan: Plan) -> Iterator[tuple[str, str]]:
    """The same, each with its bead's key."""
    spare = {kind.key: count for kind, count in spare_beads(plan)}
    counted = beads_to_count_out(plan)
    width = max((len(str(count)) for _, count in counted), default=0)
    for kind, count in counted:
        name = f"{plural(kind.name, count)} ({bead_size(kind)})"
        yield kind.key, f"{count:>{width}} {name} and {spare[kind.key]} to spare"


def bead_size(kind: BeadKind) -> str:
    """How large a bead is and how wide its hole, in millimetres, as beads are sold: "6 mm, hole 1 mm"."""
    round_one = kind.length_mm == kind.diameter_mm
    size = (
        f"{kind.length_mm:.4g} mm" if round_one else f"{kind.length_mm:.4g} mm long, {kind.diameter_mm:.4g} mm across"
    )
    return size if kind.hole_mm is None else f"{size}, hole {kind.hole_mm:.4g} mm"


# -- in which order to string -----------------------------------------------------------------------------------------


def order_lines(plan: Plan) -> tuple[str, ...]:
    """The order of the beads of each entry, under a heading that says when they are strung; () where there is nothing
    to say."""
    beaded = [strand for strand in plan.strands if strand.beads]
    if not beaded:
        return ()
    first = [strand.strung_all_first for strand in beaded]
    if not any(first) and all(len(strung_runs(plan, strand)) == 1 for strand in beaded):
        return ()  # one bead is as another
    heading = "String first, in this order" if all(first) else "String one by one, in this order"
    several = len(plan.strands) > 1
    orders = []
    for strand in beaded:
        name = f"{strand.title}: " if several else ""
        at_once = "first, " if strand.strung_all_first and not all(first) else ""
        on = own_beads(strand.start_closure, at_start=True)
        after = f", after the {count_word(on)} that the short end strings" if on else ""
        orders.append(f"{name}{at_once}{order_of(plan, strand)}{after}")
    return (heading, *orders)


def order_of(plan: Plan, strand: PlannedStrand) -> str:
    """The order in words: by the beads alone, or by the beads between two knots, whichever is said in fewer and tears
    no run of equal beads apart."""
    by_knots = [stringing_order(step, _kinds(plan)) for step in _new_beads(strand)]
    whole, alone = _groups_of(by_knots), _groups_of([(run,) for run in strung_runs(plan, strand)])

    def unreadable(groups: Sequence[_Group]) -> tuple[bool, int, int]:
        torn = sum(one.runs[-1][0] == other.runs[0][0] for one, other in pairwise(groups))
        return len(groups) > MOST_GROUPS, torn, len(_order_text(groups))

    return _order_text(min(whole, alone, key=unreadable))


def _new_beads(strand: PlannedStrand) -> Iterator[list[Element]]:
    """The beads of one step after another, but for those that the start has strung."""
    on = own_beads(strand.start_closure, at_start=True)
    for step in strand.steps:
        if new := step.beads[on:]:
            yield [Bead(key) for key in new]
        on = max(0, on - len(step.beads))


def _kinds(plan: Plan) -> dict[str, BeadKind]:
    return {kind.key: kind for kind in plan.beads}


def strung_runs(plan: Plan, strand: PlannedStrand) -> Runs:
    """The beads in the order in which they are strung, but for those that the start has strung."""
    return stringing_order(strand.elements, _kinds(plan), own_beads(strand.start_closure, at_start=True))


def order_words(runs: Sequence[tuple[str, int]]) -> str:
    """The order in words, what repeats said once: "10 Sand ovals, 3 times (1 Foam pearl, 1 Weed round)"."""
    return _order_text(_groups_of([(run,) for run in runs]))


class _Group(NamedTuple):
    """Beads in the order of stringing, so many times over."""

    times: int
    runs: Runs


def _groups_of(units: Sequence[Runs]) -> list[_Group]:
    """What is strung, part by part: the units that repeat together, every run between them by itself."""
    groups: list[_Group] = []
    place = 0
    while place < len(units):
        length, times = longest_repeat(units, place, LONGEST_PATTERN)
        runs = _joined([run for unit in units[place : place + length] for run in unit])
        if len(runs) == 1 or times == 1:
            before = groups.pop().runs if groups and groups[-1].times == 1 else ()
            more = [(name, count * times) for name, count in runs]
            groups += [_Group(1, (run,)) for run in _joined([*before, *more])]
        else:
            groups.append(_Group(times, runs))
        place += length * times
    return groups


def _order_text(groups: Sequence[_Group]) -> str:
    parts = []
    for times, runs in groups[:MOST_GROUPS]:
        words = ", ".join(count_of(count, name) for name, count in runs)
        parts.append(f"{times} times ({words})" if times > 1 else words)
    return ", ".join([*parts, "then as the steps say"] if len(groups) > MOST_GROUPS else parts)


def _joined(runs: Sequence[tuple[str, int]]) -> Runs:
    """Neighbouring runs of one bead as one run."""
    return tuple((name, sum(count for _, count in same)) for name, same in groupby(runs, key=itemgetter(0)))
