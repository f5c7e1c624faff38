"""Phrases of work: a stitch with its place, a deed, a place with its stitch, what goes on in further places."""

from tracker.notation.phrase.cursor import SLIPS, Cursor
from tracker.notation.phrase.deeds.deed import deed_here
from tracker.notation.phrase.deeds.joins import slipped_to_join
from tracker.notation.phrase.deeds.said import to_other_motif
from tracker.notation.phrase.repeats.corners import corner_here
from tracker.notation.phrase.repeats.loose import (
    by_turns,
    chain_before_each,
    goes_around,
    run_together,
    step_often,
)
from tracker.notation.phrase.row.colours import colour_in, colours_here, in_colour
from tracker.notation.phrase.row.going_on import alternates, closes_picot, goes_on, loosely
from tracker.notation.phrase.row.place_first import place_first
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.row.remarked.told_again import as_before, back_along
from tracker.notation.phrase.row.ways.signs import just_one
from tracker.notation.phrase.works.borders import border_here
from tracker.notation.phrase.works.legs import with_legs
from tracker.notation.phrase.works.work import work_here
from tracker.notation.tree import SPACE, Chain, Edge, Group, Item, Kind, Prose, Say, Skip, Travel, Which, Work
from tracker.records import replace
from tracker.trade.stitches import parts_of

_PLACE_STARTS = frozenset(
    "in into over around between bet working work using through next last each across along make place "
    "blo flo bl fl back front".split()
)
"""Words that may name a place before what is worked in it."""
_GOES_ON = frozenset("in into each every next over of across around to".split())
"""Words by which the stitch before goes on in further places."""
_TO_OTHERS = frozenset((*SLIPS, "join", "drop", "remove", "insert"))
"""Words that may begin a join to a motif that is finished."""


def corner(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """A corner by its name."""
    told = corner_here(c)
    items.extend(told or ())
    return told is not None


def border(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """One step of a border."""
    told = border_here(c, items)
    items.extend(told or ())
    return told is not None


def worked(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """Whatever works stitches or does a deed."""
    start = c.i
    found = _found(c, items, start)
    if found is None:
        c.i = start
        return False
    if "foundation" in {token.text for token in c.tokens[start : c.i]}:
        found = _from_below(items, found)
    found = _counted_on(items, _as_far_below(items, found))
    found = _as_many_as_skipped(items, _of_the_same_chain(items, found))
    whole = items is reading.items
    if (
        alternates(c, items, found, start)
        or whole
        and (run_together(c, items, found, start) or goes_around(c, items, found, start))
        or by_turns(c, items, found, start)
        or step_often(c, items, found, start)
        or chain_before_each(c, items, found, start)
    ):
        return True
    if (
        isinstance(found[0], Skip)
        and found[0].where.which is Which.FROM_HOOK
        and just_one(_behind_its_chain(items))
    ):
        # "16 sc starting in 2nd ch from hook": where it starts comes before what is worked
        items[-1:] = [*found, items[-1]]
        return True
    if _told_once_more(items, found):
        items.append(Say("remark", "", c.span_from(start)))
        return True
    items.extend(back_along(c, items, found, start))
    with_legs(c, items)
    if any(isinstance(item, Prose) for item in found):
        reading.unread = True
    return True


def _behind_its_chain(items: list[Item]) -> list[Item]:
    """The items without the chain that a first row begins with: "ch 5, 3 sc starting in 2nd ch from hook"."""
    return items[1:] if items and isinstance(items[0], Chain) else items


def _from_below(items: list[Item], found: list[Item]) -> list[Item]:
    """ "Hdc in each of the 20 foundation ch" of a row that does not begin in the chain: along its other side."""
    works = [item for item in (*items, *found) if isinstance(item, (Work, Skip, Group))]
    elsewhere = (Which.FROM_HOOK, Which.EVENLY, Which.ROW_END)
    if any(item.where.which in elsewhere for item in works) or any(isinstance(item, Edge) for item in items):
        # a first row, or a border that comes to the foundation by itself
        return found
    if isinstance(lead := found[0], Travel) and lead.fresh:
        # "join yarn in first foundation ch": where the row begins, which its stitches tell once more
        return [replace(lead, where=()), *found[1:]]
    return [
        replace(item, where=replace(item.where, loop="base"))
        if isinstance(item, Work)
        and item.where.which in (Which.EACH, Which.NEXT, Which.FIRST)
        and [kind.name for kind in item.where.kinds] == ["ch"]
        and not item.where.loop
        else item
        for item in found
    ]


def _as_far_below(items: list[Item], found: list[Item]) -> list[Item]:
    """ "Skip next 3 FPtr 2 rows below, FPtr around each of next 3 FPtr": those beside them, as far below."""
    work = found[0]
    passed = next((item for item in reversed(items) if isinstance(item, (Skip, Work))), None)
    if (
        not isinstance(work, Work)
        or not isinstance(passed, Skip)
        or passed.where.down < 2
        or work.where.down != 1
        or work.where.which is not Which.NEXT
        or not (work.where.kinds and parts_of(work.where.kinds[0].name)[0] in ("fp", "bp"))
    ):
        return found
    return [replace(work, where=replace(work.where, down=passed.where.down)), *found[1:]]


def _of_the_same_chain(items: list[Item], found: list[Item]) -> list[Item]:
    """ "Sc in turning ch space, sc in 3rd ch": of the chain whose space was worked into."""
    work = found[0]
    before = next((item for item in reversed(items) if isinstance(item, Work)), None)
    if (
        isinstance(work, Work)
        and before is not None
        and (before.where.which, before.where.kinds) == (Which.TOP, (Kind(SPACE),))
        and work.where.which is Which.NTH
        and [kind.name for kind in work.where.kinds] == ["ch"]
    ):
        return [replace(work, where=replace(work.where, which=Which.TOP, kinds=())), *found[1:]]
    return found


def _as_many_as_skipped(items: list[Item], found: list[Item]) -> list[Item]:
    """Stitches in "each skipped st": as many as were passed over last; words nobody reads where none were."""
    work = found[0]
    if not isinstance(work, Work) or work.where.which is not Which.MADE or work.where.many:
        return found
    if work.count > 1:
        # "sc 5 across skipped sts": so many are told
        return [replace(work, where=replace(work.where, many=1)), *found[1:]]
    passed = next((item for item in reversed(items) if isinstance(item, Skip)), None)
    if passed is None or passed.where.which is not Which.NEXT or passed.where.many < 1:
        return [Prose("", work.span), *found[1:]]
    return [replace(work, where=replace(work.where, many=passed.where.many)), *found[1:]]


def _told_once_more(items: list[Item], found: list[Item]) -> bool:
    """True for "9 sc along the side, 1 sc in each row end": how those many are spread, and no more of them."""
    along, again = items[-1] if items else None, found[0] if len(found) == 1 else None
    return (
        isinstance(along, Work)
        and isinstance(again, Work)
        and along.where.which is Which.EVENLY
        and along.count > 1
        and along.stitch == again.stitch
        and again.where.which is Which.ROW_END
        and again.where.many == 0
    )


def _counted_on(items: list[Item], found: list[Item]) -> list[Item]:
    """ "Skip 2 sts, sc in the 3rd st": counted from those skipped, it is the next one."""
    passed, first = items[-1] if items else None, found[0]
    if (
        not isinstance(passed, Skip)
        or not isinstance(first, (Work, Group))
        or passed.where.which is not Which.NEXT
        or first.where.which is not Which.NTH
        or first.where.nth != passed.where.many + 1
        or [kind.name for kind in first.where.kinds] == ["ch"]
    ):
        return found
    return [replace(first, where=replace(first.where, which=Which.NEXT, nth=0)), *found[1:]]


def _found(c: Cursor, items: list[Item], start: int) -> list[Item] | None:
    """What is worked here; None with the cursor anywhere."""
    word = c.text()
    found = to_other_motif(c) if word in _TO_OTHERS else None
    if found is None:
        found = work_here(c)
    if found is not None and c.text() == "as" and c.text(1) in ("before", "above"):
        found = as_before(c, items, found)
    if found is not None:
        found = loosely(c, items, closes_picot(c, items, in_colour(c, found)), start)
        return slipped_to_join(c, found, start)
    found = deed_here(c)
    one_more = c.value() is not None and c.text(1) in ("in", "into") and not c.token(1).fresh
    if found is None and (word in _GOES_ON or one_more) and _joined(c):
        found = goes_on(c, items)
    if found is None:
        found = colours_here(c) or colour_in(c)
    if found is None and word in _PLACE_STARTS:
        found = place_first(c)
    return found


def _joined(c: Cursor) -> bool:
    """True behind "and", a comma or a bracket, with "then" or without: what goes on with the stitch before."""
    before = c.text(-2) if c.text(-1) in ("then", "also") else c.text(-1)
    return before in ("and", ")", "]", "+", "&", ",")
