"""The command `sheet`: a pattern to print and tick off. Words of the command line come in, a file and an exit status
go out.

0: written. 1: the pattern has an error in it (it is printed as it stands), or no row. 2: wrong use, or a file that
cannot be read or written.
"""

import argparse
from collections.abc import Callable
from typing import TYPE_CHECKING

from tracker.files import Unreadable, text_of
from tracker.output import NotWritten, ending_of, refused, rows_of, with_errors, write
from tracker.records import replace

if TYPE_CHECKING:
    from tracker.charts.drawing import Sheet
    from tracker.load import Loaded

MOST_ROWS = 600
"""Rows of which a chart is drawn."""
ENDINGS = (".pdf", ".html", ".txt")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The words `sheet` takes."""
    parser.add_argument("file", metavar="FILE", nargs="?", help="the pattern; - for standard input")
    parser.add_argument(
        "--piece",
        metavar="NAME",
        help="a piece in hand instead: its text, its copies, the sizes noted of them",
    )
    parser.add_argument(
        "-o",
        "--output",
        metavar="NAME",
        help=f"where to: a name that ends in {', '.join(ENDINGS)}; lines when not said",
    )
    parser.add_argument("--size", metavar="NAME", help="the size to print; the first when not said")
    parser.add_argument("--rows", metavar="A-B", help="only these rows, counted over the whole piece from 1")
    parser.add_argument(
        "--large-print",
        action="store_true",
        help="24 points, one column, every row and repeat written out, no chart",
    )
    parser.add_argument("--no-chart", action="store_true", help="leave the chart out")
    parser.add_argument("--left-handed", action="store_true", help="for the left hand")


def run(said: argparse.Namespace, say: Callable[[str], object]) -> int:
    """Carry out `sheet`."""
    from tracker.load import WrongSize, sized
    from tracker.paper.gather import NoSheet, leaf_of
    from tracker.shelf.choosing import NoPiece

    try:
        ending = ending_of(said.output, ENDINGS, "a sheet") if said.output else ".txt"
        rows = rows_of(said.rows)
        loaded, sizes = _in_hand(said.piece) if said.piece else (sized(*text_of(_named(said)), said.size), {})
    except (Unreadable, WrongSize, NoPiece, ValueError) as fault:
        return refused(fault, 2)
    try:
        leaf = leaf_of(loaded, said.large_print, said.left_handed, rows)
        if sizes:
            leaf = replace(leaf, sizes=tuple(sizes.get(nth, "") for nth, _ in enumerate(leaf.measured, 1)))
    except NoSheet as fault:
        return refused(fault, 1)
    sheets = (
        ()
        if said.no_chart or said.large_print or ending == ".txt"
        else _charts(loaded, said.left_handed, rows)
    )
    made: bytes
    if ending == ".pdf":
        from tracker.paper.pages import pages

        made = pages(leaf, sheets, said.large_print)
    elif ending == ".html":
        from tracker.charts.media.svg import inline
        from tracker.paper.webpage import webpage

        made = webpage(leaf, inline(sheets) if sheets else "", said.large_print)
    else:
        from tracker.paper.lines import lines

        made = lines(leaf).encode()
    if said.output is None:
        say(made.decode().rstrip("\n"))
    else:
        try:
            write(said.output, made, said.file)
        except NotWritten as fault:
            return refused(fault, 2)
    return with_errors(loaded.problems, "Printed as it stands")


def _named(said: argparse.Namespace) -> str:
    """The pattern's file; ValueError when none is named."""
    if said.file is None:
        raise ValueError("Name a pattern to print, or a piece in hand with --piece.")
    return str(said.file)


def _in_hand(name: str) -> "tuple[Loaded, dict[int, str]]":
    """A piece in hand as it was worked, and the blocked size of each copy by its number."""
    from tracker.journal import pieces, pieces_folder
    from tracker.shelf.choosing import chosen
    from tracker.shelf.taking_up import taken_down

    _, loaded, session = taken_down(chosen(name, pieces(pieces_folder())[0]).file)
    return loaded, {copy[1]: size for copy, size in session.blocked}


def _charts(loaded: "Loaded", left_handed: bool, rows: tuple[int, int] | None) -> "tuple[Sheet, ...]":
    """The pattern's charts; none where nothing can be drawn, for the rows say all of it.

    Rows that only repeat others are drawn twice over, and no more: the sheet names what each repeats.
    """
    from tracker.charts.chart import NoChart, Wish, charted
    from tracker.charts.joining import joining_of

    last = _last_of_its_own(loaded) + 2
    more = ""
    if rows is None and last < min(loaded.fabric.length, MOST_ROWS):
        rows = (1, last)
        more = f"The rows after {loaded.fabric.row(last).label} repeat these; the sheet says which."
    try:
        drawn = charted(
            loaded.source, loaded.pattern, loaded.fabric, Wish(left_handed=left_handed, rows=rows)
        )
    except NoChart:
        return ()
    if not more:
        return drawn
    # Of a piece that is drawn in part the map of its joining is drawn all the same.
    joined = joining_of(loaded.pattern, loaded.fabric)
    return (*drawn[:-1], replace(drawn[-1], lines=(*drawn[-1].lines, more)), *([joined] if joined else []))


def _last_of_its_own(loaded: "Loaded") -> int:
    """Index of the last row that has words of its own and is drawn for the first time."""
    seen: set[int] = set()
    last = 1
    for index, placed in loaded.fabric.rows(1, MOST_ROWS):
        if id(placed.worked.row) not in seen:
            seen.add(id(placed.worked.row))
            last = index
    return last
