"""Rounds told by the one before: "working 1 more st between incs in each rnd".

A row that says so and the last shaped row come in; a row for each number comes out, or None where the words say no such
thing or the row before has no plain stitches to add to.
"""

from collections.abc import Sequence

from tracker.notation.moved import as_told
from tracker.notation.pattern import Row
from tracker.notation.scan import T, Token
from tracker.notation.tree import ANY, Chain, Group, Item, Kind, Repeat, Rerun, Where, Which, Work
from tracker.records import replace
from tracker.trade.numbers import number_of
from tracker.trade.stitches import parts_of

MORE = frozenset("more extra additional".split())
_FEWER = frozenset("fewer less".split())
_BETWEEN = frozenset(
    "between bet betw btwn before side sides section sections segment segments wedge".split()
)
_GAINING = frozenset("gaining adding".split())
_MIDDLES = frozenset("corner center centre mitre miter".split())
SO_SET = frozenset("way manner established est pattern same set before".split())
MOST = 200
"""Rounds that one such row tells; a crown has some ten."""


def step_told(tokens: Sequence[Token], again: bool = False) -> int:
    """How many stitches more (below 0: fewer) stand between the increases of each round; 0 where nothing says so.

    `again`: the round before is named, so that "having 1 more sc on each side" need not say between what.
    """
    words = [token.text for token in tokens if token.kind in (T.WORD, T.NUMBER)]
    on = goes_on_shaping(words)
    if on and SO_SET & set(words) and not (MORE | _FEWER) & set(words):
        # "Continue to decrease in this way": by one stitch a round, as such a row is begun
        return -1 if on == "dec" else 1
    if not _BETWEEN & set(words) or not (again or any(_shapes(word) for word in words)):
        return 0
    for k, word in enumerate(words):
        if word not in MORE | _FEWER or words[k - 1 : k] in (["times"], ["rows"], ["rnds"], ["rounds"]):
            continue
        near = [number_of(other) for other in words[max(0, k - 3) : k]]
        many = next((n for n in reversed(near) if n is not None and n < 10), 1)
        return many if word in MORE else -many
    return 0


def step_by_count(tokens: Sequence[Token], before: Row, again: bool = False) -> int:
    """ "Cont to inc 12 dc each rnd" behind a round that adds 12: 1, or -1 for fewer; 0 for all else.

    `again`: that round is named, "As Rnd 4, having 6 more sc each time".
    """
    words = [token.text for token in tokens if token.kind in (T.WORD, T.NUMBER)]
    on = goes_on_shaping(words) or _compared(words)
    if again and not on:
        cut = next((k for k, word in enumerate(words) if word in MORE | _FEWER | _GAINING), len(words))
        words = [word for word in words[max(0, cut - 1) :] if word not in ("round", "rnd", "row")]
        on = "dec" if _FEWER & set(words) else "inc" if (MORE | _GAINING) & set(words) else ""
    if (
        not on
        or "evenly" in words
        or not {"each", "every", "per"} & set(words)
        or _BETWEEN & set(words) - {"before"}
        or "before" in words
        and not _compared(words)
        or "until" in words
    ):
        return 0
    by = next((n for word in words if (n := number_of(word)) is not None), None)
    have = next(
        (s.counts[0][1] for s in before.stated if len(s.counts) == 1 and not (s.change or s.partial)), 0
    )
    steps = [changes_by(item, have) for item in as_told(before.items) if isinstance(item, Repeat)]
    first = next((item for item in as_told(before.items) if isinstance(item, Work)), None)
    if len(steps) != 1 or by is None:
        return 0
    # a chain for a stitch, and the increase beside it, are one pass told ahead of the others
    told_ahead = first is not None and _in_the_same(first)
    repeat = next(item for item in as_told(before.items) if isinstance(item, Repeat))
    passes = repeat.times + told_ahead if repeat.times is not None else None
    if by != (steps[0] if passes is None else passes):
        return 0
    return -1 if on == "dec" else 1


def _compared(words: Sequence[str]) -> str:
    """ "inc" or "dec" for rows that are only told beside the one before: "Each has 6 more sc than the one before"."""
    if (
        len(words) > 12
        or not {"each", "every"} & set(words[:2])
        or not {"has", "have", "with", "than"} & set(words)
    ):
        return ""
    return "inc" if MORE & set(words) else "dec" if _FEWER & set(words) else ""


def goes_on_unsaid(tokens: Sequence[Token]) -> bool:
    """True for a row that only says that it goes on shaping, and writes no stitch: "Cont to inc 12 dc each rnd"."""
    words = [token.text for token in tokens if token.kind in (T.WORD, T.NUMBER)]
    written = {"next", "first", "last", "same", "ch", "rep", "repeat", "x", "times", "evenly"} & set(words)
    signs = any(token.kind in (T.STAR, T.TIMES, T.COLON, T.SEMICOLON) for token in tokens)
    return (
        bool(goes_on_shaping(words))
        and not written
        and not signs
        and bool({"each", "every", "per"} & set(words))
    )


def _shapes(word: str) -> bool:
    """True for a word that names what changes the count, or the place where it is changed."""
    return word.startswith(("inc", "dec")) or word.endswith("tog") or word in _MIDDLES


def goes_on_shaping(words: Sequence[str]) -> str:
    """ "inc" or "dec" for a row that begins "Continue decreasing …", "Cont to inc …"; "" for any other."""
    begins = words[:1] in (["continue"], ["cont"], ["keep"], ["continuing"])
    if not begins and SO_SET & set(words[1:5]) and words[0].startswith(("inc", "dec")):
        # "Increase as set, working 1 more dc between incs"
        return words[0][:3]
    if not begins:
        return ""
    more = bool(MORE & set(words) and _BETWEEN & set(words))
    ahead = words[1:] if more else words[1:6]
    return next((word[:3] for word in ahead if word.startswith(("inc", "dec"))), "")


_GROWTH = ("inc", "dec", "add", "grow", "shrink", "reduc", "narrow", "widen")


def goes_on_alike(tokens: Sequence[Token]) -> bool:
    """True for "Continue in this way, increasing 1 dc at each end of every row": what the row before does, again."""
    words = [token.text for token in tokens[:24] if token.kind is T.WORD]
    begins = words[:1] in (
        ["continue"],
        ["cont"],
        ["continuing"],
        ["proceed"],
        ["keep"],
        ["go"],
        ["carry"],
        ["work"],
    )
    return (
        begins
        and bool(SO_SET & set(words[:8]))
        and not _BETWEEN & set(words)
        and any(word.startswith(_GROWTH) for word in words[1:])
    )


def fits_any_width(row: Row) -> bool:
    """True for a row that says "in each st" where it goes along, so that it can be worked on any number of stitches."""
    return any(
        isinstance(item, Work) and item.where.which is Which.EACH and item.where.many == 0
        for item in as_told(row.items)
    )


def changes_count(items: Sequence[Item]) -> bool:
    """True when stitches are worked together or into one place among the items, so that each row has its own count."""
    return any(
        isinstance(item, Work)
        and ("tog" in item.stitch or item.stitch.startswith("inc") or item.count > 1 and item.where.many == 1)
        or isinstance(item, (Group, Repeat))
        and changes_count(item.items)
        for item in items
    )


def changes_by(item: Repeat, made: int) -> int | None:
    """How many stitches a round of one repeat, which makes so many, adds or takes; None where that is not plain."""
    used = left = 0
    for inside in item.items:
        if not isinstance(inside, Work) or inside.where.which not in (Which.STRAIGHT, Which.NEXT):
            return item.times
        straight = inside.where.which is Which.STRAIGHT
        places = inside.count if straight else inside.where.many
        used += places * parts_of(inside.stitch)[2]
        left += places if straight else places * inside.count
    passes = item.times or (made // left if left and made % left == 0 else 0)
    return passes * abs(left - used) or item.times


def shaped(row: Row) -> bool:
    """True for a row that shapes beside plain stitches: in its repeats, or once between two runs of them."""
    items = as_told(row.items)
    return any(isinstance(item, Repeat) and _plain_at(item.items) is not None for item in items) or bool(
        beside(items)
    )


def one_in(tokens: Sequence[Token]) -> int:
    """ "Inc 5 sc on every 4th row": one row in how many is shaped; 1 where nothing says so."""
    for k in range(len(tokens) - 2):
        if tokens[k].text in ("every", "each") and tokens[k + 2].text in ("row", "rnd", "round"):
            if tokens[k + 1].text in ("other", "alt", "alternate", "second"):
                return 2
            if tokens[k + 1].kind is T.ORDINAL:
                return max(1, min(tokens[k + 1].value, 60))
    return 1


def grown(
    row: Row, before: Row, step: int, every: int = 1, by_turns: Sequence[Row | None] = ()
) -> list[Row] | None:
    """The rows that a range tells, one in every so many with so many stitches more than the one before it.

    `by_turns`: rows that are worked in turn, None for the one that grows; nothing where the others are worked even.
    """
    if not row.numbers or len(row.numbers) > MOST:
        return None
    rows: list[Row] = []
    items = tuple(before.items)
    even = Work("even", 1, Where(Which.EACH, row.span, 0, (Kind(ANY),)), row.span)
    begun = before.numbers[-1] if before.numbers else row.numbers[0] - 1
    for at, number in enumerate(row.numbers):
        plain = by_turns[at % len(by_turns)] if by_turns else None
        shapes = plain is None if by_turns else (number - begun) % every == 0
        longer = _with_more(items, step, row.kind == "round") if shapes else items
        if longer is None:
            return None
        items = longer
        last = number == row.numbers[-1]
        rows.append(
            replace(
                row,
                numbers=(number,),
                items=items if shapes else (even,) if plain is None else tuple(plain.items),
                stated=row.stated if last else (),
                rerun=None,
                unread=False,
            )
        )
    return rows


def apart_by(items: Sequence[Item], many: int) -> tuple[Item, ...] | None:
    """Items with so many plain stitches between the increases of their repeat; None where no repeat has such."""
    for item in items:
        at = _plain_at(item.items) if isinstance(item, Repeat) else None
        if isinstance(item, Repeat) and at is not None and isinstance(plain := item.items[at], Work):
            run = plain.count if plain.where.which is Which.STRAIGHT else plain.where.many
            return _with_more(tuple(items), many - run)
    return None


def _plain_at(items: Sequence[Item]) -> int | None:
    """Index of the plain run in a repeat that shapes: the longest; None where there is none or nothing is shaped."""
    best: int | None = None
    most = 0
    shapes = any(_is_shaping(item) for item in items)
    for k, item in enumerate(items):
        run = run_of(item) if shapes and not _is_shaping(item) else 0
        if run > most:
            best, most = k, run
    return best


def beside(items: Sequence[Item]) -> tuple[int, ...]:
    """Indices of the two plain runs beside the shaping in the middle of a row; () for a row of another make."""
    at: list[int] = []
    for k, item in enumerate(items):
        together = isinstance(item, Repeat) and all(map(_is_shaping, item.items))
        if isinstance(item, Repeat) and not together:
            return ()
        if together or isinstance(item, (Work, Group)) and _is_shaping(item):
            if at and at[-1] != k - 1:
                return ()
            at.append(k)
    if not at or at[0] < 1 or at[-1] > len(items) - 2:
        return ()
    before, behind = items[at[0] - 1], items[at[-1] + 1]
    return (at[0] - 1, at[-1] + 1) if run_of(before) and run_of(before) == run_of(behind) else ()


def _is_shaping(item: Item) -> bool:
    """True for stitches worked together, or several into one place."""
    return isinstance(item, Group) or (
        isinstance(item, Work)
        and (parts_of(item.stitch)[2] > 1 or item.count > 1 and item.where.which is not Which.STRAIGHT)
    )


def run_of(item: Item) -> int:
    """How many stitches a plain run is long; 0 for anything else."""
    if not isinstance(item, Work) or item.where.which not in (Which.STRAIGHT, Which.NEXT, Which.LAST):
        return 0
    if item.where.which is Which.STRAIGHT:
        return item.count
    return item.where.many if item.count == 1 else 0


def _with_more(items: tuple[Item, ...], step: int, closed: bool = False) -> tuple[Item, ...] | None:
    """Items with the plain runs that shaping stands beside longer by a step; None where there is none.

    Where a `closed` round begins in the middle of a side, what is before its repeat and what is behind grow by half.
    """
    if closed and (halves := _split_side(items)) is not None:
        before, behind = halves
        if step % 2 or before < 0:
            return None
        begins, ends = _longer(items[before], step // 2), _longer(items[behind], step // 2)
        if begins is None or ends is None:
            return None
        inside = _with_more(items[before + 1 : behind], step)
        return None if inside is None else (*items[:before], *begins, *inside, *ends, *items[behind + 1 :])
    if sides := beside(items):
        runs = [_longer(item, step) if k in sides else (item,) for k, item in enumerate(items)]
        return None if None in runs else tuple(each for run in runs if run is not None for each in run)
    out: list[Item] = []
    by_hand: list[Item] = []
    changed = False
    for item in items:
        at = _plain_at(item.items) if isinstance(item, Repeat) else None
        if not isinstance(item, Repeat) or at is None:
            by_hand.append(item)
            continue
        longer = _longer(item.items[at], step)
        first = _first_by_hand(by_hand, item.items[at], step)
        if longer is None or first is None:
            return None
        out += [*first, replace(item, items=(*item.items[:at], *longer, *item.items[at + 1 :]))]
        by_hand = []
        changed = True
    return (*out, *by_hand) if changed else None


def _split_side(items: Sequence[Item]) -> tuple[int, int] | None:
    """Indices of the plain runs before and behind the one repeat of a round, which make a side of it together.

    (-1, -1) where they do not; None for a round that has none behind its repeat.
    """
    repeats = [
        k for k, item in enumerate(items) if isinstance(item, Repeat) and _plain_at(item.items) is not None
    ]
    runs = [k for k, item in enumerate(items) if run_of(item) and not _in_the_same(item)]
    runs = [k for k in runs if getattr(items[k], "stitch", "") != "slst"]
    behind = [k for k in runs if repeats and k > repeats[-1]]
    if len(repeats) != 1 or not behind:
        return None
    repeat = items[repeats[0]]
    assert isinstance(repeat, Repeat)
    at = _plain_at(repeat.items)
    side = run_of(repeat.items[at]) if at is not None else 0
    before = [k for k in runs if k < repeats[0]]
    if len(before) != 1 or len(behind) != 1:
        return (-1, -1)
    left = side - run_of(items[before[0]]) - run_of(items[behind[0]])
    chain = any(isinstance(item, Chain) and item.count > 1 for item in items[: before[0]])
    return (before[0], behind[0]) if left == 0 or chain and left == 1 else (-1, -1)


def _first_by_hand(items: Sequence[Item], plain: Item, step: int) -> tuple[Item, ...] | None:
    """What stands before a repeat, where it is its first pass with a chain for a stitch, longer by a step too.

    "Ch 2, hdc in same st, hdc in next 3 sts, *2 hdc in next st, hdc in next 3 sts": other items as they are; None where
    a stitch less cannot be.
    """
    shapings = [k for k, item in enumerate(items) if _is_shaping(item) or _in_the_same(item)]
    runs = [k for k, item in enumerate(items) if run_of(item) and k not in shapings]
    if len(shapings) != 1 or not isinstance(plain, Work):
        return tuple(items)
    if len(runs) == 1 and run_of(plain) - run_of(items[runs[0]]) in (0, 1):
        longer = _longer(items[runs[0]], step)
        return None if longer is None else (*items[: runs[0]], *longer, *items[runs[0] + 1 :])
    if not runs and run_of(plain) == 1 and step > 0 and any(isinstance(item, Chain) for item in items):
        # "ch 3, 2 dc in next st, *dc in next st, 2 dc in next st": the chain is the plain stitch
        at = shapings[0]
        return (*items[:at], replace(plain, where=replace(plain.where, many=step)), *items[at:])
    return tuple(items)


def _in_the_same(item: Item) -> bool:
    """True for "hdc in same st", with the chain an increase."""
    return isinstance(item, Work) and item.where.which is Which.SAME and item.count == 1


def _longer(plain: Item, step: int) -> tuple[Work, ...] | None:
    """A plain run with so many stitches more, none where nothing is left of it; None where it cannot be."""
    assert isinstance(plain, Work)
    run = run_of(plain) + step
    if run < 0:
        return None
    if plain.where.which is Which.STRAIGHT:
        return (replace(plain, count=run),) if run else ()
    return (replace(plain, where=replace(plain.where, many=run)),) if run else ()


def names_the_last(rerun: Rerun, shaped_row: Row, numbers: Sequence[int]) -> bool:
    """True for "Rep Row 3" or "rep last row" behind Row 3."""
    shaped_number = list(shaped_row.numbers[-1:])
    return list(rerun.rows) == shaped_number or rerun.last == 1 and shaped_number == [numbers[0] - 1]
