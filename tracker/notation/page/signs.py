"""What tells the jobs of lines apart: headings, foundations, definitions, rows told without a label.

A line comes in; a claim about it comes out.
"""

import re

from tracker.expressions import expression
from tracker.notation.definitions.head import head_of, letter_for_stitch
from tracker.trade.numbers import number_of
from tracker.trade.spellings import stitch_named


def _headings(words: str) -> frozenset[str]:
    """Headings parted by commas; "(s)" stands for with and without."""
    told = [heading.strip() for heading in words.split(",")]
    return frozenset(heading.replace("(s)", ending) for heading in told for ending in ("", "s"))


NOTES = _headings(
    "note(s), stitches, material(s), gauge, tension, abbreviation(s), abbreviation(s) used, abbrev, special stitch, "
    "special stitches, stitch key, stitch guide, stitch glossary, stitch used, stitches key, "
    "stitches guide, stitches glossary, stitches used, skill level, difficulty, size(s), finished size, "
    "finished measurement(s), measurement(s), yarn, hook(s), supplies, notions, you need, you'll need, you will need, "
    "what you need, term(s), terminology, key, glossary, tool(s), equipment, before you start, before you begin, "
    "about, pattern notes, special technique(s), technique(s), color(s), colour(s), designer note(s), "
    "designer's note(s), designers note(s), designer' note(s)"
)
"""Headings above materials, notes or abbreviations."""
LISTS = expression(
    r"\W*(?!(?:us|uk|american|british|written|in)\b)(?:[\w-]+ ){1,2}"
    r"(?:terms|key|abbreviations|shorthand|legend|symbols)\W*(?<!\.)",
    re.IGNORECASE,
    ["terms", "key", "abbreviations", "shorthand", "legend", "symbols"],
)
"""Other headings above abbreviations: "Filet terms", "Colour key"."""
WORKING = _headings(
    "instruction(s), direction(s), pattern, the pattern, method, to make, begin, let's go, let's begin, let's start, "
    "how to make it"
)
"""Headings above the rows."""
FINISHING = _headings(
    "finishing, assembly, making up, to finish, to make up, to assemble, blocking, sewing up, putting it together, "
    "putting it all together, make up, joining, construction, assembling, care"
)
"""Headings above what is done when the rows are worked."""
_WORDS = expression(r"\w(?:.*\w)?")


def heading_words(line: str) -> str:
    """A line in small letters without the signs about it, to be looked up among headings; "" for a long one.

    >>> heading_words("** Special Stitches: **") in NOTES
    True
    """
    hit = _WORDS.search(line) if len(line) < 60 else None
    # "Stitch key (US)"
    return hit.group().lower().split(" (")[0] if hit else ""


MAKE = expression(
    r"\(?\s*(?:make|work|crochet)\s+(?P<n>\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten"
    r"|twelve)\b[^)]*\)?|[×x]\s?(?P<x>\d{1,3})\s*\)?\s*:?$|\(\s*[×x]?(?P<y>\d{1,2})\s*[×x]?\s*\)\s*:?$",
    re.IGNORECASE,
    ["make", "work", "crochet", "x", "("],
)
""" "(make 2)", "x 4" behind the name of a part."""
_OPEN_BRACKET = expression(r"\s*\(([^()]+)$")


_LISTED = expression(r"(?:[A-Za-z]|\d{1,2}|[IVX]{1,4})[.)]\s+(?=[A-Z])")
"""The letter or number by which parts are listed: "A) Pot", "2. Lid"."""


_LED_NAME = expression(
    r"(?:(?:for|to\s+(?:make|work)|making|working|begin)\s+)?the\s+(?P<name>[a-z][a-z'-]+(?:\s[a-z][a-z'-]+)?)$",
    re.IGNORECASE,
)
"""What may stand before the name of a part: "For the back", "The Brim"."""


def part_told(line: str) -> str:
    """The name of a part without how many to make of it.

    >>> part_told("EARS (make 2)"), part_told("Arm (black, make 2)"), part_told("Fin (make 2, grey)")
    ('EARS', 'Arm (black)', 'Fin')
    >>> part_told("For the left front:"), part_told("The Brim")
    ('Left front', 'Brim')
    """
    told = _LISTED.sub("", MAKE.sub("", line).strip(" :–—-.*_=~#(,;>").strip())
    if (led := _LED_NAME.match(told)) is not None:
        told = led["name"].capitalize()
    return _OPEN_BRACKET.sub(lambda hit: f" ({hit[1].strip(' ,;')})", told)


_MAKE_SO_MANY = expression(
    r"(?:^|[.;:(]\s*)(?:make|work|crochet)\s+(?P<n>\d{1,4}|[a-z]+(?:-[a-z]+)?)"
    r"(?:\s+(?:more|small|large|granny|these|such))*(?:\s+(?P<noun>square|motif|coaster|hexagon|triangle|circle"
    r"|flower|leaf|star|heart|snowflake|panel|strip|tile|patch|piece|cloth|washcloth|mitten|mitt|cuff|slipper|sock"
    r"|bag|wing|ear|arm|leg|sleeve|petal|medallion|block)e?s\b|\s*(?:in all|alike)?\s*(?=[.;)]|$))",
    re.IGNORECASE,
)
""" "Make 30 squares", "Make 4." in what stands before the first row."""
TELLS_OF_CHAINS = expression(
    r"\s*(?:ch(?:ain)?s?[\s-]*\d+|\d+[\s-]*ch)\s*\)?\s*(?:at\b|counts?\b|does\b|do\b|is\b|are\b|stands?\b|always\b|never\b|throughout\b|=)",
    re.IGNORECASE,
)
"""A note about turning chains, not a chain to be made: "Ch 3 counts as dc throughout"."""

_FOUNDATION_STITCHES = (
    r"(?:fsc|fhdc|fdc|ftr|foundation\s+(?:s\.?c|h\.?d\.?c|d\.?c|tr|single|half|double|treble))\b"
)
_OTHER_SIZES = r"(?:\s*[(\[{](?:[\d\s,:;-]|(?-i:[–—]))+[)\]}]|\s?[:/]\s?\d+)*"
SETUP = expression(
    r"^\s*(?:[-*]\s+)?(?:(?:first(?:ly)?|first of all|now|you)\b,?\s+(?=make|ch|work|start|begin)){0,2}"
    r"(?:(?:beg(?:\.|in(?:ning)?)?|start(?:ing)?|commenc(?:e|ing))\s+(?:at|from)\s+[^.;:,\n]{2,40}[,:]\s+)?"
    r"(?:set\s+up\s+(?=\d))?(?:(?:to\s+)?(?:begin(?:ning)?|start(?:ing)?)\s*(?:with|by)?\s*[:,]?\s*)?(?:(?:foundation"
    r"|base|beginning|starting|set-?up|beg)(?:\s+(?:ch|chain|ring|row))?(?:\s*\([RW]S\))?\s*(?:[:.-]\s*|[—–]\s*))?"
    r"(?:(?:with|using|in|holding|hold)\b(?:[^.;:]|\.(?=\d)){0,80}?(?:[,:]\s*|\s+))?(?:(?:(?:colou?r|yarn"
    r"|shade|main colou?r)\s?\w{0,10}|(?-i:[A-Za-z])|MC|CC\d?)\s*:\s*)?(?:loosely\s+)?"
    r"(?:(?:(?:make|work|create)\s+)?(?:a\s+)?(?:(?:foundation|starting|base|beginning|loose)\s+)?ch(?:ain)?\s+of\s+\d"
    r"|chaining\s+\d|(?:gather|collect|dial|crochet)\s+(?:a\s+chain\s+of\s+\d|\d+\s*ch(?:s|ains?)?\b)|(?:cast\s+on|mount|make|work)\s+(?:(?:a\s+)?chain\s+of\s+)?\d+\s*(?:ch\b|chain\b|\+)|cast\s+on\s+\d|mount\s+(?:a\s+chain\s+of\s+)?\d|ch(?:ain)?s?\.?\s*(?:a\s+|loosely\s+|on\s+|-\s?)?\d|ch(?:ain)?\s+a\s+multiple|(?:commence|start|begin)\s+with\s+\d+\s*ch|commence\s+with\s+\d"
    r"|make\s+\d(?:[\d\s:(){},\[\]-]|(?-i:[–—]))*ch|make\s+(?:a\s+|an\s+)?(?:magic|adjustable|slip\s?knot|\d+\s*ch"
    r"|chain|loop|foundation|sliding)|magic\s+(?:ring|circle|loop)"
    r"|mr\b(?!\s*(?:=|[:–—-]\s*(?:an?\s+)?(?:magic|adjustable)))"
    r"|mc\b(?=[,:;]?\s*(?:of\s+)?\d+\s*(?:sc|hdc|dc|tr)\b|[,;:]\s*ch\s?\d[^\n]{0,70}\b(?:ring|circle)\b)"
    r"|\d+(?:\s*[(\[{](?:[\d\s,:;-]|(?-i:[–—]))+[)\]}])*\s*ch\b|work\s+\d+\s*ch|"
    r"(?:work\s+)?\d+\s*(?:sc|hdc|dc|tr)\s+in(?:to)?\s+(?:an?\s+|the\s+)?(?:magic|mr\b|adjustable)|"
    rf"{_FOUNDATION_STITCHES}\s+\d|(?:(?:work|make|crochet)\s+)?(?:a\s+(?:foundation\s+)?row\s+of\s+)?\d+{_OTHER_SIZES}\s*{_FOUNDATION_STITCHES}"
    r"|ch(?:ain)?\s+(?:one|two|three|four|five|six"
    r"|seven|eight|nine|ten|eleven|twelve|\w{3,5}teen|twenty|thirty|forty|fifty|sixty)|(?:begin|start)\s+with\s+(?:a\s+)?(?:magic|ch)"
    r"|(?:make|form|work|create)\s+an?\s+(?:[a-z]+\s+)?(?:ring|circle|loop)\s+(?:of|with|from|out\s+of)\s+(?:\d|six|eight|five|four)"
    r"|[*(\[]\s?ch(?:ain)?\s\d+,\s[^)\]\n]{3,90}\b(?:hook|hk)\b[^)\]\n]{0,90}(?:[)\]]\s?(?:[x×]\s?)?\d|[;,]\s?rep)"
    r"|form\s+a\s+ring|wind\s+yarn|wrap\s+yarn)",
    re.IGNORECASE,
)
"""A foundation: "Ch 22", "With A, make a magic ring"."""
NAMED_SETUP = expression(
    r"^\s*(?![A-Za-z' -]{0,24}\bpicots?\s*:)"
    r"(?:Step\s+\w+\s*[—–:-]\s*)?[A-Za-z][A-Za-z' -]{2,24}:\s*(?:(?:with|using)\s[^.;:,]{1,30},\s*)?"
    r"(?:(?:make\s+)?\d+\s*ch(?:ains?)?\b|ch(?:ain)?\s*\d[\d\s(),\[\]–—-]*(?:sts?)?|(?:make\s+a\s+)?magic\s+(?:ring|circle|loop))"
    r"(?:\s*[;,.]\s*(?:without|being|taking|making|careful|and\s+join|join|close|sl|slip|ss|to\s+form)\b[^:\n]*)?\s*\.?\s*$",
    re.IGNORECASE,
)
"""A foundation behind the name of its piece: "Panel: Ch 26."; "Picot: ch 3, sl st in 3rd ch from hook" makes none."""
_NAMED_PIECE = expression(
    r"[\s*~=>#_]{0,12}(?P<name>(?-i:[A-Z][A-Za-z' -]{2,24}?))\s*(?P<make>\([^)\n]{1,20}\))?\s*"
    r"(?::|\s(?:-|[–—]|[*~=|>]{1,4})\s)\s*"
    r"(?P<rest>(?:(?:with|using|in)\s[^.;:,]{1,30},\s*)?(?:ch|chain|make|mr|mc|magic|start|\d+\s*(?:sc|hdc|dc|tr))\b.*)",
    re.IGNORECASE | re.DOTALL,
)


_RING_OR_HOOK = expression(
    r"\b(?:hook|mr|mc|magic|ring)\b", re.IGNORECASE, ["hook", "mr", "mc", "magic", "ring"]
)


def piece_told(line: str) -> re.Match[str] | None:
    """The name of a piece and what is worked for it, where one line tells both: "Stem: Ch 6. Sl st in 2nd ch …".

    >>> piece_told("Stem: Ch 6. Sl st in 2nd ch from hook and in next 4 ch.")["name"]
    'Stem'
    >>> piece_told("Picot: Ch 3, sl st in 3rd ch from hook.") is None
    True
    """
    hit = _NAMED_PIECE.match(line)
    if hit is None or not hit["name"][0].isupper() or not SETUP.match(hit["rest"]):
        return None
    words = hit["name"].lower().split()
    if stitch_named(" ".join(words), False) or words[-1] in _NO_PIECE or heading_words(hit["name"]) in NOTES:
        return None
    if words[0] in ("for", "to", "then"):
        # "For tie: ch 40, sl st in 2nd ch from hook …": how the piece is finished
        return None
    return hit if _RING_OR_HOOK.search(hit["rest"]) else None


_NO_PIECE = frozenset(
    "st stitch sts picot shell cluster popcorn bobble puff fan v ring circle dec inc decrease increase row rnd round "
    "rows rnds rounds chain foundation begin start next base setup set-up".split()
)
"""What the name of no piece ends with."""
_FORM_PATTERN = (
    r"(?:the\s+|these\s+|last\s+){0,2}(?:(?:rows?|rnds?|rounds?)\s*\d[\d\s,&-]*(?:(?:to|and|through)\s+\d+\s+)?"
    r"|(?:\d{1,2}|two|three|four|six|eight)\s+(?:rows|rnds|rounds)\s+"
    r"|\d+(?:st|nd|rd|th)\s+(?:(?:to|and|-|&)\s+\d+(?:st|nd|rd|th)\s+)?rows?\s+|(?:this|patt(?:ern)?)\s+row\s+)"
    r"(?:form|set|establish|make|are)s?\b[^.;,]{0,30}\b(?:patt?(?:ern)?|fabric)\b"
)
"""Rows said to be the pattern: "These 4 rows form the pattern"."""
RERUN = expression(
    r"^\s*(?:[-*]\s*)?(?:do\s+not\s+turn[.,;]\s*)?"
    r"(?:(?:from here(?: on)?|after (?:this|that)|then|now|just|simply|and|so)\b,?\s+){0,3}"
    r"(?:keep(?:ing)?\s+(?:the\s+|in\s+)?patt(?:ern)?\s+(?:correct|as\s+set|straight|going|constant)\s*[,;:]?\s*)?"
    r"(?:(?:(?:keep\s+)?(?:on\s+)?rep(?:eat(?:ing)?)?|continue|cont|work|(?:keep\s+)?alternat(?:e|ing)"
    r"|do(?=\s+this)|(?:keep|carry|go)\s+(?:going|on)\s+(?:with|repeating|working))\b"
    r"[^.:;]{0,84}?\b(?:(?:rows?|rnds?|rounds?)\b|r\s?\d)"
    r"|(?:finish|end)(?:\s+off)?\s+with\s+(?:a|one|two|1|2)\s+(?:final\s+|last\s+|more\s+)?(?:rows?|rnds?|rounds?)\s+(?:of|in)\b"
    r"|rep(?:eat)?\s+(?:the\s+)?(?:last|these)\b|work\s+even\b|work\s+(?:a\s+further\s+|another\s+)?\d[\d\s(),:/\[\]{}–—-]*\s*"
    r"(?:more\s+|further\s+)?(?:rows?|rnds?|rounds?)\b|for\s+(?:the\s+)?(?:next\s+)?\d[\d\s(),:/\[\]{}–—-]*\s*(?:rows?|rnds?|rounds?)\b"
    r"|work\s+\d+\s+(?:more\s+|further\s+)?(?-i:[A-Z])[a-z'-]+\s+(?:(?-i:[A-Z])[a-z'-]+\s+)?(?:rows|rnds|rounds)\b"
    r"|next\s+\d+\s+(?:rows?|rnds?|rounds?)|(?:a\s+further\s+|another\s+)?(?:\d{1,3}|one|two|three|four|five|six)\s+(?:more\s+)?(?:rows?|rnds?|rounds?)\s+(?:even|straight)\b"
    r"|(?:pattern\s+|patt\s+)?rows?\s+\d[\d\s,&-]*(?:(?:to|and)\s+\d+\s+)?(?:again|once|twice|(?:another\s+)?\w+\s+(?:more\s+)?times)\b"
    rf"|{_FORM_PATTERN}[.;,]?\s+(?:and\s+)?(?:rep|cont|work)"
    r"|(?:continue|cont|work)\s+(?:straight|even|without\s+shaping|in\s+(?:the\s+|est\w*\s+)?patt\w*)\b"
    r"|(?:(?:cont|continue)\s+to\s+)?(?:inc|dec)(?:rease)?(?:ing)?\s+[^.:;]{1,20}\s"
    r"(?:(?:at|on)\s+(?:each|both|(?:the\s+)?[a-z]{2,12}\s+edge)|(?:each|both)\s+ends?)\b)",
    re.IGNORECASE,
)
"""A row without a label that works others again: "Repeat the last 2 rows", "Work even"."""
BEGUN = expression(
    r"\s*(?:with\s+(?:the\s+)?(?:RS|WS|right side|wrong side)[^.,;]{0,40}[,;]\s*)?"
    r"(?:(?:skip|sk|miss|leave)\s[^.;]{1,60}?,?\s*(?:and\s+|then\s+)?)?(?:re-?)?(?:join|attach)(?:ing)?\s[^.;]{2,80}?"
    r"(?:[,;.]\s*|\s(?:and|then)\s+)(?:(?:work|make)\s+)?(?:ch(?:ain)?[\s-]?(?:\d|one\b|two\b|three\b|four\b)|\d\s?ch(?:ain)?\b)",
    re.IGNORECASE,
)
"""How a row begins that has no label: yarn is joined, and a chain made."""
STARTERS = expression(
    rf"^\s*(?:{_FORM_PATTERN}|fasten|finish|fo\b|end off|cut\b|break|stuff|fill(?:ing)?\b(?!\s+in)|weave|insert"
    r"|block\b|sew|attach"
    r"|place (?:the )?(?:safety|eyes)|put|note|optional|tip|close|pull|thread|leave|fold|flatten"
    r"|turn (?:right|inside)|if\b|"
    r"sl(?:ip)?\s+st(?:itch)?\s+(?:the\s+)?(?:last|short|ends?|sides?|edges?|brim|both|two|seam)\s+(?:row|ends?|sides?|edges?|of|to|tog)|"
    r"now\s+(?:work|working|you|we|continue|begin|start)\b[^.*]{0,40}"
    r"\b(?:rows?|rounds?|rnds?|back and forth|spiral|flat)|"
    r"(?:these|those|the\s+(?:last|above)|last|rows?)\b[^.\n]{0,40}\b(?:forms?|sets?|establish\w*|makes?)\b[^.\n]{0,12}\spatt\w*|"
    r"(?:re-?)?(?:join|attach)\b[^.,;]{3,80}\b(?:loops?|lps?|unworked|skipped)\b[^.,;]{0,40}(?=\.\s*$)|"
    r"(?:without\s+turning,?|now|finally,?)\s+(?:work\s+)?(?:sc|dc|single\s+crochet|double\s+crochet)\s+evenly\s+(?:all\s+)?around|"
    r"do not fasten|don't fasten|make sure|repeat for|steam|wash|join (?:the )?(?:squares|pieces"
    r"|motifs)|embroider|mark\b|lay\b|press|pin\b|add\b|remember|switch|change|for (?:the )?(?:first"
    r"|second|other)|with (?:right|wrong|RS|WS)|holding)\b",
    re.IGNORECASE,
)
"""What begins a sentence that works no row."""
CONTINUES = expression(r"^\s*(?:[(\[{]|[—–=]|-\s|\d+\s+(?:sts?|sc|dc|hdc|tr)\b)")
"""What goes on with the row above, though a blank line stands between."""
_STITCHY = expression(
    r"\b(?:\d+\s*(?:sc|dc|hdc|tr|htr|ch|sts?)|(?:sc|dc|hdc|tr|htr|ch)\s*\d|in (?:next|each)|sk\b|rep\b)\b",
    re.IGNORECASE,
)
"""Words of a row, which no name of a part holds."""


_TOLD = expression(
    r"\W*(?:us|u\.s\.|uk|u\.k\.|american|british)\s+(?:crochet\s+)?term\w*(?:\s+(?:used|throughout))?\W*$"
    r"|\W*(?:sizes?|gauge|tension|hooks?|yarn|materials?|skill level|difficulty|finished size|measurements?"
    r"|colou?rs?)\s*[:–—-]\s*\S|\W*(?:with|using|in)\s+(?-i:[a-z-]{3,12}(?:\s[a-z-]{3,12}){0,3})\W*$"
    r"|\W*(?:with|using|in)\s+(?:colou?r\s+|yarn\s+)?(?:[A-H]|MC|CC\d?)\W*$",
    re.IGNORECASE,
)
"""What looks like the name of a part and is none: "Sizes: S (M, L)", "With A:", "In dark green"."""


_BEHIND_DASH = expression(r"([A-Z][A-Za-z' ]{1,20})\s[–—-]\s+[a-z][a-z ,&/-]{2,40}$")


def named_alone(words: str) -> str:
    """The name of a part without what is said of it behind a dash: "Head - orange, then white".

    >>> named_alone("Head - orange, then white"), named_alone("Body – Rnd 1")
    ('Head', 'Body – Rnd 1')
    """
    hit = _BEHIND_DASH.match(words)
    return hit[1] if hit else words


_GROWING = expression(
    r"\s*(?:Increasing|Decreasing|Increase|Decrease|Growing|Shrinking)(?:\s+(?:rows?|half|section))?\s*:?\s*"
)
"""Headings of the halves of a piece worked from corner to corner."""


_SIDE_OF = expression(
    r"(?:first|second|other|left|right)\s+(?:side|half|shoulder|edge)\s+of\s+(?:the\s+)?[a-z]+$",
    re.IGNORECASE,
)
""" "Second side of neck"."""


def heading(text: str, above_blank: bool, ended: bool) -> bool:
    """True when a line looks like the name of a part."""
    if _TOLD.match(text):
        return False
    bare = named_alone(part_told(text))
    if not bare or len(bare) > 48 or len(bare.split()) > 7:
        return False
    if not re.match(r"[A-Za-z0-9]", text.strip(" *_#~=•·|<>–—-")):
        return False
    if text.rstrip().endswith((".", ",", ";")) or "*" in bare or _STITCHY.search(bare) and not bare.isupper():
        return False
    if re.search(r"\d\s*(?:cm|mm|in|\")|[=]", bare):
        return False
    if STARTERS.match(bare) and not bare.isupper():
        return False
    if _GROWING.fullmatch(text):
        return True
    letters = [letter for letter in bare if letter.isalpha()]
    upper = all(letter.isupper() for letter in letters) and len(letters) > 2
    words = [w for w in re.split(r"[\s/&-]+", re.sub(r"\([^)]*\)", "", bare)) if w]
    small = {"and", "of", "the", "for", "to", "with", "in", "a", "on", "or", "from"}
    named = (
        bool(words)
        and words[0][:1].isupper()
        and (
            all(w[0].isupper() or w.lower() in small or w[0].isdigit() for w in words)
            or len(words) <= 3
            or _SIDE_OF.match(bare) is not None
        )
    )
    if upper:
        return True
    return named and (above_blank or ended or text.rstrip().endswith(":") or MAKE.search(text) is not None)


def defines(line: str) -> bool:
    """True when the body of a line that looks like a definition speaks of stitches."""
    hit = head_of(line)
    if hit is None:
        return False
    body = hit["body"]
    if len(hit["name"].split()) > 4 and hit["mark"].strip() not in ("=", ":"):
        return False
    return letter_for_stitch(hit) or bool(
        re.search(
            r"\b(?:\d+\s*\w*(?:sc|dc|tr|htr|hdc)s?\b|yo\b|yrh|yoh|insert hook|(?:single"
            r"|double) crochets?\b|half (?:double|treble)|treble|(?:sc|dc|tr|hdc|htr|ch|sl st"
            r"|ss)\b.*\b(?:in|into|through|between|under|ch|tog|same)\b"
            r"|\d r\w*tr[fb]\b"
            r"|[fb]p(?:sc|hdc|dc|d?tr)\b.*\b(?:around|next)\b|(?:sc|dc|hdc|tr)\d?tog|decrease|increase|ch(?:ain)? \d"
            r"|\d ch(?:ains?)?\b|yarn over)",
            body,
            re.IGNORECASE,
        )
    )


def many_of(hit: re.Match[str]) -> int:
    """How many of a part to make."""
    word = hit["n"] or hit["x"] or hit["y"] or "1"
    return max(1, min(number_of(word) or 1, 9999))


def copies_noted(notes: tuple[str, ...]) -> int:
    """How many of the piece to make, as a note says it; 1 where none does.

    >>> copies_noted(("Thick little squares. Make 4.",)), copies_noted(("Make 30 squares.",))
    (4, 30)
    >>> copies_noted(("Make 4 bobbles in each row.",))
    1
    """
    for note in notes:
        if hit := _MAKE_SO_MANY.search(note):
            return max(1, min(number_of(hit["n"].lower()) or 1, 9999))
    return 1


def noun_of(note: str) -> str:
    """What one of several copies is called, as a note or a title says it: "square"; "" where it is not said."""
    hit = _MAKE_SO_MANY.search(note)
    return (hit["noun"] or "").lower() if hit else ""


COUNTED = expression(
    r"(?:[(\[{]\s*=?\s*\d[^()\[\]{}]{0,70}(?:[(\[{][^()\[\]{}]{0,30}[)\]}][^()\[\]{}]{0,30})?[)\]}]"
    r"|\s[—–=|-]+\s*\d+\s*[\w-]{0,16}(?:[,;]?\s*(?:and\s+)?\d+\s*[\w-]{1,16}(?:\s+sps?)?){0,4}"
    r"|[.;]\s+\d+\s*(?:sts?|stitches|sc|hdc|dc|htr|tr))\s*[.;]?\s*$"
)
_NUMBER_ALONE = expression(r"[(\[{]\s*=?\s*\d+\s*(?:sts?|sc|hdc|dc|tr|htr|stitches)?\s*[)\]}]\s*\.?\s*$")
_BELONGS_TO_ROW = expression(
    r"\s*(?:turn|join(?!\s+(?:yarn|new))|do not|don't|ch|chain|fasten|finish(?:ed)? off|fo\b|end off|cut|break|chang"
    r"|rep(?:eat)?\b(?!\s+(?:dec|inc|sc|hdc|dc)\w*\s+(?:around|in\b))"
    r"|(?:sl(?:ip)?[ -]?st(?:itch)?|ss) (?:in|into|to) (?:the )?(?:first|top|beg|\d)|close|mark|place"
    r"|pm\b|move|with|now|next row|leave|in\b|into\b|times|twice|around|across|and\b|\W)",
    re.IGNORECASE,
)


TURNS_CORNER = expression(
    r"\W{0,4}(?:(?:now|here|from\s+(?:here|now)(?:\s+on)?|at\s+this\s+point|next)[,:]?\s+)?(?:we\s+|you(?:'ll|\s+will)?\s+)?"
    r"(?:(?:begin|start)(?:ning|ing)?\s+(?:to\s+)?(?:the\s+)?(?:dec|inc)reas\w+\b(?![^.\n]{0,60}\buntil\b)"
    r"|(?<=\w\s)(?:dec|inc)reas\w+\s+(?:on|at)\s+(?:both|each|either|one|the)\s+(?:sides?|ends?|edges?)\W*$"
    r"|(?:(?:first|second|this is the|the|a)\s+)?corner\s*(?:[—–:.!-]|\(|reached|turned|made)"
    r"(?!\s*[\w ]{0,12}\b(?:ch|sc|dc|hdc|tr)\b))",
    re.IGNORECASE,
    ["eas", "corner"],
)
"""A remark between rows of tiles: "* Corner - begin to decrease at both ends"."""


def behind_the_count(above: str, line: str) -> bool:
    """True for a line that works nothing of the row above it, because that has told its count and ended.

    >>> behind_the_count("R7: *hdc in next 5, inc* x6. (42)", "sc in next st, sl st in next 2 sts. fasten off.")
    True
    """
    above = above[-200:]
    if not COUNTED.search(above) or _BELONGS_TO_ROW.match(line):
        return False
    return line.lstrip()[:1].isupper() or _NUMBER_ALONE.search(above) is not None
