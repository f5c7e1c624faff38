"""What a step has come to, for an ear that knows a tone sooner than a sentence.

The session before a step and after it come in; an Edge, or None, goes out.
"""

from enum import Enum

from tracker.program.places import Place, Program, Stride
from tracker.session.wording.places import TALLY


class Edge(Enum):
    """What is crossed."""

    ROW_END = "row end"
    REPEAT = "repeat"
    """The last pass of a repeat begins, or another pass of a long one."""
    TALLY = "tally"
    """Ten more single stitches."""


def edge_at(program: Program, place: Place, stride: Stride) -> Edge | None:
    """What the step to a place has come to."""
    if program.is_count(place):
        return Edge.ROW_END
    if stride is Stride.STITCH and place[6] and (place[6] + 1) % TALLY == 0:
        return Edge.TALLY
    breath = program.breath(place)
    if breath is None or stride is Stride.ROW or place[6]:
        return None
    if len(breath.beats) > 1 and place[5] == len(breath.beats) - 1:
        return Edge.REPEAT
    before = program.breaths(place[2])[place[4] - 1].path if place[4] else ()
    begins = place[5] == 0 and any(
        before[depth : depth + 1] != mine and mine[0][1] > 0
        for depth, mine in enumerate((one,) for one in breath.path)
    )
    return Edge.REPEAT if begins else None
