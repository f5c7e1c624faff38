"""The places that follow a stitch's name, joined by "and": "in next dc and in each ch-1 sp"."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.pieces import piece_here, through_piece
from tracker.notation.phrase.places.bare import bare_place
from tracker.notation.phrase.places.loops import loop_words
from tracker.notation.phrase.places.nouns import CHAINS, PREPOSITIONS, STS, chain_at
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.stitches import Stitch, stitch_here, together
from tracker.notation.scan import T
from tracker.notation.tree import ANY, IN_ONE, SHARED, SPACE, Kind, Where, Which
from tracker.problems import Label, Problem, Severity
from tracker.problems.headline import headline
from tracker.records import replace
from tracker.trade.stitches import parts_of, written

_AFTER_AROUND = frozenset(
    "post stem next first each ea every 1st both back blo last same the corresponding st center centre "
    "skipped missed underside any".split()
)
"""What follows "around" or "across" when it names a place rather than the whole row."""


_LOOPS = frozenset("blo flo bl fl tbl".split())
_PLACES = frozenset("next each first last same ea every 1st blo flo tbl following foll".split())
"""Words that name a place with no preposition: "sc next 2 sts", "sc each st across", "sc blo in next 3"."""


def _looped(c: Cursor) -> tuple[Where, ...] | None:
    """Takes "working in the back loop only of each st"; None, and nothing taken, where no stitch is named behind."""
    i = c.i
    c.i += 1
    if loop_words(c) and c.text() == "of":
        c.i = i + 1
        return where_here(c)
    c.i = i
    return None


_RUNS = (Which.NEXT, Which.FIRST, Which.LAST)


def _slips_to(c: Cursor) -> bool:
    """True for "ss to next tr and into 1-ch sp", "sl st to next 2 dc": the stitches slipped into."""
    n = 2 if c.text(1) == "the" else 1
    stitches = n + 1 + (c.value(n + 1) is not None)
    return c.text(n) == "next" and (c.text(stitches) in STS or stitch_here(c, stitches) is not None)


def wheres_here(c: Cursor, stitch: Stitch) -> tuple[Where, ...] | None:
    """Places that follow a stitch's name, joined by "and"."""
    start = c.i
    over = c.text() == "over" or (
        c.text() == "across" and c.text(1) in ("next", "the", "first", "last", "following", "foll", "same")
    )
    if c.text() == "all" and c.text(1) in ("in", "into") or piece_here(c) or through_piece(c):
        return None
    if c.text() in ("across", "around", "round", "along") and not (
        over
        or c.text(1) in _AFTER_AROUND
        or stitch_here(c, 1) is not None
        or c.text(1) in ("fp", "bp")
        or chain_at(c, 1) is not None
        or c.text() == "around"
        and c.value(1) is not None
        and stitch.special is None
        and parts_of(stitch.name)[0] in ("fp", "bp")  # "fpdc around 1"
    ):
        return None
    if (
        c.text() == "to"
        and c.text(1) in ("last", "end", "within", "marker", "next", "corner", "tch", "turning", "the", "m")
        and not (c.text(1) == "the" and c.text(2) not in ("last", "end", "next"))
        and not (stitch.name == "slst" and _slips_to(c))
    ):
        return None
    if c.text() == "to" and c.value(1) is not None and c.text(3) == "before" and c.text(-1) != "next":
        # "sc to 2 sts before marker": up to them
        return None
    if c.text() == "to" and c.text(1) == "first" and c.text(2) in CHAINS and stitch.name != "slst":
        # "sc to first ch-10 lp": up to it, and not into it
        return None
    where: tuple[Where, ...] | None
    if c.text() == "working" and (looped := _looped(c)) is not None:
        where = looped
    elif c.text() in PREPOSITIONS:
        where = where_here(c)
    elif stitch.loop and c.text() == "of":
        # "sc blo of each st"
        c.i += 1
        where = bare_place(c)
    elif c.kind() is T.ORDINAL and c.text(1) in CHAINS:
        # "hdc 2nd ch from hook"
        where = bare_place(c)
    elif c.text(c.text() == "the") in _PLACES or (c.text() in ("bl", "fl") and c.text(1) != "st"):
        # "sc next 2 sts", "sc each st across", "sc blo in next 3"
        if c.text() in _LOOPS:
            where = where_here(c, bare=True)
        else:
            where = bare_place(c)
    else:
        return None
    if where is None:
        c.i = start
        return None
    if stitch.special is not None and "*" in stitch.special.base and where[0].many > 1:
        stitch.name = stitch.special.base.replace("*", str(where[0].many))
        return (replace(where[0], many=1),)
    if (
        stitch.name == "dec"
        and len(where) == 1
        and 2 <= where[0].many <= 6
        and (over or where[0].many == c.context.decrease_count and where[0].which in _RUNS)
    ):
        # "dec over next 3 sts", "dec in next 2 sts"
        stitch.name = f"{c.context.decrease or c.context.base}{where[0].many}tog"
        return (replace(where[0], many=1),)
    if (
        stitch.name == "dec"
        and where[0].which is Which.NEXT
        and len(where) == 1
        and where[0].many == c.context.decrease_count
        and "each" not in [token.text for token in c.tokens[start : c.i]]
    ):
        # "dec in next 2 sts": one, which takes both
        return (replace(where[0], many=1),)
    gathered = together(stitch.name) if stitch.special is None else stitch.special.closes
    if c.text() in ("tog", "together"):
        c.i += 1
        many = sum(w.many for w in where)
        if stitch.special is None and together(stitch.name) == 1 and many >= 2:
            stitch.name = f"{stitch.name}{many}tog"
            return (replace(where[0], many=1),)
    if gathered > 1 and (
        over
        or where[0].which in (Which.NEXT, Which.FIRST, Which.LAST)
        and where[0].many % gathered == 0
        and where[0].many > 1
    ):
        total = sum(w.many for w in where)
        if where[0].which in (Which.NEXT, Which.FIRST, Which.LAST) and total >= gathered:
            first = where[0]
            return (
                replace(first, many=max(1, total // gathered), kinds=first.kinds if len(where) == 1 else ()),
            )
    elif over and gathered <= 1 and where[0].many > 1 and stitch.name == "cl":
        return where
    wheres = (*where, *_more_wheres(c))
    if gathered > 1 and stitch.special is None and not over and _one_stitch(wheres):
        return (replace(wheres[0], nth=IN_ONE),)
    if (
        gathered > 1
        and len(wheres) == 2
        and wheres[0].which is Which.SAME
        and wheres[1].which is Which.NEXT
        and wheres[1].many == gathered - 1
    ):
        # "dc2tog over same st and next st": one stitch, whose first leg goes where the hook is
        return (replace(wheres[1], kinds=wheres[1].kinds or (Kind(ANY),), nth=SHARED),)
    runs_on = wheres[0].which in (Which.NEXT, Which.FIRST) and len(wheres) == 2
    if over and gathered > 1 and runs_on and wheres[1].which in (Which.NEXT, Which.LAST):
        # "hdc2tog over first st and next", "over next st and last st": one stitch, which takes both
        both = sum(where.many for where in wheres) == gathered and not wheres[0].around
        return (replace(wheres[0], many=1, kinds=()),) if both else wheres
    if over and len(wheres) == 1 and wheres[0].which is Which.NEXT and wheres[0].many < gathered:
        _told_too_few(c, stitch.name, wheres[0], gathered)
    return wheres


def _told_too_few(c: Cursor, name: str, where: Where, gathered: int) -> None:
    """Reports "dc2tog over next 1 st", where the number is written and is too small for what the stitch takes."""
    span = where.span
    if any(token.kind is T.NUMBER and span.start <= token.start < span.end for token in c.tokens):
        row = c.context.row or "A row"
        c.context.problems.append(
            Problem(
                "C203",
                Severity.ERROR,
                headline(
                    row,
                    f"works {written(name, c.context.uk)} over {where.many}, and it takes {gathered} stitches",
                ),
                Label(span, f"{where.many} of {gathered}"),
                row,
                None,
                c.context.part,
                f"Say over how many stitches it goes, or which stitch takes {where.many}.",
            )
        )


def _one_stitch(wheres: tuple[Where, ...]) -> bool:
    """True for "in next st" and the like: one place and no more, and no space."""
    only = wheres[0]
    return (
        len(wheres) == 1
        and only.which is Which.NEXT
        and only.many == 1
        and only.nth == 0
        and len(only.kinds) == 1
        and only.kinds[0].name != SPACE
    )


def _more_wheres(c: Cursor) -> list[Where]:
    """Further places joined by "and": "and in next ch-1 sp"."""
    more_wheres: list[Where] = []
    while True:
        i = c.i
        if c.kind() is T.COMMA and c.text(1) == "and" and c.text(2) in PREPOSITIONS:
            c.i += 1
        if (c.take("and") or (c.text() == "&" and c.step()) or c.take("then")) and (
            c.text() in PREPOSITIONS or c.text() in ("each", "next", "ea", "every", "last", "again", "of")
        ):
            again = c.take("again")
            c.take("of")
            if c.text() in ("around", "across") and c.text(1) in ("", "to", "join"):
                c.i = i
                break
            more = where_here(c) if c.text() in PREPOSITIONS else bare_place(c)
            if more is not None and not _begins_work(c):
                if again and more[0].which is Which.LAST and more[0].many == 1:
                    # "sc in each st and again in the last": one more where the last is
                    more = (replace(more[0], which=Which.SAME),)
                more_wheres.extend(more)
                continue
        c.i = i
        break
    return more_wheres


def _begins_work(c: Cursor) -> bool:
    """True when a place just read opens a new phrase: "and in next sp work (…)"."""
    return c.text() in ("work", "make") or (c.kind() is T.COLON)
