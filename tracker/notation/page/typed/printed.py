"""What a page prints about a pattern and is no part of it: footers, running titles, marks before labels.

A text comes in; it comes out with blanks in their place, and no line of it is lost or moved. Only what stands behind
the first label goes: what is told above the rows is a note, whoever's rights it tells of. A row that was cut by the
end of a page goes on behind it.
"""

import re

from tracker.expressions import expression

BETWEEN_PAGES = "\u2007"
"""What stands in place of such a line: a blank that does not end a paragraph."""
_LABEL = r"(?:Rows?|Rnds?|Rounds?|R)\.?[ ]?\d{1,4}"
_FIRST_LABEL = expression(rf"^[^\w\n]{{0,8}}{_LABEL}", re.IGNORECASE | re.MULTILINE)
_MARKED = expression(
    r"^[ ]*(?:[-_#>~|]{1,8}|[–—]{1,3}|o(?=[ ])|\d{1,3}\)|[(][ ]?[)])[ ]*"
    rf"(?={_LABEL}[^:.\n]{{0,40}}(?:[:.]|[–—]))",
    re.IGNORECASE | re.MULTILINE,
    [f"{mark}{blank}r" for mark in "-_#>~|–—)" for blank in (" ", "")] + ["o r"],
)
"""A mark, a line to write on, a number or an empty bracket before a label: "__ Row 1:", "1) Row 1:", "> Rnd 2:"."""
_FOOTER = expression(
    r"^[ ]*(?:[-–—•~|]*[ ]*page[ ]+\d{1,3}\b[^\n]{0,70}|[-–—•~|]+[ ]*\d{1,3}[ ]*[-–—•~|]+|\d{1,3}[ ]?/[ ]?\d{1,3}"
    r"|[^\n:]{0,60}©[^\n]{0,80}|[^\n:]{0,60}(?:\ball rights reserved\b|\bpersonal use only\b)[^\n]{0,60}"
    r"|(?:https?://|www\.)\S+(?:[ ]+(?:[-–—|•]|page)[^\n]{0,40})?"
    r"|\W*(?:(?:(?:the|this)[ ])?pattern[ ])?(?:is[ ])?(?:continue[sd]|cont'?d)\b"
    r"(?:[ ](?:on|from|over|overleaf|the|next|last|previous|page|below|above|\d{1,3}))*\W*)[ ]*$",
    re.IGNORECASE | re.MULTILINE,
    ["page", "©", "rights", "use only", "http", "www.", "contin", "cont'd", "contd", "/", "- ", "-\n"],
)
"""A line that a page ends or begins with, which is no part of what it prints."""
_AGAIN = expression(
    r"^[ ]*\(?(?:row|rnd|round)[ ]?\d{0,4}[ ,]*\(?(?:continued|cont'?d|cont\.)\)?[ ]*[:.–—-]?\)?(?=[ \n])",
    re.IGNORECASE | re.MULTILINE,
    ["cont"],
)
"""A label printed once more, where the row goes on: "Row 4 (continued):"."""
_ALONE = expression(r"^[ ]*\d{1,3}[ ]*$", re.MULTILINE)
_LABELS = expression(rf"^[ ]*{_LABEL}", re.IGNORECASE | re.MULTILINE)
_WIDE = 24
"""Characters of a line in a column that is no narrow one: there no number is left alone by wrapping."""
_TO_TICK = expression(r"[ ]_{2,}[ ]*$", re.MULTILINE, ["__"])
"""A line to write on behind a row."""
_PICTURE = expression("[\u2728\u2764\U0001f300-\U0001f4ff\U0001f600-\U0001f64f\U0001f900-\U0001f9ff]\ufe0f?")
"""A picture that stands for no colour and no square."""
_RUNS_ON = expression(
    r"(?P<count>(?:[–—=;:]|[ ]-+|[.)]|\bjoin[.,])[ ]*"
    r"(?:\d{1,4})?(?:[ ]?[(\[{](?:[\d ,:;-]|[–—]){1,30}[)\]}]|(?:[:/][ ]?\d{1,4})+)?(?<=[\d)\]}])[ ]"
    r"(?:sts?|stitches|e?sc|e?hdc|e?dc|d?tr|htr|tiles?)(?:,?[ ](?:and[ ])?\d{1,4}[ ][a-z-]{2,9}){0,3})"
    r"(?=[ ]+[A-Z][a-z'’]{1,12}[ ,][a-z\d])"
)
"""A count with a new sentence right behind it: "– 24 sts Place a marker here"."""
_MAY_RUN_ON = expression(r"[A-Z](?:(?<=[tcesr] [A-Z])|(?<=  [A-Z]))[a-z'’]{1,12}[ ,][a-z\d]")
"""What such a count ends with, looked for first because most texts have none."""
_UNDONE = expression(
    r"\b(?:in|into|of|the|to|from|and|next|each|every|first|last|same|with|over|then|sk|skip|miss|a|top|between)[ ]*$",
    re.IGNORECASE,
)
"""How a line ends that goes on, whatever stands below it."""
_OPEN = expression(r"(?:[,(\[{*]|\b(?:work|around|rep|repeat|ch|join|\d{1,3}))[ ]*$", re.IGNORECASE)
"""How one ends that may go on."""
_RISING = expression(r"[ ]*ch(?:ain)?\b", re.IGNORECASE)
_HEADING = expression(r"[ ]*[A-Z][\w'’&-]*(?:[ ](?:[A-Z][\w'’&-]*|of|the|and|for|a|in|with|–|-|by))*[ ]*")
"""A line of words that all begin with a capital, as a title has it."""


def without_print(text: str) -> str:
    """The text with blanks in place of what belongs to its pages.

    >>> without_print("Row 1: Sc in next\\nPage 3 of 7\\n5 sts.").replace(BETWEEN_PAGES, ".")
    'Row 1: Sc in next\\n...........\\n5 sts.'
    """
    text = _MARKED.sub(lambda hit: " " * len(hit.group()), text)
    first = _FIRST_LABEL.search(text)
    if first is None:
        return text
    head, body = text[: first.start()], text[first.start() :]
    body = _FOOTER.sub(_blank, body)
    body = _AGAIN.sub(_blank, body)
    body = _TO_TICK.sub(_blank, body)
    if not body.isascii():
        body = _PICTURE.sub(" ", body)
    if _MAY_RUN_ON.search(body):
        body = _RUNS_ON.sub(r"\g<count>.", body)
    numbers = _ALONE.findall(body)
    if numbers and not (len(numbers) > 2 and len(numbers) * 2 >= len(_LABELS.findall(body))):
        body = _without_page_numbers(body)
    return head + _without_titles(head, body)


def _blank(hit: re.Match[str]) -> str:
    return BETWEEN_PAGES * len(hit.group())


def _without_page_numbers(body: str) -> str:
    """Numbers with a line of their own go where the column is wide, and where few rows have one below them."""
    lines = body.split("\n")
    for k, line in enumerate(lines):
        if _ALONE.fullmatch(line):
            above = next((told for told in reversed(lines[:k]) if told.strip()), "")
            below = next((told for told in lines[k + 1 :] if told.strip()), "")
            if max(len(above.rstrip()), len(below.rstrip())) >= _WIDE:
                lines[k] = BETWEEN_PAGES * len(line)
    return "\n".join(lines)


def _without_titles(head: str, body: str) -> str:
    """Running titles go: the pattern's own, told again, and any heading in the midst of a phrase."""
    titles = [line.strip() for line in head.split("\n") if line.strip()][:1]
    title = titles[0] if titles and " " in titles[0] and len(titles[0]) < 70 else ""
    lines = body.split("\n")
    above = ""
    for k, line in enumerate(lines):
        told = line.strip()
        if not told:
            continue
        if k and (told == title or len(told) < 60 and _HEADING.fullmatch(line) and _cuts(lines, k, above)):
            lines[k] = BETWEEN_PAGES * len(line)
            continue
        above = line
    return "\n".join(lines)


def _cuts(lines: list[str], k: int, above: str) -> bool:
    """True for a heading that cuts a phrase: what is above is not done, and below it goes on."""
    below = next((told.strip() for told in lines[k + 1 :] if told.strip(BETWEEN_PAGES + " ")), "")
    if not below or _LABELS.match(below) is not None:
        return False
    if _UNDONE.search(above):
        return True
    if _RISING.match(below) or below[0].isupper():
        return False
    if _OPEN.search(above):
        return True
    return below[0].islower() and above.rstrip()[-1:] not in ".:)]}!"


def drawn(told: str) -> bool:
    """True for a line without a word: "***", "— — —", a row of pictures; not for a bracket or star left alone.

    >>> drawn("***"), drawn("~ * ~"), drawn("*"), drawn(")"), drawn("— 24 sts"), drawn("**.")
    (True, True, False, False, False, False)
    """
    return (
        not told[0].isalnum()
        and not (told[0] in "*+#" and told[-1] in ".,;" and len(told.rstrip(".,;")) <= 3)
        and not any(letter.isalnum() or letter in "()[]{}†" for letter in told)
        and (len(told) > 2 or told[0] not in "*,;+")
    )
