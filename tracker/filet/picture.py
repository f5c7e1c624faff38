"""A grid from a picture: PNG, JPEG and what else Pillow opens, and SVG. A file and a width in squares come in; a
Grid goes out.

Dark is filled. The squares are as wide and high as the gauge says, so that a circle in the picture is a circle in
cotton. Whatever cannot be opened is one sentence.
"""

from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.filet.grid import FILLED, HIGHEST, OPEN, WIDEST, Grid, NoGrid, grid_of

if TYPE_CHECKING:
    from PIL.Image import Image

ENDINGS = (".png", ".jpg", ".jpeg", ".gif", ".bmp", ".webp", ".tif", ".tiff", ".svg")
LARGEST = 40_000_000
"""Bytes, and pixels too."""
_FINE = 12
"""Pixels across a square that an SVG is painted with."""


def grid_from(path: str, width: int, tall: float = 1.0, light: bool = False) -> Grid:
    """The picture in `width` squares across, a square being `tall` times as high as wide; `light`: light is filled."""
    if not 1 <= width <= WIDEST:
        raise NoGrid(f"--width takes a number of squares from 1 to {WIDEST}; {width} is not that.")
    picture = _greyed(path, width)
    height = max(1, round(width * picture.height / picture.width / tall))
    if height > HIGHEST:
        raise NoGrid(
            f"The picture would be {height} rows high; {HIGHEST} is the most, so choose a smaller --width."
        )
    from PIL import Image

    limit = _parting(picture.histogram())
    small = picture.resize((width, height), Image.Resampling.BOX)
    grey = small.tobytes()
    lines = []
    for row in range(height):
        shades = grey[row * width : (row + 1) * width]
        lines.append("".join(FILLED if (shade < limit) != light else OPEN for shade in shades))
    return grid_of(tuple(lines))


def _greyed(path: str, width: int) -> "Image":
    """The picture in greys on white."""
    try:
        raw = Path(path).read_bytes()
    except FileNotFoundError:
        raise NoGrid(f"There is no file {path}; check its name and folder.") from None
    except OSError as refused:
        raise NoGrid(f"{path} cannot be read ({refused.strerror}).") from None
    if len(raw) > LARGEST:
        raise NoGrid(f"{path} is larger than {LARGEST // 1_000_000} MB; save a smaller copy of the picture.")
    if path.lower().endswith(".svg"):
        raw = _painted(path, raw, width)
    from PIL import Image

    try:
        with Image.open(BytesIO(raw)) as opened:
            if opened.width * opened.height > LARGEST:
                raise NoGrid(
                    f"{path} has more than {LARGEST // 1_000_000} million pixels; save a smaller copy of the picture."
                )
            whole = opened.convert("RGBA")
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError):
        raise NoGrid(f"{path} cannot be opened as a picture; save it as PNG or JPEG.") from None
    white = Image.new("RGBA", whole.size, "white")
    white.alpha_composite(whole)
    return white.convert("L")


def _painted(path: str, raw: bytes, width: int) -> bytes:
    import resvg_py

    try:
        return bytes(
            resvg_py.svg_to_bytes(
                svg_string=raw.decode("utf-8", "replace"), width=width * _FINE, dpi=96.0, background="#ffffff"
            )
        )
    except ValueError:
        raise NoGrid(f"{path} cannot be opened as an SVG; save the picture as PNG instead.") from None


def _parting(histogram: list[int]) -> float:
    """The shade that parts dark from light best (Otsu, 1979: the greatest variance between the two)."""
    total, weighted = sum(histogram), sum(shade * many for shade, many in enumerate(histogram))
    best, at, first, last = -1.0, 128.0, 0, 0
    dark = dark_weighted = 0
    for shade, many in enumerate(histogram):
        dark, dark_weighted = dark + many, dark_weighted + shade * many
        if not dark or dark == total:
            continue
        apart = dark_weighted / dark - (weighted - dark_weighted) / (total - dark)
        between = dark * (total - dark) * apart * apart
        if between > best * (1 + 1e-12):
            best, first, last = between, shade, shade
        elif between >= best * (1 - 1e-12):
            last = shade
    if best > 0:
        # Between two shades with nothing between them every parting is as good; take the middle.
        at = (first + last) / 2 + 0.5
    return at
