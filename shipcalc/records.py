"""`dataclass` for the frozen classes of this program: the standard one, made in a third of the time.

The standard one writes and compiles six functions for every frozen class, which was a quarter of the time from the command to its
answer. Here one is written, `__init__`, which differs from class to class; comparing, hashing, showing and refusing to be changed
are the same for all and stand below once. Fields, defaults, slots, `replace` and `asdict` are the standard library's own.
"""

from collections.abc import Callable
from dataclasses import MISSING, FrozenInstanceError, fields
from inspect import ismemberdescriptor
from operator import attrgetter
from typing import TYPE_CHECKING, Any

__all__ = ["dataclass"]

if TYPE_CHECKING:
    from dataclasses import dataclass  # what a type checker sees is the standard one
else:
    from dataclasses import dataclass as _standard

    def dataclass(cls=None, /, *, frozen=False, eq=True, order=False, **wishes):
        """Return the class as a dataclass; what is not frozen, or is ordered, is left to the standard decorator."""
        if cls is None:
            return lambda cls: dataclass(cls, frozen=frozen, eq=eq, order=order, **wishes)
        if order or not frozen:
            return _standard(cls, frozen=frozen, eq=eq, order=order, **wishes)
        own = set(vars(cls))
        made = _standard(cls, init=False, repr=False, eq=False, **wishes)
        made.__init__ = _init_of(made)
        shared = _SHARED if not eq else _SHARED | {"__eq__": _equal, "__hash__": _hash}
        for name, function in shared.items():
            if name not in own:
                setattr(made, name, function)
        made.__compared__ = _getter([field.name for field in fields(made) if field.compare])
        return made


def _init_of(made: type) -> Callable[..., None]:
    """Return the one function that is written for the class; it fills the slots themselves: the class refuses assignment."""
    names: dict[str, Any] = {"_new": object, "_assign": object.__setattr__}
    places: list[str] = []
    named: list[str] = []
    body: list[str] = []
    for field in fields(made):
        if not field.init:
            continue  # `__post_init__` fills it
        name, given = field.name, field.name
        if field.default is not MISSING:
            names[f"_default_{name}"] = field.default
            given = f"{name}=_default_{name}"
        elif field.default_factory is not MISSING:
            names[f"_make_{name}"] = field.default_factory
            given = f"{name}=_new"
            body.append(f" if {name} is _new: {name} = _make_{name}()")
        (named if field.kw_only else places).append(given)
        slot = getattr(made, name, None)
        if ismemberdescriptor(slot):
            names[f"_set_{name}"] = slot.__set__
            body.append(f" _set_{name}(self, {name})")
        else:
            body.append(f" _assign(self, {name!r}, {name})")
    if hasattr(made, "__post_init__"):
        body.append(" self.__post_init__()")
    arguments = ", ".join(["self", *places, *(["*", *named] if named else [])])
    exec(f"def __init__({arguments}):\n" + ("\n".join(body) or " pass"), names)  # noqa: S102 - as dataclasses does
    init: Callable[..., None] = names["__init__"]
    init.__qualname__ = f"{made.__qualname__}.__init__"
    init.__annotations__ = {field.name: field.type for field in fields(made) if field.init} | {"return": None}
    return init


def _getter(names: list[str]) -> Callable[[Any], Any]:
    return attrgetter(*names) if names else lambda _: ()


def _equal(self: Any, other: Any) -> bool:
    if other.__class__ is not self.__class__:
        return NotImplemented  # type: ignore[no-any-return]
    compared = self.__class__.__compared__
    return bool(compared(self) == compared(other))


def _hash(self: Any) -> int:
    return hash(self.__class__.__compared__(self))


def _repr(self: Any) -> str:
    shown = ", ".join(f"{field.name}={getattr(self, field.name)!r}" for field in fields(self) if field.repr)
    return f"{self.__class__.__qualname__}({shown})"


def _refuse_change(self: object, name: str, value: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_delete(self: object, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _state(self: Any) -> list[Any]:
    return [getattr(self, field.name) for field in fields(self)]


def _set_state(self: Any, state: list[Any]) -> None:
    for field, value in zip(fields(self), state, strict=True):
        object.__setattr__(self, field.name, value)


_SHARED: dict[str, Callable[..., Any]] = {
    "__repr__": _repr,
    "__setattr__": _refuse_change,
    "__delattr__": _refuse_delete,
    "__getstate__": _state,
    "__setstate__": _set_state,
}
