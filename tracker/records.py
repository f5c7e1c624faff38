"""Values with named fields: the standard library's dataclasses, made ready in a fortieth of the time.

To whoever reads or type-checks the code, and to `dataclasses.replace`, `fields` and `asdict`, these are dataclasses.
The library writes and compiles six methods for each class when it is defined, which for the kinds of values that a
pattern is read into was a third of what `check` took. Here the constructor of a class is compiled when its first value
is made, and the other methods are the same few functions for all. Held to what this package uses: always slots, no
inheritance of fields, and `frozen` is kept by the type checker, not while the program runs.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from operator import attrgetter

TYPE_CHECKING = False  # the name is enough for type checkers, and typing is slow to import
if TYPE_CHECKING:
    from typing import Any

_NOTHING: Any = object()
"""Stands for a default, or an argument, that is not there."""


class _Field:
    """What `field` says of one field."""

    __slots__ = ("compare", "default", "default_factory", "init", "repr")

    def __init__(
        self,
        *,
        default: object = _NOTHING,
        default_factory: Callable[[], object] = _NOTHING,
        init: bool = True,
        repr: bool = True,
        compare: bool = True,
    ) -> None:
        self.default = default
        self.default_factory = default_factory
        self.init = init
        self.repr = repr
        self.compare = compare


def _dataclass(*, frozen: bool = False, slots: bool = False) -> Callable[[type], type]:
    def decorated(cls: type) -> type:
        held = dict(cls.__dict__)
        fields = {name: _as_field(held.pop(name, _NOTHING)) for name in cls.__annotations__}
        for name in ("__dict__", "__weakref__"):
            held.pop(name, None)
        held["__slots__"] = tuple(fields)
        held["__match_args__"] = tuple(name for name, field in fields.items() if field.init)
        made = type(cls.__name__, cls.__bases__, held)
        made.__qualname__ = cls.__qualname__
        _complete(made, fields, frozen)
        return made

    assert slots, "a record has slots: say so, or take the class of the library"
    return decorated


def _as_field(said: object) -> _Field:
    return said if isinstance(said, _Field) else _Field(default=said)


def _complete(cls: Any, fields: Mapping[str, _Field], frozen: bool) -> None:
    """Give a class its methods; those that have to be compiled, in a form that does so when first called."""
    values = _getter([name for name, field in fields.items() if field.compare])

    def __init__(self: object, *given: object, **named: object) -> None:  # noqa: N807
        cls.__init__ = _constructor(cls, fields)
        cls.__init__(self, *given, **named)

    def __replace__(self: object, **changes: object) -> object:  # noqa: N807
        cls.__replace__ = _replacer(cls)
        return cls.__replace__(self, **changes)

    def __eq__(self: object, other: object) -> Any:  # noqa: N807
        if other.__class__ is not cls:
            return NotImplemented
        return self is other or values(self) == values(other)

    def __hash__(self: object) -> int:  # noqa: N807
        return hash(values(self))

    def __repr__(self: object) -> str:  # noqa: N807
        shown = (f"{name}={getattr(self, name)!r}" for name, field in fields.items() if field.repr)
        return f"{cls.__qualname__}({', '.join(shown)})"

    cls.__init__, cls.__replace__ = __init__, __replace__
    cls.__eq__, cls.__hash__ = __eq__, __hash__ if frozen else None
    if "__repr__" not in cls.__dict__:
        cls.__repr__ = __repr__
    cls.__dataclass_fields__ = _AsTheLibrary(fields)


def _getter(names: list[str]) -> Callable[[object], object]:
    return attrgetter(*names) if names else lambda _: ()


def _constructor(cls: type, fields: Mapping[str, _Field]) -> Callable[..., None]:
    """`__init__`, with a plain assignment for each field."""
    known: dict[str, Any] = {"_NOTHING": _NOTHING}
    taken, body = ["self"], []
    for name, field in fields.items():
        value = name
        if field.default_factory is not _NOTHING:
            known[f"_new_{name}"] = field.default_factory
            value = f"_new_{name}() if {name} is _NOTHING else {name}" if field.init else f"_new_{name}()"
        if field.default is not _NOTHING:
            known[f"_default_{name}"] = field.default
            value = name if field.init else f"_default_{name}"
        if field.init:
            taken.append(name + _default(name, field))
        if field.init or value != name:
            body.append(f"self.{name} = {value}")
    if hasattr(cls, "__post_init__"):
        body.append("self.__post_init__()")
    return _compiled("__init__", taken, body or ["pass"], known)


def _default(name: str, field: _Field) -> str:
    if field.default is not _NOTHING:
        return f"=_default_{name}"
    return "=_NOTHING" if field.default_factory is not _NOTHING else ""


def _replacer(cls: Any) -> Callable[..., object]:
    """`__replace__`: a new value with the changes, all else as it was."""
    names = cls.__match_args__
    taken = ["self", "*", *(f"{name}=_NOTHING" for name in names)] if names else ["self"]
    values = ", ".join(f"self.{name} if {name} is _NOTHING else {name}" for name in names)
    return _compiled("__replace__", taken, [f"return _cls({values})"], {"_NOTHING": _NOTHING, "_cls": cls})


def _compiled(name: str, taken: list[str], body: list[str], known: dict[str, Any]) -> Callable[..., Any]:
    lines = "".join(f"\n    {line}" for line in body)
    exec(f"def {name}({', '.join(taken)}):{lines}", known)
    made: Callable[..., Any] = known[name]
    return made


def _replace(value: Any, /, **changes: object) -> object:
    try:
        made = value.__replace__
    except AttributeError:
        # one of the library's own, before Python 3.13
        import dataclasses

        return dataclasses.replace(value, **changes)
    return made(**changes)


class _AsTheLibrary:
    """`__dataclass_fields__` of a class: worked out by the library when somebody asks it about a record."""

    def __init__(self, fields: Mapping[str, _Field]) -> None:
        self._fields = fields

    def __get__(self, value: object, cls: Any) -> Mapping[str, Any]:
        import dataclasses

        told = []
        for name, field in self._fields.items():
            said: dict[str, Any] = {slot: getattr(field, slot) for slot in _Field.__slots__}
            given = {word: what for word, what in said.items() if what is not _NOTHING}
            told.append((name, cls.__annotations__[name], dataclasses.field(**given)))
        made: Any = dataclasses.make_dataclass(cls.__name__, told, kw_only=True)
        cls.__dataclass_fields__ = made.__dataclass_fields__
        return cls.__dataclass_fields__  # type: ignore[no-any-return]


if TYPE_CHECKING:
    from dataclasses import dataclass, field, replace
else:
    dataclass, field, replace = _dataclass, _Field, _replace

__all__ = ["dataclass", "field", "replace"]
