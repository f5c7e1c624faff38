"""What lies under and around a row between its two lines: its colours, the frames of a row and a place that are lit."""

from tracker.charts.drawing import INK, LIT, Mark, Path, Shape, Words
from tracker.charts.layout.colours import Colours, tint
from tracker.charts.layout.flat.drawn import Standing
from tracker.charts.layout.stand import Point
from tracker.charts.signs.symbols import STITCH
from tracker.fabric.model import HIDDEN


def band(standing: Standing, left: float, right: float) -> Path:
    """The row from there to there, along both its lines."""
    inner = sorted({x for line in (standing.line, standing.below) for x in line.xs if left < x < right})
    xs = [left, *inner, right]
    points = [(x, standing.below.at(x)) for x in xs]
    points += [(x, standing.line.at(x)) for x in reversed(xs)]
    return (*((("L" if nth else "M"), point) for nth, point in enumerate(points)), ("Z", ()))


def painted(letters: tuple[str, ...], standing: Standing, colours: Colours) -> list[Mark]:
    """The colours under the signs, and a letter where a colour begins within a row."""
    out: list[Mark] = []
    xs = standing.xs
    mixed = len(set(letters)) > 1
    half = STITCH / 2
    for at, letter in enumerate(letters):
        if not letter or standing.lying.row.elements[at].kind == HIDDEN:
            continue
        left = (xs[at] + xs[at - 1]) / 2 if at and abs(xs[at] - xs[at - 1]) < 3 * STITCH else xs[at] - half
        right = (
            (xs[at] + xs[at + 1]) / 2
            if at + 1 < len(xs) and abs(xs[at + 1] - xs[at]) < 3 * STITCH
            else xs[at] + half
        )
        if at == 0 or at == len(xs) - 1:
            middle = xs[at]
            other = right if at == 0 else left
            left, right = (middle - half, other) if other > middle else (other, middle + half)
        left, right = min(left, right), max(left, right)
        out.append(Shape(band(standing, left - 0.2, right + 0.2), fill=tint(colours.paints[letter])))
        if mixed and (at == 0 or letters[at - 1] != letter):
            out.append(Words(letter, xs[at], standing.line.at(xs[at]) + 6.5, 4.5, "middle", INK))
    return out


def lit_under(standing: Standing, ends: tuple[float, float]) -> Mark:
    """The ground of a row that is lit."""
    return Shape(band(standing, *ends), fill=LIT)


def lit_over(
    standing: Standing, tops: tuple[Point, ...], ends: tuple[float, float], place: int
) -> list[Mark]:
    """A frame around the row, and around the stitch or space of it that is meant."""
    out: list[Mark] = [Shape(band(standing, *ends), stroke=INK, width=2.5)]
    counted = [at for at, element in enumerate(standing.lying.row.elements) if element.counts]
    if 1 <= place <= len(counted):
        at = counted[place - 1]
        element, (x, _) = standing.lying.row.elements[at], tops[at]
        feet = [foot[0] for into in element.into if (foot := _foot(standing, into)) is not None]
        # As the stitch leans: from what it goes into to its top.
        low = sum(feet) / len(feet) if feet and element.is_stitch else x
        half = STITCH / 2
        corners = [(low - half, 1), (low + half, 1), (x + half, -1), (x - half, -1)]
        lines = {1: standing.below, -1: standing.line}
        points = [(along, lines[way].at(along) + way) for along, way in corners]
        frame = (*((("L" if nth else "M"), point) for nth, point in enumerate(points)), ("Z", ()))
        out.append(Shape(frame, stroke=INK, width=3.5))
    return out


def _foot(standing: Standing, into: int) -> Point | None:
    return standing.feet[into] if 0 <= into < len(standing.feet) else None
