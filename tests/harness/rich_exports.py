"""Exports of pieces on which a maker has done whatever can be done, each drawn from its number."""

from __future__ import annotations

import random
import tempfile
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from functools import cache
from itertools import count
from pathlib import Path

from companion.core.cord.cards import CardTest, CordCard
from companion.core.cord.knot_tests import KnotTest
from companion.core.journal.events import CutEntered
from companion.core.plan.plan import Step
from companion.core.values.errors import WorkshopError
from companion.storage.folders import DATABASE
from companion.storage.pieces import Store
from companion.workshop import NotPossible, OpenPiece, Workshop

CARD = CordCard("silk", 0.45, 1, "silk")
HEAD = """\
format: 1
name: {name}
size: {{{size}, tolerance: 2 mm}}
cord: {{name: c, diameter: 1 mm, {cord}}}
beads: {{b: {{length: 6 mm, hole: 1.5 mm}}, c: {{length: 9 mm, colour: teal}}}}
"""
DESIGNS = (
    HEAD.format(name="Along", size="length: 80 mm", cord="card: silk")
    + "strand: {start: {closure: bead tip and clasp}, layout: [{repeat: fit, of: [b, knot]}, double knot], "
    "end: {closure: bead tip and clasp}}\n",
    HEAD.format(name="Mirror", size="wrist: 120 mm, ease: 5 mm", cord="layers: 2, material: silk")
    + "strand: {layout: [knot, {mirror: {side: [{repeat: fit, of: [b, knot]}, {space: 5 mm}], middle: [c]}}, knot], "
    "start: {closure: sliding knot}, end: {closure: sliding knot}}\n",
    HEAD.format(name="Two", size="length: 70 mm", cord="knots: {single: {take_up: 6 mm, length: 2 mm}}")
    + "strands: [{name: upper, layout: [{repeat: 7, of: [b, knot]}]}, {name: lower, layout: [c, knot, c, knot, c]}]\n",
    HEAD.format(name="Middle", size="neck: 90 mm", cord="card: silk")
    + "strand: {work: from the middle, layout: [{repeat: 9, of: [b, triple knot]}]}\n",
)
Act = Callable[[Workshop, OpenPiece, random.Random], OpenPiece]


@cache
def rich_export(number: int) -> str:
    """The export of two pieces, of which one is finished at times, and a cord card that may have learnt from it."""
    chance, moment, uids = random.Random(f"export {number}"), datetime(2026, 12, 1, 9, tzinfo=UTC), count()

    def now() -> datetime:
        nonlocal moment
        moment += timedelta(seconds=chance.randint(1, 90))
        return moment

    with tempfile.TemporaryDirectory() as folder:
        store = Store(Path(folder) / DATABASE, lambda: f"{next(uids):032x}", now)
        workshop, design = Workshop(store), Path(folder) / "design.yaml"
        workshop.add_tests(CARD, *(CardTest("single", KnotTest(100.0, 90.0 + n, 1), None, "") for n in range(3)))
        for text in chance.sample(DESIGNS, 2):
            design.write_text(text)
            _made(workshop, design, chance)
        lines = "\n".join(workshop.exports.lines())
        workshop.close()
    return lines


def _made(workshop: Workshop, design: Path, chance: random.Random) -> None:
    """One piece of that design, gone on with by whatever comes to mind."""
    plan = workshop.plan(design).plan
    assert plan is not None
    opened = workshop.start(design, [CutEntered(0, plan.cuts[0].cut_mm * chance.uniform(0.7, 1.2), "so much")])
    acts = chance.choice((ACTS, RIGHT))  # where all is right, a finished piece teaches its card
    for act in chance.choices(acts, k=chance.randint(8, 30)):
        try:
            opened = act(workshop, opened, chance)
        except (WorkshopError, NotPossible):
            continue  # not everything can be done everywhere
    if chance.random() < 0.5 and opened.piece.state == "under way":
        opened = workshop.jump(opened, opened.piece.total_steps)
        off = 0.002 if acts is RIGHT else 0.03
        length_mm, left_mm = opened.plan.finished_length_mm * chance.uniform(1 - off, 1 + off), 60.0
        workshop.finish(opened, length_mm, left_mm, workshop.teaching(opened, length_mm, left_mm))
    elif chance.random() < 0.2 and opened.piece.state == "under way":
        workshop.abandon(opened, "the cord frayed")


def _measured(workshop: Workshop, opened: OpenPiece, chance: random.Random) -> OpenPiece:
    planned = _last_step(opened)
    if chance.random() < 0.5:
        length_mm = max(0.0, planned.strand_mm + chance.choice((0, 1, 6, -8)))
        return workshop.measure(opened, "strand", length_mm, f"{length_mm:.0f} mm")
    return workshop.measure(opened, "free", max(0.0, planned.free_cord_mm + chance.choice((0, -30, 15))), "free")


def _measured_right(workshop: Workshop, opened: OpenPiece, _: random.Random) -> OpenPiece:
    return workshop.measure(opened, "strand", _last_step(opened).strand_mm, "as planned")


def _last_step(opened: OpenPiece) -> Step:
    entry, number = opened.plan.place(max(1, opened.piece.done))
    return opened.plan.strands[entry].steps[number - 1]


def _chosen(workshop: Workshop, opened: OpenPiece, chance: random.Random) -> OpenPiece:
    found = [remedy for remedy in workshop.remedies(opened) if not remedy.join]
    return workshop.choose(opened, chance.choice(found)) if found else opened


def _confirmed(workshop: Workshop, opened: OpenPiece, chance: random.Random) -> OpenPiece:
    for _ in range(min(chance.randint(1, 4), opened.piece.total_steps - opened.piece.done)):
        opened = workshop.confirm(opened)
    return opened


ACTS: tuple[Act, ...] = (
    *[_confirmed] * 6,
    *[_measured] * 3,
    *[_chosen] * 3,
    lambda workshop, opened, _: workshop.undo(opened),
    lambda workshop, opened, _: workshop.withdraw(opened),
    *[lambda workshop, opened, chance: workshop.turn_reading(opened, chance.randint(1, 3))] * 2,
    lambda workshop, opened, _: workshop.join(opened, 120.0, "12 cm"),
    lambda workshop, opened, _: workshop.note(opened, "a little looser tonight"),
    lambda workshop, opened, chance: workshop.recount(opened, beads=None if chance.random() < 0.5 else 3),
    lambda workshop, opened, chance: workshop.jump(opened, chance.randint(0, opened.piece.total_steps)),
)
RIGHT: tuple[Act, ...] = (_confirmed, _measured_right)
