"""The pieces of a joining as they lie, the seam in hand lit: how many alike become one, in cells.

Comes in: how far the joining is, and the room. Goes out: lines of the room's width. What is joined has a full line
between, what is in hand a double one, what is to come a dotted one, so that more than colour tells.
"""

from tracker.program.joining import Joining, joints_of
from tracker.screen.drawing.words import Line, Run, filled

_SIGNS = {"done": ("━", "┃"), "now": ("═", "║"), "coming": ("┄", "┊")}
"""Of a seam that runs across, and of one that runs down."""


def seams(joining: Joining, width: int, height: int) -> tuple[Line, ...]:
    """As many rows of pieces as there is room for, the pair in hand among them."""
    layout = joining.layout
    cell = len(str(layout.down * layout.across)) + 4
    joints = joints_of(layout)
    state = {
        pair: "now" if nth == joining.joint else "done" if nth < joining.joint else "coming"
        for nth, joint in enumerate(joints)
        for pair in joint.pairs
    }
    lit = {piece for pair, told in state.items() if told == "now" for piece in pair}
    across, down = min(layout.across, max(1, (width - 2) // (cell + 1))), min(layout.down, (height + 1) // 2)
    nearest = max(0, min(lit, default=1) - 1)
    # What is joined is seen above the pair in hand; of a seam that runs down, what comes next as well.
    lowest = (max(lit, default=1) - 1) // layout.across
    further = 1 if joining.now is not None and not joining.now.across else 0
    top = max(0, min(layout.down - down, lowest + further - down + 1))
    left = max(0, min(layout.across - across, nearest % layout.across - across // 2))
    pad = (width - across * (cell + 1) + 1) // 2
    out: list[Line] = []
    for row in range(top, top + max(1, down)):
        numbers = [row * layout.across + at + 1 for at in range(left, left + across)]
        if row > top:
            out.append(_line(_rule(numbers, layout.across, state, cell), pad, width))
        out.append(_line(_pieces(numbers, state, lit, cell), pad, width))
    return tuple(out[: max(0, height)])


def _pieces(numbers: list[int], state: dict[tuple[int, int], str], lit: set[int], cell: int) -> list[Run]:
    runs: list[Run] = []
    for nth, number in enumerate(numbers):
        if nth:
            told = state[(number - 1, number)]
            runs.append((_SIGNS[told][1], told))
        words = f"[{number}]" if number in lit else str(number)
        runs.append((words.center(cell), "stitch now" if number in lit else "done"))
    return runs


def _rule(numbers: list[int], wide: int, state: dict[tuple[int, int], str], cell: int) -> list[Run]:
    """The seam between a row of pieces and the one above it."""
    runs: list[Run] = []
    for nth, number in enumerate(numbers):
        told = state[(number - wide, number)]
        runs += [(" ", "ground")] if nth else []
        runs.append((_SIGNS[told][0] * cell, told))
    return runs


def _line(runs: list[Run], pad: int, width: int) -> Line:
    return filled(((" " * pad, "ground"), *runs), width)
