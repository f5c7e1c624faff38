"""A place in the tokens of one row, and the names of stitches read there.

Reading never raises on a maker's text: what does not match gives None and leaves the cursor where it was.
"""

from dataclasses import dataclass, field

from tracker.notation.scan import T, Token
from tracker.notation.tree import Special
from tracker.problems import Problem, Span
from tracker.trade.numbers import NUMBER_WORDS, TIMES_WORDS
from tracker.trade.stitches import Named, parts_of, stitch_named

DEPTH = 40
"""Brackets within brackets that are followed; deeper ones are told as prose."""


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
    round: bool = False
    """True while a round is read."""
    row: str | None = None
    part: str | None = None
    colours: frozenset[str] = frozenset()
    """Names of colours that rows may count in: "a", "mc"."""
    filet: int = 0
    """Chains of a window in this pattern's filet shorthand; 0 when it has none."""


@dataclass(slots=True)
class Stitch:
    """A stitch's name as it stands in a row."""

    name: str
    """Name inside; "inc" and "dec" for those; the special's own name for specials."""
    tokens: int
    loop: str = ""
    special: Special | None = None
    amount: int = 0
    """For "dc 3 tog" and the like; 0 when not said."""


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
        at = self.i + ahead
        return self.tokens[at].kind if at < self.end else T.END

    def text(self, ahead: int = 0) -> str:
        at = self.i + ahead
        return self.tokens[at].text if 0 <= at < self.end else ""

    def token(self, ahead: int = 0) -> Token:
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

    def times_here(self) -> tuple[int, int] | None:
        """ "6 times", "x6", "x 6", "6x", "twice": the number and how many tokens it takes."""
        word = self.text()
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
            if self.text(1) == "more" and self.text(2) in ("times", "time"):
                return value, 3
            if self.text(1) in ("further", "additional", "total") and self.text(2) in ("times", "time"):
                return value, 3
        return None


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


_NOT_STITCHES = frozenset(
    "in into each next of and st sts sp sps the to rep from around across ch turn sk row rnd with work join block p s c a k m lp ps".split()
)
_POST = {"front": "fp", "back": "bp", "raised": ""}


def stitch_here(c: Cursor, ahead: int = 0) -> Stitch | None:
    """The name of a stitch that stands at a place."""
    context = c.context
    first = c.text(ahead)
    kind = c.kind(ahead)
    if kind is not T.WORD:
        return None
    # Names that the pattern defines win over the trade's, the longest first.
    if context.specials:
        words = ""
        best: Stitch | None = None
        for n in range(6):
            token_kind = c.kind(ahead + n)
            if token_kind not in (T.WORD, T.HYPHEN, T.NUMBER):
                break
            if token_kind is not T.HYPHEN:
                words += c.text(ahead + n)
                key = key_of(words)
                special = (
                    context.specials.get(key)
                    or context.specials.get(key.removesuffix("s"))
                    or context.specials.get(key.removesuffix("es"))
                )
                if key == "a" and c.kind(ahead + 1) is T.WORD and c.text(ahead + 1) != "x":
                    special = None
                if special is not None and key:
                    best = Stitch(special.name, n + 1, special=special)
                    if c.text(ahead + n + 1) in ("st", "sts", "stitch", "stitches"):
                        best.tokens += 1
        if best is not None:
            return best
    # Post stitches told in words: "front post dc", "raised treble front".
    if first in ("front", "back") and c.text(ahead + 1) == "post":
        inner = stitch_here(c, ahead + 2)
        if inner is not None and inner.special is None:
            return Stitch(_POST[first] + inner.name, inner.tokens + 2)
    if first == "raised":
        inner = stitch_here(c, ahead + 1)
        if inner is not None and c.text(ahead + 1 + inner.tokens) in ("front", "back"):
            return Stitch(_POST[c.text(ahead + 1 + inner.tokens)] + inner.name, inner.tokens + 2)
    if (
        first in ("fp", "bp", "extended", "linked", "spike", "invisible", "inv")
        and c.kind(ahead + 1) is T.WORD
    ):
        inner = stitch_here(c, ahead + 1)
        if inner is not None and inner.special is None:
            if first in ("invisible", "inv"):
                return Stitch(inner.name, inner.tokens + 1, inner.loop) if inner.name == "dec" else None
            if first in ("fp", "bp"):
                return Stitch(first + inner.name, inner.tokens + 1)
            named = stitch_named(
                {"extended": "e", "linked": "l", "spike": "sp"}[first] + _plain(inner.name, context.uk),
                context.uk,
            )
            if named:
                return Stitch(named.name, inner.tokens + 1)
    # Several words: "half double crochet", "sl st", "rev sc", "dc 3 tog".
    found: Stitch | None = None
    words = ""
    for n in range(4):
        token_kind = c.kind(ahead + n)
        if n and token_kind is T.HYPHEN:
            continue
        if token_kind is not T.WORD or (
            n
            and c.text(ahead + n) in ("in", "into", "and", "to", "of", "next", "each", "st", "sts")
            and words
            not in ("sl", "slip", "puff", "popcorn", "bobble", "spike", "crab", "cluster", "reverse")
        ):
            break
        words += c.text(ahead + n)
        if (
            words in ("inc", "increase", "incs", "incr")
            or words == "increasing"
            and c.value(ahead + n + 1) is not None
        ):
            found = Stitch("inc", n + 1)
            break
        if (
            words in ("dec", "decrease", "decs", "invdec", "decr")
            or words == "decreasing"
            and c.value(ahead + n + 1) is not None
        ):
            found = Stitch("dec", n + 1)
            break
        if n == 0 and words in _NOT_STITCHES and words not in ("p", "block", "ps"):
            if words not in ("s", "c"):
                break
            continue
        if n == 0 and words in ("p", "block", "ps", "pc"):
            continue
        named = _named(words, context.uk)
        if named is not None:
            found = Stitch(named.name, n + 1, named.loop or "")
    if found is None:
        return None
    after = ahead + found.tokens
    if found.name not in ("inc", "dec"):
        amount = c.value(after)
        if amount is not None and c.text(after + 1) in ("tog", "together") and 2 <= amount <= 40:
            return Stitch(f"{found.name}{amount}tog", found.tokens + 2, found.loop)
        if c.text(after) in ("inc", "increase"):
            return Stitch("inc:" + found.name, found.tokens + 1, found.loop)
        if c.text(after) in ("dec", "decrease"):
            return Stitch(found.name + "2tog", found.tokens + 1, found.loop)
        if c.kind(after) is T.HYPHEN and c.text(after + 1) in ("blo", "flo", "bl", "fl", "tbl"):
            return Stitch(found.name, found.tokens + 2, "front" if c.text(after + 1)[0] == "f" else "back")
    return found


def _plain(name: str, uk: bool) -> str:
    from tracker.trade.stitches import written

    return written(name, uk)


def _named(words: str, uk: bool) -> Named | None:
    return stitch_named(words, uk)


def base_of(name: str) -> str:
    """The plain stitch a name is built on; "sc" for those that are none."""
    plain = parts_of(name)[1]
    return plain if plain in ("sc", "hdc", "dc", "tr", "dtr", "esc", "edc", "trtr", "ehdc") else ""
