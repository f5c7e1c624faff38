"""The text of one row into items: phrase after phrase, sentence after sentence.

Never raises on a maker's text. After a phrase that cannot be read it goes on at the next comma, semicolon, period
or closing bracket.
"""

from collections.abc import Sequence
from itertools import pairwise

from tracker.notation.phrase.cursor import DEPTH, SLIPS, Cursor
from tracker.notation.phrase.repeats.loose import told_by_number
from tracker.notation.phrase.row.counts import (
    LEADS,
    at_the_end,
    count_ahead,
    count_in,
    total_ahead,
    turning_ahead,
)
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.spelling import tell_unknown, unknown_word
from tracker.notation.scan import T
from tracker.notation.tree import (
    Chain,
    Edge,
    Group,
    Item,
    Join,
    Mark,
    Prose,
    Repeat,
    Say,
    Turn,
    Turning,
    Work,
)
from tracker.problems import Label, Problem, Severity, Span
from tracker.problems.headline import headline

_FOUNDATIONS = ("foundation", "base", "up", "setup")
_MARKS = (T.COMMA, T.SEMICOLON, T.COLON, T.EQUALS, T.DASH)
"""What stands between phrases."""


def read_row(c: Cursor, again: bool = False) -> Reading:
    """Everything a row's tokens say; `again` when the rows it repeats were named before."""
    reading = Reading()
    reading.again = again
    sequence(c, reading, reading.items, top=True)
    told_by_number(reading.items)
    _without_partner(c)
    if c.context.row is not None and (word := unknown_word(c.tokens, c.context)) is not None:
        # wherever it stands: what nobody explains is not passed over as a remark
        tell_unknown(word, c.context, c.context.row)
        reading.unread = True
    if _leads_to_nothing(c, reading.items):
        # "sc in each st across and down the side": nobody tells what is worked there
        reading.unread = True
    if _begun_and_told_on(reading.items):
        # "*sc in next 2, dec; and so on in that manner": what a star began is worked more than once
        reading.unread = True
    if any(name.startswith("?") for stated in reading.stated for name, _ in stated.counts):
        _counted_and_passed_over(c, reading)
    reading.settle()
    return reading


def _counted_and_passed_over(c: Cursor, reading: Reading) -> None:
    """Words taken for a remark that name what the row's count tells of are worked: they were not read.

    "Beg fan in ring, ch 3, … (6 fans)", where nobody tells what a fan is.
    """
    names = {name[1:] for stated in reading.stated for name, _ in stated.counts if name.startswith("?")}
    for k, item in enumerate(reading.items):
        if not isinstance(item, Say) or item.kind not in ("words", "unsure", "remark"):
            continue
        words = [token for token in c.tokens if item.span.start <= token.start < item.span.end]
        for one, behind in pairwise(words):
            placed = one.text.removesuffix("s") in names and behind.text in ("in", "into", "around")
            if placed and words[-1].kind is not T.CLOSE:
                reading.items[k] = Prose(item.text, item.span)
                reading.unread = True


def _only_turned(reading: Reading, items: Sequence[Item]) -> bool:
    """True while nothing was worked: the "5 om, 1 bl" of "Ch 5, turn (counts as dc, ch 2): 5 om, 1 bl" is no count."""
    turned = any(isinstance(item, Turn) for item in items)
    return turned and not reading.again and all(isinstance(item, (Chain, Turn, Turning)) for item in items)


def _leads_to_nothing(c: Cursor, items: Sequence[Item]) -> bool:
    """True for stitches that go on along another edge at the very end; "turn to work along it" is for the next row."""
    told = [item for item in items if not isinstance(item, (Say, Join, Mark))]
    if len(told) < 2 or not isinstance(told[-1], Edge) or not isinstance(told[-2], (Work, Group, Repeat)):
        return False
    first = next((token.text for token in c.tokens if token.start >= told[-1].span.start), "")
    return first in ("down", "along", "up", "around", "across")


def _begun_and_told_on(items: list[Item]) -> bool:
    """True where a star begins what no words repeat, and words behind it are not understood."""
    begun = next((k for k, item in enumerate(items) if isinstance(item, Mark) and item.sign == "*"), None)
    behind = items[begun:] if begun is not None else ()
    return any(isinstance(item, Say) and item.kind in ("words", "unsure") for item in behind) and any(
        isinstance(item, (Work, Group)) for item in behind
    )


def _without_partner(c: Cursor) -> None:
    """Reports brackets without a partner that stand inside a phrase, a remark or a count."""
    told = {p.label.span.start for p in c.context.problems if p.code == "T102"}
    if len(c.tokens) > 1 and c.tokens[-2].kind is T.COLON:
        # "(UK terms: dc = double crochet)": a list of abbreviations, whose other half is no part of the row
        return
    for k, token in enumerate(c.tokens):
        if token.kind in (T.OPEN, T.CLOSE) and k not in c.partners and token.start not in told:
            before = c.tokens[k - 1] if k else None
            if token.kind is T.CLOSE and (
                before is None or before.kind in (T.COLON, T.SEMICOLON, T.NUMBER, T.HYPHEN)
            ):
                # "1) …", ":-)"
                continue
            unpaired(c, k, "opened and never closed" if token.kind is T.OPEN else "closed and never opened")


def bracket_items(c: Cursor) -> list[Item]:
    """Items of the bracket that opens here; the cursor moves past its close."""
    close = c.partners[c.i]
    saved, c.end = c.end, close
    c.i += 1
    items: list[Item] = []
    reading = Reading()
    c.depth += 1
    if c.depth <= DEPTH:
        sequence(c, reading, items, top=False)
    c.depth -= 1
    c.end = saved
    c.i = close + 1
    return [item for item in items if not isinstance(item, Mark)]


def phrases_until(c: Cursor) -> list[Item]:
    """Phrases up to a semicolon, a period, or the words that turn or close the row."""
    # a bracket holds phrases and a phrase may be a bracket, so the two modules need each other
    from tracker.notation.phrase.row.phrases import phrase

    items: list[Item] = []
    reading = Reading()
    if c.depth >= DEPTH:
        return items
    c.depth += 1
    while c.kind() not in (T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.DASH, T.COLON, T.EQUALS):
        if c.text() in ("turn", "join", "fasten") or (c.text() in SLIPS and items):
            break
        if c.kind() is T.COMMA:
            ahead = c.text(1)
            if ahead in ("turn", "join", "fasten", "insert", *SLIPS) or c.kind(1) is T.END:
                break
            c.i += 1
            continue
        if c.kind() is T.OPEN:
            close = c.partners.get(c.i)
            if close is None or count_in(c, close) is not None:
                break
        i = c.i
        before = len(items)
        phrase(c, reading, items)
        if c.i == i:
            break
        if len(items) > before and isinstance(items[-1], Prose):
            break
    c.depth -= 1
    return items


def _worked(item: Item) -> bool:
    """True for what makes stitches."""
    return isinstance(item, (Work, Group, Repeat))


def sequence(c: Cursor, reading: Reading, items: list[Item], top: bool) -> None:
    """Reads everything up to the cursor's end; `top` for a row itself, where counts and remarks may stand."""
    # see phrases_until
    from tracker.notation.phrase.row.phrases import phrase
    from tracker.notation.phrase.row.remarked.remarks import (
        begins_anew,
        fastens_off,
        remark_ahead,
        seam_ahead,
    )
    from tracker.notation.phrase.row.remarked.told_again import folds

    sentence = fastened = False
    looked_at = 0  # so many items were asked whether the yarn is fastened off
    while c.kind() is not T.END:
        kind = c.kind()
        if kind is T.PERIOD:
            c.i += 1
            sentence = True
            continue
        if kind in _MARKS:
            # but not the "6 x (2 sc, inc)" of "BLO: 6 x (2 sc, inc)", nor the "60 fsc" of "Foundation: 60 fsc"
            looped = (
                not reading.again and all(isinstance(i, Say) and i.kind == "loop" for i in items) and items
            )
            led = (
                looped
                or kind is T.COLON
                and (_only_turned(reading, items) or c.i < 4 and c.text(-1) in _FOUNDATIONS)
            )
            if top and kind in (T.COLON, T.EQUALS, T.DASH) and not led and count_ahead(c, reading):
                continue
            if kind in (T.DASH, T.EQUALS) and turning_ahead(c, items):
                continue
            c.i += 1
            continue
        counted = top and bool(reading.stated) and not any(map(_worked, items[reading.told_after[-1] :]))
        shuts = counted and not sentence and c.kind(-1) is T.CLOSE
        if shuts and (folds(c, items, counted) or seam_ahead(c, items)):
            continue
        if top and sentence:
            if folds(c, items, counted) or not _only_turned(reading, items) and count_ahead(c, reading):
                continue
            fastened = fastened or fastens_off(items[looked_at:]) and not begins_anew(c, items)
            looked_at = max(0, len(items) - 1)  # the last may still become another
            if remark_ahead(c, items, fastened):
                continue
        sentence = False
        if (
            top
            and c.value() is not None
            and items
            and c.i
            and (
                c.tokens[c.i - 1].kind in (T.CLOSE, T.SEMICOLON)
                or c.tokens[c.i - 1].kind is T.COMMA
                and (at_the_end(items) or _stitches_alone(c, items))
                or c.tokens[c.i - 1].kind is T.WORD
                and c.text(-1) not in ("and", "then", "plus")
                and not (
                    isinstance(items[-1], Say)
                    and items[-1].kind in ("remark", "words", "unsure", "loop", "colour")
                )
            )
            and count_ahead(c, reading)
        ):
            continue
        if kind is T.CLOSE:
            listed = c.kind(-1) in (T.WORD, T.NUMBER) and c.i > 0 and (c.i == 1 or c.token(-1).fresh)
            smiles = (
                listed or c.kind(-1) in (T.COLON, T.SEMICOLON, T.HYPHEN) and c.kind(1) in (T.END, T.PERIOD)
            )
            if c.i not in c.partners and not smiles:
                unpaired(c, c.i, "closed and never opened")
                reading.unread = True
            c.i += 1
            continue
        if kind is T.OTHER:
            c.i += 1
            continue
        if top and c.text() in LEADS and total_ahead(c, reading):
            continue
        i = c.i
        phrase(c, reading, items)
        if c.i == i:
            c.i += 1


def _stitches_alone(c: Cursor, items: list[Item]) -> bool:
    """True for the "18 sts" that ends "(2 sc, dec) x 6, 18 sts.": a number of no kind of stitch works nothing."""
    alone = c.text(1) in ("sts", "stitches") and c.kind(2) in (T.PERIOD, T.END)
    return alone and isinstance(items[-1], (Work, Group, Repeat))


def unpaired(c: Cursor, at: int, how: str) -> None:
    """Reports a bracket without its partner."""
    token = c.tokens[at]
    c.context.problems.append(
        Problem(
            "T102",
            Severity.ERROR,
            headline(c.context.row or "The text", f"has a bracket that is {how}"),
            Label(Span(token.start, token.end), "no partner"),
            c.context.row,
            None,
            c.context.part,
            "Add the missing bracket, or take this one out.",
        )
    )
