"""What a pattern says once for all of its rows: turning chains, joins, colours, sizes without names."""

import re
from itertools import pairwise

from tracker.expressions import expression
from tracker.notation.page.block import Page
from tracker.notation.page.sized.figured import figured
from tracker.notation.pattern import Habits
from tracker.notation.phrase.cursor import Context, Cursor
from tracker.notation.phrase.told.turning import turning_statement
from tracker.notation.scan import Token, scan
from tracker.notation.tree import Turning
from tracker.problems import Source
from tracker.records import replace
from tracker.trade.spellings import stitch_named

_NO_COLOURS = frozenset("RS WS FO CM X ST SC DC HD TR CH SK SL SP YO BL OM FP BP IN MM".split())
"""Capital letters behind a number that name something else."""


_SQUARES = frozenset(
    "Open Closed Solid Filled Block Blocks Space Spaces Mesh Window Windows Tile Tiles Square Squares".split()
)
_LABELLED = (
    r"^[ ]*(?:\d{1,3}(?:-\d{1,3})?[.):][ ]+|(?:(?:Rows?|ROWS?|R|Rnds?|Rounds?|RNDS?)[ ]?\d+"
    r"|\d+(?:st|nd|rd|th)[ ](?:[Rr]ow|[Rr]nd|[Rr]ound)|[A-Za-z]{5,11}[ ](?:row|rnd|round))"
    r"[^:\n]{0,24}?(?::|[.]?[–—]|[.]|[ ]-)[ ]*)"
)
"""The label of a row, in whatever way it is written."""
_COLOURED = expression(
    _LABELLED
    + r"(\d+[ ]?[A-Z]{1,2}(?:,[ ]*\d+[ ]?[A-Z]{1,2})*|[A-Z]{1,2}[ ]?[x×][ ]?\d+(?:,[ ]*[A-Z]{1,2}[ ]?[x×][ ]?\d+)*"
    r"|\([A-Z]{1,2}\)[ ]?[x×]?[ ]?\d+(?:,[ ]*\([A-Z]{1,2}\)[ ]?[x×]?[ ]?\d+)*)[ ]*(?:[(\[.–—=]|$)",
    re.MULTILINE,
)
"""The row of a drawing in colours, told without a word: "Row 3: 1 W, 1 S, 1 W (3 bl)"."""


_COLOUR_WORDS = expression(
    _LABELLED + r"(\d+[ ]?[A-Z][a-z]{2,11}(?:,[ ]*\d+[ ]?[A-Z][a-z]{2,11})*)[ ]*(?:[(\[.–—=]|$)",
    re.MULTILINE,
)
"""The same in whole words: "Row 4: 1 Aqua, 2 Gray, 1 Aqua (4 blocks)"."""
_COLOUR_OF_ROW = expression(
    _LABELLED + r"\(([A-H]|MC|CC\d?)\)(?=\s+\S)", re.MULTILINE, [f"({name}" for name in "abcdefgh"] + ["(mc"]
)
"""And the colour of a whole row, ahead of its words: "Row 3: (A) edge, 3 sc"."""
_COLOUR_AHEAD = expression(
    r"([A-Z](?:(?<=[*,;] [A-Z])|(?<=[*(\[][A-Z]))[a-z]{2,11}) "
    r"(?:sc|hdc|dc|htr|tr|(?:half )?(?:single|double) crochet|(?:half )?treble) (?:in|into)\b"
)
""" "*Black sc in next 4 sts, Cream sc in next 4 sts": colours told ahead of their stitches."""
_HUES = (
    "white", "black", "gray", "grey", "red", "pink", "blue", "green", "yellow", "orange", "purple", "brown", "beige",
    "cream", "tan", "rust", "navy", "teal", "gold", "peach",
)  # fmt: skip
_HUES_AHEAD = expression(
    rf"\b({'|'.join(_HUES)}):?\s+\d{{1,3}}\s?(?:sc|dc|hdc|htr|tr)\s*(?=[,;.(\[\n])", re.IGNORECASE, _HUES
)
""" "Grey 10 sc, white: 4 sc, grey 10 sc": plain names of colours, each with its number of stitches."""
_HUES_LETTERED = expression(rf"\b(?i:{'|'.join(_HUES)})\s\(([A-Z]{{1,2}})\)", holds=_HUES)
""" "White (W), red (R), green (G)", wherever it stands."""
_NO_COLOUR_WORDS = frozenset(
    "work next then turn with and join make place front back mosaic long spike edge border first last each extended "
    "linked standing raised drop double half single post foundation beg rep repeat now also skip".split()
)
"""What stands before a stitch and is no colour."""
_LEGEND = expression(
    r"([A-Z](?<!\w[A-Z])[A-Z]?)\s?(?:[)\]]?\s?[=:–—-]\s?"
    r"(?!(?:long|front|back|drop|double|treble|half|single|sc|dc|hdc|htr|tr)\b)"
    r"(?![^\n,;]{0,40}\b(?i:\d\s?(?:sc|dc|hdc|htr|tr)|ch\s?\d|\d\s?ch|yo|yrh|insert\w*|hook)\b)[A-Za-z]|\([a-z ]+\))"
)
"""What a key says of a colour: "W = white", "N (navy)"; a stitch is none: "(PC): work 4 dc in one st"."""


_COLOUR_LINE = expression(
    r"^[^\w\n]{0,12}colou?rs?(?:\s+(?:used|key))?\s*[:–—-]\s*([^\n]{4,300})$",
    re.IGNORECASE | re.MULTILINE,
    ["colo"],
)
_IN_LIST = expression(
    r"(?:^|[,;/]|\band\b)\s*(?:([A-Z]{1,2})\s+(?:is\s+)?[a-z]{3,}|[A-Za-z ]{3,20}\(([A-Z]{1,2})\))"
)
"""A list of colours in a line: "Colors: R red, O orange", "Colours: navy (N), white (W)"."""
_COUNTED = expression(
    r"\d\s?([A-Z]{1,2})\b|\(([A-Z]{1,2})\)\s?[x×]?\s?\d|\b([A-Z]{1,2})\s?\d{1,3}\s?[,;.\[(]"
)
"""What rows count by letters: "7W", "(N) 3", "B 2,"."""
_BY_LETTER = expression(r"[0-9](?<![A-Za-z\d][0-9])\d{0,2} ?([A-E])(?=[,.;)\]]|\s*[(\[]|\s*$)", re.MULTILINE)
"""Colours that nobody introduces, counted by letters: "3A, 2B"."""
_COLOURED_STITCHES = expression(r"\d\s?[A-Za-z]{1,6}\s([A-Z]{1,2})\b(?=\s*[,.;(\n])")
"""And behind their stitches: "3 sc W,"."""


# All these begin with the sign that a match begins with, not with what must stand before it: five times as fast.
_LETTER = expression(r"([A-H](?<!\w[A-H]))\b")
_INTRODUCED = expression(
    r"\b(?:[Cc]olou?rs?|[Yy]arn|[Ss]hade|[Ww]ith|[Uu]sing|[Ii]n|[Jj]oin|[Cc]hange to)\s+\(?$"
)
"""What stands before a letter that is a colour: "with A", "colour (B)"."""
_MAIN = expression(r"((?:MC|CC\d?|C\d)(?<!\wMC)(?<!\wCC)(?<!\wCC\d)(?<!\wC\d))\b")
_IN_BRACKET = expression(r"\(([A-H])\)\s*\d")
_WITH_SIGN = expression(
    r"([A-H](?<!\w[A-H]))\s*(?:[:=-]\s*|[–—]\s*)(?!(?:sc|dc|hdc|htr|tr|single|double|half|treble)\b)\w"
)
_TWO = expression(r"([A-H](?<!\w[A-H]))\s*(?:and|&)\s*([A-H])\b")
_MAGIC = expression(r"\bMC\s*[=:–—-]\s*magic|\bmagic\s+(?:circle|ring)\s*\(MC\)", re.IGNORECASE, ["mc"])
"""Where MC is the magic circle, and no main colour."""


def colours_of(text: str) -> frozenset[str]:
    """Names that a pattern gives its colours: "a", "b", "mc"."""
    head = text[:100_000]
    found: list[tuple[str, ...]] = [
        (hit[1],)
        for hit in _LETTER.finditer(head)
        if _INTRODUCED.search(head, max(0, hit.start() - 16), hit.start())
    ]
    found += [
        (name,) for name in (*_MAIN.findall(head), *_IN_BRACKET.findall(head), *_WITH_SIGN.findall(head))
    ]
    # whatever a legend names and rows count by: "W = white" and "7W, 1N"; and whole words: "(Cream) x 3"
    legend = set(_LEGEND.findall(head)) - _NO_COLOURS
    counted = set(_COUNTED.findall(head)) if legend else set()
    counted |= {(name,) for name in _COLOURED_STITCHES.findall(head)} if legend else set()
    found += [pair for pair in counted if set(pair) & legend]
    listed = [pair for line in _COLOUR_LINE.findall(head) for pair in _IN_LIST.findall(line)]
    found += listed if len(listed) > 1 else []
    said = re.findall(r"\b([A-Z])\s+is\s+(?:for\s+)?[a-z]{3,}", head) if " is" in text else []
    found += [(name,) for name in said if len(set(said)) > 1]
    listed = [pair for line in _COLOURED.findall(head) for pair in re.findall(r"[A-Z]{1,2}", line)]
    if len(listed) > 5 and not set(listed) & _NO_COLOURS:
        # rows told in nothing but numbers with letters: "1 W, 2 S, 1 W"
        found += [(name,) for name in set(listed)]
    letters = _BY_LETTER.findall(head) if "A" in text and "B" in text else []
    if {"A", "B"} <= set(letters) and len(letters) > 2:
        # "(3A, 2B) x 4, 3A"
        found += [(name,) for name in set(letters)]
    ahead_of = _COLOUR_OF_ROW.findall(head)
    found += [(name,) for name in set(ahead_of)] if len(set(ahead_of)) > 1 else []
    told = [word for line in _COLOUR_WORDS.findall(head) for word in re.findall(r"[A-Z][a-z]+", line)]
    named = {word for word in told if stitch_named(word.lower(), False) is None and word not in _SQUARES}
    if len(told) > 5 and len(named) == len(set(told)):
        found += [(word,) for word in named]
    lettered = set(_HUES_LETTERED.findall(head))
    if len(lettered) > 1 and lettered & set(_COLOURED_STITCHES.findall(head)):
        found += [(letters,) for letters in lettered]
    hues = {(word,) for word in _HUES_AHEAD.findall(head)}
    found += hues if len(hues) > 1 else ()
    ahead = _COLOUR_AHEAD.findall(head)
    worked = {word for word in ahead if word.lower() not in _NO_COLOUR_WORDS and ahead.count(word) > 1}
    found += [(word,) for word in worked] if len(worked) > 1 else []
    words = re.findall(r"\(([A-Z][a-z]{2,14})\)\s?[x×]?\s?\d", head)
    found += [(word,) for word in set(words) if words.count(word) > 1]
    found += [
        (hit[1], hit[2])
        for hit in _TWO.finditer(head)
        if _INTRODUCED.search(head, max(0, hit.start() - 16), hit.start())
    ]
    names = frozenset(name.lower() for groups in found for name in groups if name)
    return names - {"mc"} if _MAGIC.search(text) else names


_NAMED = expression(
    r"\b([A-Za-z][A-Za-z0-9]{0,6})[\"”’']?(?:\s*[=:]|\s[-–—]\s)\s*(?=\S)|\(([A-Za-z][A-Za-z0-9/-]{1,7})\)"
)


_SHORT_WORDS = expression(
    r"(?<![\w-])[A-Za-z](?:-?sts?|-?stitch|[b-df-hj-np-tv-xzB-DF-HJ-NP-TV-XZ0-9]{1,5})(?![\w-])"
)
"""What abbreviates a stitch: a few consonants, or the letter it looks like."""


def named_in(text: str, page: Page) -> frozenset[str]:
    """Words that notes and definitions explain: "bk" of "bk = block (3 tr)"; and the short ones that they mention.

    "By V-st we mean two dc with a chain between": in words that are not read, an abbreviation may be explained too.
    """
    title = len(text.split("\n", 1)[0])
    told = [text[b.start : b.end] for b in page.blocks if b.job in ("note", "define")]
    found = {word.lower() for words in told for hit in _NAMED.findall(words) for word in hit if word}
    found |= {
        word.lower()
        for b in page.blocks
        if b.job in ("note", "define") and b.start >= title
        for word in _SHORT_WORDS.findall(text, b.start, b.end)
    }
    return frozenset(found | {re.split(r"[^a-z]", word)[0] for word in found})


def unnamed_sizes(text: str) -> tuple[str, ...]:
    """Sizes of a pattern that lists figures for several and names none: called "1", "2", …"""
    return tuple(str(n + 1) for n in range(figured(text)))


_SPIRAL = expression(
    r"\b(?:spirals?|continuous(?:ly)?|do not join|don't join|no joining|without joining|not joined|unjoined)\b",
    re.IGNORECASE,
    ["spiral", "continuous", "join"],
)
_JOINED = expression(
    r"\bjoin(?:ing)?\s+(?:every|each|all|at the end)|\b(?:each|every|all)\s+(?:rnds?"
    r"|rounds?)\b[^.]{0,50}\bjoin|\bjoined rounds\b",
    re.IGNORECASE,
    ["join"],
)
_UNTURNED = expression(
    r"\b(?:every|each|all)\s+rows?\s+(?:(?:is|are)\s+)?(?:(?:worked|made)\s+)?(?:(?:with|on|from)\s+(?:the\s+)?"
    r"(?:rs|right side)\b|from\s+right\s+to\s+left)"
    r"|\balways\s+work(?:ed)?\s+(?:with|on|from)\s+(?:the\s+)?(?:rs|right side)\b|\b(?:rs|right side)\s+rows\s+only\b"
    r"|\b(?:do not|don't|never)\s+turn\s+(?:the\s+work\s+)?(?:at\s+(?:the\s+)?ends?\s+of"
    r"|between|after)\s+(?:(?:the|each|every|any)\s+)?rows?\b"
    r"|\bwork\s+is\s+never\s+turned\b|\ball\s+rows\s+are\s+(?:rs|right side)\s+rows\b",
    re.IGNORECASE,
    ["row", "turn", "always"],
)
_NOT_TURNED = expression(
    r"(?:^|[.:!])\s*(?:do not|don't|never)\s+turn(?:\s+(?:the|your)\s+work)?\s*[.!]", re.IGNORECASE, ["turn"]
)
"""Said by itself in a note, and so of every row."""
_TURNED = expression(
    r"\bturn\s+(?:after|at (?:the )?end of)\s+(?:each|every)\b|\bworked (?:flat|back and forth)\b",
    re.IGNORECASE,
    ["turn", "worked"],
)
_NOT = r"(?<!not )(?<!never )(?<!n't )(?<!without )"
_ROUNDS_TURNED = expression(
    rf"\b(?:each|every|all)\s+(?:of\s+the\s+)?(?:rounds?|rnds?)\b[^.;:\n]{{0,60}}{_NOT}\bturn(?:ed|ing)?\b"
    rf"|{_NOT}\bturn(?:ing)?(?:\s+(?:the\s+|your\s+)?work)?\s+(?:after|(?:at|on)\s+(?:the\s+)?end\s+of)\s+"
    r"(?:each|every|all)\s+(?:round|rnd)s?\b"
    rf"|\b(?:rounds|rnds)\s+are\s+(?:all\s+)?(?:joined\s+and\s+(?:then\s+)?)?{_NOT}\bturned\b"
    rf"|\b(?:in|with)\s+(?:joined,?\s+)?{_NOT}turned\s+(?:rounds|rnds)\b",
    re.IGNORECASE,
    ["turn"],
)
""" "Each round is joined and then turned", "Join and turn at the end of every round"."""


_ABBREVIATION = expression(
    r"\bch(?:s|\(s\)|/s)?\s*[=:–—-]\s*chains?\b|\bchain(?:\(s\))?\s*=\s*ch\b", re.IGNORECASE
)
"""A list of abbreviations: "ch = chain, dc = double crochet" says nothing of what a chain counts as."""


_SENTENCE = expression(
    r"(?:[^.!;\n]"
    r"|\n(?!\s*(?:The\s+|A\s+)?(?:(?:Beg(?:inning)?|Turning|Starting)\s+)?(?:[Cc]h(?:ain)?s?[ -]?\d|\d[ -]?ch)))+"
    r"(?:[.!;]|\n|$)"
)
""" "GAUGE: 12 dc = 4 inches", and below it "Ch 3 counts as dc": two of them, though nothing ends the first."""
_OF_CHAINS = expression(r"\bch(?:ain)?s?\b|\btch\b", re.IGNORECASE, ["ch"])
_COUNTING = expression(r"\bcounts?\b|\bcounted\b|\bstands?\s+for\b|\b(?:not|never) a st|=", re.IGNORECASE)
_UNLESS = expression(r"\bunless\b", re.IGNORECASE, ["unless"])
"""What follows says when it is otherwise: "count as a stitch unless the pattern tells you they don't"."""
_DOES_NOT = expression(r"\b(?:does|do|did)\s?(?:not|n't)\s+count\b", re.IGNORECASE, ["count"])
_AMOUNT = expression(r"\bch(?:ain)?s?[\s-]*(\d+)|\b(\d+)[\s-]*(?:turning\s+)?ch\b", re.IGNORECASE, ["ch"])
"""How many chains a sentence speaks of: "ch 3", "3-ch"."""


_FURTHER = expression(
    r"(?:,|,?\s+and)\s+(?:a\s+|the\s+)?(?:beg(?:inning)?\s+)?(?:ch(?:ain)?[\s-]*\d|\d[\s-]*ch)\s+(?:as|for|is|equals)\s",
    re.IGNORECASE,
    [" as", " for", " is", " equals"],
)
"""A second chain in a sentence that tells what one counts as: "ch 3 counts as dc, and ch 4 as dc and ch 1"."""
_ANOTHER = expression(
    r"(?:[,(–—-]|,?\s+(?:and|but|while|whereas|whilst))\s*(?:(?:and|but|while|whereas|whilst)\s+)?"
    r"(?:(?:a|an|the|all|any|every|first|beg(?:inning)?|turning|starting|initial)[\s-]+)*"
    r"(?:ch(?:ain)?[\s-]*\d|\d[\s-]*(?:turning\s+)?ch(?:ain)?)s?\b[^.,;()]{0,40}?"
    r"\b(?:counts?|counted|does|do|is|are|isn't|aren't|never|doesn't|don't|stands?|always)\b",
    re.IGNORECASE,
    ["count", "does", "do", "is", "are", "never", "stand", "always"],
)
"""A second chain of which a sentence says the same or the contrary: "ch 3 counts as dc, ch 1 does not count"."""


def _to_what(tokens: list[Token]) -> int:
    """Index behind the "as" or "for" of such a part."""
    return next((k + 1 for k, token in enumerate(tokens) if token.text in ("as", "for", "is", "equals")), 0)


def habits_of(source: Source, page: Page, context: Context) -> Habits:
    """What notes say once for all rows."""
    turning: list[tuple[int | str, Turning]] = []
    joins: bool | None = None
    turns: bool | None = None
    rounds_turned = False
    for block in page.blocks:
        if block.job not in ("note", "define", "title", "aside"):
            continue
        text = source.text[block.start : block.end]
        if _SPIRAL.search(text):
            joins = False if joins is None else joins
        if _JOINED.search(text):
            joins = True
        rounds_turned = rounds_turned or _ROUNDS_TURNED.search(text) is not None
        if _TURNED.search(text):
            turns = True
        if _UNTURNED.search(text):
            turns = False
        if block.job == "note" and _NOT_TURNED.search(text):
            turns = False
        if block.job == "define":
            continue
        told = len(turning)
        for hit in _SENTENCE.finditer(text):
            sentence = _UNLESS.split(hit.group(), 1)[0]
            if not (_OF_CHAINS.search(sentence) and _COUNTING.search(sentence)):
                continue
            if _ABBREVIATION.search(sentence):
                continue
            at = block.start + hit.start()
            further = [other.start() for other in _FURTHER.finditer(sentence)]
            another = [other.start() for other in _ANOTHER.finditer(sentence)]
            another = [
                place for place in another if place not in further and _OF_CHAINS.search(sentence, 0, place)
            ]
            for first, last in pairwise((0, *sorted((*further, *another)), len(sentence))):
                tokens = scan(source.text, at + first, at + last)
                if first in further and turning:
                    # "…, and ch 4 for a dc and one chain": it counts as well
                    tokens = [*scan("counts as")[:-1], *tokens[_to_what(tokens) :]]
                statement = turning_statement(Cursor(tokens, context), strict=False)
                if statement is None:
                    break
                amount = _AMOUNT.search(sentence, first, last)
                key: int | str = int(amount[1] or amount[2]) if amount else ""
                turning.append((key, replace(statement, throughout=True)))
        if _DOES_NOT.search(text) and all(statement.counts for _, statement in turning[told:]):
            # said both ways in one breath: the rows will tell
            del turning[told:]
    return Habits(tuple(turning), joins, turns, rounds_turned)
