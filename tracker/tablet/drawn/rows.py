"""The row in hand and those under it as SVG, the place lit: windows open, blocks filled, stitches as on a chart.

Comes in: rows as they lie. Goes out: SVG as text, with classes for its colours; an abbreviation out of a
pattern is escaped. Each state has a form of its own: done is drawn in full, in hand is heavy on a lit ground
with a mark over it, to come is dashed.
"""

from html import escape
from math import atan2, degrees

from tracker.charts.drawing import Path
from tracker.charts.signs.symbols import height_of, parted
from tracker.looks.rows import Strip, eased, waves, window
from tracker.session.seen.lying import Cell, Shape

_SQUARE, _STITCH = 24.0, 14.0
"""Units from square to square, from stitch to stitch."""
_ACROSS = {True: 24, False: 36}
"""Squares, or stitches, that are drawn of a row at most."""
_MARGIN = 60.0
"""Units at each side, for a row's name and its edge."""
_DEEPEST = 84.0
"""Units that rows may fall and rise; a piece that does more, such as a shawl from its spine, is drawn less steep."""
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
    drops = _dropped(rows, start, across, wide)
    for row in rows:
        high = _high(row)
        out.append(_row(row, most, start, across, wide, y, high, signs, drops))
        # On a slope the rows stand closer than their stitches are high.
        y += high + _GAP + (_GAP if any(drops) else 0)
    y += max(drops, default=0.0)
    width = across * wide + 2 * _MARGIN
    defined = "".join(signs.values())
    return (
        f'<svg viewBox="0 0 {width:g} {y:g}" role="img" aria-label="{escape(_words(rows[0]))}">'
        f"<defs>{defined}</defs>{''.join(out)}</svg>"
    )


def _dropped(rows: tuple[Strip, ...], start: int, across: int, wide: float) -> tuple[float, ...]:
    """Units that each column in sight lies below the highest: of rows that rise and fall."""
    drops = () if rows[0].filet else waves(rows)[start : start + across]
    lower = eased(tuple((drop - min(drops)) * wide for drop in drops), _DEEPEST) if drops else ()
    return lower or (0.0,) * across


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
    row: Strip,
    most: int,
    start: int,
    across: int,
    wide: float,
    y: float,
    high: float,
    signs: dict[str, str],
    drops: tuple[float, ...],
) -> str:
    before = (most - len(row.cells)) // 2
    slopes = _slopes(row, before - start, drops, wide)
    out: list[str] = []
    lit: list[float] = []
    lit_drops: list[float] = []
    for at, ((cell, _), foot) in enumerate(zip(row.lying, row.feet, strict=True)):
        column = before + at - start
        if not 0 <= column < across:
            continue
        x = _MARGIN + column * wide
        drop, tall = (
            drops[column],
            height_of(cell.kind) if cell.kind else 0.0,
        )  # a stitch stands square to its row
        if cell.current and not cell.done:
            lit.append(x)
            lit_drops.append(drop)
        out.append(
            _square(cell, x, y, wide)
            if row.filet
            else _stitch(
                cell, foot * wide - slopes[column + foot] * tall, x + wide / 2, y + drop, high, signs
            )
        )
    mark = ""
    if lit:
        left, right = min(lit), max(lit) + wide
        middle = lit_drops[len(lit_drops) // 2]
        mark = (
            f"{_ground(lit, lit_drops, wide, y - 2, high + 4)}"
            f'<path class="mark" d="M{(left + right) / 2:g},{y + middle - 3:g}l-6,-8h12z"/>'
        )
    label = escape(row.label.partition(" ")[2] or row.label)
    arrow = "◄" if row.leftward else "►"
    seen = [column for at in range(len(row.cells)) if 0 <= (column := before + at - start) < across]
    ends = (drops[seen[0]], drops[seen[-1]]) if seen else (0.0, 0.0)
    middle = y + high / 2 + 5
    right_end = _MARGIN + across * wide
    # The row's name stands where the row begins.
    beside, anchor = (right_end + 8, "start") if row.leftward else (_MARGIN - 8, "end")
    hidden = start + across < most if row.leftward else start > 0
    more = "… " if hidden else ""
    named = f"{more}{arrow} {label}" if row.leftward else f"{label} {arrow}{more[::-1]}"
    cut = "".join(
        f'<text x="{at:g}" y="{middle + ends[side == "start"]:g}" text-anchor="{side}">…</text>'
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
    level = middle + ends[row.leftward]
    name = f'<text x="{beside:g}" y="{level:g}" text-anchor="{anchor}">{named}</text>'
    return f'<g class="{kind}">{mark}{"".join(out)}{edge}{cut}{name}</g>'


def _ground(lit: list[float], drops: list[float], wide: float, y: float, high: float) -> str:
    """What lies under the places in hand, as low as each of them."""
    if max(drops) == min(drops):
        long, top = max(lit) + wide - min(lit), y + drops[0]
        return f'<rect class="lit" x="{min(lit):g}" y="{top:g}" width="{long:g}" height="{high:g}"/>'
    over = [(x, y + drop) for x, drop in zip(lit, drops, strict=True)]
    edge = [point for x, top in over for point in ((x, top), (x + wide, top))]
    points = [*edge, *((x, top + high) for x, top in reversed(edge))]
    return f'<path class="lit" d="M{"L".join(f"{x:g},{top:g}" for x, top in points)}z"/>'


def _slopes(row: Strip, first: int, drops: tuple[float, ...], wide: float) -> dict[float, float]:
    """How much the row falls to the right at each place that is gone into; stitches in one place have one foot."""
    found: dict[float, list[float]] = {}
    for column, foot in enumerate(row.feet, first):
        if 0 <= column < len(drops):
            found.setdefault(column + foot, []).append(_slope(drops, column, wide))
    return {place: sum(own) / len(own) for place, own in found.items()}


def _slope(drops: tuple[float, ...], column: int, wide: float) -> float:
    """How much the row falls there for one unit to the right."""
    before, after = drops[max(0, column - 1)], drops[min(column + 1, len(drops) - 1)]
    apart = min(column + 1, len(drops) - 1) - max(0, column - 1)
    return (after - before) / (apart * wide) if apart else 0.0


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
