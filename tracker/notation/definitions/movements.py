"""Stitches told in hook movements ("yo, insert hook in next st, pull up a lp …"): they close into one top."""

import re

from tracker.expressions import expression
from tracker.notation.pattern import Special
from tracker.problems import Span
from tracker.trade.numbers import TIMES_WORDS, number_of

MOVES = expression(
    r"\b(?:yo|yrh|yoh|yarn over|insert hook|draw up|pull up|draw through|pull through"
    r"|loops? on (?:the )?hook|drop (?:the )?(?:lp|loop)|wrap)\b",
    re.IGNORECASE,
)


_ORDER = expression(
    r"(?:once|twice|thrice|(?P<n>\d+|two|three|four|five|six|seven)\s*(?:times|x\b))", re.IGNORECASE
)


def gathered(body: str) -> int:
    """How many stitches below a stitch told in hook movements uses: 1 when it says same st or sp."""
    low = body.lower().replace("following", "next")
    over = re.search(r"(?:over|across)\s+(?:the\s+)?next\s+(\d+)", low)
    if over:
        return int(over[1])
    if re.search(
        r"same\s+(?:st|sp|place|stitch|space|ch|lp|loop)|\bplace\b|indicated|stated|specified|\bone st\b", low
    ):
        return 1
    times = _ORDER.search(low)
    if times and re.search(r"\bin(?:to)?\s+(?:the\s+)?next\s+(?:st|sc|dc|stitch|ch)\b", low[: times.start()]):
        word = times.group().lower()
        if times["n"]:
            return number_of(times["n"]) or 1
        return TIMES_WORDS.get(word, 1)
    nexts = len(re.findall(r"insert (?:the )?hook (?:in|into|through) (?:the )?next", low))
    return max(1, nexts)


def legs(body: str) -> str:
    """The stitch whose legs a cluster gathers, told from its hook movements; "" when not clear."""
    low = body.lower()
    through_two = bool(re.search(r"(?:draw|pull)(?:\s+\w+)?\s+through\s+(?:first\s+)?(?:2|two)", low))
    begins_over = bool(re.match(r"\W*(?:\*|\(|\[)*\s*(?:yo|yrh|yoh|yarn over)\b", low))
    if begins_over and through_two:
        return "dc"
    if not begins_over and "yo" in low and not through_two:
        return "sc"
    return ""


_NUMBER_GIVEN = expression(
    r"\b(?:number of|over (?:the )?(?:given|stated|indicated)|as many)\b.*\b(?:sts|stitches|times)\b"
    r"|\bnumber of sts\b|\b(?:sts|stitches|number) (?:stated|given|indicated)|\bover \(?\d+ or \d+"
    r"|\beach (?:of the )?(?:st|sts|stitch)\w* (?:stated|indicated)",
    re.IGNORECASE,
)
"""Words of a cluster over as many stitches as each row tells."""


def told_in_movements(
    head: str, short: str, body: str, trade_name: str, counted: str, span: Span, text: str
) -> Special:
    """A stitch told in hook movements; a cluster goes by the stitches it gathers, where their legs are clear."""
    closes = gathered(body)
    one = closes <= 1
    plain = legs(body)
    if plain and trade_name == "cl" and (_NUMBER_GIVEN.search(head) or _NUMBER_GIVEN.search(body)):
        return Special(short, (), 1, f"{plain}*tog", False, span, text)
    if not one and plain and trade_name in ("cl", "") and short.startswith("cl"):
        return Special(short, (), closes, f"{plain}{closes}tog", False, span, text)
    return Special(short, (), max(1, closes), counted, one, span, text)
