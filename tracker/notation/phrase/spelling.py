"""Words that stand where a stitch would and that nobody explains: reported, with the nearest known name.

Candidates are ranked by how few letters differ, as spelling correctors do (difflib's ratio).
"""

from collections.abc import Sequence
from functools import lru_cache

from tracker.notation.phrase.cursor import STOPS, Context, Cursor, key_of
from tracker.notation.scan import T, Token
from tracker.problems import Label, Problem, Severity, Span
from tracker.problems.headline import headline
from tracker.records import replace
from tracker.trade.spellings import stitch_named
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
    "rows rnds rounds starting working worked making stuff stuffing together tog finally gently firmly lightly "
    "next you your it we that they them its".split()
)


_NO_STITCHES = frozenset(
    "ws rs mc cc pm sm bl fl lh rh mm cm ft sts st rnd rnds rds pg nb ps nxt wk wrk mr sl tbl tfl rc lc ndl hk dk ww "
    "clr mkr bk rpt sh tch tchs tc yrh yd yds lp lps grp grps sp sps ch chs lhs rhs lk lks mth pt pts blp flp fls bls "
    "hrs th nd rd lg lrg sml md ctr cntr cnr cnrs crnr crnrs lst frst prv strt bk frt rw rws mtf btm pcs pc fp "
    "bp vs xs".split()
)
"""Abbreviations without a vowel that stand for something else."""


def abbreviates(c: Cursor, start: int) -> bool:
    """True for an abbreviation that nobody explains, followed by a place: "hdv in top of tch", "sv around"."""
    token = c.tokens[start]
    return (
        token.kind is T.WORD
        and _like_a_stitch(token.text)
        and start + 1 < c.end
        and c.tokens[start + 1].text in ("in", "into", "across", "around", "next", "each", "over")
    )


_PLACES = frozenset("in into across around next each every over".split())
"""Words that follow a stitch."""
_BEFORE = (T.OPEN, T.STAR, T.COMMA, T.SEMICOLON, T.NUMBER)
"""What a stitch may stand behind."""


def unknown_word(tokens: Sequence[Token], context: Context) -> Token | None:
    """The first abbreviation of a row that stands where a stitch would, or is worked into, and that nobody explains."""
    for k, token in enumerate(tokens[:-1]):
        if token.kind is not T.WORD:
            continue
        named = None
        if len(token.text) == 1:
            named = _of_a_letter(tokens, k)
        elif tokens[k + 1].kind is T.NUMBER and tokens[k + 1].start == token.end:
            named = _together(tokens, k)
        if named is not None and not _explained(named.text, context):
            return named
        if (
            _like_a_stitch(token.text)
            and _worked(tokens, k)
            and not _explained(token.text, context)
            and not _of_a_longer_name(tokens, k, context)
        ):
            return token
    return None


def _of_a_longer_name(tokens: Sequence[Token], k: int, context: Context) -> bool:
    """True for a part of a name that the pattern explains: "lg sh", "3dcCL"."""
    begin = k - 1 if k and tokens[k - 1].kind in (T.NUMBER, T.WORD) else k
    said = [token.text for token in tokens[begin : k + 3]]
    names = ("".join(said[i:j]) for i in range(k - begin + 1) for j in range(k - begin + 1, len(said) + 1))
    return any({key_of(name), key_of(name).removesuffix("s")} & context.specials.keys() for name in names)


_NAMES_PLACE = frozenset("each every next first last same standing single of around as".split())
"""What the stitch that is worked into, or that a chain counts as, stands behind."""


def _worked(tokens: Sequence[Token], k: int) -> bool:
    """True for a word that stands where a stitch would, or where one is worked into."""
    before, behind = tokens[k - 1] if k else None, tokens[k + 1]
    if behind.text in _PLACES or behind.kind is T.NUMBER:
        return True
    if before is None:
        return False
    return before.text in _NAMES_PLACE or before.kind in _BEFORE and behind.kind in STOPS


def _of_a_letter(tokens: Sequence[Token], k: int) -> Token | None:
    """ "W-st in next sp": a stitch named after what it looks like."""
    letter, joint, st, behind = (*tokens[k : k + 4], None, None, None, None)[:4]
    if letter is None or joint is None or st is None or behind is None:
        return None
    if not letter.text.isalpha() or joint.kind is not T.HYPHEN:
        return None
    named = st.text in ("st", "sts", "stitch", "stitches") and behind.text in _PLACES
    return Token(T.WORD, f"{letter.text}-{st.text}", letter.start, st.end) if named else None


def _together(tokens: Sequence[Token], k: int) -> Token | None:
    """ "sc2og", "dc3tg": several together, with a slip in it."""
    glued = tokens[k : k + 3]
    if len(glued) < 3 or stitch_named(glued[0].text) is None:
        return None
    name, many, end = glued
    slip = len(set(end.text) & set("tog")) > 1 and len(end.text) < 5 and end.text not in ("to", "tog", "got")
    if not slip or name.end != many.start or many.end != end.start:
        return None
    return Token(T.WORD, f"{name.text}{many.text}{end.text}", name.start, end.end)


@lru_cache(2_000)
def _like_a_stitch(word: str) -> bool:
    """True for a few consonants: what abbreviates a stitch has next to never a vowel."""
    short = 2 <= len(word) <= 6 and word.isalpha() and not set("aeiouy") & set(word.removeprefix("y"))
    return short and word not in _COMMON | _NO_STITCHES


def _explained(word: str, context: Context) -> bool:
    """True for a word that the trade or the pattern knows."""
    key = key_of(word)
    known = context.specials.keys() | context.colours
    if {word, word.removesuffix("s")} & context.named:
        return True
    named = stitch_named(key, context.uk) or stitch_named(key)
    return named is not None or bool({key, key.removesuffix("s")} & known)


def tell_unknown(token: Token, context: Context, row: str, counted: bool = False) -> None:
    """Reports a word that nobody explains, with the nearest known one; `counted` where a number tells how many."""
    if any(problem.label.span.start == token.start for problem in context.problems):
        # a name of the other terms is told as that
        return
    says = f"says “{token.text}”, which is no stitch that is known"
    if any(problem.code == "T104" and problem.headline.endswith(says) for problem in context.problems):
        # one list entry that is missing, not an error of every row that needs it
        return
    near = (nearest(token.text, context) or "").replace("slst", "sl st")
    # "stuff", "leap": a whole word is likelier one of the language than of the notation, and told as one not understood
    word = not _like_a_stitch(token.text) and len(token.text) > 1 and token.text.isalpha()
    if word and not _close(token.text, near) and not (counted and _one_letter_off(token.text, near)):
        return
    context.problems.append(
        Problem(
            "T104",
            Severity.ERROR,
            headline(row, says),
            Label(Span(token.start, token.end), "not known"),
            row,
            None,
            context.part,
            f"Did the pattern mean “{near}”?"
            if near
            else "Say in the pattern's own list what it stands for.",
        )
    )


def _close(word: str, near: str) -> bool:
    """True for a word that may well be a name with a slip in it."""
    from difflib import SequenceMatcher

    return bool(near) and SequenceMatcher(None, near, word).ratio() >= 0.7


def _one_letter_off(word: str, near: str) -> bool:
    """True for "1 te in next st": a name of two letters, one of them another."""
    return len(word) == len(near) == 2 and sum(a != b for a, b in zip(word, near, strict=True)) == 1


def renamed(context: Context, faults: int, name: str) -> None:
    """Gives what was found in a row since `faults` the name by which the row goes."""
    problems = context.problems
    problems[faults:] = [replace(p, row=name) if p.row == context.row else p for p in problems[faults:]]


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
    if {token.text, token.text.removesuffix("s")} & c.context.named:
        return
    after = c.tokens[i + 1].text if i + 1 < len(c.tokens) else ""
    if (
        not lettered
        and after not in ("in", "into", "across", "around", "next", "each", "over")
        and not (i > start and c.tokens[i + 1].kind in STOPS)
    ):
        return
    tell_unknown(token, c.context, c.context.row or "A row", i > start)


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
    plain = [name for name in ("sc", "hdc", "dc", "tr", "htr") if name in known]
    turned = next((name for name in (*plain, *known) if sorted(name) == sorted(word)), None)
    if turned is not None:
        # two letters changed places: "cs", "hcd"
        return turned
    from difflib import SequenceMatcher, get_close_matches

    found = get_close_matches(word, known, n=6, cutoff=0.5)
    # of names that are as close, a plain stitch is the likeliest
    return max(
        found, key=lambda name: (SequenceMatcher(None, name, word).ratio(), name in plain), default=None
    )
