"""Between stitches, "sp between next 2 dc", and inside those made in one place, "3rd dc of next fan"."""

from tracker.notation.phrase.cursor import STOPS, Cursor, key_of
from tracker.notation.phrase.places.nouns import kind_here, many_of, number_here
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import ANY, SPACE, Kind, Where, Which
from tracker.records import replace
from tracker.trade.stitches import STITCHES

_ENDS = frozenset("across around to in twice rep ch sk into".split())
"""Words that begin something new."""

_GROUPS = frozenset(
    "group groups grp grps shell shells v vs cluster clusters fan fans petal petals scallop scallops pair pairs".split()
)


_NEXT = ("next", "following", "first", "last", "one")
_PLURAL = frozenset("groups grps shells clusters fans petals scallops pairs".split())


def _within(c: Cursor, start: int, many: int, which: Which) -> Where | None:
    """ "The 2 dc of each V-st": the gap inside a group of the pattern's own that has no space there."""
    i = c.i
    c.take("the")
    c.take_any("2", "two", "middle", "center", "centre")
    stitch = stitch_here(c)
    if stitch is not None:
        c.i += stitch.tokens
    if (stitch is not None or c.take_any("sts", "stitches")) and c.take_any("of", "in"):
        c.take("the")
        lead = c.take_any("each", "every", "next", "first", "last", "same")
        group = stitch_here(c)
        if lead and group is not None and group.special is not None and group.special.one_place:
            c.i += group.tokens
            each = lead in ("each", "every")
            stop = stop_here(c) if each else None
            kinds = (Kind(SPACE), Kind("within:" + group.special.name))
            span = c.span_from(start)
            return Where(
                Which.BETWEEN, span, 0 if each else many, kinds, stop=stop, nth=-1 if lead == "last" else 0
            )
    c.i = i
    return None


def between(c: Cursor, start: int, many: int, which: Which) -> tuple[Where, ...]:
    """After "sp between": "next 2 dc", "groups", "first dc and first group"."""
    if (within := _within(c, start, many, which)) is not None:
        return (within,)
    last = groups = False
    down = 1
    beside = _stitch_named(c)
    while c.kind() in (T.WORD, T.NUMBER, T.ORDINAL, T.HYPHEN) and (
        c.text() not in _ENDS
        or c.text() == "ch"
        and (c.text(-1) in ("turning", "beg", "beginning", "starting", "-") or c.value(-1) is not None)
    ):
        last = last or c.text() == "last"
        if which is Which.NEXT and many == 1 and c.text() in ("each", "every") and not last:
            # "dc between each 2 dc across"
            which = Which.EACH
        # "each pair of dc" is any two that stand side by side
        together = c.text() in (_GROUPS if which is Which.EACH else _PLURAL)
        groups = groups or together and not (c.text() == "pair" and c.text(1) == "of")
        if (
            c.text() == "and"
            and c.value(1) is None
            and stitch_here(c, 1) is None
            and c.text(1) not in ("next", "first", "last", "tch", "turning", "group", "beg", "following")
            and not (c.text(1) == "the" and c.text(2) in _NEXT)
        ):
            break
        if (
            c.text() in ("of", "in")
            and c.text(1) in ("rnd", "round", "row")
            and (row := c.value(2)) is not None
        ):
            # "in sp between next 2 groups of Rnd 2"
            down = -row
            c.i += 3
            break
        c.i += 1
    stop = stop_here(c) if which is Which.EACH else None
    return (
        Where(
            Which.BETWEEN,
            c.span_from(start),
            0 if which is Which.EACH else (many_of(many)),
            (Kind(SPACE), Kind("group")) if groups else (Kind(SPACE, inside=beside),),
            stop=stop,
            nth=-1 if last or which is Which.LAST else 0,
            down=down,
        ),
    )


def between_stitches(c: Cursor, kinds: tuple[Kind, ...]) -> tuple[Kind, ...]:
    """Takes "between sc", "between the next 2 sc" behind a space: that space, with the stitches it lies between."""
    start = c.i
    if len(kinds) == 1 and kinds[0].name == SPACE and c.take_any("between", "bet", "betw", "btwn"):
        c.take_any("the", "these", "those")
        c.take_any("next", "following")
        number_here(c)
        beside = kind_here(c)
        if beside is not None and c.kind() in STOPS:
            plain = beside.name == ANY or beside.name in STITCHES
            return (replace(kinds[0], inside=f"between {beside.name}"),) if plain else kinds
    c.i = start
    return kinds


def gap_behind(c: Cursor, start: int, kind: Kind) -> tuple[Where, ...] | None:
    """Behind "next sl st": "between petals", "between the next two petals"; None, nothing taken, for other words.

    Of a round whose petals hold all of its stitches, the gap between two of them is meant.
    """
    i = c.i
    if kind.name not in (SPACE, "ch", "group") and c.take_any("between", "bet", "betw", "btwn"):
        c.take_any("the", "any", "these", "those")
        c.take_any("next", "following")
        number_here(c)
        if c.take_any(*_PLURAL) and c.kind() in STOPS:
            return (Where(Which.BETWEEN, c.span_from(start), 1, (Kind(SPACE), Kind("group"), kind)),)
    c.i = i
    return None


def of_several(c: Cursor, start: int, kind: Kind | None, which: str) -> tuple[Where, ...] | None:
    """Behind "2nd dc": "of next 3 dc", "of 3"; behind "centre": "one of the next 5 tr": all of them are dealt with.

    `which` is the one meant, "middle", "last" or its number; None, and nothing taken, for another noun.
    """
    i = c.i
    c.take("one")
    if c.take("of"):
        c.take_any("the", "these", "those")
        c.take_any("next", "following", "foll")
        many = number_here(c) or 0
        of = kind_here(c) if many else None
        if of is not None and c.text(-1) in _GROUPS:
            of, many = Kind("group"), many if c.text(-1) in _PLURAL else 0
        at = (many + 1) // 2 if which == "middle" else many if which == "last" else int(which)
        alike = of is not None and of.name not in (SPACE, "group") and (kind or of).name in (of.name, ANY)
        closed = of is None and kind is not None and c.kind() in STOPS
        odd = which != "middle" or many % 2
        if 1 < many < 30 and odd and at <= many and (alike or closed) and (named := kind or of):
            if named.name == "ch":
                # "3rd of next 5 ch": those of a space
                return (Where(Which.NEXT, c.span_from(start), 1, (named, Kind(SPACE, many, "middle"))),)
            return (Where(Which.NEXT, c.span_from(start), 1, (named, Kind("whole group", many, str(at)))),)
    c.i = i
    return None


def _stitch_named(c: Cursor) -> str:
    """ "between dc" where "next 2 dc" stands here, which is left standing; "" for else."""
    ahead = 0
    while c.text(ahead) in ("the", "next", "two", "2"):
        ahead += 1
    stitch = stitch_here(c, ahead) if ahead else None
    plain = stitch is not None and stitch.special is None and c.kind(ahead + stitch.tokens) is not T.WORD
    return f"between {stitch.name}" if stitch is not None and plain else ""


def in_group(c: Cursor, start: int, kind: Kind, which: str) -> tuple[Where, ...] | None:
    """Behind "3rd dc of": "next fan", "same shell", "each 5-dc group across"; None, nothing taken, for another noun.

    `which` is the one meant there, "last" or its number; with no word before the group it may be that in hand.
    """
    i = c.i
    c.take("the")
    lead = c.take_any("each", "every", "next", "following", "foll", "last", "first", "same", "a", "any") or ""
    group = kind_here(c)
    if group is not None and group.name == SPACE and kind.name not in (SPACE, ANY, "ch"):
        group = Kind("group")  # "4th sc of next loop": of those worked into it
    if group is None or group.name != "group" and key_of(group.name) not in c.context.specials:
        c.i = i
        return None
    own = "own " if lead in ("", "same") else ""
    each = lead in ("each", "every")
    stop = stop_here(c) if each else None
    kinds = (kind, Kind(group.name, group.chains, own + which))
    nth = -2 if lead == "any" else 0
    return (Where(Which.EACH if each else Which.NEXT, c.span_from(start), 1, kinds, nth, stop=stop),)
