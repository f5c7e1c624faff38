"""The link as a code for a tablet's camera, in a terminal's half blocks. A link comes in, lines of equal width go out.

The light squares are the blocks, so that it reads the right way round in light letters on a dark ground. The
margin of four squares that the standard asks for (ISO/IEC 18004) is part of it.
"""

from functools import lru_cache

_MARGIN = 4
_HALVES = {(1, 1): "█", (1, 0): "▀", (0, 1): "▄", (0, 0): " "}


@lru_cache(maxsize=2)
def code(link: str) -> tuple[str, ...]:
    """The lines; none when what draws them is not installed."""
    try:
        import segno
    except ImportError:
        return ()
    made = segno.make(link, error="l", micro=False, boost_error=True)
    light = [[0 if dark else 1 for dark in row] for row in made.matrix_iter(scale=1, border=_MARGIN)]
    if len(light) % 2:
        light.append([1] * len(light[0]))
    return tuple(
        "".join(_HALVES[pair] for pair in zip(above, below, strict=True))
        for above, below in zip(light[::2], light[1::2], strict=True)
    )
