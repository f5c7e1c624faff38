"""The counts a pattern states: "24 sts", "11 dc, 10 ch-2 sps", "6 sts increased".

A list of tokens between two places is looked at; a value comes out when all of it is such a statement, else None.
"""

from tracker.notation.phrase.cursor import Cursor, inner
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.phrase.told.counted import LOOSE, SPACES, counted
from tracker.notation.scan import T
from tracker.notation.tree import ANY, Stated
from tracker.trade.stitches import STITCHES

_FILLER = frozenset(
    "made now again still that's check time total in all each a of the you you'll will should have has there are is be "
    "with and plus rem remain remaining left per corner corners around counting including incl not st "
    "number count counts here at end row rnd round on side sides every both long across this "
    "foundation after before done altogether worked stitch "
    "excluding excl ends edge unworked size sizes".split()
)


_CHANGE = frozenset("inc'd increased incd dec'd decreased decd inc dec added more fewer".split())


_SETS = frozenset("pairs prs pair groups blocks sets bunches clumps".split())
"""Of what stands together, with no name: "12 prs of tr"."""
_NAMES_OF_LACE = frozenset("pineapple tulip palm leaf petal fan web spider wheel flower fern star".split())
"""What stands before the noun of a count: "6 pineapple bases"."""
_OPENING = tuple(
    "you you'll you'd will should now have there are total of a for makes making gives stitch count counts check is "
    "made st approx that this end up with get got".split()
)
"""What a count may begin with."""
_PARTIAL = frozenset("side sides between each edge long short section corner".split())
"""Words behind a count of one side or section only."""


_PLACED = frozenset("at on along in each per between for from after behind ready".split())
"""What tells where it is that is counted."""
_CHAINS = frozenset("ch chain chains chs tch turning beg starting ch-1 ch-2 ch-3 ch-4".split())
"""Words of the chain that a row begins with."""


def count_list(c: Cursor, bare: bool) -> Stated | None:
    """ "24 sts", "11 dc, 10 ch-2 sps", "12 hdc + 4 puffs", "6 sts inc'd"; all tokens must belong to it.

    `bare` also takes a number alone: "(24)".
    """
    start = c.i
    counts: list[tuple[str, int]] = []
    change = partial = without = False
    if c.kind() is T.EQUALS:
        c.i += 1
    while c.kind() is T.DASH:
        c.i += 1
    while c.take_any(*_OPENING):
        pass
    if c.kind() in (T.COLON, T.EQUALS):
        c.i += 1
    if c.text() == "+" and c.kind(1) is T.NUMBER:
        # "(+6)" behind a row that increases
        change = bare
        c.i += 1
    while c.kind() is not T.END:
        if c.text() == "not" and c.text(-1) in ("is", "are", "does", "do"):
            # "the 3 ch is not counted": what counts, and no count
            return None
        if c.text() in ("not", "excluding", "excl", "ignoring", "without"):
            # "24 dc, not counting ch-3": the rest says what is left out
            while c.kind() is not T.END:
                without = without or c.text() in _CHAINS
                c.i += 1
            break
        if c.text() in ("+", "plus") and c.text(1) in ("ch", "tch", "turning") and counts:
            # "20 dc + ch 3": beside what is counted
            without = True
            while c.kind() is not T.END:
                c.i += 1
            break
        if c.text() in ("+", "plus") and counts and _beside_the_count(c, counts):
            continue
        if c.text() in ("counting", "including", "incl", "beg", "with") and counts:
            while c.kind() is not T.END and c.kind() is not T.COMMA:
                c.i += 1
            continue
        if c.text() in ("remain", "remaining", "unworked", "left") and counts and c.kind(1) is not T.END:
            partial = True
        if c.text() in _PLACED and counts:
            words = _where_counted(c)
            if words is None:
                return None
            partial = (
                partial
                or words != ["each"]
                and bool(_PARTIAL & set(words))
                and "total" not in words
                and "all" not in words
            )
            continue
        if counts and compared_to_before(c, c.i):
            break
        if c.kind() is T.OPEN and counts and c.partners.get(c.i):
            counts += _of_which(c, counts)
            c.i = c.partners[c.i] + 1
            continue
        value = c.value()
        if value is None:
            if c.text() in ("inc", "dec") and c.kind(-1) is T.COMMA:
                return None  # "2 sc, inc" is worked
            if c.text() in _CHANGE:
                change = True
                c.i += 1
                continue
            if _beside_numbers(c, counts, bare):
                continue
            return None
        if change and counts:
            # "6 sts increased, 24 sts now": the total is what counts
            counts.clear()
            change = partial = False
        # "3-dc groups", "ch-2 sps", "2-ch sps" come after their number
        c.i += 1
        save = c.i
        if c.kind() is T.NUMBER and c.kind(1) is T.HYPHEN and (inside := stitch_here(c, 2)) is not None:
            # "4 3-dc groups": how many of them, not of what
            c.i += 2 + inside.tokens
            counts.append(("?" + (c.text() or "group"), value))
            c.take_any(*LOOSE)
            continue
        if c.kind() is T.HYPHEN and c.text(1) not in ("ch", "chain"):
            return None
        if c.text() in _SETS and c.text(1) == "of":
            # "12 blocks of 3 tr": how many, and of what
            counts.append(("?group", value))
            while c.kind() in (T.WORD, T.NUMBER, T.HYPHEN):
                c.i += 1
            continue
        if c.kind() is T.COLON and bare and not counts:
            # "27: 2 sc, 12 dc and 13 sl st": the whole, and then its kinds
            continue
        name = counted(c)
        if name is None:
            c.i = save
            if _unnamed(c, counts, value, bare):
                continue
            return None
        counts.append((name, value))
        if c.text() in _CHANGE:
            change = True
            c.i += 1
    if not counts:
        return None
    return Stated(tuple(counts), c.span_from(start), change, partial, without)


_COMPARED = frozenset(
    "no same unchanged even increase increases decrease decreases change changes shaping more fewer less".split()
)
"""Of which one stands in words that compare a count with the one before."""
_COMPARING = _COMPARED | frozenset(
    "in of as than the this row rnd round before last previous prev still worked number count sts st stitch "
    "stitches sc hdc dc tr htr here".split()
)


def compared_to_before(c: Cursor, at: int) -> bool:
    """True where all that stands from there on compares a count with the one before: "(no increase)", ", unchanged"."""
    said = [token for token in c.tokens[at : c.end] if token.kind not in (T.OPEN, T.CLOSE, T.PERIOD, T.END)]
    if said and said[0].kind in (T.COMMA, T.SEMICOLON, T.DASH):
        said = said[1:]
    words = {token.text for token in said if token.kind is not T.NUMBER}
    return bool(words & _COMPARED) and words <= _COMPARING and len(said) < 9


def _of_which(c: Cursor, counts: list[tuple[str, int]]) -> list[tuple[str, int]]:
    """What a bracket behind a total says of it, "26 sts (13 sc and 13 dc)": each kind, where it names two or more."""
    if [name for name, _ in counts] not in ([ANY], [""]):
        return []
    told = count_list(inner(c, c.i + 1, c.partners[c.i]), bare=False)
    if told is None or told.change or told.partial or told.without or len(told.counts) < 2:
        return []
    return (
        list(told.counts)
        if all(name in STITCHES or name.startswith("ch-") for name, _ in told.counts)
        else []
    )


def _beside_numbers(c: Cursor, counts: list[tuple[str, int]], bare: bool) -> bool:
    """Takes what may stand between the numbers of a count and is none; False for words of something else."""
    if (
        c.kind() in (T.COMMA, T.SEMICOLON, T.DASH, T.COLON, T.EQUALS, T.PERIOD)
        or c.text() in ("+", "&", "and", "plus", "/", '"', "=", "*", "~", "!")
        or c.text() in _FILLER
        and not (c.text() == "a" and counts)
    ):
        c.i += 1
        return True
    if bare and (named := _named_first(c)) is not None:
        # "(sc: 24)", "dc = 12, ch-1 sp = 5"
        counts.append(named)
        return True
    if counts and c.text() in ("ch", "chain") and c.kind(1) is T.HYPHEN and c.value(2) is not None:
        # "16 sc, ch-17 handle": one of them
        counts.append((counted(c) or "ch", 1))
        if c.kind() is T.WORD and c.kind(1) in (T.END, T.PERIOD, T.COMMA):
            c.i += 1
        return True
    if counts and c.text(-1) in ("and", "&", "/") and (also := stitch_here(c)) is not None:
        # "29 FPtr and BPtr": so many of both together
        counts[-1] = (f"?{also.name}", counts[-1][1])
        c.i += also.tokens
        return True
    if c.text() in ("a", "an", "no", "one"):
        c.i += 1
        if c.text() == "half" and counts and counts[-1][0] not in (ANY, "") and c.text(-1) != "no":
            # "5 loops and a half loop at each end", "7 fans and a half"
            c.i += 1 + (c.text(1) in SPACES | LOOSE)
            return True
        save = c.i
        name = counted(c) if c.text(-1) != "no" else None
        if name is not None and not name.startswith("?"):
            counts.append((name, 1))
        else:
            c.i = save
        return True
    return False


def _unnamed(c: Cursor, counts: list[tuple[str, int]], value: int, bare: bool) -> bool:
    """Takes what stands behind a number that counts no stitch: "(24)", "2 handles"; False for no part of a count."""
    if not counts and bare and (c.kind() in (T.END, T.PERIOD) or compared_to_before(c, c.i)):
        counts.append(("", value))
        return True
    if (
        c.text()
        in ("total", "in", "now", "each", "made", "inc'd", "increased", "again", "altogether", "once")
        and bare
        and not counts
    ):
        counts.append(("", value))
        return True
    if c.kind() is T.WORD and (c.text() in LOOSE | _FILLER or c.text() in _CHANGE) and counts:
        # "18 sts; 6 increased": the total is told already
        c.i += 1
        return True
    if c.text() == "half" and c.text(1) in SPACES | LOOSE:
        # "4 arches, 2 half arches": of those at the ends
        c.i += 2
        counts.append(("?half " + c.text(-1), value))
        return True
    if counts and c.text() in _NAMES_OF_LACE and c.kind(1) is T.WORD and c.text(1) not in _FILLER:
        # "6 shells, 6 pineapple bases"
        c.i += 2
        counts.append(("?" + c.text(-1), value))
        return True
    if (counts or bare) and _of_no_list(c):
        # "44 sc, 2 handles": of what no list of stitches holds, and so not checked
        counts.append(("?" + c.text(), value))
        c.i += 1
        return True
    if (
        c.kind() is T.WORD
        and c.text(1) in SPACES | {"chains", "chs"}
        and c.kind(2) in (T.END, T.COMMA, T.SEMICOLON, T.PERIOD)
        and stitch_here(c) is None
        and (counts or bare)
    ):
        # "66 hdc and 2 underarm chains": what they are of is not said
        c.i += 2
        counts.append(("?" + c.text(-1), value))
        return True
    if c.kind() is T.WORD and (c.text() in LOOSE or c.text(1) in LOOSE):
        c.i += 1
        counts.append(("?" + c.text(-1), value))
        while c.kind() is T.WORD and c.text() in LOOSE | _FILLER:
            c.i += 1
        return True
    return False


def _beside_the_count(c: Cursor, counts: list[tuple[str, int]]) -> bool:
    """Takes "+ spine sp", "+ 1 tail": a thing beside what is counted, for which no list of stitches has a name."""
    i = c.i
    c.i += 1
    c.take_any("the", "a", "an", "1", "one")
    words: list[str] = []
    while c.kind() is T.WORD and len(words) < 3:
        words.append(c.text())
        c.i += 1
    if (
        c.kind() not in (T.END, T.COMMA, T.SEMICOLON, T.PERIOD)
        or not words
        or {"in", "into", "next", "each", "same", "twice", "times"} & set(words)
        or words[0] in _CHANGE | _FILLER | {"ch", "chain"}
    ):
        c.i = i
        return False
    counts.append(("?" + words[-1], 1))
    return True


def _named_first(c: Cursor) -> tuple[str, int] | None:
    """ "Sc: 24": what is counted, told ahead of how many; None, with the cursor where it was, for other words."""
    start = c.i
    name = counted(c) if c.kind() is T.WORD and c.kind(-1) is not T.NUMBER else None
    value = c.value(1) if c.kind() in (T.COLON, T.EQUALS) else None
    if (
        name is None
        or value is None
        or c.kind(2) not in (T.END, T.COMMA, T.SEMICOLON, T.PERIOD)
        and c.text(2) != "and"
    ):
        c.i = start
        return None
    c.i += 2
    return name, value


def _of_no_list(c: Cursor) -> bool:
    """True for a plural that is all of a count: "2 handles", "6 blossoms"."""
    word = c.text()
    return (
        c.kind() is T.WORD
        and len(word) > 4
        and word.endswith("s")
        and word not in LOOSE | _FILLER
        and (c.kind(1) in (T.END, T.COMMA, T.SEMICOLON, T.PERIOD) or c.text(1) in ("and", "made", "in"))
    )


def _where_counted(c: Cursor) -> list[str] | None:
    """Takes "on each side", "at end of row" behind a count; None when the words name a place to work in."""
    words: list[str] = []
    while c.kind() not in (T.END, T.COMMA, T.SEMICOLON, T.PERIOD):
        words.append(c.text())
        c.i += 1
        if len(words) > 9:
            return None
    inside = words[0] == "in" and words[1:2] not in (["all"], ["total"])
    # "3 dc between each pair of dc around."
    worked = words[0] == "between" and {"around", "across", "to"} & set(words)
    return None if inside or worked or {"next", "same", "first"} & set(words) else words
