"""Filet: which squares a row is made of. Worked rows come in; windows and blocks go out, None for a row of no mesh.

One square is an upright and its filling, and neighbours share an upright: n squares of mesh with m chains in a window
stand on (m + 1) × n + 1 stitches.
"""

from tracker.fabric.model import CH, HIDDEN, SP, Element, Fabric, WorkedRow
from tracker.trade.stitches import STITCHES

LOOKED_AT = 60
"""Rows looked at to tell whether a piece is filet."""


def mesh_of(fabric: Fabric) -> int | None:
    """Chains of a window, 1 or 2 (rarely 3), when the piece is filet; None when it is not."""
    rows = [placed.worked for stretch in fabric.stretches for placed in stretch.rows][:LOOKED_AT]
    spaces = [element.chains for row in rows for element in row.elements if element.kind == SP]
    best: int | None = None
    for mesh in (1, 2, 3):
        if spaces.count(mesh) * 2 <= len(spaces):
            continue
        fitting = [found for row in rows if row.understood and (found := squares_of(row, mesh)) is not None]
        windows = sum(found.count(True) for found in fitting)
        if windows >= 2 and len(fitting) * 3 >= len(rows) * 2:
            best = mesh
    return best


def squares_of(worked: WorkedRow, mesh: int) -> tuple[bool, ...] | None:
    """The squares of a row in the order made, True for a window; None when it is not made of squares."""
    if _widened(worked):
        return None
    open_at: set[int] = set()
    at = 0
    kinds: set[str] = set()
    for element in worked.elements:
        if element.kind == HIDDEN:
            continue
        if element.kind == SP:
            if element.chains != mesh or at % (mesh + 1) != 1:
                return None
            open_at.add(at // (mesh + 1))
        elif not _is_upright(element):
            return None
        else:
            kinds.add(element.kind)
        at += width(element)
    if len(kinds) != 1 or at < 2 or (at - 1) % (mesh + 1):
        return None
    return tuple(square in open_at for square in range((at - 1) // (mesh + 1)))


def _widened(worked: WorkedRow) -> bool:
    """True for a row with several stitches in one stitch, or a space made in one place with stitches: no squares."""
    last: tuple[int, ...] = ()
    for element in worked.elements:
        if element.kind == SP and element.group:
            return True
        if element.into:
            under = worked.below[element.into[0]].kind if element.into[0] < len(worked.below) else SP
            if element.into == last and under not in (SP, CH):
                return True
            last = element.into
    return False


def counts_of_squares(worked: WorkedRow, mesh: int, squares: int, windows: int) -> dict[str, int] | None:
    """What stands on a row of so many squares, so many of them open; None for a row that holds more than squares."""
    found = squares_of(worked, mesh)
    if found is None or not 0 <= windows <= squares:
        return None
    upright = next(element.kind for element in worked.elements if element.is_stitch)

    def counts(many: int, opened: int) -> dict[str, int]:
        held = {upright: many + 1 + mesh * (many - opened), f"ch-{mesh} sp": opened}
        return {name: number for name, number in held.items() if number}

    return counts(squares, windows) if counts(len(found), found.count(True)) == worked.makes else None


def squares_done(elements: tuple[Element, ...], mesh: int) -> int:
    """How many squares are closed by these elements, from the start of a row."""
    return max(0, (sum(map(width, elements)) - 1) // (mesh + 1))


def is_edge(elements: tuple[Element, ...], mesh: int) -> bool:
    """True when these elements, from the start of a row, end with a square closed."""
    at = sum(map(width, elements))
    return at >= 1 and (at - 1) % (mesh + 1) == 0


def width(element: Element) -> int:
    """How many stitches of the foundation it stands over."""
    if element.kind == HIDDEN:
        return 0
    return element.chains if element.kind == SP else 1


def _is_upright(element: Element) -> bool:
    stitch = STITCHES.get(element.kind)
    return stitch is not None and stitch.height >= 3 and not stitch.closes and element.kind != "tile"
