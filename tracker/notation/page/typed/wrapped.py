"""Lines that only go on with the one before, though they look like the beginning of something.

Where a page is narrow, "(sc, ch 2, sc)" ends a line and "in each ch-2 sp" begins the next, or a line begins with the
"Row 4." of "at the end of Row 4". The text of a block so far and the line come in; True comes out for such a line.
"""

from collections.abc import Mapping

from tracker.expressions import expression

_SENTENCE_ENDS = (".", ":", ";", "!", "?", "=")
_WITHIN = 300
"""Characters after which an open bracket is one that was never closed."""
_NAMES_A_ROW = expression(
    r"(?:^|[\s(])(?:of|in|as|after|rep|repeat|than|from|through|like|until|before|every|into|over|unworked|work|working)\s*$",
)
""" "Fasten off after" / "Row 6.": the row is named, not begun. In small letters, for a sentence may end in "In"."""
_LABEL_ONLY = expression(
    r"\s*(?:(?:rows?|rnds?|rounds?|r)\.?\s*\d+(?:\s*(?:-|and|&|to)\s*\d+)?|\d+(?:st|nd|rd|th)\s+(?:row|rnd|round))\b(?!\s*(?:\([^()]{0,30}\)\s*)?:)(?!-)",
)
_PLACE = expression(
    r"\s*(?:(?:in|into|to|of|from|and|or|then|around|across)\b|with\s+(?:an?\s+)?(?:sl|ss|slip)\b)"
)
_CHAINS_NAMED = expression(
    r"\s*(?:\d+\s+)?ch(?:ain)?[ -]?\d+\s+(?:sps?|lps?|loops?|spaces?|bars?|corners?)\b"
)
""" "ch-2 sp, dc in next dc": chains made before, and no foundation."""
_JOINED_ONLY = expression(
    r"[^\n:]{1,40}:\s*(?:(?:with|using)\s[^.,]{1,40},\s*)?"
    r"(?:join|attach|change|(?:make|form|begin with)\s+(?:an?\s+)?(?:magic|adjustable))\b[^.]{0,120}\.\s*$"
)
HOW_OFTEN = expression(r"(?:twice|thrice|once|\d{1,3} (?:more )?times|x ?\d{1,3})\b(?![^,.;]*\brows?\b)")
"""What tells how often a bracket is worked that ended the line above."""
_TURNING = expression(r"\s*ch(?:ain)?\s?[1-6]\s*(?:,|\()")


def names_a_row(before: str, line: str) -> bool:
    """True for a line that begins with the row that the words before it name.

    >>> names_a_row("Change to B at end of", "Row 4."), names_a_row("Rep rows 2 and 3 as", "Row 4: Ch 1")
    (True, False)
    """
    last = before.rstrip().rsplit("\n", 1)[-1].lower()
    if line.lstrip()[:1].isdigit() and _open(before) and _closes_first(line):
        # "40 (44," / "48) sts"
        return True
    return _LABEL_ONLY.match(line.lower()) is not None and _NAMES_A_ROW.search(last) is not None


def goes_on(before: str, line: str) -> bool:
    """True for a line that is the rest of a phrase, a bracket or a row that only joined the yarn so far.

    >>> goes_on("Rnd 3: Ch 1, (sc, ch 2, sc)", "in each ch-2 sp around; join."), goes_on("Mat", "ch 16")
    (True, False)
    """
    text = before.rstrip()
    if not text:
        return False
    if line.isupper() and text.rsplit("\n", 1)[-1].isupper():
        # "SC IN 2ND CH FROM HOOK, SC" / "IN EACH CH ACROSS": in capitals throughout
        line = line.lower()
    if _PLACE.match(line) or _open(text) and _closes_first(line):
        return True
    if text.endswith(_SENTENCE_ENDS):
        return _JOINED_ONLY.match(text.lower()) is not None and _TURNING.match(line.lower()) is not None
    return _CHAINS_NAMED.match(line) is not None


def _open(text: str) -> bool:
    """True when a bracket was opened lately and is not closed yet."""
    near = text[-_WITHIN:]
    depth = 0
    for letter in reversed(near):
        if letter in ")]}":
            depth += 1
        elif letter in "([{":
            if depth == 0:
                return True
            depth -= 1
    return False


def _closes_first(line: str) -> bool:
    """True when a line closes a bracket before it opens one."""
    closes = min((at for at in map(line.find, ")]}") if at >= 0), default=-1)
    opens = min((at for at in map(line.find, "([{") if at >= 0), default=len(line))
    return 0 <= closes < opens


def whole_line(text: str, lines: list[tuple[int, int]], labels: Mapping[tuple[int, int], object]) -> str:
    """A line with those it is broken into."""
    words = text[slice(*lines[0])].rstrip()
    for start, end in lines[1:6]:
        more = text[start:end].strip()
        if not more or words.endswith((".", ":")) or labels.get((start, end)) is not None:
            break
        words += f" {more}"
    return words
