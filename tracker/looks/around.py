"""Rounds as they lie in the lap, around their middle: which place each stitch has on its ring.

Comes in: the View's rounds. Goes out: a Disc, the newest ring first, the round in hand always running the way the
maker's hands do, counter-clockwise for the right hand. The places are the chart's own, so that corners, petals and
increases stand where the fabric has them; a circle in hand begins at the bottom. What doesn't change within a round is
worked out once.
"""

from itertools import pairwise
from math import pi

from tracker.charts.drawing import Mark
from tracker.charts.layout.around.corners import Stood
from tracker.charts.layout.around.places import placed_around
from tracker.charts.layout.flat.across import together
from tracker.charts.layout.stand import Brush
from tracker.charts.outline import FULL, Outline
from tracker.fabric.model import HIDDEN, Element, Placed, WorkedRow
from tracker.fabric.model import SP as SPACE
from tracker.records import dataclass
from tracker.session.seen.lying import Around
from tracker.trade.stitches import parts_of

_KEPT = 6
"""Discs that are remembered."""
_LEAST = 1e-3
"""Radians that a stitch has at least."""
_FURTHEST = 0.6
"""Radians that a foot lies aside of its stitch at most; what lies further is another way to match the rounds."""


@dataclass(frozen=True, slots=True)
class Stitch:
    """One thing that stands on a ring."""

    at: int
    """Which element of the round it is."""
    kind: str
    space: bool
    """True for a chain space."""
    joined: bool
    """True when it stands in the same place as the one made before it: an increase, a shell."""
    legs: int
    """More than 1 for so many worked together: a decrease."""
    top: float
    """How far out it reaches, as part of the ring."""
    edge: bool
    """True when a repeat begins with it, or ended before it."""


@dataclass(frozen=True, slots=True)
class Ring:
    """A round."""

    label: str
    number: str
    """The label without its word."""
    line: Outline
    way: int
    """1 for counter-clockwise as it is seen, -1 for clockwise."""
    stitches: tuple[Stitch, ...]
    """In the order made."""
    bounds: tuple[float, ...]
    """Radians from the bottom, in the way it runs, at which each stitch begins, and at which the last one ends."""
    feet: tuple[float, ...]
    """The same at the ring's inner edge, where stitches share what they are worked into."""
    roots: tuple[float, ...]
    """The middle of what each stitch is worked into."""
    inner: float
    """Points from the middle at which it begins on the chart, and ends."""
    outer: float
    turned: float
    """Radians that it lies turned from the chart, counter-clockwise."""
    stood: Stood


@dataclass(frozen=True, slots=True)
class Disc:
    """Rounds around their middle."""

    rings: tuple[Ring, ...]
    """The newest first."""
    hollow: bool
    """True when more than a ring lies in the middle: earlier rounds, or a piece."""
    mirrored: bool
    """True when it lies as the chart's mirror image."""
    turned: float
    """Radians that it lies turned from the chart, counter-clockwise."""
    marks: tuple[Mark, ...]
    """Of the chart; `stood.spans` tells whose each is."""
    symbols: Brush


def state_of(around: Around, newest: bool, at: int) -> str:
    """ "done", "now" or "coming", of an element of a round."""
    if not newest or not around.in_hand or at < around.made:
        return "done"
    return "now" if around.now[0] <= at < around.now[1] else "coming"


def lies_round(around: Around | None, left_handed: bool) -> bool:
    """True where rounds are drawn around their middle, were there any yet: all but those of a tube."""
    return around is not None and not (around.tube and disc(around, left_handed) is None)


_discs: dict[tuple[tuple[int, ...], tuple[str, ...], bool], tuple[tuple[Placed, ...], Disc]] = {}


def disc(around: Around | None, left_handed: bool) -> Disc | None:
    """The rounds around their middle; None where rows are drawn: no rounds yet, or a tube, that has no middle."""
    if around is None or not around.rounds:
        return None
    rows = around.rounds
    key = tuple(id(placed.worked) for placed in rows), tuple(placed.label for placed in rows), left_handed
    found = _discs.get(key)
    if found is None:
        while len(_discs) >= _KEPT:
            del _discs[next(iter(_discs))]
        # The rounds are kept with it, so that no other ones come to have their names.
        found = _discs[key] = rows, _disc(rows, left_handed)
    if around.tube and not any(ring.line.corners for ring in found[1].rings):
        return None
    return found[1]


def _disc(rows: tuple[Placed, ...], left_handed: bool) -> Disc:
    brush = Brush()
    numbers = [placed.label.split()[-1] if placed.number is not None else placed.label[:2] for placed in rows]
    stoods = placed_around(rows, numbers, brush)
    newest = stoods[-1]
    mirrored = left_handed is (newest.way > 0)
    turned = 0.0 if any(stood.line.corners for stood in stoods) else -_begin(newest)
    rings = tuple(
        _ring(placed, number, stood, turned, mirrored)
        for placed, number, stood in reversed(list(zip(rows, numbers, stoods, strict=True)))
    )
    return Disc(rings, stoods[0].hollow, mirrored, turned, tuple(brush.marks), brush)


def _begin(stood: Stood) -> float:
    """The turn at which a round begins and ends: in the middle between its last stitch and its first."""
    return (stood.turns[0] + stood.turns[-1] - stood.way * FULL) / 2 if len(stood.turns) > 1 else 0.0


def _ring(placed: Placed, number: str, stood: Stood, turned: float, mirrored: bool) -> Ring:
    row = placed.worked
    shown = [at for at, element in enumerate(row.elements) if element.kind != HIDDEN]
    # Along the way it is worked; as seen in a mirror both the turns and the way change their sign.
    places = [stood.way * (stood.turns[at] + turned) for at in shown]
    edges = edges_of(row)
    stitches = tuple(
        Stitch(
            at,
            row.elements[at].kind,
            row.elements[at].kind == SPACE,
            nth > 0 and _together(row.elements[shown[nth - 1]], row.elements[at]),
            max(parts_of(row.elements[at].kind)[2], len(row.elements[at].into))
            if row.elements[at].is_stitch
            else 1,
            _top(stood, at),
            at in edges,
        )
        for nth, at in enumerate(shown)
    )
    way = -stood.way if mirrored else stood.way
    bounds = _bounds(places)
    feet = [stood.feet[at] for at in shown]
    under, roots = _footed(bounds, [None if foot is None else stood.way * (foot + turned) for foot in feet])
    return Ring(
        placed.label,
        number,
        stood.line,
        way,
        stitches,
        bounds,
        under,
        roots,
        stood.inner,
        stood.outer,
        turned,
        stood,
    )


def _together(before: Element, element: Element) -> bool:
    """True for two stitches made in one place."""
    if not (before.is_stitch and element.is_stitch):
        return False
    return together(before, element) or len(element.into) == 1 and before.into == element.into


def _top(stood: Stood, at: int) -> float:
    high = (stood.reach[at] - stood.inner) / max(stood.outer - stood.inner, 1.0)
    return max(0.4, min(1.0, high))


def _bounds(places: list[float]) -> tuple[float, ...]:
    """Where each stitch begins, from their middles; the last ends as far behind its middle as it begins before it.

    >>> [round(begin, 2) for begin in _bounds([0.5, 1.5, 2.5])], [round(begin, 2) for begin in _bounds([0.6, 3.0, 6.8])]
    ([0.0, 1.0, 2.0, 3.0], [0.56, 1.8, 4.9, 6.84])
    """
    if not places:
        return ()
    if len(places) == 1:
        return places[0] - pi * 0.9, places[0] + pi * 0.9
    middles = [(a + b) / 2 for a, b in pairwise(places)]
    begin, end = 2 * places[0] - middles[0], 2 * places[-1] - middles[-1]
    if end - begin > FULL:
        # The last stitch and the first one share what there is between them, and each keeps a little of it.
        seam = (places[-1] + places[0] + FULL) / 2
        end = max(seam, middles[-1] + _LEAST)
        begin = min(end - FULL, middles[0] - _LEAST)
        end = min(end, begin + FULL)
    return begin, *middles, end


def _footed(
    bounds: tuple[float, ...], feet: list[float | None]
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Where each stitch begins at the foot, and the middle of the place it goes into; stitches in one place have its
    room together.
    """
    many = len(feet)
    places: list[float] = []
    for nth, foot in enumerate(feet):
        middle = (bounds[nth] + bounds[nth + 1]) / 2
        if foot is None:
            places.append(middle)
            continue
        near = middle + (foot - middle + pi) % FULL - pi
        places.append(near if abs(near - middle) < _FURTHEST else middle)
    out: list[float] = []
    roots: list[float] = []
    start = 0
    for end in range(1, many + 1):
        if end < many and feet[end] is not None and feet[end] == feet[start]:
            continue
        # The room of one place, shared out among all that goes into it.
        begin = (places[start - 1] + places[start]) / 2 if start else bounds[0]
        stop = (places[end - 1] + places[end]) / 2 if end < many else bounds[-1]
        out += [begin + (stop - begin) * nth / (end - start) for nth in range(end - start)]
        roots += [(begin + stop) / 2] * (end - start)
        start = end
    for nth in range(1, len(out)):
        out[nth] = max(out[nth], out[nth - 1])
    return ((*out, max(bounds[-1], out[-1])) if out else ()), tuple(roots)


def edges_of(row: WorkedRow) -> frozenset[int]:
    """Elements with which a pass of a repeat begins, or the first after its last one."""
    out: set[int] = set()
    before: tuple[int, int] | None = None
    for step in row.steps:
        if step.made_to == step.made_from:
            continue
        own = step.path[0][:2] if step.path else None
        if own != before:
            out.add(step.made_from)
        before = own
    return frozenset(out)
