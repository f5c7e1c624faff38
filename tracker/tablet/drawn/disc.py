"""Rounds around their middle as SVG: the chart's own drawing, with the place lit.

A Disc and what of it is done come in, SVG as text goes out. Done is drawn in full, in hand is heavy on a lit ground
with a mark over it, to come is dashed. A band around the round in hand tells from afar how much of it is done: filled,
broader at the place, hollow where it is to come, parted where a repeat begins, with an arrow where the round does.
"""

from html import escape
from math import ceil, degrees

from tracker.charts.drawing import Mark, Path, Shape, Use
from tracker.charts.outline import CIRCLE, FULL, Outline, at, extent
from tracker.fabric.model import HIDDEN
from tracker.looks.around import Disc, Ring, state_of
from tracker.session.seen.lying import Around

_MOST_MARKS = 420
"""Signs that are drawn; of what has more the earliest rounds are left out."""
_AIR = 5.0
"""Points from the round in hand to the band around it."""
_BAND, _BROADER, _EDGE = 0.035, 0.02, 0.13
"""How broad the band is, how much more at the place, and how far the drawing goes beyond the round, in radii of it."""
_STEP = 0.12
"""Radians from one point of a bow to the next."""


def disc_drawn(disc: Disc, around: Around) -> str:
    """All of it, or as many of the newest rounds as can be followed."""
    shown = [disc.rings[0]]
    many = _many(disc.rings[0])
    for ring in disc.rings[1:]:
        many += _many(ring)
        if many > _MOST_MARKS:
            break
        shown.append(ring)
    signs: dict[str, str] = {}
    hand = shown[0]
    out: list[str] = []
    for ring in reversed(shown[1:]):
        marks = "".join(
            _mark(mark, signs) for span in ring.stood.spans for mark in disc.marks[span[0] : span[1]]
        )
        out.append(f'<g class="under done">{marks}</g>')
    if len(shown) == len(disc.rings) and not disc.hollow:
        out.insert(0, '<circle class="ring" r="4.5"/>')
    out.append(_in_hand(disc, hand, around, signs))
    defined = "".join(f'<g id="{name}">{shapes}</g>' for name, shapes in _defined(disc, signs))
    left, top, right, bottom = extent(hand.line, hand.outer * (1 + _EDGE) + _AIR)
    mirror = "scale(-1,1) " if disc.mirrored else ""
    turn = f"rotate({-degrees(disc.turned):.2f})" if disc.turned else ""
    whole = f'<g transform="{mirror}{turn}">' if mirror or turn else "<g>"
    across = right - left
    left = -right if disc.mirrored else left
    return (
        f'<svg class="round" viewBox="{left:.1f} {top:.1f} {across:.1f} {bottom - top:.1f}" role="img"'
        f' aria-label="{escape(_words(hand, around))}">'
        f"<defs>{defined}</defs>{whole}{''.join(out)}</g></svg>"
    )


def _many(ring: Ring) -> int:
    return sum(end - begin for begin, end in ring.stood.spans)


def _words(hand: Ring, around: Around) -> str:
    """The round in hand for who cannot see it."""
    done = sum(state_of(around, True, stitch.at) == "done" for stitch in hand.stitches)
    way = "against the clock" if hand.way > 0 else "with the clock"
    return f"{hand.label}, worked {way}: {done} of {len(hand.stitches)} done"


def _in_hand(disc: Disc, ring: Ring, around: Around, signs: dict[str, str]) -> str:
    """The round in hand: what lies under the place, each stitch in its state, the band around all, the mark."""
    out: list[str] = []
    states = {stitch.at: state_of(around, True, stitch.at) for stitch in ring.stitches}
    lit = [nth for nth, stitch in enumerate(ring.stitches) if states[stitch.at] == "now"]
    if lit:
        begin, end = ring.bounds[lit[0]], ring.bounds[lit[-1] + 1]
        near, far = _bow(ring, begin, end, ring.inner - 2), _bow(ring, end, begin, ring.outer + 3)
        out.append(f'<path class="lit" d="M{"L".join(near + far)}z"/>')
    before = ""
    gathered: list[str] = []
    for at_element, (first, end_mark) in enumerate(ring.stood.spans):
        # A turning chain that does not count is done with the first stitch.
        hidden = ring.stood.worked.elements[at_element].kind == HIDDEN
        state = ("done" if around.made or not around.in_hand else "coming") if hidden else states[at_element]
        if state != before and gathered:
            out.append(f'<g class="{before}">{"".join(gathered)}</g>')
            gathered = []
        before = state
        gathered += [_mark(mark, signs) for mark in disc.marks[first:end_mark]]
    out.append(f'<g class="{before}">{"".join(gathered)}</g>')
    out += _band(ring, states)
    if lit:
        middle = (ring.bounds[lit[0]] + ring.bounds[lit[-1] + 1]) / 2
        out.append(_arrow(ring, middle))
    return f'<g class="hand">{"".join(out)}</g>'


def _band(ring: Ring, states: dict[int, str]) -> list[str]:
    """Bows around the round in hand, one for each run of stitches in one state and one pass of a repeat."""
    out: list[str] = []
    start = 0
    for nth in range(1, len(ring.stitches) + 1):
        here = ring.stitches[start]
        if nth < len(ring.stitches):
            other = ring.stitches[nth]
            if states[here.at] == states[other.at] and not other.edge:
                continue
        begin, end = ring.bounds[start], ring.bounds[nth]
        inset = min(0.2 * (end - begin), 2.5 / max(ring.outer, 1.0))
        near, far = _band_at(ring, states[here.at] == "now")
        points = _bow(ring, begin + inset, end - inset, near) + _bow(ring, end - inset, begin + inset, far)
        out.append(f'<path class="band {states[here.at]}" d="M{"L".join(points)}z"/>')
        start = nth
    first = (ring.bounds[0] + ring.bounds[-1] - FULL) / 2
    near, far = _band_at(ring, True)
    half = (far - near) / 2 / max(ring.outer, 1.0)
    back, tip = first - half, first + half
    points = [
        _bow(ring, turn, turn, reach)[0]
        for turn, reach in ((back, near), (back, far), (tip, (near + far) / 2))
    ]
    out.append(f'<path class="way" d="M{"L".join(points)}z"/>')
    return out


def _band_at(ring: Ring, broader: bool) -> tuple[float, float]:
    """How far out the band begins and ends."""
    near = ring.outer + _AIR
    return near, near + ring.outer * (_BAND + (_BROADER if broader else 0.0))


def _arrow(ring: Ring, along: float) -> str:
    """A mark that points at the place from outside."""
    near, far = _band_at(ring, True)
    half = 0.04
    tip = _bow(ring, along, along, far + 0.01 * ring.outer)
    wide = [_bow(ring, turn, turn, near + _EDGE * ring.outer)[0] for turn in (along - half, along + half)]
    return f'<path class="mark" d="M{"L".join((tip[0], *wide))}z"/>'


def _bow(ring: Ring, begin: float, end: float, reach: float) -> list[str]:
    """Points along a ring, as it stands on the chart."""
    line: Outline = ring.line or CIRCLE
    steps = max(1, ceil(abs(end - begin) / _STEP))
    turns = [begin + (end - begin) * nth / steps for nth in range(steps + 1)]
    if line.corners:
        # A corner between two points must not be cut off.
        low, high = min(begin, end), max(begin, end)
        corners = [(nth - 0.5) * FULL / line.corners for nth in range(-2 * line.corners, 3 * line.corners)]
        turns += [turn for turn in corners if low < turn < high]
        turns.sort(reverse=end < begin)
    way = ring.stood.way
    points = [at(line, way * turn - ring.turned, reach) for turn in turns]
    return [f"{x:.1f},{y:.1f}" for x, y in points]


def _mark(mark: Mark, signs: dict[str, str]) -> str:
    """One of the chart's marks."""
    if isinstance(mark, Use):
        a, b, c, d, e, f = mark.matrix
        name = signs.setdefault(mark.symbol, f"s{len(signs)}")
        figures = ",".join(f"{figure:.3g}" for figure in (a, b, c, d))
        return f'<use href="#{name}" transform="matrix({figures},{e:.1f},{f:.1f})"/>'
    if isinstance(mark, Shape):
        return f'<path class="s" d="{_written(mark.path)}"/>'
    return ""


def _defined(disc: Disc, signs: dict[str, str]) -> list[tuple[str, str]]:
    """The chart's signs, each once."""
    out = []
    for symbol, name in signs.items():
        shapes = "".join(
            f'<path class="{"f" if shape.fill else "s"}" d="{_written(shape.path)}"/>'
            for shape in disc.symbols.symbols[symbol].shapes
        )
        out.append((name, shapes))
    return out


def _written(path: Path) -> str:
    return "".join(letter + ",".join(f"{figure:.4g}" for figure in figures) for letter, figures in path)
