"""One phrase: what it says is added to the items; prose when it can't be read."""

from tracker.notation.phrase.chatty.hook import PUTS, hook_put
from tracker.notation.phrase.cursor import SLIPS, STOPS, Cursor
from tracker.notation.phrase.deeds.deed import deed_here
from tracker.notation.phrase.deeds.joins import slipped_to_join
from tracker.notation.phrase.deeds.said import to_other_motif
from tracker.notation.phrase.pieces import piece_here
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.repeats.corners import corner_here
from tracker.notation.phrase.repeats.endings import ending_here
from tracker.notation.phrase.repeats.stars import repeat_here
from tracker.notation.phrase.repeats.unmarked import alternating, repeated, run_together
from tracker.notation.phrase.row.brackets import bracket, holds_work, times_ahead
from tracker.notation.phrase.row.colours import colour_in, colours_here, in_colour, tiles_counted
from tracker.notation.phrase.row.counts import count_ahead
from tracker.notation.phrase.row.going_on import (
    CLOSER,
    alternates,
    attach,
    chained,
    closes_picot,
    gather,
    goes_on,
    loosely,
    to_the_end,
    told_closer,
)
from tracker.notation.phrase.row.how import EDGES_OF_TILES, HOW_TOLD, edge_of_tiles, how_worked
from tracker.notation.phrase.row.place_first import place_first
from tracker.notation.phrase.row.prose import names_edge, prose
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.row.star import repeats_unstarred, star
from tracker.notation.phrase.row.told_again import (
    as_before,
    back_along,
    bare_number,
    by_row_ends,
    changes_the_last,
    closes_spiral,
    sews,
    shapes_somewhere,
    skips_chains,
    stops_short,
    told_twice,
)
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.phrase.told.turning import SAYS, STANDS, says_of, stood_for
from tracker.notation.phrase.works.borders import border_here
from tracker.notation.phrase.works.legs import with_legs
from tracker.notation.phrase.works.movement import HOLDING, held, moved_together
from tracker.notation.phrase.works.placing import grouped, unplaced
from tracker.notation.phrase.works.work import work_here
from tracker.notation.scan import T
from tracker.notation.tree import (
    Chain,
    Group,
    Item,
    Mark,
    Prose,
    Repeat,
    Say,
    Skip,
    Turn,
    Where,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.records import replace

_LIGHT = frozenset(
    "and then now & loosely tightly firmly also next: again more that so finally lastly afterwards plus".split()
)


_MAKES = frozenset("do put throw pop add crochet".split())
"""What is done with a stitch: "put a dc in the next st"."""
_ENDING_STARTS = frozenset(
    "ending end omitting omit working placing last with ends finishing leaving replacing replace stopping on".split()
)
"""Words that may tell what changes in a last pass."""
_PLACE_STARTS = frozenset(
    "in into over around working work using through next last each across along make place "
    "blo flo bl fl back front".split()
)
"""Words that may name a place before what is worked in it."""

_BEGINNING = ("start", "starting", "begin", "beginning")
_EDGES = ("edge", "border", "selvedge", "selvage")
"""What a stitch at an end of a row may be called: "edge sc"."""
_GOES_ON = frozenset("in into each every next over of across around to".split())
"""Words by which the stitch before goes on in further places."""

STARS = 60
"""Stars of one row that are followed; no pattern has as many, and each may hold all those after it. The rest of a row
with more is told as prose."""


def phrase(c: Cursor, reading: Reading, items: list[Item]) -> None:
    """One phrase; what it says is added to the items. Prose when it can't be read."""
    kind = c.kind()
    start = c.i
    if kind is T.OPEN:
        coloured = colours_here(c) if c.kind(2) is T.CLOSE else None
        if coloured is not None:
            # "sc in each st across (MC) 17": the colour of what is worked already
            items.extend(
                [Say("colour", "", coloured[0].span)] if items and to_the_end(items[-1]) else coloured
            )
            return
        if c.text(1) in _BEGINNING and _just_one(items) and _from_hook(c, items):
            return
        if (gathered := moved_together(c)) is not None:
            items.extend(gathered)
        elif items is not reading.items or not repeated(c, items):
            bracket(c, reading, items)
        return
    if kind in (T.NUMBER, T.TIMES, T.WORD) and times_ahead(c, reading, items):
        return
    if items is reading.items and (_rows_again(c, items) or repeated(c, items)):
        return
    if (told := corner_here(c)) is not None:
        items.extend(told)
        return
    if (told := border_here(c, items)) is not None:
        items.extend(told)
        return
    if kind is T.STAR:
        reading.stars += 1
        if reading.stars > STARS:
            span = Span(c.tokens[start].start, c.tokens[c.end - 1].end)
            items.append(Prose("", span))
            reading.unread = True
            c.i = c.end
            return
        star(c, items)
        return
    if (
        sews(c, items)
        or stops_short(c, items)
        or closes_spiral(c, items)
        or told_twice(c, items)
        or by_row_ends(c, items)
        or changes_the_last(c, items)
        or shapes_somewhere(c, items)
        or skips_chains(c, items)
    ):
        return
    word = c.text()
    if word in c.context.colours and (ahead := _colour_ahead(c, items)):
        # "Black sc in next 4 sts", "C1, 1 ch, …"
        c.i += ahead
        items.append(Say("colour", "", c.span_from(start)))
        return
    if c.context.plain and kind is T.NUMBER and c.kind(1) in (*STOPS, T.OPEN):
        # "4, X, 4" where a number alone is so many plain stitches
        c.i += 1
        span = c.span_from(start)
        items.append(Work(c.context.plain, c.value(-1) or 0, Where(Which.STRAIGHT, span), span))
        return
    if (
        word in _EDGES
        and (edge := stitch_here(c, 1)) is not None
        and edge.special is None
        and not stitch_here(c)
    ):
        c.i += 1
        phrase(c, reading, items)
        return
    if word in HOW_TOLD and how_worked(c, items):
        return
    if word in EDGES_OF_TILES and edge_of_tiles(c, items):
        return
    if (
        word == "you"
        and items is reading.items
        and "have" in (c.text(1), c.text(2))
        and count_ahead(c, reading)
    ):
        return
    if (tiles := tiles_counted(c)) is not None:
        reading.tell(tiles)
        return
    if word in c.context.colours and c.kind(1) is T.COLON and c.kind(2) is not T.NUMBER:
        # "MC: sc in each st"
        c.i += 2
        items.append(Say("colour", "", c.span_from(start)))
        return
    alone = c.kind(-1) in (T.COMMA, T.SEMICOLON) and {"other", "opposite"} & {c.text(1), c.text(2)}
    if items and not alone and (length := piece_here(c)):
        named = [c.text(n) for n in range(1, length) if c.text(n) != "the"]
        c.i += length
        in_hand = named == (c.context.part or "").lower().split()
        items.append(Say("remark" if in_hand else "piece", "", c.span_from(start)))
        return
    if word in ("keep", "continue", "cont", "alternating", "alternate", "by", "work"):
        turns = alternating(c)
        if turns is not None:
            items.append(turns)
            return
    if word in PUTS and any(c.text(n) == "hook" for n in (1, 2, 3, 4)) and (put := hook_put(c)) is not None:
        items.extend(put)
        return
    if kind is T.NUMBER and (plain := bare_number(c, items)) is not None:
        items.append(plain)
        return
    if (
        word in ("start", "begin", "starting", "beginning", "commence")
        and c.text(1) == "with"
        and c.value(2) is not None
        and stitch_here(c, 3) is not None
    ):
        # "start with 6 sc in a magic ring"
        c.i += 2
        return
    if (
        word in _LIGHT
        or word in _MAKES
        and (c.text(1) in ("a", "an") or c.value(1) is not None)
        and stitch_here(c, 2) is not None
        or word in ("do", "crochet")
        and c.value(1) is not None
        or word in ("start", "begin")
        and c.value(1) is not None
    ):
        c.i += 1
        return
    if word in ("rep", "repeat", "repeating", "reps"):
        c.i += 1
        if holds_work(c, c.i):
            # "rep [sc in next st, ch 1] across": what is told how often stands behind the word
            return
        if repeat_here(c, items, reading.kept):
            reading.unread = reading.unread or bool(items) and isinstance(items[-1], Prose)
            return
        c.i = start + 1
        if items is reading.items and repeats_unstarred(c, reading, start):
            return
        c.i = start
    if word == "do" and c.text(1) in ("that", "this", "these", "it") and items is reading.items:
        # "*ch 3, skip 1, sl st in next.* Do that five times in all."
        c.i += 2
        if repeat_here(c, items, reading.kept) and isinstance(done := items[-1], Repeat):
            if done.times is None and done.further:
                items[-1] = replace(done, times=done.further, further=None)
            return
        c.i = start
    if word in ("work", "then") and c.text(1) == "from" and c.kind(2) is T.STAR:
        c.i += 1
        if repeat_here(c, items, reading.kept):
            return
        c.i = start
    if word in CLOSER and told_closer(c, items):
        return
    if word in HOLDING and held(c, items):
        return
    own = stitch_here(c) if word in _ENDING_STARTS and c.context.specials else None
    turned = len(items) > 1 and isinstance(items[-1], Turn)
    chained_last = bool(items) and isinstance(items[-2 if turned else -1], Chain)
    if chained_last and word in STANDS and (stood := stood_for(c)) is not None:
        items.append(stood)
        return
    if chained_last and word in SAYS and (says := says_of(c)) is not None:
        items.append(says)
        return
    if word == "not" and c.text(1) == "counting" and items and (says := says_of(c)):
        items.append(says)
        return
    if names_edge(c):
        # "Inc 1 blk", and nobody tells how
        prose(c, reading, items)
        return
    lands = word in ("work", "place") and "last" in (c.text(1), c.text(2) if c.text(1) == "the" else "")
    if lands or word in _ENDING_STARTS and (own is None or own.special is None):
        ending = ending_here(c)
        if ending is not None:
            attach(items, ending)
            return
    if (
        word == "all"
        and c.text(1) in ("in", "into")
        and items
        and isinstance(once := items[-1], Repeat)
        and once.times == 1
        and not once.star
    ):
        c.i += 1
        where = where_here(c)
        if where is not None:
            items[-1:] = grouped(list(once.items), where, c, start)
            return
        c.i = start
    if word == "all" and c.text(1) in ("in", "into"):
        c.i += 1
        where = where_here(c)
        if (
            where is not None
            and where[0].nth == -1
            and where[0].kinds
            and where[0].kinds[0].name not in ("sp", "corner", "ch", "st")
        ):
            items.append(Say("remark", "", c.span_from(start)))
            return
        if where is not None and gather(c, items, where):
            return
        c.i = start
    if word in ("in", "into") and c.text(-1) != "," and chained(c, items):
        return
    found = to_other_motif(c) if word in (*SLIPS, "join", "drop", "remove", "insert") else None
    if found is None:
        found = work_here(c)
    if found is not None and c.text() == "as" and c.text(1) in ("before", "above"):
        found = as_before(c, items, found)
    if found is not None:
        found = loosely(c, items, closes_picot(c, items, in_colour(c, found)), start)
        found = slipped_to_join(c, found, start)
    if found is None:
        found = deed_here(c)
    one_more = c.value() is not None and c.text(1) in ("in", "into") and not c.token(1).fresh
    if found is None and (word in _GOES_ON or one_more) and _joined(c):
        found = goes_on(c, items)
    if found is None:
        found = colours_here(c) or colour_in(c)
    if found is None and word in _PLACE_STARTS:
        found = place_first(c)
    if found is not None:
        if alternates(c, items, found, start):
            return
        if items is reading.items and run_together(c, items, found, start):
            return
        if isinstance(found[0], Skip) and found[0].where.which is Which.FROM_HOOK and _just_one(items):
            # "16 sc starting in 2nd ch from hook": where it starts comes before what is worked
            items[-1:] = [*found, items[-1]]
            return
        items.extend(back_along(c, items, found, start))
        with_legs(c, items)
        if any(isinstance(item, Prose) for item in found):
            reading.unread = True
        return
    c.i = start
    prose(c, reading, items)


def _joined(c: Cursor) -> bool:
    """True behind "and", a comma or a bracket, with "then" or without: what goes on with the stitch before."""
    before = c.text(-2) if c.text(-1) in ("then", "also") else c.text(-1)
    return before in ("and", ")", "]", "+", "&", ",")


def _colour_ahead(c: Cursor, items: list[Item]) -> int:
    """How many tokens a colour takes that is told ahead of its row, or of the stitches behind it; 0 for none."""
    if stitch_here(c) is not None:
        return 0
    if len(c.text()) > 2 and stitch_here(c, 1) is not None:
        return 1
    first = not any(isinstance(item, (Work, Group, Repeat, Chain)) for item in items)
    lone = c.kind(1) is T.COMMA and c.text(2) not in c.context.colours and c.text(3) not in c.context.colours
    if not first or not lone or len(c.text()) != 2:
        return 0
    return 0 if any(special.base == "tile" for special in c.context.specials.values()) else 2


def _from_hook(c: Cursor, items: list[Item]) -> bool:
    """ "17 M [start in 2nd ch from hook]": where the stitches before the bracket begin."""
    start, close = c.i, c.partners.get(c.i)
    c.i += 2
    where = where_here(c)
    if close is None or c.i != close or where is None or where[0].which is not Which.FROM_HOOK:
        c.i = start
        return False
    c.i += 1
    items[-1:] = [Skip(where[0], c.span_from(start)), items[-1]]
    return True


def _rows_again(c: Cursor, items: list[Item]) -> bool:
    """ "Rnds 5-9: sc around (24), 5 rounds": the number of rows, told once more; nothing is worked for it."""
    if (
        not items
        or c.kind() is not T.NUMBER
        or c.value() != c.context.rows_named
        or c.text(1) not in ("row", "rows", "rnd", "rnds", "round", "rounds")
        or c.kind(2) not in STOPS
    ):
        return False
    items.append(Say("remark", "", Span(c.token().start, c.token(1).end)))
    c.i += 2
    return True


def _just_one(items: list[Item]) -> bool:
    """True when nothing but one run of stitches has been worked, with no place of its own."""
    works = [item for item in items if not isinstance(item, (Say, Mark))]
    along = len(works) == 1 and isinstance(works[0], Work) and works[0].where.which is Which.EACH
    return len(works) == 1 and works[0] is items[-1] and (along or unplaced(items[-1]))
