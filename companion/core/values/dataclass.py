"""Frozen dataclasses with slots, as the standard library's, made in a twentieth of the time.

A command makes some eighty of them before its first line of work. The standard library compiles six methods for each,
and brings in `inspect` to do it: half of all that `companion next` took. Here the methods are shared by all; a class
that makes many values is then given the standard library's own `__init__`, which is quicker each time. There is what
this program uses: `@dataclass(frozen=True, slots=True)`, defaults, `field(default_factory=…)` and `replace`. The type
checker sees the standard library's own, and the standard library's functions (`fields`, `asdict`) see a dataclass.
"""

from __future__ import annotations

from operator import attrgetter

MANY = 50  # so many values, and compiling an `__init__` pays
TYPE_CHECKING = False  # as in typing, which itself takes a while to load
if TYPE_CHECKING:
    from collections.abc import Callable
    from dataclasses import dataclass, field, replace
    from typing import Any
else:

    def dataclass(*, frozen, slots):
        """Make the class below a frozen dataclass with slots."""
        assert (frozen, slots) == (True, True), "the standard library makes any other dataclass"
        return _made

    def replace(value, **changes):
        """The same value but for what is given."""
        for name in value.__match_args__:
            if name not in changes:
                changes[name] = getattr(value, name)
        return value.__class__(**changes)

    def field(*, default_factory):
        """A default that is made anew for each value."""
        return _Factory(default_factory)


__all__ = ["dataclass", "field", "replace"]


class _Factory:
    def __init__(self, make: Callable[[], Any]) -> None:
        self.make = make


def _made(cls: type[Any]) -> type[Any]:
    """The same class with slots, and with the methods of a frozen dataclass."""
    names = tuple(cls.__annotations__)
    inside = {name: value for name, value in cls.__dict__.items() if name not in ("__dict__", "__weakref__")}
    defaults = {name: inside.pop(name) for name in names if name in inside}
    of_all: Callable[[Any], object] = attrgetter(*names) if names else lambda value: ()

    def __eq__(self: Any, other: object) -> bool:
        return (of_all(self),) == (of_all(other),) if other.__class__ is self.__class__ else NotImplemented

    def __hash__(self: Any) -> int:
        return hash(of_all(self))

    inside |= {"__slots__": names, "__match_args__": names, "__dataclass_fields__": _StandardFields(defaults)}
    inside |= {"__init__": _init(names, defaults), "__repr__": _repr, "__eq__": __eq__, "__hash__": __hash__}
    inside |= {"__reduce__": _reduce, "__setattr__": _refuse, "__delattr__": _refuse}
    made = type(cls.__name__, cls.__bases__, inside)
    made.__qualname__ = cls.__qualname__
    return made


def _init(names: tuple[str, ...], defaults: dict[str, Any]) -> Callable[..., None]:
    """An `__init__` that is ready at once, and after MANY values hands over to a compiled one."""
    set_one, made = object.__setattr__, 0

    def __init__(self: Any, *values: Any, **named: Any) -> None:
        nonlocal made
        made += 1
        if made == MANY:
            self.__class__.__init__ = _standard(self.__class__, defaults).__init__
        for name, value in zip(names, values):  # noqa: B905  # what is too many or missing is told below
            set_one(self, name, value)
        for name in names[len(values) :]:
            if name in named:
                value = named.pop(name)
            elif name in defaults:
                value = defaults[name].make() if isinstance(defaults[name], _Factory) else defaults[name]
            else:
                raise TypeError(f"{self.__class__.__name__} is missing {name!r}")
            set_one(self, name, value)
        if named or len(values) > len(names):
            raise TypeError(f"{self.__class__.__name__} takes {', '.join(names)}: found something else, or one twice")

    return __init__


def _repr(self: Any) -> str:
    return f"{type(self).__qualname__}({', '.join(f'{name}={getattr(self, name)!r}' for name in self.__match_args__)})"


def _reduce(self: Any) -> tuple[type[Any], tuple[Any, ...]]:
    return self.__class__, tuple(getattr(self, name) for name in self.__match_args__)


def _refuse(self: Any, name: str, *value: Any) -> None:
    """Frozen: no field can be set or deleted."""
    raise AttributeError(f"{type(self).__name__} is frozen: {name!r} can't be changed")


class _StandardFields:
    """What the standard library looks for in a dataclass; made when it first looks."""

    def __init__(self, defaults: dict[str, Any]) -> None:
        self.defaults = defaults

    def __get__(self, value: object, cls: type[Any]) -> Any:
        standard = _standard(cls, self.defaults)
        cls.__dataclass_params__ = standard.__dataclass_params__
        cls.__dataclass_fields__ = fields = standard.__dataclass_fields__
        return fields


def _standard(cls: type[Any], defaults: dict[str, Any]) -> Any:
    """The standard library's dataclass of the same fields."""
    import dataclasses

    inside = {"__annotations__": cls.__annotations__, "__module__": cls.__module__}
    for name, default in defaults.items():
        inside[name] = dataclasses.field(default_factory=default.make) if isinstance(default, _Factory) else default
    return dataclasses.dataclass(frozen=True, repr=False, eq=False)(type(cls.__name__, (), inside))
