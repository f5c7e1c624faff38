"""Phrases that begin with a sign or a number: brackets, stars, "6 times (…)", plain numbers."""

from tracker.notation.phrase.cursor import STOPS, Cursor
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.repeats.unmarked import repeated, squares_along, starred_along
from tracker.notation.phrase.row.colours import colours_here
from tracker.notation.phrase.row.going_on import to_the_end
from tracker.notation.phrase.row.marks.brackets import bracket
from tracker.notation.phrase.row.marks.star import star
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.works.movement import moved_together
from tracker.notation.phrase.works.placing import unplaced
from tracker.notation.scan import T
from tracker.notation.tree import Chain, Item, Mark, Prose, Repeat, Say, Skip, Turning, Where, Which, Work
from tracker.problems import Span
from tracker.records import replace

STARS = 60
"""Stars of one row that are followed; no pattern has as many, and each may hold all those after it. The rest of a row
with more is told as prose."""
ROWS = frozenset("row rows rnd rnds round rounds".split())
_BEGINNING = ("start", "starting", "begin", "beginning")


def bracketed(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """A bracket, whatever it holds: a colour, a place, a movement, work that is repeated."""
    coloured = colours_here(c) if c.kind(2) is T.CLOSE else None
    if coloured is not None:
        # "sc in each st across (MC) 17": the colour of what is worked already
        items.extend([Say("colour", "", coloured[0].span)] if items and to_the_end(items[-1]) else coloured)
    elif c.text(1) in _BEGINNING and just_one(items) and _from_hook(c, items):
        pass
    elif (gathered := moved_together(c)) is not None:
        items.extend(gathered)
    elif items is not reading.items or not repeated(c, items):
        bracket(c, reading, items)
    return True


def starred(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """A star, and all that it begins."""
    reading.stars += 1
    if reading.stars == 1 and items is reading.items and _opens_nothing(c, items):
        return True
    if reading.stars <= STARS:
        star(c, items)
        return True
    items.append(Prose("", Span(c.token().start, c.tokens[c.end - 1].end)))
    reading.unread = True
    c.i = c.end
    return True


def _opens_nothing(c: Cursor, items: list[Item]) -> bool:
    """ "Sc in next, inc in next *, rep from * around": a star behind what is worked over and over, and none before."""
    start, sign = c.i, c.text()
    c.i += 1
    if c.token(-1).end == c.token().start and c.kind() is T.WORD:
        # "…, 2 sc in next sc; *rep from *": a star that has lost its place
        c.i = start
        return False
    while c.kind() in (T.COMMA, T.SEMICOLON, T.PERIOD):
        c.i += 1
    if c.text() in ("rep", "repeat", "repeating") and repeated(c, items, sign):
        return True
    c.i = start
    return False


def rows_again(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "Rnds 5-9: sc around (24), 5 rounds": the number of rows, told once more; nothing is worked for it."""
    if (
        items is not reading.items
        or not items
        or c.value() != c.context.rows_named
        or c.text(1) not in ROWS
        or c.kind(2) not in STOPS
    ):
        return False
    items.append(Say("remark", "", Span(c.token().start, c.token(1).end)))
    c.i += 2
    return True


def repeated_so_far(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """What the row has worked, told how often."""
    return items is reading.items and (
        repeated(c, items) or starred_along(c, items) or squares_along(c, items)
    )


def plain_number(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "4, X, 4" where a number alone is so many plain stitches."""
    if not c.context.plain or c.kind(1) not in STOPS and c.kind(1) is not T.OPEN:
        return False
    start = c.i
    c.i += 1
    span = c.span_from(start)
    items.append(Work(c.context.plain, c.value(-1) or 0, Where(Which.STRAIGHT, span), span))
    return True


_SHAPES = frozenset("inc dec incs decs increase decrease invdec".split())
"""Beside what a number alone is so many plain stitches."""


_ALL_ROUND = ("around", "round", "all", "even", "evenly", "plain")
"""What may stand behind a number of plain stitches: "24 around"."""


def bare_number(c: Cursor, items: list[Item]) -> Work | None:
    """ "(1, inc) x 6", "Rnds 5-8: 24": so many plain stitches of a round, as toys are written; taken, or None."""
    number = c.value()
    if number is None or not 0 < number < 500 or not _in_rounds(c):
        return None
    behind = c.kind(1)
    if behind in (T.COMMA, T.CLOSE, T.END, T.PERIOD) and c.kind() is T.NUMBER:
        beside = {c.text(k) for k in (-2, 2)} | ({c.text(3)} if c.kind(2) is T.NUMBER else set())
        whole = not items and behind in (T.END, T.PERIOD) and c.i == 0
        if whole or _SHAPES & beside and c.kind(-1) in (T.OPEN, T.STAR, T.COMMA, T.END):
            c.i += 1
            span = c.span_from(c.i - 1)
            return Work(c.context.base, number, Where(Which.STRAIGHT, span), span)
    if number < 5 and c.text(1) in ("in", "into") and c.text(2) in ("each", "every"):
        return _in_each(c, number, items)
    if c.i == 0 and not items and c.kind() is T.NUMBER and c.text(1) in _ALL_ROUND:
        end = 2 + (c.text(1) == "all" and c.text(2) in _ALL_ROUND)
        if c.kind(end) in (T.END, T.PERIOD, T.OPEN):
            # "24 around"
            c.i += end
            span = c.span_from(0)
            return Work(c.context.base, number, Where(Which.STRAIGHT, span), span)
    return None


def _in_rounds(c: Cursor) -> bool:
    """True for a round by its label: "Rnd 3", "Next round"."""
    label = (c.context.row or "").lower()
    return label.startswith("rnd") or label.endswith(("round", "rnd"))


def _in_each(c: Cursor, number: int, items: list[Item]) -> Work | None:
    """ "Next round: two in each": a round of the stitch it stands on, and none is named before it."""
    start = c.i
    if c.kind(-1) not in (T.END, T.COMMA, T.PERIOD, T.COLON) and c.text(-1) not in ("work", "make") and start:
        return None
    if not all(isinstance(item, (Chain, Turning, Say)) for item in items):
        return None
    c.i += 1
    where = where_here(c)
    if where is None or len(where) > 1 or where[0].which is not Which.EACH:
        c.i = start
        return None
    return Work(c.context.base, number, where[0], c.span_from(start))


def number_of_a_toy(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "(1, inc) x 6": see `bare_number`."""
    plain = bare_number(c, items)
    if plain is not None:
        items.append(plain)
    return plain is not None


def _from_hook(c: Cursor, items: list[Item]) -> bool:
    """ "17 M [start in 2nd ch from hook]": where the stitches before the bracket begin."""
    start, close = c.i, c.partners.get(c.i)
    c.i += 2
    where = where_here(c)
    if close is None or c.i != close or where is None:
        c.i = start
        return False
    first = where[0]
    if first.which is Which.NTH and [kind.name for kind in first.kinds] == ["ch"] and first.nth < 9:
        # "(start in 2nd ch)"
        first = replace(first, which=Which.FROM_HOOK, kinds=())
    if first.which is not Which.FROM_HOOK:
        c.i = start
        return False
    c.i += 1
    items[-1:] = [Skip(first, c.span_from(start)), items[-1]]
    return True


def just_one(items: list[Item]) -> bool:
    """True when nothing but one run of stitches has been worked, with no place of its own."""
    works = [item for item in items if not isinstance(item, (Say, Mark))]
    along = len(works) == 1 and isinstance(works[0], Work) and works[0].where.which is Which.EACH
    again = len(works) == 1 and isinstance(works[0], Repeat) and works[0].times is not None
    return len(works) == 1 and works[0] is items[-1] and (along or again or unplaced(items[-1]))
