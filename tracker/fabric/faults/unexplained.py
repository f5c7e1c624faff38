"""T104 — allow no stitch of the pattern's own that the pattern never tells of.

A name that stands where a stitch would, that the trade does not know, and that stands nowhere but where it is worked,
has lost its definition. A name that the notes so much as mention is left: what they say of it may be a definition in
words that are not read, and the pattern right.

    Row 3: Ch 1, turn, *wave st in next sc, sk next sc; rep from * across.     “wave st” is a stitch told of nowhere
    Wave st: (dc, ch 1, sc) in one st. … Row 3: Ch 1, turn, *wave st in …                                 (mended)
"""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.pattern import Pattern, Row
from tracker.problems import Source, Span
from tracker.trade.spellings import stitch_named

_STITCH = expression(
    r"(?:(?:and|work|make|then)\s+)?(?P<many>\d+\s+)?"
    r"(?P<name>(?:\d/\d\s?)?[a-z][a-z0-9]*(?:[ -][a-z][a-z0-9]*){0,2}?)"
    r"(?P<place>\s+(?:all\s+)?(?:in(?:to)?|around|round|over|across|through)\s+(?:the\s+)?"
    r"(?:each\s+(?:of\s+)?)?(?:the\s+)?"
    r"(?:next|each|every|first|last|same|following|foll|top|center|centre|middle|ch-?\d|\d{1,3}|st|sc|dc|hdc|tr|htr|ring)\b"
    r"|\s+(?:in|into)\s+(?:the\s+)?\d(?:st|nd|rd|th)\s+ch\b"
    r"|\s+\d+\s+times\b|(?P<often>\s*[x×]\s*\d)|\s*$)",
    re.IGNORECASE,
)
""" "2 wave sts in next sp", "X-st 10 times", "3 blk"."""
_STITCHES = frozenset(
    "st sts stitch stitches cl cls cluster clusters v vs vst fan fans shell shells bobble bobbles puff puffs popcorn "
    "popcorns cable cables twist scallop scallops petal petals wave waves leaf leaves block blocks mesh meshes space "
    "bl bls blk blks bk bks".split()
)
"""What the name of a stitch ends with."""
_SQUARES = frozenset("block blocks mesh meshes space bl bls blk blks bk bks".split())
"""Of these a pattern has several, or none that it explains."""
_NO_NAMES = frozenset(
    "a an the in into to of for from and or as at by with on work make next each every first last same any all both "
    "front back left right rep repeat row rows rnd rnds round rounds turn join ch chs chain chains sk skip miss st sts "
    "stitch stitches sp sps space spaces lp lps loop loops corner corners marker color colour yarn hook end ends side "
    "edge beg beginning starting start more times time another one two three this that these those center centre mc cc "
    "bead beads button buttons sequin sequins marker markers pin pins eye eyes tassel tassels hole holes motif motifs "
    "strand strands it them wrong sl slst ss knot knots piece panel needle stuffing ring".split()
)
"""Words that no name begins with: they say which, or of what."""
_COLOURS = expression(
    r"\b(?i:with|in|to|col|colou?rs?|yarn|join|attach|change|using|and|from|each|strands?\s+of)\s*[A-F]\b(?!\s+in)"
    r"|[(\[]\s*[A-F]\s*[)\],]|\b[A-F]\s*[:=–—]|\b\d\s?[A-F]\b\s*,|\b[A-F]\s*,\s*[A-F]\b"
)
""" "With A", "(B)", "3 A, 2 B": letters that name yarns."""
_LETTERS = expression(r"\b[A-F]\b")
_CABLE = expression(r"(?:[a-z]{1,3}\d{1,2}[flrb]|[ct](?:4|6|8|10|12))", re.IGNORECASE)
""" "C4F", "T3B", "C6": a name by its look, also with no place behind it."""
_OFTEN = 2
"""Times that a word must be worked to be a name, if it is none that stitches are called by."""
_MOST = 24
"""Letters of a name."""
_DEFINED = r"\s*(?:[(\[=:–—]|-\s|of\b|made\b|is\b|means\b|stands\b|completed\b|formed\b)"
_TITLE = 80
"""Letters of a title, which names stitches and defines none."""


def unexplained(words: str, span: Span, pattern: Pattern, source: Source) -> Span | None:
    """The name in words that were not read, where nothing tells what it is; None where something may, or none is there.

    `span` is where the words stand.
    """
    hit = _STITCH.match(words)
    if hit is None or len(hit["name"]) > _MOST:
        return None
    parts = re.split(r"[ -]", hit["name"].lower())
    cable = _CABLE.fullmatch(hit["name"]) is not None
    placed = bool(hit["place"].strip()) and not hit["often"] or cable
    looped = parts[0] in ("lp", "loop") and parts[1:] in (["st"], ["sts"], ["stitch"])
    plain = parts[0] in _NO_NAMES and not looped and hit["name"] != "A"
    if plain or stitch_named(hit["name"], pattern.uk) is not None:
        return None
    if not cable and parts[-1] not in _STITCHES and hit["place"].split()[:1] not in (["in"], ["into"]):
        # "leap over next 2 sc" is a deed
        return None
    if len(hit["name"]) == 1 and hit["name"] in "ABCDEF":
        # a yarn has such a name too, and "a" is a word
        # where A and B are yarns, C may be one too, and D hardly
        yarns = {
            letter for told in _COLOURS.finditer(source.text) for letter in _LETTERS.findall(told.group())
        }
        yarn = bool(yarns) and ord(hit["name"]) <= ord(max(yarns)) + 1
        often = int(placed and not yarn)
    else:
        often = _is_a_name(parts, placed, hit["many"] is not None, pattern)
    if not often or not often <= _worked(hit["name"], pattern, source):
        return None
    start = span.start + hit.start("name")
    return Span(start, start + len(hit["name"]))


def _is_a_name(parts: Sequence[str], placed: bool, counted: bool, pattern: Pattern) -> int:
    """How often what is called as stitches are must be worked to be one; 0 for what is none."""
    if parts[-1] in _SQUARES:
        # how wide a square is only the pattern can say, and one that explains others means to explain all
        return int(counted and len(parts) == 1 and any(special.base for special in pattern.specials))
    if not placed:
        return 0
    if parts[-1] in _STITCHES:
        return 1
    if len(parts) > 1:
        return 0
    # a letter, or a word, where a place follows
    return (
        int(parts[0] not in "abcdefo") if len(parts[0]) == 1 else 1 if _CABLE.fullmatch(parts[0]) else _OFTEN
    )


def _worked(name: str, pattern: Pattern, source: Source) -> int:
    """How often a name stands in rows; 0 where the text says more of it, be it a word of it outside of the rows."""
    text = source.text
    stem = re.sub(r"(?:es|s)$", "", name.lower()) if len(name) > 3 else name.lower()
    loose = r"[\s-]*".join(re.escape(part) for part in re.split(r"[\s-]+", stem))
    calls = expression(rf"(?<![\w-]){loose}(?:e?s)?(?![\w])", re.IGNORECASE)
    inside = [(row.label_span.start, row.span.end) for row in pattern.blocks if isinstance(row, Row)]
    begin = min(len(text.split("\n", 1)[0]), _TITLE)
    many = 0
    for hit in calls.finditer(text):
        if not any(start <= hit.start() < end for start, end in inside):
            if hit.start() >= begin:
                return 0
        elif (
            re.match(_DEFINED, text[hit.end() : hit.end() + 12], re.IGNORECASE)
            or text[hit.start() - 1 : hit.start()] in ("(", "[")
            and text[hit.end() : hit.end() + 1]
            in (
                ")",
                "]",
            )
        ):
            return 0
        else:
            many += 1
    return many
