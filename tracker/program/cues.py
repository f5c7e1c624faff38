"""What is worth saying as a place is reached: a row that copies another, one that breaks the run, a change of colour.

A program and a row's index come in; small values go out. Wording is left to the session.
"""

import re
from collections.abc import Iterator

from tracker.fabric.model import Placed
from tracker.notation.pattern import Row
from tracker.notation.tree import Chain, Group, Repeat, Rerun, Say, Travel, Turn, Work
from tracker.program.places import Program
from tracker.program.row.groups import WAITS, begins_in_colour, is_behind_the_end
from tracker.records import dataclass

_WITH = re.compile(r"\b[Ww]ith (?:[A-Z]{1,2}\b|(?:main |contrast(?:ing)? )?colou?r\b(?: [A-Z]\b)?)")


@dataclass(frozen=True, slots=True)
class Copy:
    """A row that is another one again."""

    of: int
    """Number of the row it is."""
    rows: tuple[int, ...]
    """Numbers of the rows that are repeated together."""
    time: int
    """Which time these rows are worked, 2 for the first repeat."""
    times: int | None
    """How often in all; None while the work goes on until it is long enough."""


def copy_at(program: Program, row: int) -> Copy | None:
    """What the row with this index repeats, None for a row with words of its own."""
    placed = program.fabric.row(row)
    if placed.as_number is None or placed.as_number == placed.number:
        return None  # the row of that number of another part, told as the part's own
    first, last = printed_range(program, row)
    printed = program.printed.get(placed.label_span.start)
    rerun = printed.rerun if printed is not None else None
    length = (len(rerun.rows) or rerun.last or 1) if rerun is not None else 1
    named = _rows_named(program, rerun, first)
    if len(named) > 1:
        rows = named  # of which some may be copies themselves
        before, in_all = _passes(program, row, first, last, length)
    else:
        rows = tuple(
            number
            for k in range(length)
            if first + k <= last and (number := program.fabric.row(first + k).as_number) is not None
        )
        rows = rows if placed.as_number in rows else (placed.as_number,)
        before, in_all = _times(program, placed, row)
    goes_on = rerun is not None and bool(rerun.until)
    return Copy(placed.as_number, rows, before + 1, None if goes_on else in_all)


def _rows_named(program: Program, rerun: Rerun | None, first: int) -> tuple[int, ...]:
    """The numbers of the rows that a range repeats, as it names them; () where they have none."""
    if rerun is None or rerun.rows:
        return tuple(rerun.rows) if rerun is not None else ()
    if not 1 < rerun.last < first:
        return ()
    numbers = [program.fabric.row(at).number for at in range(first - rerun.last, first)]
    return tuple(number for number in numbers if number is not None) if all(numbers) else ()


def _passes(program: Program, row: int, first: int, last: int, length: int) -> tuple[int, int]:
    """How often rows that are repeated together were worked before, and in all, by one whose words come once a pass."""
    begins = first + (row - first) // length * length
    passed = range(begins, min(begins + length, last + 1))
    words = [id(program.fabric.row(at).worked.row) for at in passed]
    once = next((at for at, mine in zip(passed, words, strict=True) if words.count(mine) == 1), None)
    if once is None:
        return (begins - first) // length + 1, (last - first + 1) // length + 1
    return _times(program, program.fabric.row(once), once)


def _times(program: Program, placed: Placed, row: int) -> tuple[int, int]:
    """How often the words of a row are worked before the row with this index, and in the whole part."""
    before = in_all = 0
    start = 1
    for stretch in program.fabric.stretches:
        for k, other in enumerate(stretch.rows):
            if other.worked.row is placed.worked.row and other.part == placed.part:
                in_all += stretch.times
                if row > start + k:
                    before += min(stretch.times, (row - start - k - 1) // len(stretch.rows) + 1)
        start += stretch.length
    return before, in_all


def printed_range(program: Program, row: int) -> tuple[int, int]:
    """First and last index of the rows printed under one label."""
    fabric = program.fabric
    label = fabric.row(row).label_span
    start = 1
    for stretch in fabric.stretches:
        if start <= row < start + stretch.length:
            break
        start += stretch.length
    if stretch.times > 1:
        return start, start + stretch.length - 1
    first = last = row
    while first > start and fabric.row(first - 1).label_span == label:
        first -= 1
    while last < start + stretch.length - 1 and fabric.row(last + 1).label_span == label:
        last += 1
    return first, last


def breaks_the_run(program: Program, row: int) -> str:
    """Why hands that go on by themselves would go wrong here: "open", "closed" or "new"; "" where they would not.

    In filet: the two rows before begin alike, and this one does not. Elsewhere: rows were copies for a while, and this
    one has words of its own.
    """
    part = next((one for one in program.parts if one.first <= row <= one.last), None)
    if part is None or row - 2 < part.first:
        return ""
    begins = [program.squares(at) for at in (row, row - 1, row - 2)]
    if all(begins):
        mine, last, earlier = (found[0] for found in begins if found)
        return ("open" if mine else "closed") if last == earlier != mine else ""
    copies = [copy_at(program, at) is not None for at in (row, row - 1, row - 2)]
    return "new" if copies == [False, True, True] and program.fabric.row(row).as_number is None else ""


def colours(program: Program, row: int) -> tuple[str, ...]:
    """What a row begins in: the colour of its range, that of its own words, and how colours change within the range.

    A colour that is changed to further along is no colour that a row begins in: that is told where it is done.
    """
    if (copied := copy_copied(program, row)) is not None:
        return tuple(dict.fromkeys((*colours(program, copied), *_of_its_range(program, row))))
    placed = program.fabric.row(row)
    begins = _begins_in(program, placed)
    if is_first_of_range(program, row):
        return tuple(dict.fromkeys((*begins, *_of_its_range(program, row))))
    return begins if begins != _begins_in(program, program.fabric.row(row - 1)) else ()


def _of_its_range(program: Program, row: int) -> tuple[str, ...]:
    """What a range of copies says of colours where its first row begins."""
    if not is_first_of_range(program, row):
        return ()
    said = _said_of_range(program, program.fabric.row(row))
    return tuple(words for words in said if not _changes_last(words))


def copy_copied(program: Program, row: int) -> int | None:
    """The index of the row that a copy repeats, where that is a copy itself: "Rows 3 and 4: With B, rep Row 2".

    None for any other. A range that names its own colours, "Rows 5-8: Rep Rows 1-4 with C", repeats none of them.
    """
    placed = program.fabric.row(row)
    printed = program.printed.get(placed.label_span.start)
    rerun = printed.rerun if printed is not None else None
    if rerun is None or placed.as_number is None or placed.number is None or in_range(program, placed):
        return None
    first = printed_range(program, row)[0]
    if rerun.rows:
        at = row - placed.number + rerun.rows[(row - first) % len(rerun.rows)]
    else:
        at = first - rerun.last + (row - first) % (rerun.last or 1)
    if not 0 < at < first:
        return None
    other = program.fabric.row(at)
    repeats = other.worked.row is placed.worked.row and other.as_number is not None
    return at if repeats and other.label_span != placed.label_span else None


def _begins_in(program: Program, placed: Placed) -> tuple[str, ...]:
    """The colour that the words of a row, or of its range, begin with, or that its label has in brackets."""
    if of_range := in_range(program, placed):
        return (of_range,)
    if labelled := _in_label(program, placed):
        return (labelled,)
    return tuple(program.source.words(s.item.span) for s in placed.worked.steps if begins_in_colour(s))


def _in_label(program: Program, placed: Placed) -> str:
    """ "B" of "Row 2 (B):", "eyelets" of "Row 9 (eyelets):"; "" for a side, a size, and what holds numbers."""
    hit = _BESIDE_NUMBER.search(program.source.words(placed.worked.row.label_span))
    words = (hit[1] or hit[2] or hit[3]).strip() if hit is not None else ""
    if not words or _NO_COLOUR.search(words) or words in program.pattern.sizes:
        return ""
    led = next((step.item for step in placed.worked.steps if not isinstance(step.item, Say)), None)
    own = program.source.words(led.span).split() if isinstance(led, Travel) else []
    return "" if words.split()[-1] in own else words


_BESIDE_NUMBER = re.compile(
    r"[(\[]([^()\[\]\d]{1,24})[)\]]|\d\s*[-–—]\s*([A-Za-z][A-Za-z ]{0,24}?)\s*[:.]?$|\d\s+([A-Z]|[MC]C)\s*:$"
)
_NO_COLOUR = re.compile(r"\b(?:RS|WS|side|facing|only|sizes?|[LMSX]{1,3})\b", re.IGNORECASE)
"""What else stands in brackets behind a row's number."""


def changed_to(program: Program, row: int) -> tuple[str, ...]:
    """What the last stitch of a range is said to change to, in the range's own words."""
    copied = copy_copied(program, row)
    again = changed_to(program, copied) if copied is not None else ()
    if not is_last_of_range(program, row):
        return again
    own = _said_of_range(program, program.fabric.row(row))
    return tuple(dict.fromkeys((*again, *(words for words in own if _changes_last(words)))))


def changes_later(program: Program, row: int) -> bool:
    """True where the words of several rows end in a change of colour, and it is not the last of them.

    "Rnds 24-26: Sc around. Change to orange." changes once; rows that also begin in a colour change each time.
    """
    placed = program.fabric.row(row)
    own = placed.worked.row
    number = placed.number if placed.as_number is None else placed.as_number
    if len(own.numbers) < 2 or number not in own.numbers[:-1]:
        return False
    return not any(begins_in_colour(step) for step in placed.worked.steps)


def _said_of_range(program: Program, placed: Placed) -> list[str]:
    """What the words of a range of copies say of colours, save "with C", and of all its rows."""
    printed = program.printed.get(placed.label_span.start)
    if printed is None or printed is placed.worked.row:
        return []
    with_it = in_range(program, placed)
    told = _IN_COLOURS.search(program.source.words(printed.rerun.span)) if printed.rerun is not None else None
    said = [told.group()] if told is not None and told.group() != with_it else []
    return said + [
        words
        for item in printed.items
        if isinstance(item, Say)
        and (words := program.source.words(item.span)) != with_it
        and (
            item.kind == "colour" or _is_sentence(program, item) and (_of_all(words) or _changes_last(words))
        )
    ]


_IN_COLOURS = re.compile(
    r"\b(?:in (?:the |this )?(?:following |same )?colou?rs?\b"
    r"|(?:changing|keeping|alternating|following)\b[^.;]*\bcolou?rs?\b)[^.;]*",
    re.IGNORECASE,
)
"""How rows that are worked again change their colours: "Rep Row 2 in color sequence (3 rows C, 3 rows A)"."""


def _changes_last(words: str) -> bool:
    return bool(_CHANGES.match(words)) and not _OFTEN.search(words)


_CHANGES = re.compile(r"(?:(?:at|in|on) (?:the )?(?:end|last)\b[^,]*?,? )?chang(?:e|ing)\b", re.IGNORECASE)
"""A change of colour in the last stitch: "At end of Row 4 change to B"."""
_OFTEN = re.compile(r"\b(?:every|each|alternat\w*|as)\b", re.IGNORECASE)
"""Of a change that is made more than once in a range: told as the range begins."""


def _is_sentence(program: Program, said: Say) -> bool:
    """True for words of a row that say something by themselves, and are no rest of its phrases."""
    before = program.source.text[max(0, said.span.start - 3) : said.span.start].rstrip()
    return before[-1:] in _ENDS_BEFORE and program.source.words(said.span)[:1].isupper()


_ENDS_BEFORE = (".", ")", "]", "!")
"""Marks behind which a new sentence begins."""


_AT_THE_END = re.compile(r"\bend of (?:the )?(?:last |next )?(?:row|rnd|round)\b", re.IGNORECASE)


def _of_all(words: str) -> bool:
    """True for what holds for all rows of a range: told as it begins."""
    return bool(_THROUGHOUT.search(words)) and not _AT_THE_END.search(words)


_THROUGHOUT = re.compile(
    r"\b(?:each|every|always|throughout|make sure|be sure|now and then|as you go|you (?:can|will|should))\b",
    re.IGNORECASE,
)


def in_range(program: Program, placed: Placed) -> str:
    """ "with C", of a row printed in "Rows 5-8: Rep Rows 1-4 with C", whatever its own words say; "" elsewhere."""
    printed = program.printed.get(placed.label_span.start)
    if printed is None or printed.rerun is None:
        return ""
    found = _WITH.search(program.source.words(printed.rerun.span))
    return found.group() if found else ""


def endings(program: Program, row: int) -> tuple[str, ...]:
    """What is to be done once a row is counted: "Fasten off A", in the pattern's own words."""
    placed = program.fabric.row(row)
    own = placed.worked.row
    printed = program.printed.get(placed.label_span.start, own)
    rows = [printed] if is_last_of_range(program, row) else []
    if printed is not own and (len(own.numbers) < 2 or placed.as_number == own.numbers[-1]):
        rows.insert(0, own)  # a copy ends as the row it copies
    other = in_range(program, placed)
    copied = copy_copied(program, row)
    said = list(endings(program, copied)) if copied is not None else []
    said += [
        _of_colour(words, other if each is own else "")
        for each in rows
        for words in _ends(program, each, stays(program, row))
    ]
    return tuple(dict.fromkeys(said))


def _ends(program: Program, row: Row, stays: bool) -> Iterator[str]:
    """ "Fasten off", and what is said behind it or behind the count."""
    ended = fastened = False
    for item in row.items:
        if isinstance(item, Say):
            words = program.source.words(item.span)
            fastened = fastened or item.kind == "fasten off"
            ended = ended or fastened or is_behind_the_end(item, row)
            known = (stays or fastened) and _STAYS.fullmatch(words)
            if (ended or _ends_a_range(program, row, item, words)) and not known:
                yield words
        elif ended and not isinstance(item, Turn):
            return


def _ends_a_range(program: Program, row: Row, said: Say, words: str) -> bool:
    """True for "Do not fasten off", "Place a marker at each end of Row 18", said of rows that are copies."""
    waits = row.rerun is not None and said.kind in WAITS and _is_sentence(program, said)
    return waits and not _changes_last(words) and not _of_all(words)


def _of_colour(words: str, other: str) -> str:
    """ "Fasten off" of "Fasten off A", where a copy is worked in another colour."""
    return _COLOUR.sub("", words) if other else words


_STAYS = re.compile(
    r"(?:at (?:the )?end of [\w ]*,? ?)?(?:do not|don[’']t) turn(?: at (?:the )?end of [\w ]*)?\.?",
    re.IGNORECASE,
)
"""What is told with the count."""
_COLOUR = re.compile(r" [A-Z]$")


def is_first_of_range(program: Program, row: int) -> bool:
    """True for the first row printed under its label."""
    return row == 1 or program.fabric.row(row - 1).label_span != program.fabric.row(row).label_span


def is_last_of_range(program: Program, row: int) -> bool:
    """True for the last row printed under its label."""
    return printed_range(program, row)[1] == row


def stays(program: Program, row: int) -> bool:
    """True for a row behind which the work is not turned, though rows are worked: that is told with its count."""
    part = next((one for one in program.parts if one.first <= row < one.last), None)
    return part is not None and program.fabric.row(row).kind == "row" and not turn_before(program, row + 1)


def turn_before(program: Program, row: int) -> str:
    """How the work is turned before a row: "turn" at the end of the row before, "after chain" when the turning chain is
    made first, "" when it is not turned."""
    placed = program.fabric.row(row)
    if not placed.worked.turned:
        return ""
    chained = False
    for item in placed.worked.row.items:
        if isinstance(item, Turn):
            return "after chain" if chained else "turn"
        if isinstance(item, Work | Group | Repeat):
            break
        chained = chained or isinstance(item, Chain)
    return "turn"
