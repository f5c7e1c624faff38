"""The row in hand and those under it as SVG, the place lit: windows open, blocks filled, stitches as on a chart.

Comes in: rows as they lie. Goes out: SVG as text, with classes for its colours; an abbreviation out of a
pattern is escaped. Each state has a form of its own: done is drawn in full, in hand is heavy on a lit ground
with a mark over it, to come is dashed.
"""

from html import escape
from math import atan2, degrees

from tracker.charts.drawing import Path
from tracker.charts.symbols import height_of, parted
from tracker.looks.rows import Strip, window
from tracker.session.view import Cell, Shape

_SQUARE, _STITCH = 24.0, 14.0
"""Units from square to square, from stitch to stitch."""
_ACROSS = {True: 24, False: 36}
"""Squares, or stitches, that are drawn of a row at most."""
_MARGIN = 60.0
"""Units at each side, for a row's name and its edge."""
_OVER, _GAP = 13.0, 8.0
"""Units above the row in hand, for the mark; and between rows."""


def drawn(rows: tuple[Strip, ...]) -> str:
    """Rows under each other, the one in hand on top; empty when there is none."""
    rows = tuple(row for row in rows if row.cells)
    if not rows:
        return ""
    wide = _SQUARE if rows[0].filet else _STITCH
    most = max(len(row.cells) for row in rows)
    across = min(most, _ACROSS[rows[0].filet])
    start = window(rows[0], most, across)
    signs: dict[str, str] = {}
    out: list[str] = []
    y = _OVER
    for row in rows:
        high = _high(row)
        out.append(_row(row, most, start, across, wide, y, high, signs))
        y += high + _GAP
    width = across * wide + 2 * _MARGIN
    defined = "".join(signs.values())
    return (
        f'<svg viewBox="0 0 {width:g} {y:g}" role="img" aria-label="{escape(_words(rows[0]))}">'
        f"<defs>{defined}</defs>{''.join(out)}</svg>"
    )


def _words(row: Strip) -> str:
    """The row in hand for who cannot see it."""
    done = sum(cell.done for cell in row.cells)
    way = "to the left" if row.leftward else "to the right"
    return f"{row.label}, worked {way}: {done} of {len(row.cells)} done"


def _high(row: Strip) -> float:
    if row.filet:
        return _SQUARE
    return max(18.0, *(height_of(cell.kind) + 2 if cell.kind else 0 for cell in row.cells))


def _row(
    row: Strip, most: int, start: int, across: int, wide: float, y: float, high: float, signs: dict[str, str]
) -> str:
    before = (most - len(row.cells)) // 2
    out: list[str] = []
    lit: list[float] = []
    for at, ((cell, _), foot) in enumerate(zip(row.lying, row.feet, strict=True)):
        column = before + at - start
        if not 0 <= column < across:
            continue
        x = _MARGIN + column * wide
        if cell.current and not cell.done:
            lit.append(x)
        out.append(
            _square(cell, x, y, wide)
            if row.filet
            else _stitch(cell, foot * wide, x + wide / 2, y, high, signs)
        )
    mark = ""
    if lit:
        left, right = min(lit), max(lit) + wide
        mark = (
            f'<rect class="lit" x="{left:g}" y="{y - 2:g}" width="{right - left:g}" height="{high + 4:g}"/>'
            f'<path class="mark" d="M{(left + right) / 2:g},{y - 3:g}l-6,-8h12z"/>'
        )
    label = escape(row.label.partition(" ")[2] or row.label)
    arrow = "◄" if row.leftward else "►"
    middle = y + high / 2 + 5
    right_end = _MARGIN + across * wide
    # The row's name stands where the row begins.
    beside, anchor = (right_end + 8, "start") if row.leftward else (_MARGIN - 8, "end")
    hidden = start + across < most if row.leftward else start > 0
    more = "… " if hidden else ""
    named = f"{more}{arrow} {label}" if row.leftward else f"{label} {arrow}{more[::-1]}"
    cut = "".join(
        f'<text x="{at:g}" y="{middle:g}" text-anchor="{side}">…</text>'
        for at, side, is_cut in (
            (_MARGIN - 2, "end", start > 0 and row.leftward),
            (right_end + 2, "start", start + across < most and not row.leftward),
        )
        if is_cut
    )
    edge = ""
    if row.filet and (row.cells[0].done or row.cells[0].current):
        # The turning chain that begins a row of squares stands at its first upright.
        column = (before + len(row.cells) if row.leftward else before) - start
        if 0 <= column <= across:
            upright = _MARGIN + column * wide
            edge = f'<path class="edge" d="M{upright:g},{y:g}v{high:g}"/>'
    kind = "hand" if row.in_hand else "under"
    name = f'<text x="{beside:g}" y="{middle:g}" text-anchor="{anchor}">{named}</text>'
    return f'<g class="{kind}">{mark}{"".join(out)}{edge}{cut}{name}</g>'


def _state(cell: Cell) -> str:
    return "done" if cell.done else "now" if cell.current else "coming"


def _square(cell: Cell, x: float, y: float, wide: float) -> str:
    shape = "block" if cell.shape is Shape.BLOCK else "open"
    inset = 1.5
    size = wide - 2 * inset
    place = f'x="{x + inset:g}" y="{y + inset:g}" width="{size:g}" height="{size:g}"'
    return f'<rect class="{shape} {_state(cell)}" {place}/>'


def _stitch(cell: Cell, aside: float, x: float, y: float, high: float, signs: dict[str, str]) -> str:
    """A stitch whose top is over x; its foot is `aside` of that, where it shares its place with its neighbours."""
    state = _state(cell)
    foot = y + high
    if cell.shape is Shape.SPACE:
        return f'<ellipse class="chain {state}" cx="{x:g}" cy="{y + 4:g}" rx="6" ry="3"/>'
    if cell.shape is Shape.TURNING:
        chains = max(1, round(height_of(cell.kind or "sc") / 9))
        each = (high - 2) / chains
        oval = f'class="chain {state}" cx="{x:g}" rx="3" ry="{each / 2 - 0.6:g}"'
        return "".join(f'<ellipse {oval} cy="{foot - each * (at + 0.5):g}"/>' for at in range(chains))
    name = _sign(cell.kind, signs)
    tall = height_of(cell.kind)
    turn = f" rotate({degrees(atan2(-aside, tall)):.3g})" if aside else ""
    return f'<use class="{state}" href="#{name}" transform="translate({x + aside:g},{foot:g}){turn}"/>'


def _sign(kind: str, signs: dict[str, str]) -> str:
    """The name of a stitch's sign, which is defined once."""
    if kind not in signs:
        shapes = "".join(
            f'<path class="{"f" if shape.fill else "s"}" d="{_written(shape.path)}"/>'
            for shape in parted(kind)
        )
        signs[kind] = f'<g id="s{len(signs)}">{shapes}</g>'
    return f"s{list(signs).index(kind)}"


def _written(path: Path) -> str:
    return "".join(letter + ",".join(f"{figure:.4g}" for figure in figures) for letter, figures in path)
