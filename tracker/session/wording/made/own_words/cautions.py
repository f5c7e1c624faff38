"""What is said behind a pattern's own words for the sake of whom a piece is for.

Words of the pattern come in; a sentence with a blank before it, or "", goes out.
"""

import re
from functools import lru_cache

from tracker.notation.pattern import Aside
from tracker.program.parts import BEHIND_ALL, Part
from tracker.program.places import Program
from tracker.session.wording.made.own_words.reading import read_out


def before_closing(program: Program, row: int) -> str:
    """What has to be inside before a round: "Before you close: eyes in, and stuff."; "" where nothing has, or was told.

    A pattern may tell of eyes and stuffing when the last round is worked and no hand gets in any more, or only among
    its materials.
    """
    part = next((one for one in program.parts if one.first <= row <= one.last), None)
    found = _forgotten(program, part) if part is not None else (0, False, False)
    if found[0] != row:
        return ""
    _, eyes, stuffing = found
    what = "eyes in, and stuff" if eyes and stuffing else "eyes in" if eyes else "stuff"
    baby = " For a baby, embroider them." if eyes and not _EMBROIDERED.search(program.source.text) else ""
    where = _where_told(program, program.fabric.row(row).label_span.end) if eyes else ""
    return f"Before you close: {what}.{baby}{where}"


def _where_told(program: Program, from_here: int) -> str:
    """ " The pattern says: add the eyes between rounds five and six.", words that stand only behind the last round."""
    for block in program.pattern.blocks:
        if isinstance(block, Aside) and block.span.start >= from_here:
            for words in _SENTENCES.split(block.text):
                if _EYES.search(words) and any(map(str.isdigit, words)):
                    return f" The pattern says: {read_out(program, ' '.join(words.split())).rstrip(' .!')}."
    return ""


@lru_cache(maxsize=16)
def _forgotten(program: Program, part: Part) -> tuple[int, bool, bool]:
    """The round before which a part has to be filled, and whether eyes and stuffing are only told later; 0 for none."""
    rows = [program.fabric.row(at) for at in range(part.first, min(part.last, part.first + _LONGEST) + 1)]
    if part.last - part.first >= _LONGEST or any(placed.kind != "round" for placed in rows):
        return 0, False, False
    many = [placed.worked.stitches for placed in rows]
    widest = max(range(len(many)), key=lambda k: many[k])
    closing = next((k for k in range(widest, len(many)) if many[k] <= CLOSED), None)
    if closing is None or many[widest] <= FILLED or many[-1] > CLOSED:
        return 0, False, False
    last_open = next(k for k in range(widest, len(many)) if many[k] <= FILLED)
    text = program.source.text
    begins, closes = rows[0].label_span.start, rows[closing].label_span.start
    ends = [
        block.span.start for block in program.pattern.blocks
        if block.part != part.name and block.span.start > closes
    ]  # fmt: skip
    before, behind = text[begins:closes], text[closes : min(ends, default=len(text))]
    if len([one for one in program.parts if one.name not in BEHIND_ALL]) == 1:
        behind += text[:begins]
    if _UNFILLED.search(text):
        before += " stuff"
    eyes = bool(_EYES.search(behind)) and not _EYES.search(before)
    stuffing = bool(_STUFF.search(behind)) and not _STUFF.search(before)
    return (part.first + last_open if eyes or stuffing else 0), eyes, stuffing


FILLED, CLOSED = 12, 8
"""Stitches of a round through which a piece is still filled, and through which nothing gets any more (common practice,
no source)."""
_SENTENCES = re.compile(r"(?<=[.!?])\s+")
_LONGEST = 300
"""Rounds of a part that are looked through."""
_STUFF = re.compile(r"\bstuff(?:ing|ed)?\b|\bfib(?:er|re) ?fill|\bpolyfill|\btoy filling", re.IGNORECASE)
_UNFILLED = re.compile(r"\b(?:not|n't|n’t|without|no|never) (?:be )?stuff|\bunstuffed", re.IGNORECASE)


def for_a_baby(program: Program, words: str) -> str:
    """ " For a baby, embroider the eyes." behind words that put eyes in, unless the pattern says so; "" behind others.

    What a child can bite off is no part of a toy (common practice, no source).
    """
    if not _EYES.search(words) or _EMBROIDERED.search(program.source.text):
        return ""
    if any(_forgotten(program, part)[1] for part in program.parts):
        return ""  # said where the eyes go in
    return " For a baby, embroider the eyes."


_EYES = re.compile(
    r"\b(?:safety|plastic|toy) eyes\b|\b(?:insert|attach|fit|fix|place|put|add|position)\b[^.]*\beyes\b",
    re.IGNORECASE,
)
_EMBROIDERED = re.compile(
    r"\bembroider|\b(?:sew|stitch)\w* (?:on )?(?:the )?eyes\b|\bunder (?:three|3)\b", re.IGNORECASE
)
"""Words of a pattern that has thought of it, or has no such eyes."""
