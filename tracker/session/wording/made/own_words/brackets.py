"""Brackets in words read aloud: what is worked as one is told behind where or how often it is worked.

A pattern's words come in; the same words with their brackets said, or turned round, go out. "(Dc, ch 1) x 4" is "4
times: Dc, ch 1": nobody hears where a bracket closes. A bracket within another, or with words behind it that cannot be
told from its place, is named as one.
"""

import re

from tracker.expressions import expression

_OPEN = {"(": ")", "[": "]", "{": "}"}
MOST = 60
"""Brackets of one stretch that anybody can keep apart by ear."""
_REPEATED = expression(
    r"[ ,]*(?:[x×]? ?\d{1,4}(?: ?[x×])?(?! ?(?:st|sc|dc|hdc|tr)\b)|(?:once|twice|thrice)\b"
    r"|\w{3,12} (?:more )?times\b|(?:all )?(?:in|into|to|across|around|over|rep|repeat|until)\b)",
    re.IGNORECASE,
)
"""What stands behind a bracket that is worked as one: a number of times, or a place."""
_REMARK = expression(
    r" ?(?:counts?|do(?:es)?|not|see|first|corner|mark|this|these|you|now|made|skipped|center|centre|beg|rs|ws|"
    r"right|wrong|armhole|or|the)\b|[^,]*\bmade\b",
    re.IGNORECASE,
)
"""How a bracket begins that only tells something."""
_TIMES = expression(
    r"[ ,]*(?:[x×] ?(?P<by>\d{1,4})|(?P<many>\d{1,4}) ?[x×]?|(?P<word>once|twice|thrice|\w{3,12} (?:more )?times))"
    r"(?: times)?(?!\w)",
    re.IGNORECASE,
)
"""How often a bracket is worked."""
_ENDS = expression(r"\s*(?:[,;:.)]|and\b|$)", re.IGNORECASE)
"""Behind how often, or where: nothing but what comes next."""
_PLACE = expression(
    r"\s*(?:all )?(?P<place>(?:in|into|to)\b[^][(){},;:.*†]*?)\s*(?=[,;:.)*]|$)", re.IGNORECASE
)
"""Where a bracket is worked, to the next mark."""
_GOES_ON = expression(r"\s*[,;]\s*(?!then\b)", re.IGNORECASE)
"""The mark behind a bracket with more to do."""
_LEADS = ("*", "†", ":", "and", "then", "work", "working", "make", ".", "[", "(", "{")
"""What may stand before a bracket that is told behind its place."""


def brackets_said(words: str) -> str:
    """Brackets said: turned round where that can be, named or between commas elsewhere.

    >>> brackets_said("Ch 3 (counts as dc), (dc 1, sc 1) x 11, ch 1"), brackets_said("[ch 1, dc in next dc to end")
    ('Ch 3 , counts as dc, ; then 11 times: dc 1, sc 1; then ch 1', ' bracket, ch 1, dc in next dc to end')
    >>> brackets_said("1 dc in each tr and (1 dc, 1 ch, 1 dc) in each sp all round, join")
    '1 dc in each tr and in each sp all round: 1 dc, 1 ch, 1 dc; then join'
    """
    return _brackets(_turned(_unwrapped(words.strip())))


def _turned(words: str) -> str:
    """The words with brackets that hold no other behind their place, or behind how often."""
    if not any(letter in words for letter in "([{"):
        return words
    out, at = "", 0
    for _ in range(MOST):
        start = next((nth for nth in range(at, len(words)) if words[nth] in _OPEN), -1)
        end = _closing(words, start) if start >= 0 else -1
        if start < 0:
            break
        inside = words[start + 1 : end]
        told, behind = _behind(words, end + 1) if end >= 0 else ("", 0)
        plain = end >= 0 and not any(letter in inside for letter in "([{*†") and _is_worked(words, start, end)
        if not told or not plain or not _may_turn(words[:start]):
            out, at = out + words[at : start + 1], start + 1
            continue
        front = words[at:start].rstrip()
        then = front.endswith((",", ";")) or bool(front) and not front.lower().endswith(_LEADS)
        front = f"{front.rstrip(' ,;')}; then " if then else f"{front} " if front[-1:].isalpha() else front
        out += f"{front}{told}: {inside.strip()}"
        at = behind
        if goes_on := _GOES_ON.match(words, at):
            out, at = f"{out}; then ", goes_on.end()
    return out + words[at:]


def _may_turn(before: str) -> bool:
    """True for a bracket that no other is open around."""
    return not any(before.count(opens) > before.count(closes) for opens, closes in _OPEN.items())


def _behind(words: str, at: int) -> tuple[str, int]:
    """ "11 times", "in next sp", "11 times in ring": what stands behind a bracket, and its end; "" where none does."""
    often = ""
    if hit := _TIMES.match(words, at):
        many = hit["by"] or hit["many"]
        often, at = f"{many} times" if many else hit["word"], hit.end()
    if place := _PLACE.match(words, at):
        return f"{often} {place['place']}".strip(), place.end()
    return (often, at) if _ENDS.match(words, at) else ("", at)


def _unwrapped(words: str) -> str:
    """The words without one bracket around all of them."""
    for _ in range(2):
        if len(words) > 1 and _OPEN.get(words[0]) == words[-1] and _closing(words, 0) == len(words) - 1:
            words = words[1:-1].strip()
    return words


def _closing(words: str, at: int) -> int:
    """Where the bracket that opens here closes; -1 where it does not."""
    depth = 0
    for end in range(at, len(words)):
        depth += (words[end] in _OPEN) - (words[end] in ")]}")
        if depth == 0:
            return end
    return -1


def _brackets(words: str) -> str:
    """Brackets in words: those worked as one are named, remarks stand between commas, lone ones are named as well."""
    many = sum(map(words.count, "([{)]}"))
    if not many:
        return words
    if many > MOST:
        return re.sub(r"[][(){}]", ", ", words)
    closes: dict[int, int] = {}
    waiting: list[int] = []
    for at, letter in enumerate(words):
        if letter in _OPEN:
            waiting.append(at)
        elif letter in ")]}" and waiting:
            closes[waiting.pop()] = at
    named = {at for at, end in closes.items() if _is_worked(words, at, end)}
    named |= {at for at in waiting if words[at] != "("}  # "[sc, ch 1" that nobody closed, and no smiley
    ends = {closes[at] for at in named if at in closes}
    out: list[str] = []
    for at, letter in enumerate(words):
        if letter in _OPEN:
            out.append(" bracket, " if at in named else ", ")
        elif letter in ")]}":
            out.append(", close bracket, " if at in ends else ", ")
        else:
            out.append(letter)
    return "".join(out)


def _is_worked(words: str, at: int, end: int) -> bool:
    """True for a bracket of several phrases worked as one, false for one that only tells something."""
    if not any(mark in words[at + 1 : end] for mark in ",;([{") and " and " not in words[at:end]:
        return False
    if words[end + 1 :].lstrip()[:1] == "*":
        return not _REMARK.match(words, at + 1, end)
    return bool(_REPEATED.match(words, end + 1)) and not _REMARK.match(words, at + 1, end)
