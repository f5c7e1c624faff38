"""Which side of a flat piece faces the maker, told by the tail that was left at its first chain.

A place comes in; a few words go out, "" where the tail tells nothing: in the round, on a ring, before the first row. A
right-handed maker works the first row from the hook's end of the chain towards its tail, so the tail hangs at the lower
left of the side that faced on row one; every turn puts it on the other side, and for a left-handed maker all is the
other way about (common practice, no source).
"""

from tracker.program.parts import chains_of
from tracker.program.places import Place, Program


def tail_corner(program: Program, place: Place, left_handed: bool) -> str:
    """ "lower left" or "lower right" while the row at a place is being worked; "" where the tail does not tell."""
    part = program.part(place)
    if part is None or program.placed(place) is None or not _begun_on_a_chain(program, place):
        return ""
    turns = _turns(program, part.first, place[2])
    if turns is None:
        return ""
    return "lower right" if bool(turns % 2) != left_handed else "lower left"


def _begun_on_a_chain(program: Program, place: Place) -> bool:
    start = program.part_start(place[0], place[1])
    while start[3] < 0:
        aside = program.aside(start)
        if aside is not None and chains_of(aside):
            return True
        start = program.next(start)
    return False


def _turns(program: Program, first: int, row: int) -> int | None:
    """How often the work was turned between the first row and this one; None when it was not all worked in rows."""
    turns, start = 0, 1
    for stretch in program.fabric.stretches:
        many = len(stretch.rows)
        for k, placed in enumerate(stretch.rows):
            at = start + k
            if at > row:
                break
            times = min(stretch.times, (row - at) // many + 1)
            earliest = max(0, -(-(first - at) // many))
            if times <= earliest:
                continue
            if placed.kind not in ("row", "foundation"):
                return None
            if placed.worked.turned:
                turns += times - earliest - (1 if earliest == 0 and at == first else 0)
        start += stretch.length
        if start > row:
            break
    return turns
