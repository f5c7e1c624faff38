"""The words and phrases the shipped head knows, and numbers as words.

What goes out: the CTC's units, the classes of the head, and conversions between 1–999 and the words said
for them. The order of `UNITS` and `classes()` is the order of the weights in head_en.npz, which keeps its
own copy: a head that disagrees is refused.
"""

from __future__ import annotations

# Candidates that a maker would say and the trade does not use; a table of sayings picks among them.
SIMPLE: dict[str, tuple[str, ...]] = {
    "next": ("next", "onward", "carry on", "keep going", "move along", "moving on"),
    "back": ("back", "one back", "step back"),
    "again": ("again", "say again", "once more", "tell me again"),
    "pause": ("pause", "hang on", "wait a minute"),
    "listen": ("listen", "listen to me", "wake up"),
    "stop": ("stop", "take a break", "rest now"),
    "undo": ("undo", "take that back", "undo that"),
    "redo": ("redo that", "put it back"),
    "yes": ("yes", "yes please", "that is right"),
    "no": ("no", "no thanks", "not that"),
    "help": ("help", "help me", "what can i say"),
    "where": ("where am i", "where are we", "i am lost"),
    "left": ("how many left", "how many more"),
    "many": ("how many so far",),
    "whole": ("whole row", "the whole row"),
    "how": ("show me how", "how do i work that"),
    "more": ("tell me more", "tell me everything"),
    "full": ("all the words",),
    "short": ("short words", "keep it short"),
    "cues": ("only cues",),
    "faster": ("speak faster",),
    "slower": ("speak slower",),
    "louder": ("speak louder", "too quiet for me"),
    "softer": ("speak softer", "speak quieter", "not so loud"),
    "silent": ("say nothing",),
    "aloud": ("speak aloud", "talk to me"),
    "recap": ("catch me up",),
    "rip row": ("rip back this row",),
    "rip to mark": ("rip back to the mark",),
    "mark": ("mark this",),
    "marks": ("where are my marks",),
    "finished": ("what is finished",),
    "no rest": ("no more reminders",),
    "stitches": ("stitch by stitch",),
    "groups": ("group by group",),
    "repeats": ("repeat by repeat",),
    "rows": ("row by row",),
}
SLOTTED: dict[str, tuple[str, ...]] = {
    "row": ("row {n}", "round {n}", "go to row {n}", "go to round {n}"),
    "count": ("i have {n} stitches", "i have {n}", "count {n}", "i have {n} squares"),
    "number": ("{n}",),
}
NAMES = ("clover", "maple", "rowan", "pebble")
"""Names a maker may give the machine, said first in strict mode."""

ONES: tuple[str, ...] = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


def simple_phrases() -> list[str]:
    return [phrase for phrases in SIMPLE.values() for phrase in phrases]


def classes() -> tuple[str, ...]:
    """What the head tells apart, in the order of its weights."""
    return (*simple_phrases(), *SLOTTED, "other")


def units() -> tuple[str, ...]:
    """The words the head spells with; 0 is the blank, 1 any other word."""
    seen: dict[str, None] = {}
    for phrase in (*simple_phrases(), *(p for ps in SLOTTED.values() for p in ps), *NAMES):
        seen.update(dict.fromkeys(w for w in phrase.split() if w != "{n}"))
    seen.update(dict.fromkeys((*ONES, *TENS, "hundred", "and", "zero")))
    return ("", "[unk]", *seen)


def number_words(number: int, *, said_and: bool = False) -> str:
    """0 to 999 in words.

    >>> number_words(23), number_words(305, said_and=True)
    ('twenty three', 'three hundred and five')
    """
    if not 0 <= number <= 999:
        raise ValueError(f"{number} is not from 0 to 999")
    if number == 0:
        return "zero"
    hundreds, rest = divmod(number, 100)
    parts = [ONES[hundreds - 1], "hundred"] if hundreds else []
    if hundreds and rest and said_and:
        parts.append("and")
    if rest >= 20:
        parts.append(TENS[rest // 10 - 2])
        rest %= 10
    if rest:
        parts.append(ONES[rest - 1])
    return " ".join(parts)
