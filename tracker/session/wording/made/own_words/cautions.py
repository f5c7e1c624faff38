"""What is said behind a pattern's own words for the sake of whom a piece is for.

Words of the pattern come in; a sentence with a blank before it, or "", goes out.
"""

import re

from tracker.program.places import Program


def for_a_baby(program: Program, words: str) -> str:
    """ " For a baby, embroider the eyes." behind words that put eyes in, unless the pattern says so; "" behind others.

    What a child can bite off is no part of a toy (common practice, no source).
    """
    if not _EYES.search(words) or _EMBROIDERED.search(program.source.text):
        return ""
    return " For a baby, embroider the eyes."


_EYES = re.compile(
    r"\b(?:safety|plastic|toy) eyes\b|\b(?:insert|attach|fit|fix|place|put|add|position)\b[^.]*\beyes\b",
    re.IGNORECASE,
)
_EMBROIDERED = re.compile(
    r"\bembroider|\b(?:sew|stitch)\w* (?:on )?(?:the )?eyes\b|\bunder (?:three|3)\b", re.IGNORECASE
)
"""Words of a pattern that has thought of it, or has no such eyes."""
