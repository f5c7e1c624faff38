"""A part of the tree with its spans moved: the same words, as they would stand elsewhere in the text.

Any value of the tree comes in; an equal one goes out, save for the spans. What holds no span is given back as it is,
and what stood in several places stays one value. `Moved` does it when somebody looks: of rows that are printed in
the same words a hundred times, few are ever looked at.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tracker.problems import Span
from tracker.records import replace

TYPE_CHECKING = False  # the name is enough for type checkers, and typing is slow to import
if TYPE_CHECKING:
    from typing import Any, TypeVar, overload

    V = TypeVar("V")
    S = TypeVar("S", covariant=True)


def moved(value: V, by: int, beyond: int = 0) -> V:
    """The value with all spans moved by so many characters, those that start before `beyond` left where they are.

    >>> moved((Span(3, 5), "dc"), 10)
    (Span(start=13, end=15), 'dc')
    """
    return _moved(value, by, beyond, {})  # type: ignore[no-any-return]


class Moved(Sequence["S"]):
    """A tuple with its spans moved once it is looked into; it equals the tuple that it stands for.

    >>> Moved((Span(3, 5), "dc"), 10)
    (Span(start=13, end=15), 'dc')
    """

    __slots__ = ("_beyond", "_by", "_here", "told")

    def __init__(self, told: tuple[S, ...], by: int, beyond: int = 0) -> None:
        self.told = told
        """The values where they stand first."""
        self._by = by
        self._beyond = beyond
        self._here: tuple[S, ...] | None = None

    def _all(self) -> tuple[S, ...]:
        if self._here is None:
            self._here = moved(self.told, self._by, self._beyond)
        return self._here

    if TYPE_CHECKING:

        @overload
        def __getitem__(self, at: int) -> S: ...
        @overload
        def __getitem__(self, at: slice) -> tuple[S, ...]: ...

    def __getitem__(self, at: int | slice) -> S | tuple[S, ...]:
        return self._all()[at]

    def __len__(self) -> int:
        return len(self.told)

    def __iter__(self) -> Iterator[S]:
        return iter(self._all())

    def __eq__(self, other: object) -> bool:
        return self._all() == (other._all() if isinstance(other, Moved) else other)

    def __hash__(self) -> int:
        return hash(self._all())

    def __repr__(self) -> str:
        return repr(self._all())


def as_told(values: Sequence[V]) -> Sequence[V]:
    """The values to ask what they say, not where: their spans are those of whichever row was printed first."""
    return values.told if isinstance(values, Moved) else values


def with_ends(values: Sequence[V]) -> Iterator[tuple[V, int]]:
    """Each of the values as it was first told, and where the words of it end now: nothing is moved to ask that.

    >>> from tracker.notation.tree import Chain
    >>> [end for _, end in with_ends(Moved((Chain(3, Span(3, 5)),), 10))]
    [15]
    """
    by, beyond = (values._by, values._beyond) if isinstance(values, Moved) else (0, 0)
    for value in as_told(values):
        span = value.span  # type: ignore[attr-defined]
        yield value, span.end + (by if span.start >= beyond else 0)


_LEAVES = frozenset((str, int, bool, float, type(None)))
_NAMES: dict[type, tuple[str, ...]] = {}
"""Fields of a class of the tree, in the order its constructor takes them; none for any other class."""


def _names(kind: type) -> tuple[str, ...]:
    found = _NAMES.get(kind)
    if found is None:
        found = _NAMES[kind] = getattr(kind, "__match_args__", ())
    return found


def _moved(value: Any, by: int, beyond: int, done: dict[int, Any]) -> Any:
    kind = type(value)
    if kind is Span:
        return Span(value.start + by, value.end + by) if value.start >= beyond else value
    if kind is Moved:
        value, kind = value[:], tuple
    if kind is tuple:
        parts: list[Any] | None = None
        for at, part in enumerate(value):
            if type(part) not in _LEAVES and (there := _moved(part, by, beyond, done)) is not part:
                parts = list(value) if parts is None else parts
                parts[at] = there
        return value if parts is None else tuple(parts)
    names = _names(kind)
    if not names:
        return value
    found = done.get(id(value))
    if found is None:
        changes = {}
        for name in names:
            part = getattr(value, name)
            if type(part) not in _LEAVES and (there := _moved(part, by, beyond, done)) is not part:
                changes[name] = there
        found = done[id(value)] = replace(value, **changes) if changes else value
    return found


def lies_within(value: Any, start: int, end: int) -> bool:
    """True when every span in a value lies between two places of the text."""
    kind = type(value)
    if kind is Span:
        return bool(start <= value.start and value.end <= end)
    if kind is tuple or kind is Moved:
        return all(lies_within(part, start, end) for part in value)
    return all(lies_within(getattr(value, name), start, end) for name in _names(kind))
