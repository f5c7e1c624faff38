"""The piece card: what a piece is made with, and what was written on it. Words come in, a card and sentences go out.

What the maker wrote holds before what the pattern says.
"""

from tracker.notation.pattern import Pattern
from tracker.planning.hooks import hook_mm
from tracker.records import dataclass
from tracker.trade.numbers import spoken_number


@dataclass(frozen=True, slots=True)
class Field:
    """One line of the card."""

    key: str
    """As it is typed and kept."""
    said: str
    """As it is said before what stands there."""
    help: str


FIELDS: tuple[Field, ...] = (
    Field("hook", "Hook", "the hook this piece is worked with: 4mm"),
    Field("yarn", "Yarn", "the yarn"),
    Field("lot", "Dye lot", "its dye lot"),
    Field("gauge", "Gauge as measured", "your own gauge: 14 sc and 16 rows = 10 cm"),
    Field("tail", "Tail", "how long a tail was left"),
    Field("size", "Blocked size", "the size after blocking"),
)
"""Every line of the card, in the order in which it is read."""

KEYS: dict[str, Field] = {field.key: field for field in FIELDS}
LONGEST = 200
"""Letters of a line that are kept."""

Card = tuple[tuple[str, str], ...]


def card_from(words: tuple[str, ...]) -> Card | str:
    """What is to be written on the card, from "hook=4mm" and the like; a sentence when it cannot be.

    >>> card_from(("hook=4mm", "lot="))
    (('hook', '4mm'), ('lot', ''))
    >>> card_from(("needle=4",))
    "The card has no line 'needle'; it has hook, yarn, lot, gauge, tail, size."
    """
    out: list[tuple[str, str]] = []
    for word in words:
        key, mark, value = word.partition("=")
        key = key.strip().lower()
        if not mark:
            return f"Write it as KEY=WORDS, like hook=4mm, not {word!r}."
        if key not in KEYS:
            return f"The card has no line {key!r}; it has {', '.join(KEYS)}."
        out.append((key, " ".join(value.split())[:LONGEST]))
    return tuple(out)


def hook_said(card: Card, pattern: Pattern) -> str:
    """ "Hook four.", "Hook one point five."; "" when neither the card nor the pattern names one."""
    words = dict(card).get("hook", "")
    size = hook_mm(words) if words else next((mm for note in pattern.notes if (mm := hook_mm(note))), None)
    if size is None:
        return f"Hook {words}." if words else ""
    whole, part = divmod(round(size * 100), 100)
    digits = f"{part:02}".rstrip("0")
    point = f" point {' '.join(spoken_number(int(digit)) for digit in digits)}" if digits else ""
    return f"Hook {spoken_number(whole)}{point}."


def card_said(card: Card, pattern: Pattern) -> str:
    """All that stands on the card, and the hook in any case."""
    written = {key: words for key, words in card if words}
    out = [] if "hook" in written else [hook_said(card, pattern)]
    out += [f"{field.said}: {written[field.key]}." for field in FIELDS if field.key in written]
    said = " ".join(filter(None, out))
    if not written:
        return (
            f"{said} Nothing is written on the card yet." if said else "Nothing is written on the card yet."
        )
    return said


def card_lines(card: Card) -> tuple[str, ...]:
    """The card for the eye, a line each; the lines that are empty too."""
    written = dict(card)
    return tuple(f"{field.key:6} {written.get(field.key, '') or '-'}" for field in FIELDS)


__all__ = ["FIELDS", "card_from", "card_lines", "card_said", "hook_said"]
