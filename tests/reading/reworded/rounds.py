"""How rounds begin, are joined, turn their corners and are told in toy makers' shorthand.

A family is a regular expression for what the corpora write and all that others write for it; a rewording goes by
those words.
"""

import re
from collections.abc import Iterator

from reworded.wording import Put, Rewording

SLIP = r"(?:sl st|ss|slst|slip stitch|slip st)"
_JOINED = rf"(?<=[;,] )(?:join with (?:a )?{SLIP}|join|{SLIP}) (?:in|to|into) (?:the )?"
FIRST = rf"{_JOINED}first (sc|dc|hdc|tr|htr|st)\b(?: to join)?"
"""A round closed in its first stitch."""
TOP = rf"{_JOINED}top of (?:the )?(?:beg(?:inning)? |first )?(?:ch[- ]?(?=\d))?(\d)(?:[- ]ch)?\b(?: to join)?"
"""A round closed in the chain it rose on."""
NTH = (
    rf"{_JOINED}(2nd|3rd|4th)(?: ch)? of (?:the )?(?:beg(?:inning)? |first )?(?:ch[- ]?(?=\d))?"
    r"(\d)(?:[- ]ch)?\b(?: to join)?"
)
"""A round closed within such a chain, which is a stitch and a space."""
BARE = r"(?<=[;,] )join(?=\.| ?[(—–]|\n)"
"""A join with no more said of it."""
RING = (
    rf"\b[Cc]h (\d+)(?:,|;) (?:join with (?:a )?{SLIP}|{SLIP})(?: (?:in|into|to) (?:the )?first ch)?"
    r" to form (?:a )?(?:ring|circle)\b"
)
MAGIC = r"(?<![\w(] )\b(\d+) (sc|dc|hdc) in(?:to)? (?:a |the )?(?:MR|magic ring)\b"
ONE_CHAIN = r"(?<![\w(] )\b(\d+) sc in(?:to)? (?:a |the )?(?:MR|magic ring)\b"
IN_RING = r"(?<![\w(] )\b(\d+) (sc|dc|hdc|tr) in(?:to)? (?:the )?ring\b"
COUNTS = r"\b([Cc])h (\d) \(counts as (?:first |1 |a )?(dc|hdc|tr|htr|sc)\)"
RISES = r"(?m)(?<=: )Ch 1,(?= (?:sc|hdc|\d sc|\(sc|\(\d sc|\*sc)\b)"
EACH = r"Ch 1, (sc|hdc) in each (st|sc|hdc|dc) around"
HANDED = (
    r"(?m)([;,.] (?:join|[Jj]oin with sl st in first \w+|sl st in first \w+))((?:\.? [(\[—–-][^\n]*|\.)?)\n"
    r"(Rnd \d+: )Ch (\d), (?=[a-z(\[*\d])"
)
"""A join, and the chain with which the next round begins."""
CORNER = r"\((\d )(dc|sc|hdc|tr), ch (\d), \1\2\) in (?:the )?(next|same|last) ((?:corner )?(?:ch-\d )?sp)\b"
LONE_CORNER = r"(?<![\[\w] )(?<!work )(?<!working )" + CORNER
SLIPPED = r"(?m)(?<=: )Sl st in (next|first) (ch-\d sp)(?=[,;.])"
SLIPPED_PAST = r"(?m)(?<=: )Sl st in next (dc|st|\d dc) and in(?:to)? (?:the )?(?:next )?(ch-\d sp)(?=[,;.])"
NEW_YARN = (
    r"\b[Jj]oin (yarn|[A-F]|[a-z]+) (?:with (?:a )?sl st )?in any ((?:corner )?ch-\d sp|st|sc|dc)(?=[,;.])"
)
GROWS = r"\((?:sc (\d+)|(\d+) sc), inc\) (?:x ?|× ?)?(\d+)(?: times)?(?= ?[(\[–-]|\.| ?\n)"
SHRINKS = GROWS.replace("inc", "dec")
EVEN = r"(?<=[:.)] )(?:[Ss]c|1 sc) in (?:each|every) (?:st|sc) around(?=[.;]? ?[(\[])"
EVEN_COUNTED = r"(?<=[:.)] )(?:[Ss]c|1 sc) in (?:each|every) (?:st|sc) around\.? ([(\[])(\d+)\b(?! (?:rounds|rnds|rows)\b)"
DOUBLES = r"(?<=[:.)] )(?:[Ii]nc|2 sc) in (?:each|every) (?:st|sc)(?: around)?(\.?) ([(\[])(\d*[02468])\b"
RANGE = r"(?m)^(?:Rnds?|Rounds?) (\d+) ?[-–—] ?(\d+)(?=[:.])"
OVAL = (
    r"(?i)working (?:in(?:to)? (?:the )?(?:remaining|free|unused) loops |back )?(?:on|along|of|in) (?:the )?"
    r"(?:opposite|other) side of (?:the )?(?:starting |beginning |foundation |beg )?(?:ch|chain)\b(?=[,;:])"
)
BEHIND = r"(?i)\bworking behind (?:the )?petals\b"
SPIRAL = r"(?<=[;,.] )[Dd]o not join(?=[.;,])"
PETAL = (
    r"\((sc, (?:ch \d, )?hdc, (?:\d )?dc, (?:\d tr, (?:\d )?dc, )?hdc, (?:ch \d, )?sc)\) in (next|each)"
    r" (ch-\d (?:sp|lp|loop)|ch-sp|sp|st|sc|dc)"
)
SHELL = r"\b([57]) dc in next (st|sc|ch-\d sp)\b"

SIDE = r"\bdc in next (\d+) dc,(?= \(2 dc, ch 2, 2 dc\) in (?:next |last )?(?:corner (?:ch-2 )?sp|ch-2 sp|corner))"
CORNERS = r"\bworking 3 sc in each (corner (?:ch-2 )?sp|corner)\b"
STANDING = (
    r"\b[Jj]oin ([A-F]) (?:with (?:a )?sl st )?in any ((?:corner )?ch-\d sp|st|sc|dc)[,;.] [Cc]h 3"
    r"(?: \(counts as (?:first )?dc[^)]*\))?,"
)
SO_OFTEN = r"\[((?![Rr]ep)[^\[\]*]+)\] (\d) times(?=[;,.])"


def _family(name: str, words: str, told: str, filled: bool = False, but_not: str = "") -> Iterator[Rewording]:
    """A rewording for each line, called by it; where `filled`, each is a form with {n}, {k} and {m} in it."""
    for line in told.strip().splitlines():
        put: Put = _filled(line, words) if filled else line
        yield Rewording(name + ": " + re.sub(r"\\\d|\{\w\}", "…", line).strip(), words, put, but_not)


def _filled(form: str, words: str) -> Put:
    """Fills a form with the numbers of what it stands for: the first as n, the last as k, how many as m."""

    def put(match: re.Match[str]) -> str:
        if words is DOUBLES:
            return f"{form.format(n=int(match[3]) // 2)}{match[1]} {match[2]}{match[3]}"
        found = [group for group in match.groups() if group]
        return form.format(n=found[0], k=found[-1], m=int(found[-1]) - int(found[0]) + 1)

    return put


ROUNDS = (
    *_family("closed", FIRST, r"""
sl st in the first \1 to join
join using a sl st into first \1
join the round with a slip stitch into the first \1
close the round with a sl st in the first \1
close with a sl st to first \1
finish the round with a sl st into the first \1
join by working a sl st into first \1
sl st join to first \1
join with an invisible join to first \1
connect with a sl st to the first \1
secure with a sl st to first \1
join (sl st in first \1)
join this round with a sl st to the first \1 worked
sl.st. to first \1
insert hook in first \1 and sl st to join
fasten with a sl st in first \1
"""),
    *_family("closed above", TOP, r"""
sl st to top of ch-\1 to join
ss in top ch of \1 ch at beg of round
sl st to top st of ch \1 at beginning of rnd
close the round with a sl st into the top of the ch-\1
join at top of ch \1 with sl st
sl st in top of 1st ch-\1
"""),
    *_family("closed within", NTH, r"""
sl st to \1 ch of \2 ch
join in the \1 chain of the starting ch-\2 with a sl st
ss to \1 ch of starting \2-ch
"""),
    *_family("joined", BARE, r"""
join rnd
join round with sl st
join w/ sl st
join in same manner
"""),
    *_family("ring", RING, r"""
Ch \1, sl st in first ch to form a ring
Ch \1, close ring with a sl st
Ch \1, sl st into the first ch made to form a circle
Starting at center, ch \1. Join with sl st to form ring
Begin with a ch-\1 ring
Ch \1. Sl st in first ch. (ring made)
Ch \1, sl st in beginning ch to form ring
"""),
    *_family("magic", MAGIC, r"""
magic ring, \1 \2
Form a magic ring and work \1 \2 into it
make a magic ring with \1 \2
\2 \1 in MR
create a magic ring. \1 \2 in ring
\1 \2 in the thread ring
\1 \2 in a double magic ring
magic ring of \1 \2
With magic ring method, work \1 \2 into ring
\1 \2 into adjustable magic loop
""", but_not="uk_toddler_sock_heel_sizes"),  # there it is the foundation of a round that is not told
    *_family("one chain", ONE_CHAIN, r"""
ch 2, \1 sc in 2nd ch from hook
ch 2 and work \1 sc into the second ch from the hook
ch 2; in 2nd ch from hook work \1 sc
ch 2, \1 sc all in 2nd ch from hook
start with 2 ch; \1 sc in second ch from hook
"""),
    *_family("in the ring", IN_RING, r"""
work \1 \2 in ring
in ring work \1 \2
into ring work \1 \2
\1 \2 into the loop
\1 \2 all into ring
"""),
    *_family("stands", COUNTS, r"""
\1h \2 (counts as 1st \3)
\1h \2 to count as first \3
\1h \2 - counts as \3
\1h \2, counting as first \3
\1h \2 as first \3
\1h \2 in place of first \3
\1h \2, this counts as your first \3
\1h \2 to stand for first \3
\1h \2 (acts as first \3)
\1h \2 (this is the first \3)
\1h \2 instead of the first \3
\1h \2 (to replace first \3)
"""),
    *_family("rises", RISES, r"""
Ch 1 (does not count as a stitch),
Begin with ch 1,
Ch 1 - does not count as st -
"""),
    *_family("each round", EACH, r"""
Ch 1, \1 in same \2 as join, \1 in each \2 around
Ch 1, beginning in same \2 as joining work 1 \1 in each \2 around
Ch 1, \1 in the base of the ch and in each \2 around
Ch 1, \1 in joining \2 and in each rem \2 around
"""),
    *_family("corner", CORNER, r"""
\1\2, ch \3 and \1\2 in \4 \5
(\1\2, ch \3, \1\2) all in \4 \5
(\1\2; ch \3; \1\2) in \4 \5
(\1\2, ch \3, \1\2) together in \4 \5
"""),
    *_family("place first", LONE_CORNER, r"""
in \4 \5 work (\1\2, ch \3, \1\2)
into \4 \5, work (\1\2, ch \3, \1\2)
in \4 \5 - (\1\2, ch \3, \1\2)
in \4 \5 do \1\2, ch \3, \1\2
"""),
    *_family("slipped", SLIPPED, r"""
Sl st into \1 \2
Sl st to get to \1 \2
Sl st until \1 \2
Sl st as needed to \1 \2
Slip stitch your way to \1 \2
Sl st into the sp
"""),
    *_family("slipped past", SLIPPED_PAST, r"""
Sl st across next \1 to \2
Sl st in next \1, sl st in \2
Sl st along \1 to \2
Sl st over next \1 and in \2
"""),
    *_family("new yarn", NEW_YARN, r"""
Attach \1 with sl st in any \2
Draw up a loop of \1 in any \2
Pull up a loop of \1 in any \2
Tie \1 in any \2
Introduce \1 in any \2
Add \1 in any \2
Fasten \1 to any \2
Start \1 in any \2
Insert hook in any \2 and draw up a loop of \1
With \1, draw up a loop in any \2
Join \1 by pulling up a loop in any \2
Starting in any \2 with \1
Join new yarn (\1) in any \2
Join \1 in one of the \2s
"""),
    *_family("grows", GROWS, """
*sc {n}, inc* x{k}
{k}x ({n} sc, inc)
{k} x [{n} sc, 1 inc]
{n} sc, inc; repeat {k} times
{n} sc, 1 inc — repeat {k}
*{n} sc, 1 inc*, rep *-* {k} times
({n} sc, inc) around {k} times
({n} sc, inc) - {k} times
({n} sc, inc): {k} times
(sc {n} inc) x{k}
(sc{n}, inc)x{k}
""", filled=True),
    *_family("shrinks", SHRINKS, """
*sc {n}, dec* x{k}
({n} sc, dec 1) x {k}
({n} sc, decrease in next 2 sts) {k} times
{k}x ({n} sc, dec)
""", filled=True),
    *_family("even", EVEN, """
Sc all around
Sc the whole way round
Work even in sc
Crochet 1 sc in every st
Just sc in each st around
Sc in every single stitch around
Work one round of sc
Sc over all sts
"""),
    *_family("so many", EVEN_COUNTED, r"""
\2 sc \1\2
Sc in all \2 sts \1\2
\2 single crochet. \1\2
"""),
    *_family("doubles", DOUBLES, """
inc x {n}
{n} x inc
inc in all {n} sts
{n} increases
2 sc per st
Increase by working 2 sc in each st around
work an inc in each st around
{n} × (inc)
(2 sc in 1 st) x {n}
""", filled=True),
    *_family("rounds", RANGE, """
R{n}-R{k}
Rnds {n} till {k}
Rnds {n} until {k}
Rnds {n} up to {k}
Rnds {n}-{k} incl.
Rnds {n} to {k} inclusive
From Rnd {n} to Rnd {k}
{m} rounds ({n}-{k})
Rnds {n}~{k}
""", filled=True),
    *_family("oval", OVAL, """
now working on the other side of the ch
rotate work, continue along bottom of ch
in remaining loops on opposite side of ch
turn the piece and work into the free loops of the chain
return along the other side of the ch
"""),
    *_family("behind", BEHIND, """
keep petals to the front and
behind petals
"""),
    *_family("spiral", SPIRAL, """
no joining
do not sl st to join
"""),
    *_family("petal", PETAL, r"""
in \2 \3 work \1
\1 in \2 \3
\1 all in \2 \3
in \2 \3: \1
(\1) in \2 \3 (petal made)
"""),
    *_family("shell", SHELL, r"""
\1 dc all in next \2
\1-dc shell in next \2
shell of \1 dc in next \2
into next \2 put \1 dc
""", but_not="shell_edged_round_shawl"),  # there a shell is counted, and called so behind its stitches
    *_family("side", SIDE, r"""
dc in each dc along side to next corner,
dc in each of the \1 dc along side,
"""),
    *_family("corners", CORNERS, r"""
with 3 sc worked in each \1
increasing at corners with 3 sc in each \1
"""),
    *_family("standing", STANDING, r"""
With \1, standing dc in any \2,
With \1, make a standing dc in any \2,
Standing dc with \1 in any \2,
"""),
    *_family("so often", SO_OFTEN, r"""
[\1] a total of \2 times
[\1] — \2 times
"""),
    Rewording("the next round's chain behind the join", HANDED, r"\1, ch \4\2\n\3"),
    Rewording("the next round's chain in a sentence", HANDED, r"\1. Ch \4\2\n\3"),
)  # fmt: skip
