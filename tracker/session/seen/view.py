"""The one value that every front end renders: plain lines, the screen, a page on a tablet.

A session and what the devices say of themselves come in; a View goes out. All text in it is as it is written or said;
nothing is markup, and control characters were taken out when the pattern was read.
"""

from tracker.problems import Span
from tracker.program.cues import copy_at
from tracker.program.joining import Joining
from tracker.program.places import Place, Program, Stride
from tracker.program.row.written import written_of
from tracker.records import dataclass
from tracker.session.amiss.doing import question
from tracker.session.piece.copies import more_words
from tracker.session.seen.lying import Around, Cell, Line, around_of, below_of, cells_of, is_waved
from tracker.session.state import Session
from tracker.session.wording import coming, count_due, counts, part_name, row_name, said_at
from tracker.trade.numbers import spoken_ordinal


@dataclass(frozen=True, slots=True)
class Devices:
    """What ear and pedal say of themselves, in words; empty for one that is not there."""

    ear: str = ""
    pedal: str = ""
    heard: str = ""
    """What was last heard."""
    passed: str = ""
    """Why what was said last was passed over; empty when it was heard."""


@dataclass(frozen=True, slots=True)
class View:
    """All there is to be seen at a place."""

    title: str
    filet: bool
    """True for a piece of squares."""
    part: str
    """"Sleeve one of two"; empty for a piece that is one and whole."""
    row: str
    """"Row 9", or nothing between rows."""
    rows: int | None
    """Number of the last row of the part; None while that is open."""
    repeats: str
    """"row 3 again, second time", or nothing."""
    side: str
    """"right side facing", "wrong side facing", or nothing."""
    said: str
    """The place in words, in full."""
    written: str
    """The same as the pattern writes it."""
    beat: int
    """Which pass of the group, from 1."""
    beats: int
    single: int
    """Single stitches of the beat that are done."""
    singles: int
    then: str
    """What follows and where it lands, in few words."""
    done: int
    due: int
    unit: str
    """"squares" or "stitches"; empty where nothing is counted."""
    count: str
    """What is due at the row's end, in words."""
    cells: tuple[Cell, ...]
    """The row in hand, in the order made."""
    below: tuple[Line, ...]
    """The rows under it, the newest first."""
    text: str
    """The pattern's words for the row, on one line."""
    phrase: tuple[int, int]
    """Where in `text` the group stands: characters from 0, end excluded."""
    asked: str
    """A question that waits for an answer."""
    stride: str
    resting: bool
    finished: bool
    devices: Devices
    asks_number: bool = False
    """True while the question is answered by a number, and a no means that it can't be told."""
    joining: Joining | None = None
    """Where many alike are joined to one: how they lie, and which edges are in hand."""
    waved: bool = False
    """True in a flat part whose rows rise and fall: a ripple, a shawl."""
    around: Around | None = None
    """In a round, before one, and after one: what there is of them."""


def view(session: Session, devices: Devices | None = None) -> View:
    """What is to be seen of a session."""
    program, place = session.program, session.place
    placed = program.placed(place)
    breath, beat = program.breath(place), program.beat(place)
    part = program.part(place)
    done, due, unit = counts(program, place)
    text, phrase = _text(program, place)
    aside = program.aside(place)
    written = written_of(program, place[2], beat) if beat else ""
    if aside:
        written = program.source.words(aside.span)
    joining = program.joining(place)
    if joining is not None and joining.now is not None:
        written = joining.pieces
    last = program.fabric.row(part.last).number if part is not None and part.last >= part.first else None
    return View(
        title=program.pattern.title,
        filet=program.mesh is not None,
        part=part_name(program, place),
        row=placed.label if placed else "",
        rows=None if program.fabric.open_ended else last,
        repeats=_repeats(program, place) if placed else "",
        side={"RS": "right side facing", "WS": "wrong side facing"}.get(
            (placed.worked.side or "") if placed else "", ""
        ),
        said=said_at(program, place, session.stride, again=True),
        written=written,
        beat=place[5] + 1,
        beats=len(breath.beats) if breath else 1,
        single=place[6],
        singles=program.singles(place),
        then=_then(program, place, session.stride),
        done=done,
        due=due,
        unit=unit,
        count=count_due(program, place) if placed else "",
        cells=cells_of(program, place) if placed else (),
        below=below_of(program, place),
        text=text,
        phrase=phrase,
        asked=session.asked.question if session.asked else question(session) or more_words(session),
        stride=session.stride.value,
        resting=session.resting,
        finished=place == program.end,
        devices=devices or Devices(),
        asks_number=session.asked is None and bool(question(session)),
        joining=joining,
        waved=part is not None and is_waved(program, part.first, part.last),
        around=around_of(program, place) if joining is None else None,
    )


def hand_of(shown: View) -> str:
    """What is to be done, in as few words as the pattern has for it."""
    if shown.finished:
        return "finished"
    if shown.written:
        return shown.written
    return f"{shown.due} {shown.unit}" if shown.unit else shown.count


def tally_of(shown: View) -> str:
    """Which beat of how many, or which stitch; empty for one alone."""
    if shown.stride == "stitch" and shown.singles > 1:
        return f"{shown.single + 1} of {shown.singles}"
    return f"{shown.beat} of {shown.beats}" if shown.beats > 1 else ""


def told_of(shown: View, said: str) -> str:
    """What there is to read of what was said last: whole when it ends in the question that waits, else the question."""
    if shown.asked and not said.endswith(shown.asked):
        return shown.asked
    return said or shown.said


def where_of(shown: View) -> str:
    """The row and the number of the last one: "Row 9 of 15"."""
    where = (
        shown.row
        or seam_of(shown)
        or ("finished" if shown.finished else "before the row" if shown.text else "")
    )
    return f"{where} of {shown.rows}" if shown.row and shown.rows else where


def counted_of(shown: View) -> str:
    """How much of the row is done: "10 of 16 squares"; empty where nothing is counted."""
    counts_here = shown.unit and (shown.row or seam_of(shown))
    return f"{shown.done} of {shown.due} {shown.unit}" if counts_here else ""


def seam_of(shown: View) -> str:
    """ "Seam 2 of 5" where edges are joined; empty elsewhere."""
    return shown.joining.seam if shown.joining is not None else ""


def then_of(shown: View) -> str:
    """What follows, with "then" before it; empty for nothing."""
    return f"then {shown.then}" if shown.then and not shown.then.startswith("then ") else shown.then


def _repeats(program: Program, place: Place) -> str:
    copy = copy_at(program, place[2])
    if copy is None:
        return ""
    word = "round" if program.fabric.row(place[2]).kind == "round" else "row"
    return f"{word} {copy.of} again, {spoken_ordinal(copy.time)} time" + (
        f" of {copy.times}" if copy.times else ""
    )


def _then(program: Program, place: Place, stride: Stride) -> str:
    """What follows the whole group, not the beat; for who goes row by row what follows the row."""
    breath = program.breath(place)
    if stride is Stride.ROW and breath is not None:
        following = program.placed(program.next(place, stride))
        return row_name(following) if following is not None else ""
    if breath is None:
        after = program.next(place)
        joining = program.joining(after) if after != place else None
        if joining is not None and joining.now is not None:
            return f"then {joining.pieces}"
        following = program.placed(after)
        return f"then {row_name(following)}" if following is not None and after != place else ""
    return coming(program, (*place[:4], place[4] + 1, 0, 0)) or count_due(program, place)


def _text(program: Program, place: Place) -> tuple[str, tuple[int, int]]:
    """The words of the row or aside on one line, and where in them the group stands."""
    placed, aside, beat = program.placed(place), program.aside(place), program.beat(place)
    if placed is not None:
        span = Span(placed.worked.row.span.start, placed.worked.row.span.end)
    elif aside is not None:
        span = aside.span
    else:
        return "", (0, 0)
    mark = beat.span if beat is not None else span if aside is not None else Span(span.end, span.end)
    out: list[str] = []
    start = end = 0
    for at in range(span.start, min(span.end, len(program.source.text))):
        letter = program.source.text[at]
        if at == mark.start:
            start = len(out) + (1 if letter.isspace() else 0)
        if letter.isspace():
            if out and out[-1] != " ":
                out.append(" ")
        else:
            out.append(letter)
        if at < mark.end:
            end = len(out)
    text = "".join(out).rstrip()
    if mark.start >= span.end:
        return text, (len(text), len(text))
    return text, (start, max(start, end))
