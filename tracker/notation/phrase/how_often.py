"""How often rows are worked again: "twice more", "until 34 sts rem", "for 8 rows in all, ending with Row 3"."""

from collections.abc import Sequence

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.told.numbers import numbers_here
from tracker.notation.phrase.told.shaping import every_here
from tracker.notation.phrase.until import (
    ROWS,
    measured,
    named_in_all,
    rows_in_all,
    stitches_told,
    stripes_here,
    total_told,
)
from tracker.notation.scan import T
from tracker.notation.tree import Rerun

_FILLERS = frozenset(
    "alternately alternatively in for colour color sequence pattern patt pat consecutively respectively even again "
    "another an additional given above established est the following stripe stripes order turn "
    "row rows rnd rnds round rounds".split()
)
"""What may stand behind the rows named, and changes nothing."""
_ENDING = frozenset("ending end ends finish finishing finished".split())


def how_often(c: Cursor, start: int, found: Sequence[int], last: int, called: str = "") -> Rerun:
    """The reference, with how often and how long, and what it ends with."""
    more = False
    times: int | None = None
    until = ""
    then: list[int] = []
    total: int | None = None
    up_to: int | None = None
    ending: int | None = None
    side = ""
    every = 1
    so_many: tuple[str, int] | None = None
    while True:
        before = c.i
        if c.kind() in (T.COMMA, T.SEMICOLON) and (
            c.text(1) in ("until", "then", "for", "twice", "once", "alternately", *_ENDING)
            or c.value(1) is not None
            and c.text(2) in ("times", "more")
        ):
            c.i += 1
        word = c.text()
        if (called or last == 1) and word in ("every", "on") and (one_in := every_here(c)) is not None:
            every = one_in
            continue
        if (rows := total_told(c)) is not None:
            up_to = rows
            continue
        if word in _FILLERS:
            if word == "for" and c.value(1) is not None:
                if c.text(2) in ("rows", "row", "rnds", "rnd", "rounds", "more"):
                    total = c.value(1)
                    c.i += 3
                    c.take_any("rows", "rnds", "rounds")
                    continue
                if c.text(2) in ("times", "time"):
                    c.i += 1
                    continue
                until = to_stop(c)
                continue
            if word == "for" and (rows := further_rows(c)) is not None:
                total = rows
                continue
            if word == "for" and c.text(1) in ROWS:
                i = c.i
                c.i += 1
                if (named := numbers_here(c)) is not None:
                    # "Rep Row 2 for Rows 3-20"
                    up_to = named[-1]
                    continue
                c.i = i
            if word == "for" and {"length", "desired", "required"} & {c.text(k) for k in range(1, 5)}:
                until = to_stop(c)
                continue
            if word == "in" and c.text(1) in ("each", "next", "first"):
                break
            c.i += 1
            continue
        if c.context.rows_named == 0 and (all_told := in_total(c, start)) is not None:
            # the rows just worked are the first of so many times
            times, more = all_told - 1, True
            continue
        if word == "a" and c.text(1) in ("further", "total") or word in ("further", "additional"):
            # "a further 6 times"
            c.i += 1
            continue
        found_times = c.times_here()
        if found_times is not None:
            told = [c.text(k) for k in range(found_times[1])]
            times = found_times[0] if times is None else times
            c.i += found_times[1]
            if "more" in told or c.take_any("more", "further"):
                more = True
            c.take("times")
            c.take("in") and c.take_any("all", "total")
            continue
        if word in ("until", "till") and (rows := rows_in_all(c)) is not None:
            up_to = rows
            continue
        if word in ("until", "till") and len(found) > 1 and (named_rows := named_in_all(c)) is not None:
            so_many = named_rows
            continue
        if word in ("until", "till", "to", "up"):
            if (
                word == "to"
                and not measured(c, 1)
                or word == "up"
                and (c.text(1), measured(c, 2)) != ("to", True)
            ):
                break
            until = to_stop(c)
            continue
        if word == "then":
            tail = _tail(c)
            if tail is None:
                break
            then.extend(tail)
            continue
        if _tells_its_end(c):
            number, side = _end(c)
            ending = number or ending
            continue
        if word == "working" and c.text(1) in ("every", "each", "all"):
            if named := _worked_as(c):
                found, last, times = named, 0, None
            continue
        if c.kind() is T.COMMA and c.text(1) == "working" and c.text(2) in ("every", "each", "all"):
            c.i += 1
            continue
        if (
            c.kind() is T.COMMA
            and c.text(1) in ("increasing", "decreasing")
            and c.value(2) is not None
            and c.text(3) in ("st", "sts", "stitches")
            and c.text(4) in ("each", "every", "per")
            and c.text(5) in ("row", "rnd", "round")
        ):
            # told again; whether it is so is checked with the row's counts
            c.i += 6
            continue
        if c.kind() is T.COMMA and _by_colour(c):
            continue
        if c.kind() in (T.COMMA, T.SEMICOLON, T.PERIOD, T.DASH) and _compared(c):
            continue
        if until and (rows := rows_in_bracket(c)) is not None:
            up_to, until = rows, ""
            continue
        if c.kind() is T.COLON and total is None and not until:
            total = stripes_here(c)
        if c.i == before:
            break
    span = c.span_from(start)
    return Rerun(
        found,
        last,
        times,
        more,
        until,
        span,
        tuple(then),
        total,
        up_to,
        stitches_told(until, any(special.base == "tile" for special in c.context.specials.values())),
        ending_row(c) if ending is None else ending,
        called,
        every,
        ending_side=side,
        so_many=so_many,
    )


def _compared(c: Cursor) -> bool:
    """Takes "; each row has 6 dc more than the row before": what comes of it, which the counts told with it check."""
    i = c.i
    c.i += 1
    c.take("with")
    if c.take_any("each", "every") and c.take_any("row", "rnd", "round"):
        words: set[str] = set()
        while c.kind() not in (T.END, T.SEMICOLON, T.PERIOD, T.OPEN, T.COLON):
            words.add(c.text())
            c.i += 1
        if {"more", "fewer", "less"} & words and "than" in words and not _WORKED & words:
            return True
    c.i = i
    return False


_WORKED = frozenset("in into next sk skip ch-sp rep work working".split())
"""Words of work, which no comparison of rows holds."""


def _tail(c: Cursor) -> Sequence[int] | None:
    """Takes "then Row 3 once", "then rep Rows 2 and 3 twice": those rows, as often as told; None for other words."""
    start = c.i
    c.i += 1
    c.take_any("rep", "repeat", "work")
    rows = numbers_here(c)
    if rows is None:
        c.i = start
        return None
    often = c.times_here()
    c.i += often[1] if often is not None else 0
    c.take_any("more", "again")
    return tuple(rows) * (often[0] if often is not None and often[0] < 100 else 1)


def _tells_its_end(c: Cursor) -> bool:
    """True for "ending with Row 3", "finish after a WS row"."""
    joined = c.text() in _ENDING and bool({"with", "after", "on", "by"} & {c.text(k) for k in range(1, 6)})
    return joined and bool({"row", "rnd", "round", "ws", "rs"} & {c.text(k) for k in range(2, 9)})


def _end(c: Cursor) -> tuple[int | None, str]:
    """Takes those words: the number of the row that comes last, and its side; None and "" where they do not tell it."""
    number: int | None = None
    side = ""
    while c.kind() not in (T.PERIOD, T.SEMICOLON, T.END, T.OPEN, T.DASH):
        if c.kind() is T.COMMA and c.text(1) in ("until", "till", "for"):
            break
        if c.text() in ROWS and c.value(1) is not None:
            number = c.value(1)
        if c.kind() is T.ORDINAL and c.text(1) in ROWS:
            number = c.token().value
        side = _SIDES.get(c.text(), side) if c.text(1) in ("side", *ROWS) else side
        c.i += 1
    return number, side


_SIDES = {"rs": "RS", "right": "RS", "ws": "WS", "wrong": "WS"}


def _worked_as(c: Cursor) -> Sequence[int] | None:
    """Takes "working every row as Row 2": the rows that are worked; None where no row is named."""
    while c.kind() is T.WORD and c.text() not in ROWS | {"as"}:
        c.i += 1
    if c.text() in ("row", "rows", "rnd", "round"):
        c.i += 1
    return numbers_here(c) if c.take("as") else None


_COLOURS = frozenset("color colour colors colours shade shades yarn stripe".split())


def _by_colour(c: Cursor) -> bool:
    """Takes ", two rows in each of your colours": how the colours go, and nothing of how often."""
    i = c.i
    c.i += 1
    if _in_their_order(c):
        return True
    c.take_any("working", "changing", "with")
    told = c.value() is not None and c.text(1) in ROWS
    told = told or c.text() in _COLOURS and c.text(1) in ("every", "each", "after")
    told = told or c.text(-1) == "changing" and c.text() in _COLOURS
    behind = [c.text(n) for n in range(12)]
    if (
        not told
        or not (_COLOURS & set(behind))
        or {"ch", "sc", "dc", "hdc", "tr", "sts", "inc", "dec"} & set(behind)
    ):
        c.i = i
        return False
    while c.kind() in (T.WORD, T.NUMBER, T.ORDINAL) and c.text() not in ("until", "till", "for", "ending"):
        c.i += 1
    return True


_ORDERED = _COLOURS | frozenset("sequence stripes striping stripe order".split())
_ORDERING = _ORDERED | frozenset(
    "working keeping following continuing maintaining changing in with the a this that same given above before listed "
    "established stated as to per by of pattern correct going every each other row rows rnd rnds".split()
)
"""Words that tell how the colours of rows go, and nothing else."""


def _in_their_order(c: Cursor) -> bool:
    """Takes "working in colour sequence", "keeping the stripes going", up to what tells how often."""
    ahead = 0
    while c.text(ahead) in _ORDERING or c.text(ahead - 1) in ("every", "each") and c.text(ahead + 1) in ROWS:
        ahead += 1
    over = c.kind(ahead) in (T.COMMA, T.PERIOD, T.SEMICOLON, T.OPEN, T.END)
    often = c.text(ahead) in ("until", "till", "for", "ending")
    often = often or c.value(ahead) is not None and c.text(ahead + 1) in ("times", "more", "further")
    if not {c.text(k) for k in range(ahead)} & _ORDERED or not (over or often):
        return False
    c.i += ahead
    return True


def in_total(c: Cursor, start: int) -> int | None:
    """ "Work Rows A and B a total of 10 times", "do this row 10 times", "for a total of 10 times": in all."""
    i = c.i
    if c.tokens[start + 1].text == "this" and (told := c.times_here()) is not None:
        # "repeat this row 8 times" is 8 more, unless that is all of them
        c.i += told[1]
        if (
            c.take("in")
            and c.take_any("all", "total")
            or c.take_any("altogether", "total")
            or c.tokens[start].text in ("work", "do")
        ) and "more" not in (c.text(-1), c.text(-2)):
            return told[0]
    c.i = i
    meant = c.take("for") or c.tokens[start].text in ("work", "working")
    if meant and c.take("a", "total", "of") and (told := c.times_here()) is not None and told[0] > 1:
        c.i += told[1]
        return told[0]
    c.i = i
    return None


def ending_row(c: Cursor) -> int | None:
    """ "You'll finish with a Row 2", in a sentence behind the reference: the number of the row that comes last."""
    for k in range(c.i, c.end - 3):
        if c.tokens[k].text in _ENDING and c.tokens[k + 1].text in ("with", "after", "on"):
            at = k + 3 if c.tokens[k + 2].text in ("a", "the") else k + 2
            if c.tokens[at].kind is T.ORDINAL and c.tokens[at + 1].text in ROWS:
                return c.tokens[at].value
            if c.tokens[at].text in ROWS and at + 1 < c.end and c.tokens[at + 1].kind is T.NUMBER:
                return c.tokens[at + 1].value
    return None


def to_stop(c: Cursor) -> str:
    """Takes the words that tell how long, up to what comes after them."""
    start = c.i
    while (
        c.kind() not in (T.END, T.SEMICOLON, T.OPEN)
        and not (c.kind() is T.PERIOD and c.kind(1) is not T.NUMBER)
        and not (c.kind() is T.COMMA and c.text(1) in ("ending", "then", "turn"))
    ):
        c.i += 1
    return " ".join(t.text for t in c.tokens[start : c.i])


def further_rows(c: Cursor) -> int | None:
    """ "For a further 16 rows", "for another 8 rows": how many more."""
    i = c.i
    c.i += 1
    c.take_any("a", "the")
    c.take_any("further", "another", "additional", "next")
    many = c.value()
    c.i += 1
    c.take_any("more", "further", "additional")
    if many is not None and c.i > i + 2 and c.take_any("row", "rows", "rnds", "rounds"):
        return many
    c.i = i
    return None


def rows_in_bracket(c: Cursor) -> int | None:
    """ "until 8 points are made. (65 rows)": how many rows that is in all."""
    i = c.i
    while c.kind() is T.PERIOD:
        c.i += 1
    close = c.partners.get(c.i) if c.kind() is T.OPEN else None
    words = [c.text(k) for k in range(1, (close or c.i) - c.i)]
    if close is not None and c.value(1) is not None and words[1:2] and words[1] in ROWS:
        rows = c.value(1)
        if set(words[2:]) <= {"in", "all", "total", "altogether", "worked", "made", "now"}:
            c.i = close + 1
            return rows
    c.i = i
    return None
