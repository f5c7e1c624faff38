"""Rows that a pattern calls steps, lines or passes throughout: "Step 1: Sc in 2nd ch from hook …", "Rw 2: …".

A text comes in; it comes out with such labels called rows, where no row or round of it has one of their numbers, where
they are numbered one after another, and where most of them work stitches.
"""

import re
from itertools import pairwise

from tracker.expressions import expression

_CALLED = expression(
    r"^(?P<blank>[ ]*)(?P<word>step|line|pass|course|tier)s?[ ]?(?P<first>\d{1,3})(?P<rest>(?:[ ]?-[ ]?\d{1,3})?)"
    r"(?=[ ]*(?:\([^()\n]{0,40}\)[ ]*)?[:.)])(?P<told>[^\n]*)",
    re.IGNORECASE | re.MULTILINE,
    ["step", "line", "pass", "course", "tier"],
)
_HASTY = expression(r"^(?P<blank>[ ]*)rw\.?[ ]?(?=\d)", re.IGNORECASE | re.MULTILINE, ["rw"])
""" "Rw 3:", which can be nothing else."""
_NUMBER_FIRST = expression(
    r"^(?P<blank>[ ]*)(?P<numbers>\d{1,3}(?:[ ]?[-–][ ]?\d{1,3})?)[ ]?r(?=[ ]*[:.)][ ]*\S)",
    re.IGNORECASE | re.MULTILINE,
    ["r:", "r.", "r)", "r :"],
)
""" "4-6r: 18sc": the letter behind the number, as in translated toys."""
_SHARP = expression(
    r"^(?P<head>[ ]*(?:Rounds?|Rnds?|Rows?)[ ]?)#[ ]?(?P<first>\d{1,3})"
    r"(?P<to>[ ]*(?:-|–|&|and|to)[ ]*)#?[ ]?(?P<last>\d{1,3})",
    re.IGNORECASE | re.MULTILINE,
    ["#"],
)
""" "Rounds #9 - #11": numbers with a sign of their own."""
_STITCH = r"(?:e?sc|e?hdc|e?dc|htr|d?tr|inc|dec|ch|sl st|ss|[bf]p[hd]?[dt][cr])"
_NEXT = expression(
    r"(?P<before>^[ ]*|(?<=[.)!])[ ]+)(?P<label>(?-i:N)ext[ ](?:(?:\d{1,2}|two|three|four)[ ])?(?:row|rnd|rd|round)s?"
    r"|(?-i:F)ollowing[ ](?:row|rnd|rd|round))(?:,?[ ]+)(?=(?:(?:work|make|just|simply)[ ])?"
    rf"(?:(?:\d{{1,3}}|one|two|three)[ ]?{_STITCH}\b|(?:two|three|2|3)[ ]in(?:to)?[ ](?:each|every)\b"
    rf"|[(*\[](?![^)\]\n]{{0,40}}[)\]][ ]*[:.—–-])|{_STITCH}\s"
    r"|(?:one|two|three|2|3)[ ](?:in(?:to)?[ ])?(?:each|every)[ ](?:st|stitch|sc|dc|one)\b))",
    re.IGNORECASE | re.MULTILINE,
    ["next r", "following r"],
)
""" "Next round 2 sc in every st": a label with no mark behind it, also behind another row in the same line."""
_LABELLED = expression(
    r"^[^\w\n]{0,8}(?:rows?|rnds?|rounds?|r)[ ]?(?P<first>\d{1,4})", re.IGNORECASE | re.MULTILINE
)
_WORKS = expression(
    r"\b(?:e?sc|hdc|dc|htr|tr|ch|sl st|ss|inc|dec|rep(?:eat)?)\b.*\b(?:in|into|across|around|to|turn|\d)",
    re.IGNORECASE,
)
_WITHIN = expression(
    r"(?:^|(?<=[:;.)\]][ ])|(?<=[:;.)\]]))(?P<first>\d{1,3})(?:\)?[ ]?[-–][ ]?(?P<last>\d{1,3}))?(?P<mark>[).:])[ ]+"
    rf"(?=[*(\[]{{0,2}}(?:(?:in[ ])?[bf]lo,?[ ])?[*(\[]{{0,2}}(?:\d{{1,3}}[ ]?)?(?:{_STITCH}|mr|magic|rep|repeat)\b)",
    re.IGNORECASE | re.MULTILINE,
)
""" "1) 6 sc in MR (6) 2) 6 inc (12) 3)–5) …": numbers of rounds that are run together on a line."""
_FIRST = expression(r"1(?:(?<=^1)|(?<=[:;.)\]]1)|(?<=[:;.)\]][ ]1))[ ).:–-]", re.MULTILINE)
"""Where the first of them may stand; most texts have none, and need not be searched for the others."""
_FEWEST = 3
"""Labels that show how a pattern calls its rows."""


def steps_as_rows(text: str) -> str:
    """The text with its steps called rows.

    >>> steps_as_rows("Ch 5.\\nStep 1: 4 sc in ring.\\nStep 2: 2 sc in each.\\nStep 3: Sc in each.").split("\\n")[2]
    'Row 2: 2 sc in each.'
    """
    if "1)" in text or "1." in text or "1:" in text:
        text = "\n\n".join(map(_apart, text.split("\n\n")))
    text = _HASTY.sub(r"\g<blank>Row ", text)
    text = _NEXT.sub(_on_its_line, text)
    text = _SHARP.sub(r"\g<head>\g<first>\g<to>\g<last>", text)
    if len(_NUMBER_FIRST.findall(text)) >= _FEWEST:
        text = _NUMBER_FIRST.sub(r"\g<blank>R\g<numbers>", text)
    found = list(_CALLED.finditer(text))
    if len(found) < _FEWEST:
        return text
    words = {hit["word"].lower() for hit in found}
    numbers = [int(hit["first"]) for hit in found]
    rises = all(before < after or after == 1 for before, after in pairwise(numbers))
    labelled = {int(hit["first"]) for hit in _LABELLED.finditer(text)}
    if len(words) > 1 or numbers[0] != 1 or not rises or labelled & set(numbers):
        return text
    if 2 * sum(_WORKS.search(hit["told"]) is not None for hit in found) < len(found):
        return text
    return _CALLED.sub(
        lambda hit: f"{hit['blank']}Row{'s' if hit['rest'] else ''} {hit['first']}{hit['rest']}{hit['told']}",
        text,
    )


def _on_its_line(hit: re.Match[str]) -> str:
    """A label with a mark behind it, on a line of its own."""
    begins = hit.start() == 0 or hit.string[hit.start() - 1] == "\n"
    return f"{hit['before'] if begins else chr(10)}{hit['label']}: "


def _apart(lines: str) -> str:
    """A paragraph with rounds that are run together, each on its own line; as it was where they are not."""
    if len(lines) < 30 or not any(f"2{mark} " in lines for mark in ").:") or _FIRST.search(lines) is None:
        return lines
    found: list[re.Match[str]] = []
    following = 1
    for hit in _WITHIN.finditer(lines):
        if int(hit["first"]) == following:
            found.append(hit)
            following = int(hit["last"] or hit["first"]) + 1
    within = sum(hit.start() > 0 and lines[hit.start() - 1] != "\n" for hit in found)
    if len(found) < _FEWEST or within < 2 or len({hit["mark"] for hit in found}) > 1:
        return lines
    out, at = [], 0
    for hit in found:
        out.append(lines[at : hit.start()].rstrip(" ;\n"))
        label = hit["first"] + (f"-{hit['last']}" if hit["last"] else "")
        out.append(f"\n{label}{hit['mark']} ")
        at = hit.end()
    return "".join([*out, lines[at:]]).lstrip("\n")
