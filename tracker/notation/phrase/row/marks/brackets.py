"""Brackets: a repeat, a group in one place, a count, a statement, a remark. What follows one tells which."""

from tracker.notation.phrase.cursor import DEPTH, Cursor, inner
from tracker.notation.phrase.places.nouns import CHAINS
from tracker.notation.phrase.repeats.endings import ending_here
from tracker.notation.phrase.row.colours import hue_in_bracket
from tracker.notation.phrase.row.counts import count_in
from tracker.notation.phrase.row.marks.behind import after_bracket
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.row.remarked.bearing import alters, amends
from tracker.notation.phrase.row.remarked.remarks import shown_elsewhere, workable
from tracker.notation.phrase.row.sentences import bracket_items, sequence, unpaired
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.phrase.told.counts import count_list
from tracker.notation.phrase.told.turning import (
    left_out,
    named_first,
    side_here,
    stands_for,
    turning_statement,
)
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
    Stated,
    Turn,
    Turning,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.records import replace

_APART = (T.COMMA, T.SEMICOLON, T.PERIOD, T.COLON, T.STAR, T.OPEN, T.DASH)
"""What stands before a bracket that is a phrase of its own."""


def bracket(c: Cursor, reading: Reading, items: list[Item]) -> None:
    """Reads the bracket that opens here."""
    start = c.i
    close = c.partners.get(c.i)
    if close is None:
        unpaired(c, c.i, "opened and never closed")
        reading.unread = True
        c.i += 1
        return
    if _drawn(c, close):
        items.append(Prose("", Span(c.tokens[start].start, c.tokens[close].end)))
        reading.unread = True
        c.i = close + 1
        return
    of = items[-1].count if items and isinstance(items[-1], Chain) else 0
    counted, cut = _count_behind(c, close)
    if counted is not None:
        reading.tell(counted)
    statement = turning_statement(inner(c, c.i + 1, cut), chains=of)
    if statement is None and items and isinstance(items[-1], Chain) and items[-1].count >= 2:
        statement = stands_for(inner(c, c.i + 1, close))
    if statement is None and items and isinstance(items[-1], Chain) and items[-1].count >= 2:
        statement = named_first(inner(c, c.i + 1, close)) or left_out(inner(c, c.i + 1, close))
    if statement is None and _dec_made(c, close, items):
        statement = Turning(True, "dec", 0, False, Span(c.tokens[start].start, c.tokens[close].end))
    if statement is not None:
        if c.kind(1) is T.NUMBER and (counted := _count_before(c, close)) is not None:
            reading.tell(counted)
        items.insert(0 if _of_chain_before(c, close, items) else len(items), statement)
        c.i = close + 1
        return
    if shown_elsewhere(c, c.i + 1, close):
        c.i = close + 1
        items.append(Say("remark", "", Span(c.tokens[start].start, c.tokens[close].end)))
        return
    if close == c.i + 2 and c.text(1) in c.context.colours and c.kind(3) is not T.NUMBER:
        # "(MC) ch 1, turn, …": the colour a row is worked in
        c.i = close + 1
        items.append(Say("colour", "", Span(c.tokens[start].start, c.tokens[close].end)))
        return
    if (hue := hue_in_bracket(c, close)) is not None:
        items.extend(hue)
        return
    side = side_here(inner(c, c.i + 1, close))
    if side is not None:
        reading.side = reading.side or side
        c.i = close + 1
        return
    last = items[-1] if items else None
    if isinstance(last, Repeat) and last.star and last.ending is None:
        ending = ending_here(c)
        if ending is not None:
            items[-1] = replace(last, ending=ending)
            return
    counted = count_in(c, close)
    glued = start > 0 and c.tokens[start - 1].kind not in _APART
    if counted is not None and _in_a_star(c, items, close):
        # "*…, sc in each ch back to head (49 sc); repeat from *": of one pass alone
        c.i = close + 1
        items.append(Say("remark", "", Span(c.tokens[start].start, c.tokens[close].end)))
        return
    if counted is not None and (reading.again or not _is_first_pass(items)):
        reading.tell(counted)
        c.i = close + 1
        return
    if counted is None and _told_behind(c, reading, items, close):
        return
    if c.depth >= DEPTH:
        c.i = close + 1
        span = Span(c.tokens[start].start, c.tokens[close].end)
        items.append(Prose("", span))
        reading.unread = True
        return
    _phrases_in_bracket(c, reading, items, start, close, glued)


def _drawn(c: Cursor, close: int) -> bool:
    """True for one of the squares "[ ] [X] [X]" that no key tells of; a lone "[ ]" is there to be ticked."""
    if c.text() != "[" or not (close == c.i + 1 or close == c.i + 2 and c.text(1) in ("x", "#")):
        return False
    return c.tokens[close + 1].text == "[" or c.i > 0 and c.text(-1) == "]"


def _dec_made(c: Cursor, close: int, items: list[Item]) -> bool:
    """True for the "(dec made)" of "ch 2, dc in next st (dec made)": the two are worked together."""
    words = [token.text for token in c.tokens[c.i + 1 : close]]
    worked = [item for item in items if not isinstance(item, (Say, Turn))]
    if words not in (["dec", "made"], ["decrease", "made"]) or len(worked) != 2:
        return False
    chain, first = worked
    return (
        isinstance(chain, Chain)
        and chain.count > 1
        and isinstance(first, Work)
        and first.count == first.where.many == 1
        and first.where.which is Which.NEXT
        and "tog" not in first.stitch
    )


def _in_a_star(c: Cursor, items: list[Item], close: int) -> bool:
    """True for a count behind what a star began and "repeat from *" has not ended."""
    if not any(isinstance(item, Mark) for item in items) or close + 2 >= c.end:
        return False
    joint, again = c.tokens[close + 1], c.tokens[close + 2]
    return joint.kind in (T.SEMICOLON, T.COMMA, T.PERIOD) and again.text in ("rep", "repeat")


def _count_before(c: Cursor, close: int) -> Stated | None:
    """ "(82 sts, the missed 2 ch count as 1 dc)": a row's count with what is said of its first chains behind it."""
    cut = next((k for k in range(c.i + 1, close) if c.tokens[k].kind in (T.COMMA, T.SEMICOLON, T.DASH)), None)
    if cut is None or not {"missed", "skipped", "turning", "beg", "first"} & {
        t.text for t in c.tokens[cut:close]
    }:
        return None
    counted = count_list(inner(c, c.i + 1, cut), bare=False)
    return counted if counted is not None and counted.counts[0][1] > 4 else None


def _of_chain_before(c: Cursor, close: int, items: list[Item]) -> bool:
    """True for "… Ch 1, turn. (ch 3 counts as dc)": of the chain that ended the row before, and begins this one."""
    says = next(
        (k for k in range(1, close - c.i) if c.text(k) in ("count", "counts", "=", "is", "stands")), 0
    )
    named = next(
        (c.value(k + (2 if c.kind(k + 1) is T.HYPHEN else 1)) for k in range(1, says) if c.text(k) in CHAINS),
        None,
    )
    told = [item.count for item in items if isinstance(item, Chain)]
    behind = [item for item in items if not isinstance(item, (Say, Turn))]
    return named is not None and bool(told) and named not in told and isinstance(behind[-1], Chain)


def _count_behind(c: Cursor, close: int) -> tuple[Stated | None, int]:
    """ "(beg ch counts as dc: 36 dc)": a row's count behind what is said of its chains; and where those words end."""
    words = {token.text for token in c.tokens[c.i + 1 : close]}
    if c.kind(1) is T.NUMBER or not words & {"as", "="} or not words & {"count", "counts", "counting", "="}:
        return None, close
    for cut in range(c.i + 3, close):
        kind = c.tokens[cut].kind
        if kind not in (T.COLON, T.SEMICOLON, T.PERIOD, T.DASH, T.COMMA):
            continue
        counted = count_list(inner(c, cut + 1, close), bare=False)
        # "(counts as dc, 2 ch)" says what it counts as
        if (
            counted is not None
            and (kind is not T.COMMA or counted.counts[0][1] > 4)
            and turning_statement(inner(c, c.i + 1, cut)) is not None
        ):
            return counted, cut
    return None, close


def _phrases_in_bracket(
    c: Cursor, reading: Reading, items: list[Item], start: int, close: int, glued: bool
) -> None:
    """A bracket that holds phrases: worked when what follows says so, else a remark; `glued` to what it may explain."""
    problems = len(c.context.problems)
    inside = Reading()
    saved, c.end = c.end, close
    c.i += 1
    c.depth += 1
    body: list[Item] = []
    sequence(c, inside, body, top=False)
    c.depth -= 1
    c.end = saved
    c.i = close + 1
    reading.side = reading.side or inside.side
    unread = inside.unread or any(isinstance(item, Prose) for item in body)
    placed = after_bracket(c, body, start, any(isinstance(item, Mark) for item in items))
    if placed is not None:
        items.extend(placed)
        reading.unread = reading.unread or unread
        return
    alone = all(isinstance(item, (Say, Mark)) for item in body)
    if unread or alone or (glued and not _acts(body)) or (glued and items and _clarifies(items[-1])):
        # a remark: "(corner)", "(the last st falls in the tch)", "(2 sc in side of each row)"
        del c.context.problems[problems:]
        if (
            unread
            and not glued
            and workable(c, start + 1, close)
            and not _explains(c, start, close)
            and not _counts_up(c, start, close)
        ):
            reading.unread = True
            items.append(Prose("", Span(c.tokens[start].start, c.tokens[close].end)))
            return
        span = Span(c.tokens[start].start, c.tokens[close].end)
        told, last = c.tokens[start + 1 : close], items[-1] if items else None
        each = isinstance(last, Work) and last.where.which is Which.EACH
        bearing = (unread or alone) and alters(told) or each and amends(told)
        items.append(Say("words" if unread else "remark", "", span, bearing))
        return
    if glued and items and not isinstance(items[-1], (Say, Mark, Turning)):
        last = items[-1]
        each = isinstance(last, Work) and last.where.which is Which.EACH
        bearing = each and amends(c.tokens[start + 1 : close])
        items.append(Say("remark", "", Span(c.tokens[start].start, c.tokens[close].end), bearing))
        return
    if body:
        items.append(Repeat(tuple(body), c.span_from(start), 1))


def _told_behind(c: Cursor, reading: Reading, items: list[Item], close: int) -> bool:
    """ "(do not join; 23 sc)": a count behind something told, where neither works anything."""
    for cut in range(c.i + 2, close):
        if c.tokens[cut].kind not in (T.SEMICOLON, T.COMMA, T.PERIOD) or workable(c, c.i + 1, cut):
            continue
        counted = count_list(inner(c, cut + 1, close), bare=True)
        if counted is not None and c.tokens[c.i + 1].kind is T.WORD and stitch_here(c, 1) is None:
            items.append(Say("remark", "", Span(c.tokens[c.i].start, c.tokens[cut].end)))
            reading.tell(counted)
            c.i = close + 1
            return True
    return False


_WORKED_INTO = frozenset("in into next each sk skip miss rep repeat".split())


def _counts_up(c: Cursor, start: int, close: int) -> bool:
    """True for a bracket at the end of a sentence that can only count: "(6 petals of 7 sts)"."""
    after = c.tokens[close + 1] if close + 1 < c.end else None
    if after is not None and after.kind is not T.PERIOD and not after.fresh:
        return False
    inside = c.tokens[start + 1 : close]
    # "a pair at each end" counts, "in each st" is worked into
    told = {
        t.text
        for k, t in enumerate(inside)
        if inside[min(k + 1, len(inside) - 1)].text not in ("end", "side")
    }
    return bool(inside) and inside[0].kind is T.NUMBER and not _WORKED_INTO & told


def _is_first_pass(items: list[Item]) -> bool:
    """True while nothing has been worked yet."""
    return all(isinstance(item, (Say, Mark, Turning)) for item in items)


def _acts(body: list[Item]) -> bool:
    """True for items that work something."""
    return any(isinstance(item, (Work, Group, Repeat, Chain, Skip)) for item in body)


def _clarifies(item: Item) -> bool:
    """True for stitches along a run of places, which a bracket behind them only explains."""
    return isinstance(item, Work) and item.where.which in (Which.EVENLY, Which.ROW_END, Which.EACH)


_EXPLAINING = frozenset(
    "the this see note center centre middle you it these corner now there that working last first "
    "remember made you'll or if same "
    "mark place total each front back".split()
)
"""Words that begin an explanation in brackets."""


def _explains(c: Cursor, start: int, close: int) -> bool:
    """True for brackets that explain: "(center dc of shell)", "(see note)", "(the st with the marker)"."""
    words = [c.tokens[k].text for k in range(start + 1, close)]
    return bool(words) and (words[0] in _EXPLAINING or "not" in words)


def holds_work(c: Cursor, at: int) -> bool:
    """True for a bracket of work, which begins at a token, and not of a count or a remark."""
    inside = c.tokens[at + 1 : c.partners[at]] if c.tokens[at].kind is T.OPEN and at in c.partners else []
    alone = len(inside) == 1 and inside[0].kind is T.WORD
    return alone or any(token.kind is T.COMMA or token.text in ("in", "into") for token in inside)


def _so_often(c: Cursor) -> tuple[int, int] | None:
    """ "6 (3 sc, inc)" of a toy: a number and the bracket it multiplies, with nothing between and no place behind."""
    number, behind = c.value(), c.partners.get(c.i + 1, c.end) + 1
    if number is None or c.kind() is not T.NUMBER or c.kind(1) is not T.OPEN or c.kind(-1) is T.WORD:
        return None
    worded = any(token.kind is T.WORD for token in c.tokens[c.i + 2 : behind])
    placed = not worded or behind >= c.end or c.tokens[behind].text in ("in", "into", "over", "around", "of")
    return None if placed else (number, 1)


def times_ahead(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """Reads "5 times (ch 1, sk 1, sc in next)": how often, told ahead of its bracket; False where none stands here."""
    start, told = c.i, c.times_here() or _so_often(c)
    at = start + (told[1] if told is not None else 0)
    at += at < c.end and c.tokens[at].kind is T.COLON
    if told is None or told[0] < 2 or at >= c.end or not holds_work(c, at):
        return False
    c.i = c.partners[at] + 1
    again = c.times_here() is not None
    c.i = start if again else at
    if again:
        return False
    body = bracket_items(c)
    reading.unread = reading.unread or any(isinstance(item, Prose) for item in body)
    items.append(Repeat(tuple(body), c.span_from(start), told[0]))
    return True
