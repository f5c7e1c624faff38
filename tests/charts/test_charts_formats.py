"""One chart, four files: what is drawn is the same in each, read back with programs that are not ours."""

import re
from io import BytesIO
from itertools import pairwise
from xml.etree import ElementTree

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from tracker.charts.chart import Wish, charted
from tracker.charts.drawing import Sheet
from tracker.charts.formats import FORMATS, format_of
from tracker.charts.media.pdf import ROOM, pdf
from tracker.charts.media.png import SHARP, png
from tracker.charts.media.svg import svg
from tracker.charts.media.tiles import windows
from tracker.charts.signs.letters import length_of, path_of
from tracker.charts.squares import CELL
from tracker.filet.alphabet import lettered
from tracker.filet.grid import Grid, read_grid
from tracker.filet.pattern import written
from tracker.load import load

PLAIN = Wish()
GRID = read_grid("#..#\n.##.\n####\n.#..\n")


def sheets(grid: Grid, wish: Wish = PLAIN) -> tuple[Sheet, ...]:
    """The chart of a grid, through its written pattern."""
    loaded = load("the pattern", written(grid))
    return charted(loaded.source, loaded.pattern, loaded.fabric, wish)


def dark_cells(picture: Image.Image, corner: tuple[float, float], cell: float, grid: Grid) -> str:
    """The squares of a picture as letters, looking at the middle of each."""
    grey = picture.convert("L")
    return "".join(
        "".join(
            "#"
            if grey.getpixel((int(corner[0] + (x + 0.5) * cell), int(corner[1] + (y + 0.5) * cell))) < 100
            else "."
            for x in range(grid.width)
        )
        + "\n"
        for y in range(grid.height)
    )


def framed(picture: Image.Image, grid: Grid) -> tuple[tuple[float, float], float]:
    """Top left corner of the chart's frame and the width of a square: its top is the first longest dark line."""
    dark = np.asarray(picture.convert("L")) < 120
    best, corner = 0, (0, 0)
    for y, line in enumerate(dark):
        edges = np.flatnonzero(np.diff(np.concatenate(([0], line.astype(int), [0]))))
        for start, end in zip(edges[::2], edges[1::2], strict=True):
            if end - start > best:
                best, corner = int(end - start), (int(start), y)
    return corner, best / grid.width


def test_the_png_shows_the_squares() -> None:
    """Read back with Pillow, pixel by pixel."""
    picture = Image.open(BytesIO(png(sheets(GRID))))
    corner, cell = framed(picture, GRID)
    assert cell == pytest.approx(CELL * SHARP, rel=0.03)
    assert dark_cells(picture, corner, cell, GRID) == GRID.text


def test_the_pdf_shows_the_squares() -> None:
    """Painted by PDFium."""
    document = pypdfium2.PdfDocument(pdf(sheets(GRID)))
    assert len(document) == 1
    picture = document[0].render(scale=2).to_pil()
    corner, cell = framed(picture, GRID)
    assert dark_cells(picture, corner, cell, GRID) == GRID.text


def test_the_png_shows_words_where_there_is_no_font() -> None:
    """Every word is strokes: resvg is told to load no font, and the title is there all the same."""
    picture = Image.open(BytesIO(png(sheets(GRID)))).convert("L")
    title = picture.crop((0, 0, picture.width, int(44 * SHARP)))
    assert sum(title.histogram()[:100]) > 300


def test_the_svg_stands_alone() -> None:
    """Well-formed for an XML parser, with a title, no font, no script, and no link but to its own signs."""
    text = svg(sheets(GRID)).decode()
    root = ElementTree.fromstring(text)
    assert root.tag.endswith("svg")
    assert root[0].text == "FILET PANEL"
    assert "<text" not in text
    assert "<script" not in text
    assert all(link.startswith("#") for link in re.findall(r'href="([^"]*)"', text))
    labels = {node.get("aria-label") for node in root.iter()} - {None}
    assert {"FILET PANEL", "1 RS", "2 WS"} <= labels


def test_a_title_cannot_break_the_svg() -> None:
    """Signs that XML reserves, and control characters, come out harmless."""
    loaded = load("x", 'A <b> & "C" \x07]]>\nCh 3.\nRow 1: Sc in 2nd ch from hook, sc in next ch. (2 sc)\n')
    root = ElementTree.fromstring(svg(charted(loaded.source, loaded.pattern, loaded.fabric)))
    assert "<b> &" in (root[0].text or "")


@pytest.mark.parametrize("long", [5, 40])
def test_a_large_chart_is_cut_into_pages_that_overlap(long: int) -> None:
    """Every row's number is on each page that shows the row, found by PDFium's own text search."""
    grid = lettered("|".join(["HOME SWEET HOME"] * (1 if long == 5 else 6)), 3)
    document = pypdfium2.PdfDocument(pdf(sheets(grid)))
    assert len(document) > 2
    seen: dict[int, int] = {}
    for page in list(document)[1:]:
        text = page.get_textpage().get_text_range()
        numbers = sorted(int(number) for number in re.findall(r"\b(\d+) [RW]S\b", text))
        assert numbers == list(range(numbers[0], numbers[-1] + 1))
        for number in numbers:
            seen[number] = seen.get(number, 0) + 1
    assert sorted(seen) == list(range(1, grid.height + 1))


def test_pages_cover_the_chart_and_share_a_margin() -> None:
    """No square is lost between two pages, and neighbours share two squares."""
    cut = windows(1000.0, 700.0, 18.0, 400.0, 400.0)
    columns = sorted({(one.x, one.width) for one in cut})
    assert columns[0][0] == 0
    assert columns[-1][0] + columns[-1][1] == 1000
    for (x, wide), (following, _) in pairwise(columns):
        assert x + wide - following == pytest.approx(36)
        assert wide <= 400


def test_a_small_chart_fits_both_papers() -> None:
    """A4 and US Letter: nothing stands outside what both can print."""
    document = pypdfium2.PdfDocument(pdf(sheets(lettered("HI"))))
    picture = document[0].render(scale=1).to_pil().convert("L").point(lambda shade: 255 if shade < 200 else 0)
    box = picture.getbbox()
    assert box is not None
    assert box[0] >= 30
    assert box[2] <= 595 - 30
    assert box[3] - box[1] <= ROOM[1]


@pytest.mark.parametrize("row", FORMATS, ids=lambda row: row.ending)
def test_every_format_of_the_table_writes_something_of_its_kind(row: object) -> None:
    """And is found by a file's ending, in capitals too."""
    begins = {".svg": b"<?xml", ".png": b"\x89PNG", ".pdf": b"%PDF", ".txt": b"#..#"}
    assert row in FORMATS
    assert row.write(sheets(GRID)).startswith(begins[row.ending])  # type: ignore[attr-defined]
    assert format_of("CHART" + row.ending.upper()) is row  # type: ignore[attr-defined]


def test_letters_have_a_shape_for_every_word_a_chart_says() -> None:
    """Printable ASCII and what patterns paste in; accents are left off, the unknown is a box, never nothing."""
    for code in range(33, 127):
        assert path_of(chr(code), 0, 0, 6), chr(code)
    assert length_of("é", 6) == length_of("e", 6)
    assert path_of("編", 0, 0, 6)
    assert length_of("", 6) == 0
