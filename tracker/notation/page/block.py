"""A text cut into stretches, each with its job, and whether one is over where a new line begins."""

import re

from tracker.expressions import expression
from tracker.notation.page.labelled.labels import Label
from tracker.problems import Span
from tracker.records import dataclass


@dataclass(slots=True)
class Block:
    """A stretch of the text with its job. Not frozen: its end moves as lines are added."""

    job: str
    """"title", "note", "define", "setup", "row", "rerun", "aside"."""
    start: int
    end: int
    """Characters of the text, end excluded."""
    label: Label | None = None
    """Of a row; None for everything else, and for rows told without one."""
    text_start: int = 0
    """Where the text behind the label begins."""
    part: str | None = None
    """The part it belongs to; None before the first is named."""
    sizes: tuple[str, ...] = ()
    """The sizes it is for; empty for all."""

    @property
    def label_span(self) -> Span:
        """The label; of a row without one, its first words."""
        end = self.text_start if self.label else min(self.end, self.start + 12)
        return Span(self.start, max(self.start + 1, end))


@dataclass(slots=True)
class Page:
    """All blocks of a text."""

    blocks: list[Block]
    title: str
    parts: list[tuple[str, int]]
    """Names of the parts and how many to make of each."""
    sizes: tuple[str, ...]
    """Names of the sizes; empty when the pattern has one."""
    copies: int
    """How many of the whole to make."""
    cut: bool
    """True when the text was longer than is read."""
    lettered: bool = False
    """True when rows go by letters, which stand for the numbers from 1."""


@dataclass(slots=True)
class Line:
    """A line on its way into a block."""

    start: int
    end: int
    raw: str
    told: str
    """Its words without the blanks around them."""
    ended: bool = False
    """True where the block before it may be over."""
    setup: bool = False
    """True where it begins as a foundation does."""
    defining: bool = False
    """True where it begins as a definition does, and one may stand here."""


def titled(name: str) -> str:
    """A name as reports say it, not all in capitals."""
    return name.capitalize() if name.isupper() else name


def ended_by(text: str, block: Block | None) -> bool:
    """True when a row may be over where its text ends so far; true of what is no row."""
    return (
        block is None
        or block.job not in ("row", "setup", "rerun")
        or text[block.start : block.end].rstrip()[-1:] in (".", ")", "]", "}", ":", "!", "?")
    )


def told_apart(text: str, block: Block, line: str) -> bool:
    """True for a sentence below an entry of a list, "1 bl = 3 dc" and "The turning ch-5 counts …"."""
    if block.job != "define" or re.match(r"[A-Z][a-z]+ [a-z]", line) is None or not line.endswith("."):
        return False
    entry = text[block.start : block.end].rstrip()
    whole = entry.endswith(".") or "\n" not in entry and len(entry) < 160 and entry[-1:] not in ",;:-"
    if whole and _OF_ALL.match(line):
        # "Mosaic dc: … the sc behind it.", and below it "All sc after Rnd 1 are worked in the back loop only."
        return True
    return "=" in entry[:40] and entry[-1:] not in ",;:-" and len(entry) < 100


_OF_ALL = expression(
    r"(?:All|Every|Each|Rows?|Rounds?|Rnds?|Always|Unless|Throughout|Turning|Colou?rs?|Carry|Change|The\s+(?:first|last|turning))\b"
    r"[^.\n]{0,80}\b(?:rows?|rounds?|rnds?|are|is|not|sts?|stitches|colou?rs?|yarn|loops?)\b"
)
"""What a sentence begins with that says something of every row."""


FURTHER_DEFINITION = expression(
    r"(?<=\S)\s{2,}(?=[A-Za-z][\w ]{0,20}\s*=\s*\S)"
    r"|(?<=[;,])\s+(?=[A-Za-z][\w/ -]{0,20}(?:\s*\([^)]{1,20}\))?\s*=\s*\S)"
    r"|(?<=;)\s+(?=[A-Za-z][\w/ -]{0,20}(?:\s*\([^)]{1,20}\))?\s*:\s+\S)"
    r"|(?<=;)\s+(?=[A-Za-z]{2,7}\s[–—-]\s\d\s(?:ch|tr|dc)\b)"
    r"|(?<=\.)\s+(?=(?:[A-Z][\w -]{0,20}|(?:beg(?:inning)?\s|(?P<same>[a-z]{2,5})\sin\s(?=(?P=same)\b))?"
    r"[a-z]{2,5}\d?[a-z]{0,4})\s*(?:\([^)]{1,14}\)\s*)?[:=]\s)"
)
"""Where another definition begins in a line that holds one."""
_LIST = expression(
    r"\s*(?:special\s+)?(?:stitch(?:es)?|sts|abbreviations?|abbrev\.?|key|terms)\b[^:\n]{0,20}:(?=[^=;:]*,)",
    re.IGNORECASE,
    ["stitch", "sts", "abbrev", "key", "terms"],
)


def listed_first(raw: str) -> int:
    """Where the first definition begins in a line that lists plain names ahead of it; 0 in another line.

    >>> line = "Stitches (US): ch, sc, dc, fan = 5 dc in same st"
    >>> line[listed_first(line):]
    'fan = 5 dc in same st'
    """
    if _LIST.match(raw) is None:
        return 0
    found = FURTHER_DEFINITION.search(raw)
    return found.end() if found is not None else 0
