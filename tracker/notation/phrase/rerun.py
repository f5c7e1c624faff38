"""Rows worked as others were: "Rep Rows 2-7 twice more", "As Row 3", "last 2 rows until 30 cm".

The cursor stands at the beginning of a row's text; a Rerun comes out and the cursor moves past it, or None with
the cursor where it was.
"""

import re
from collections.abc import Sequence

from tracker.notation.page.labelled.row_names import range_of, row_name
from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.how_often import (
    how_often,
    to_stop,
)
from tracker.notation.phrase.other_part import as_far_as, as_far_as_heading, part_here
from tracker.notation.phrase.told.even import as_set_here
from tracker.notation.phrase.told.formed import formed_here
from tracker.notation.phrase.told.numbers import numbers_here
from tracker.notation.phrase.told.shaping import called_row
from tracker.notation.phrase.until import (
    ROWS,
    last_rows,
)
from tracker.notation.scan import T
from tracker.notation.tree import Rerun
from tracker.records import replace

_SINGLE = ("row", "rnd", "round")
_LEADS = frozenset(
    "rep repeat repeating as same work like continue cont working follow alternate alternating again see exactly "
    "identical ditto do".split()
)
_LEADING_TO = frozenset(
    "all of for the instructions directions instruction steps from to as per given in wording work "
    "same exactly like manner way method".split()
)
"""Words between "repeat", "work" or "same" and the row that is meant."""


_LIKE = ("like", "as", "repeating", "rep", "repeat", "working", "following")
"""Words behind which the rows are named that others are worked like."""
_BEFORE_LIKE = frozenset(
    "work worked working same even pattern , row rows all every continue exactly just".split()
)
"""What stands before "like Row 4" when that is what the row is."""
_BY_NAME = ("rep", "repeat", "work", "repeating", "as", "like", "same")
"""Words behind which a row may go by its name."""
_OTHERWISE = frozenset("working between but except increasing decreasing inc dec incs decs at".split())
"""Words behind "cont in patt" by which the rows are not as those before."""


def _worked_like(c: Cursor) -> Rerun | None:
    """ "Keep the stripes going, every row worked like Row 4": a reference anywhere in a row that says nothing else."""
    start = c.i
    for k in range(start, c.end):
        if (
            c.tokens[k].text in _LIKE
            and c.tokens[k + 1].text in ROWS
            and c.tokens[k - 1].text in _BEFORE_LIKE
        ):
            c.i = k + 1
            found = numbers_here(c)
            if found is None:
                break
            until = ""
            if c.times_here() is not None:
                return how_often(c, start, found, 0)
            if c.take("until") or c.take("for"):
                c.i -= 1
                until = to_stop(c)
            return Rerun(found, 0, None, False, until, c.span_from(start))
    c.i = start
    for k in range(start, c.end - 1):
        if c.tokens[k].text in ROWS and any(
            t.text in ("alternately", "alternating") for t in c.tokens[k : min(c.end, k + 8)]
        ):
            c.i = k
            found = numbers_here(c)
            if found is not None:
                c.i = c.end
                return Rerun(found, 0, None, False, "", c.span_from(start))
    c.i = start
    return None


def led_in(c: Cursor) -> None:
    """Takes what may stand before rows worked again: "Then", "just keep", "Keeping patt correct,"."""
    if (c.text(), c.text(1), c.text(2)) == ("do", "not", "turn"):
        c.i += 3
        c.i += c.kind() in (T.PERIOD, T.COMMA, T.SEMICOLON)
    if c.text() in ("pattern", "patt") and c.text(1) in ("row", "rows") and c.value(2) is not None:
        c.i += 1
    if c.text() in ("from", "after") and c.text(1) in ("here", "this", "that"):
        c.i += 2
        c.take("on")
    if c.text() in ("keep", "keeping") and any(
        c.text(n) in ("patt", "pattern", "pat")
        and c.text(n + 1) in ("correct", "as", "straight", "going", "constant")
        for n in (1, 2)
    ):
        while c.kind() is T.WORD and c.text() not in ("work", "cont", "continue"):
            c.i += 1
    if (
        c.text() in ("color", "colour", "yarn", "shade")
        and c.kind(2) in (T.PERIOD, T.COMMA, T.COLON, T.SEMICOLON)
        and c.text(3) in _LEADS
    ):
        # "Color A. As Row 5."
        c.i += 3
    while c.take_any("keep", "kept", "just", "simply", "then", "now", "and", "so") or c.kind() is T.COMMA:
        c.i += c.kind() is T.COMMA
    c.text() == "on" and c.text(1) in ("repeating", "rep", "working") and c.take("on")


def rerun_here(c: Cursor, counted: bool = False) -> Rerun | None:
    """A reference to other rows that says what this row is; `counted` where "Work 6 rows" is taken already."""
    start = c.i
    if counted:
        c.take_any("more", "further", "additional")
        if (again := _as_set(c, start, led=False)) is not None:
            return again
    if c.text() == "work" and (named := _so_many_named(c)) is not None:
        return named
    if (formed := formed_here(c, numbers_here)) is not None:
        return how_often(c, start, *formed)
    if c.text() in ROWS and (bare := _nothing_else(c)) is not None:
        return bare
    bracket = None
    # what may stand before: a colour, a bracket, "Turn."
    if c.kind() is T.OPEN and c.partners.get(c.i) and c.text(1) in ("rep", "repeat", "rows", "rnds"):
        bracket = c.partners[c.i]
        c.i += 1
    if c.kind() is T.OPEN and c.kind(2) is T.CLOSE and c.text(1) in c.context.colours:
        c.i += 3
    if c.text() in ("with", "using", "in", "change", "join", "switch") and c.text(1) not in ("pattern",):
        n = 1
        while (
            c.kind(n) in (T.WORD, T.NUMBER, T.HYPHEN) and n < 9 and c.text(n) not in ("rep", "repeat", "as")
        ):
            n += 1
        if c.kind(n) in (T.COMMA, T.COLON, T.PERIOD, T.SEMICOLON) and c.text(n + 1) in _LEADS:
            c.i += n + 1
        elif c.text(n) in ("rep", "repeat", "as"):
            c.i += n
    led_in(c)
    if c.kind() is T.EQUALS and c.text(1) in ROWS:
        # "R3-R40. = R2."
        c.i += 1
        if (same := numbers_here(c)) is not None:
            return how_often(c, start, same, 0)
    c.text(1) in ("same", "last") and c.take("the")
    lead = c.text()
    found: Sequence[int] | None = None
    last = 0
    called = ""
    onward = False
    if lead in _LEADS or lead in ROWS:
        if lead in _LEADS:
            c.i += 1
            if lead in ("continue", "cont"):
                c.take_any("to", "as", "in", "rep", "repeating")
                c.take_any("work", "working", "rep", "repeat", "for", "repeating", "alternating")
            if lead in ("same", "work", "working", "like", "as", "follow"):
                c.take("in") and c.take("the") or c.take_any("exactly", "just")
                c.take_any("same")
                c.take_any("as", "like", "manner", "way")
                c.take_any("as", "for", "given", "like")
                c.take("for")
            _up_to_row(c)
            c.take_any("all", "of", "for", "instructions", "directions")
            if c.text(1) not in _SINGLE:
                c.take("pattern")
        for _ in range(3):
            if (
                c.text() in ("pattern", "patt")
                and c.text(1) in _SINGLE
                and (c.value(2) is None or c.text(3) in ("times", "more", "further"))
            ):
                # "Rep patt row until …", "Rep patt row 12 times more": a row that goes by this name
                break
            c.take_any("the", "these", "those", "from", "pattern", "patt")
        # "Row 1 once more." by itself works that row
        often = lead in ROWS and any(c.text(n) in ("again", "once", "twice", "times") for n in range(2, 9))
        onward = "from" in (c.text(-1), c.text(-2) if c.text(-1) == "the" else "")
        found = numbers_here(c) if lead in _LEADS or often else None
        if found is None and lead in _LEADS:
            last = last_rows(c)
        names_part = c.context.parts and _part_ahead(c)
        if found is None and not last and not names_part and lead in _BY_NAME:
            called = called_row(c)
        if (
            found is None
            and not last
            and lead in ("as", "rep", "repeat")
            and c.kind() is T.NUMBER
            and c.kind(stopped := 2 if c.kind(1) is T.PERIOD else 1) is T.HYPHEN
            and c.kind(stopped + 1) is T.NUMBER
        ):
            # "6-9: As 2-5", "repeat 3.-4.", in patterns that number rows with nothing but figures
            found = range_of(f"{c.text()}-{c.text(stopped + 1)}")
            c.i += stopped + 2
            if stopped == 2 and c.kind() is T.PERIOD:
                c.i += 1
    if found is None and not last and lead in ("as", "rep", "repeat") and _two_numbers(c):
        # "Rows 4-9: rep 2 & 3"
        found = (c.token().value, c.token(2).value)
        c.i += 3
    if found is None and not last and lead == "same" and c.kind() in (T.END, T.PERIOD, T.OPEN, T.EQUALS):
        # "Row 3: The same.", "R3: same = 13"
        last = int(all(token.text in ("the", "same") for token in c.tokens[: c.i]))
    if found is None and not last and lead in ("as", "rep", "repeat") and c.kind() is T.NUMBER:
        found = _stopped_numbers(c)
    if found is None and not last and lead in ("as", "same", "like") and c.tokens[0] is c.tokens[start]:
        found = _bare_number(c)
    if found is None and not last and lead in ("as", "same", "work", "like"):
        found = _of_other_side(c)
    part = part_here(c) if c.context.parts and (found or lead in _LEADS and not (last or called)) else None
    far = None
    if part is not None and found is None and (end := as_far_as(c)) is not None:
        found = range(1, end + 1)
    elif part is not None and found is None and (far := as_far_as_heading(c)) is not None:
        pass
    elif part is not None and found is None and c.text() in ROWS:
        # "Work as for Right Leg Rnds 1-5"
        found = numbers_here(c)
    if found is None and not last and not called and part is None:
        c.i = start
        words = {t.text for t in c.tokens[c.i : c.end]}
        if (
            {"alternately", "alternating"} & words
            or (
                {"like", "as"} & words
                and {"worked", "work", "working"} & words
                or {"even", "keep", "keeping", "continue", "cont", "stripes"} & words
                and {"repeating", "rep", "working", "following"} & words
            )
            and not {"next", "each", "*", "sk"} & words
        ):
            return _worked_like(c)
        return _as_set(c, start)
    if bracket is not None and c.i <= bracket:
        c.i = bracket + 1
    again = how_often(c, start, found or (), last, called)
    if onward and lead in ("rep", "repeat", "repeating") and len(again.rows) == 1:
        again = replace(again, onward=True)
    if found and again.ending is None and any(t.text.startswith("alternat") for t in c.tokens[start : c.i]):
        # "Rows 4-8: Alternate Rows 2 and 3": a range may stop at either of them
        again = replace(again, ending=found[c.context.rows_named % len(found) - 1])
    return again if part is None else replace(again, part=part, as_far=far)


def _up_to_row(c: Cursor) -> None:
    """Takes "the instructions for", "same as given for" where the rows that are meant stand behind it."""
    ahead = 0
    while c.text(ahead) in _LEADING_TO:
        ahead += 1
    if c.text(ahead) in ROWS and c.kind(ahead + 1) is not T.WORD or c.kind(ahead) is T.ORDINAL:
        c.i += ahead


def _nothing_else(c: Cursor) -> Rerun | None:
    """ "Row 4: Row 2.", "Rows 9-20: Rows 5-8 3 more times": a row that names another and says no more."""
    start = c.i
    found = numbers_here(c)
    if found is not None and (
        c.take_any("again", "repeated")
        or (c.kind() in (T.PERIOD, T.END, T.OPEN) or _told_how_often(c) and len(found) > 1)
        and all(token.text in _BEFORE_ROWS for token in c.tokens[:start])
    ):
        return how_often(c, start, found, 0)
    c.i = start
    return None


_BEFORE_ROWS = frozenset("now and then just so simply , finally".split())


def _told_how_often(c: Cursor) -> bool:
    """True for "3 more times", "another nine times", "once more"."""
    i = c.i
    c.i += c.kind() is T.COMMA
    c.take_any("another", "a") and c.take("further")
    found = c.times_here() is not None
    c.i = i
    return found


def _stopped_numbers(c: Cursor) -> tuple[int, ...] | None:
    """ "2. and 3.", of rows that are numbered with nothing but figures and stops."""
    i = c.i
    found: list[int] = []
    while c.kind() is T.NUMBER and c.kind(1) is T.PERIOD:
        found.append(c.token().value)
        c.i += 2
        if not (c.text() in ("and", "&") or c.kind() is T.COMMA) or c.kind(1) is not T.NUMBER:
            break
        c.i += 1
    if not found:
        c.i = i
    return tuple(found) or None


def _two_numbers(c: Cursor) -> bool:
    """True for "2 & 3", rows that are named by their numbers alone, where no word behind tells how often."""
    return (
        c.kind() is T.NUMBER
        and c.text(1) in ("and", "&", "+")
        and c.kind(2) is T.NUMBER
        and (
            c.kind(3) in (T.END, T.PERIOD, T.OPEN, T.COMMA, T.SEMICOLON)
            or c.text(3) in ("twice", "once", "until")
        )
    )


def _bare_number(c: Cursor) -> tuple[int, ...] | None:
    """ "11" behind "same as", with nothing but a count after it: a row, where rows are numbered with figures alone."""
    over = c.kind(1) in (T.END, T.OPEN) or c.kind(1) is T.PERIOD and c.kind(2) in (T.END, T.OPEN)
    if c.kind() is not T.NUMBER or not over:
        return None
    c.i += 1
    return (c.token(-1).value,)


_SIDE_NAMED = frozenset("first second right left other previous".split())
_SIDES = frozenset("side half shoulder edge strap front end sleeve".split())


def _of_other_side(c: Cursor) -> Sequence[int] | None:
    """ "Rows 13-20: As for first side.", where no part is called so: the rows of the same numbers before."""
    i = c.i
    own = range_of(re.sub(r"[^\d,& -]", "", c.context.row or "").strip())
    while c.take_any("for", "as", "given", "on", "the", "of"):
        pass
    named = c.text() in _SIDE_NAMED and c.text(1) in _SIDES and own
    over = c.kind(2) in (T.END, T.OPEN) or c.kind(2) is T.PERIOD and c.kind(3) in (T.END, T.OPEN)
    if not named or not over or _part_ahead(c):
        c.i = i
        return None
    c.i += 2
    return own


_TOLD_OUT = frozenset("each across around".split())


def _part_ahead(c: Cursor) -> bool:
    """True where a part of the pattern is named."""
    i = c.i
    found = part_here(c) is not None
    c.i = i
    return found


def _as_set(c: Cursor, start: int, led: bool = True) -> Rerun | None:
    """ "Work even for 6 rows", "cont in patt as set by Row 2": rows that go on as those before, or as those named."""
    how = as_set_here(c, led)
    if not how or _OTHERWISE & {token.text for token in c.tokens[c.i : c.end]}:
        c.i = start
        return None
    if c.kind() is T.COLON and _TOLD_OUT & {token.text for token in c.tokens[c.i : c.end]}:
        # "Work 9 rnds even: ch 2, hdc in each st around": the words for it follow
        c.i += 1
        return None
    found: Sequence[int] = ()
    if how == "pattern" and c.text() in ("by", "in", "for", "from") and c.text(1) in ROWS:
        i = c.i
        c.i += 1
        found = numbers_here(c) or ()
        c.i = c.i if found else i
    again = how_often(c, start, found, 0)
    return again if found else replace(again, as_set=how)


def _so_many_named(c: Cursor) -> Rerun | None:
    """ "Work 94 more Ridge Rows": so many of the rows that go by a name."""
    start = c.i
    c.i += 1
    many = c.value()
    c.i += 1
    c.take_any("more", "further", "additional")
    words: list[str] = []
    while many is not None and c.kind() is T.WORD and c.text() not in ROWS and len(words) < 3:
        words.append(c.text())
        c.i += 1
    name = (
        row_name(" ".join(words)) if words and len(words) < 3 and c.take_any("rows", "rnds", "rounds") else ""
    )
    if not name or name in ("pattern", "patt", "even") or c.text() in ("in", "of", "even"):
        c.i = start
        return None
    return Rerun((), 0, many, True, "", c.span_from(start), called=name)
