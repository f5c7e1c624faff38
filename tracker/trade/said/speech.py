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
    r"|\b(?:left|right)(?=(?:[- ](?:hand|handed|most|edges?|corners?|cross(?:ed|es)?|cables?|twists?|twisted|leaning"
    r"|slant(?:ed|ing)?|slope)|most)\b)"
    r"|(?<=\bleans )(?:left|right)\b|(?<=\bleaning )(?:left|right)\b|(?<=\bcross )(?:left|right)\b"
    r"|(?<=\bcable )(?:left|right)\b|(?<=\btwist )(?:left|right)\b",
    re.IGNORECASE,
)
"""A side that is a direction, or a lean of what is worked: "right side", "stitches left" and "right away" are none.

Parts of a garment keep the names they are printed with ("right front"): those are labels, and the sleeve that goes
with it is called by them.
"""
_LEFT_SIDE = expression(r"\b([Ll])eft side\b")


def mirrored(words: str) -> str:
    """A pattern's directions as the left hand has them.

    >>> mirrored("Join in upper right corner, work from right to left, right side facing; 3 sts left")
    'Join in upper left corner, work from left to right, right side facing; 3 sts left'
    >>> mirrored("Tail at lower left; join with the right-hand edge. Rounds go clockwise.")
    'Tail at lower right; join with the left-hand edge. Rounds go counter-clockwise.'
    >>> mirrored("2/2 Right Cross leans right; sc along left side of the Right Front")
    '2/2 Left Cross leans left; sc along right-hand side of the Right Front'
    """

    def other(hit: re.Match[str]) -> str:
        turned = _OTHER[hit.group().lower()]
        return turned[:1].upper() + turned[1:] if hit.group()[:1].isupper() else turned

    # "right side" would be the one that faces out
    return _LEFT_SIDE.sub(
        lambda hit: f"{'R' if hit[1] == 'L' else 'r'}ight-hand side", _DIRECTION.sub(other, words)
    )
