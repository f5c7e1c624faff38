"""What the page is told at each step: a View comes in, words and one drawing go out, ready to be shown.

Words are text and never markup; the drawing is SVG in which every word of a pattern is escaped.
"""

from tracker.looks.rows import strips
from tracker.records import dataclass
from tracker.session.view import View, counted_of, hand_of, tally_of, then_of, told_of, where_of
from tracker.tablet.drawing import drawn
from tracker.tablet.seams import seams

_ROWS = 3
"""Rows that are drawn: the one in hand and those under it."""


@dataclass(frozen=True, slots=True)
class Seen:
    """All that is to be seen at a step."""

    view: View
    said: str = ""
    """What was said last."""
    resting: bool = False
    """True while the work is put down."""
    mirrored: bool = False
    """True for a left-handed maker."""


def told(seen: Seen) -> dict[str, object]:
    """The step as the page takes it, every time in full: a page that was asleep needs nothing else."""
    view = seen.view
    counted = counted_of(view)
    rows = strips(view.row, view.cells, counted, view.below, seen.mirrored)
    start, end = view.phrase
    devices = view.devices
    heard = f"heard “{devices.heard}”" if devices.heard else ""
    return {
        "title": view.title,
        "part": view.part,
        "where": where_of(view),
        "repeats": view.repeats,
        "side": view.side,
        "hand": hand_of(view),
        "tally": tally_of(view),
        "beats": [view.beat, view.beats] if 1 < view.beats <= 12 else [],
        "said": told_of(view, seen.said),
        "asked": bool(view.asked),
        "number": view.asks_number,
        "then": then_of(view),
        "counted": counted,
        "words": [view.text[:start], view.text[start:end], view.text[end:]],
        "state": " · ".join(part for part in (devices.ear, heard, devices.pedal) if part),
        "resting": seen.resting,
        "fabric": seams(view.joining)
        if view.joining is not None
        else drawn((rows if view.row else rows[1:])[:_ROWS]),
    }
