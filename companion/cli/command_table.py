"""Every command, declared once: its name, the file of this folder that runs it, and its words in the help.

A family of commands is loaded only when one of it is asked for. There `declare_NAME` adds what the command takes, and
`run_NAME` runs it and gives back its exit code.
"""

from __future__ import annotations


class Command:
    """One command. `words`: a line in the list of commands; `examples`: as typed, after the program's name; `about`:
    sentences for its own help, "" where the words will do. A plain class: `--version` should load nothing."""

    __slots__ = ("about", "examples", "family", "name", "words")

    def __init__(self, name: str, family: str, words: str, examples: tuple[str, ...], about: str = "") -> None:
        self.name, self.family, self.words, self.examples, self.about = name, family, words, examples, about


COMMANDS = (
    Command(
        "follow",
        "follow",
        "make a piece from a design, step by step, on the screen or line by line",
        (
            "follow skerry.yaml",
            "follow skerry.yaml --new         another piece of it",
            "follow skerry.yaml --lines       line by line, without a screen",
            "follow --lines --spoken          the latest, for listening",
        ),
        "Open a design in the terminal app: begin a piece, or go on with the one under way. With --lines you "
        "work line by line: press Enter when a step is done, type a length when you have measured the strand, and ? "
        "for the rest.",
    ),
    Command(
        "try",
        "follow",
        "two minutes on a sample piece, of which nothing is kept",
        ("try",),
        "Make a few steps of a sample bracelet, with a line that says what to press next: mark, undo, measure, count, "
        "leave and come back. Nothing of it is kept. Esc and Esc again leaves at any moment.",
    ),
    Command(
        "design",
        "follow",
        "make a design on the screen, without writing a file",
        ("design", "design skerry.yaml    a copy of it, to change"),
        "Open the design page: name, length, cord, beads, pattern and ends, with the piece drawn beside them while you "
        "type. If you leave a design unfinished, it is there again the next time.",
    ),
    Command(
        "plan",
        "design.designs",
        "what to cut, the finished length, checks and all steps of a design",
        ("plan skerry.yaml", "plan skerry.yaml --json", 'plan skerry.yaml --card "skerry silk"'),
        "Print the plan of a design: cut list, finished length, checks, cautions and every step. Nothing is saved.",
    ),
    Command(
        "sheet",
        "design.sheets",
        "a sheet to print: the cut, the lay-out, and every step with a box to tick",
        (
            "sheet skerry.yaml",
            "sheet skerry.yaml --html skerry.html    a page, to scale",
            "sheet skerry-bracelet    a piece, as far as it is made",
        ),
        "Print a sheet to work by on paper: what to cut and lay out, every step with a box to tick, what the ruler "
        "should say on the way with a blank for what it says, and how each knot is tied. Without a name: the latest "
        "piece. What you read on the way you can enter afterwards: `tallycord jump 24`, then "
        '`tallycord measure "4 1/8 in" --at 18`. Nothing is saved but the page.',
    ),
    Command(
        "compare",
        "design.variants",
        "the same piece made in other ways, side by side: knots, single or doubled, closure",
        ("compare skerry.yaml", "compare skerry.yaml --json", 'compare skerry.yaml --card "skerry silk"'),
        "Plan the same piece knotted after every bead, every second, every third or around some only; with one cord or "
        "two; with each closure; and print length, cut, cord used, beads, findings and time side by side. Nothing is "
        "saved.",
    ),
    Command(
        "reach",
        "design.variants",
        "the longest piece of a design that the cord you have is enough for",
        ('reach skerry.yaml --cord "40 in"', 'reach skerry.yaml --cord "2 m" --json'),
        "Say how much of a design a cord of that length is enough for: the most beads at your risk of running out, "
        "what one more would need, and the design as it stands. Nothing is saved. The exit code is 1 if the cord is "
        "enough for none of it.",
    ),
    Command(
        "check",
        "design.designs",
        "read design files and list every error and warning",
        ("check skerry.yaml", "check patterns/*.yaml"),
        "Read design files and list every error and warning in them, on the error output. A design without any prints "
        "nothing.",
    ),
    Command(
        "schema",
        "design.designs",
        "the JSON Schema of design files, for editors",
        ("schema > design.schema.json", "schema --export > export.schema.json"),
        "Print the JSON Schema of design files, so that an editor can complete and check them.",
    ),
    Command(
        "forecast",
        "design.forecasts",
        "what readings would mean for a design, without a piece",
        ('forecast patterns/skerry-bracelet.yaml --strand "13=3 1/8 in"',),
        "Say what readings would mean for a design, without a piece: how long it would come out, whether something may "
        "have gone wrong, whether the cord will reach. STEP is the number of steps done, as the plan numbers them.",
    ),
    Command(
        "start",
        "start",
        "begin a piece, and print its name",
        (
            "start skerry.yaml",
            'start skerry.yaml --cut "46 in"',
            'start skerry.yaml --card "skerry silk"',
            'start strands.yaml --cut "upper=2.1 m" --cut "lower=2.4 m"',
        ),
    ),
    Command("pieces", "pieces", "all pieces, the latest first", ("pieces", "pieces --json")),
    Command(
        "rename",
        "naming",
        "give a piece another name",
        ("rename skerry-bracelet For Anna", "rename for-anna Anna's second"),
        "Give a piece another name. Commands know it in capitals or not, with dashes for spaces, or by its beginning. "
        "So two names must differ in more than that.",
    ),
    Command(
        "status",
        "status",
        "where a piece stands, and what comes next",
        ("status", "status skerry-bracelet", "status --chart", "status skerry-bracelet --json"),
    ),
    Command(
        "next",
        "making",
        "mark the present step done, and say the next one",
        ("next", "next skerry-bracelet", "next skerry-bracelet --step 14    counts once only, for pedals"),
    ),
    Command(
        "recount",
        "readings",
        "say how many beads you counted",
        ("recount", "recount skerry-bracelet 13 --from 7 --beads 6    6 in steps 7 to 13"),
    ),
    Command(
        "undo",
        "making",
        "undo the latest thing you did: a step, reading, note, count, jump, join, choice or finish",
        ("undo", "undo skerry-bracelet"),
    ),
    Command("redo", "making", "redo what was undone last", ("redo", "redo skerry-bracelet")),
    Command("back", "making", "the same as undo", ("back", "back skerry-bracelet")),
    Command(
        "remedy",
        "remedies",
        "what would bring a piece back to its length, or let its cord reach; with NUMBER, choose that one",
        ("remedy", "remedy skerry-bracelet 1    the first of them; `undo` undoes it"),
    ),
    Command(
        "join",
        "readings",
        "record new cord joined on here: how much each cord gains",
        ("join 12 in", 'join skerry-bracelet "30 cm"'),
    ),
    Command(
        "jump",
        "making",
        "jump to STEP: steps up to it count as done, later ones as not done",
        ("jump 13", "jump skerry-bracelet 13", 'jump inner-farne-strands "middle:3"    of several strands'),
    ),
    Command(
        "note",
        "making",
        "write a note at the present step",
        ('note "knots a little looser tonight"', "note skerry-bracelet knots a little looser tonight"),
        "Write a note at the present step. Of several words the first is the piece's name. A text in quotes, alone, "
        "goes to the latest piece.",
    ),
    Command(
        "finish",
        "ending",
        "finish a piece, with its real length",
        ("finish", "finish 7 15/16", 'finish skerry-bracelet "202 mm" --left "21 cm" --learn'),
    ),
    Command(
        "abandon",
        "ending",
        "put a piece away, unfinished; its journal stays, and it can be taken up again",
        ("abandon", "abandon skerry-bracelet the cord frayed", 'abandon "the cord frayed"    the latest'),
    ),
    Command(
        "measure",
        "readings",
        "take what the ruler says, and tell what it means",
        (
            "measure                                    what the ruler should say",
            "measure 3 3/8                              the strand so far",
            'measure skerry-bracelet --free "37 cm"     the leftover cord',
            'measure skerry-bracelet "86 mm" --at 13    measured after step 13',
            "measure skerry-bracelet --withdraw         that reading was wrong",
        ),
        "Take what the ruler says, and tell what it means for length and cord. Without a length: what the ruler should "
        "say now.",
    ),
    Command(
        "readings",
        "reading_list",
        "all readings of a piece; any of them taken out, or put back",
        (
            "readings",
            "readings skerry-bracelet --out 2    it no longer counts",
            "readings skerry-bracelet --in 2     it does again",
        ),
        "List the readings of a piece: what each was, what was expected there, by the plan or by the readings before "
        "it, and whether it counts, is set aside because it doesn't fit the others, or is taken out. With --out or "
        "--in, take one out or put it back; undo and redo work as with any other act.",
    ),
    Command(
        "journal",
        "journal",
        "the journal of a piece: everything done on it, with its time",
        ("journal", "journal skerry-bracelet"),
    ),
    Command(
        "knots",
        "design.knots",
        "how every knot and closure is worked",
        ("knots", "knots double", 'knots "French wire"'),
        "List the knots and closures; with NAME, how that one is worked: its steps, a drawing, and what goes wrong.",
    ),
    Command("cords", "cords", "cord cards, and how much cord their knots use up", ("cords", "cords --json")),
    Command(
        "cord",
        "cords",
        "add a test knot to a cord card; the first one makes the card",
        (
            "cord linen --diameter 0.6mm --knots 1 --before 200mm --after 194mm",
            'cord linen --knots 5 --row "3/8 in" --ruler "1/16 in"',
        ),
        "Enter test knots for the card of that NAME: a length of cord before and after so many knots were tied in it, "
        "or a row of knots tied touching, measured along the cord. The first test makes the card and needs --diameter.",
    ),
    Command(
        "serve",
        "serve",
        "the bench in a browser, for a tablet; on this machine only unless you say otherwise",
        ("serve", "serve --host 192.168.1.20    for a tablet in your network"),
        "Show the bench in a browser, with large keys for fingers. The address that is printed holds a word that "
        "nobody can guess: only one who opens it whole is let in. With --host other machines can reach it too; read "
        "the warning then.",
    ),
    Command(
        "settings",
        "keeping.settings",
        "unit, ruler, own arm, risk, least scrap, key bounce, hand, colours",
        (
            "settings",
            "settings unit cm",
            "settings arm 46 cm",
            "settings ruler 1/16 in",
            "settings unit as the design says",
        ),
        "List the settings, and what each changes; with NAME and VALUE, change one. A piece under way keeps its plan.",
    ),
    Command(
        "completion",
        "keeping.completion",
        "lets your shell complete commands, options, pieces and designs",
        ("completion bash", "completion zsh", "completion fish"),
        "Print the lines that let your shell complete what you begin to type when you press Tab: commands, options, "
        "the names of pieces and cord cards, design files. Add them to the file that your shell reads when it starts.",
    ),
    Command(
        "risk",
        "keeping.settings",
        "how often a cord may run out: what new plans are cut for",
        ("risk", "risk 5%", "risk 0.2%"),
        "Show or change the chance of running out that new plans are cut for: 1 % to begin with, one piece in a "
        "hundred. The smaller it is, the more cord is left over. Pieces under way keep theirs.",
    ),
    Command(
        "export",
        "keeping.exports",
        "write all pieces and cord cards to one file",
        ("export pieces.json", "export - > pieces.json"),
        "Write all pieces, with their journals, and all cord cards as one JSON document: to a new file that only you "
        "may read, or to the output with -.",
    ),
    Command(
        "import",
        "keeping.exports",
        "take in the pieces and cards of an export",
        ("import pieces.json", "import pieces.json --json"),
        "Take in an export: all of it or, if any part can't be read, nothing. Pieces that are not here are added; "
        "those that have gone on in the export are brought up to date; newer work here stays. A piece that differs in "
        "the two copies is not changed, and is named (exit code 1). Importing twice changes nothing.",
    ),
    Command(
        "rescue",
        "keeping.rescue",
        "what can be saved of a damaged file of pieces",
        ("rescue", "rescue --yes"),
        "Say what can still be read of a damaged file of pieces and of its newest good copy; nothing is changed. "
        "With --yes a new file takes its place, with all that can be read of both: for each piece the longer "
        "journal. The damaged file "
        "is kept beside it, under a dated name.",
    ),
)
