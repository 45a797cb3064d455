"""What can be typed at the prompt, and how it is read."""

from __future__ import annotations

from companion.core.values.measures.units import VULGARS
from companion.core.words.measured.verdict_words import Answer

# Letter, then the words that mean the same, and what it does.
TYPED: tuple[tuple[str, tuple[str, ...], str], ...] = (
    (
        "c",
        ("cord", "free"),
        "c LENGTH: the leftover cord measures that, tail included (one cord, where it is doubled).",
    ),
    ("m", ("measure",), "m: what the ruler should say now."),
    ("u", ("undo", "back"), "u: undo the latest thing you did."),
    ("U", ("redo",), "U: redo what was undone."),
    ("r", ("recount", "count"), "r: count the beads."),
    ("w", ("ways", "remedy"), "w: ways out, when the length or the cord will not do."),
    ("s", ("status",), "s: where the piece stands."),
    ("k", ("knot", "how"), "k: how to do this step and tie its knot."),
    ("n", ("note",), "n TEXT: write a note."),
    ("j", ("jump",), "j STEP: the work really stands at that step."),
    ("o", ("join",), "o LENGTH: new cord is joined on; each cord gains so much."),
    ("x", ("withdraw",), "x: take out the latest reading."),
    ("M", ("view", "readings"), "M: all readings; M NUMBER takes that one out, or puts it back."),
    ("p", ("plan",), "p: the whole plan."),
    ("h", ("take",), "h: take the piece over from another window."),
    ("q", ("quit", "leave", "exit"), "q: leave. Nothing is lost."),
    ("?", ("help",), ""),
)
HELP = (
    "Enter: this step is done. Right after a question nothing is marked yet: press it again.",
    "A length, such as 3 3/8 or 86 mm: the strand measures that.",
    *(words for _, _, words in TYPED if words),
)
# What answers a sentence at the prompt; it stands in the sentence.
ANSWERS: dict[Answer, str] = {
    "measure": "type the length",
    "measure cord": "type c and the length",
    "recount": "type r",
    "measure again": "type the length",
    "measure cord again": "type c and the length",
    "withdraw": "type x",
    "readings": "type M ",
    "remedies": "type w",
    "jump": "type j",
}
LETTERS = {letter for letter, _, _ in TYPED}
_NAMES = {name: letter for letter, others, _ in TYPED for name in others}


def understood(text: str) -> tuple[str, str]:
    """The letter of what is to be done, and the rest of the line; ("", "") for Enter alone, ("length", …) for a
    length, and ("unknown", …) for anything else."""
    if not text or begins_a_length(text):
        return ("length", text) if text else ("", "")
    if text[0] in "cjo" and begins_a_length(text[1:]):  # "c14 1/2"
        return text[0], text[1:]
    first, _, rest = text.partition(" ")
    letter = first if first in LETTERS else _NAMES.get(first) or _by_capitals(first)
    return (letter, rest) if letter else ("unknown", text)


def begins_a_length(text: str) -> bool:
    """Whether it can only be a length, whatever is wrong with it."""
    return text[:1] in tuple(f"0123456789.,+-−{VULGARS}")


def _by_capitals(text: str) -> str:
    """The letter where Caps Lock is on, "" for none. U is another one than u."""
    small = text.lower()
    return small if small in LETTERS else _NAMES.get(small, "")
