"""How a piece is filled, folded and held while it is worked: none of it makes a stitch.

The cursor stands at the first word; what is told comes out, or None with the cursor where it was.
"""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.deeds.said import to_comma
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import Item, Say

_TOY_THINGS = frozenset(
    "eye eyes nose stuffing stuff fiberfill fibrefill filling wire pellets whiskers mouth".split()
)


def toy_here(c: Cursor) -> list[Item] | None:
    """ "Insert safety eyes 6 sts apart between R6 and R7", "begin stuffing": how a toy is finished."""
    start = c.i
    if not any(c.text(n) in _TOY_THINGS for n in range(1 if c.text() != "stuff" else 0, 5)):
        return None
    while c.kind() not in (T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.OPEN):
        if c.kind() is T.COMMA and not any(c.text(n) in _TOY_WHERE for n in range(1, 9)):
            break
        c.i += 1
    return [Say("remark", "", c.span_from(start))]


_TOY_WHERE = frozenset("apart between visible rounds rows".split())
"""Words that go on telling where eyes are put."""


_OF_PETALS = frozenset("petal petals layer flower".split())


def petals_here(c: Cursor) -> list[Item] | None:
    """ "Push the petals forward", "fold the petals toward you and work into the back of the sts between them"."""
    n = 0
    words: set[str] = set()
    while c.kind(n) in (T.WORD, T.HYPHEN):
        if n and c.text(n - 1) in ("and", "then") and stitch_here(c, n) is not None:
            break
        words.add(c.text(n))
        n += 1
    if (
        not words & _OF_PETALS
        or c.kind(n) in (T.NUMBER, T.ORDINAL)
        or {"each", "next", "repeat", "rep"} & words
    ):
        return None
    start = c.i
    c.i += n
    return [Say("remark", "", c.span_from(start))]


def fold_here(c: Cursor) -> list[Item] | None:
    """ "Fold flat and …", "flatten the wing,": how the piece is held while it is worked."""
    start = c.i
    while c.kind() in (T.WORD, T.HYPHEN) and not _then_works(c):
        c.i += 1
    if c.text() not in ("and", "then"):
        # a sentence of its own: a remark like others
        c.i = start
        return None
    return [Say("remark", "", c.span_from(start))]


def hold_here(c: Cursor) -> list[Item] | None:
    """ "Hold first and last rows together": how pieces lie while they are worked."""
    start = c.i
    while c.kind() in (T.WORD, T.HYPHEN) and not _then_works(c):
        c.i += 1
    together = "together" in {token.text for token in c.tokens[start : c.i]}
    if together and _then_works(c):
        # "hold base and cone together and sc in each st around"
        return [Say("remark", "", c.span_from(start))]
    c.i = start
    found = to_comma(c, start, "remark")
    if "together" not in {token.text for token in c.tokens[start : c.i]}:
        c.i = start
        return None
    return found


def _then_works(c: Cursor) -> bool:
    """True for the "and" of "fold flat and sc across", "flatten and work 6 sc": what it leads to is worked."""
    n = 2 if c.text(1) in ("work", "crochet", "make") else 1
    return c.text() in ("and", "then") and (c.value(n) is not None or stitch_here(c, n) is not None)
