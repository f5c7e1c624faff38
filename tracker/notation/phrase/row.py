"""The text of one row into items: phrase after phrase, brackets, stars, and what can't be read kept as prose.

Never raises on a maker's text. After a phrase that cannot be read it goes on at the next comma, semicolon, period
or closing bracket.
"""

from tracker.notation.phrase.asides import count_list, inner, side_here, turning_statement
from tracker.notation.phrase.cursor import DEPTH, Cursor, stitch_here
from tracker.notation.phrase.deeds import deed_here
from tracker.notation.phrase.places import PREPOSITIONS, _bare_place, loop_words, stop_here, where_here
from tracker.notation.phrase.repeats import ending_here, often_here, repeat_here
from tracker.notation.phrase.works import grouped, work_here
from tracker.notation.scan import T, Token
from tracker.notation.tree import (
    Chain,
    Group,
    Item,
    Join,
    Mark,
    Prose,
    Repeat,
    Say,
    Skip,
    Stated,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.problems import Label, Problem, Severity, Span

_LIGHT = frozenset("and then now & loosely tightly firmly also next: again more that so".split())
_WORKABLE = frozenset(
    "in into next each ch chs sk skip skipping miss same last first rep repeat repeating across around st sts sp sps work rem remaining unworked "
    "inc dec increase decrease stitch stitches space spaces lp lps loop tog together evenly".split()
)


class Reading:
    """Items of one row, with the counts stated in it."""

    __slots__ = ("items", "kept", "side", "stated", "told_after", "unread")

    def __init__(self) -> None:
        self.items: list[Item] = []
        self.stated: list[Stated] = []
        self.side: str | None = None
        self.unread = False
        self.kept: dict[str, tuple[Item, ...]] = {}
        self.told_after: list[int] = []
        """For each count: how many items the row had when it was told."""

    def tell(self, stated: Stated) -> None:
        self.stated.append(stated)
        self.told_after.append(len(self.items))

    def settle(self) -> None:
        """Counts told in mid-row, with work still to come, are not the row's."""
        from dataclasses import replace

        for k, after in enumerate(self.told_after):
            if any(
                isinstance(i, (Work, Group, Repeat)) and not (isinstance(i, Work) and i.stitch == "slst")
                for i in self.items[after:]
            ):
                self.stated[k] = replace(self.stated[k], partial=True)


def read_row(c: Cursor) -> Reading:
    """Everything a row's tokens say."""
    reading = Reading()
    _sequence(c, reading, reading.items, top=True)
    reading.settle()
    return reading


def bracket_items(c: Cursor) -> list[Item]:
    """Items of the bracket that opens here; the cursor moves past its close."""
    close = c.partners[c.i]
    saved, c.end = c.end, close
    c.i += 1
    items: list[Item] = []
    reading = Reading()
    c.depth += 1
    if c.depth <= DEPTH:
        _sequence(c, reading, items, top=False)
    c.depth -= 1
    c.end = saved
    c.i = close + 1
    return [item for item in items if not isinstance(item, Mark)]


def phrases_until(c: Cursor) -> list[Item]:
    """Phrases up to a semicolon, a period, or the words that turn or close the row."""
    items: list[Item] = []
    reading = Reading()
    while c.kind() not in (T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.DASH, T.COLON):
        if c.text() in ("turn", "join", "fasten") or (c.text() in ("sl", "ss", "slst") and items):
            break
        if c.kind() is T.COMMA:
            ahead = c.text(1)
            if ahead in ("turn", "join", "sl", "ss", "fasten", "slst") or c.kind(1) is T.END:
                break
            c.i += 1
            continue
        if c.kind() is T.OPEN:
            close = c.partners.get(c.i)
            if close is None or _count_in(c, close) is not None:
                break
        i = c.i
        before = len(items)
        _phrase(c, reading, items)
        if c.i == i:
            break
        if len(items) > before and isinstance(items[-1], Prose):
            break
    return items


def _sequence(c: Cursor, reading: Reading, items: list[Item], top: bool) -> None:
    sentence = False
    while c.kind() is not T.END:
        kind = c.kind()
        if kind is T.PERIOD:
            c.i += 1
            sentence = True
            continue
        if kind in (T.COMMA, T.SEMICOLON, T.COLON, T.EQUALS, T.DASH):
            if top and kind in (T.COLON, T.EQUALS, T.DASH) and _count_ahead(c, reading):
                continue
            if kind is T.DASH and _turning_ahead(c, items):
                continue
            c.i += 1
            continue
        if top and sentence and (_count_ahead(c, reading) or _remark_ahead(c, items)):
            continue
        sentence = False
        if (
            top
            and c.value() is not None
            and items
            and c.i
            and c.tokens[c.i - 1].kind in (T.WORD, T.CLOSE)
            and _count_ahead(c, reading)
        ):
            continue
        if kind is T.CLOSE:
            if c.i not in c.partners:
                _unpaired(c, c.i, "closed and never opened")
                reading.unread = True
            c.i += 1
            continue
        if kind is T.OTHER or (kind is T.STAR and c.text() == "+"):
            c.i += 1
            continue
        i = c.i
        _phrase(c, reading, items)
        if c.i == i:
            c.i += 1


def _unpaired(c: Cursor, at: int, how: str) -> None:
    token = c.tokens[at]
    c.context.problems.append(
        Problem(
            "T102", Severity.ERROR, f"{c.context.row or 'The text'} has a bracket that is {how}",
            Label(Span(token.start, token.end), "no partner"), c.context.row, None, c.context.part,
            "Add the missing bracket, or take this one out.",
        )
    )  # fmt: skip


def _sentence_end(c: Cursor) -> int:
    """Index of the period, or of the end, that closes the sentence here; brackets are passed over."""
    i = c.i
    while i < c.end:
        kind = c.tokens[i].kind
        if kind is T.OPEN and i in c.partners:
            i = c.partners[i]
        elif kind is T.PERIOD:
            return i
        i += 1
    return c.end


def _count_ahead(c: Cursor, reading: Reading) -> bool:
    """Takes a count that stands alone from here to the end of its sentence: "— 24 sts", ". 24 tr", ": 36 dc."."""
    end = _sentence_end(c)
    marked = c.kind() in (T.DASH, T.COLON, T.EQUALS)
    part = inner(c, c.i, end)
    stated = count_list(part, bare=marked)
    if stated is None:
        # "24 sts, turn": the count ends at "turn" or at a bracket
        for cut in range(c.i + 1, min(end, c.i + 14)):
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
            if token.kind is T.OPEN or (token.kind is T.STAR):
                break
    if stated is None:
        return False
    reading.tell(stated)
    c.i = end
    return True


_AFTER_COUNT = frozenset(
    "fasten fo finish end bind rep repeat weave stuff block cut break note place change leave sew insert do continue now this you it".split()
)
"""Words that begin a new statement on the line after a count."""


def _turning_ahead(c: Cursor, items: list[Item]) -> bool:
    """ "Ch 1 – does not count here or anywhere –": a statement between dashes."""
    end = c.i + 1
    while end < c.end and c.tokens[end].kind not in (T.DASH, T.PERIOD, T.SEMICOLON, T.COMMA):
        end += 1
    statement = turning_statement(inner(c, c.i + 1, end))
    if statement is None:
        return False
    items.append(statement)
    c.i = end
    return True


def workable(c: Cursor, start: int, end: int) -> bool:
    """True when tokens speak of stitches in a way that could change the work."""
    numbers = words = 0
    i = c.i
    for k in range(start, end):
        token = c.tokens[k]
        if token.kind in (T.NUMBER, T.ORDINAL, T.STAR):
            numbers += 1
        elif token.kind is T.WORD:
            c.i = k
            if token.text in _WORKABLE:
                words += 1
            elif stitch_here(c) is not None and token.text not in ("p", "block", "spike", "slip", "blocks"):
                words += 2
    c.i = i
    return words >= 2 or (words >= 1 and numbers >= 1)


_REMARK_STARTS = frozenset(
    "note tip it this these that you your if be remember mark check count stuff insert place weave block leave the there when hint from for before after photo see here now i we "
    "make sure always don't work take keep put sew close attach pull thread press let at as by all each pm move".split()
)


def _remark_ahead(c: Cursor, items: list[Item]) -> bool:
    """A sentence after the first that tells something and works nothing: kept as a remark."""
    end = _sentence_end(c)
    first = c.text()
    if any(isinstance(item, Say) and item.kind == "fasten off" for item in items):
        if c.kind() is T.OPEN and c.i in c.partners and _count_in(c, c.partners[c.i]) is not None:
            return False
        keep = False
        if not _labelled_work(c, end):
            keep = True
        if keep:
            _say(c, items, end, "remark")
            return True
    statement = turning_statement(_outside(c, c.i, end))
    if (
        statement is not None
        and first
        in (
            "ch",
            "turning",
            "beg",
            "the",
            "chain",
            "chs",
            "tch",
            "this",
            "these",
            "do",
            "skipped",
            "counts",
            "does",
            "starting",
            "first",
        )
        and end - c.i < 24
    ):
        items.append(statement)
        c.i = end
        return True
    words = {c.tokens[k].text for k in range(c.i, end)}
    if {"spiral", "spirals", "continuous"} & words and not any(
        c.tokens[k].kind is T.NUMBER for k in range(c.i, end)
    ):
        _say(c, items, end, "remark")
        return True
    words = {c.tokens[k].text for k in range(c.i, end)}
    if {"spiral", "spirals", "continuous"} & words and not any(
        c.tokens[k].kind is T.NUMBER for k in range(c.i, end)
    ):
        _say(c, items, end, "remark")
        return True
    if first in ("note", "nb", "tip", "hint", "remember", "mark", "photo"):
        _say(c, items, end, "remark")
        return True
    if first in _REMARK_STARTS and first not in (
        "work",
        "make",
        "each",
        "at",
        "as",
        "place",
        "from",
        "leave",
        "all",
        "the",
        "keep",
        "now",
        "here",
        "for",
        "when",
        "after",
        "before",
    ):
        verbs = {c.tokens[k].text for k in range(c.i, end)}
        if not verbs & {"rep", "repeat"} or first in ("it", "you", "i", "we", "your", "remember", "if"):
            _say(c, items, end, "remark")
            return True
    if not workable(c, c.i, end):
        i = c.i
        deed = deed_here(c)
        c.i = i
        if deed is None and stitch_here(c) is None and c.kind() is T.WORD:
            _say(c, items, end, "remark")
            return True
    return False


def _outside(c: Cursor, start: int, end: int) -> Cursor:
    """The tokens of a sentence without what stands in brackets."""
    tokens = []
    i = start
    while i < end:
        if c.tokens[i].kind is T.OPEN and i in c.partners:
            i = c.partners[i] + 1
            continue
        tokens.append(c.tokens[i])
        i += 1
    at = c.tokens[min(end, len(c.tokens) - 1)].start
    return Cursor([*tokens, Token(T.END, "", at, at)], c.context)


def _labelled_work(c: Cursor, end: int) -> bool:
    words = [c.tokens[k].text for k in range(c.i, end)]
    return bool({"join"} & set(words)) and workable(c, c.i, end) and "ch" in words


def _say(c: Cursor, items: list[Item], end: int, kind: str) -> None:
    span = Span(c.tokens[c.i].start, c.tokens[max(c.i, end - 1)].end)
    items.append(Say(kind, "", span))
    c.i = max(end, c.i + 1)


def _count_in(c: Cursor, close: int) -> Stated | None:
    """The count in a bracket, when that is all it holds and what follows lets it be one."""
    after = c.tokens[close + 1] if close + 1 < c.end else c.tokens[-1]
    if after.kind is T.WORD and after.text in (
        *PREPOSITIONS,
        "all",
        "twice",
        "times",
        "x",
        "once",
        "thrice",
        "across",
    ):
        return None
    if after.kind in (T.TIMES,) or (
        after.kind is T.NUMBER and close + 2 < c.end and c.tokens[close + 2].text in ("times", "x", "×")
    ):
        return None
    return count_list(inner(c, c.i + 1, close), bare=True)


def _bracket(c: Cursor, reading: Reading, items: list[Item]) -> None:
    start = c.i
    close = c.partners.get(c.i)
    if close is None:
        _unpaired(c, c.i, "opened and never closed")
        reading.unread = True
        c.i += 1
        return
    statement = turning_statement(inner(c, c.i + 1, close))
    if statement is not None:
        items.append(statement)
        c.i = close + 1
        return
    side = side_here(inner(c, c.i + 1, close))
    if side is not None:
        reading.side = reading.side or side
        c.i = close + 1
        return
    ending = None
    if items and isinstance(items[-1], Repeat) and items[-1].star and items[-1].ending is None:
        ending = ending_here(c)
        if ending is not None:
            from dataclasses import replace

            items[-1] = replace(items[-1], ending=ending)
            return
    counted = _count_in(c, close)
    glued = (
        start > 0
        and c.tokens[start - 1].kind not in (T.COMMA, T.SEMICOLON, T.PERIOD, T.COLON, T.STAR, T.OPEN, T.DASH)
        and start > 0
    )
    if counted is not None and items and not _is_first_pass(items):
        reading.tell(counted)
        c.i = close + 1
        return
    if c.depth >= DEPTH:
        c.i = close + 1
        span = Span(c.tokens[start].start, c.tokens[close].end)
        items.append(Prose("", span))
        reading.unread = True
        return
    problems = len(c.context.problems)
    inside = Reading()
    saved, c.end = c.end, close
    c.i += 1
    c.depth += 1
    body: list[Item] = []
    _sequence(c, inside, body, top=False)
    c.depth -= 1
    c.end = saved
    c.i = close + 1
    reading.side = reading.side or inside.side
    unread = inside.unread or any(isinstance(item, Prose) for item in body)
    placed = _after_bracket(c, body, start)
    if placed is not None:
        items.extend(placed)
        reading.unread = reading.unread or unread
        return
    alone = all(isinstance(item, (Say, Mark)) for item in body)
    if unread or alone or (glued and not _acts(body)) or (glued and items and _clarifies(items[-1])):
        # a remark: "(corner)", "(the last st falls in the tch)", "(2 sc in side of each row)"
        del c.context.problems[problems:]
        if unread and not glued and workable(c, start + 1, close) and not _explains(c, start, close):
            reading.unread = True
            items.append(Prose("", Span(c.tokens[start].start, c.tokens[close].end)))
            return
        items.append(Say("remark", "", Span(c.tokens[start].start, c.tokens[close].end)))
        return
    if glued and items and not isinstance(items[-1], (Say, Mark, Turning)):
        items.append(Say("remark", "", Span(c.tokens[start].start, c.tokens[close].end)))
        return
    if body:
        items.append(Repeat(tuple(body), c.span_from(start), 1))


def _is_first_pass(items: list[Item]) -> bool:
    return all(isinstance(item, (Say, Mark, Turning)) for item in items)


def _acts(body: list[Item]) -> bool:
    return any(isinstance(item, (Work, Group, Repeat, Chain, Skip)) for item in body)


def _clarifies(item: Item) -> bool:
    return isinstance(item, Work) and item.where.which in (Which.EVENLY, Which.ROW_END, Which.EACH)


def _explains(c: Cursor, start: int, close: int) -> bool:
    """True for brackets that explain: "(center dc of shell)", "(see note)", "(the st with the marker)"."""
    words = [c.tokens[k].text for k in range(start + 1, close)]
    return bool(words) and (
        words[0]
        in (
            "the",
            "this",
            "see",
            "note",
            "center",
            "centre",
            "middle",
            "you",
            "it",
            "these",
            "corner",
            "now",
            "there",
            "that",
            "working",
            "last",
            "first",
            "remember",
            "made",
            "you'll",
            "or",
            "if",
            "same",
            "mark",
            "place",
            "total",
            "each",
            "front",
            "back",
        )
        or "not" in words
    )


def _after_bracket(c: Cursor, body: list[Item], start: int) -> list[Item] | None:
    """What follows a closed bracket says its job: a group in one place, or a repeat. None for neither."""
    real = [item for item in body if not isinstance(item, Mark)]
    if not real:
        return None
    i = c.i
    if (
        c.kind() is T.COMMA
        and c.text(1) in ("rep", "repeat")
        and c.kind(2) is T.WORD
        and c.text(2) in ("across", "around", "to")
    ):
        c.i += 2
    each = c.text() in ("each",)
    del each
    all_in = c.take("all")
    c.take("worked")
    times = c.times_here()
    if times is not None and not all_in:
        value, used = times
        c.i += used
        c.take_any("more") and None
        c.take("in") and (c.take("total") or c.take("all") or _back(c))
        inside = where_here(c) if c.text() in ("in", "into") else None
        repeat = Repeat(tuple(real), c.span_from(start), value)
        if inside is not None:
            return grouped([repeat], inside, c, start)
        i2 = c.i
        stop = stop_here(c)
        if stop is not None and stop.left:
            c.i = i2
        ending = ending_here(c)
        from dataclasses import replace

        return [replace(repeat, span=c.span_from(start), ending=ending)]
    if (
        c.text() in PREPOSITIONS
        and not (
            c.text() in ("across", "around", "round", "along") and c.text(1) not in ("post", "next", "each")
        )
        and not (
            c.text() == "to"
            and c.text(1) in ("last", "end", "within", "marker", "next", "corner", "the", "tch", "turning")
        )
    ):
        where = where_here(c)
        if where is not None:
            wheres = list(where)
            while True:
                j = c.i
                if c.take("and") and (c.text() in PREPOSITIONS or c.text() in ("each", "next", "last")):
                    more = where_here(c) if c.text() in PREPOSITIONS else _bare_place(c)
                    if more is not None and c.text() not in ("work", "make"):
                        wheres.extend(more)
                        continue
                c.i = j
                break
            out = grouped(real, tuple(wheres), c, start)
            again = c.times_here()
            if again is not None and c.text(again[1]) not in ("more",):
                c.i += again[1]
                return [Repeat(tuple(out), c.span_from(start), again[0])]
            return out
    if not all_in:
        often = often_here(c)
        if often is not None and (often.stop is not None or often.times is not None):
            repeat = Repeat(tuple(real), c.span_from(start), often.times, often.further, often.stop)
            ending = ending_here(c)
            from dataclasses import replace

            return [replace(repeat, span=c.span_from(start), ending=ending, told_at=c.span_from(start))]
    c.i = i
    return None


def _back(c: Cursor) -> bool:
    c.i -= 1
    return False


def _phrase(c: Cursor, reading: Reading, items: list[Item]) -> None:
    """One phrase; what it says is added to the items. Prose when it can't be read."""
    kind = c.kind()
    start = c.i
    if kind is T.OPEN:
        coloured = _colours_here(c) if c.kind(2) is T.CLOSE else None
        if coloured is not None:
            items.extend(coloured)
            return
        _bracket(c, reading, items)
        return
    if kind is T.STAR:
        _star(c, reading, items)
        return
    word = c.text()
    if word in _LIGHT:
        c.i += 1
        return
    if word in ("rep", "repeat", "repeating", "reps"):
        c.i += 1
        if repeat_here(c, items, reading.kept):
            reading.unread = reading.unread or isinstance(items[-1], Prose)
            return
        c.i = start
    if word in ("work", "then") and c.text(1) == "from" and c.kind(2) is T.STAR:
        c.i += 1
        if repeat_here(c, items, reading.kept):
            return
        c.i = start
    if word in (
        "ending",
        "end",
        "omitting",
        "omit",
        "working",
        "placing",
        "last",
        "with",
        "ends",
        "finishing",
        "leaving",
    ):
        ending = ending_here(c)
        if ending is not None:
            _attach(items, ending)
            return
    if (
        word == "all"
        and c.text(1) in ("in", "into")
        and items
        and isinstance(items[-1], Repeat)
        and items[-1].times == 1
        and not items[-1].star
    ):
        c.i += 1
        where = where_here(c)
        if where is not None:
            items[-1:] = grouped(list(items[-1].items), where, c, start)
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
        if where is not None and _gather(c, items, where):
            return
        c.i = start
    found = work_here(c)
    if found is None:
        found = deed_here(c)
    if (
        found is None
        and word in ("in", "into", "each", "next", "over", "of")
        and c.text(-1) in ("and", ")", "]", "+", "&", ",")
    ):
        found = _goes_on(c, items)
    if found is None:
        found = _colours_here(c)
    if found is None and word in (
        "in",
        "into",
        "over",
        "around",
        "working",
        "work",
        "using",
        "through",
        "next",
        "each",
        "across",
        "along",
        "make",
        "place",
    ):
        found = _place_first(c, reading)
    if found is not None:
        if _alternates(c, items, found, start):
            return
        items.extend(found)
        if any(isinstance(item, Prose) for item in found):
            reading.unread = True
        return
    c.i = start
    _prose(c, reading, items)


def _alternates(c: Cursor, items: list[Item], found: list[Item], start: int) -> bool:
    """ "FPdc around each FPdc and BPdc around each BPdc across": each stitch has its own, in one pass."""
    from dataclasses import replace

    from tracker.notation.tree import Except

    if start == 0 or c.tokens[start - 1].text not in ("and", "&") or not items or len(found) != 1:
        return False
    first, second = items[-1], found[0]
    if not (isinstance(first, Work) and isinstance(second, Work)):
        return False
    if (
        first.where.which is not Which.EACH
        or second.where.which is not Which.EACH
        or first.where.stop is not None
    ):
        return False
    if first.stitch == second.stitch or not second.where.kinds or first.where.kinds == second.where.kinds:
        return False
    alone = Work(
        second.stitch,
        second.count,
        Where(Which.STRAIGHT, second.where.span, loop=second.where.loop),
        second.span,
    )
    items[-1] = replace(
        first,
        where=replace(first.where, stop=second.where.stop),
        excepting=(*first.excepting, Except(second.where.kinds, (alone,)), *second.excepting),
        span=Span(first.span.start, second.span.end),
    )
    return True


def _goes_on(c: Cursor, items: list[Item]) -> list[Item] | None:
    """ "Dc in 4th ch from hook (counts as dc) and in each ch across": the stitch before goes on in further places."""
    from dataclasses import replace

    last = next((item for item in reversed(items) if not isinstance(item, (Turning, Say))), None)
    if not isinstance(last, Work) or last.where.which is Which.EVENLY:
        return None
    start = c.i
    comma = c.text(-1) == ","
    c.take("of")
    where = where_here(c) if c.text() in PREPOSITIONS else _bare_place(c)
    if where is None or c.text() in ("work", "make"):
        c.i = start
        return None
    stop = stop_here(c) if where[-1].which is Which.EACH else None
    if comma and (
        c.kind() not in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.OPEN, T.DASH)
        or stitch_here(c, 1) is not None
        and c.kind() is T.COMMA
        and not where[0].loop
    ):
        c.i = start
        return None
    out: list[Item] = []
    for place in where:
        if place.which is Which.EACH and place.stop is None:
            place = replace(place, stop=stop)
        out.append(
            Work(
                last.stitch,
                1 if last.where.which is Which.FROM_HOOK else last.count,
                place,
                c.span_from(start),
                joined=True,
            )
        )
    return out


def _colours_here(c: Cursor) -> list[Item] | None:
    """ "(A) 4, (B) 2", "A: 4", "4A", "A 3": so many plain stitches in a colour."""
    start = c.i
    colours = c.context.colours
    if c.kind() is T.OPEN and c.text(1) in colours and c.kind(2) is T.CLOSE and c.kind(3) is T.NUMBER:
        number, length = c.value(3), 4
    elif c.text() in colours and c.kind(1) is T.COLON and c.kind(2) is T.NUMBER:
        number, length = c.value(2), 3
    elif c.text() in colours and c.kind(1) is T.NUMBER:
        number, length = c.value(1), 2
    elif c.kind() is T.NUMBER and c.text(1) in colours:
        number, length = c.value(), 2
    else:
        return None
    after = c.kind(length)
    if (
        after not in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.OPEN, T.STAR, T.DASH)
        and not stitch_here(c, length)
        and c.text(length) not in ("rep", "x", "turn")
    ):
        return None
    c.i += length
    stitch = stitch_here(c)
    name = c.context.base
    if stitch is not None and stitch.special is None and stitch.name not in ("inc", "dec"):
        name = stitch.name
        c.i += stitch.tokens
    span = c.span_from(start)
    return [Work(name, number or 0, Where(Which.STRAIGHT, span), span)]


def _attach(items: list[Item], ending: "object") -> None:
    """Gives an ending to the repeat before it; after an "each", what it adds is simply worked."""
    from dataclasses import replace

    from tracker.notation.tree import Ending

    assert isinstance(ending, Ending)
    for k in range(len(items) - 1, -1, -1):
        item = items[k]
        if isinstance(item, (Say, Turning)):
            continue
        if isinstance(item, Repeat) and item.ending is None and item.times != 1:
            items[k] = replace(item, ending=ending)
            return
        break
    if ending.how in ("with", "ending"):
        items.extend(ending.items)
    else:
        items.append(Say("remark", "", ending.span))


def _gather(c: Cursor, items: list[Item], where: tuple[Where, ...]) -> bool:
    """ "Dc, ch 1, dc all in next st": folds the stitches just named that had no place of their own."""
    k = len(items)
    while k and (
        isinstance(items[k - 1], Chain)
        or (isinstance(items[k - 1], Work) and _unplaced(items[k - 1]))
        or isinstance(items[k - 1], Repeat)
        and _bare(items[k - 1])
    ):
        k -= 1
    if k == len(items):
        return False
    body = items[k:]
    first = next(i for i, t in enumerate(c.tokens) if t.start >= body[0].span.start)
    items[k:] = grouped(body, where, c, first)
    return True


def _unplaced(item: Item) -> bool:
    return isinstance(item, Work) and item.where.which is Which.STRAIGHT


def _bare(item: Item) -> bool:
    return isinstance(item, Repeat) and all(
        isinstance(inside, Chain) or _unplaced(inside) for inside in item.items
    )


def _star(c: Cursor, reading: Reading, items: list[Item]) -> None:
    start = c.i
    sign = c.text()
    c.i += 1
    opened = [k for k, item in enumerate(items) if isinstance(item, Mark) and item.sign == sign]
    if opened and items[opened[-1] + 1 :]:
        i = c.i
        if c.kind() is T.COMMA:
            c.i += 1
        c.take_any("rep", "repeat")
        if c.text() in ("from", "between") or c.kind() is T.STAR:
            c.i = i
        else:
            often = often_here(c)
            if often is not None:
                at = opened[-1]
                body = items[at + 1 :]
                times = often.times or often.further
                items[at:] = [
                    Repeat(
                        tuple(item for item in body if not isinstance(item, Mark)),
                        Span(body[0].span.start, c.span_from(start).end),
                        times,
                        stop=often.stop,
                    )
                ]
                ending = ending_here(c)
                if ending is not None:
                    _attach(items, ending)
                return
            c.i = i
    items.append(Mark(sign, c.span_from(start)))


def _place_first(c: Cursor, reading: Reading) -> list[Item] | None:
    """ "In next ch-3 sp work (sc, hdc, dc)", "next 7 sts: sc", "in blo, hdc in each st"."""
    start = c.i
    c.take_any("work", "working", "make", "using")
    i = c.i
    loop = loop_words(c)
    if loop and (
        c.kind() in (T.COMMA, T.COLON, T.SEMICOLON, T.PERIOD, T.END, T.DASH)
        or c.text() in ("throughout", "for", "this", "of", "unless", "from")
    ):
        while c.kind() is T.WORD:
            c.i += 1
        return [Say("loop", loop, c.span_from(start))]
    c.i = i
    if c.kind() is T.OPEN and c.i in c.partners:
        body = bracket_items(c)
        placed = _after_bracket(c, body, start)
        if placed is not None:
            return placed
        c.i = start
        return None
    where = where_here(c) if c.text() in PREPOSITIONS else _bare_place(c)
    if where is None:
        c.i = start
        return None
    if c.kind() in (T.COMMA, T.COLON):
        c.i += 1
    c.take_any("work", "make", "working")
    body = []
    if c.kind() is T.OPEN and c.i in c.partners:
        body = bracket_items(c)
        if not any(isinstance(item, Prose) for item in body):
            times = c.times_here()
            if times is not None:
                c.i += times[1]
                body = [Repeat(tuple(body), c.span_from(start), times[0])]
            return grouped(body, where, c, start)
        c.i = start
        return None
    found = work_here(c)
    if found is None or not all(_unplaced(item) for item in found):
        c.i = start
        return None
    body.extend(found)
    while c.kind() is T.COMMA:
        # "in next st work dc, ch 1, dc": goes on while stitches without a place follow
        j = c.i
        c.i += 1
        more = work_here(c) if c.text() not in ("ch",) else deed_here(c)
        if more is None or not all(isinstance(item, Chain) or _unplaced(item) for item in more):
            c.i = j
            break
        body.extend(more)
    from dataclasses import replace

    if len(body) == 1 and isinstance(body[0], Work):
        return [
            replace(body[0], where=replace(w, loop=w.loop or body[0].where.loop), span=c.span_from(start))
            for w in where
        ]
    return grouped(body, where, c, start)


_STOPS = (T.COMMA, T.SEMICOLON, T.PERIOD, T.CLOSE, T.END, T.STAR, T.DASH, T.COLON)


def _prose(c: Cursor, reading: Reading, items: list[Item]) -> None:
    """Keeps a phrase that can't be read, word for word."""
    start = c.i
    while c.kind() not in _STOPS:
        if c.kind() is T.OPEN and c.i in c.partners:
            if c.i > start:
                break
            c.i = c.partners[c.i]
        c.i += 1
    if c.i == start:
        c.i += 1
        return
    span = c.span_from(start)
    words = {c.tokens[k].text for k in range(start, c.i)}
    told = (
        c.text(start - c.i) in ("starting", "beginning", "beg")
        and {"standing", "in", "with"} & words
        and not {"hook", "hk"} & words
    )
    asides = c.tokens[start].text in (
        "pushing",
        "being",
        "taking",
        "keeping",
        "pulling",
        "holding",
        "catching",
        "inserting",
        "crossing",
        "letting",
        "remembering",
    ) and not any(c.tokens[k].kind is T.NUMBER for k in range(start, c.i))
    if asides or c.text(start - c.i) == "per" or told or {"manner", "way"} & words and "same" in words:
        items.append(Say("remark", "", span))
        return
    if not workable(c, start, c.i) and not _names_unknown(c, start, c.i):
        items.append(Say("remark", "", span))
        return
    reading.unread = True
    _unknown(c, start, span)
    items.append(Prose("", span))


def _names_unknown(c: Cursor, start: int, end: int) -> bool:
    """True when a lone word stands where a stitch would: "(sc, zorp, sc)", "2 zorps"."""
    words = [c.tokens[k] for k in range(start, end)]
    return len(words) <= 2 and any(t.kind is T.NUMBER for t in words)


_COMMON = frozenset(
    "work make the a an in into with from to for at of on and or but then yarn hook color colour row round rnd side piece last first next now using begin beginning start when if as by is are this that "
    "right left front back up down off over under more less one two place marker needle end tail ring circle loosely wrong "
    "insert draw pull drop pick leave keep continue cont weave sew block fold hold note repeat rep ch chain skip sk turn join fasten cut break change carry attach established est even "
    "evenly edge edging border corner corners pattern pat patt stitch stitches st sts both same each every all space spaces sp rows rnds rounds starting working worked making".split()
)


def _unknown(c: Cursor, start: int, span: Span) -> None:
    """Reports a word that stands in a stitch's place and that nobody explains, with the nearest known one."""
    i = start
    if c.tokens[i].kind is T.NUMBER:
        i += 1
    token = c.tokens[i] if i < len(c.tokens) else None
    if token is None or token.kind is not T.WORD or token.text in _COMMON or len(token.text) > 9:
        return
    if token.text.endswith(("ing", "ed", "ly")) or len(token.text) < 2:
        return
    after = c.tokens[i + 1].text if i + 1 < len(c.tokens) else ""
    if after not in ("in", "into", "across", "around", "next", "each", "over") and not (
        i > start and c.tokens[i + 1].kind in _STOPS
    ):
        return
    from tracker.notation.phrase.spelling import nearest

    near = nearest(token.text, c.context)
    help_text = (
        f"Did the pattern mean “{near}”?" if near else "Say in the pattern's own list what it stands for."
    )
    c.context.problems.append(
        Problem(
            "T104", Severity.ERROR, f"{c.context.row or 'A row'} says “{token.text}”, which is no stitch that is known",
            Label(Span(token.start, token.end), "not known"), c.context.row, None, c.context.part, help_text,
        )
    )  # fmt: skip


__all__ = ["Join", "Reading", "bracket_items", "phrases_until", "read_row"]
