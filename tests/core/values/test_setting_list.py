"""What can be set: how it is typed, shown and kept."""

from __future__ import annotations

import pytest

from companion.core.values.setting_list import SETTINGS, setting_named, settings_from
from companion.core.values.settings import Settings


@pytest.mark.parametrize(
    ("name", "typed", "shown"),
    [
        ("ruler", "2 mm", "2 mm"),
        ("ruler", "1/16 in", "1/16 in"),
        ("ruler", "1/32 in", "1/32 in"),
        ("ruler", "0.5 mm", "0.5 mm"),
        ("arm", "46 cm", "460 mm (18 1/8 in)"),
        ("risk", "0,2 %", "0.2 %"),
        ("bounce", "0,4 s", "0.4 s"),
        ("hand", "Left", "left"),
        ("scrap", "8 in", "203 mm (8 in)"),
        ("unit", "as the design says", "as the design says"),
    ],
)
def test_it_is_shown_as_it_was_meant(name: str, typed: str, shown: str) -> None:
    setting = setting_named(name)
    assert setting is not None
    assert setting.shown(setting.read(typed, "")) == shown


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        ("arm", "2 mm"), ("arm", "20 cm"), ("arm", "3 m"), ("ruler", "2 in"), ("ruler", "0 mm"), ("ruler", "0.001 mm"),
        ("scrap", "1 km"), ("risk", "nan"), ("risk", "60 %"), ("bounce", "inf"), ("bounce", "-1"), ("hand", "both"),
        ("unit", "furlong"), ("colours", "beige"),
    ],
)  # fmt: skip
def test_what_can_not_be_is_refused(name: str, typed: str) -> None:
    setting = setting_named(name)
    assert setting is not None
    with pytest.raises(ValueError, match="xpected"):
        setting.read(typed, "")


@pytest.mark.parametrize(("unit", "mm"), [("cm", 460.0), ("mm", 46.0), ("in", 46 * 25.4)])
def test_a_bare_number_is_in_the_unit_that_is_set(unit: str, mm: float) -> None:
    setting = setting_named("scrap")
    assert setting is not None
    assert setting.read("46", unit) == pytest.approx(mm)
    with pytest.raises(ValueError, match="without a unit"):
        setting.read("46", "")


def test_what_is_kept_comes_back_and_what_does_not_fit_is_as_usual() -> None:
    kept = {"unit": "cm", "ruler_mm": 25.4 / 32, "arm_mm": 460.0, "scrap_mm": 203.2, "hand": "left"}
    assert settings_from(kept, 0.002) == Settings("cm", 25.4 / 32, 460.0, 0.002, 203.2, hand="left")
    odd = {"unit": 7, "ruler_mm": "x", "arm_mm": [], "scrap_mm": -1, "bounce_seconds": {}, "colours": "\x1b"}
    assert settings_from(odd, Settings().risk) == Settings()


def test_each_says_what_it_changes_in_one_plain_line() -> None:
    assert [setting.name for setting in SETTINGS] == [
        "unit", "ruler", "arm", "risk", "scrap", "bounce", "hand", "colours",
    ]  # fmt: skip
    for setting in SETTINGS:
        assert setting.says.endswith("."), setting
        assert len(setting.says) <= 110, setting


@pytest.mark.parametrize(
    ("name", "typed", "unit", "meant"),
    [("scrap", "150", "in", "mm"), ("arm", "450", "in", "mm"), ("arm", "18", "cm", "in"), ("ruler", "1", "in", "mm")],
)  # fmt: skip
def test_a_bare_number_that_would_fit_another_unit_is_asked_about(name, typed, unit, meant) -> None:
    setting = setting_named(name)
    assert setting is not None
    with pytest.raises(ValueError, match=f"{typed} {unit} looks wrong, but {typed} {meant} would fit"):
        setting.read(typed, unit)
    assert setting.read(f"{typed} {meant}", unit)
