"""What the maker can set: each with its name, what it changes, and how it is typed and shown."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from msgspec import Struct

from companion.core.values.assumptions import USUAL
from companion.core.values.colour_sets import COLOUR_SETS, colour_set
from companion.core.values.lengths import COARSEST_RULER_MM, LengthError, read_length_mm
from companion.core.values.show_lengths import show
from companion.core.values.text import plain

LEAST_RISK, MOST_RISK = 0.0001, 0.5  # rarer than any maker can know of; oftener than not
LEAST_SCRAP_MM = 150.0  # long enough for a row of test knots; common practice, no source
BOUNCE_SECONDS = 0.25  # a held key repeats some thirty times a second; two meant presses lie further apart
MOST_BOUNCE_SECONDS = 5.0
UNITS = ("mm", "cm", "in")
HANDS = ("right", "left")
AS_DESIGNED = "as the design says"
USUAL_WORD = "the usual"


class Settings(Struct, frozen=True):
    """All that can be set. None, or "": not set, so that the design, the unit or a survey's figure decides."""

    unit: str = ""
    ruler_mm: float | None = None
    arm_mm: float | None = None
    risk: float = USUAL.run_out_risk
    scrap_mm: float = LEAST_SCRAP_MM
    bounce_seconds: float = BOUNCE_SECONDS
    hand: str = "right"
    colours: str = COLOUR_SETS[0]


class Setting(Struct, frozen=True):
    """One of them. `field`: its name in `Settings`; `says`: what it changes, a sentence; `expects`: what can be typed.
    `read` gives the value that is typed; it raises ValueError with a sentence."""

    name: str
    field: str
    says: str
    expects: str
    read: Callable[[str], Any]
    shown: Callable[[Any], str]


def _unit(text: str) -> str:
    return _one_of(text, (*UNITS, AS_DESIGNED, "design"), {AS_DESIGNED: "", "design": ""})


def _one_of(text: str, words: tuple[str, ...], instead: Mapping[str, str]) -> str:
    said = text.strip().lower()
    if said not in words:
        raise ValueError(f"Expected one of {', '.join(words)}.")
    return instead.get(said, said)


def _length(most_mm: float | None = None) -> Callable[[str], float | None]:
    def read(text: str) -> float | None:
        if text.strip().lower() in (USUAL_WORD, "usual"):
            return None
        try:
            length_mm = float(read_length_mm(text.strip(), above_zero=True))
        except LengthError as error:
            raise ValueError(str(error)) from error
        if most_mm is not None and length_mm > most_mm:
            raise ValueError(f"Expected at most {show(most_mm, 'mm')}.")
        return length_mm

    return read


def _scrap(text: str) -> float:
    length_mm = _length(10_000.0)(text)
    return LEAST_SCRAP_MM if length_mm is None else length_mm


def read_share(text: str) -> float:
    """A share in per cent: "1%", "0.2 %". Raises ValueError."""
    number = text.strip().rstrip("%").strip()
    try:
        value = float(number) / 100
    except ValueError:
        raise ValueError("Expected a share in per cent, such as 1% or 0.2%.") from None
    if not LEAST_RISK <= value <= MOST_RISK:
        raise ValueError("Expected a share from 0.01% to 50%.")
    return value


def _seconds(text: str) -> float:
    try:
        value = float(text.strip().rstrip("s").strip().replace(",", "."))
    except ValueError:
        raise ValueError("Expected seconds, such as 0.25.") from None
    if not 0 <= value <= MOST_BOUNCE_SECONDS:
        raise ValueError(f"Expected 0 to {MOST_BOUNCE_SECONDS:g} seconds.")
    return value


def _colours(text: str) -> str:
    found = colour_set(text)
    if found is None:
        raise ValueError(f"Expected one of {', '.join(COLOUR_SETS)}.")
    return found


def _mm(usual: str) -> Callable[[float | None], str]:
    return lambda value: usual if value is None else f"{show(value, 'mm')} ({show(value, 'in')})"


SETTINGS = (
    Setting(
        "unit", "unit", "The unit that new plans are shown and asked for in, whatever the design is written in.",
        f"mm, cm, in, or: {AS_DESIGNED}", _unit, lambda value: value or AS_DESIGNED,
    ),
    Setting(
        "ruler", "ruler_mm", "The smallest mark on your ruler: how exactly a reading is taken.",
        "a length, such as 1 mm or 1/16 in, or: the usual", _length(COARSEST_RULER_MM), _mm("1 mm, or 1/16 in"),
    ),
    Setting(
        "arm", "arm_mm", "Your own arm from wrist to armpit, for the old rule of thumb beside each cut.",
        "a length, such as 46 cm, or: the usual", _length(1500.0), _mm("444 to 481 mm (17 1/2 to 18 15/16 in)"),
    ),
    Setting(
        "risk", "risk", "How often a cord may run out: new plans are cut for it. Smaller means more cord left over.",
        "a share, such as 1% or 0.2%", read_share, lambda value: f"{100 * value:g} %",
    ),
    Setting(
        "scrap", "scrap_mm", "The shortest leftover that is worth keeping.",
        "a length, such as 15 cm", _scrap, lambda value: f"{show(value, 'mm')} ({show(value, 'in')})",
    ),
    Setting(
        "bounce", "bounce_seconds", "How long a key that is held or bounces counts only once.",
        "seconds, such as 0.25", _seconds, lambda value: f"{value:g} s",
    ),
    Setting(
        "hand", "hand", "Which hand ties: drawings of knots are shown for it.",
        "right or left", lambda text: _one_of(text, HANDS, {}), str,
    ),
    Setting(
        "colours", "colours", "The set of colours that the app begins with.",
        ", ".join(COLOUR_SETS), _colours, str,
    ),
)  # fmt: skip


def setting_named(name: str) -> Setting | None:
    """The setting of that name, None where there is none."""
    return next((setting for setting in SETTINGS if setting.name == name.strip().lower()), None)


def settings_from(kept: Mapping[str, Any]) -> Settings:
    """Settings as they were kept, by the names of `Settings`; what does not fit is left as usual."""
    usual, values = Settings(), {}
    for setting in SETTINGS:
        value = kept.get(setting.field)
        if value is None:
            continue
        try:
            values[setting.field] = setting.read(
                f"{value} mm" if setting.field.endswith("_mm") else _typed(setting, value)
            )
        except (ValueError, TypeError):
            values[setting.field] = getattr(usual, setting.field)
    return Settings(**values)


def _typed(setting: Setting, value: Any) -> str:
    if setting.field.endswith("_mm"):
        return f"{value} mm"
    if setting.field == "risk":
        return f"{100 * float(value)}%"
    return plain(str(value), 40) if value != "" else AS_DESIGNED
