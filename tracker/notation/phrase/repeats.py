"""How often: "rep from * 4 more times", "rep between *s across", "ending last rep with …", "omitting last ch 2".

The items read so far come in; what a star began is folded into a Repeat. A star that is not there is reported,
and the phrase is kept as prose.
"""

from dataclasses import dataclass, replace

from tracker.notation.phrase.cursor import Cursor, stitch_here
from tracker.notation.phrase.places import stop_here, where_here
from tracker.notation.scan import T
from tracker.notation.tree import Chain, Ending, Item, Mark, Prose, Repeat, Say, Stop, Where, Which, Work
from tracker.problems import Label, Problem, Severity, Span


@dataclass(slots=True)
class Often:
    """How often a star is gone back to."""

    times: int | None = None
    further: int | None = None
    stop: Stop | None = None


def often_here(c: Cursor) -> Often | None:
    """ "4 times", "4 more times", "once more", "across", "to last 3 sts", "until 1 st remains"."""
    c.take("for")
    i = c.i
    often: Often | None = None
    times = c.times_here()
    if times is not None:
        value, used = times
        words = [c.text(k) for k in range(used)]
        c.i += used
        more = (
            "more" in words
            or "further" in words
            or "additional" in words
            or bool(c.take_any("more", "further"))
        )
        total = "total" in words or (c.take("in") and (c.take("all") or c.take("total")))
        c.take_any("around", "across", "in")
        if c.text(-1) == "in":
            c.i -= 1
        if more:
            often = Often(times=value + 1)
        elif total:
            often = Often(times=value)
        else:
            often = Often(further=value)
    else:
        stop = stop_here(c)
        if stop is not None:
            often = Often(stop=stop)
            more_times = c.times_here()
            if more_times is not None and stop == Stop():
                value, used = more_times
                c.i += used
                more = bool(c.take_any("more", "further")) or "more" in (c.text(-2), c.text(-1))
                often = Often(times=value + 1) if more else Often(further=value)
        elif c.take("as") or c.take("in"):
            # "as many times as needed", "in established pattern", "as established"
            while c.kind() is T.WORD and c.text() not in ("ending", "omitting", "join", "turn", "until"):
                c.i += 1
            stop = stop_here(c)
            often = Often(stop=stop or Stop())
        elif c.text() in ("until", "till"):
            c.i = i
            return None
    return often


def star_at(items: list[Item], sign: str, which: str = "") -> int | None:
    """Index of the star a phrase goes back to."""
    found = [k for k, item in enumerate(items) if isinstance(item, Mark) and item.sign == sign]
    if not found:
        return None
    return found[0] if which == "first" else found[-1]


def repeat_here(c: Cursor, items: list[Item], kept: dict[str, tuple[Item, ...]]) -> bool:
    """Reads what stands after "rep" and folds the items; False, with the cursor where it was, when it can't."""
    start = c.i - 1
    c.take("the") or c.take("this") or c.take("these")
    c.take_any("pattern", "pat", "patt", "section", "instructions", "sequence")
    between = c.take("between")
    if not between:
        c.take("from") or c.take("work") or c.take("starting")
    which = c.take_any("first", "last", "second")
    sign = ""
    to_sign = ""
    c.take("the")
    if c.kind() is T.STAR:
        sign = c.text()
        c.i += 1
        if c.text() in ("s",):
            c.i += 1
        if between:
            if c.take("and") and c.kind() is T.STAR:
                to_sign = c.text()
                c.i += 1
        elif c.text() in ("to", "through", "-") or c.kind() is T.DASH:
            if c.kind(1) is T.STAR:
                to_sign = c.text(1)
                c.i += 2
    elif c.take_any("asterisk", "asterisks", "star", "stars"):
        sign = "*"
    elif c.kind() is T.OPEN and c.kind(1) is T.CLOSE:
        c.i += 2
    told = c.token(0).start
    often = often_here(c) if c.text() not in ("until", "till") else _until(c)
    if sign:
        at = star_at(items, sign, which)
        if at is None:
            if sign in kept:
                body: list[Item] = list(kept[sign])
                if to_sign:
                    cut = next(
                        (k for k, item in enumerate(body) if isinstance(item, Mark) and item.sign == to_sign),
                        None,
                    )
                    body = body[:cut] if cut is not None else body
                times = often.times or often.further if often else 1
                items.append(
                    Repeat(
                        tuple(_unmarked(body)),
                        c.span_from(start),
                        times,
                        stop=often.stop if often else None,
                        star=False,
                    )
                )
                _ending_after(c, items, len(items) - 1)
                return True
            span = c.span_from(start)
            c.context.problems.append(
                Problem(
                    "T103", Severity.ERROR, f"{c.context.row or 'A row'} goes back to “{sign}”, and there is none before it",
                    Label(span, "no star to go back to"), c.context.row, None, c.context.part,
                    f"Put a “{sign}” where the repeat begins.",
                )
            )  # fmt: skip
            items.append(Prose(_words(c, span), span))
            return True
        body = items[at + 1 :]
        if to_sign and to_sign != sign:
            cut = next(
                (k for k, item in enumerate(body) if isinstance(item, Mark) and item.sign == to_sign), None
            )
            if cut is not None:
                kept[sign] = tuple(body)
                rest = body[cut + 1 :]
                times = 1 if often is None else (often.times or often.further)
                more = times if often is None or often.times is None else often.times - 1
                items[at:] = [
                    *body[:cut],
                    *rest,
                    Repeat(
                        tuple(_unmarked(body[:cut])),
                        c.span_from(start),
                        more,
                        stop=often.stop if often else None,
                    ),
                ]
                _ending_after(c, items, len(items) - 1)
                return True
        if to_sign == sign or between:
            marks = [k for k, item in enumerate(items) if isinstance(item, Mark) and item.sign == sign]
            if len(marks) >= 2:
                at, cut = marks[-2], marks[-1]
                body = items[at + 1 : cut]
                rest = items[cut + 1 :]
                kept[sign] = tuple(body)
                repeat = _repeat(c, body, often, start, told)
                if rest:
                    # the part between the stars was worked once, then other things, then it comes again
                    times = None if often is None else (often.times - 1 if often.times else often.further)
                    items[at:] = [*body, *rest, replace(repeat, times=times, further=None, star=False)]
                else:
                    items[at:] = [repeat]
                _ending_after(c, items, len(items) - 1)
                return True
        kept[sign] = tuple(body)
        items[at:] = [_repeat(c, body, often, start, told)]
        _ending_after(c, items, len(items) - 1)
        return True
    # "repeat around" with no star named: the last star, or the bracket just closed
    if often is None:
        return False
    marks = [k for k, item in enumerate(items) if isinstance(item, Mark)]
    if marks:
        at = marks[-1]
        items[at:] = [_repeat(c, items[at + 1 :], often, start, told)]
        _ending_after(c, items, at)
        return True
    if items and isinstance(items[-1], Repeat) and items[-1].times == 1:
        items[-1] = _repeat(c, list(items[-1].items), often, start, told)
        _ending_after(c, items, len(items) - 1)
        return True
    return False


def _until(c: Cursor) -> Often | None:
    """ "until 1 st remains", "until last 3 sts"."""
    stop = stop_here(c)
    return Often(stop=stop) if stop is not None else None


def _unmarked(items: list[Item]) -> list[Item]:
    return [item for item in items if not isinstance(item, Mark)]


def _repeat(c: Cursor, body: list[Item], often: Often | None, start: int, told: int) -> Repeat:
    span = c.span_from(start)
    first = body[0].span.start if body else span.start
    whole = Span(first, span.end)
    keep = tuple(body)
    told_at = Span(c.tokens[start].start, span.end)
    del told
    if often is None:
        return Repeat(keep, whole, None, stop=Stop(), star=True, told_at=told_at)
    return Repeat(keep, whole, often.times, often.further, often.stop, star=True, told_at=told_at)


def _ending_after(c: Cursor, items: list[Item], at: int) -> None:
    """Adds what the words after a repeat change about its last pass."""
    ending = ending_here(c)
    target = items[at]
    if ending is not None and isinstance(target, Repeat):
        items[at] = replace(target, ending=ending, span=Span(target.span.start, ending.span.end))


def ending_here(c: Cursor) -> Ending | None:
    """ "ending last rep with …", "omitting last ch 2", "working last dc in top of ch-3", or None."""
    from tracker.notation.phrase.row import phrases_until

    i = c.i
    start = c.i
    while c.kind() in (T.COMMA, T.SEMICOLON) or c.take_any("and", "but"):
        if c.kind() in (T.COMMA, T.SEMICOLON):
            c.i += 1
    word = c.text()
    if c.kind() is T.OPEN:
        close = c.partners.get(c.i)
        if close and c.text(1) in ("omit", "omitting", "ending", "end", "last", "working", "placing"):
            saved, c.end = c.end, close
            c.i += 1
            found = ending_here(c)
            c.end = saved
            if found is not None:
                c.i = close + 1
                return found
        c.i = i
        return None
    if word in ("omitting", "omit", "leaving", "less", "minus", "without", "except") and not (
        word == "leaving" and c.text(1) not in ("out", "off")
    ):
        c.i += 1
        c.take("out") or c.take("off")
        c.take("the") or c.take("for")
        c.take_any("last", "final")
        dropped = _dropped(c)
        if dropped is None:
            c.i = i
            return None
        _on_last(c)
        return Ending("omit", dropped, None, c.span_from(start))
    if word in ("ending", "end", "finishing", "finish", "ends") and c.text(1) != "off":
        c.i += 1
        c.take("the") or c.take("each")
        last_rep = False
        if c.take_any("last", "final"):
            if c.take_any("rep", "repeat", "repetition"):
                last_rep = True
            else:
                c.i -= 1
        if c.take_any("at", "after", "on", "before") and (c.kind() is T.STAR or c.take("the")):
            if c.kind() is T.STAR:
                sign = c.text()
                c.i += 1
                c.take("on") and (c.take("the") or True) and c.take_any("last", "final") and c.take_any(
                    "rep", "repeat"
                )
                return Ending("at", (Mark(sign, c.span_from(start)),), None, c.span_from(start))
            c.i = i
            return None
        c.take("with") or c.take("in") or c.take("by")
        landing = _landing(c, start)
        if landing is not None:
            return landing
        found = phrases_until(c)
        if not found:
            c.i = i
            return None
        return Ending("with" if last_rep else "ending", tuple(found), None, c.span_from(start))
    if word in ("working", "placing", "with", "making", "putting", "work", "place", "last", "final"):
        if word not in ("last", "final"):
            c.i += 1
        landing = _landing(c, start)
        if landing is not None:
            return landing
    c.i = i
    return None


def _landing(c: Cursor, start: int) -> Ending | None:
    """ "last dc in top of ch-3": nothing is added, the last stitch goes there."""
    i = c.i
    c.take("the")
    if not c.take_any("last", "final"):
        c.i = i
        return None
    number = c.value()
    ahead = 1 if number is not None and c.kind(1) is not T.HYPHEN else 0
    stitch = stitch_here(c, ahead)
    if stitch is not None:
        c.i += ahead + stitch.tokens
        c.take_any("of")
    elif not c.take_any("st", "stitch", "one", "group", "shell", "sts"):
        c.i = i
        return None
    c.take_any("worked", "placed", "made", "goes", "being", "is", "falls")
    c.take_any("worked", "made")
    where = where_here(c)
    if where is None:
        c.i = i
        return None
    _on_last(c)
    return Ending("landing", (), where[-1], c.span_from(start))


def _dropped(c: Cursor) -> tuple[Item, ...] | None:
    """What is left out: "ch 2", "sc", "2 sc", "ch-3", "(ch 1, sk 1)"."""
    start = c.i
    if c.kind() is T.OPEN:
        from tracker.notation.phrase.row import bracket_items

        found = bracket_items(c)
        return tuple(found) if found else None
    if c.text() in ("ch", "chs", "chain"):
        n = 2 if c.kind(1) is T.HYPHEN else 1
        amount = c.value(n)
        if amount is not None:
            c.i += n + 1
            c.take_any("sp", "sps", "space")
            return (Chain(amount, c.span_from(start)),)
        c.i += 1
        return (Chain(1, c.span_from(start)),)
    if c.value() is not None and c.text(1) in ("ch", "chs"):
        amount = c.value() or 1
        c.i += 2
        return (Chain(amount, c.span_from(start)),)
    number = c.value()
    ahead = 1 if number is not None else 0
    stitch = stitch_here(c, ahead)
    if stitch is None:
        return None
    c.i += ahead + stitch.tokens
    span = c.span_from(start)
    return (Work(stitch.name, number or 1, Where(Which.STRAIGHT, span), span),)


def _on_last(c: Cursor) -> None:
    """ "on last rep", "of the final repeat", "at end of last rep", "in last repeat"."""
    i = c.i
    while c.take_any("on", "of", "in", "at", "the", "for", "end", "from"):
        pass
    if c.take_any("last", "final") and c.take_any("rep", "repeat", "repetition", "pass", "side", "time"):
        return
    if c.take_any("rnd", "round", "row", "rep", "repeat"):
        return
    c.i = i


def _words(c: Cursor, span: Span) -> str:
    return " ".join(token.text for token in c.tokens if span.start <= token.start < span.end)


__all__ = ["Say", "ending_here", "often_here", "repeat_here", "star_at"]
