"""Random design files, each drawn from its number: valid ones, faulty ones, and ones that nobody would write."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from functools import cache
from pathlib import Path

import yaml

from companion.core.values.design import Bead, BeadRun, CordDesign, Design, End, Item, Knot, Mirror, Repeat, Space
from tests.core.random_designs import random_design

PATTERNS = Path(__file__).parents[2] / "patterns"
_FIGURE = re.compile(r"(?<=[ :])\d+(?:[./ ]\d+)*(?: mm| cm| in)?(?=[,}\]\n])")
_KNOTS = {"single": "knot", "double": "double knot", "triple": "triple knot"}
NASTY = (
    "", "~", "null", "-1 mm", "0", "0 mm", "1e308 mm", "nan", "inf mm", "1/0 in", "9" * 400 + " mm", "1_000",
    "0x10 mm", "1,5 mm", "6 mm 7", "½ in", "٣ mm", "100000", "100001", "fit", "knot", "*a", "&a b",
    "!!python/name:os.system", "<<", "{}", "[]", "[[[[[[", "{a: {a: {a: {a: ", "? x", "- - - -", "|", ">", "'", '"',
    '"\\x1b[2J"', '"\\u202e"', "\x1b[2J", "\x1b]0;gone\x07", "\u202etxet", "\u2028", "\x00", "\ufeff", "[red]x[/red]",
    "{{x}}", "%(x)s", "a" * 5000, "é" * 300, "👩‍👩‍👧‍👦" * 50, "漢" * 100, "e" + "\u0301" * 500, "true",
    "2026-11-25", "# x", ": :", "---", "...", "%YAML 9.9", "\t",
)  # fmt: skip


def written(design: Design) -> str:
    """A design as a file."""
    strands = [
        _slim(
            name=one.name,
            work=one.work,
            start=_end(one.start),
            layout=[_item(item) for item in one.layout],
            end=_end(one.end),
        )
        for one in design.strands
    ]
    size = design.size
    document = _slim(
        format="1",
        name=design.name,
        unit=design.unit,
        size=size
        and _slim(
            **{size.kind: _mm(size.body_mm)}, ease=_mm(size.ease_mm or None), tolerance=_mm(size.tolerance_mm)
        ),
        cord=_cord(design.cord),
        beads={
            bead.key: _slim(
                name=bead.name, length=_mm(bead.length_mm), diameter=_mm(bead.diameter_mm), hole=_mm(bead.hole_mm)
            )
            for bead in design.beads
        },
        strands=strands,
    )  # fmt: skip
    if len(strands) == 1:
        document["strand"] = document.pop("strands")[0]
    return yaml.dump(document, Dumper=_Dumper, sort_keys=False, default_flow_style=None, width=1000)


class _Dumper(yaml.SafeDumper):
    """Without anchors: everything is written out."""

    def ignore_aliases(self, data: object) -> bool:
        return True


def _slim(**values: object) -> dict[str, object]:
    return {key: value for key, value in values.items() if value is not None}


def _mm(length_mm: float | None) -> str | None:
    return None if length_mm is None else f"{length_mm:.3f} mm"


def _cord(cord: CordDesign) -> dict[str, object]:
    knots = {kind: {"take_up": _mm(one.take_up_mm), "length": _mm(one.length_mm)} for kind, one in cord.knots}
    slim = _slim(name=cord.name, diameter=_mm(cord.diameter_mm), layers=cord.layers, material=cord.material)
    return slim | {"worked with": cord.worked_with} | ({"knots": knots} if knots else {})


def _end(end: End) -> dict[str, object]:
    return _slim(closure=end.closure, length=_mm(end.length_mm), cord=_mm(end.cord_mm), tail=_mm(end.tail_mm))


def _item(item: Item) -> object:
    match item:
        case Bead(key=key):
            return key
        case Knot(kind=kind):
            return _KNOTS[kind]
        case Space(length_mm=length_mm):
            return {"space": _mm(length_mm)}
        case Repeat(count=count, of=of):
            return {"repeat": count or "fit", "of": [_item(one) for one in of]}
        case Mirror(side=side, middle=middle):
            return {"mirror": _slim(side=[_item(one) for one in side], middle=[_item(one) for one in middle] or None)}
        case BeadRun(key=key, count=count, knot_every=every):
            return _slim(beads=key, count=count or "fit") | ({"knot every": every} if every else {})
    raise TypeError(item)


@cache
def _shipped() -> tuple[str, ...]:
    return tuple(path.read_text(encoding="utf-8") for path in sorted(PATTERNS.glob("*.yaml")))


def valid_design(number: int) -> str:
    """A design that should be read; most can be planned."""
    draw = random.Random(f"valid {number}")
    return draw.choice(_shipped()) if draw.random() < 0.15 else written(random_design(number))


def any_design(number: int) -> bytes:
    """A design, as it is or changed in one to six ways."""
    draw = random.Random(f"any {number}")
    text = valid_design(number)
    if draw.random() < 0.1:
        return text.encode()
    for _ in range(draw.choice((1, 1, 1, 2, 3, 6))):
        text = draw.choice(_CHANGES)(text, draw)
    return _encoded(text[: 2 * 1024 * 1024], draw)


def _encoded(text: str, draw: random.Random) -> bytes:
    way = draw.random()
    if way < 0.90:
        raw = text.encode("utf-8", "surrogatepass")
    elif way < 0.93:
        raw = text.replace("\n", "\r\n").encode("utf-8-sig", "replace")
    else:
        raw = text.encode(draw.choice(("utf-16", "latin-1", "utf-32-be", "cp1252")), "replace")
    if draw.random() < 0.1:
        bad = bytearray(raw or b" ")
        for _ in range(draw.choice((1, 2, 20))):
            bad[draw.randrange(len(bad))] = draw.randrange(256)
        raw = bytes(bad)
    return raw


def _lines(text: str, draw: random.Random) -> str:
    lines = text.splitlines() or [""]
    at, other = draw.randrange(len(lines)), draw.randrange(len(lines))
    way = draw.randrange(6)
    if way == 0:
        del lines[at]
    elif way == 1:
        lines[at:at] = [lines[other]] * draw.choice((1, 1, 2, 50))
    elif way == 2:
        lines[at], lines[other] = lines[other], lines[at]
    elif way == 3:
        lines[at] = " " * draw.choice((1, 2, 4, 9)) + lines[at]
    elif way == 4:
        lines[at] = lines[at][draw.choice((1, 2)) :]
    else:
        lines.insert(at, draw.choice(NASTY) + draw.choice(("", ":", ": x", " x")))
    return "\n".join(lines) + "\n"


def _words(text: str, draw: random.Random) -> str:
    """One value, key or word is another."""
    places = [at for at, character in enumerate(text) if character in " :,[]{}\n"]
    if len(places) < 2:
        return text + draw.choice(NASTY)
    begin = draw.randrange(len(places) - 1)
    new = draw.choice(NASTY) if draw.random() < 0.7 else draw.choice(text.split() or ["x"])
    return text[: places[begin] + 1] + new + text[places[begin + 1] :]


def _figures(text: str, draw: random.Random) -> str:
    """Other lengths and counts, in other units: mostly a design that is right, and odd."""
    found = list(_FIGURE.finditer(text))
    for one in reversed(draw.sample(found, min(len(found), draw.choice((1, 2, 5))))):
        length = draw.choice((draw.uniform(0.05, 3), draw.uniform(1, 40), draw.uniform(40, 5000)))
        new = draw.choice((f"{length:.2f} mm", f"{length:.3f} cm", f"{length / 20:.2f} in", "1/64 in", "12 3/8 in"))
        count = str(draw.choice((1, 2, 3, 7, 50, 999, 30_000)))
        text = text[: one.start()] + (new if "m" in one.group() or "in" in one.group() else count) + text[one.end() :]
    return text


def _letters(text: str, draw: random.Random) -> str:
    """A slip of the pen."""
    if not text:
        return "x"
    at = draw.randrange(len(text))
    put = draw.choice(("", text[at] * 2, chr(draw.choice((draw.randrange(32, 127), draw.randrange(0x110000))))))
    return text[:at] + put + text[at + 1 :]


def _slices(text: str, draw: random.Random) -> str:
    begin, end = sorted((draw.randint(0, len(text)), draw.randint(0, len(text))))
    way = draw.randrange(4)
    return (text[:begin], text[end:], text[:begin] + text[end:], text[:end] + text[begin:end] + text[end:])[way]


def _deep(text: str, draw: random.Random) -> str:
    """Levels upon levels, and counts upon counts."""
    many = draw.choice((3, 12, 23, 30, 2000))
    if draw.random() < 0.5:
        item = f"{{repeat: {draw.choice((2, 10, 100000))}, of: [" * many + "knot" + "]}" * many
    else:
        item = "{mirror: {side: [" * many + "knot" + "]}}" * many
    return text.replace("layout:", f"layout: [{item}]\n  x:", 1) if draw.random() < 0.5 else text + f"y: {item}\n"


def _large(text: str, draw: random.Random) -> str:
    """So much of one thing that the file is near what is taken, or beyond."""
    if draw.random() < 0.9:
        return _words(text, draw)
    line = draw.choice(text.splitlines() or ["x: y"]) + "\n"
    more = draw.choice(
        (line, "a{n}: b\n", "- {n}\n", "  - {{space: {n} mm}}\n", "#\n", "{{", "[", "a{n}: [b, {{c: d}}]\n")
    )
    count = draw.choice((1000, 20_000, 70_000))
    lines = [more.replace("{n}", str(number)).replace("{{", "{").replace("}}", "}") for number in range(count)]
    return text + "".join(lines)[: draw.choice((100_000, 1_000_000, 1_100_000))]


_CHANGES: tuple[Callable[[str, random.Random], str], ...] = (
    _figures, _figures, _figures, _figures, _lines, _lines, _words, _words, _words, _letters, _letters, _slices,
    _deep, _large,
)  # fmt: skip
