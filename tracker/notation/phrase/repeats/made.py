""" "Rep from * until you have 8 petals", "until 6 points are made": how often that is.

What stands before the star and what is repeated come in; a number of passes comes out, or None where the words ask for
something that cannot be counted in them.
"""

from collections.abc import Sequence

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.nouns import number_here
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.tree import Chain, Group, Item, Repeat, Which, Work

_LOOPS = frozenset("loop loops lp lps sp sps space spaces arch arches".split())
_GROUPS = frozenset(
    "petal petals point points group groups shell shells fan fans scallop scallops leaf leaves spoke spokes corner "
    "corners cluster clusters ray rays arm arms repeat repeats motif motifs bump bumps picot picots time times".split()
)
_MADE = frozenset("made worked complete completed done formed".split())


def until_made(c: Cursor, before: Sequence[Item], body: Sequence[Item]) -> int | None:
    """The passes that "until you have 6 loops" asks for; None, with the cursor where it was, for other words."""
    start = c.i
    if not c.take_any("until", "till"):
        return None
    if (passes := _worked_so_often(c)) is not None:
        return passes
    told = c.take("you", "have") or c.take("there", "are") or c.take("you", "have", "made")
    c.take_any("a", "made", "all")
    c.take("total", "of")
    number = number_here(c)
    c.take("ch") and (c.kind().name == "HYPHEN" and c.step()) and number_here(c)
    noun = c.take_any(*_LOOPS, *_GROUPS)
    stitch = None if noun else stitch_here(c)
    if number is None or not (noun or stitch is not None and told):
        c.i = start
        return None
    c.i += 0 if stitch is None else stitch.tokens
    if c.text() in ("left", "remaining", "unworked", "rem", "remain"):
        # "until there are 2 sc left" is where it ends
        c.i = start
        return None
    while c.take_any("are", "have", "been", "is", "in", "all", "total", "altogether", "around"):
        told = True
    told = bool(c.take_any(*_MADE)) or told
    of_one = _many(body, noun, stitch.name if stitch is not None else "")
    if not told or not of_one:
        c.i = start
        return None
    done = (
        _many(before, noun, stitch.name if stitch is not None else "")
        if noun not in _GROUPS
        else _groups(before)
    )
    passes, over = divmod(number - done, of_one)
    if over or passes < 1:
        c.i = start
        return None
    return passes


def _worked_so_often(c: Cursor) -> int | None:
    """ "You have worked it 3 times": how often in all; None, with the cursor where it was, for other words."""
    start = c.i
    c.take("you've") or c.take("you", "have") or c.take("it", "has", "been") or c.take("this", "has", "been")
    if c.take_any("worked", "done", "made", "repeated", "completed"):
        c.take("the")
        c.take_any(
            "it", "this", "that", "these", "them", "pattern", "repeat", "section", "sequence", "instructions"
        )
        if (told := c.times_here()) is not None:
            c.i += told[1]
            c.take("in", "all") or c.take("in", "total") or c.take("altogether")
            return told[0]
    c.i = start
    return None


def _many(items: Sequence[Item], noun: str, stitch: str) -> int:
    """How many of what is named the items make: a group is one whatever it holds."""
    if noun in _GROUPS:
        return 1
    many = 0
    for k, item in enumerate(items):
        if isinstance(item, Chain) and noun:
            # the chain that a round rises on is a loop only when it is long
            many += k > 0 or item.count > 3 or len(items) > 1 and isinstance(items[1], Work)
        elif isinstance(item, (Group, Repeat)):
            many += _many(item.items, noun, stitch) * (
                item.times or 1 if isinstance(item, Repeat) else item.where.many
            )
        elif isinstance(item, Work) and item.stitch == stitch:
            many += item.count * (1 if item.where.which is Which.STRAIGHT else max(1, item.where.many))
    return many


def _groups(items: Sequence[Item]) -> int:
    """Groups told before the star; also the spoke that "ch 6" is the first of."""
    rises = any(isinstance(item, Chain) and item.count > 3 for item in items)
    return sum(isinstance(item, Group) for item in items) + rises
