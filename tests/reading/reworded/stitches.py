"""How a stitch and where it goes is told."""

from reworded.wording import Rewording

STITCHES = (
    Rewording("skip", r"\b([Ss])k\b", r"\1kip"),
    Rewording("sk", r"\b([Ss])kip\b", r"\1k"),
    Rewording("skip the next", r"\bsk(?:ip)?\s+next\b", "skip the next"),
    Rewording("in each of next", r"\b((?:sc|hdc|dc|tr)) in next (\d+)\b", r"\1 in each of next \2"),
    Rewording("in each of the next", r"\bin each of next\b", "in each of the next"),
    Rewording("the next", r"\bin next\b", "in the next"),
    Rewording("into", r"\b(sc|hdc|dc|tr)(\s+)in(\s+)(next|each|first|last|same|ring)\b", r"\1\2into\3\4"),
    Rewording("every", r"\b(sc|hdc|dc) in each (st|sc|dc|hdc)\b", r"\1 in every \2"),
    Rewording("glued number", r"\b(\d+) (dc|sc|hdc)\b(?= in)", r"\1\2"),
    Rewording("same stitch", r"\bin same st\b", "into the same stitch"),
    Rewording("same place", r"\bin same st\b", "in same place"),
    Rewording("2 in 1", r"\b2 (sc|dc|hdc) in (?:the )?next st\b", r"2 \1 in 1 st"),
)  # fmt: skip
