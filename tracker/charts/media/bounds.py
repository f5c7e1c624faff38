"""How much room a mark takes. A mark comes in; left, top, right and bottom of it go out."""

from tracker.charts.drawing import Mark, Shape, Symbol, Words, moved
from tracker.charts.signs.letters import length_of


def bounds_of(mark: Mark, symbols: dict[str, Symbol]) -> tuple[float, float, float, float]:
    """The box of its points; of a curve the box of its handles too, which is never too small."""
    if isinstance(mark, Words):
        long = length_of(mark.text, mark.size)
        left = mark.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor] * long
        return left, mark.y - mark.size * 1.1, left + long, mark.y + mark.size * 0.4
    paths = (
        [mark.path]
        if isinstance(mark, Shape)
        else [moved(shape.path, mark.matrix) for shape in symbols[mark.symbol].shapes]
    )
    xs = [value for path in paths for _, figures in path for value in figures[::2]]
    ys = [value for path in paths for _, figures in path for value in figures[1::2]]
    return (min(xs), min(ys), max(xs), max(ys)) if xs else (0.0, 0.0, 0.0, 0.0)
