"""A headline from the name of a row and what it does: one row makes, several rows make."""

import re

from tracker.expressions import expression

_SEVERAL = expression(r".*\b(?:rows|rnds|rounds)\b|.*\d\s*(?:[-–,&]|\band\b)\s*\d", re.IGNORECASE)
_SENTENCE = expression(r"(?:rep|repeat|work|cont|continue|dec|inc|decrease|increase)\b.*\s", re.IGNORECASE)
_QUOTED = 60
"""Letters of a row's words that are quoted."""
_PLURAL = {"has": "have", "is": "are", "goes": "go", "does": "do", "passes": "pass", "reaches": "reach"}


def headline(label: str, says: str) -> str:
    """The two as one sentence. `says` begins with a verb for one row, or is a sentence of its own.

    >>> headline("Row 4", "makes 23"), headline("Rows 4-10", "makes 23"), headline("Next 8 rnds", "has a hole")
    ('Row 4 makes 23', 'Rows 4-10 make 23', 'Next 8 rnds have a hole')
    >>> headline("Rep the last 2 rows 7 more times.", "makes 25, the pattern says 22")
    '“Rep the last 2 rows 7 more times” makes 25, the pattern says 22'
    >>> headline("Row 4", "there is no stitch left"), headline("Row 4", "which group is meant is not known")
    ('Row 4: there is no stitch left', 'Row 4: which group is meant is not known')
    """
    verb, _, rest = says.partition(" ")
    if _SENTENCE.match(label):
        # a row that has no other name than its own words is quoted
        words = label.rstrip(" .:")
        return f"“{words if len(words) <= _QUOTED else words[: _QUOTED - 1].rstrip() + '…'}” {says}"
    if verb in ("there", "the", "which"):
        return f"{label}: {says}"
    if _SEVERAL.match(label) and verb.endswith("s"):
        verb = _PLURAL.get(verb, verb[:-1])
    return f"{label} {verb} {rest}"
