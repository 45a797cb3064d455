"""How the small jobs are done that knots and closures ask for: hitches, crimps, coils, caps, joins, tails.

Common practice, no source, unless one is named beside it.
"""

from __future__ import annotations

from msgspec import Struct


class Technique(Struct, frozen=True):
    """One job. `also`: other names that it is known by; `needed`: what to lay ready, "" for nothing but the cord."""

    name: str
    used_for: str
    steps: tuple[str, ...]
    mistakes: tuple[str, ...]
    needed: str = ""
    also: tuple[str, ...] = ()


HITCHES = (
    Technique(
        "half hitch",
        "Ties a cord to a ring or round the strand; two of them hold.",
        (
            "Pass the end round the ring or the strand, and lay it across the standing cord.",
            "Bring it round behind the standing cord and out through the loop that this makes.",
            "Draw it up against the ring or the bead.",
            "Tie the second in the same way and in the same direction, close against the first.",
        ),
        ("The hitches turn against each other and loosen: the second went round the other way. Tie it again.",),
        also=("half hitches", "two half hitches", "hitch"),
    ),
    Technique(
        "knot round the strand",
        "Holds a tail beside a bead, where the cord itself is already tight.",
        (
            "Lay the tail round the strand, close to the bead, so that it makes a loop.",
            "Pass the end through the loop: once for a single knot, twice for a double one.",
            "Put the awl or a blunt needle in the loop and lead it against the bead.",
            "Draw the tail up slowly, and slip the tool out last.",
        ),
        ("The knot sits away from the bead: it closed too early. Ease it open with the point and lead it in again.",),
        also=("knot beside the bead", "tail knot"),
    ),
    Technique(
        "reef knot",
        "Joins the two ends of a cord that grips: linen, cotton, leather.",
        (
            "Lay the left end over the right, and pass it under and up.",
            "Draw up until it lies close.",
            "Lay the end that is now right over the left, and pass it under and up.",
            "Draw all four cords up together. Both cords of a side leave the knot by the same side of its loop.",
        ),
        (
            "It stands across the cord and slips: the second half was laid the same way as the first. Tie that half "
            "again.",
        ),
        also=("square knot",),
    ),
    Technique(
        "surgeon's knot",
        "Joins the two ends of slippery cord: its first half holds while the second is tied.",
        (
            "Lay the left end over the right, and pass it under and up twice.",
            "Draw up slowly: the two turns hold by themselves.",
            "Lay the end that is now right over the left, and pass it under and up once.",
            "Draw all four cords up together, and put a drop of glue on the knot.",
        ),
        ("The beads gape beside it: the first half gave way. Pinch it while you tie the second.",),
        needed="glue",
        also=("surgeons knot",),
    ),
)

FITTINGS = (
    Technique(
        "crimp",
        "Holds an end without a knot: a soft tube or bead is squeezed over two passes of the cord.",
        (
            "Thread on the crimp and then the clasp, and go back through the crimp. The cords lie side by side, "
            "not crossed.",
            "Draw up, with just enough room for the ring of the clasp to move.",
            "Squeeze it in the back notch of the crimping pliers: a groove parts the two cords.",
            "Turn it a quarter, and squeeze it round in the front notch.",
            "Tug at it. Then run the tail on through two or three beads before you trim it.",
        ),
        (
            "It slips: both cords lay in one half. Cut it off, and use a new one: a crimp is never squeezed twice.",
            "The cord is cut through at its edge: the pliers were too wide, or the crimp too small for two cords.",
        ),
        needed="crimp that takes two passes of the cord, crimping pliers and snips",
        also=("crimp bead", "crimp tube"),
    ),
    Technique(
        "crimp cover",
        "Hides a squeezed crimp, or a knot, in what looks like a small bead.",
        (
            "Trim the tail first: nothing can be cut once the cover is closed.",
            "Lay the open cover over the crimp or the knot, so that this lies in the middle.",
            "Close it gently in the front notch of the crimping pliers, turning it, until the edges meet.",
        ),
        ("The edges pass each other: it was squeezed from one side only. Ease it open with the awl and turn it.",),
        needed="cover wider than the crimp, and crimping pliers",
        also=("cover",),
    ),
    Technique(
        "knot cover",
        "Two cups on a hinge that fold over the end knot; a clasp hangs on its loop or hook.",
        (
            "With a hole in the hinge: thread it on like a bead tip, with the cups open toward the tail.",
            "Tie a double knot, and bring it down into the cups before it is tight.",
            "Put a drop of glue that stays flexible on the knot, and let it dry.",
            "Trim the tail close to the knot.",
            "Close the cups with flat pliers: gently, till the edges meet.",
            "Hang its loop on the ring of the clasp and close the loop.",
        ),
        ("The knot slips out through the hinge: too slim. Tie it over a seed bead.",),
        needed="knot cover, flat pliers, glue and snips",
        also=("clamshell", "fold-over cord end", "fold over"),
    ),
    Technique(
        "coil of French wire",
        "Guards the cord where the ring of a clasp would wear it through. Also called gimp or bullion.",
        (
            "Cut 9.5 mm (3/8 in) with sharp snips, without pressing it flat: a little less for thin silk.",
            "Hold it in the palm, find its open end with the needle, and let it slide on: pulled, it stretches.",
            "Thread on the ring of the clasp, and take the needle back through the bead next to the coil.",
            "Draw the cord slowly, until the coil closes to a small loop with the ring in it and no cord shows.",
            "Tie a single knot round the strand, against that bead.",
        ),
        ("Cord shows between its turns: it was stretched. Take a new coil; this one will not close again.",),
        needed="French wire, fine needle and snips",
        also=("French wire", "gimp", "bullion", "coil", "French bullion"),
    ),
    Technique(
        "glue-in cord end",
        "A small cap for leather or thick cord, held by glue.",
        (
            "Try the cap on the dry cord: it should go in to the bottom without force.",
            "Cut the end square, and roughen the last few millimetres of leather with a nail file.",
            "Put glue into the cap, not on the cord: a third of it is enough.",
            "Push the cord in to the bottom with a turn, and wipe off what wells out.",
            "Lay it down and let the glue set for as long as its label says. Then tug.",
        ),
        ("It comes off with a dry end: air kept the cord from the bottom. Push it in with a turn, more slowly.",),
        needed="cord end with a bore that takes all the cords, glue and snips",
        also=("leather cord end", "cord end", "end cap"),
    ),
    Technique(
        "fold-over crimp end",
        "A small channel for leather or several cords; its two sides are folded down over them.",
        (
            "Cut the end square and lay it in the channel, up to the closed side.",
            "Put a little glue under the cord.",
            "Fold one side down over it with flat pliers, then the other over the first.",
            "Press along its whole length, and tug.",
        ),
        ("The cord slides out: a side lay on its edge. Lift both sides, lay the cord in the middle and fold again.",),
        needed="fold-over end as wide as the cords, flat pliers, glue and snips",
        also=("fold-over end", "ribbon end", "crimp end"),
    ),
    Technique(
        "jump ring",
        "A ring of wire that joins a clasp to what the cord ends in.",
        (
            "Hold it on both sides of the gap with two pairs of pliers, or one and your fingers.",
            "Open it sideways, one end toward you: never outward, or it will not be round again.",
            "Hang on both parts, and turn it back until the ends click past each other and meet.",
        ),
        ("A gap is left, and silk slips out of it: turn the ends a little past each other and back.",),
        needed="flat pliers, two pairs if you have them",
    ),
    Technique(
        "button loop",
        "A loop of the cord itself, as long as the button or bead needs to pass.",
        (
            "Doubled cord: the fold is the loop. One cord: fold its start back.",
            "Lay it round the button on its edge, or round the bead, with a little room, and pinch there.",
            "Tie a knot in both cords at the place where you pinch, and leave it loose.",
            "Pass the button through: it should just go, without force. Move the knot if it does not.",
            "Tighten the knot, and try once more: a tight knot makes the loop a little smaller.",
        ),
        ("The button slips out in wear: the loop is too wide. Tie the knot again nearer to the fold.",),
        also=("loop",),
    ),
    Technique(
        "threading a button",
        "Hangs a button on the cord with room below it for the loop.",
        (
            "With a shank: pass the cord through it.",
            "With holes: come up through one and go down through the next.",
            "Bring the cord back to the strand. Lay an awl or a thick needle under the button while you draw up: that "
            "leaves the room.",
        ),
        ("The loop sits on a tilt: there is too little room below the button. Ease the cord out before you knot it.",),
        also=("button",),
    ),
    Technique(
        "toggle",
        "A bar that is passed through a ring and then lies across it.",
        (
            "Begin with the ring and end with the bar: the bar is the end that needs room.",
            "Next to the bar leave bare cord, or string tiny beads that fit through the ring, for half the bar's "
            "length. Without that room it cannot tip.",
            "Before anything is trimmed, pass the bar through the ring and lay it across: it should go without force.",
            "Close it and tug both ways. The bar should be clearly longer than the ring is wide inside.",
        ),
        ("The bar will not go through: a bead stands against the ring. Take that bead off, or put on a chain link.",),
        also=("toggle clasp", "toggle bar", "bar"),
    ),
    Technique(
        "stop bead",
        "A small bead that the cord turns round, so that it can go back through a larger one.",
        (
            "String the larger bead and then the stop bead, which has to be wider than the larger one's hole.",
            "Go round the stop bead and back through the larger one only.",
            "Hold the stop bead and draw up until it sits on the hole, and knot below the larger bead.",
        ),
        ("The stop bead slips into the hole: take a wider one.",),
    ),
)

CORD_WORK = (
    Technique(
        "joining a new cord",
        "Goes on with a fresh cord where the old one is too short. Leather takes a glued or crimped joint instead.",
        (
            "Stop after a knot, while the old cord is still a hand's length long. Take off the beads that are still to "
            "come.",
            "Choose the longest bead still to come whose hole takes the old cord and the new one, and go on up to it. "
            "String it on the old cord.",
            "Run the new cord through that bead from its far side, back to the last knot. Leave 50 mm (2 in) there.",
            "Tie this short end round the strand in two half hitches, close against the last knot.",
            "Beyond the bead tie the next knot in the old end and the new cord together, as one.",
            "Put a drop of glue on the hitches and on that knot, and let it dry.",
            "Trim both short ends, string the other beads on the new cord, and go on with it alone.",
        ),
        (
            "The bead will not pass both cords: take one with a wider hole. A spacer shorter than a knot is no place "
            "for a join.",
            "The cord is short again: count what each cord gains without the part that lies in the bead.",
        ),
        needed="new cord of the same kind, glue and snips",
        also=("join", "joining cord", "new cord"),
    ),
    Technique(
        "running a tail back",
        "Hides an end in the beads beside it, so that it cannot work loose.",
        (
            "Put the end on a fine needle, or cut its stiff end at a slant.",
            "Go back through the first bead. The hole has to take all the cords.",
            "Tie a single knot round the strand before the next bead, where the steps ask for it.",
            "Go through the next bead, draw up without bending the strand, and trim where the end comes out.",
        ),
        ("The strand bends there: the tail was drawn too tight. Ease it with the point of the awl.",),
        also=("tail", "weaving in", "running back"),
    ),
    Technique(
        "stretching silk",
        "Takes out the give of new silk, so that no gaps open beside the knots later.",
        (
            "Take a length between both hands, pull gently, and move on: all along.",
            "Or hang it overnight with a light weight at its lower end.",
            "Only then measure and cut it.",
        ),
        ("Gaps beside the knots after some weeks of wear: it was cut and knotted unstretched.",),
        also=("stretch",),
    ),
    Technique(
        "stiffening an end",
        "Makes an end that passes beads without a needle.",
        (
            "Draw the last 50 mm (2 in) over wax, or through a drop of glue, and roll it between two fingers.",
            "Let glue set, held straight.",
            "Cut it at a slant with sharp snips.",
        ),
        ("It catches in the hole: cut it again, at a longer slant.",),
        needed="wax or glue, and snips",
        also=("stiffen",),
    ),
)

TECHNIQUES: dict[str, Technique] = {one.name: one for one in (*HITCHES, *FITTINGS, *CORD_WORK)}
KNOTS_BY_HAND = tuple(one.name for one in HITCHES)
OTHER_NAMES: dict[str, str] = {other.lower(): one.name for one in TECHNIQUES.values() for other in one.also} | {
    "overhand knot": "single knot",
    "overhand": "single knot",
    "french wire": "French wire and clasp",
    "clamshell": "knot cover",
    "slide knot": "sliding knot",
    "sliding knots": "sliding knot",
    "clasp": "knotted to the clasp",
    "leather cord end": "glue-in cord end",
}
