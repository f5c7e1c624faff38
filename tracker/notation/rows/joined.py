"""Rounds about copies that were joined: "Sew the squares together. Edging: Rnd 1: join in any outer corner sp, …".

What lies under such a round is no row of the pattern: how many stitches it takes, its own words and count say. Blocks
come in one after another; the first row behind the joining goes out marked as one along other pieces.
"""

import re

from tracker.expressions import expression
from tracker.notation.page.block import Block
from tracker.notation.tree import Item, Say

_JOINS = expression(
    r"\b(?:sew|join|whip\s?-?stitch|seam|crochet|(?:sl(?:ip)?|mattress)\s+st\w*|hold|place|lay|arrange|using)\w*\b[^.\n]{0,80}"
    r"\b(?P<what>squares|motifs|hexagons|hexies|pieces|blocks|triangles|patches|tiles|pairs?|strips|halves)\b",
    re.IGNORECASE,
    [
        "squares",
        "motifs",
        "hex",
        "pieces",
        "blocks",
        "triangles",
        "patches",
        "tiles",
        "pair",
        "strips",
        "halves",
    ],
)
"""What makes one piece of many."""
_BEGINS = expression(r"\b(?:re)?(?:join|attach)|\bstanding\b", re.IGNORECASE, ["join", "attach", "standing"])


_MOTIFS = ("squares", "motifs", "hexagons", "hexies", "triangles", "patches")
"""Of these there are always several alike."""
_DONE = expression(r"\b(?:fasten|finish|end)\s+off\b", re.IGNORECASE, ["off"])


def _along(nouns: set[str]) -> re.Pattern[str]:
    """What names one of several copies as a place to work in."""
    told = "|".join(re.escape(noun) for noun in sorted(nouns))
    return expression(
        rf"\b(?:of|along|across|onto?|to)\s+(?:(?:the|an?|each|next|first|last|one|another|every)\s+){{1,2}}(?:{told})e?s?\b",
        re.IGNORECASE,
    )


class Joined:
    """Whether the rows so far were of copies that have been joined since."""

    def __init__(self, parts: list[tuple[str, int]], copies: int) -> None:
        self.many = copies > 1 or any(each > 1 for _, each in parts)
        nouns = {name.lower().split()[-1].rstrip("s") for name, each in parts if each > 1 and name.split()}
        self.named = _along(nouns) if nouns else None
        """Where a row goes along copies by their name: "along the top of a flag"; None where no part is made twice."""
        self.copied = {name for name, each in parts if each > 1}
        self.worked: set[str | None] = set()
        """Parts that have a row already."""
        self.joined = False

    def told(self, words: str) -> None:
        """Takes in words between rows."""
        self.joined = self.joined or bool(self.worked) and self._tells(words, 0)

    def about(self, block: Block, words: str, items: list[Item]) -> list[Item]:
        """The items of a row, marked where it goes round what was joined."""
        first = block.part not in self.worked or block.label is not None and block.label.numbers[:1] == (1,)
        self.worked.add(block.part)
        if (
            first
            and items
            and self.named is not None
            and block.part not in self.copied
            and len(self.worked) > 1
            and self.named.search(words)
        ):
            return [Say("piece", "", items[0].span), *items]
        if not (self.joined and first and items and block.label is not None):
            self.joined = self.joined or self._behind(words)
            return items
        self.joined = self._behind(words)
        if not _BEGINS.search(words):
            return items
        return [Say("piece", "", items[0].span), *items]

    def _behind(self, words: str) -> bool:
        """True where the joining is told behind the row that ends a piece: "Fasten off. Sew the squares …"."""
        done = _DONE.search(words)
        return done is not None and self._tells(words, done.end())

    def _tells(self, words: str, at: int) -> bool:
        """True for words, from a place on, that make one piece of many."""
        hit = _JOINS.search(words, at)
        return hit is not None and (self.many or hit["what"].lower() in _MOTIFS)
