"""Ripping back: to a row, by so many rows, groups or stitches, or to a mark.

What was asked and the session come in; the place where the hook goes goes out, or why it cannot, and what is said
before and after. About the fabric: the history stays, and what was ripped can be taken back like any deed.
"""

from tracker.fabric.model import HIDDEN
from tracker.program.places import Place, Program, Stride
from tracker.session.deeds import RipBack, RipToMark, RipToRow
from tracker.session.piece.copies import backward, worked_before
from tracker.session.state import Session
from tracker.session.wording.made.telling import capital
from tracker.session.wording.places import said_at
from tracker.session.wording.rows import count_due, row_name
from tracker.session.wording.where import done_said
from tracker.trade.numbers import read_back, spoken_number

Rippable = RipToRow | RipBack | RipToMark

MOST = 10_000
"""Steps that are gone back one by one; whoever wants more says the row."""


def target(session: Session, deed: Rippable) -> Place | str:
    """Where the hook goes, or a sentence on why it cannot."""
    program, place = session.program, session.place
    match deed:
        case RipToRow(number=number):
            row = program.find(number, place)
            if row is None:
                return f"There is no row {read_back(number)}."
            there: Place = program.row_start(place, row)
        case RipBack(number=number, by=by):
            there = _back(session, number, by or session.stride)
        case RipToMark(number=number):
            behind = [mark.place for mark in session.marks if mark.place < place]
            if number > len(session.marks):
                return "There is no such mark." if session.marks else "Nothing is marked yet: say mark this."
            if not behind and not number:
                return "Nothing is marked behind your hook."
            there = session.marks[number - 1].place if number else max(behind)
    if there[:2] != place[:2]:
        return "That is in another part; go there first."
    if there >= place:
        return "That is not worked yet." if there > place else "You are there already."
    return there


def _back(session: Session, number: int, by: Stride) -> Place:
    program, place = session.program, session.place
    if by is Stride.ROW:
        if place[0] >= len(program.parts):
            return place
        # a row that is begun is the first of those that come out: "back one row" is taking it out, and no more
        begun = not _at_start(place) and not place[3]
        rows = number - 1 if begun and number else number
        first, row = program.parts[place[0]].first, place[2]
        for _ in range(min(rows, row - first)):
            row = max(first, worked_before(session, row))
        return program.row_start(place, row)
    there = place
    for _ in range(min(number, MOST)):
        before = backward(session, there, by)
        if before[:2] != place[:2] or before == there:
            break
        there = before
    return there


def question(session: Session, there: Place) -> str:
    """ "Rip back to the start of row four: rows four to nine come out. Yes?" """
    program, place = session.program, session.place
    row, hand = there[2], place[2]
    if there[3] or program.placed(there) is None:
        return f"Rip back to before {row_name(program.fabric.row(row))}. Yes?"
    name = row_name(program.fabric.row(row))
    if there[4:] == (0, 0, 0):
        if hand == row:
            stays = row > program.parts[there[0]].first
            below = f"; {row_name(program.fabric.row(row - 1))} stays" if stays else ""
            return f"Rip {name} back to its start{below}. Yes?"
        last = min(hand, program.parts[there[0]].last)
        if _at_start(place):
            last = worked_before(session, hand)
        out = (
            f"{name} comes out"
            if last <= row
            else f"{_plural(program, row)} {_number(program, row)} {'and' if last == row + 1 else 'to'} "
            f"{_number(program, last)} come out"
        )
        return f"Rip back to the start of {name}: {out}. Yes?"
    kept = done_said(program, there).rstrip(".").lower() or "what is before it"
    comes_out = _so_many_out(program, there, place)
    return f"Rip back in {name}, to {kept}{comes_out}. Yes?"


def _so_many_out(program: Program, there: Place, place: Place) -> str:
    """ ": seven stitches come out", where both are in one row."""
    if there[2] != place[2] or place[3] or there[3]:
        return ""
    gone = program.made(place)[len(program.made(there)) :]
    stitches = sum(1 for element in gone if element.is_stitch and element.kind != HIDDEN)
    if not stitches:
        return ""
    return f": {spoken_number(stitches)} stitch{'es come' if stitches > 1 else ' comes'} out"


def ripped_said(session: Session) -> str:
    """What is done once it is ripped: where the hook goes in, and what comes next."""
    program, place = session.program, session.place
    words = said_at(program, place, session.stride, again=True)
    placed = program.placed(place)
    if placed is None:
        return f"Ripped back. {words}"
    if _at_start(place):
        if place[2] <= program.parts[place[0]].first:
            return (
                f"Hook back in the last chain. {words}" if placed.kind == "row" else f"Ripped back. {words}"
            )
        due = count_due(program, (*place[:2], place[2] - 1, 0, 0, 0, 0))
        before = row_name(program.fabric.row(place[2] - 1))
        count = f": {due}" if due else ""
        return f"Hook back in the last loop of {before}{count}. {words}"
    done = done_said(program, place)
    return f"Hook back in the last loop. {capital(row_name(placed))}: {done[:1].lower()}{done[1:]} {words}"


def _at_start(place: Place) -> bool:
    return place[3:] == (0, 0, 0, 0)


def _plural(program: Program, row: int) -> str:
    return "rounds" if program.fabric.row(row).kind == "round" else "rows"


def _number(program: Program, row: int) -> str:
    placed = program.fabric.row(row)
    return spoken_number(placed.number) if placed.number is not None else placed.printed


__all__ = ["question", "ripped_said", "target"]
