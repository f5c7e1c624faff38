"""UK leaflets: numbers first, "miss", "into", "ss"."""

from reworded.wording import BEGINS, Rewording
from reworded.wording import UK as TERMS

_ST = r"(dc|htr|tr|dtr)"

UK = (
    Rewording("3 ch", r"(?<![\w-])[Cc]h (\d+)(?=[,.;])", r"\1 ch", where=TERMS),
    Rewording("miss the next", r"\b[Mm]iss (?:next )?(\d+) (?!ch)", r"miss the next \1 ", where=TERMS),
    Rewording("1 tr into next", rf"\b{_ST} (?:in|into) next\b", r"\1 into next", where=TERMS),
    Rewording("on next tr", rf"\b{_ST} (?:in|into) next (?=dc|htr|tr|st)", r"\1 on next ", where=TERMS),
    Rewording("to next tr", rf"\b{_ST} (?:in|into) next (?=dc|htr|tr|st)", r"\1 in foll ", where=TERMS),
    Rewording("into each of next", rf"\b{_ST} (?:in|into) (?:each of )?next (\d)", r"\1 into each of the next \2", where=TERMS),
    Rewording("work 2 tr into", rf"{BEGINS}([2-9]) {_ST} (?:in|into)\b", r"work \1 \2 into", where=TERMS),
    Rewording("ss into", r"\b(?:ss|sl st) (?:in|into|to)\b", "ss into", where=TERMS),
    Rewording("sl st", r"\bss\b(?!\s*[=:])", "sl st", where=TERMS),
    Rewording("2-ch space", r"\b(\d)[- ]ch sp\b", r"\1-ch space", where=TERMS),
    Rewording("2ch sp UK", r"\b(\d)[- ]ch (sps?)\b", r"\1ch \2", where=TERMS),
    Rewording("ch-2 sp UK", r"\b(\d)[- ]ch (sps?)\b", r"ch-\1 \2", where=TERMS),
    Rewording("top of the turning chain UK", r"\b(?:in|into) (?:the )?top of (?:turning )?(\d)[ -]?ch\b(?! sp)", "into top of the turning chain", where=rf"(?s)\A(?=.*\bturn\b)(?=.*(?:{TERMS}))"),
    Rewording("tch UK", r"\b(?:in|into) (?:the )?top of (?:turning )?(\d)[ -]?ch\b(?! sp)", "into tch", where=rf"(?s)\A(?=.*\bturn\b)(?=.*(?:{TERMS}))"),
    Rewording("3rd of 3 ch UK", r"\btop of (?:turning )?3[ -]?ch\b(?! sp)", "3rd of 3 ch", where=TERMS),
    Rewording("counts as first tr", r"\(counts as (?:1|a|first) (tr|htr)\)", r"(counts as first \1)", where=TERMS),
    Rewording("= 1 tr", r"\(counts as (?:1|a|first) (tr|htr)\)", r"(= 1 \1)", where=TERMS),
    Rewording("stands for first tr", r"\(counts as (?:1|a|first) (tr|htr)\)", r"(stands for first \1)", where=TERMS),
    Rewording("to count as 1st tr", r"(?<=ch) \(counts as (?:1|a|first) (tr|htr)\)", r" to count as 1st \1", where=TERMS),
    Rewording("all into", r"\) (?:in|into) next (\d-ch sp|st|dc|tr)", r") all into next \1", where=TERMS),
)  # fmt: skip
