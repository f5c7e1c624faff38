"""A pattern's own words as a maker reads them aloud: stars, brackets and signs said, articles put in.

Any words of a pattern come in; the same words go out for an ear, in their order. "*Sc in next 3 sts; (dc, ch 1) x 4" is
"star: single crochet in the next three stitches; bracket, double crochet, chain one, close bracket, four times".
"""

import re
from collections.abc import Collection

from tracker.expressions import expression
from tracker.program.places import Program
from tracker.session.wording.spelled import sized, told

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
_STARS = {"***": "triple star", "**": "double star", "*": "star", "††": "double dagger", "‡": "double dagger",
          "†": "dagger"}  # fmt: skip
_STAR = expression(r"(?P<before>(?:\b\w+ ?)?)(?P<sign>\*{1,3}|†{1,2}|‡) ?(?=(?P<behind>\w+(?: \w+)?)?)")
_TO_A_STAR = ("from", "to", "at", "between", "and", "until")
_HOW_FAR = expression(r"to|and|across|around|once|twice|thrice|\w+ (?:more )?times", re.IGNORECASE)
_SIGNS = (
    (expression(r"(?<=\d)\s?[\"”″]"), " inches "),
    (expression(r"(?<![\w./])1/2(?![\w/])|½"), "half"),
    (expression(r"(?<![\w.])(\d{1,3}) ?[x×] ?(?=\d{1,3} ?(?:cm|mm|in|inches)\b)"), r"\1 by "),
    (expression(r"(?:(?<=[\s\])},])|^)[x×] ?(\d{1,4})(?: times)?\b"), r"\1 times"),
    (expression(r"(?<![\w.])(\d{1,4}) ?(?:×|x(?=[\s.,;)\]]|$))"), r"\1 times "),
    (expression(r"(?<=\d) ?[-–—] ?(?=\d)"), " to "),
    (expression(r"\bw/ ?(?=\w)", re.IGNORECASE), "with "),
    (expression(r"(?<![\d/])(\d)/(\d)(?= ?[A-Z]{1,2}\b)"), r"\1 over \2"),
    (expression(r"(?<=[A-Za-z])/(?=[A-Za-z])"), " or "),
    (expression(r" ?\+ ?"), " plus "),
    (expression(r" ?= ?"), " equals "),
    (expression(r" ?& ?"), " and "),
    (expression(r"\bt-?ch\b", re.IGNORECASE), "turning chain"),
    (expression(r"(?<=[a-z])\(e?s\)"), "s"),
    (expression(r"(?<=\s)[–—](?=\s)"), ", "),
)  # fmt: skip
"""Signs and what is said for them, in the order in which they are looked for."""
_THE = expression(
    r"\b(in|into|to|of|from|around|round|over|behind|under|between|along|through|skip|miss|as|placing|working) "
    r"(?=(?:next|first|last|same|previous|top|base|beginning|ends?(?! (?:with|at|up)\b)|turning chain|"
    r"foundation chain|hook|ring|center|centre|marker|marked|free|unused|other|opposite|posts?|"
    r"(?:back|front)(?= (?:loop|post|bar))|"
    r"second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|corner|"
    r"chain-(?-i:[a-z-]+)(?: (?:space|loop)s?)?(?=[ ,.;:]|$))\b)",
    re.IGNORECASE,
)
_MADE = expression(r"\bthe chain-((?-i:[a-z-]+))(?=[,.;:]|$| (?:to|and|turn)\b)")
"""A chain that was made, as its row's landing has it: "the top of the chain three"."""
_AT = expression(r"\bat (?=end of\b)")
_CHAINS = expression(
    r"\b((?:next|first|last|skipped|of|remaining) "
    r"(?:\d{2,}|[2-9]|tw[a-z]+|thr[a-z]+|f[io][a-z-]+|s[ei][a-z-]+|eight[a-z-]*|nin[a-z-]+|ten)) "
    r"chain\b(?![- ](?:\w+[- ])?(?:space|loop|\d|one|two|three|four|five|six))"
)
"""Chains that were made: "in the next two chains"."""
_A = expression(
    r"\b(?:([Jj]oin(?:ing)?(?: (?:the )?(?:yarn|round|[A-Z]{1,2}))? with|attach with|by) "
    r"(?=slip stitch\b|(?:single|double|half|treble)\b)|(form) (?=ring\b))"
)


def read_out(program: Program, words: str, own: Collection[str] = ()) -> str:
    """The words read aloud, in the maker's terms and for their hand."""
    # Stars behind the stitches: a pattern may have a star stitch, and no star is one.
    words = signs_said(_rows_named(program, sized(program, words)))
    return with_articles(stars_said(told(program, words, own)))


def _rows_named(program: Program, words: str) -> str:
    """ "between row 6 and row 7" for "between R6 and R7", and rounds where the piece is worked in them."""
    if _SHORT_ROW.search(words) is None:
        return words
    rounds = program.fabric.length > 0 and program.fabric.row(1).kind == "round"
    return _SHORT_ROW.sub("round " if rounds else "row ", words)


_SHORT_ROW = expression(r"\b(?<![-/])R ?(?=\d{1,3}\b(?![/.]\d))")
_ROW_WITHIN = expression(r"(?<=[a-z,] )(Row|Round)(?=s? (?-i:[a-z]))")
"""A row named within a sentence, as its label is printed."""


def signs_said(words: str) -> str:
    """Brackets and signs in words, all else as it stands.

    >>> signs_said("Ch 3 (counts as dc), (dc 1, sc 1) x 11"), signs_said("[ch 1, dc in next dc to end")
    ('Ch 3, counts as dc, bracket, dc 1, sc 1, close bracket, 11 times', 'bracket, ch 1, dc in next dc to end')
    """
    words = _brackets(_unwrapped(words.strip()))
    for sign, said in _SIGNS:
        words = sign.sub(said, words)
    return _tidy(words)


def stars_said(words: str) -> str:
    """Stars and daggers in words; one that something begins with stands before a colon.

    >>> stars_said("*Sc in next stitch, ** chain two; rep from * to last stitch, end at **")
    'star: Sc in next stitch, double star: chain two; rep from the star to last stitch, end at the double star'
    """

    def said(hit: re.Match[str]) -> str:
        before, behind = hit["before"].strip(), hit["behind"] or ""
        star = _STARS[hit["sign"]]
        if before.lower() in _TO_A_STAR:
            return f"{before} the {star} "
        begins = behind and not _HOW_FAR.match(behind)
        return f"{before + ', ' if before else ''}{star}{':' if begins else ''} "

    return _tidy(_STAR.sub(said, words)) if any(sign in words for sign in "*†‡") else words


def with_articles(words: str) -> str:
    """ "in the next stitch" for "in next stitch", as it is said.

    >>> with_articles("join with slip stitch in top of chain-three; skip first stitch, from front to back")
    'join with a slip stitch in the top of the chain three; skip the first stitch, from front to back'
    >>> with_articles("in next two chain and to last five chain, make two chain in next two chain-one spaces")
    'in the next two chains and to the last five chains, make two chain in the next two chain-one spaces'
    """
    words = _CHAINS.sub(r"\1 chains", _ROW_WITHIN.sub(lambda hit: hit[1].lower(), words))
    words = _THE.sub(r"\1 the ", _AT.sub("at the ", words))
    return _A.sub(r"\1\2 a ", _MADE.sub(r"the chain \1", words))


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


def _tidy(words: str) -> str:
    words = re.sub(r"[ ]+(?=[,;:.])", "", " ".join(words.split()))
    words = re.sub(r",[ ,]*,", ",", words)
    words = re.sub(r"([;:.]) ?,", r"\1", words)
    words = re.sub(r",([;:.])", r"\1", words)
    words = words.replace("close bracket, in", "close bracket in")
    return words.strip(" ,")
