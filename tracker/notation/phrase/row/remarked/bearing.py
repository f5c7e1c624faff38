"""Words that no reader took: whether they may change what is worked, "leaving the last two", or only keep it company.

Those that may keep their row from being claimed, unless its count bears out what was read without them.
"""

from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.scan import Token

_ROW = r"(?:rows?|rnds?|rounds?|rds?|r)"
_WHICH = (
    r"(?:\d+(?:st|nd|rd|th)|first|second|third|last|next|previous|prev|other|foll|following|full|long|short|"
    r"this|that)"
)
_EDGE = r"(?:corners?|sides?|edges?|ends?|centers?|centres?|middle|selvedge|selvage)"
_LEADS = (
    rf"(?:to|of|from|on|along|down|up|around|across|back|over|for|the|this|that|next|other|same|second|first|last|"
    rf"short|long|left|right|top|bottom|lower|upper|beg|beginning|outer|foundation|neck|{_EDGE}|sps?|spaces?|chains?|"
    rf"ch|work|piece|neaten|form|make|made|your|its|a|an)"
)
_NUMBER = r"(?:\d+|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_BESIDE = expression(
    r"(?:(?:at|by|from|after|before|until) )?(?:the )?(?:ends?|beginning|beg|start) of "
    rf"(?:(?:the|{_WHICH}) )*{_ROW}(?: \d+)?\b"
    rf"|\b(?:as|of|to|like|than|along|across|from|after|before|in|on) (?:the )?(?:{_WHICH} )+{_ROW}\b"
    rf"|\b(?:as|of|to|like|than|along|across|from|after|before) (?:the )?{_ROW} ?\d+\b|\bon r ?\d+$"
    rf"|\b{_NUMBER} (?:more |further )?{_ROW}\b(?: of\b)?(?: [a-z]\b)?|^\d+(?:st|nd|rd|th) {_ROW}$"
    rf"|\b(?:each|every) (?:time|row|rnd|round)\b|\bafter an? \S+ {_ROW}\b"
    r"|\d+(?: \. \d+)? ?(?:cm|mm|in|inch|inches|yds?|yards?|g|oz|minutes?|hours?)\b"
    r"|\bon (?:these|those) (?:\d+ )?(?:sts|stitches)\b|\bon (?:its|the|their) (?:side|edge|end)s?\b"
    r"|\bleav(?:e|ing) (?:an? |it )?(?:\w+ )?(?:tail|open|end)s?\b|\bfr(?:om)? (?:hk|hook)(?: = \d+)?"
    r"|\btop (?:of )?(?:the )?(?:tch|(?:beg|beginning|turning|starting) (?:ch|chain)(?: - \d+| \d+)?)\b"
    r"|\b(?:(?:in|into|through|under|of|from) )?(?:the )?(?:both|front|back) "
    r"(?:lps?|loops?|layers?|thicknesses?|strands?)\b"
    rf"|\bthrough (?:the |all )*(?:rem |remaining )?{_NUMBER}\b(?: sts| stitches| loops| lps)?|^\d+ fasten off"
    r"|\bstanding \w+\b|\b(?:in|with) (?:the )?(?:first|1st|same) (?:st|stitch)\b"
    r"|\b(?:you|we|there)(?:['’]ll)? (?:(?:now|will|should) )*"
    r"(?:have|end up with|gain|lose|count|are|is|be) (?:\w+ )?\w+\b"
    r"|\bworking in(?:to)? (?:the )?\w+ instead of (?:the )?\w+$|^all together$|^like the last one\b"
    r"|\b(?:right|wrong) side\b|^(?:no|without(?: any)?) (?:inc\w*|dec\w*|shaping|skipped|missed)\b.*"
    r"|\b(?:over|weaving in|weave in|enclosing|hiding|carrying|catching) (?:in )?(?:(?:the|both|all|any) )*"
    r"(?:(?:yarn|loose|colour|color) )?(?:ends?|tails?|strands?|floats?)\b"
    rf"|\b(?:with|after|on) an? (?:\S+ )?{_ROW}(?: \d+)?\b|\bfinish(?:ed|ing)? {_ROW} \d+|\btotal of {_NUMBER} \w+"
    r"|^(?:going|working) a?round (?:the )?(?:\w+ )?(?:posts?|post stitches|post sts|tr|dc|htr|hdc|trs|dcs)"
    r"(?: of the raised (?:sts|stitches))?$"
    r"|^(?!with|revers|work|as |no )(?:\w+ ){1,4}shaping$"
    r"|^but (?:in|with|using|turn|change|start)\b"
    r"|\bkeeping (?:the |all )*(?:\w+ ){1,4}(?:in line|aligned|stacked|lined up|in place)\b"
    rf"|^back to {_NUMBER}|^if you(?:['’]ve| have) \w+ .*|\buntil (?:you|it|the yarn) runs? out\b"
)
"""Words that say when and along what, how many there are, and how tall they are: the rest is looked at without them."""
_CARE = expression(
    r"(?:(?:be |being |is )?careful|tak(?:e|ing) care|mak(?:e|ing) sure|remember(?:ing)?|"
    r"(?:not|do not|don['’]t) forget(?:ting)?)\b"
)
"""What begins words that warn of a slip: what they name is worked by the words before them."""
_MORE = expression(
    rf"\b(?:inc|incs|dec|decs|increas\w+|decreas\w+|twice|extra|alternat\w+|other|half|doubl\w+|(?!one\b){_NUMBER})\b"
)
_TELLS = expression(
    r"(?:the |your |its |these |both )?(?:\w+ ){0,2}(?:edges?|sides?|corners?|ends?|middle|center|centre|sts|stitches|"
    r"rows?|piece|work|fabric|loops|tails?) (?:will|may|might|should|can|begins?|starts?|look|looks|curls?|lies?|lie|"
    r"measures?|used|tends?) .*"
)
"""What becomes of the work: "the sides begin to rise"."""
_IF = expression(
    r"if (?:you|your|the|it|this|there)\b[^,]*,? (?:then )?(?:use|start|try|check|go|change|block|rip|frog|count|you|"
    r"it|that|don|see|pull|switch|your|simply|just)\b.*"
)
"""A sentence of what to do where something goes wrong."""
_ALONG = expression(
    rf"(?:{_LEADS}|between|turn|before)(?: {_LEADS})*|(?:(?:but )?(?:do not )?turn )?at (?:the )?end"
)
"""Nothing but where the work goes: "up the other short end", "to beg corner sp", "(turn) at end"."""
_CHANGES = (
    r"inc|incs|dec|decs|increas\w+|decreas\w+|shaping|skip|skipping|miss|missing|omit\w*|leave|leaving|drop|dropping|"
    r"lose|losing|gain|gaining|catch|catching|together|tog|ignor\w+|stopping|revers\w+|mirror\w*|adjust\w*|if|unless|"
    r"except|excepting|excluding|bar|but|instead|rather|whenever|needed|required|necessary|desired|prefer\w*|or|"
    r"alternat\w+|alt|halfway|twice|thrice|doubling|doubled|extra|additional|another|plus|minus"
)
"""What is done otherwise, and when."""
_AMOUNTS = (
    rf"\d+(?:st|nd|rd|th)?|{_NUMBER}|dozen|each|every|other|opposite|pairs?|half|more|few|fewer|less|third|thirds|quarters|larger|longer|wider|narrower|until|till|possible|"
    r"enough|both|many|much|whole|per|times|remaining|rem|unworked|free|short|shorter"
)
_THINGS = rf"sts?|stitch|stitches|sc|dc|hdc|tr|htr|dtr|trtr|slst|ss|tch|turning ch\w*|markers?|{_EDGE}"
_BEARING = expression(rf"\b(?:{_CHANGES}|{_AMOUNTS}|{_THINGS})\b")
_HOW_MANY = expression(rf"\b(?:{_CHANGES}|{_AMOUNTS})\b")
_ALTERING = expression(rf"\b(?:{_CHANGES}|unworked|not (?:be )?worked|left free)\b")
_HOW_DONE = frozenset("being pushing pulling holding incl including crossing inserting".split())
"""What begins words that say how stitches lie while they are worked, whichever they are."""
_FINISHING = frozenset(
    "fold folding sew sewing weaving whip whipstitch bring flatten weave block steam stuff seam press pin tie hang "
    "wash close insert thread embroider attach".split()
)
"""What begins words of what is done with the piece."""
_ADDED = expression(
    r"(?:make|add) (?:\w+ ){0,3}(?:loop|tassels?|fringe|buttons?|pompoms?|cord|tie|bow|trim)\b"
)
_OF_CHAINS = expression(r"(?:(?:work|in|into|the|any|ch|chs|chains?|- ?|\d+|sps?|spaces?) ?)+")
""" "Do not work into the ch-1 sps"."""


_TIGHTENED = expression(
    r"(?:pull|pulling|draw|drawing|tug|tighten|tightening|close|closing) (?:up )?(?:the |yarn |starting |your )*"
    r"(?:end|tail|ring|circle|hole|loop|cent(?:er|re))\b(?: \w+){0,4}$"
)
""" "Pull end to close ring": nothing is worked."""
_ELSEWHERE = expression(rf"\b(?:between|below|{_ROW} \d+)\b")
"""Where the hook goes that is not the next stitch: "inserting hook between the groups of Rnd 2"."""
_STEP = expression(
    r"(?:(?:work|make|do|first|next|last|an?|the|one|another) )*"
    r"(?:corner|shell|fan|petal|scallop|point|leaf|spoke|crown|spray|trefoil)"
)
"""A step by its name alone, "corner", "make a shell": what it is made of is told nowhere."""

_AS_FAR = expression(
    r"(?:up )?(?:to|until|till) (?:where|the|your|its|an?|desired|length|it|you|about)\b"
    r"(?! (?:front|back|right|wrong|other|runs?)\b)"
)
"""What begins words that say how far a row goes."""


def bears(tokens: Sequence[Token]) -> bool:
    """True for words that may change how many stitches are worked, or which.

    "losing a st at both ends" does, "up the other short end" and "at end of Row 12" do not.
    """
    words = " ".join(token.text for token in tokens)
    if _AS_FAR.match(words) is not None and _ALONG.fullmatch(words) is None:
        return _AS_FAR.match(_BESIDE.sub("", words)) is not None
    if _STEP.fullmatch(words) is not None:
        return True
    if _TIGHTENED.match(words) is not None:
        return False
    if tokens[0].text in _FINISHING or _ADDED.match(words) is not None:
        return False
    if _BEARING.search(words) is None or _ALONG.fullmatch(words) or _OF_CHAINS.fullmatch(words):
        return False
    if _CARE.match(words) is not None:
        return _MORE.search(words) is not None
    if _IF.fullmatch(words) is not None or _TELLS.fullmatch(words) is not None:
        return _ALTERING.search(words.removeprefix("if ")) is not None
    if tokens[0].text in ("insert", "inserting") and _ELSEWHERE.search(words) is not None:
        return True
    told = _HOW_MANY if tokens[0].text in _HOW_DONE else _BEARING
    rest = _BESIDE.sub(" ", words)
    if tokens[0].text in _HOW_DONE:
        rest = rest.replace("each ", "")
    return told.search(rest) is not None


def alters(tokens: Sequence[Token]) -> bool:
    """True for words of a bracket or a note that say that something is done otherwise: "(but not in the last)".

    Such words name stitches and count them however they leave the work as it is: "(the 3 skipped ch are a dc)".
    """
    words = " ".join(token.text for token in tokens)
    kept = words.startswith(("you ", "no ", "without ", "don")) or _CARE.match(words) is not None
    return not kept and _ALTERING.search(words) is not None


def amends(tokens: Sequence[Token]) -> bool:
    """True for a bracket behind what goes into each stitch that makes some of them otherwise: "(2 in last st)"."""
    return _AMENDING.search(" ".join(token.text for token in tokens)) is not None


_AMENDING = expression(
    rf"\b(?:{_NUMBER}|not) in (?:the )?(?:first|last)\b|\bevery (?:\d|other|second|third|fourth|alt)"
    rf"|\b{_NUMBER} (?:incs?|decs?|increases|decreases)\b|\b(?:last|first) (?:2|two) (?:sts )?tog"
)
