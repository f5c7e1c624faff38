"""The group in hand, as large as the room allows, with what is said of it, which beat it is and what follows.

Comes in: a View, what was said last, and the room. Goes out: exactly so many lines.
"""

import re

from tracker.screen.drawing.letters import SIZES, big
from tracker.screen.drawing.words import Line, apart, clipped, filled, lines_of, shown, width_of
from tracker.session.seen.view import View, hand_of, tally_of, then_of, told_of

_TALL, _THEN_ROWS = 20, 4
"""From so many lines for the group on, what follows is drawn large, in so many."""
_ASIDE = re.compile(r"\s*\([^()]*\)")
_LABEL = re.compile(r"(?:[A-Za-z-]+ ){0,4}[A-Za-z-]+")
"""What a group is called before a colon, as long as it is short: "Window and two blocks"."""


def group(view: View, said: str, width: int, height: int) -> tuple[Line, ...]:
    """As many lines as there is room: the group first, at the foot what is said and what follows.

    Each has its place however long the others are; only what is said at length takes lines from the group.
    """
    inside = width - 4
    told = shown(_told(view, said))
    least = 1 if height < 9 else 2 if height < 14 else 3
    words = lines_of(told, inside, max(2, height - 1 - SIZES[-1].rows))
    words = (*words, *[""] * (least - len(words)))
    room = height - len(words) - 1
    large = _large(view, tally_of(view), inside, room)
    then_rows = 1
    if height >= _TALL:
        # What follows is drawn large, too, unless that would make the group smaller.
        with_both = _large(view, tally_of(view), inside, room + 1 - _THEN_ROWS)
        if _inked(with_both) == _inked(large):
            then_rows = _THEN_ROWS
    then = _then(view, width, then_rows)
    room = height - len(words) - then_rows
    if large is None:
        large = lines_of(shown(_in_hand(view)), inside, max(1, room))
    blank: Line = ((" " * width, "ground"),)
    above = 1 if room - len(large) > 1 or room - len(large) == 1 and height > 9 else 0
    lines = [blank] * above
    lines += [filled((("  ", "ground"), (line, "big")), width) for line in large]
    lines += [blank] * max(0, room - len(lines))
    lines += [filled((("  ", "ground"), (line, "said")), width) if line else blank for line in words]
    return (*lines, *then)[:height]


def _inked(rows: tuple[str, ...] | None) -> tuple[str, ...]:
    """The letters without the rows between them."""
    return tuple(row.rstrip() for row in rows or () if row.strip())


def _told(view: View, said: str) -> str:
    """What is said; of a question that waits, what goes before it, for the question itself is drawn large."""
    told = told_of(view, said)
    return told.removesuffix(view.asked).strip() if view.asked else told


def _in_hand(view: View) -> str:
    return view.asked or hand_of(view)


def _large(view: View, tally: str, width: int, height: int) -> tuple[str, ...] | None:
    """The group in big letters, its tally at the right of the last line; without what stands in brackets if need be."""
    hand = _in_hand(view)
    label = view.said.partition(":")[0]
    short = (_ASIDE.sub("", hand), label if _LABEL.fullmatch(label) else hand)
    if view.asked:
        tally, short = "", (hand, hand)
    for words in dict.fromkeys((hand, *short)):
        for size in SIZES:
            rows = big(shown(words).rstrip("."), width, height, (size,))
            if rows is None:
                continue
            count = big(tally.replace(" of ", "/"), width, height, (size,)) if tally else None
            return rows if count is None else _beside(rows, count, width, height) or rows
    return None


def _beside(rows: tuple[str, ...], count: tuple[str, ...], width: int, height: int) -> tuple[str, ...] | None:
    """The tally at the right end of the last line of letters, or under it; None when there is no room."""
    wide = max(map(len, count))
    tail = len(count)
    used = max(len(row.rstrip()) for row in rows[-tail:])
    if len(rows) >= tail and used + wide + 4 <= width:
        kept = rows[: len(rows) - tail]
        return (
            *kept,
            *(row.rstrip().ljust(width - wide) + mark for row, mark in zip(rows[-tail:], count, strict=True)),
        )
    if len(rows) + tail <= height:
        return (*rows, *(mark.rjust(width) for mark in count))
    return None


def _then(view: View, width: int, rows: int) -> tuple[Line, ...]:
    """What follows, large where there are rows for it; which beat it is at the right end of its last line."""
    blank: Line = ((" " * width, "ground"),)
    if view.asked:
        return (blank,) * rows  # the question is there in large letters, and its answers at the foot
    tally = tally_of(view)
    dots = ""
    if 1 < view.beats <= 12:
        dots = "● " * (view.beat - 1) + "◐ " + "○ " * (view.beats - view.beat)
    then = shown(then_of(view))
    if rows == 1 and width_of(then) + width_of(dots) + width_of(tally) + 8 > width:
        dots = ""  # the figures say the same
    right: Line = ((f"{dots} {tally}  " if tally else "", "beat"),)
    room = width - 4 - width_of(right[0][0])
    large = big(then.rstrip("."), room, rows, SIZES[-1:]) if then and rows >= SIZES[-1].rows else None
    *above, last = large or (*[""] * (rows - 1), clipped(then, room - 2))
    lines = [filled((("  ", "ground"), (line, "then")), width) if line else blank for line in above]
    return (*lines, apart((("  ", "ground"), (last, "then")), right, width))
