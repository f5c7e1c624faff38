"""Rings, joins and corners of rounds."""

from reworded.wording import Rewording

CORNER = r"\((\d) (dc|sc|hdc), ch (\d), \1 \2\)"

RINGS = (
    Rewording("into the ring", r"\bin (?:the )?ring\b", "into the ring"),
    Rewording("centre of ring", r"\bin (?:the )?ring\b", "in centre of ring"),
    Rewording("magic circle", r"\bmagic ring\b", "magic circle"),
    Rewording("MR", r"\b[Mm]agic ring\b", "MR"),
    Rewording("join to the first", r"join with sl st (?:in|to) first", "join with a slip stitch to the first"),
    Rewording("a join of its own", r"; join with sl st", ". Join with sl st"),
    Rewording("corner with plus", CORNER, r"(\1 \2 + ch \3 + \1 \2)"),
    Rewording("corner without commas", CORNER, r"(\1 \2 ch \3 \1 \2)"),
)  # fmt: skip
