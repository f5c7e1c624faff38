"""Which way each row runs on a chart, for either hand. Worked rows come in; "left" or "right", where the row
begins, goes out.

A chart shows the right side. A right-handed maker works from right to left on whatever side faces them, so
right-side rows begin at the right of the chart and wrong-side rows at its left; a left-handed maker works and reads
the mirror image. Rounds go counter-clockwise for the right hand (common practice, no source; the same holds for
charts in print).
"""

from collections.abc import Iterable, Iterator

from tracker.fabric.model import Placed

OTHER = {"left": "right", "right": "left"}


def beginnings(rows: Iterable[Placed], left_handed: bool = False) -> Iterator[str]:
    """For each row the side of the chart it begins at."""
    side = "left"
    for nth, placed in enumerate(rows):
        worked = placed.worked
        if worked.side is not None:
            side = "right" if worked.side == "RS" else "left"
        elif nth == 0:
            # A first row of which nothing is said is a right-side row.
            side = "right"
        elif worked.turned:
            side = OTHER[side]
        yield OTHER[side] if left_handed else side
