"""What stands right below a block and is no part of it: a remark, or a row that no label begins.

The text, the block and the line come in; the job of the line comes out.
"""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.definitions.filet.edges import EDGE_DEFINED
from tracker.notation.page.block import Block, Line, told_apart
from tracker.notation.page.signs import BEGUN, COUNTED, STARTERS, TURNS_CORNER, behind_the_count

ROW_BEGUN = expression(
    r"\s*(?:do\s+not\s+turn[.,;]\s*)?(?P<lead>(?:to\s+finish|finally|finish(?:ing)?(?:\s+off)?|lastly|then|now|next)\b[,:]?\s+(?:with\s*[:,]?\s+)?)?"
    r"(?:(?:with|using)\s+(?:(?:colou?r|yarn)\s+)?[^\s.;:,]{1,14},\s*)?"
    r"(?:work\s+)?(?:(?:ch(?:ain)?\s?\d|\d\s?ch)\b[^.;]{0,40}?[.,;]\s*|turn\b[.,;]?\s*)*"
    r"(?:work\s+)?(?:\*|[(\[]|\d\s?)?(?:sc|hdc|dc|htr|tr|rev(?:erse)?\s+(?:sc|dc|single|double)|crab\s+st(?:itch)?|sl(?:ip)?\s?st(?:itch)?|ss"
    r"|single\s+crochet|half\s+double|double\s+crochet|treble)\b(?![^.]{0,80}\b(?:seam|both\s+(?:layers|thicknesses|pieces|edges)"
    r"|together|tog)\b)"
    r"[^.]*?\b(?:(?:in|into|of)\s+(?:each|every|ea)\b|across\b|(?:all\s+)?around\b|to\s+(?:the\s+)?end\b|rep(?:eat)?\s+from\s+\*|evenly\b)",
    re.IGNORECASE,
)
"""A sentence that begins as a row does and works along all that stands, though no label says that it is one."""
_ENDS_YARN = expression(
    r"\s*(?:(?:fasten|finish|end|bind|tie|cast)\s+off|fo\b|do not|don't"
    r"|(?:cut|break|snip|secure)\s+(?:the\s+|your\s+)?(?:yarn|thread|wool))",
    re.IGNORECASE,
)

_HEADED = expression(
    r"\s*(?:(?!(?:step|row|rnd|round|then|next)\b)(?-i:[A-Z])[\w-]*(?:\s[\w-]+){0,2}\s*:\s*\S"
    r"|(?:multiple|pattern\s+(?:repeat|multiple)|(?:stitch|st)\s+multiple|worked)\b)",
    re.IGNORECASE,
)
"""What says something else below a definition that is over: "Pattern repeat: 6 + 1."."""

_SMALL = expression(
    r"(?!(?:and|or|then|now|next|for|with|in|to|the|no|rep|all|us|uk|work|note|key|abbr\w*|spiral|sizes?|gauge|hook|yarn"
    r"|rows?|rnds?|rounds?|increases?|decreases?|round|instructions|pattern)\b)"
    r"[a-z][a-z'-]{1,14}(?:\s[a-z][a-z'-]{1,14})?(?:\s?\([^()\n]{1,20}\))?(?:,?\s?(?:[x×]\s?\d{1,2}|\d{1,2}\s?[x×]|make\s\d{1,2}))?\s*:?$"
)
_GO_ON_UNTIL = expression(
    r"\s*(?:(?:then|now)\b,?\s+)?rows\s+(?:go|continue)\b[^.:;\n]{0,60}\b(?:until|till)\b[^.:;\n]{0,24}\b\d{1,4}\s+"
    r"(?:sts?|stitches|sc|hdc|dc|htr|tr)\b",
    re.IGNORECASE,
    ["until", "till"],
)
""" "Rows go on so until 3 sts remain.", right below a row that is over: of further rows, and not more of that one."""
_FIRST = expression(
    r"\s*(?:(?:R|Rnd|Rd|Round|Row)\s?)?1(?:\b(?!\d)|(?=[.:)]))(?:st\s(?:rnd|round|row))?", re.IGNORECASE
)


def heads_first_row(told: str, below: Sequence[str]) -> bool:
    """True for the name of a part in small letters, right above its first row: "wing x2" and below it "R1 6sc in mr".

    >>> heads_first_row("wing x2", ["R1 6sc in mr"]), heads_first_row("stuff firmly", ["R14 dec x6"])
    (True, False)
    """
    if _SMALL.match(told) is None or STARTERS.match(told) is not None:
        return False
    first = next((line for line in below if line.strip()), "")
    return _FIRST.match(first) is not None


def told_below(text: str, block: Block, line: Line) -> str:
    """The job of a line right below a block that it is no part of; "" where it is."""
    raw = line.raw
    if block.job in ("define", "note") and EDGE_DEFINED.match(raw):
        return "note"
    if told_apart(text, block, line.told):
        return "note"
    if block.job == "define" and line.defining and text[block.end - 1] == ".":
        # "Edge stitch: sc through both loops …": the next word that is explained, not more of the last
        return "note"
    if block.job == "define" and text[block.end - 1] == "." and _HEADED.match(raw):
        return "note"
    capital = line.told[:1].isupper()
    if (
        block.job in ("row", "setup", "rerun")
        and (STARTERS.match(raw) or capital and (BEGUN.match(raw) or JOINED_FOR.match(raw)))
        and (
            line.ended
            or text[block.end - 1].isdigit()
            and (capital or _REFERS_ONLY.search(text, block.start, block.end))
        )
        and not _ENDS_YARN.match(raw)
    ):
        return "aside"
    so_far = text[block.start : block.end]
    if block.job in ("row", "rerun") and line.ended and capital and row_anew(so_far, raw, block.job):
        return "aside"
    if block.job in ("row", "rerun") and capital and text[block.end - 1] == "." and _GO_ON_UNTIL.match(raw):
        return "aside"
    if block.job in ("row", "rerun") and line.ended and _ANNOUNCES.match(raw):
        return "aside"
    if block.job in ("row", "rerun") and (TURNS_CORNER.match(raw) or behind_the_count(so_far, raw)):
        return "aside"
    return ""


_ANNOUNCES = expression(
    r"\s*(?:(?:now|next|then|finally)\b,?\s+)?(?:you\s+(?:will\s+)?)?(?:work|crochet|begin|start)\s+(?:working\s+)?"
    r"(?!(?:in|into)\s+(?:each|every|next|first)\b)(?:(?!(?:sc|hdc|dc|htr|tr|sts?|stitch\w*|inc|dec|ch)\b)[a-z' -])+"
    r"\b(?:edges?|edging|borders?|rounds?|sides?|piece|square)(?:\s+as\s+follows)?\s*:\s*$",
    re.IGNORECASE,
    ["work", "crochet", "begin", "start"],
)
""" "Now work around the edge:", over the rounds to come."""


def row_anew(above: str, line: str, job: str) -> bool:
    """True for a line that works a row of its own right below one that is over, or below what works rows again.

    >>> row_anew("Rows 3-5: Rep Row 2.", "Rev sc in each st across.", "rerun")
    True
    >>> row_anew("Row 2: Ch 1, turn, sc in next 4 sts.", "Sc in each st across.", "row")
    False
    """
    if ROW_BEGUN.match(line) is None:
        return False
    refers = job == "rerun" or _OFF.search(above[-30:]) is not None or _REFERS.search(above) is not None
    whole = _ALL_ALONG.search(above[-40:]) is not None
    return refers or whole or COUNTED.search(above[-200:]) is not None or _RISES.match(line) is not None


_REFERS_ONLY = expression(
    r"(?:[:=]|\b(?:rep(?:eat)?|as|like))\s*(?:r|rows?|rnds?|rounds?)\s?\d{1,3}\s*$", re.IGNORECASE
)
"""The end of a row that is no more than another, with no stop behind it: "R3-R50 = R2"."""
_REFERS = expression(r":\s*(?:rep(?:eat)?|as|same\s+as|work\s+as)\b[^.:;*]{0,40}\.\s*$", re.IGNORECASE)
"""A row that is no more than another worked again: "Rows 3-5: Rep Row 2."."""
_ALL_ALONG = expression(
    r"\b(?:across|around|to\s+(?:the\s+)?end|in(?:to)?\s+(?:each|every|ea)\s+\w+)\.\s*$", re.IGNORECASE
)
"""How a row ends that has worked all there is, so that what works all of it once more is another."""
_OFF = expression(r"(?:fasten|finish|end|cut|break)\s+(?:off|(?:the\s+)?yarn)[^.]{0,14}\.\s*$", re.IGNORECASE)
_RISES = expression(
    r"\s*(?:(?:ch(?:ain)?\s?\d|\d\s?ch)\b[^.;]{0,24}?[.,;]\s*(?:and\s+)?turn|turn\b|(?:finish|finally|to\s+finish|do\s+not\s+turn)\b)",
    re.IGNORECASE,
)
"""How nothing goes on but a row begins: by a turn."""


JOINED_FOR = expression(
    r"\s*(?:re-?)?(?:join|attach)(?:ing)?\s[^.;]{2,80}?[,;]\s*(?:work\s+)?(?:\*\s*)?[(\[]?"
    r"(?:\d+\s*)?(?:sc|dc|hdc|htr|tr|dtr)\b"
    r"(?=.*?(?:\brep(?:eat)?\s+from\s+\*|\b(?:a?round|across)\b|[(\[]\s*\d+\s*(?:sc|dc|hdc|htr|tr|dtr|sts?)\b))",
    re.IGNORECASE | re.DOTALL,
    ["join", "attach"],
)
"""Yarn is joined for stitches that are counted or told how often: "Join B in any loop, *3 dc in next loop, …; rep
from *"."""
ALL_ROUND = expression(r"\b(?:a?round|(?:sl\s?st|ss)\s+(?:in|to|into)\s+first)\b|;\s*join\b", re.IGNORECASE)
"""Words of a row that goes round."""
