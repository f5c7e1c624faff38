"""In whose words a piece is told: US or UK, for the right or the left hand.

A pattern's terms and a maker's wishes come in; a Speech goes out. `mirrored` turns a pattern's own directions round and
leaves every other "right" and "left" of the trade as it stands.
"""

import re

from tracker.expressions import expression
from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Speech:
    """How a maker wants to be spoken to."""

    uk: bool | None = None
    """True and False for UK and US words, whatever the pattern uses; None for the pattern's own."""
    left_handed: bool = False


_OTHER = {
    "left": "right",
    "right": "left",
    "clockwise": "counter-clockwise",
    "counter-clockwise": "clockwise",
    "counterclockwise": "clockwise",
    "anti-clockwise": "clockwise",
    "anticlockwise": "clockwise",
}
_DIRECTION = expression(
    r"\b(?:counter-?|anti-?)?clockwise\b"
    r"|(?:(?<=\bto )|(?<=\bfrom )|(?<=\bto the )|(?<=\bfrom the )|(?<=\bat the )|(?<=\bon the )"
    r"|(?<=\bat )|(?<=\byour )|(?<=\bupper )|(?<=\blower )|(?<=\btop )|(?<=\bbottom ))(?:left|right)\b(?! side| angle)"
    r"|\b(?:left|right)(?=(?:[- ](?:hand|handed|most|edge|corner)|most)\b)",
    re.IGNORECASE,
)
"""A side that is a direction: "right side", "stitches left" and "right away" are none."""


def mirrored(words: str) -> str:
    """A pattern's directions as the left hand has them.

    >>> mirrored("Join in upper right corner, work from right to left, right side facing; 3 sts left")
    'Join in upper left corner, work from left to right, right side facing; 3 sts left'
    >>> mirrored("Tail at lower left; join with the right-hand edge. Rounds go clockwise.")
    'Tail at lower right; join with the left-hand edge. Rounds go counter-clockwise.'
    """

    def other(hit: re.Match[str]) -> str:
        turned = _OTHER[hit.group().lower()]
        return turned[:1].upper() + turned[1:] if hit.group()[:1].isupper() else turned

    return _DIRECTION.sub(other, words)
