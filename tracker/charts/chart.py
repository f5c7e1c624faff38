"""The chart of a pattern: its words and its fabric come in, sheets go out, or one sentence why there can be none."""

import re
from dataclasses import dataclass, replace

from tracker.charts.drawing import Field, Mark, Shape, Sheet, Use, Words, moved, shifted
from tracker.charts.joining import joining_of
from tracker.charts.layout.around.corners import around_a_piece
from tracker.charts.layout.around.rounds import rounds
from tracker.charts.layout.colours import Colours, colours_in, colours_of
from tracker.charts.layout.flat.laid import Laid, flat
from tracker.charts.layout.way import OTHER, beginnings
from tracker.charts.signs.key import abbreviated, key_of, named_by, sign_of
from tracker.charts.signs.symbols import STITCH
from tracker.charts.squares import grid_of, sheet_of
from tracker.fabric.model import Fabric, Placed
from tracker.notation.pattern import Pattern
from tracker.problems import Source

MOST_ROWS = 600
"""Rows on one chart; of more, a part has to be chosen."""


class NoChart(Exception):
    """A pattern that cannot be drawn; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What a maker asks of a chart."""

    left_handed: bool = False
    at: tuple[str, int] | None = None
    """The row to light by its index or label, and the square or stitch of it from 1; 0 for the whole row."""
    rows: tuple[int, int] | None = None
    """First and last index to draw; None for all."""
    tall: float = 1.0
    """Of filet: the height of a square in widths."""


def charted(source: Source, pattern: Pattern, fabric: Fabric, wish: Wish = Wish()) -> tuple[Sheet, ...]:
    """The sheets of a pattern, one for each part; NoChart when there is nothing to draw."""
    rows = tuple(fabric.rows(*(wish.rows or (1, MOST_ROWS + 1))))
    if not fabric.length:
        raise NoChart("No row was found in this text, so there is nothing to draw; check says what it lacks.")
    if not rows:
        raise NoChart(f"The pattern has {fabric.length} rows; choose some of those with --rows.")
    if len(rows) > MOST_ROWS:
        raise NoChart(
            f"The pattern has {fabric.length} rows, more than one chart can "
            f"hold; choose some with --rows 1-{MOST_ROWS}."
        )
    lit = lit_row(rows, wish.at)
    colours = colours_of(source, pattern, rows)
    sheets: list[Sheet] = []
    for part in dict.fromkeys(placed.part for _, placed in rows):
        own = tuple((index, placed) for index, placed in rows if placed.part == part)
        sheets += _sheets(pattern, fabric, own, part, colours, lit, wish)
    if not sheets:
        raise NoChart(
            "None of the rows could be read, so there is nothing to draw; check says what is not understood."
        )
    if wish.rows is None and wish.at is None and (joined := joining_of(pattern, fabric)) is not None:
        sheets.append(joined)
    return tuple(sheets)


def lit_row(rows: tuple[tuple[int, Placed], ...], at: tuple[str, int] | None) -> tuple[int, int] | None:
    """The row that `--at` names, by its index; NoChart for one that is not drawn."""
    if at is None:
        return None
    name = " ".join(at[0].lower().split())
    for index, placed in rows:
        if name == placed.label.lower() or name in (
            f"row {placed.number}",
            f"rnd {placed.number}",
            f"round {placed.number}",
        ):
            return index, at[1]
    if name.isdigit():
        for index, _ in rows:
            if index == int(name):
                return index, at[1]
    raise NoChart(f"There is no row {at[0]} on this chart; it has rows {rows[0][0]} to {rows[-1][0]}.")


def _sheets(
    pattern: Pattern,
    fabric: Fabric,
    rows: tuple[tuple[int, Placed], ...],
    part: str | None,
    colours: Colours,
    lit: tuple[int, int] | None,
    wish: Wish,
) -> list[Sheet]:
    """A part's sheets: filet as one grid; otherwise flat rows and rounds each on a sheet of their own."""
    title = pattern.title + (f", {part}" if part else "") + (f", size {pattern.size}" if pattern.size else "")
    grid = grid_of(pattern, fabric, rows, wish.left_handed)
    if grid is not None:
        left_out = len(rows) - len(grid.rows)
        said = _hand(wish, rows, "Row", "bottom", grid.rows[0].begins)
        more = (
            (f"{left_out} further row{'s' if left_out > 1 else ''} (edging, notes) not drawn.",)
            if left_out
            else ()
        )
        return [sheet_of(grid, title, (*said, *more), lit, wish.tall)]
    runs: list[list[tuple[int, Placed]]] = []
    for index, placed in rows:
        if not placed.worked.elements:
            continue
        closed = placed.kind == "round"
        if runs and (runs[-1][-1][1].kind == "round") == closed:
            runs[-1].append((index, placed))
        else:
            runs.append([(index, placed)])
    return [_stitches(pattern, title, tuple(run), colours, lit, wish) for run in runs]


def _stitches(
    pattern: Pattern,
    title: str,
    rows: tuple[tuple[int, Placed], ...],
    colours: Colours,
    lit: tuple[int, int] | None,
    wish: Wish,
) -> Sheet:
    closed = rows[0][1].kind == "round"
    sides = tuple(beginnings(placed for _, placed in rows))
    deep = _deep(pattern)
    laid = rounds(rows, colours, lit, deep) if closed else flat(rows, sides, colours, lit, deep)
    key, more = key_of(laid.brush.kinds, colours_in(colours, rows), pattern.uk, named_by(pattern))
    symbols = {symbol.name: symbol for symbol in (*laid.brush.symbols.values(), *more)}
    field = _framed(laid, wish.left_handed)
    word = "Rnd" if closed else "Row"
    begins = OTHER[sides[0]] if wish.left_handed else sides[0]
    said = list(_hand(wish, rows, word, "centre" if closed else "bottom", begins))
    if any(kind[:2] in ("fp", "bp") for kind in laid.brush.kinds) and any(
        p.worked.side == "WS" for _, p in rows
    ):
        said.append("Post stitches are drawn as the row's words name them, on wrong-side rows too.")
    unread = [placed.label for _, placed in rows if not placed.worked.understood]
    if unread:
        said.append(
            "Not understood, and drawn only as far as it was read: "
            f"{', '.join(unread[:6])}{' …' if len(unread) > 6 else ''}."
        )
    return Sheet(
        title,
        tuple(said),
        field,
        tuple(symbols.values()),
        key,
        _letters(title, rows, pattern, wish.left_handed),
    )


_BELOW = re.compile(r"\b(two|2|three|3) (?:rows?|rnds?|rounds?) below", re.IGNORECASE)


def _deep(pattern: Pattern) -> dict[str, int]:
    """Rows that the pattern's own stitches reach down, by their names; spikes reach two when nothing is said."""
    told = {
        special.name: hit[1].lower() for special in pattern.specials if (hit := _BELOW.search(special.text))
    }
    return {"spsc": 2} | {name: 3 if many in ("three", "3") else 2 for name, many in told.items()}


def _framed(laid: Laid, mirrored: bool) -> Field:
    """The chart from 0, 0, turned left to right for the left hand."""
    left, top, right, bottom = laid.box
    air = 6.0
    width, height = right - left + 2 * air, bottom - top + 2 * air
    marks = tuple(shifted(mark, air - left, air - top) for mark in laid.marks)
    edges = tuple(
        replace(
            edge,
            at=edge.at + air - top,
            ends=edge.ends and (edge.ends[0] + air - left, edge.ends[1] + air - left),
            line=tuple((x + air - left, y + air - top) for x, y in edge.line),
        )
        for edge in laid.edges
    )
    rings = tuple(replace(ring, x=ring.x + air - left, y=ring.y + air - top) for ring in laid.rings)
    if mirrored:
        marks = tuple(mirrored_mark(mark, width) for mark in marks)
        edges = tuple(
            replace(
                edge,
                side=OTHER[edge.side],
                ends=edge.ends and (width - edge.ends[1], width - edge.ends[0]),
                line=tuple((width - x, y) for x, y in reversed(edge.line)),
            )
            for edge in edges
        )
        rings = tuple(replace(ring, x=width - ring.x) for ring in rings)
    return Field(width, height, marks, edges, rings, STITCH)


def mirrored_mark(mark: Mark, width: float) -> Mark:
    """The mark as a mirror shows it; words stay readable."""
    if isinstance(mark, Shape):
        return Shape(
            moved(mark.path, (-1, 0, 0, 1, width, 0)), mark.fill, mark.stroke, mark.width, mark.dashed
        )
    if isinstance(mark, Use):
        a, b, c, d, e, f = mark.matrix
        return Use(mark.symbol, (-a, b, -c, d, width - e, f), mark.colour)
    anchor = {"start": "end", "end": "start"}.get(mark.anchor, mark.anchor)
    return Words(mark.text, width - mark.x, mark.y, mark.size, anchor, mark.colour, mark.bold)


def _hand(
    wish: Wish, rows: tuple[tuple[int, Placed], ...], word: str, where: str, begins: str
) -> tuple[str, ...]:
    hand = "left" if wish.left_handed else "right"
    first = rows[0][1].label
    sides = {placed.worked.side for _, placed in rows}
    told = " RS: right side facing, WS: wrong side facing." if sides >= {"RS", "WS"} else ""
    if word == "Rnd":
        turned = any(placed.worked.turned for _, placed in rows[1:])
        where = "goes around the piece" if around_a_piece(rows[0][1].worked) else "is in the centre"
        way = "clockwise" if wish.left_handed else "counter-clockwise"
        runs = "the work is turned between rounds" if turned else f"every round runs {way}"
        return (f"Seen from the right side, for the {hand} hand. {first} {where}; {runs}.{told}",)
    return (
        f"Seen from the right side, for the {hand} hand. {first} is at the {where} and begins at the {begins}.",
        f"A row's number stands where the row begins.{told}",
    )


def _letters(title: str, rows: tuple[tuple[int, Placed], ...], pattern: Pattern, left_handed: bool) -> str:
    """The chart in plain letters, the last row first, each with an arrow that shows the way it runs."""
    closed = rows[0][1].kind == "round"
    lines = []
    used: dict[str, str] = {}
    for (_, placed), side in zip(rows, beginnings((placed for _, placed in rows), left_handed), strict=True):
        signs = [sign_of(element) for element in placed.worked.elements]
        used |= {
            sign: abbreviated(e.kind, pattern.uk)
            for sign, e in zip(signs, placed.worked.elements, strict=True)
            if e.is_stitch
        }
        drawn = "".join(signs if side == "left" or closed else signs[::-1])
        arrow = "" if closed else "→" if side == "left" else "←"
        lines.append((placed.label, placed.worked.side or "", arrow, drawn))
    wide = max((len(drawn) for *_, drawn in lines), default=0)
    name = max((len(label) for label, *_ in lines), default=0)
    out = [title, ""]
    out += [
        f"{label:{name}} {side:2} {arrow} {drawn if closed else drawn.center(wide)}".rstrip()
        for label, side, arrow, drawn in (lines if closed else reversed(lines))
    ]
    out += ["", "o ch" + "".join(f"  {sign} {kind}" for sign, kind in used.items() if sign)]
    return "\n".join(out) + "\n"
