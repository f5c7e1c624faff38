"""What the page is told at each step: a View comes in, words and one drawing go out, ready to be shown.

Words are text and never markup; the drawing is SVG in which every word of a pattern is escaped.
"""

from tracker.looks.around import disc, lies_round
from tracker.looks.rows import strips
from tracker.records import dataclass
from tracker.session.view import View, counted_of, hand_of, tally_of, then_of, told_of, where_of
from tracker.tablet.disc import disc_drawn
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
    as_rows: bool = False
    """True when rounds are to be drawn as rows."""


def told(seen: Seen) -> dict[str, object]:
    """The step as the page takes it, every time in full: a page that was asleep needs nothing else."""
    view = seen.view
    counted = counted_of(view)
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
        "round": lies_round(view.around, seen.mirrored) and not seen.as_rows,
        "fabric": _fabric(seen, counted),
    }


def _fabric(seen: Seen, counted: str) -> str:
    """The drawing."""
    view = seen.view
    if view.joining is not None:
        return seams(view.joining)
    found = disc(view.around, seen.mirrored) if not seen.as_rows else None
    if found is not None and view.around is not None:
        return disc_drawn(found, view.around)
    rows = strips(view.row, view.cells, counted, view.below, seen.mirrored)
    return drawn((rows if view.row else rows[1:])[:_ROWS])
