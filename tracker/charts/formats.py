"""THE TABLE of what a chart can be written as. A new format is a file in `media` and a row here."""

from collections.abc import Callable

from tracker.charts.drawing import Sheet
from tracker.charts.media.letters import letters
from tracker.charts.media.pdf import pdf
from tracker.charts.media.png import png
from tracker.charts.media.svg import svg
from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Format:
    """One row of the table."""

    ending: str
    """Of the file's name, with its dot."""
    write: Callable[[tuple[Sheet, ...]], bytes]
    what: str
    """What it is good for, in a few words."""


FORMATS = (
    Format(".svg", svg, "a picture that stays sharp at any size"),
    Format(".png", png, "a picture for a screen or a message"),
    Format(".pdf", pdf, "pages to print, overlapping, row numbers on each"),
    Format(".txt", letters, "plain letters; of filet the grid, # filled and . open"),
)


def format_of(name: str) -> Format | None:
    """The format that a file's name asks for."""
    return next((row for row in FORMATS if name.lower().endswith(row.ending)), None)
