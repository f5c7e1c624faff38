"""Charts as PNG: the SVG, painted by resvg. It needs no font, since every word is strokes already.

Sheets come in, bytes go out. A picture larger than most programs open is made smaller, never refused.
"""

from tracker.charts.drawing import Sheet
from tracker.charts.media.page import composed
from tracker.charts.media.svg import text_of

SHARP = 2.0
"""Pixels a point."""
LONGEST = 12_000
"""Pixels; longer sides are made shorter."""
MOST = 60_000_000
"""Pixels in all."""


def png(sheets: tuple[Sheet, ...]) -> bytes:
    """The sheets as one picture on white."""
    import resvg_py

    drawing = composed(sheets)
    scale = min(SHARP, LONGEST / max(drawing.width, drawing.height))
    scale = min(scale, (MOST / (drawing.width * drawing.height)) ** 0.5)
    # resvg reads "pt" as 4/3 of a pixel; the size wanted is said in pixels, so that no rounding creeps in.
    size = max(1, round(drawing.width * scale)), max(1, round(drawing.height * scale))
    return bytes(
        resvg_py.svg_to_bytes(
            svg_string=text_of(drawing), width=size[0], height=size[1], dpi=96.0, skip_system_fonts=True
        )
    )
