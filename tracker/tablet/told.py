"""What the page is told at each step: a View comes in, words and one drawing go out, ready to be shown.

Words are text and never markup; the drawing is SVG in which every word of a pattern is escaped.
"""

from tracker.records import dataclass
from tracker.session.seen.view import View, counted_of, hand_of, tally_of, then_of, told_of, where_of

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
        "round": _lies_round(seen),
        "fabric": _fabric(seen, counted),
    }


def _lies_round(seen: Seen) -> bool:
    """True where rounds lie around their middle, beside the words."""
    around = seen.view.around
    if around is None or seen.as_rows:
        return False
    # What only rounds need is not loaded for a flat piece.
    from tracker.looks.around import lies_round

    return lies_round(around, seen.mirrored)


def _fabric(seen: Seen, counted: str) -> str:
    """The drawing. What draws is loaded when a page follows."""
    from tracker.looks.rows import strips
    from tracker.tablet.drawn.rows import drawn
    from tracker.tablet.drawn.seams import seams

    view = seen.view
    if view.joining is not None:
        return seams(view.joining)
    if view.around is not None and not seen.as_rows:
        from tracker.looks.around import disc
        from tracker.tablet.drawn.disc import disc_drawn

        found = disc(view.around, seen.mirrored)
        if found is not None:
            return disc_drawn(found, view.around)
    rows = strips(view.row, view.cells, counted, view.below, seen.mirrored)
    return drawn((rows if view.row else rows[1:])[:_ROWS])
