"""One way of reading a phrase: how it reads, and what such a phrase may begin with."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.scan import T
from tracker.notation.tree import Item
from tracker.records import dataclass

TYPE_CHECKING = False  # as type checkers have it; typing itself is slow to load
if TYPE_CHECKING:
    from collections.abc import Callable

    Read = Callable[[Cursor, Reading, list[Item]], bool]
    """Adds what it reads to the items and says True; False with the cursor where it was."""


@dataclass(frozen=True, slots=True)
class Way:
    """How one kind of phrase is read."""

    read: "Read"
    words: frozenset[str] = frozenset()
    """First words of such phrases; empty when they may begin with any."""
    kinds: frozenset[T] = frozenset()
    """Kinds of their first token; empty when it may be any."""

    def may_begin(self, word: str, kind: T) -> bool:
        """True for a phrase that could be of this kind."""
        return (not self.words or word in self.words) and (not self.kinds or kind in self.kinds)


def by_items(read: "Callable[[Cursor, list[Item]], bool]") -> "Read":
    """A way that needs nothing of the row but its items."""

    def way(c: Cursor, reading: Reading, items: list[Item]) -> bool:
        return read(c, items)

    return way
