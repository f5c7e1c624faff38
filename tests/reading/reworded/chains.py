"""Turning chains, chain spaces and loops."""

from reworded.wording import Rewording

CHAINS = (
    Rewording("ch-2-sp", r"\bch-(\d) sp\b", r"ch-\1-sp"),
    Rewording("counting as", r"\(counts as (?:first )?(dc|hdc|tr)\)", r"(counting as \1)"),
    Rewording("= dc", r"\(counts as (?:first )?(dc|hdc|tr)\)", r"(= \1)"),
    Rewording("your first", r"\(counts as (dc|hdc|tr)\)", r"(counts as your first \1)"),
    Rewording("3rd ch of turning ch", r"\bin top of (?:beg |turning )?ch-3\b", "in 3rd ch of turning ch-3"),
)  # fmt: skip
