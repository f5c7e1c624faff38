"""Words that tell how stitches are worked and work none: "with a bead on the second ch", "work colours as they face".

The cursor stands on the first of them; a remark is added and the cursor moves past it, or nothing happens.
"""

from tracker.notation.phrase.cursor import STOPS, Cursor
from tracker.notation.scan import T
from tracker.notation.tree import Item, Say, Where, Which, Work

_WITH_BEAD = frozenset(
    "with slide sliding push pushing place placing add adding bring bringing slipping".split()
)
_KEEPS = frozenset("work working keep keeping match matching follow following".split())
HOW_TOLD = _WITH_BEAD | _KEEPS
"""What such words begin with."""
_BEADS = ("bead", "beads")
_COLOURS = ("color", "colors", "colour", "colours")
_AS_THEY = frozenset("face appear present stand lie come are shown were correct set".split())


def how_worked(c: Cursor, items: list[Item]) -> bool:
    """True for such words, which are kept as a remark."""
    end = 0
    while c.kind(end) not in STOPS and c.kind(end) is not T.OPEN and end < 14:
        end += 1
    words = [c.text(k) for k in range(end)]
    beads = words[0] in _WITH_BEAD and any(word in _BEADS for word in words[1:6])
    colours = (
        words[0] in _KEEPS and any(word in _COLOURS for word in words[1:4]) and bool(_AS_THEY & set(words))
    )
    if not (beads or colours):
        return False
    start = c.i
    c.i += end
    if colours and c.kind() is T.COLON:
        c.i += 1
    items.append(Say("remark", "", c.span_from(start)))
    return True


EDGES_OF_TILES = ("dec", "decrease", "inc", "increase")


def edge_of_tiles(c: Cursor, items: list[Item]) -> bool:
    """ "Decrease, 5 tiles": slip stitches lead to the first of them; "increase, 4 tiles": one more begins the row."""
    if c.kind(1) is not T.COMMA or items:
        return False
    tile = next((s.name for s in c.context.specials.values() if s.base == "tile"), None)
    if tile is None:
        return False
    start = c.i
    c.i += 1
    span = c.span_from(start)
    grows = c.text(-1).startswith("inc")
    items.append(Work(tile, 1, Where(Which.MADE, span), span) if grows else Say("remark", "", span))
    return True
