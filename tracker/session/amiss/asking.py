"""When a count is asked for, and where a marker saves one: at row ends, as often as the maker wants it.

A session before and after a step come in; whether a count is asked for, and words about markers, go out.
"""

from tracker.fabric.model import HIDDEN
from tracker.notation.tree import Join
from tracker.program.cues import copy_at
from tracker.program.parts import Part
from tracker.program.places import Place, Program, Stride
from tracker.program.row.groups import Sort
from tracker.session.amiss.values import EDGES
from tracker.session.deeds import Count
from tracker.session.fading.length import Length
from tracker.session.state import Session
from tracker.session.wording.rows import row_name
from tracker.trade.numbers import spoken_number, spoken_ordinal

SPIRAL = "Don't join: mark its first stitch, stop at the marker, and move it up with each round."
"""Told at the second round of the first spiral of a piece; later ones are told by less."""
SOON = 8
"""Rows of a part in which its first turning chain is looked for."""


def is_due(session: Session) -> bool:
    """True at the end of a row after which the maker wants to be asked for a count."""
    return session.program.is_count(session.place) and _wanted(session)


def is_due_before(session: Session) -> bool:
    """True for who goes row by row, the count of the row that was told being due before the one after it."""
    amiss, place = session.amiss, session.place
    if session.stride is not Stride.ROW or session.program.placed(place) is None or session.asked is not None:
        return False
    asked = amiss.asks_count or isinstance(session.last, Count)
    return not asked and not session.showing and amiss.tally is None and _wanted(session)


def _wanted(session: Session) -> bool:
    """True for a row after which the maker wants to be asked."""
    every, place, program = session.amiss.every, session.place, session.program
    if not every or not program.fabric.row(place[2]).worked.understood:
        return False
    if every != EDGES:
        return (place[2] - program.parts[place[0]].first + 1) % every == 0
    return _edge(program, place)


def _edge(program: Program, place: Place) -> bool:
    """True where a repeat of rows begins or ends after this row."""
    row, last = place[2], program.parts[place[0]].last
    if row >= last:
        return True
    here, after = copy_at(program, row), copy_at(program, row + 1)
    if (here is None) != (after is None):
        return True
    return here is not None and after is not None and here.time != after.time


def every_said(every: int) -> str:
    """How often a count is asked for."""
    if not every:
        return "I ask for no counts."
    if every == EDGES:
        return "I ask for a count wherever a repeat begins or ends."
    return f"I ask for a count at the end of every {'row' if every == 1 else f'{spoken_number(every)} rows'}."


def markers_said(markers: int) -> str:
    """How often a marker is advised."""
    if not markers:
        return "No word about markers."
    return f"I say where a marker helps, and every {spoken_number(markers)}."


def marker_at(session: Session) -> str:
    """A word about a marker: where the second of rounds in a spiral begins, and at the first turning chain that counts.

    Nothing else shows where a round began that is not joined, and the top of a turning chain is what is missed most
    often on the way back: common practice, no source.
    """
    program, place = session.program, session.place
    if not session.amiss.markers or session.length is not Length.FULL:
        return ""
    if program.is_count(place):
        return _moves_up(session)
    if program.placed(place) is None or place[4:] != (0, 0, 0):
        return ""
    row, part = place[2], program.parts[place[0]]
    if row < min(part.last, part.first + SOON) and _counts_turning(program, row):
        first = not any(_counts_turning(program, before) for before in range(part.first, row))
        return _mark_the_top(program, row) if first and place[1] == 1 else ""
    if row != part.first + 1 or place[1] > 1 or not _is_spiral(program, part):
        return ""
    known = any(_is_spiral(program, earlier) for earlier in program.parts[: place[0]])
    return "Don't join; mark its first stitch." if known else SPIRAL


def _moves_up(session: Session) -> str:
    """ "Mark the first of round eight.": at the end of a round in a spiral that is told in full."""
    program, place = session.program, session.place
    part = program.parts[place[0]]
    if not part.first < place[2] < part.last or session.length_here is not Length.FULL:
        return ""
    after = program.fabric.row(place[2] + 1)
    round_after = _goes_on_unjoined(program, place[2]) and _goes_on_unjoined(program, place[2] + 1)
    if after.number is None or not round_after or not _is_spiral(program, part):
        return ""
    return f"Mark the first of {row_name(after)}."


def _is_spiral(program: Program, part: Part) -> bool:
    """True for a part whose second round is not joined, and begins with no chain: nothing shows where it began."""
    if part.last <= part.first:
        return False
    if program.fabric.row(part.first).kind != "round" or program.pattern.habits.joins is True:
        return False
    return _goes_on_unjoined(program, part.first + 1)


def _goes_on_unjoined(program: Program, row: int) -> bool:
    """True for a round that is not joined, and begins with no chain."""
    placed = program.fabric.row(row)
    if placed.kind != "round":
        return False
    elements = placed.worked.elements
    chained = bool(elements) and (elements[0].turning or elements[0].kind == HIDDEN)
    return not chained and not any(isinstance(step.item, Join) for step in placed.worked.steps)


def _mark_the_top(program: Program, row: int) -> str:
    """Which chain of it: the topmost, or of one that makes a space as well the one that stands for a stitch."""
    turning = [element for element in program.fabric.row(row).worked.elements[:2] if element.turning]
    if len(turning) < 2:
        return "Mark the top of that chain: the way back ends in it."
    whole = sum(element.chains for element in turning)
    return (
        f"Mark the {spoken_ordinal(turning[0].chains)} chain of the chain {spoken_number(whole)}: "
        "the way back ends in it."
    )


def _counts_turning(program: Program, row: int) -> bool:
    """True for a row, not a round, that begins with a turning chain that counts, made after turning."""
    placed = program.fabric.row(row)
    breaths = program.breaths(row) if placed.kind == "row" and placed.worked.understood else ()
    elements = placed.worked.elements
    return bool(breaths and elements and breaths[0].sort is Sort.TURNING and elements[0].turning)
