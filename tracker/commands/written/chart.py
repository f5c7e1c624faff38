"""The commands `chart` and `filet`: words of the command line come in, a file and an exit status go out.

0: drawn. 1: the pattern cannot be drawn, or has an error in it (what can be drawn is drawn all the same). 2: wrong
use, or a file that cannot be read or written.
"""

import argparse
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.files import Unreadable, text_of
from tracker.output import NotWritten, ending_of, refused, rows_of, with_errors, write

if TYPE_CHECKING:
    from tracker.charts.chart import Wish
    from tracker.filet.grid import Grid


def add_parsers(subparsers: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Registers both commands."""
    told = "Draws the chart of a pattern: squares of a filet pattern, symbols of any other."
    chart = subparsers.add_parser("chart", help="draws the chart of a pattern", description=told)
    chart.add_argument("file", metavar="FILE", help="the pattern; - for standard input")
    chart.add_argument(
        "-o", "--output", metavar="NAME", help="where to: a name that ends in .svg, .png, .pdf or .txt"
    )
    chart.add_argument("--size", metavar="NAME", help="the size to draw; the first when not said")
    chart.add_argument("--left-handed", action="store_true", help="mirrored, for the left hand")
    chart.add_argument("--at", metavar="ROW[:N]", help="light this row, and in it the Nth square or stitch")
    chart.add_argument("--rows", metavar="A-B", help="only these rows, counted over the whole piece from 1")
    chart.add_argument(
        "--gauge", metavar="W:H", help="filet: squares across and rows high of one swatch, such as 16:9"
    )
    chart.set_defaults(run=chart_command)
    filet = subparsers.add_parser(
        "filet",
        help="writes a filet pattern from a grid, a picture or words",
        description="Writes a filet pattern from a grid, a picture or words.",
    )
    filet.add_argument(
        "grid", metavar="GRID", nargs="?", help="lines of # and ., the last is Row 1; or a PNG, JPEG or SVG"
    )
    filet.add_argument(
        "-o", "--output", metavar="NAME", help="the pattern's file; standard output when not said"
    )
    filet.add_argument(
        "--mesh", type=int, choices=(1, 2), default=2, help="chains of an open square; 2 when not said"
    )
    filet.add_argument("--mirrored", action="store_true", help="rows for a left-handed maker")
    filet.add_argument("--text", metavar="WORDS", help="letters instead of a grid; | begins a new line")
    filet.add_argument("--width", type=int, metavar="N", help="squares across, of a picture")
    filet.add_argument("--light", action="store_true", help="of a picture: what is light is filled")
    filet.add_argument(
        "--gauge", metavar="W:H", help="squares across and rows high of one swatch, such as 16:9"
    )
    filet.add_argument("--title", metavar="WORDS", help="of the pattern; the file's name when not said")
    filet.set_defaults(run=filet_command)


def chart_command(said: argparse.Namespace) -> int:
    """Carries out `chart`."""
    from tracker.charts.chart import NoChart, charted
    from tracker.charts.formats import FORMATS, format_of
    from tracker.load import WrongSize, sized

    try:
        wish = _wish(said)
        ending = ending_of(said.output, [row.ending for row in FORMATS], "a chart") if said.output else ".txt"
        name, text = text_of(said.file)
        loaded = sized(name, text, said.size)
    except (Unreadable, WrongSize, ValueError) as fault:
        return refused(fault, 2)
    try:
        sheets = charted(loaded.source, loaded.pattern, loaded.fabric, wish)
    except NoChart as fault:
        return refused(fault, 1)
    form = format_of(ending)
    made = form.write(sheets) if form is not None else b""
    if said.output is None:
        sys.stdout.write(made.decode())
    else:
        try:
            write(said.output, made, said.file)
        except NotWritten as fault:
            return refused(fault, 2)
    return with_errors(loaded.problems, "Drawn as the words make it")


def filet_command(said: argparse.Namespace) -> int:
    """Carries out `filet`."""
    from tracker.filet.grid import NoGrid
    from tracker.filet.pattern import Wish, reads_backwards, written

    try:
        grid = _grid(said)
        gauge = f"Gauge: {said.gauge.replace(':', ' squares as wide as ')} rows high." if said.gauge else ""
        title = said.title or said.text or (Path(said.grid).stem if said.grid != "-" else "Filet panel")
        made = written(grid, Wish(title.replace("|", " "), said.mesh, said.mirrored, gauge))
        if said.output is None:
            sys.stdout.write(made)
        else:
            write(said.output, made.encode(), said.grid)
    except (NoGrid, Unreadable, ValueError) as fault:
        return refused(fault, 2)
    if backwards := reads_backwards(grid, said.mirrored):
        sys.stderr.write(f"{backwards}\n")
    return 0


def _grid(said: argparse.Namespace) -> "Grid":
    from tracker.filet.alphabet import lettered
    from tracker.filet.grid import NoGrid, read_grid
    from tracker.filet.picture import ENDINGS, grid_from

    tall = tall_of(said.gauge)
    if said.text is not None:
        if said.grid is not None:
            raise NoGrid("Give a grid or --text, not both.")
        return lettered(said.text)
    if said.grid is None:
        raise NoGrid("Name a grid or a picture, or give words with --text.")
    if said.grid.lower().endswith(ENDINGS):
        if said.width is None:
            raise NoGrid("A picture needs --width, the number of squares across.")
        return grid_from(said.grid, said.width, tall, said.light)
    return read_grid(text_of(said.grid)[1])


def _wish(said: argparse.Namespace) -> "Wish":
    from tracker.charts.chart import Wish

    at = None
    if said.at is not None:
        name, mark, place = said.at.partition(":")
        if mark and not place.strip().isdigit() or not name.strip():
            raise ValueError(
                f"--at takes a row and, after a colon, a square or stitch of it, such as 9:4; {said.at!r} is not that."
            )
        at = name.strip(), int(place or 0)
    return Wish(said.left_handed, at, rows_of(said.rows), tall_of(said.gauge))


def tall_of(gauge: str | None) -> float:
    """Height of a square in widths from "16:9": 16 squares are as wide as 9 rows are high."""
    if gauge is None:
        return 1.0
    hit = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*[:x×]\s*(\d+(?:\.\d+)?)\s*", gauge)
    if hit is None or not float(hit[1]) or not float(hit[2]) or not 0.2 <= float(hit[1]) / float(hit[2]) <= 5:
        raise ValueError(
            f"--gauge takes squares across and rows high of the same swatch, such as 16:9; {gauge!r} is not that."
        )
    return float(hit[1]) / float(hit[2])
