"""Counts that stand in a row: behind a dash, in a sentence of their own, in a bracket."""

import re

from tracker.expressions import expression
from tracker.notation.page.sized.sizes import chosen
from tracker.notation.phrase.cursor import Context, Cursor, inner, key_of
from tracker.notation.phrase.places.nouns import PREPOSITIONS
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.told.counts import compared_to_before, count_list
from tracker.notation.phrase.told.turning import turning_statement
from tracker.notation.scan import T, scan
from tracker.notation.tree import (
    Chain,
    Edge,
    Group,
    Item,
    Join,
    Repeat,
    Say,
    Skip,
    Stated,
    Stop,
    Turn,
    Which,
    Work,
)
from tracker.trade.numbers import NUMBER_WORDS

_LONGEST = 60
"""Tokens of the longest sentence that is looked at as a count; with a dozen kinds of stitches it has half of that."""


def sentence_end(c: Cursor, longest: int = 10**9) -> int:
    """Index of the period, or of the end, that closes the sentence here; brackets are passed over.

    Of a sentence of more than `longest` tokens, the place where it was given up.
    """
    i, last = c.i, min(c.end, c.i + longest)
    while i < last:
        kind = c.tokens[i].kind
        if kind is T.OPEN and i in c.partners:
            i = c.partners[i]
        elif kind is T.PERIOD:
            return i
        i += 1
    return min(i, c.end)


_AFTER_COUNT = frozenset(
    "fasten fo finish end bind rep repeat weave stuff block cut break note place change leave sew "
    "insert do continue now this you it sl ss slst slip with using thread draw pull fill attach".split()
)
"""Words that begin a new statement on the line after a count."""


_WORKED_WITHIN = frozenset("inc dec in into next ch sk".split())
"""Words of a bracket that is worked."""
_SEVERAL = ("rounds", "rnds", "rows", "rds")
_STILL = ("still", "again", "total", "altogether", "now", "in", "all", "that's", "makes", "once", "more")
"""What may stand about a number that is all of a count: "Twenty-four again.", "Still 24."."""


_BEING = frozenset("be is makes gives leaves equals".split())
"""Behind "that" before a count: "That should be 179."."""


def _worked(item: Item) -> bool:
    """True for what makes stitches."""
    return isinstance(item, (Work, Group, Repeat, Chain))


def at_the_end(items: list[Item]) -> bool:
    """True when a row has been worked to its end, so that a number behind it can only count: "sc across, 24 sc"."""
    for item in reversed(items):
        if isinstance(item, Join):
            return item.where is None or item.where.which is not Which.RING
        if isinstance(item, (Turn, Say)):
            continue
        if isinstance(item, Work) and item.where.which in (Which.LAST, Which.TOP):
            return True
        stop = item.where.stop if isinstance(item, Work) and item.where.which is Which.EACH else None
        if isinstance(item, Repeat) and item.times is None and item.further is None:
            stop = item.stop
        return stop is not None and stop == Stop()
    return False


def _coloured(reading: Reading) -> bool:
    """True where a row has told its colour, and nothing else yet."""
    return bool(reading.items) and all(
        isinstance(item, Say) and item.kind == "colour" for item in reading.items
    )


def _behind_a_colour(reading: Reading) -> bool:
    """True where the last thing told is a colour."""
    last = reading.items[-1] if reading.items else None
    return isinstance(last, Say) and last.kind == "colour"


_LEADS_IN = (T.COLON, T.COMMA, T.DASH)
"""What stands before a count that words lead to."""


def count_ahead(c: Cursor, reading: Reading) -> bool:
    """Takes a count that stands alone up to the end of its sentence: "— 24 sts", ". 24 tr", ": 36 dc."."""
    if c.value() is not None and c.kind(2) is T.OPEN and (c.text(1) == "x" or c.kind(1) is T.TIMES):
        close = c.partners.get(c.i + 2, c.i)
        if any(token.kind is T.COMMA or token.text in _WORKED_WITHIN for token in c.tokens[c.i : close]):
            return False  # "3x [3 sc, inc]": how often; "7x (22 dc)" counts x's
    if c.value() is not None and c.text(2) in ("at", "on") and c.text(3) in ("each", "both", "either"):
        return False  # "2 sc at both ends" is worked
    if c.text() == "at" and "end" in (c.text(1), c.text(2)):
        # "At end of Row 9: 56 dc, 18 ch-1 sps."
        mark = next((k for k in range(c.i + 2, min(c.end, c.i + 8)) if c.tokens[k].kind in _LEADS_IN), None)
        if mark is None or not any(map(_worked, reading.items)) and not reading.again:
            return False
        start, c.i = c.i, mark + 1
        if count_ahead(c, reading):
            return True
        c.i = start
        return False
    if (
        c.text() in _ROWS
        and c.value(1) is not None
        and c.text(2) in ("has", "ends", "gives", "should", "will")
    ):
        # "Row 7 has 18 sc."
        mark = next((k for k in range(c.i + 3, min(c.end, c.i + 6)) if c.tokens[k].kind is T.NUMBER), None)
        start = c.i
        if mark is not None and (any(map(_worked, reading.items)) or reading.again):
            c.i = mark
            if count_ahead(c, reading):
                return True
        c.i = start
    # A row without an end is not gone through again at each of its phrases.
    end = sentence_end(c, _LONGEST)
    whole = end == c.end or c.tokens[end].kind is T.PERIOD
    while c.text() in _STILL and c.value(1) is not None:
        c.i += 1
    behind = (
        all(token.text in _STILL for token in c.tokens[c.i + 1 : end]) if c.value() is not None else False
    )
    # "27: 2 sc, 13 dc and 12 sl st": the whole, and then its kinds; "12 (no increase)": beside the count before
    behind = (
        behind
        or c.kind() is T.NUMBER
        and (c.kind(1) is T.COLON or c.kind(1) is T.OPEN and compared_to_before(inner(c, c.i + 1, end), 0))
    )
    alone = behind and any(map(_worked, reading.items))
    alone = alone or c.text() in ("that", "this") and bool(_BEING & {c.text(1), c.text(2)})
    marked = alone or c.kind() in (T.DASH, T.COLON, T.EQUALS)
    stated = count_list(inner(c, c.i, end), bare=marked) if whole else None
    if stated is None:
        # "24 sts, turn": the count ends at "turn" or at a bracket
        for cut in range(c.i + 1, min(end, c.i + _LONGEST)):
            token = c.tokens[cut]
            if token.text in _AFTER_COUNT and (
                token.fresh or token.text in ("fasten", "fo", "rep", "repeat")
            ):
                stated = count_list(inner(c, c.i, cut), bare=marked)
                end = cut
                break
            if token.text in ("turn", "join", "change", "fasten", "do") and c.tokens[cut - 1].kind in (
                T.COMMA,
                T.SEMICOLON,
                T.DASH,
            ):
                stated = count_list(inner(c, c.i, cut - 1), bare=marked)
                end = cut
                break
            rows = c.tokens[cut + 1].kind is T.NUMBER and c.tokens[min(cut + 2, c.end)].text in _SEVERAL
            if token.kind is T.OPEN and (rows or c.tokens[cut + 1].text in ("do", "don't", "not", "without")):
                # "; 56 sts (do not join)."
                stated = count_list(inner(c, c.i, cut), bare=marked)
                end = cut
            if token.kind is T.OPEN or (token.kind is T.STAR):
                break
    chains_only = stated is not None and {name for name, _ in stated.counts} == {"ch"}
    if stated is None or (
        chains_only and (c.tokens[end].text == "turn" or not any(map(_worked, reading.items)))
    ):
        # "Yarn A: 41 ch" is a foundation, "…, 3 ch, turn" begins the next row: no counts
        return False
    if c.kind(-1) in (T.SEMICOLON, T.COMMA) and _of_squares(c, stated) and not at_the_end(reading.items):
        return False
    if isinstance(next((item for item in reversed(reading.items) if not isinstance(item, Say)), None), Edge):
        # "…, on the other side: 2 sc, inc (12)": what goes on along another edge is work
        return False
    if (
        (c.kind() is T.COLON or c.kind() is T.NUMBER and c.tokens[min(end + 1, c.end)].kind is T.OPEN)
        and _behind_a_colour(reading)
        and not at_the_end(reading.items)
    ):
        # "Change to red: 4 sc, change to brown: 8 sc", "Change to brown. 8 sc. (12)": what is worked in the colour
        return False
    made = [item for item in reading.items if _worked(item)]
    if not made and c.kind() is T.COLON and any(isinstance(item, Skip) for item in reading.items):
        # "From 2nd ch from hook: 24 sl st": where the work begins, and the work
        return False
    if (
        not made
        and not reading.again
        and c.kind() is T.NUMBER
        and (c.kind(-1) is T.CLOSE or _coloured(reading))
    ):
        # "(gray) 10 sc, (white) 4 sc", "Color B. 1 sc, 17 sc blo": what a row begins with is work
        return False
    if made and not reading.again and c.kind() is T.NUMBER and all(isinstance(item, Chain) for item in made):
        # "Ch 1. 20 sc.": nothing stands there yet that could be counted
        return False
    reading.tell(stated)
    c.i = end
    return True


def _of_squares(c: Cursor, stated: Stated) -> bool:
    """True for squares of filet alone: "ch 5, dc in next dc; 1 om, 3 bl" works them where the row has not ended."""
    told = (c.context.specials.get(key_of(name)) for name, _ in stated.counts)
    return all(special is not None and special.base in ("window", "block") for special in told)


_COUNT_WITHIN = expression(r"[(\[]\s*\d[^)\]]*[a-z][^)\]]*[)\]]\s*:", re.IGNORECASE)
"""A bracket of a label that holds more than figures: "Rnd 3 (40 sc):"."""


def told_in_label(text: str, start: int, end: int, context: Context, size: tuple[int, int]) -> list[Stated]:
    """The count of "Rnd 3 (40 sc): …" in the label at a place of a text; `size` is how many there are, and which."""
    if _COUNT_WITHIN.search(text, start, end) is None:
        return []
    tokens = scan(text, start, end)
    c = Cursor(chosen(tokens, *size)[0] if size[0] > 1 else tokens, context)
    for at, token in enumerate(c.tokens):
        close = c.partners.get(at) if token.kind is T.OPEN else None
        told = count_list(inner(c, at + 1, close), bare=False) if close is not None else None
        if told is not None and not told.change:
            return [told]
    return []


LEADS = (
    "ending", "end", "for", "making", "giving", "finishing", "with", "having", "to", "totalling", "totaling",
    "yielding",
)  # fmt: skip
_MAKES = ("making", "make", "giving", "give", "totalling", "totaling", "yielding", "yield", "total")
"""Words ahead of what a row has in the end: "making 24 sc", "to give 24 sts"."""


def total_ahead(c: Cursor, reading: Reading) -> bool:
    """Takes ", ending with a total of 36 sc", "for a total of 36 sc": the count of what has been told."""
    start = c.i
    while c.text() in LEADS and c.i < start + 3:
        c.i += 1
    stated = None
    total = c.i > start and c.text() == "a" and c.text(1) == "total"
    made = c.text(start - c.i) in _MAKES or c.text(start - c.i) == "to" and c.text(start - c.i + 1) in _MAKES
    if made:
        # "making 36 sc", "to give you 24 sts"
        c.i = start + (2 if c.text(start - c.i) == "to" else 1)
        c.take("you")
        c.take("now")
    if (total or made and c.value() is not None) and any(map(_worked, reading.items)):
        end = c.i
        while c.kind(end - c.i) in (T.WORD, T.NUMBER, T.HYPHEN):
            end += 1
        if made and c.kind(end - c.i) not in (T.END, T.PERIOD, T.SEMICOLON):
            c.i = start
            return False
        stated = count_list(inner(c, c.i, end), bare=False)
    if stated is None:
        c.i = start
        return False
    reading.tell(stated)
    c.i = end
    return True


def turning_ahead(c: Cursor, items: list[Item]) -> bool:
    """ "Ch 1 – does not count here or anywhere –": a statement between dashes; "ch 3 = first dc"."""
    begun = c.i if c.kind() is T.EQUALS else c.i + 1
    if begun == c.i and not (items and isinstance(items[-1], Chain)):
        return False
    end = c.i + 1
    while end < c.end and c.tokens[end].kind not in (T.DASH, T.PERIOD, T.SEMICOLON, T.COMMA):
        end += 1
    statement = turning_statement(inner(c, begun, end))
    if statement is None:
        return False
    items.append(statement)
    c.i = end
    return True


_OFTEN = ("all", "twice", "times", "x", "once", "thrice", "across")
"""Words that make a repeat of the bracket before them."""


def count_in(c: Cursor, close: int) -> Stated | None:
    """The count in a bracket, when that is all it holds and what follows lets it be one."""
    after = c.tokens[close + 1] if close + 1 < c.end else c.tokens[-1]
    if after.kind is T.WORD and (after.text in PREPOSITIONS or after.text in _OFTEN):
        return None
    if after.text in NUMBER_WORDS and c.tokens[min(close + 2, c.end)].text in ("times", "time", "more"):
        # "(2 hdc, inc) two times"
        return None
    if after.kind is T.TIMES or (
        after.kind is T.STAR
        and c.tokens[min(close + 2, c.end - 1)].start == after.end
        and c.tokens[min(close + 2, c.end - 1)].kind is T.NUMBER
    ):
        # "[2 sc, inc]*5"
        return None
    if after.kind is T.NUMBER and close + 2 < c.end and c.tokens[close + 2].text in ("times", "x", "×"):
        return None
    whole = count_list(inner(c, c.i + 1, close), bare=True)
    if whole is None and (after.kind in (T.END, T.PERIOD) or after.fresh):
        whole = _with_chains(c, close)
    if whole is not None:
        return whole
    # "(23 dc – 7 groups of 3, plus 1 dc each end)": what follows the dash explains the count
    cut = next((k for k in range(c.i + 2, close) if c.tokens[k].kind in (T.DASH, T.SEMICOLON)), None)
    told = None if cut is None else count_list(inner(c, c.i + 1, cut), bare=False)
    if told is None and (after.kind in (T.END, T.PERIOD) or after.fresh):
        return _with_a_remark(c, close)
    return told


def _with_chains(c: Cursor, close: int) -> Stated | None:
    """ "(5 sc, ch 11)" at a row's end: the stitches, beside a chain that may be the next row's."""
    if close - c.i < 6:
        return None
    sign, word, number = c.tokens[close - 3 : close]
    chained = word.text in ("ch", "chain") and number.kind is T.NUMBER
    if not chained or sign.kind is not T.COMMA and sign.text not in ("+", "and", "plus"):
        return None
    return count_list(inner(c, c.i + 1, close - 3), bare=False)


def _with_a_remark(c: Cursor, close: int) -> Stated | None:
    """ "(248 dc: do not be alarmed)", "(4 bobbles this time)" at a row's end: what is said of a count behind it."""
    if c.tokens[c.i + 1].kind is not T.NUMBER:
        return None
    for cut in range(c.i + 2, min(close, c.i + 12)):
        token = c.tokens[cut]
        apart = token.kind in (T.COLON, T.SEMICOLON, T.COMMA, T.DASH)
        said = (T.WORD,) if not apart else (T.WORD, T.NUMBER) if token.kind is not T.COMMA else (T.WORD,)
        rest = c.tokens[cut + apart : close]
        of_row = token.text == "in" and bool(rest[1:]) and rest[1].text in _ROWS  # "(7 tiles in Row 7)"
        if not (apart or of_row or token.text in _REMARKS) or not rest or rest[0].kind not in said:
            continue
        if token.kind is T.COMMA and (
            rest[0].text not in _REMARKS or any(t.kind is T.NUMBER or t.text in _WORKS for t in rest)
        ):
            continue
        told = count_list(inner(c, c.i + 1, cut), bare=True)
        if told is not None:
            return told
    return None


_ROWS = ("row", "rnd", "round")
_REMARKS = frozenset("when the this that these those again so if because it which of all".split())
"""Words that begin a remark right behind a count."""
_WORKS = frozenset("in into each next sk skip miss".split())
"""Words of work, and of no remark on a count."""
