"""How each setting is named, typed and shown, and what it changes."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from msgspec import Struct

from companion.core.values.assumptions import USUAL
from companion.core.values.colour_sets import COLOUR_SETS, colour_set
from companion.core.values.measures.lengths import LengthError, read_length_mm, unit_of
from companion.core.values.measures.show_lengths import show
from companion.core.values.measures.units import COARSEST_RULER_MM, MM_PER_INCH
from companion.core.values.settings import BOUNCE_SECONDS, LEAST_RISK, LEAST_SCRAP_MM, MOST_RISK, OwnUnit, Settings
from companion.core.values.text import plain

MOST_BOUNCE_SECONDS = 5.0
FINEST_RULER_MM = 0.1  # nobody reads a finer one by eye
SHORTEST_ARM_MM, LONGEST_ARM_MM = 250.0, 1000.0  # wrist to armpit of anyone who can hold an awl
LONGEST_SCRAP_MM = 10_000.0
# Up to which a bare number is taken for the unit that is set: beyond that another unit may be meant. Our own choice.
LIKELY_RULER_MM, LIKELY_SCRAP_MM = 5.0, 2000.0
UNITS = ("mm", "cm", "in")
HANDS = ("right", "left")
AS_DESIGNED = "as the design says"
USUAL_WORD = "the usual"


class Setting(Struct, frozen=True):
    """One of them. `field`: its name in `Settings`; `says`: what it changes, a sentence; `expects`: what can be typed.
    `read` gives the value that is typed, a bare length being in the unit given, refused for ""; it raises ValueError
    with a sentence."""

    name: str
    field: str
    says: str
    expects: str
    read: Callable[[str, OwnUnit], Any]
    shown: Callable[[Any], str]


def _unit(text: str, _: str) -> str:
    return _one_of(text, (*UNITS, AS_DESIGNED, "design"), {AS_DESIGNED: "", "design": ""})


def _hand(text: str, _: str) -> str:
    return _one_of(text, HANDS, {})


def _one_of(text: str, words: tuple[str, ...], instead: Mapping[str, str]) -> str:
    said = text.strip().lower()
    if said not in words:
        raise ValueError(f"Expected {_either(words)}.")
    return instead.get(said, said)


def _either(words: Sequence[str]) -> str:
    return f"{', '.join(words[:-1])} or {words[-1]}"


def _length(least_mm: float, most_mm: float, likely_mm: float) -> Callable[[str, OwnUnit], float | None]:
    """Reads a length from `least_mm` to `most_mm`. `likely_mm`: how long one can be whose unit is not written."""

    def read(text: str, unit: OwnUnit) -> float | None:
        if text.strip().lower() in (USUAL_WORD, "usual"):
            return None
        try:
            length_mm = float(read_length_mm(text.strip(), unit or None, above_zero=True))
        except LengthError as error:
            raise ValueError(str(error)) from error
        if unit and unit_of(text.strip()) is None and not least_mm <= length_mm <= likely_mm:
            _ask_which_unit(plain(text, 40), unit, least_mm, likely_mm)
        if not least_mm <= length_mm <= most_mm:
            raise ValueError(f"Expected a length from {least_mm:g} mm to {most_mm:g} mm.")
        return length_mm

    return read


def _ask_which_unit(number: str, unit: str, least_mm: float, likely_mm: float) -> None:
    """Raises ValueError where the number can be meant in another unit than the one that is set."""
    for other in UNITS:
        if other != unit and least_mm <= float(read_length_mm(f"{number} {other}")) <= likely_mm:
            raise ValueError(
                f"{number} {unit} looks wrong, but {number} {other} would fit. Which is it? "
                f'Write the unit: "{number} {other}", or "{number} {unit}".'
            )


def _scrap(text: str, unit: OwnUnit) -> float:
    length_mm = _length(1.0, LONGEST_SCRAP_MM, LIKELY_SCRAP_MM)(text, unit)
    return LEAST_SCRAP_MM if length_mm is None else length_mm


def read_share(text: str) -> float:
    """A share from 0.01 % to 50 %, written in per cent: "1%", "0,2 %". Raises ValueError with a sentence."""
    number = text.strip().removesuffix("%").strip().replace(",", ".")
    whole, _, part = number.partition(".")
    digits = whole + part
    if not text.strip().endswith("%") or not (digits.isascii() and digits.isdigit() and whole) or len(number) > 8:
        raise ValueError("Expected a share in per cent, such as 1% or 0.2%.")
    if not LEAST_RISK <= float(number) / 100 <= MOST_RISK:
        raise ValueError("Expected a share from 0.01% to 50%.")
    return float(number) / 100


def _risk(text: str, _: str) -> float:
    if text.strip().lower() in (USUAL_WORD, "usual"):
        return USUAL.run_out_risk
    return read_share(text if text.strip().endswith("%") else f"{text}%")  # asked for by name, it can be nothing else


def _seconds(text: str, _: str) -> float:
    if text.strip().lower() in (USUAL_WORD, "usual"):
        return BOUNCE_SECONDS
    try:
        value = float(text.strip().rstrip("s").strip().replace(",", "."))
    except ValueError:
        raise ValueError("Expected seconds, such as 0.25.") from None
    if not 0 <= value <= MOST_BOUNCE_SECONDS:
        raise ValueError(f"Expected 0 to {MOST_BOUNCE_SECONDS:g} seconds.")
    return value


def _colours(text: str, _: str) -> str:
    found = colour_set(text)
    if found is None:
        raise ValueError(f"Expected {_either(COLOUR_SETS)}.")
    return found


def _mm(usual: str) -> Callable[[float | None], str]:
    return lambda value: usual if value is None else f"{show(value, 'mm')} ({show(value, 'in')})"


def _ruler(value: float | None) -> str:
    """As it is printed on rulers: a share of an inch, or millimetres."""
    if value is None:
        return "1 mm, or 1/16 in"
    for parts in (1, 2, 4, 8, 16, 32, 64):
        if abs(value - MM_PER_INCH / parts) < 1e-6:
            return f"1/{parts} in" if parts > 1 else "1 in"
    return f"{value:g} mm"


SETTINGS = (
    Setting(
        "unit", "unit", "The unit for lengths in new plans, whatever the design is written in.",
        f"mm, cm, in, or: {AS_DESIGNED}", _unit, lambda value: value or AS_DESIGNED,
    ),
    Setting(
        "ruler", "ruler_mm", "The smallest mark on your ruler: how exact your readings are.",
        "a length, such as 1 mm or 1/16 in, or: the usual",
        _length(FINEST_RULER_MM, COARSEST_RULER_MM, LIKELY_RULER_MM), _ruler,
    ),
    Setting(
        "arm", "arm_mm", "Your own arm from wrist to armpit, for the old rule of thumb beside each cut.",
        "a length, such as 46 cm, or: the usual", _length(SHORTEST_ARM_MM, LONGEST_ARM_MM, LONGEST_ARM_MM),
        _mm("444 to 481 mm (17 1/2 to 18 15/16 in)"),
    ),
    Setting(
        "risk", "risk", "How often a cord may run out: new plans are cut for it. Smaller means more cord left over.",
        "a share, such as 1% or 0.2%", _risk, lambda value: f"{100 * value:g} %",
    ),
    Setting(
        "scrap", "scrap_mm", "The shortest leftover that is worth keeping.",
        "a length, such as 15 cm", _scrap, lambda value: f"{show(value, 'mm')} ({show(value, 'in')})",
    ),
    Setting(
        "bounce", "bounce_seconds", "A key that is held down, or bounces, counts once within this time.",
        "seconds, such as 0.25", _seconds, lambda value: f"{value:g} s",
    ),
    Setting(
        "hand", "hand", "The hand that you tie with: knots are drawn for it.",
        "right or left", _hand, str,
    ),
    Setting(
        "colours", "colours", "The set of colours that the app begins with; t in the app changes it too.",
        ", ".join(COLOUR_SETS), _colours, str,
    ),
)  # fmt: skip

COLOURS = SETTINGS[-1]


def setting_named(name: str) -> Setting | None:
    """The setting of that name, None where there is none."""
    return next((setting for setting in SETTINGS if setting.name == name.strip().lower()), None)


def settings_from(kept: Mapping[str, Any], risk: float) -> Settings:
    """Settings as they were kept, by the names of `Settings`; what does not fit is left as usual. `risk`: as it is, for
    a cut by another one would look like the maker's."""
    usual, values = Settings(), dict[str, Any](risk=risk)
    for setting in SETTINGS:
        value = kept.get(setting.field)
        if value is None or setting.field in values:
            continue
        try:
            values[setting.field] = setting.read(_typed(setting, value), "")
        except (ValueError, TypeError):
            values[setting.field] = getattr(usual, setting.field)
    return Settings(**values)


def _typed(setting: Setting, value: Any) -> str:
    if setting.field.endswith("_mm"):
        return f"{value} mm"
    return plain(str(value), 40) if value != "" else AS_DESIGNED
