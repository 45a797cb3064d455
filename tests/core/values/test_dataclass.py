"""Our dataclasses against the standard library's: the same classes made by both, and treated alike, do the same."""

from __future__ import annotations

import copy
import dataclasses
import pickle
import subprocess
import sys
from typing import Any

import pytest

from companion.core.values import dataclass as ours

NUMBERS = (0, 1, 1.0, -2.5, "a", None, (1, 2), float("nan"))


def both() -> list[tuple[Any, Any]]:
    """The maker of dataclasses and its module's `replace`: the standard library's, and ours."""
    return [(dataclasses, dataclasses.replace), (ours, ours.replace)]


def classes(maker: Any) -> tuple[type[Any], ...]:
    """No field, one, some with defaults, one made anew."""

    @maker.dataclass(frozen=True, slots=True)
    class Nothing:
        """No field."""

    @maker.dataclass(frozen=True, slots=True)
    class Knot:
        """One field."""

        kind: str

    @maker.dataclass(frozen=True, slots=True)
    class Reading:
        """Some fields, a method, a property and something that is no field."""

        MOST = 3
        step: int
        length_mm: float
        typed: str = ""
        seen: dict[str, int] = maker.field(default_factory=dict)

        @property
        def twice(self) -> float:
            return 2 * self.length_mm

        @classmethod
        def first(cls) -> Any:
            return cls(1, 2.0)

    return Nothing, Knot, Reading


def outcome(act: Any) -> Any:
    """What comes of it: in words, or the kind of error."""
    try:
        return repr(act())
    except (TypeError, AttributeError) as error:
        return next(kind.__name__ for kind in type(error).__mro__ if kind in (TypeError, AttributeError))


CALLS: tuple[tuple[int, tuple[Any, ...], dict[str, Any]], ...] = (
    (0, (), {}),
    (0, (1,), {}),
    (0, (), {"kind": 1}),
    *((1, (value,), {}) for value in NUMBERS),
    (1, (), {"kind": "single"}),
    (1, (), {}),
    (1, ("single",), {"kind": "single"}),
    (2, (1, 2.0), {}),
    (2, (1, 2.0, "2 mm", {"a": 1}), {}),
    (2, (1, 2.0, "2 mm", {}, 5), {}),
    (2, (1,), {"length_mm": 3.0}),
    (2, (1,), {"step": 1, "length_mm": 3.0}),
    (2, (), {"length_mm": 3.0, "step": 1, "typed": "x"}),
    (2, (), {"step": 1}),
    (2, (1, 2.0), {"colour": "red"}),
)


@pytest.mark.parametrize(("which", "values", "named"), CALLS)
@pytest.mark.parametrize("made_before", [0, 2 * ours.MANY])
def test_a_call_makes_the_same_value_or_fails_alike(which, values, named, made_before) -> None:
    """Also once the class has made so many that its `__init__` is another."""
    told = []
    for maker, _ in both():
        kind = classes(maker)[which]
        for _ in range(made_before):
            outcome(lambda kind=kind: kind(*(1,) * min(which, 1), *(2,) * max(0, which - 1)))
        told.append(outcome(lambda kind=kind: kind(*values, **named)))
    assert told[0] == told[1]


def test_values_are_equal_and_hashed_alike() -> None:
    for maker, _ in both():
        nothing, knot, reading = classes(maker)
        values = [nothing(), reading(1, 2.0), reading(1, 2.0, "x"), *(knot(number) for number in NUMBERS)]
        again = [nothing(), reading(1, 2.0), reading(1, 2.0, "x"), *(knot(number) for number in NUMBERS)]
        same = [[one == other for other in again] for one in values]
        assert [row.count(True) for row in same] == [1, 1, 1, 1, 2, 2, 1, 1, 1, 1, 1]  # 1 and 1.0 are one number
        assert knot("single") != classes(maker)[1]("single")  # of another class, though it looks the same
        assert len({knot("single"), knot("single"), nothing(), nothing(), knot((1,))}) == 3
        with pytest.raises(TypeError, match="unhashable"):
            hash(reading(1, 2.0))


def test_nothing_can_be_set_or_deleted() -> None:
    for maker, _ in both():
        value = classes(maker)[2](1, 2.0)
        for act in (lambda value=value: setattr(value, "step", 2), lambda value=value: delattr(value, "step")):
            with pytest.raises(AttributeError):
                act()
        with pytest.raises((AttributeError, TypeError)):  # the standard library's own fails in either way
            value.colour = "red"
        assert not hasattr(value, "__dict__")
        assert value.step == 1


def test_a_default_made_anew_is_not_shared() -> None:
    for maker, _ in both():
        reading = classes(maker)[2]
        reading(1, 2.0).seen["a"] = 1
        assert reading(1, 2.0).seen == {}


def test_replaced_copied_and_taken_apart() -> None:
    for maker, replace in both():
        reading = classes(maker)[2]
        value = reading(1, 2.0)
        assert replace(value, step=5, typed="x") == reading(5, 2.0, "x")
        assert replace(value) == value
        with pytest.raises(TypeError):
            replace(value, colour="red")
        assert copy.copy(value) == copy.deepcopy(value) == value
        assert copy.deepcopy(value).seen is not value.seen
        assert (value.twice, reading.MOST, reading.first()) == (4.0, 3, value)
        match value:
            case reading(step, length_mm=length):
                assert (step, length) == (1, 2.0)
            case _:
                pytest.fail("it did not match")


def test_the_standard_library_takes_ours_for_a_dataclass() -> None:
    theirs, mine = classes(dataclasses), classes(ours)
    for one, other in zip(theirs, mine, strict=True):
        assert dataclasses.is_dataclass(other)
        assert [(f.name, f.type, f.default) for f in dataclasses.fields(one)] == [
            (f.name, f.type, f.default) for f in dataclasses.fields(other)
        ]
    value = mine[2](1, 2.0)
    assert dataclasses.asdict(value) == {"step": 1, "length_mm": 2.0, "typed": "", "seen": {}}
    assert dataclasses.replace(value, step=2) == mine[2](2, 2.0)
    assert mine[2].__dataclass_params__.frozen


@ours.dataclass(frozen=True, slots=True)
class Sent:
    """At the top of a module, as what is pickled has to be."""

    step: int
    beads: tuple[str, ...] = ()


def test_a_value_can_be_sent() -> None:
    assert pickle.loads(pickle.dumps(Sent(3, ("glass",)))) == Sent(3, ("glass",))
    assert (Sent.__module__, Sent.__qualname__, Sent.__doc__) == (
        __name__,
        "Sent",
        "At the top of a module, as what is pickled has to be.",
    )


def test_making_one_brings_in_nothing() -> None:
    code = (
        "import sys\n"
        "from companion.core.values.dataclass import dataclass, replace\n"
        "@dataclass(frozen=True, slots=True)\n"
        "class Knot:\n"
        "    kind: str\n"
        "assert replace(Knot('single'), kind='double') == Knot('double')\n"
        "print([name for name in ('dataclasses', 'inspect', 'typing', 're') if name in sys.modules])\n"
    )
    run = subprocess.run([sys.executable, "-S", "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"
