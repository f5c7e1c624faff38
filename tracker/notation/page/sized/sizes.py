"""Sizes: their names, and one figure out of "31 (35, 39)".

Tokens come in, tokens go out with the figure of one size in place of every list. A list of another length than
there are sizes stays as it is and is reported.
"""

from tracker.expressions import expression
from tracker.notation.scan import T, Token
from tracker.problems import Label, Problem, Severity, Span
from tracker.problems.headline import headline
from tracker.records import dataclass
from tracker.trade.numbers import NUMBER_WORDS, TIMES_WORDS


@dataclass(frozen=True, slots=True)
class OffLength:
    """A list of figures of another length than there are sizes."""

    start: int
    end: int
    """Characters of the source, end excluded."""
    figures: int
    """How many figures it has."""


def told_wrong(wrong: OffLength, sizes: int, row: str | None, part: str | None) -> Problem:
    """What is wrong with a list of another length (C211)."""
    return Problem(
        "C211",
        Severity.ERROR,
        headline(row or "The foundation", f"lists {wrong.figures} figures, and there are {sizes} sizes"),
        Label(Span(wrong.start, wrong.end), f"{wrong.figures} figures"),
        row,
        None,
        part,
        "Give one figure for each size, a dash for one that is not worked.",
    )


_FIGURES = (T.NUMBER, T.DASH, T.HYPHEN)


def _run_at(tokens: list[Token], at: int, sign: str) -> tuple[list[Token], int]:
    """Figures with a sign between them, "28/30/32", and the index after them."""
    figures, i = [tokens[at]], at + 1
    while tokens[i].text == sign and tokens[i + 1].kind in _FIGURES:
        figures.append(tokens[i + 1])
        i += 2
    return figures, i


def _bare_list_at(tokens: list[Token], at: int, count: int, least: int = 3) -> tuple[list[Token], int] | None:
    """ "Ch 40, 44, 48", "[8, 10, 12] sts": as many figures as there are sizes, and no first one before them.

    Fewer figures than `least` are no list: "sc in next 2, 4 dc in next st" tells no sizes.
    """
    opened = tokens[at].kind is T.OPEN
    first = at + opened
    if count < least or tokens[first].kind not in _FIGURES or tokens[first + 1].kind is not T.COMMA:
        return None
    figures, i = _run_at(tokens, first, ",")
    before = tokens[at - 1].text if at else ""
    if len(figures) != count or before in _LISTED:
        return None
    if opened:
        # "(24, 30, 36)" alone is a count, and keeps its brackets
        return (figures, i + 1) if tokens[i].kind is T.CLOSE and tokens[i + 1].text in _NOUNS else None
    closed = before in ("(", "[", "{") and tokens[i].kind is T.CLOSE
    return (figures, i) if closed or tokens[i].text in _NOUNS or before in ("ch", "chain") else None


_LISTED = frozenset("row rows rnd rnds round rounds r".split())
"""What a list of numbers may name: "Rows 3, 5, 7 sts" is no list of sizes."""


def _list_at(tokens: list[Token], at: int, count: int) -> tuple[list[Token], int] | None:
    """Figures (or dashes) of a size list that begins at a token, and the index after it."""
    if (bare := _bare_list_at(tokens, at, count)) is not None:
        return bare
    if tokens[at].kind is T.OPEN:
        return None
    figures = [tokens[at]]
    before = tokens[at - 1].text if at else ""
    i = at + 1
    if tokens[i].text == "/":
        figures, i = _run_at(tokens, at, "/")
        return (figures, i) if len(figures) > 1 else None
    if tokens[i].kind is T.COLON:  # 31: 35: 39 sts
        while tokens[i].kind is T.COLON and tokens[i + 1].kind is T.NUMBER:
            figures.append(tokens[i + 1])
            i += 2
        # two figures before a stitch are all there are, or one more was forgotten; "Row 4: 24 sc" names a row
        short = len(figures) == 2 and _names(tokens[i]) and before not in _LISTED
        return (figures, i) if len(figures) > 2 or short else None
    groups = 0
    while tokens[i].kind is T.OPEN:
        j = i + 1
        inner: list[Token] = []
        while tokens[j].kind in (T.NUMBER, T.COMMA, T.DASH, T.HYPHEN) or (
            inner and (tokens[j].kind in (T.COLON, T.SEMICOLON) or tokens[j].text == "/")
        ):
            if tokens[j].kind not in (T.COMMA, T.COLON, T.SEMICOLON) and tokens[j].text != "/":
                inner.append(tokens[j])
            j += 1
        if not inner or tokens[j].kind is not T.CLOSE:
            # {31 (35, 39)}: a further list of sizes nested in another bracket
            break
        figures.extend(inner)
        groups += 1
        i = j + 1
    return (figures, i) if groups else None


_NOUNS = frozenset("st sts sc hdc dc tr htr ch chs times rows rnds rounds row sps stitches x".split())
"""What follows a list of sizes in the middle of a row, and never a count at its end."""

_STITCHES = expression(
    r"\w*(?:sc|dc|tr|st|tog|shell|fan|cl|cluster|puff|bobble|popcorn|group|loop|lp|mesh)(?:s|es)?"
)
"""Names that patterns make for stitches of their own."""


def _names(token: Token) -> bool:
    """True for what a list of sizes counts."""
    return token.text in _NOUNS or token.kind is T.WORD and _STITCHES.fullmatch(token.text) is not None


def _in_figures(tokens: list[Token]) -> list[Token]:
    """Lists in words, "five (six, seven) times more", "twice (twice, 3 times)", as lists in figures."""
    out = _often_in_figures(list(tokens))
    for at in range(len(out) - 2):
        if out[at].text not in NUMBER_WORDS or out[at + 1].kind is not T.OPEN:
            continue
        end = at + 2
        while out[end].text in NUMBER_WORDS or out[end].kind in (T.NUMBER, T.COMMA):
            end += 1
        if end > at + 2 and out[end].kind is T.CLOSE:
            for k in (at, *range(at + 2, end)):
                if out[k].text in NUMBER_WORDS:
                    value = NUMBER_WORDS[out[k].text]
                    out[k] = Token(T.NUMBER, str(value), out[k].start, out[k].end, value)
    return out


def _often_in_figures(tokens: list[Token]) -> list[Token]:
    """ "Twice (twice, 3 times)" as "2 (2, 3) times"."""
    for at in range(len(tokens) - 3):
        begun = _often(tokens, at)
        if begun is None or tokens[begun[1]].kind is not T.OPEN:
            continue
        figures, k = [begun[0]], begun[1] + 1
        while (more := _often(tokens, k)) is not None:
            figures.append(more[0])
            k = more[1]
            if tokens[k].kind is not T.COMMA:
                break
            k += 1
        if tokens[k].kind is not T.CLOSE or len(figures) < 2:
            continue
        opened, close, end = tokens[begun[1]], tokens[k], tokens[k].end
        listed: list[Token] = [figures[0], opened]
        for figure in figures[1:]:
            listed += [figure, Token(T.COMMA, ",", figure.end, figure.end)]
        times = Token(T.WORD, "times", end, end)
        return [*tokens[:at], *listed[:-1], close, times, *_often_in_figures(tokens[k + 1 :])]
    return tokens


def _often(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    """ "Twice" or "3 times" as a figure, and the index behind it; None for other words."""
    token = tokens[at]
    if token.kind is T.WORD and token.text in TIMES_WORDS:
        value = TIMES_WORDS[token.text]
        return Token(T.NUMBER, str(value), token.start, token.end, value), at + 1
    if token.kind is T.NUMBER and at + 1 < len(tokens) and tokens[at + 1].text in ("times", "time"):
        return token, at + 2
    return None


def chosen(
    tokens: list[Token], count: int, index: int, section: tuple[int, int] | None = None
) -> tuple[list[Token], list[OffLength]]:
    """Tokens with the figure of size `index` (from 0) of `count` in place of every list of sizes.

    `section`: how many sizes the row is for, and which of them is chosen, where it is not for all: its lists may hold
    figures for no others. A dash, "not worked", becomes the figure 0.
    """
    tokens = _in_figures(tokens)
    out: list[Token] = []
    odd: list[OffLength] = []
    i = 0
    while i < len(tokens):
        token = tokens[i]
        if token.kind in (*_FIGURES, T.OPEN) and i + 1 < len(tokens):
            told = _figure_at(tokens, i, count, index) or (
                section and not _times_and_count(tokens, i) and _figure_at(tokens, i, *section)
            )
            if told:
                figure, i = told
                out.append(figure)
                continue
            if found := _list_at(tokens, i, count):
                figures, after = found
                numbers = [f for f in figures if f.kind is T.NUMBER]
                two = count > 2 and (
                    after < len(tokens) and _names(tokens[after]) or _nothing_else(tokens, i, after)
                )
                if (len(figures) > 2 or two) and len(numbers) > 1 and token.kind is T.NUMBER:
                    odd.append(OffLength(token.start, tokens[after - 1].end, len(figures)))
                    pick = figures[min(index, len(figures) - 1)]
                    out.append(
                        Token(T.NUMBER, str(pick.value), token.start, tokens[after - 1].end, pick.value)
                    )
                    i = after
                    continue
        out.append(token)
        i += 1
    return out, odd


def _times_and_count(tokens: list[Token], at: int) -> bool:
    """True for "x 6 (48)" at the end of a row: how often, and what it makes."""
    behind = [token.kind for token in tokens[at + 1 : at + 5]]
    closes = behind[:3] == [T.OPEN, T.NUMBER, T.CLOSE] and behind[3:] in ([], [T.END], [T.PERIOD])
    return at > 0 and (tokens[at - 1].kind is T.TIMES or tokens[at - 1].text in ("x", "×")) and closes


def _figure_at(tokens: list[Token], at: int, count: int, index: int) -> tuple[Token, int] | None:
    """The figure of one size of a list with one for each, and the index behind the list; None for anything else."""
    found = _list_at(tokens, at, count) or tokens[at].kind is T.OPEN and _bare_list_at(tokens, at, count, 2)
    if not found or len(found[0]) != count:
        return None
    figures, after = found
    value = figures[index].value if figures[index].kind is T.NUMBER else 0
    return Token(T.NUMBER, str(value), tokens[at].start, tokens[after - 1].end, value), after


def _nothing_else(tokens: list[Token], start: int, end: int) -> bool:
    """True for two figures that can be no number and its count: "Ch 30 (34);", "[45 (60)]"."""
    before = tokens[start - 1] if start else None
    behind = tokens[end] if end < len(tokens) else None
    if before is None:
        return False
    if before.text in ("ch", "chain"):
        ends = (T.END, T.PERIOD, T.SEMICOLON, T.COMMA)
        return behind is None or behind.kind in ends or behind.text in ("and", "for", "then")
    return before.kind is T.OPEN and behind is not None and behind.kind is T.CLOSE
