"""The nearest known name to a word that is none.

Candidates are ranked by how few letters differ, as spelling correctors do (difflib's ratio).
"""

from difflib import get_close_matches

from tracker.notation.phrase.cursor import Context
from tracker.trade.stitches import STITCHES

_OTHERS = (
    "ch",
    "sk",
    "inc",
    "dec",
    "fpdc",
    "bpdc",
    "fpsc",
    "bpsc",
    "sc2tog",
    "dc2tog",
    "hdc2tog",
    "sl st",
    "rep",
    "turn",
)


def nearest(word: str, context: Context) -> str | None:
    """The known name closest to a word in the pattern's own terms, or None when none is close.

    >>> nearest("dbc", Context()) in ("dc", "hdc", "sc")
    True
    """
    uk = context.uk
    known = [row.uk if uk else row.name for row in STITCHES.values() if row.name not in ("tile", "p")]
    known += [special.name for special in context.specials.values()]
    known += _OTHERS
    found = get_close_matches(word, known, n=1, cutoff=0.5)
    return found[0] if found else None
