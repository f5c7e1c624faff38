"""A part of the tree with its spans moved: the same words, as they would stand elsewhere in the text.

Any value of the tree comes in; an equal one goes out, save for the spans. What holds no span is given back as it is,
and what stood in several places stays one value.
"""

from dataclasses import fields, is_dataclass
from typing import Any, TypeVar

from tracker.problems import Span

V = TypeVar("V")


def moved(value: V, by: int, beyond: int = 0) -> V:
    """The value with all spans moved by so many characters, those that start before `beyond` left where they are.

    >>> moved((Span(3, 5), "dc"), 10)
    (Span(start=13, end=15), 'dc')
    """
    return _moved(value, by, beyond, {})  # type: ignore[no-any-return]


_LEAVES = frozenset((str, int, bool, float, type(None)))
_NAMES: dict[type, tuple[str, ...]] = {}
"""Fields of a class of the tree, in the order its constructor takes them; none for any other class."""


def _names(kind: type) -> tuple[str, ...]:
    found = _NAMES.get(kind)
    if found is None:
        found = _NAMES[kind] = tuple(field.name for field in fields(kind)) if is_dataclass(kind) else ()
    return found


def _moved(value: Any, by: int, beyond: int, done: dict[int, Any]) -> Any:
    kind = type(value)
    if kind is Span:
        return Span(value.start + by, value.end + by) if value.start >= beyond else value
    if kind is tuple:
        parts = [part if type(part) in _LEAVES else _moved(part, by, beyond, done) for part in value]
        return tuple(parts) if any(a is not b for a, b in zip(parts, value, strict=True)) else value
    names = _names(kind)
    if not names:
        return value
    found = done.get(id(value))
    if found is None:
        held = [getattr(value, name) for name in names]
        parts = [part if type(part) in _LEAVES else _moved(part, by, beyond, done) for part in held]
        found = kind(*parts) if any(a is not b for a, b in zip(parts, held, strict=True)) else value
        done[id(value)] = found
    return found
