"""Letters of bead kinds: unique while they last, one column wide, from the maker's own words."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from companion.core.picture.marks import SPARE_LETTERS, coming_letter, legend, marks_of
from companion.core.values.design import Bead, BeadKind
from tests.core.hand_plans import GLASS, SILVER, hand_plan


def kinds(*keys_and_names: tuple[str, str]) -> list[BeadKind]:
    return [BeadKind(key, name, 6, 6) for key, name in keys_and_names]


def letters(*keys_and_names: tuple[str, str]) -> str:
    return "".join(mark.letter for mark in marks_of(kinds(*keys_and_names)))


def test_a_letter_is_the_initial_of_the_key():
    assert letters(("glass", "Sea-glass round"), ("silver", "Silver daisy")) == "GS"


def test_a_taken_initial_gives_way_to_the_other_initials_of_the_name_and_then_to_its_other_letters():
    assert letters(("pearl", "pearl"), ("p2", "pale rose"), ("p3", "pep")) == "PRE"


def test_sizes_of_one_bead_go_by_their_numbers():
    assert letters(*((f"pearl {size}", f"pearl {size} mm") for size in (4, 5, 6, 7))) == "P567"


def test_an_accent_is_left_off_and_other_alphabets_keep_their_letters():
    assert letters(("éclat", "Éclat"), ("жемчуг", "жемчуг")) == "EЖ"


@pytest.mark.parametrize("name", ["真珠", "ガラス", "لؤلؤ", "ß", "🐚", "‍", "12"])
def test_a_name_without_a_letter_of_one_column_gets_a_spare_one(name):
    assert letters((name, name)) in SPARE_LETTERS


def test_sixty_kinds_differ_and_beyond_that_the_shared_letters_say_so():
    sixty = marks_of(kinds(*((f"a{n}", f"a{n}") for n in range(60))))
    assert len({mark.letter for mark in sixty}) == 60
    assert not any(mark.shared for mark in sixty)
    more = marks_of(kinds(*((f"a{n}", f"a{n}") for n in range(75))))
    assert any(mark.shared for mark in more)
    for mark in more:
        assert mark.shared == ([other.letter for other in more].count(mark.letter) > 1)


def test_every_spare_letter_has_a_form_of_its_own_for_coming_beads():
    forms = {coming_letter(letter) for letter in SPARE_LETTERS}
    assert len(forms) == len(SPARE_LETTERS)
    assert not forms & set(SPARE_LETTERS)


@given(st.lists(st.tuples(st.text(min_size=1, max_size=12), st.text(max_size=20)), min_size=1, max_size=50))
def test_any_names_give_different_letters_of_one_column(names):
    marks = marks_of(kinds(*names))
    assert len({mark.letter for mark in marks}) == len(marks)
    for mark in marks:
        for form in (mark.letter, coming_letter(mark.letter)):
            assert len(form) == cell_len(form) == 1
            assert unicodedata.east_asian_width(form) in ("N", "Na", "A")
            assert unicodedata.category(form) in ("Lu", "Ll", "Nd", "No")
        assert coming_letter(mark.letter) != mark.letter


def test_the_legend_holds_what_the_plan_uses_with_the_letters_of_the_whole_design():
    spare = BeadKind("gold", "Gold", 4, 4)
    plan = hand_plan((Bead("silver"), Bead("glass")), beads=(spare, GLASS, SILVER))
    assert [(mark.letter, mark.key, mark.name, mark.colour) for mark in legend(plan)] == [
        ("S", "glass", "Sea-glass round", (20, 130, 130)),
        ("D", "silver", "Silver daisy", (190, 194, 200)),
    ]
