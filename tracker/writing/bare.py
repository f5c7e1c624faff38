"""Two readings compared for what they say, not for where it stood.

Any value of the tree comes in; what goes out is equal for two values that say the same.
"""

import dataclasses
from collections.abc import Mapping, Sequence
from enum import Enum

from tracker.notation.tree import Say

_OF_THE_TEXT = frozenset(("span", "told_at", "label_span"))

Bare = tuple[object, ...] | str | int | bool | None


def bare(value: object, renamed: Mapping[str, str] | None = None) -> Bare:
    """A value of the tree without its spans; of words that are only told, only what kind they are.

    `renamed` gives names of the pattern's own that go by another one here.
    """
    if value is None or isinstance(value, (int, bool)):
        return value
    if isinstance(value, str):
        return renamed.get(value, value) if renamed else value
    if isinstance(value, Enum):
        return value.name
    if isinstance(value, Say):
        return ("Say", value.kind)
    if isinstance(value, range):
        return ("numbers", value.start, value.stop)
    if isinstance(value, Sequence):
        if (
            len(value) > 1
            and all(isinstance(each, int) for each in value)
            and value[-1] - value[0] == len(value) - 1
        ):
            return ("numbers", value[0], value[-1] + 1)
        return tuple(bare(each, renamed) for each in value)
    return (type(value).__name__, *(bare(getattr(value, name), renamed) for name in _fields(value)))


def _fields(value: object) -> tuple[str, ...]:
    kind = type(value)
    known = _FIELDS.get(kind)
    if known is None:
        fields = dataclasses.fields(kind) if dataclasses.is_dataclass(kind) else ()
        known = _FIELDS[kind] = tuple(each.name for each in fields if each.name not in _OF_THE_TEXT)
    return known


_FIELDS: dict[type, tuple[str, ...]] = {}
"""For each kind of value: the fields that say something, found once."""
