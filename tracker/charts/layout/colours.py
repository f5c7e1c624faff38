"""Which colour each stitch is worked in, told from the pattern's words. Rows come in; for each a letter an element
goes out.

Colours are what the pattern calls them (A, B, MC, CC). A pattern that names none gives empty letters. What cannot
be told keeps the colour before it.
"""

import re
from collections.abc import Callable

from tracker.charts.layout.sequence import NAME, in_turn, stated_sequence
from tracker.fabric.model import Placed
from tracker.notation.pattern import Pattern, Row
from tracker.notation.tree import Say
from tracker.problems import Source
from tracker.records import dataclass, field

_WITH = re.compile(
    rf"\b(?i:with|join|using|in|attach)\s+(?:new\s+)?(?:(?i:colou?r|shade|yarn)\s+|[^.;,:]{{0,30}}?\bshade\s+)?({NAME})\b"
)
_BEGUN = re.compile(rf"^\s*(?i:with\s+|using\s+)?(?i:colou?r|shade|yarn)\s+({NAME})\s*[:,]", re.MULTILINE)
_LABEL = re.compile(rf"[(,–-]\s*({NAME})\s*(?:[,)]|[–-])")
_CHANGE = re.compile(
    rf"\bchang\w*\s+(?:to\s+)?(?:colou?r\s+)?(?:to\s+)?({NAME})\b(?P<end>[^.;]*?\blast\s+(?:st\b|sc\b|dc\b|yo|stitch)[^.;)]*)?",
    re.IGNORECASE,
)
_COUNTED = re.compile(rf"\(?({NAME})\)?\s*:?\s*\d+|\d+\s*({NAME})\b")
_FACING = re.compile(r"^with\s+(?:RS|WS|(?:right|wrong)\s+side)\s+facing\s*(?:you\s*)?,\s*", re.IGNORECASE)
_NAMED = (
    re.compile(rf"([a-z]+)(?:\s+(?:wool|cotton|yarn))?\s*\(({NAME})\)"),
    re.compile(rf"\b({NAME})\s*[(:=]\s*([a-z]+)"),
)
_PAINTS = {
    "white": "#f4f4f0",
    "cream": "#f3ead0",
    "ecru": "#eadfc2",
    "ivory": "#f5efdc",
    "sand": "#dcc48f",
    "beige": "#dfcfae",
    "yellow": "#f4d03f",
    "mustard": "#d6a419",
    "gold": "#dcb12e",
    "orange": "#ee8a35",
    "coral": "#f08a72",
    "red": "#d8433b",
    "rust": "#b3572b",
    "brown": "#8a5a36",
    "pink": "#f1a7bd",
    "rose": "#e08aa2",
    "purple": "#8d63b5",
    "lilac": "#c3a7dd",
    "violet": "#8a5fc0",
    "blue": "#4a84cf",
    "navy": "#2f4a85",
    "teal": "#2f8f8f",
    "aqua": "#72cfcf",
    "turquoise": "#4bbfc0",
    "green": "#57a55a",
    "olive": "#8d8f3f",
    "mint": "#a6dcc0",
    "sage": "#a7b894",
    "grey": "#9aa0a6",
    "gray": "#9aa0a6",
    "slate": "#6d7f94",
    "charcoal": "#555b63",
    "black": "#3c3c40",
    "silver": "#c6cace",
}
_SPARE = ("#e9c46a", "#6fa8dc", "#e5989b", "#8fc18f", "#b79ad6", "#d9a066", "#7fc8c8", "#b8b8b8")


@dataclass(frozen=True, slots=True)
class Colours:
    """The colours of a chart."""

    paints: dict[str, str]
    """By the pattern's letter: the colour to paint with, as #rrggbb."""
    names: dict[str, str]
    """By letter: what the pattern calls the colour, where it does."""
    rows: dict[int, tuple[str, ...]]
    """By index of the row: a letter for each of its elements."""


@dataclass(slots=True)
class _Turns:
    """Rows of a part on their way, for those that take their colours in turn."""

    part: str | None = None
    before: dict[int, str] = field(default_factory=dict)
    """The letter of each row, by its number."""
    since: int = -1
    """Where the line begins that is gone through now; how many of its rows are done, and what they are worked in."""
    done: int = 0
    letter: Callable[[int], str] | None = None

    def of(self, placed: Placed, words: str) -> str:
        """The colour whose turn it is; "" where no rule tells."""
        if placed.part != self.part:
            self.part, self.before, self.since = placed.part, {}, -1
        if placed.label_span.start != self.since:
            self.since, self.done = placed.label_span.start, 0
            self.letter = in_turn(words, dict(self.before)) if words else None
        self.done += 1
        return self.letter(self.done - 1) if self.letter else ""

    def keep(self, placed: Placed, letter: str) -> None:
        """A row that is done."""
        if placed.number is not None:
            self.before[placed.number] = letter


def colours_of(source: Source, pattern: Pattern, rows: tuple[tuple[int, Placed], ...]) -> Colours:
    """The colours that the words give these rows."""
    printed = {block.label_span.start: block for block in pattern.blocks if isinstance(block, Row)}
    lead = source.text[: min((placed.label_span.start for _, placed in rows), default=0)]
    begun = _last(_WITH, lead.rsplit("\n\n", 1)[-1]) or _last(_WITH, lead) or _last(_BEGUN, lead)
    sequence = stated_sequence(lead)
    now = begun or (sequence[0] if sequence else "")
    out: dict[int, tuple[str, ...]] = {}
    turns = _Turns()
    for nth, (index, placed) in enumerate(rows):
        copied = printed.get(placed.worked.row.label_span.start)
        block = printed.get(placed.label_span.start)
        words = source.words(block.span) if block is not None else ""
        told = _begins_in(words)
        # What is changed in the words of the row that is repeated is not changed to again where a rule tells the turn.
        in_its_turn = "" if told else sequence[nth % len(sequence)] if sequence else turns.of(placed, words)
        if told or in_its_turn:
            now = told or in_its_turn
        elif copied is not None and copied is not block and copied.span != copied.label_span:
            # a row that repeats another begins in the yarn that the other is joined with
            now = _begins_in(source.words(copied.span)) or now
        if in_its_turn:
            letters = [in_its_turn] * len(placed.worked.elements)
        else:
            letters, now = _along(source, placed, now)
        out[index] = tuple(letters)
        turns.keep(placed, letters[-1] if letters else now)
        now = _after(words, placed, block, now)
    used = [letter for letter in dict.fromkeys(letter for row in out.values() for letter in row) if letter]
    if len(used) < 2:
        return Colours({}, {}, {})
    names = _names(source.text, used)
    paints = {
        letter: _PAINTS.get(names.get(letter, ""), _SPARE[nth % len(_SPARE)])
        for nth, letter in enumerate(used)
    }
    return Colours(paints, names, out)


def _begins_in(words: str) -> str:
    """The colour that a row's own words begin with: in its label, "Row 3 (MC):", or behind it."""
    label, _, rest = words.partition(":")
    hit = _LABEL.search(label)
    return hit[1] if hit else _lead(rest)


def _lead(words: str) -> str:
    """The colour a row begins with: "With RS facing, join B with sl st in first sc, …"."""
    rest = _FACING.sub("", words.strip())
    told = _WITH.match(rest) or _WITH.search(rest.split(",")[0])
    if told is None and (change := _CHANGE.match(rest)) and not change["end"]:
        told = change
    return told[1] if told else ""


def colours_in(colours: Colours, rows: tuple[tuple[int, Placed], ...]) -> Colours:
    """The colours of some of the rows: those of a part that is drawn alone."""
    used = {letter for index, _ in rows for letter in colours.rows.get(index, ())}
    paints = {letter: paint for letter, paint in colours.paints.items() if letter in used}
    return Colours(paints, colours.names, colours.rows)


def _along(source: Source, placed: Placed, now: str) -> tuple[list[str], str]:
    """A letter for each element, by the words of its step and the changes before it."""
    row = placed.worked.row
    changes = sorted(
        (say.span.start, letter)
        for say in row.items
        if isinstance(say, Say) and (letter := _said(source, say))
    )
    letters = [now] * len(placed.worked.elements)
    for step in placed.worked.steps:
        while changes and changes[0][0] <= step.item.span.start:
            now = changes.pop(0)[1]
        counted = _COUNTED.match(source.words(step.item.span))
        if counted:
            now = counted[1] or counted[2]
        for at in range(step.made_from, min(step.made_to, len(letters))):
            letters[at] = now
    return letters, now


def _said(source: Source, say: Say) -> str:
    words = source.words(say.span)
    if say.kind != "colour":
        return ""
    hit = _CHANGE.search(words)
    if hit and hit["end"]:
        return ""
    found = hit or _WITH.search(words)
    return found[1] if found else ""


def _after(words: str, placed: Placed, block: Row | None, now: str) -> str:
    """The colour after the row: "changing to B in last st of Row 4" holds from the next one."""
    for hit in _CHANGE.finditer(words):
        if not hit["end"]:
            continue
        of_row = re.search(r"\b(?:row|rnd|round)\s+(\d+)", hit["end"], re.IGNORECASE)
        last = block.numbers[-1] if block is not None and block.numbers else placed.number
        if placed.number is None or placed.number == (int(of_row[1]) if of_row else last):
            now = hit[1]
    return now


def _names(text: str, used: list[str]) -> dict[str, str]:
    out: dict[str, str] = {}
    for hit in _NAMED[0].finditer(text):
        out.setdefault(hit[2], hit[1])
    for hit in _NAMED[1].finditer(text):
        if hit[2] in _PAINTS:
            out.setdefault(hit[1], hit[2])
    return {letter: name for letter, name in out.items() if letter in used and name in _PAINTS}


def _last(pattern: re.Pattern[str], text: str) -> str:
    found = pattern.findall(text)
    return str(found[-1]) if found else ""


def tint(paint: str, part: float = 0.55) -> str:
    """The colour thinned with white, so that black signs on it stay readable."""
    red, green, blue = (int(paint[at : at + 2], 16) for at in (1, 3, 5))
    return "#" + "".join(f"{round(255 - (255 - value) * part):02x}" for value in (red, green, blue))
