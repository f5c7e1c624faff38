"""Phrases that tell work over again: "rep …", "do that 5 times", "work from * to **", "alternating sc and dc"."""

from tracker.notation.phrase.cursor import STOPS, Cursor
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.repeats.corners import corners_again
from tracker.notation.phrase.repeats.stars import repeat_here
from tracker.notation.phrase.repeats.unmarked import alternating
from tracker.notation.phrase.row.marks.brackets import holds_work
from tracker.notation.phrase.row.marks.star import repeats_unstarred
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.scan import T
from tracker.notation.tree import ANY, Item, Prose, Repeat, Say, Stop
from tracker.records import replace

IN_PATTERN = frozenset("work working cont continue continuing keep keeping pattern patt pat".split())
"""Words that may begin what goes on as set."""


def by_turns(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "Alternating 1 sc and 1 dc"."""
    turns = alternating(c)
    if turns is not None:
        items.append(turns)
    return turns is not None


def told_to_repeat(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "Rep from *", "rep [sc in next st, ch 1] across"."""
    start = c.i
    c.i += 1
    if holds_work(c, c.i):
        # what is told how often stands behind the word
        return True
    if _bracket_again(c, items):
        return True
    if repeat_here(c, items, reading.kept):
        reading.unread = reading.unread or bool(items) and isinstance(items[-1], Prose)
        return True
    c.i = start + 1
    if items is reading.items and repeats_unstarred(c, reading, start):
        return True
    c.i = start
    return False


def _bracket_again(c: Cursor, items: list[Item]) -> bool:
    """ "Between brackets 4 times", "[ ] 4 times", "instructions in parentheses twice": the last bracket again."""
    start = c.i
    told = next((item for item in reversed(items) if isinstance(item, Repeat)), None)
    c.take("the")
    c.take_any("instructions", "directions", "sts", "stitches", "steps", "section")
    c.take_any("between", "in", "within", "inside")
    c.take("the")
    if c.kind() is T.OPEN and c.kind(1) is T.CLOSE:
        c.i += 2
    elif not c.take_any("brackets", "bracket", "parentheses", "parenthesis", "parens"):
        c.i = start
        return False
    often = c.times_here()
    if told is None or often is None or told.times is None:
        c.i = start
        return False
    c.i += often[1]
    c.take_any("more", "again")
    c.take("times")
    items.append(replace(told, times=often[0], span=c.span_from(start)))
    return True


def in_pattern(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "2 sc in first st, work in pattern to last st, …": as the rows before, whatever they are, as far as is told."""
    start = c.i
    led = c.take_any("work", "working", "cont", "continue", "continuing", "keep", "keeping")
    c.take_any("even", "across")
    if led:
        c.take_any("in", "to") and c.take_any("work", "in")
        c.take_any("the", "est", "established", "this", "same")
    named = c.take_any("pattern", "patt", "pat") if items is reading.items else ""
    while named and c.take_any("as", "set", "established", "est", "before", "above"):
        pass
    stop = stop_here(c) if named else None
    if named and stop is None and led and c.kind() in STOPS:
        stop = Stop()
    if stop is None or stop.at or any(kind.name != ANY for kind in stop.kinds):
        c.i = start
        return False
    items.append(Prose("", c.span_from(start), stop))
    return True


_OVER = ("over", "around", "round", "on", "above", "into")


def over_themselves(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "As Rnd 2, working FPdc around FPdc and BPdc around BPdc", "… raised sts over raised sts": no other work."""
    if not reading.again or items is not reading.items or any(not isinstance(item, Say) for item in items):
        return False
    start = c.i
    c.take_any("always", "still")
    led = c.take_any("working", "keeping", "placing", "making")
    while led:
        name = _taken(c)
        over = c.take_any(*_OVER) if name else ""
        if not over or _taken(c) != name:
            led = ""
        elif not (c.take("and") or c.take("&") or c.kind() is T.COMMA and c.step()):
            break
    if not led or c.kind() not in STOPS and c.kind() is not T.OPEN:
        c.i = start
        return False
    items.append(Say("remark", "", c.span_from(start)))
    return True


def _taken(c: Cursor) -> list[str]:
    """Takes the name of stitches, "raised sts", "each FPdc", as far as where they go, without its plural."""
    while c.take_any("all", "the", "each", "every", "next", "of"):
        pass
    name: list[str] = []
    while c.kind() is T.WORD and c.text() not in (*_OVER, "and") and len(name) < 4:
        name.append(c.text().removesuffix("s"))
        c.i += 1
    return [] if {"inc", "dec", "increase", "decrease"} & set(name) else name


def done_again(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "*Ch 3, skip 1, sl st in next.* Do that five times in all."."""
    if c.text(1) not in ("that", "this", "these", "it") or items is not reading.items:
        return False
    start = c.i
    c.i += 2
    if repeat_here(c, items, reading.kept) and isinstance(done := items[-1], Repeat):
        if done.times is None and done.further:
            items[-1] = replace(done, times=done.further, further=None)
        return True
    c.i = start
    return False


def in_other_corners(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "Do the same in each of the other three corners"."""
    return items is reading.items and corners_again(c, items)


def from_a_star(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "Then from * to ** once more"."""
    start = c.i
    if c.text(1) != "from" or c.kind(2) is not T.STAR:
        return False
    c.i += 1
    if repeat_here(c, items, reading.kept):
        return True
    c.i = start
    return False
