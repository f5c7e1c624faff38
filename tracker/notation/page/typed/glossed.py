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
_NAMED = (
    r"(?:(?:magic|adjustable)[ ](?:ring|circle|loop)|(?:invisible[ ])?(?:increase|decrease)s?"
    r"|(?:half[ ])?(?:single|double|treble)(?:[ ]crochet)?|half[ ]treble|slip[ -]?stitch|chains?|stitch(?:es)?|rounds?"
    r"|(?:back|front)[ ]loops?(?:[ ]only)?)"
)
_PLAIN = rf"(?P<name>[A-Za-z]{{1,5}})[ ](?={_NAMED}(?:[ ]?\([^()\n]{{1,40}}\))?[ ]*(?:[;,.\n]|$))"
_UNMARKED = expression(
    rf"^(?P<lead>[^\n:]{{0,30}}\b(?:abbreviations?|key|legend|stitches|sts|terms)\b[^\n:]{{0,12}}:[ ]*)?"
    rf"(?P<list>[A-Za-z]{{1,5}}[ ]{_NAMED}[^\n]*[;,][^\n]*)$",
    re.IGNORECASE | re.MULTILINE,
    [
        "magic",
        "adjustable",
        "crease",
        "single",
        "double",
        "treble",
        "slip",
        "chain",
        "stitch",
        "round",
        "loop",
    ],
)
""" "Abbreviations: X single crochet; A increase": entries with nothing between a sign and what it stands for."""
_PLAIN_ENTRY = expression(rf"(?P<head>(?:^|[;,.])[ ]*){_PLAIN}", re.IGNORECASE)


def glossed(text: str) -> str:
    """The text with such lists as most write them.

    >>> glossed("Ch, chain; ss, slip stitch; dc, double crochet.")
    'Ch= chain; ss= slip stitch; dc= double crochet.'
    """
    text = _UNMARKED.sub(_marked, text)
    if ";" not in text or ", chain" not in text and ", double" not in text and ", slip" not in text:
        return text
    return "\n".join(_in_line(line) if line.count(";") >= _FEWEST - 1 else line for line in text.split("\n"))


def _marked(hit: re.Match[str]) -> str:
    """Such a list with a sign between each pair, and each told apart."""
    entries = _PLAIN_ENTRY.findall(hit["list"])
    parts = [part for part in re.split(r"[;,](?![^()]*\))", hit["list"]) if part.strip(" .")]
    if len(entries) < _FEWEST or len(entries) * 3 < 2 * len(parts):
        return hit.group()
    told = _PLAIN_ENTRY.sub(lambda one: f"{one['head'].replace(',', ';')}{one['name']} = ", hit["list"])
    return f"{hit['lead']}\n{told}" if hit["lead"] else told


def _in_line(line: str) -> str:
    """A line with its commas put right, where so many of its entries mean what abbreviations do."""
    hits = [hit for hit in _ENTRY.finditer(line) if _MEANS.match(line, hit.end())]
    if len(hits) < _FEWEST or len(hits) * 3 < 2 * (line.count(";") + 1):
        return line
    return _ENTRY.sub(lambda hit: f"{hit['head']}{hit['name']}= ", line)
