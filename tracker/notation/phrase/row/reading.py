"""What one row said so far: its items, its counts, the side that faces.

The readers of phrases and brackets add to it; nothing is taken back.
"""

import re

from tracker.expressions import expression
from tracker.notation.tree import Group, Item, Prose, Repeat, Say, Stated, Travel, Work
from tracker.problems import Source
from tracker.records import replace

_FACING = expression(r"\bfac(?:ing|es)\b", re.IGNORECASE)
_RIGHT = expression(r"\b(?:RS|right side)\b", re.IGNORECASE)
_WRONG = expression(r"\b(?:WS|wrong side)\b", re.IGNORECASE)
_OF_TWO = expression(r"\b(?:together|each|both|away|inside|in)\b", re.IGNORECASE)
"""Where two pieces, or a side that is not seen, are told of."""


class Reading:
    """Items of one row, with the counts stated in it."""

    __slots__ = ("again", "items", "kept", "side", "stars", "stated", "told_after", "unread")

    def __init__(self) -> None:
        self.items: list[Item] = []
        """Everything worked and told, in the order written."""
        self.stated: list[Stated] = []
        """The counts told, in the order written."""
        self.side: str | None = None
        """"RS" or "WS"; None when not said."""
        self.again = False
        """True when the row began by naming the rows it repeats, so that a count may follow with nothing worked."""
        self.unread = False
        """True when a phrase could not be read."""
        self.kept: dict[str, tuple[Item, ...]] = {}
        """What each star began, for a later phrase that goes back to it once more."""
        self.stars = 0
        """Stars met so far."""
        self.told_after: list[int] = []
        """For each count: how many items the row had when it was told."""

    def tell(self, stated: Stated) -> None:
        """Adds a count."""
        self.stated.append(stated)
        self.told_after.append(len(self.items))

    def faces(self, source: Source) -> str | None:
        """The side that words before the first stitch say is facing: "With WS facing, join yarn in first st"."""
        for item in self.items:
            if isinstance(item, Say) and _FACING.search(words := source.words(item.span)):
                right, wrong = _RIGHT.search(words), _WRONG.search(words)
                return (
                    None if bool(right) == bool(wrong) or _OF_TWO.search(words) else "RS" if right else "WS"
                )
            if not isinstance(item, Say | Travel):
                return None
        return None

    def settle(self) -> None:
        """Counts told in mid-row, with work still to come, are not the row's."""
        for k, after in enumerate(self.told_after):
            if any(
                isinstance(i, (Work, Group, Repeat)) and not (isinstance(i, Work) and i.stitch == "slst")
                for i in self.items[after:]
            ):
                self.stated[k] = replace(self.stated[k], partial=True)
        if self.unread:
            # beside words that nobody knows, what goes on as set is not known either
            self.items = [replace(i, as_set=None) if isinstance(i, Prose) else i for i in self.items]
        last = self.stated[-1] if self.stated else None
        summed = last is not None and sum(told.counts[0][1] for told in self.stated[:-1]) == last.counts[0][1]
        for k, told in enumerate(self.stated[:-1]):
            if last is not None and _how_often(told, last) and self.told_after[k] == self.told_after[-1]:
                # "inc (6) = 12": how often, and then how many there are
                self.stated[k] = replace(told, partial=True)
            behind = summed or self.told_after[k] < self.told_after[-1]
            if last is not None and behind and _part_of(told, last):
                # "… 2 sc in each row end (60 sc); join. (248 sc)": of the last edge, and of the whole
                self.stated[k] = replace(told, partial=True)


def _how_often(told: Stated, whole: Stated) -> bool:
    """True for a number alone that goes evenly into a greater count behind it."""
    if told.change or whole.change or len(told.counts) != 1 or len(whole.counts) != 1:
        return False
    (name, often), (_, many) = told.counts[0], whole.counts[0]
    return not name and 1 < often < many and many % often == 0


def _part_of(told: Stated, whole: Stated) -> bool:
    """True when a count of one kind is less than a later one of the same kind."""
    if told.change or whole.change or len(told.counts) != 1 or len(whole.counts) != 1:
        return False
    return told.counts[0][0] == whole.counts[0][0] and told.counts[0][1] < whole.counts[0][1]
