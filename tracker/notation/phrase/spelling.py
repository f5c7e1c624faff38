"""Words that stand where a stitch would and that nobody explains: reported, with the nearest known name.

Candidates are ranked by how few letters differ, as spelling correctors do (difflib's ratio).
"""

from tracker.notation.phrase.cursor import STOPS, Context, Cursor
from tracker.notation.scan import T
from tracker.problems import Label, Problem, Severity, Span
from tracker.trade.stitches import STITCHES

_COMMON = frozenset(
    "work make the a an in into with from to for at of on and or but then yarn hook color colour row "
    "round rnd side piece last first next now using begin beginning start when if as by is are this "
    "that "
    "right left front back up down off over under more less one two place marker needle end tail "
    "ring circle loosely wrong "
    "insert draw pull drop pick leave keep continue cont weave sew block fold hold note repeat rep "
    "ch chain skip sk turn join fasten cut break change carry attach established est even "
    "times time evenly edge edging border corner corners pattern pat patt stitch stitches st sts both same each "
    "every all space spaces sp sps blk blks bl bls om oms block blocks mesh meshes square squares "
    "rows rnds rounds starting working worked making".split()
)


_NO_STITCHES = frozenset("ws rs mc cc pm sm bl fl lh rh mm cm ft sts st rnd rnds rds pg nb ps".split())
"""Abbreviations without a vowel that stand for something else."""


def abbreviates(c: Cursor, start: int) -> bool:
    """True for an abbreviation that nobody explains, followed by a place: "hdv in top of tch", "sv around"."""
    token = c.tokens[start]
    word = token.text
    return (
        token.kind is T.WORD
        and 2 <= len(word) <= 6
        and word.isalpha()
        and not set("aeiouy") & set(word)
        and word not in _COMMON | _NO_STITCHES
        and start + 1 < c.end
        and c.tokens[start + 1].text in ("in", "into", "across", "around", "next", "each", "over")
    )


def report_unknown(c: Cursor, start: int) -> None:
    """Reports a word that stands in a stitch's place and that nobody explains, with the nearest known one."""
    i = start
    if c.tokens[i].kind is T.NUMBER:
        i += 1
    token = c.tokens[i] if i < len(c.tokens) else None
    if token is None or token.kind is not T.WORD or token.text in _COMMON or len(token.text) > 9:
        return
    # where the pattern writes its stitches as letters, a letter that its list does not have is one
    lettered = len(token.text) == 1 and sum(len(key) == 1 for key in c.context.specials) > 1
    if token.text.endswith(("ing", "ed", "ly")) or len(token.text) < 2 and not lettered:
        return
    after = c.tokens[i + 1].text if i + 1 < len(c.tokens) else ""
    if (
        not lettered
        and after not in ("in", "into", "across", "around", "next", "each", "over")
        and not (i > start and c.tokens[i + 1].kind in STOPS)
    ):
        return
    near = nearest(token.text, c.context)
    help_text = (
        f"Did the pattern mean “{near}”?" if near else "Say in the pattern's own list what it stands for."
    )
    c.context.problems.append(
        Problem(
            "T104",
            Severity.ERROR,
            f"{c.context.row or 'A row'} says “{token.text}”, which is no stitch that is known",
            Label(Span(token.start, token.end), "not known"),
            c.context.row,
            None,
            c.context.part,
            help_text,
        )
    )


_OTHERS = (
    *"ch sk inc dec fpdc bpdc fpsc bpsc sc2tog dc2tog hdc2tog".split(),
    "sl st",
    "rep",
    "turn",
)
"""Words of the notation that are no row of the table of stitches."""


def nearest(word: str, context: Context) -> str | None:
    """The known name closest to a word in the pattern's own terms, or None when none is close.

    >>> nearest("dbc", Context()) in ("dc", "hdc", "sc")
    True
    """
    uk = context.uk
    known = [row.uk if uk else row.name for row in STITCHES.values() if row.name not in ("tile", "p")]
    known += [special.name for special in context.specials.values()]
    known += _OTHERS
    from difflib import get_close_matches

    found = get_close_matches(word, known, n=1, cutoff=0.5)
    return found[0] if found else None
