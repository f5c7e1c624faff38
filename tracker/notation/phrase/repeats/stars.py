""" "Rep from * 4 more times", "rep between *s across": what a star began is folded into a Repeat.

The items read so far come in. A star that is not there is reported, and the phrase is kept as prose.
"""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.repeats.endings import ended, ending_here
from tracker.notation.phrase.repeats.made import until_made
from tracker.notation.phrase.repeats.often import Often, often_here
from tracker.notation.scan import T
from tracker.notation.tree import Chain, Group, Item, Mark, Prose, Repeat, Skip, Stop, Which, Work
from tracker.problems import Label, Problem, Severity, Span
from tracker.problems.headline import headline
from tracker.records import replace

NO_STAR_BEFORE = "no star before it"
"""Said of a star that closes what none begins."""
_ENDS = (T.PERIOD, T.SEMICOLON, T.COMMA, T.OPEN, T.END)
"""What stands behind a "repeat" that says no more."""


def star_at(items: list[Item], sign: str, which: str = "") -> int | None:
    """Index of the star a phrase goes back to."""
    found = [k for k, item in enumerate(items) if isinstance(item, Mark) and item.sign == sign]
    if not found:
        return None
    return found[0] if which == "first" else found[-1]


def repeat_here(c: Cursor, items: list[Item], kept: dict[str, tuple[Item, ...]]) -> bool:
    """Reads what stands after "rep" and folds the items; False, with the cursor where it was, when it can't."""
    start = c.i - 1
    this = c.take_any("the", "this", "these", "that") in ("this", "these", "that")
    if this and _to_the_end(c, items, start):
        return True
    c.take_any("pattern", "pat", "patt", "section", "instructions", "sequence")
    between = c.take("between")
    led = "" if between else c.take_any("from", "work", "starting")
    which = c.take_any("first", "last", "second")
    sign = ""
    to_sign = ""
    c.take("the")
    if c.kind() is T.STAR:
        sign = c.text()
        c.i += 1
        c.take("s")
        if between:
            if c.take("and") and c.kind() is T.STAR:
                to_sign = c.text()
                c.i += 1
        elif (c.text() in ("to", "through", "-") or c.kind() is T.DASH) and c.kind(1) is T.STAR:
            to_sign = c.text(1)
            c.i += 2
    elif c.take_any("asterisk", "asterisks", "star", "stars"):
        sign = "*"
    elif c.kind() is T.OPEN and c.kind(1) is T.CLOSE:
        c.i += 2
    if sign and c.i == start + 2 and sign not in kept and _opens(c, items, sign):
        # "rep *sc in next st, ch 1* 7 times": what is told how often stands behind the word
        c.i = start + 1
        return True
    often = often_here(c) if c.text() not in ("until", "till") else _until(c, items, sign, which)
    if often is None and c.kind() is T.NUMBER and c.kind(1) in _ENDS:
        # "[sc in next st, inc] rep 6 (18)"
        often = Often(further=c.token().value)
        c.i += 1
    if sign:
        _from_star(c, items, kept, often, start, (sign, to_sign, which), bool(between))
        return True
    # "repeat around" with no star named: the last star, or the bracket just closed
    if often is None and c.kind() in _ENDS:
        # "*1 sc, 2 sc in next st* repeat. (18)"
        often = Often(None, None, Stop())
    if often is None:
        return False
    marks = [k for k, item in enumerate(items) if isinstance(item, Mark)]
    if marks:
        if len(marks) > 1 and marks[-1] == len(items) - 1:
            items.pop()  # "*1 dc, 2 dc in next* - repeat that 12 times": the star that closes it
            marks.pop()
        at = marks[-1]
        if at == len(items) - 1:
            _never_begun(c, items, at)
        elif (
            led == "from" == c.tokens[start + 1].text and len(marks) == 1 and c.tokens[start + 2].text in _FAR
        ):
            _not_named(c, items[at], start)
        items[at:] = [_repeat(c, items[at + 1 :], often, start)]
        _ending_after(c, items, at)
        return True
    if items and isinstance(items[-1], Repeat) and items[-1].times == 1:
        # "[3 dc in ring, ch 3] repeat 3 times": of a bracket, that is how often it is worked
        items[-1] = replace(_repeat(c, list(items[-1].items), often, start), star=False)
        _ending_after(c, items, len(items) - 1)
        return True
    return False


def _opens(c: Cursor, items: list[Item], sign: str) -> bool:
    """True for a star that begins what it repeats: none stands before it, and its like closes it further on."""
    if star_at(items, sign) is not None or c.kind() not in (T.WORD, T.NUMBER, T.OPEN):
        return False
    ahead = c.tokens[c.i : c.end]
    sentence = next((k for k, token in enumerate(ahead) if token.kind is T.PERIOD), len(ahead))
    return any(token.text == sign for token in ahead[:sentence])


def _to_the_end(c: Cursor, items: list[Item], start: int) -> bool:
    """ "Repeat this, one sc and one dc, all the way across": everything worked so far is what is repeated."""
    i = c.i
    for k in range(i, min(i + 24, c.end)):
        if c.tokens[k].kind is T.PERIOD:
            break
        if c.tokens[k].text in ("across", "around"):
            first = next((n for n, item in enumerate(items) if isinstance(item, (Work, Group, Repeat))), None)
            if first is None or any(isinstance(item, (Mark, Repeat)) for item in items):
                break
            c.i = k
            often = often_here(c)
            body = [
                replace(item, where=replace(item.where, which=Which.NEXT))
                if isinstance(item, Work) and item.where.which is Which.FIRST
                else item
                for item in items[first:]
            ]
            items[first:] = [_repeat(c, body, often, start)]
            _ending_after(c, items, first)
            return True
    c.i = i
    return False


def _from_star(
    c: Cursor,
    items: list[Item],
    kept: dict[str, tuple[Item, ...]],
    often: Often | None,
    start: int,
    signs: tuple[str, str, str],
    between: bool,
) -> None:
    """Folds what a star began; `signs` are the star, the one it goes up to, and which of several is meant."""
    sign, to_sign, which = signs
    at = star_at(items, sign, which)
    if at is None:
        _from_earlier_star(c, items, kept, often, start, sign, to_sign)
        return
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
            return
    if not body:
        _never_begun(c, items, at)
    if to_sign == sign or between:
        marks = [k for k, item in enumerate(items) if isinstance(item, Mark) and item.sign == sign]
        if len(marks) >= 2:
            at, cut = marks[-2], marks[-1]
            body = items[at + 1 : cut]
            rest = items[cut + 1 :]
            kept[sign] = tuple(body)
            repeat = _repeat(c, body, often, start)
            if rest:
                # the part between the stars was worked once, then other things, then it comes again
                times = None if often is None else (often.times - 1 if often.times else often.further)
                items[at:] = [*body, *rest, replace(repeat, times=times, further=None, star=False)]
            else:
                items[at:] = [repeat]
            _ending_after(c, items, len(items) - 1)
            return
    kept[sign] = tuple(body)
    items[at:] = [_repeat(c, body, often, start)]
    _ending_after(c, items, len(items) - 1)
    return


def _never_begun(c: Cursor, items: list[Item], at: int) -> None:
    """Reports a star that closes what no star begins: "sc in next st, ch 1*; rep from * to * around"."""
    mark = items[at]
    alone = sum(isinstance(item, Mark) for item in items) == 1
    if isinstance(mark, Mark) and alone and at and isinstance(items[at - 1], (Work, Chain, Skip)):
        c.context.problems.append(
            Problem(
                "T103",
                Severity.ERROR,
                headline(
                    c.context.row or "A row",
                    f"closes a repeat with “{mark.sign}”, and there is none before it",
                ),
                Label(mark.span, NO_STAR_BEFORE),
                c.context.row,
                None,
                c.context.part,
                f"Put a “{mark.sign}” where the repeat begins.",
            )
        )


_FAR = ("around", "across", "to", "until", "till", "twice", "once", "round")
"""What tells how far, right behind a "from" that has lost its star."""


def _not_named(c: Cursor, mark: Item, start: int) -> None:
    """Reports "rep from" that names no star, where one stands before it: "*sc, ch 1; rep from around"."""
    if isinstance(mark, Mark):
        c.context.problems.append(
            Problem(
                "T103",
                Severity.ERROR,
                headline(
                    c.context.row or "A row", f"begins a repeat with “{mark.sign}”, and “from” names none"
                ),
                Label(Span(c.tokens[start].start, c.tokens[start + 1].end), "from where"),
                c.context.row,
                None,
                c.context.part,
                f"Put a “{mark.sign}” behind “from”.",
            )
        )


def _from_earlier_star(
    c: Cursor,
    items: list[Item],
    kept: dict[str, tuple[Item, ...]],
    often: Often | None,
    start: int,
    sign: str,
    to_sign: str,
) -> None:
    """A star that was gone back to before: what it began is worked again. One that never was is reported."""
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
        return
    span = c.span_from(start)
    c.context.problems.append(
        Problem(
            "T103",
            Severity.ERROR,
            f"{c.context.row or 'A row'} goes back to “{sign}”, and there is none before it",
            Label(span, "no star to go back to"),
            c.context.row,
            None,
            c.context.part,
            f"Put a “{sign}” where the repeat begins.",
        )
    )
    items.append(Prose(_words(c, span), span))
    return


def _until(c: Cursor, items: list[Item], sign: str, which: str) -> Often | None:
    """ "until 1 st remains", "until last 3 sts", "until there are 6 petals"."""
    at = star_at(items, sign, which)
    passes = None if at is None else until_made(c, items[:at], _unmarked(items[at + 1 :]))
    if passes is not None:
        return Often(times=passes)
    stop = stop_here(c)
    return Often(stop=stop) if stop is not None else None


def _unmarked(items: list[Item]) -> list[Item]:
    """Items without the stars among them."""
    return [item for item in items if not isinstance(item, Mark)]


def _repeat(c: Cursor, body: list[Item], often: Often | None, start: int) -> Repeat:
    """The repeat of what a star began; without a word of how often it goes on to the end."""
    span = c.span_from(start)
    first = body[0].span.start if body else span.start
    whole = Span(first, span.end)
    told_at = Span(c.tokens[start].start, span.end)
    if often is None:
        return Repeat(tuple(body), whole, None, stop=Stop(), star=True, told_at=told_at)
    return Repeat(tuple(body), whole, often.times, often.further, often.stop, star=True, told_at=told_at)


def _ending_after(c: Cursor, items: list[Item], at: int) -> None:
    """Adds what the words after a repeat change about its last pass."""
    ending = ending_here(c)
    target = items[at]
    if ending is not None and isinstance(target, Repeat):
        if ending.how == "ending" and _half_of(target, ending.items):
            ending = replace(ending, how="with")
        found = ended(target, ending)
        if found is None:
            items.insert(at + 1, Prose("", ending.span))
            return
        items[at] = replace(found, span=Span(target.span.start, ending.span.end))


def _half_of(repeat: Repeat, items: tuple[Item, ...]) -> bool:
    """True for "3 dc in last sc" behind a repeat that ends in "5 dc in next sc": the last group is half of one."""
    whole = next((item for item in reversed(repeat.items) if not isinstance(item, Mark)), None)
    half = items[0]
    return (
        len(items) == 1
        and isinstance(whole, Work)
        and isinstance(half, Work)
        and half.where.which is Which.LAST
        and whole.where.which is Which.NEXT
        and half.stitch == whole.stitch
        and 1 < half.count < whole.count
    )


def _words(c: Cursor, span: Span) -> str:
    """The words of a span."""
    return " ".join(token.text for token in c.tokens if span.start <= token.start < span.end)
