"""A pattern's own words as a maker reads them aloud: stars, brackets and signs said, articles put in.

Any words of a pattern come in; the same words go out for an ear, in their order. "*Sc in next 3 sts; (dc, ch 1) x 4" is
"star: single crochet in the next three stitches; bracket, double crochet, chain one, close bracket, four times".
"""

import re
from collections.abc import Collection

from tracker.expressions import expression
from tracker.program.places import Program
from tracker.session.wording.made.own_words.brackets import brackets_said
from tracker.session.wording.spelled import sized, told

_STARS = {"***": "triple star", "**": "double star", "*": "star", "††": "double dagger", "‡": "double dagger",
          "†": "dagger"}  # fmt: skip
_STAR = expression(r"(?P<before>(?:\b\w+ ?)?)(?P<sign>\*{1,3}|†{1,2}|‡) ?(?=(?P<behind>\w+(?: \w+)?)?)")
_TO_A_STAR = ("from", "to", "at", "between", "and", "until")
_HOW_FAR = expression(r"to|and|across|around|once|twice|thrice|\w+ (?:more )?times", re.IGNORECASE)
_SIGNS = (
    (expression(r"(?<=\d)\s?[\"”″]"), " inches "),
    (expression(r"(?<=\d) in\b(?= (?:from|long|wide|tall|high|deep)\b|[.,;)]|$)"), " inches"),
    (expression(r"(?<![\w./])1/2(?![\w/])|½"), "half"),
    (expression(r"(?<![\w.])(\d{1,3}) ?[x×] ?(?=\d{1,3} ?(?:cm|mm|in|inches)\b)"), r"\1 by "),
    (expression(r"(?:(?<=[\s\])},])|^)[x×] ?(\d{1,4})(?: times)?\b"), r"\1 times"),
    (expression(r"(?<![\w.])(\d{1,4}) ?(?:×|x(?=[\s.,;)\]]|$))"), r"\1 times "),
    (expression(r"(?<=\d) ?[-–—] ?(?=\d)"), " to "),
    (expression(r"\bw/ ?(?=\w)", re.IGNORECASE), "with "),
    (expression(r"(?<![\d/])(\d)/(\d)(?= ?[A-Z]{1,2}\b)"), r"\1 over \2"),
    (expression(r"\bf/ ?off\b", re.IGNORECASE), "fasten off"),
    (expression(r"(?<=[A-Za-z])/(?=[A-Za-z])"), " or "),
    (expression(r"\b(?:RS|right side) (?=together\b)"), "right sides "),
    (expression(r"\b(?:WS|wrong side) (?=together\b)"), "wrong sides "),
    (expression(r" ?\+ ?"), " plus "),
    (expression(r" ?= ?"), " equals "),
    (expression(r" ?& ?"), " and "),
    (expression(r"\bt-?ch\b", re.IGNORECASE), "turning chain"),
    (expression(r"\bhk\b", re.IGNORECASE), "hook"),
    (expression(r"\brev\.? ?(?=(?:sc|h?dc|h?tr)\b)", re.IGNORECASE), "reverse "),
    (expression(r"(?<=[a-z])\(e?s\)"), "s"),
    (expression(r"(?<=\s)[–—](?=\s)"), ", "),
)  # fmt: skip
"""Signs and what is said for them, in the order in which they are looked for."""
_THE = expression(
    r"\b(in|into|to|of|from|around|round|over|behind|under|between|along|through|skip|miss|as|placing|working|leaving|"
    r"taking up) "
    r"(?=(?:next|first|last|same|previous|top|base|beginning|ends?(?! (?:with|at|up)\b)|turning chain|"
    r"foundation chain|hook|ring|center|centre|marker|marked|free|unused|skipped|joined|outer|"
    r"loop(?=[.,;:]|$)|other|opposite|posts?|"
    r"(?:back|front)(?= (?:loop|post|bar|thread))|remaining(?= (?:\w+ )?(?:stitch|chain|space|row|round))|"
    r"second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|corner|"
    r"chain-(?-i:[a-z-]+)(?: (?:space|loop)s?)?(?=[ ,.;:]|$)|(?-i:[a-z]+)-chain (?:space|loop))\b)",
    re.IGNORECASE,
)
_MADE = expression(r"\bthe chain-((?-i:[a-z-]+))(?=[,.;:]|$| (?:to|and|turn)\b)")
"""A chain that was made, as its row's landing has it: "the top of the chain three"."""
_TOP_OF = expression(
    r"\b(top|(?:first|second|third|fourth|fifth|sixth|seventh)(?: chain)?) of (?:the )?"
    r"(?:(two|three|four|five|six|seven|eight) chains?|chain (two|three|four|five|six|seven|eight))\b"
)
"""Where a round is joined, however it is written: "top of 3 ch", "3rd of 4 ch"."""
_TURN_WORK = expression(r"\b(turn|turning|rotate) work\b", re.IGNORECASE)
_AT = expression(r"\bat (?=end of\b)")
_CHAINS = expression(
    r"\b((?:next|first|last|skipped|of|remaining) "
    r"(?:\d{2,}|[2-9]|tw[a-z]+|thr[a-z]+|f[io](?!undation)[a-z-]+|s[ei][a-z-]+|eight[a-z-]*|nin[a-z-]+|ten)) "
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
    return _GROUP_OF.sub(r"group\3 of \1 \2", with_articles(stars_said(told(program, words, own))))


def _rows_named(program: Program, words: str) -> str:
    """ "between row 6 and row 7" for "between R6 and R7", and rounds where the piece is worked in them."""
    if _SHORT_ROW.search(words) is None:
        return words
    rounds = program.fabric.length > 0 and program.fabric.row(1).kind == "round"
    return _SHORT_ROW.sub("round " if rounds else "row ", words)


_GROUP_OF = expression(
    r"\b([a-z]+)-((?:(?:half )?(?:double|treble) |single |double )?(?:crochet|treble))s? group(s?)\b"
)
"""A group by what it is made of: "4th dc of next 7-dc group"."""
_SHORT_ROW = expression(r"\b(?<![-/])R ?(?=\d{1,3}\b(?![/.]\d))")
_ROW_WITHIN = expression(r"(?<=[a-z,] )(Row|Round)(?=s? (?-i:[a-z]))")
"""A row named within a sentence, as its label is printed."""


def signs_said(words: str) -> str:
    """Brackets and signs in words, all else as it stands.

    >>> signs_said("Ch 3 (counts as dc), (dc 1, sc 1) x 11"), signs_said("[ch 1, dc in next dc to end")
    ('Ch 3, counts as dc; then 11 times: dc 1, sc 1', 'bracket, ch 1, dc in next dc to end')
    """
    words = brackets_said(words)
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
    >>> with_articles("slip stitch to top of three chains"), with_articles("to third of four chains")
    ('slip stitch to the top of the chain three', 'to the third chain of the chain four')
    >>> with_articles("in next two chain and to last five chain, make two chain in next two chain-one spaces")
    'in the next two chains and to the last five chains, make two chain in the next two chain-one spaces'
    """
    words = _TOP_OF.sub(_landing_said, words) if " of " in words else words
    words = _TURN_WORK.sub(r"\1 the work", words) if " work" in words else words
    words = _CHAINS.sub(r"\1 chains", _ROW_WITHIN.sub(lambda hit: hit[1].lower(), words))
    words = _THE.sub(r"\1 the ", _AT.sub("at the ", words))
    return _A.sub(r"\1\2 a ", _MADE.sub(r"the chain \1", words))


def _landing_said(hit: re.Match[str]) -> str:
    """ "top of the chain three", "third chain of the chain four"."""
    where = hit[1] if hit[1] == "top" or hit[1].endswith("chain") else f"{hit[1]} chain"
    return f"{where} of the chain {hit[2] or hit[3]}"


def _tidy(words: str) -> str:
    words = re.sub(r"[ ]+(?=[,;:.])", "", " ".join(words.split()))
    words = re.sub(r",[ ,]*,", ",", words)
    words = re.sub(r"([;:.]) ?,", r"\1", words)
    words = re.sub(r",([;:.])", r"\1", words)
    words = words.replace("close bracket, in", "close bracket in")
    return words.strip(" ,")
