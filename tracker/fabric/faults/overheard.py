"""THE TABLES of words that were taken for a remark, or for nothing: which may tell of stitches, and which never do."""

import re

from tracker.expressions import expression

PHRASE = expression(r"\w[\w'’-]*(?:[ \t]+\w[\w'’-]*)*")
"""Words with nothing but blanks between them."""
TELLING = expression(
    r"\d|\b(?:ch|chs|chains?|links?|sts?|sps?|stitch(?:es)?|h?dc|sc|h?tr|count\w*|reckon\w*|sk|skip\w*|miss\w*|ignor\w*|next|each|"
    r"every|rep|repeat\w*|again|times|twice|goes|until|till?|inc\w*|dec\w*|two|three|four|five|six|seven|eight|nine|ten|"
    r"pair|double|another|short|less|fewer|more)\b"
)
"""What words say that may be worked."""
BESIDE = (
    *(
        "(",
        "[",
        "{",
        "being",
        "making sure",
        "taking care",
        "careful",
        "working in",
        "working behind",
        "working last",
    ),
    *("last dc in", "last sc in", "last tr in", "sl st in", "to join", "do not", "don't"),
    *(
        "thread",
        "sew",
        "pin",
        "turn to the right side",
        "turn to the wrong side",
        "along foundation ch",
        "along the foundation ch",
        "stuff",
        "pull",
        "fold",
        "mark",
        "place marker",
        "weave",
        "short ends",
        "between corners",
        "rs facing",
        "ws facing",
        "right side facing",
        "wrong side facing",
        "with rs facing",
        "with ws facing",
    ),
)
"""What begins words that are told beside the work."""
PLAIN_REMARK = frozenset(
    "to join around even top next corner end of rnd row round the a b c in as before for invisible foundation panel "
    "both loops now color colour at from on sew everything side tip any petal short long other up right left front "
    "back edge form make magic ring beg sp".split()
)
"""Words of remarks that are often heard and change nothing."""
OFTEN = frozenset(
    "times time x twice once thrice rep reps repeat repeated repeating from to end across around the last next st sts "
    "sc dc hdc tr ch chs sp sps more further in all total each stitch stitches and until remain remains left row round "
    "rnd rounds of corner again two three four five six seven eight nine ten for work do this along into ring".split()
)
"""Words that say how often."""
HOW_OFTEN = frozenset(("times", "x", "twice", "more", *map(str, range(100))))
REPEATS = expression(
    r"\W*(?:and\s+)?(?:rep|reps|repeat|repeating)\b(?!.*\bin(?:to)?\b)", re.IGNORECASE | re.DOTALL
)
OF_USE = expression(
    r"for\s+(?:(?:the|an?|each|first|second|third|left|right|other|next|back|front|one|and)\s+)*"
    r"(?:arm\s?holes?|underarms?|sleeves?|neck\w*|button\s?holes?|thumb\w*|straps?|handles?|openings?|slots?|ears?|legs?|"
    r"arms?|heels?|gussets?|fingers?|tails?|pockets?|brims?|bodice|body|fronts?|backs?|shoulders?|hoods?|flaps?|ties?)\W*$"
)
""" "for armhole": what stitches that are left or chains that are made are for."""
GOES_ON = expression(
    r"\b(?:rows?|rnds?|rounds?|rep\w*|times|twice|again|same|until|till|every|altern\w*|continu\w*|cont|more|next|as)\b"
    r"|\d\s*(?:-|–|to|and|&)\s*\d",
    re.IGNORECASE,
)
"""What words say that may tell of rows behind the one they stand in."""
REFERENCES = ("R304", "R303", "R301")
ANOTHER_SIDE = expression(
    r"\b(?:re-?join|re-?attach|join|attach)\b[^.;\n]{0,30}\byarn\b|\byarn\b[^.;\n]{0,30}\b(?:re-?joined|joined|attached)\b"
    r"|\b(?:second|2nd|other)\s+(?:side|half|shoulder|strap|front|leg|ear|flap)\b",
    re.IGNORECASE,
)
"""What begins another side, whose rows may be numbered as those of the first."""
MOST_NUMBERS = 2_000
"""Numbers of rows that are looked for."""
NUMBERED = expression(
    r"^\W{0,4}(?:(?:row|rnd|round|rd|r)s?\W{0,3}(\d{1,4})\b"
    r"|(\d{1,4})(?:st|nd|rd|th)?\b(?:\s*[-–—]\s*\d{1,4})?\W{0,2}(?:[.:)\]=–—-]|row|rnd|round))",
    re.IGNORECASE | re.MULTILINE,
)
"""A line that begins as a row does: "6-10. 30 scs", "7 = …"."""
ROWS_TOLD = expression(
    r"^\W{0,4}(?:[^.:;\n]{1,40}\bonly[:.]\s)?(?!rep|work|cont|as\b)[^.:;\n]{0,30}\b(?:rows?|rnds?|rounds?|rds?|r)\W{0,3}\d[^.:;\n]{0,40}",
    re.IGNORECASE | re.MULTILINE,
)
"""Rows of any size as a line begins with them: "Rows 7-9 (11, 13)", "Sizes L and XL only, Rows 10 and 11"."""
WORD = expression(r"[a-z']+")
OF_CHAINS = frozenset(
    "counts count counted counting as a an the is are equals your first st sts stitch dc tr htr hdc sc dtr trtr here "
    "plus and now throughout ch chs chain chains sp sps space spaces turning beg beginning does do doesn't don't not "
    "this will always for of in each row rows rnd rnds round rounds made stands it that which also both starting "
    "skipped missed last any row rows anywhere half double treble single crochet rest pattern or on one unworked base "
    "to stand sk skip here later hereafter below from fpdc bpdc fphdc bphdc".split()
)
"""Words that say what a turning chain stands for."""
WORKED = expression(r"\b(?:h?dc|sc|h?tr|dtr)\d?(?:tog)?\s+(?:in|into)\b")
PLAIN = ("sc", "hdc", "dc", "tr", "dtr", "tch", "even")
LIGHT = frozenset(
    "and then now & the a an of to in at with on it this so also you your work working w turn row round rnd".split()
)
"""Words that say nothing of their own."""
GROWTH = expression(
    r"\W*(?:thus\s+|so\s+|always\s+)?(?:having|adding|gaining|with)\s+(\d{1,3})\s+(?:(?:more|extra)\s+)?\w+\b[^.;]{0,60}"
    r"\b(?:each|every)\b",
    re.IGNORECASE,
)
"""What says how many more there are each time, and works nothing: "having 6 more dc on each row"."""
TURNED_ON = expression(
    r"(?:(?:then|and)\s+)?(?:ch(?:ain)?s?\s?\d|\d\s?ch)\b(?:\s*\([^()\n]{0,40}\))?[\s,;.]*(?:and\s+)?turn\b",
    re.IGNORECASE,
)
"""The chain of the row to come, which the last row of a part may tell though none follows: "ch 1, turn"."""
