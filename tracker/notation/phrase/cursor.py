"""A place in the tokens of one row, and what the whole pattern tells about its words.

Reading never raises on a maker's text: what does not match gives None and leaves the cursor where it was.
"""

from collections.abc import Mapping

from tracker.notation.pattern import Special
from tracker.notation.scan import T, Token
from tracker.notation.tree import Item
from tracker.problems import Problem, Span
from tracker.records import dataclass, field
from tracker.trade.numbers import NUMBER_WORDS, TIMES_WORDS

DEPTH = 40
"""Brackets within brackets that are followed; deeper ones are told as prose."""

STOPS = (T.COMMA, T.SEMICOLON, T.PERIOD, T.CLOSE, T.END, T.STAR, T.DASH, T.COLON)
"""What ends a phrase."""

SLIPS = ("sl", "ss", "slst", "slip")
"""First words of a slip stitch."""


def key_of(words: str) -> str:
    """A stitch's name as tables are asked for it: no blanks, hyphens or dots, lower case, "stitch" as "st".

    >>> key_of("V-Stitch"), key_of("beg. small shell")
    ('vst', 'begsmallshell')
    """
    text = words.lower().replace("stitches", "st").replace("stitch", "st").replace("beginning", "beg")
    return "".join(letter for letter in text if letter.isalnum())


@dataclass(slots=True)
class Context:
    """What the whole pattern tells about the words of a row."""

    uk: bool = False
    specials: dict[str, Special] = field(default_factory=dict)
    """By key of the name, singular."""
    increase: str = ""
    """Stitch that "inc" doubles, "" until known."""
    decrease: str = ""
    """Stitch that "dec" works together, "" until known."""
    decrease_count: int = 2
    increase_count: int = 2
    base: str = "sc"
    """The plain stitch last named."""
    problems: list[Problem] = field(default_factory=list)
    row: str | None = None
    """Label of the row being read; None outside of rows."""
    rows_named: int = 0
    """How many rows the label stands for; 0 when it has no number."""
    part: str | None = None
    """Part being read; None before the first."""
    parts: tuple[str, ...] = ()
    """Every part there is, as it is called."""
    colours: frozenset[str] = frozenset()
    """Names of colours that rows may count in: "a", "mc"."""
    inline: frozenset[str] = frozenset()
    """Stitches that rows define where they first work them, and may write out elsewhere: they cannot be counted."""
    lettered: bool = False
    """True when rows go by letters, which stand for the numbers from 1."""
    corners: dict[bool, tuple[Item, ...]] = field(default_factory=dict)
    """What a bracket told of corners: True for the one a round begins in, False for the others."""
    named: frozenset[str] = frozenset()
    """Words that the notes explain, whether or not the explanation could be read."""
    edges: Mapping[tuple[str, str, str], list[Token]] = field(default_factory=dict)
    """What the pattern calls the widening and narrowing of its rows."""
    plain: str = ""
    """The stitch that a number alone counts; "" where it counts none."""
    border: str = ""
    """The stitch at both ends of every row that no row writes; "" for none."""
    filet: int = 0
    """Chains of a window in this pattern's filet shorthand; 0 when it has none."""


class Cursor:
    """Tokens with a place in them."""

    __slots__ = ("context", "depth", "end", "i", "partners", "tokens")

    def __init__(self, tokens: list[Token], context: Context) -> None:
        self.tokens = tokens
        self.i = 0
        self.context = context
        self.partners = partners(tokens)
        self.depth = 0
        self.end = len(tokens) - 1

    def kind(self, ahead: int = 0) -> T:
        """Kind of the token at a place; END beyond the end."""
        at = self.i + ahead
        return self.tokens[at].kind if at < self.end else T.END

    def text(self, ahead: int = 0) -> str:
        """The token at a place, lower case; "" beyond the end."""
        at = self.i + ahead
        return self.tokens[at].text if 0 <= at < self.end else ""

    def token(self, ahead: int = 0) -> Token:
        """The token at a place, the last one beyond the end."""
        return self.tokens[min(self.i + ahead, len(self.tokens) - 1)]

    def value(self, ahead: int = 0) -> int | None:
        """The number at a place, in figures or words."""
        at = self.i + ahead
        if at >= self.end:
            return None
        token = self.tokens[at]
        if token.kind is T.NUMBER:
            return token.value
        if token.kind is T.WORD:
            return NUMBER_WORDS.get(token.text)
        return None

    def take(self, *words: str) -> bool:
        """Takes the words if they stand here, in this order."""
        for ahead, word in enumerate(words):
            if self.text(ahead) != word:
                return False
        self.i += len(words)
        return True

    def step(self) -> bool:
        """Moves past one token; True, so that a condition may say it."""
        self.i += 1
        return True

    def take_any(self, *words: str) -> str:
        """Takes one of the words, and says which; "" when none stands here."""
        word = self.text()
        if word and word in words:
            self.i += 1
            return word
        return ""

    def span_from(self, start: int) -> Span:
        """The span from token `start` up to the place."""
        last = max(start, self.i - 1)
        return Span(self.tokens[start].start, self.tokens[min(last, len(self.tokens) - 1)].end)

    def _glued(self) -> bool:
        """True for the star of "sc*12", which has no blank at either side."""
        if not 0 < self.i < self.end - 1:
            return False
        before, star, after = self.tokens[self.i - 1 : self.i + 2]
        return before.end == star.start and star.end == after.start

    def _lone(self) -> bool:
        """True for the star of "dec *6": no other stands before it, and nothing is worked behind its number."""
        ends = self.kind(2) in (*STOPS, T.OPEN) and self.token(1).start == self.token().end
        return ends and all(token.kind is not T.STAR for token in self.tokens[: self.i])

    def times_here(self) -> tuple[int, int] | None:
        """ "6 times", "x6", "x 6", "6x", "sc*6", "twice": the number and how many tokens it takes."""
        word = self.text()
        twice = word == self.text(-1) == "x" and self.value(1) is not None
        if (
            "x" in (word, self.text(1))
            and "x" in self.context.specials
            and self.kind(-1) is not T.CLOSE
            and not twice
        ):
            # "1x, 5o, 1x" where an x is a square; "X x3" is three of them
            return None
        if (
            word == "*"
            and self.kind(1) is T.NUMBER
            and (self.kind(-1) is T.CLOSE or self._glued() or self._lone())
        ):
            if self.text(2) in ("x", "times") or self.kind(2) is T.TIMES:
                # "*sc in next st, dc in next st (pull up)* 6 times": the star closes what another opened
                return None
            return self.value(1) or 0, 2
        if word in TIMES_WORDS:
            return TIMES_WORDS[word], 1
        if word in ("x", "×", "times") or self.kind() is T.TIMES:
            value = self.value(1)
            if value is not None and not (
                word == "x" and self.kind(1) is T.WORD and self.text(1) not in NUMBER_WORDS
            ):
                return value, 3 if self.text(2) in ("times", "time") else 2
            return None
        if word[:1] == "x" and word[1:].isdigit():
            return min(int(word[1:][:13]), 10**12), 1
        value = self.value()
        if value is not None:
            if (
                self.text(1) in ("times", "time")
                or self.kind(1) is T.TIMES
                or (self.text(1) == "x" and self.value(2) is None)
            ):
                return value, 2
            if self.text(1) in ("more", "further", "additional", "total") and self.text(2) in (
                "times",
                "time",
            ):
                return value, 3
        return None


def inner(c: Cursor, start: int, end: int) -> Cursor:
    """A cursor over the tokens from `start` up to, not including, `end`."""
    tokens = c.tokens[start:end]
    at = c.tokens[end].start if end < len(c.tokens) else c.tokens[-1].end
    return Cursor([*tokens, Token(T.END, "", at, at)], c.context)


def partners(tokens: list[Token]) -> dict[int, int]:
    """Index of the closing bracket for each opening one, and back; unpaired ones are missing."""
    pairs: dict[int, int] = {}
    stack: list[int] = []
    for i, token in enumerate(tokens):
        if token.kind is T.OPEN:
            stack.append(i)
        elif token.kind is T.CLOSE and stack:
            wanted = {")": "(", "]": "[", "}": "{"}[token.text]
            if tokens[stack[-1]].text == wanted:
                opened = stack.pop()
                pairs[opened], pairs[i] = i, opened
            elif any(tokens[j].text == wanted for j in stack):
                while tokens[stack[-1]].text != wanted:
                    stack.pop()
                opened = stack.pop()
                pairs[opened], pairs[i] = i, opened
    return pairs
