"""Marks: places the maker wants to find again, with a note or without. A session comes in, sentences go out."""

from tracker.program.places import Place
from tracker.session.state import Mark, Session
from tracker.session.wording.rows import part_name, row_name
from tracker.session.wording.where import done_said
from tracker.trade.numbers import spoken_number

TOLD = 5
"""So many marks are told aloud; the latest."""


def mark_said(session: Session) -> str:
    """What is said of the mark made last: "Mark two: row nine, five of sixteen squares." """
    return f"Mark {spoken_number(len(session.marks))}: {_where(session, session.marks[-1])}."


def marks_said(session: Session) -> str:
    """The marks by number, the latest last."""
    if not session.marks:
        return "Nothing is marked yet: say mark this."
    out = []
    for number, mark in list(enumerate(session.marks, 1))[-TOLD:]:
        note = f": {mark.words}" if mark.words else ""
        out.append(f"Mark {spoken_number(number)}, {_where(session, mark)}{note}.")
    return " ".join(out)


def _where(session: Session, mark: Mark) -> str:
    """ "row nine, five of sixteen squares"."""
    program, place = session.program, mark.place
    placed = program.placed(place)
    if placed is None:
        return _between(session, place)
    words = [part_name(program, place), row_name(placed), done_said(program, place).rstrip(".")]
    return ", ".join(f"{word[:1].lower()}{word[1:]}" for word in words if word)


def _between(session: Session, place: Place) -> str:
    program = session.program
    if place == program.end:
        return "the end"
    if place[2] <= program.parts[place[0]].last:
        return f"before {row_name(program.fabric.row(place[2]))}"
    return "after the last row"


__all__ = ["mark_said", "marks_said"]
