"""Abbreviations told in one breath: "Ch, chain; ss, slip stitch; dc, double crochet; sp, space".

A text comes in; where a line lists them so, each stands as "dc= double crochet" in what comes out, as long as before.
"""

import re

from tracker.expressions import expression

_ENTRY = expression(
    r"(?P<head>(?:^|[;:.])[^\S\n]*)(?P<name>[A-Za-z][\w.-]{0,9}),[ ](?=[a-z][^;,\n]{1,60}(?:[(;.,\n]|$))",
    re.MULTILINE,
)
"""One of them: what stands for it, a comma, and what it means."""
_MEANS = expression(
    r"(?:chain|slip|double|treble|half|single|triple|raised|front|back|stitch|space|repeat|round|row|skip|miss"
    r"|together|yarn|begin|turn|increase|decrease|cluster|picot|popcorn|puff|bobble|alternate|approximate|right|wrong"
    r"|continu|remain|follow|pattern|loop)"
)
_FEWEST = 3


def glossed(text: str) -> str:
    """The text with such lists as most write them.

    >>> glossed("Ch, chain; ss, slip stitch; dc, double crochet.")
    'Ch= chain; ss= slip stitch; dc= double crochet.'
    """
    if ";" not in text or ", chain" not in text and ", double" not in text and ", slip" not in text:
        return text
    return "\n".join(_in_line(line) if line.count(";") >= _FEWEST - 1 else line for line in text.split("\n"))


def _in_line(line: str) -> str:
    """A line with its commas put right, where so many of its entries mean what abbreviations do."""
    hits = [hit for hit in _ENTRY.finditer(line) if _MEANS.match(line, hit.end())]
    if len(hits) < _FEWEST or len(hits) * 3 < 2 * (line.count(";") + 1):
        return line
    return _ENTRY.sub(lambda hit: f"{hit['head']}{hit['name']}= ", line)
