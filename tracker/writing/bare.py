"""Two readings compared for what they say, not for where it stood.

Any value of the tree comes in; what goes out is equal for two values that say the same.
"""

import dataclasses
from collections.abc import Hashable, Sequence
from enum import Enum
from functools import lru_cache

from tracker.notation.tree import Say

_OF_THE_TEXT = frozenset(("span", "told_at", "label_span"))

Bare = tuple[object, ...] | str | int | bool | None


def bare(value: object) -> Bare:
    """A value of the tree without its spans; of words that are only told, only what kind they are."""
    if value is None or isinstance(value, (str, int, bool)):
        return value
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
        return tuple(bare(each) for each in value)
    return (type(value).__name__, *(bare(getattr(value, name)) for name in _fields(type(value))))


@lru_cache(maxsize=64)
def _fields(kind: Hashable) -> tuple[str, ...]:
    fields = dataclasses.fields(kind)  # type: ignore[arg-type]
    return tuple(each.name for each in fields if each.name not in _OF_THE_TEXT)
