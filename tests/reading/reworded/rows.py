"""Labels, counts and rows that are worked again."""

from reworded.wording import Rewording

COUNT = r"\((\d+) (sc|hdc|dc|sts?)\)(?= ?\n)"
"""A count at the end of its line."""

ROWS = (
    Rewording("Round", r"(?m)^Rnd (\d+)( \([RW]S\))?:", r"Round \1\2:"),
    Rewording("bold label", r"(?m)^((?:Rnd|Row) \d+)( \([RW]S\))?:", r"**\1\2:**"),
    Rewording("count in brackets", COUNT, r"[\1 \2]"),
    Rewording("count after a dash", COUNT, r"– \1 \2."),
    Rewording("count in total", COUNT, r"(\1 \2 total)"),
    Rewording("Repeat Row", r"\bRep (Rows?|Rnds?)\b", r"Repeat \1"),
    Rewording("Same as Row", r": Rep (Rows?|Rnds?) (\d+)\.", r": Same as \1 \2."),
    Rewording("Work as for Row", r": Rep (Rows?|Rnds?) (\d+)\.", r": Work as for \1 \2."),
    Rewording("em dash of rows", r"(?m)^(Rows|Rnds) (\d+) ?[-–] ?(\d+)", r"\1 \2—\3"),
)  # fmt: skip
