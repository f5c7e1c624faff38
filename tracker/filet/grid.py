"""A grid of open and filled squares, read from letters. Text comes in; a Grid goes out, or one sentence why it is
none."""

from tracker.records import dataclass

FILLED, OPEN = "#", "."
_FILLED_TOO = "#XxX■█▮▉1@*"
_OPEN_TOO = ".·-_□0oO▯"
WIDEST, HIGHEST = 400, 800
"""Squares; larger than any table cloth."""


class NoGrid(Exception):
    """Something that is no grid; the message says what is so and what to do."""


@dataclass(frozen=True, slots=True)
class Grid:
    """Squares as they are to be seen on the right side."""

    lines: tuple[str, ...]
    """From the top: a sign a square, FILLED or OPEN, all lines equally long. The last line is Row 1."""

    @property
    def width(self) -> int:
        return len(self.lines[0])

    @property
    def height(self) -> int:
        return len(self.lines)

    @property
    def text(self) -> str:
        return "".join(f"{line}\n" for line in self.lines)

    @property
    def symmetric(self) -> bool:
        """True when the picture is its own mirror image, left to right."""
        return all(line == line[::-1] for line in self.lines)


def grid_of(lines: tuple[str, ...]) -> Grid:
    """The grid of these lines; NoGrid when they are no rectangle."""
    if not lines or not lines[0]:
        raise NoGrid(
            "There is no square in this grid; write a line for each row, # for a filled square and . for an open one."
        )
    wide = max(len(line) for line in lines)
    for nth, line in enumerate(lines, 1):
        if len(line) != wide:
            raise NoGrid(
                f"Line {nth} of the grid has {len(line)} squares and the widest has "
                f"{wide}; give every line the same number."
            )
    if wide > WIDEST or len(lines) > HIGHEST:
        raise NoGrid(
            f"The grid is {wide} squares wide and {len(lines)} high; {WIDEST} by "
            f"{HIGHEST} is the most that can be written."
        )
    return Grid(lines)


def read_grid(text: str) -> Grid:
    """The grid in a text.

    >>> read_grid("#.#\\n...\\n").lines
    ('#.#', '...')
    """
    rows = [line.strip() for line in text.lstrip("\ufeff").splitlines()]
    while rows and not rows[0]:
        rows.pop(0)
    while rows and not rows[-1]:
        rows.pop()
    out = []
    for nth, row in enumerate(rows, 1):
        squares = "".join(
            FILLED if sign in _FILLED_TOO else OPEN if sign in _OPEN_TOO else "?" for sign in row
        )
        if "?" in squares:
            odd = row[squares.index("?")]
            shown = odd if odd.isprintable() and not odd.isspace() else "a blank"
            raise NoGrid(f"Line {nth} of the grid has {shown} in it; # is a filled square and . an open one.")
        out.append(squares)
    return grid_of(tuple(out))
