"""What a maker can do, each declared once: the key bindings, the key line, the help all read these."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace
from textual.binding import Binding


class Command(Struct, frozen=True):
    """One thing to do. `keys`: the first is the one shown, as `shown`; `short`: a word or two for the key line, ""
    where it stands only in the help; `text`: the help's sentence. `told_key`: the action is told which key it was.
    `brief`: the sentence in a few words, where the help has room for no more."""

    action: str
    keys: str
    shown: str
    short: str
    text: str
    told_key: bool = False
    brief: str = ""

    @property
    def in_brief(self) -> str:
        """What the help says of it where there is little room."""
        return self.brief or self.text


CONFIRM = Command(
    "confirm_step",
    "space,pagedown",
    "Space",
    "done",
    "Mark this step done (or click it).",
    told_key=True,
    brief="done (or click)",
)
CONFIRM_ENTER = Command(
    "confirm_by_enter",
    "enter",
    "Enter",
    "",
    "The same, but not within a second of typing an answer.",
    brief="same, 1 s after typing",
)
# A digit on the follow screen is how a reading begins.
DIGITS = replace(
    Command(
        "measure_with",
        ",".join("0123456789"),
        "0–9",
        "",
        "Measure, beginning with that digit; once every step is done, the finished length.",
    ),
    brief="measure, digit first",
    told_key=True,
)
# The same key, once every step is made.
FINISH = replace(
    CONFIRM, short="finish", brief="finish the piece", text="Finish the piece, and say how long it came out."
)
UNDO = Command(
    "undo",
    "u,backspace",
    "u",
    "undo",
    "Undo the latest thing you did; again: the one before it.",
    brief="undo the latest",
)
REDO = Command("redo", "U", "U", "", "Redo what was undone last.", brief="redo what was undone")
# A piece that has ended.
REOPEN = replace(UNDO, short="open again", brief="", text="Open the piece again: it is under way then.")
TAKE_UP = replace(REOPEN, short="take up again", text="Take the piece up again: it is under way then.")
MEASURE = Command(
    "ask('strand')",
    "m",
    "m",
    "measure",
    "Measure the strand: type what the ruler says, and see what it means.",
    brief="measure the strand",
)
CORD = Command(
    "ask('free cord')",
    "c",
    "c",
    "cord",
    "Measure the leftover cord, and see whether it will reach.",
    brief="measure leftover cord",
)
NOTE = Command("ask('note')", "n", "n", "note", "Write a note at this step.", brief="write a note")
JUMP = Command(
    "ask('jump')", "j", "j", "jump", "Jump to a step: the steps up to it count as done.", brief="jump to a step"
)
JOIN = Command(
    "ask('join')", "o", "o", "", "Join new cord on, and say how much each cord gains.", brief="join new cord on"
)
LORE = Command("show_lore", "k", "k", "", "How to do this step and tie its knot.", brief="how to do this step")
REMEDY = Command(
    "what_to_do",
    "w",
    "w",
    "what to do",
    "What would bring the piece back to its length, or let the cord reach.",
    brief="what would put it right",
)
WITHDRAW = Command(
    "withdraw",
    "x",
    "x",
    "",
    "Take out the latest reading; again: the one before it.",
    brief="take out latest reading",
)
READINGS = Command(
    "show_readings",
    "M",
    "M",
    "",
    "All readings: what was expected, which count. Take any out, or put it back.",
    brief="all readings",
)
RECOUNT = Command("ask('count')", "r", "r", "counted", "Say how many beads you counted.", brief="say what you counted")
TAKE_OVER = Command(
    "take_over",
    "h",
    "h",
    "take over",
    "Take over a piece that is open in another window.",
    brief="take over, two windows",
)
CAUTIONS = Command(
    "show_cautions", "s", "s", "", "Take care: what can hurt, with this piece.", brief="take care: what hurts"
)
FROM_AFAR = Command(
    "from_afar",
    "f",
    "f",
    "",
    "Show only this step, large enough to read across the room; again: all.",
    brief="large, from afar",
)
SHOW_PLAN = Command(
    "show_plan",
    "p",
    "p",
    "",
    "The whole plan: cut, beads, all steps, readings, notes, journal.",
    brief="the whole plan",
)
CHART = Command(
    "show_chart",
    "v",
    "v",
    "",
    "A chart of your readings: how far each is from the plan.",
    brief="chart of your readings",
)
CHART_AS_TABLE = replace(CHART, short="numbers", text="The same numbers as a table.")
CHART_AGAIN = replace(CHART, short="chart", text="The chart again.")
HELP = Command("show_help", "question_mark,f1", "?", "more", "All keys, and what the marks mean.", brief="this help")
PALETTE = Command(
    "show_palette",
    "colon,ctrl+p",
    ":",
    "",
    "Find what you want to do by its words.",
    brief="find things by words",
)
SET_ASIDE = Command(
    "app.set_aside",
    "ctrl+z",
    "Ctrl+Z",
    "",
    "Put Tallycord in the background; fg brings it back.",
    brief="put in the background",
)
HOW_TO_LEAVE = Command("app.how_to_leave", "ctrl+c", "Ctrl+C", "", "How to leave. Nothing is lost.")
THEME = Command(
    "next_theme", "t", "t", "", "Change colours: lamp, day, and each in high contrast.", brief="change colours"
)
LEAVE = Command("leave", "escape,q", "Esc", "bench", "Back to the bench. Nothing is lost.", brief="back to the bench")
QUIT = Command("leave", "escape,q", "Esc", "quit", "Leave Tallycord. Nothing is lost.")
SHOW_ALL = replace(QUIT, short="show all", text="Show all rows again.")  # while a filter is on
PICK_ROW = Command("take", "enter,space", "Enter", "choose", "Choose the one under the cursor.")
OPEN = Command(
    "open_row", "enter,space", "Enter", "go on", "Go on with the piece, or open the design or card, under the cursor."
)
OPEN_CARD = Command("open_row", "enter,space", "Enter", "open", "Open the card under the cursor.")
NEW = Command("begin_another", "plus,n", "+", "new", "Begin another piece of the one under the cursor, or a new card.")
NEW_CARD = Command("begin_another", "plus,n", "+", "new card", "Make a card for another cord.")
NEW_TEST = Command("begin_another", "enter,space,plus,n", "Enter", "test knots", "Enter test knots, row after row.")
TAKE_TEST_BACK = Command("withdraw", "x", "x", "take out", "Take out the latest row of test knots.")
SETTINGS_KEY = Command("show_settings", "S", "S", "", "Settings: unit, ruler, arm, risk, colours and more.")
SET_ROW = Command("open_row", "enter,space", "Enter", "set", "Change the one under the cursor.")
CORDS_KEY = Command("show_cords", "k", "k", "cords", "The cord cards: how much of each cord your knots use up.")
DRAW = Command("draw_design", "d", "d", "new design", "Make a design of your own; no file needs to be written.")
COPY = Command("copy_design", "e", "e", "", "Make a design of your own from a copy of the one under the cursor.")
COPY_THIS = replace(COPY, short="copy", text="Make a design of your own from a copy of this one.")
TRY = Command("try_out", "y", "y", "try it", "Try it out: two minutes on a sample piece. Nothing of it is kept.")
FILL_IN = Command("open_row", "enter,space", "Enter", "fill in", "Fill in the part under the cursor.")
REMOVE = Command("withdraw", "x,delete", "x", "", "Take out the bead or the strand under the cursor.")
OUT_OF_BOX = replace(REMOVE, short="take out", text="Take the bead under the cursor out of your bead box.")
TAKE_WAY = Command(
    "take_way", "1,2,3,4,5", "1–5", "", "Take that one of the ways to let it come out; u undoes it.", told_key=True
)
PICTURE = Command("on_picture", "P", "P", "picture", "Change a bead or knot where it lies on the picture.")
EVERY = Command("every", "E", "E", "", "Every fifth bead another: both readings as pictures.")
INSERT = Command("insert", "i,insert", "i", "insert", "One more like it, after it; k then makes it another kind.")
INSERT_KNOT = Command("insert_knot", "minus,space", "-", "knot", "A knot after it.")
TAKE_FROM_PICTURE = Command("withdraw", "x,delete", "x", "take out", "Take it out.")
OTHER_KIND = Command("other_kind", "k", "k", "kind", "Another kind of bead, or of knot, in its place.")
MOVE_LEFT = Command("move_left", "less_than_sign,shift+left", "<", "move", "Move it to before the one before it.")
MOVE_RIGHT = Command("move_right", "greater_than_sign,shift+right", ">", "", "Move it to after the next one.")
APART = Command("stand_apart", "A", "A", "apart", "Let this repeat stand apart from the others, to change it alone.")
LEFT = Command("other_before", "left", "←", "", "To the one before.")
RIGHT = Command("other", "right", "→", "next", "To the next one.")
OTHER_STRAND = Command("next_section", "tab", "Tab", "", "To the next strand.")
DONE_ON_PICTURE = Command("drop", "escape,q,enter", "Esc", "back", "Back to the design; what was changed stays.")
UNDO_DRAFT = Command("undo", "u,backspace", "u", "undo", "Undo the latest change; again: the one before it.")
REDO_DRAFT = Command("redo", "U", "U", "", "Redo what was undone last.")
SAVE = Command("save", "ctrl+s", "Ctrl+S", "save", "Save the design among your own.")
SAVE_AND_BEGIN = Command("save_and_begin", "b", "b", "save and begin", "Save the design and begin a piece of it.")
COMPARE = Command("compare", "c", "c", "compare", "Compare: knots elsewhere, one cord or two, another closure.")
ANEW = Command("begin_anew", "n", "n", "", "Begin an empty design; u brings this one back.")
LEAVE_DRAFT = Command("leave", "escape,q", "Esc", "bench", "Back to the bench. The unfinished design is kept.")
LOOK_UP = Command("show_knots", "l", "l", "", "Look up how every knot and closure is worked.")
OPEN_KNOT = Command("open_row", "enter,space", "Enter", "open", "How the one under the cursor is worked.")
CHOOSE_CARD = Command("choose_card", "k", "k", "cord card", "Choose the cord card for this piece, or an estimate.")
RENAME = Command("rename", "N,f2", "N", "rename", "Give the piece under the cursor another name.")
PUT_AWAY = Command("put_away", "a", "a", "put away", "Put the piece under the cursor away, or take it up again.")
UNDO_HERE = Command("undo", "u,backspace", "u", "", "Undo the latest renaming, putting away or taking up.")
FIND = Command("find", "slash", "/", "find", "Show only the rows that have the letters you type in them.")
UP = Command("cursor_up", "up", "↑", "", "Up: the cursor, or the page.")
DOWN = Command("cursor_down", "down", "↓", "", "Down: the cursor, or the page.")
TOP = Command("cursor_top", "home", "Home", "", "To the first row, or the top of the page.")
BOTTOM = Command("cursor_bottom", "end", "End", "", "To the last row, or the end of the page.")
PAGE_UP = Command("page_up", "pageup", "Page Up", "", "A page up.")
PAGE_DOWN = Command("page_down", "pagedown", "Page Down", "", "A page down.")
MOVING = (
    UP,
    DOWN,
    PAGE_UP,
    PAGE_DOWN,
    TOP,
    BOTTOM,
)  # on every page and in every list that may be longer than the screen
NEXT_SECTION = Command("next_section", "tab", "Tab", "next part", "To the next part of the page.")
LAST_SECTION = Command("last_section", "shift+tab", "Shift+Tab", "", "To the previous part of the page.")
BEGIN = Command("begin", "enter,space", "Enter", "begin", "Begin with the planned cut, or with the one you entered.")
ENTER_CUT = Command("enter_cut", "c", "c", "cut", "Enter the length you really cut.")
TO_BENCH = Command("leave", "escape,q", "Esc", "bench", "Back to the bench.")
TO_CORDS = Command("leave", "escape,q", "Esc", "cords", "Back to the cord cards.")
BACK_TO_PIECE = Command("leave", "escape,q", "Esc", "back", "Back to the piece.")
ANOTHER = Command("begin_another", "plus,n,enter", "+", "another", "Begin another piece of the same design.")
BACK = Command("leave", "escape,q", "Esc", "back", "Back, without beginning a piece.")
GO_ON = Command("go_on", "enter,space", "Enter", "carry on", "That's right, carry on.")
CLOSE = Command("drop", "escape,q,enter,space", "Esc", "close", "Close this.")
TAKE = Command("take", "enter", "Enter", "accept", "Accept what is typed.")
CLEAR = Command("clear", "ctrl+u", "Ctrl+U", "clear", "Clear what is typed.")
DO_IT = replace(TAKE, short="do it", text="Do the one under the cursor.")
NEXT = Command("take", "enter", "Enter", "next", "Next line; on the last one, accept them all.")
OTHER = Command("other", "right,space", "→", "other", "Next choice.")
OTHER_BEFORE = Command("other_before", "left", "←", "", "Previous choice.")
DROP = Command("drop", "escape", "Esc", "cancel", "Close without changing anything.")
DROP_LIST = replace(DROP, keys="escape,q")  # where nothing is typed

# Each thing to do belongs to one group, by its action: so the help is ordered.
GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Making", (
        "begin", "go_on", "confirm_step", "confirm_by_enter", "undo", "redo", "show_lore", "ask('note')", "open_row",
        "begin_another", "draw_design", "copy_design", "try_out", "enter_cut", "choose_card", "save", "save_and_begin",
        "take_way", "on_picture", "every", "compare", "begin_anew", "rename", "put_away",
    )),
    ("Measuring", ("ask('strand')", "measure_with", "ask('free cord')", "show_readings", "show_chart")),
    ("Trouble", ("what_to_do", "ask('count')", "withdraw", "ask('jump')", "ask('join')", "show_cautions", "take_over")),
    ("Looking", (
        "show_plan", "from_afar", "find", "show_cords", "show_knots", "show_settings", "show_help", "show_palette",
        "next_theme",
    )),
    ("Moving", (
        "cursor_up", "cursor_down", "page_up", "page_down", "cursor_top", "cursor_bottom", "next_section",
        "last_section",
    )),
    ("Leaving", ("leave", "app.set_aside", "app.how_to_leave")),
)  # fmt: skip
# The same as another one, by another key, or a step of the cursor: found in the help, but nothing to look for by words.
ONLY_KEYS = ("confirm_by_enter", "measure_with", "take_way", "show_palette", *dict(GROUPS)["Moving"])

FOLLOW = (
    CONFIRM, CONFIRM_ENTER, UNDO, REDO, MEASURE, DIGITS, CORD, NOTE, JUMP, JOIN, LORE, REMEDY, RECOUNT, WITHDRAW,
    READINGS, CHART, CAUTIONS, TAKE_OVER, SHOW_PLAN, FROM_AFAR, HELP, PALETTE, THEME, LEAVE,
)  # fmt: skip
DESIGN = (
    FILL_IN, SAVE, SAVE_AND_BEGIN, UNDO_DRAFT, REDO_DRAFT, REMOVE, ANEW, TAKE_WAY, PICTURE, EVERY, COMPARE, *MOVING,
    HELP, PALETTE, THEME, LEAVE_DRAFT,
)  # fmt: skip
ON_PICTURE = (
    RIGHT, LEFT, INSERT, INSERT_KNOT, TAKE_FROM_PICTURE, OTHER_KIND, MOVE_LEFT, MOVE_RIGHT, APART, UNDO_DRAFT,
    REDO_DRAFT, TOP, BOTTOM, OTHER_STRAND, DONE_ON_PICTURE,
)  # fmt: skip
BENCH = (
    OPEN, NEW, RENAME, PUT_AWAY, DRAW, CORDS_KEY, COPY, TRY, SHOW_PLAN, SETTINGS_KEY, UNDO_HERE, LOOK_UP, FIND,
    *MOVING, HELP, PALETTE, THEME, QUIT,
)  # fmt: skip
START = (BEGIN, ENTER_CUT, CHOOSE_CARD, *MOVING, HELP, PALETTE, THEME, BACK)
WHICH_PIECE = (OPEN, NEW, *MOVING, HELP, PALETTE, THEME, BACK)
SETTINGS_KEYS = (SET_ROW, *MOVING, HELP, PALETTE, THEME, TO_BENCH)
PLAN = (
    NEXT_SECTION, LAST_SECTION, *MOVING, ENTER_CUT, replace(READINGS, short="readings"), HELP, PALETTE,
    THEME, BACK_TO_PIECE,
)  # fmt: skip
DESIGN_PLAN = (
    replace(BEGIN, action="begin", text="Begin a piece of this design."), NEXT_SECTION, LAST_SECTION, *MOVING,
    COPY_THIS, HELP, PALETTE, THEME, BACK,
)  # fmt: skip
RESULT = (
    ANOTHER, replace(SHOW_PLAN, short="plan"), READINGS, replace(CHART, short="chart"),
    REOPEN, *MOVING, HELP, PALETTE, THEME, TO_BENCH,
)  # fmt: skip
RECAP = (GO_ON, SHOW_PLAN, *MOVING, HELP, PALETTE, THEME, LEAVE)
CORDS = (OPEN_CARD, NEW_CARD, *MOVING, HELP, PALETTE, THEME, TO_BENCH)
CARD = (NEW_TEST, TAKE_TEST_BACK, *MOVING, HELP, PALETTE, THEME, TO_CORDS)
KNOTS = (OPEN_KNOT, *MOVING, HELP, PALETTE, THEME, TO_BENCH)
ASK = (TAKE, CLEAR, DROP)
FORM = (NEXT, OTHER, UP, DOWN, CLEAR, DROP)
PICK = (PICK_ROW, *MOVING, DROP_LIST)
BOX = (PICK_ROW, OUT_OF_BOX, *MOVING, DROP_LIST)
PALETTE_KEYS = (DO_IT, UP, DOWN, PAGE_UP, PAGE_DOWN, CLEAR, DROP)
READING_LIST = (replace(PICK_ROW, short="take out or put back"), replace(DROP_LIST, short="close"))
SHOW = (*MOVING, CLOSE)
MORE_BELOW = replace(PAGE_DOWN, shown="Page Down", short="more below")
CHART_KEYS = (CHART_AS_TABLE, *MOVING, CLOSE)
TABLE_KEYS = (CHART_AGAIN, CLOSE)

# Done before any widget that has the key as well: Enter in a line to type in is the question's.
AT_ONCE = (SET_ASIDE, HOW_TO_LEAVE, TAKE, DO_IT, NEXT)

MOST_CHOICES = 9  # one digit each


def grouped(commands: Sequence[Command]) -> list[tuple[str, list[Command]]]:
    """The groups that have any of these commands, each with its own, as `GROUPS` orders them."""
    found = [
        (title, [command for action in actions for command in commands if command.action == action])
        for title, actions in GROUPS
    ]
    return [(title, some) for title, some in found if some]


def choosing(number: int) -> Command:
    """Go on with the one of that number, from 1 to 9."""
    return Command(f"choose({number})", str(number), str(number), "choose", "Choose that one.")


def bindings(*commands: Command) -> list[Binding | tuple[str, str] | tuple[str, str, str]]:
    """Textual's bindings for these commands."""
    return [
        Binding(keys, action, command.text, show=False, priority=command in AT_ONCE)
        for command in commands
        for keys, action in _keys_and_actions(command)
    ]


def _keys_and_actions(command: Command) -> Iterator[tuple[str, str]]:
    if not command.told_key:
        yield command.keys, command.action
        return
    for key in command.keys.split(","):
        yield key, f"{command.action}('{key}')"
