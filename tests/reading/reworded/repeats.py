"""Repeats inside a row."""

from reworded.wording import Rewording

REPEATS = (
    Rewording("repeat from *", r"\brep from \*", "repeat from *"),
    Rewording("rep from *", r"\brepeat from \*", "rep from *"),
    Rewording("2 times", r"\btwice\b(?! more)", "2 times"),
    Rewording("all around", r"(rep(?:eat)? from \*) around", r"\1 all around"),
    Rewording("each all around", r"(in each (?:st|sc|dc|hdc)) around", r"\1 all around"),
)  # fmt: skip
