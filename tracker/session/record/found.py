"""A place found again in a text that was edited since.

A program of the new text and what the place was known by come in; the place in the new text goes out, and what is to be
said of it. Where the row is still there and what stands on it is what the new words make, the place is the same;
otherwise both wordings are shown and the maker is asked.
"""

from tracker.fabric.model import HIDDEN, WorkedRow
from tracker.program.places import Place, Program, Stride
from tracker.records import dataclass
from tracker.session.amiss.righting import Lost
from tracker.session.deeds import Again, PutAt
from tracker.session.state import Asked
from tracker.trade.numbers import spoken_number

_THERE = "Is that where you are? No, and we look for your place."


NEAR = 200
"""Rows up and down among which a row that has moved is sought."""


@dataclass(frozen=True, slots=True)
class Known:
    """A place as an older text knew it."""

    part: str | None
    copy: int
    row: int
    label: str
    same: bool | None
    """Whether the row's words are still the same; None when no row has its label any more."""
    elements_done: int
    words: str = ""
    """The row's words as they were."""
    stood: tuple[str, ...] | None = None
    """What stood on the row, by name; None when the older text cannot be worked any more."""
    below: tuple[str, ...] | None = None
    """What the row was worked onto; None likewise."""


@dataclass(frozen=True, slots=True)
class Refound:
    """The place in the new text."""

    place: Place
    sure: bool
    """True when what the maker has still fits."""
    said: str
    shown: tuple[str, ...] = ()
    """Both wordings, a line each, when it does not."""
    asked: Asked | None = None
    same: bool = False
    """True when the row reads as it did, so that the group in hand is the one it was."""


def row_with_label(program: Program, label: str, part: str | None, near: int) -> int | None:
    """Index of the row with this label in a part of this name, the nearest to an index when there are several."""
    found: list[int] = []
    at = 1
    for stretch in program.fabric.stretches:
        for k, placed in enumerate(stretch.rows):
            for turn in range(min(stretch.times, 1000)):
                index = at + turn * len(stretch.rows) + k
                if placed.part == part and program.fabric.row(index).label == label:
                    found.append(index)
        at += stretch.length
    return min(found, key=lambda index: abs(index - near)) if found else None


def standing(program: Program, place: Place) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What stands on the row at a place, and what that row was worked onto, by name."""
    made = tuple(element.name for element in program.made(place) if element.kind != HIDDEN)
    return made, _below(program.fabric.row(place[2]).worked)


def _below(worked: WorkedRow) -> tuple[str, ...]:
    return tuple(element.name for element in worked.below)


def refound(program: Program, known: Known) -> Refound:
    """The place in the new text that fits best."""
    row = row_with_label(program, known.label, known.part, known.row) if known.label else None
    if row is None:
        return _moved(program, known) or _gone(program, known)
    start = _start_of(program, known, row)
    name = program.fabric.row(row).label
    there = _after(program, start, known.elements_done)
    fits = known.same is True if known.stood is None else _stands_on(program, known, row)
    if not (fits and there is not None) and (moved := _moved(program, known)) is not None:
        return moved
    if fits and there is not None:
        how = (
            f"{name} reads as it did"
            if known.same
            else f"{name} reads otherwise now, but what you have on it fits"
        )
        said = f"The pattern was edited since. {how}, and your place holds."
        return Refound(there, True, said, same=known.same is True)
    differs = "makes something else" if known.same else "reads otherwise"
    said = f"The pattern was edited since, and {name} {differs} now. You stand at its start."
    shown = (f"{name} was: {known.words}", f"{name} is now: {program.words(row)}") if known.words else ()
    if not known.elements_done:
        return Refound(start, False, said, shown)
    if there is None:
        return Refound(start, False, said, shown, Asked(_THERE, PutAt(start), Lost()))
    many = spoken_number(known.elements_done)
    had = f"You had {many} stitch{'es and spaces' if known.elements_done > 1 else ''} on it."
    question = f"{had} Do those still stand? Yes goes on after them; no begins the row again."
    return Refound(start, False, said, shown, Asked(question, PutAt(there), Again()))


def _start_of(program: Program, known: Known, row: int) -> Place:
    """The start of a row, in the copy that was in hand."""
    start = program.row_start(program.start, row)
    part = program.parts[start[0]]
    return (start[0], min(max(1, known.copy), part.copies), *start[2:])


def _stands_on(program: Program, known: Known, row: int) -> bool:
    """True when a row begins with what stands in the maker's lap, worked onto the same."""
    worked = program.fabric.row(row).worked
    names = tuple(element.name for element in worked.elements if element.kind != HIDDEN)
    stood = known.stood or ()
    return names[: len(stood)] == stood and known.below == _below(worked)


def _moved(program: Program, known: Known) -> Refound | None:
    """The row under another number, with its words and what it stands on as they were; None when there is none.

    Rows go in above more often than they are taken out, so of several alike the next one on is offered first,
    and asked.
    """
    if not known.words:
        return None
    found: list[tuple[int, Place]] = []
    first, last = max(1, known.row - NEAR), min(program.fabric.length, known.row + NEAR)
    for row in range(first, last + 1):
        placed = program.fabric.row(row)
        if placed.part != known.part or placed.label == known.label or program.words(row) != known.words:
            continue
        if known.stood is not None and not _stands_on(program, known, row):
            continue
        there = _after(program, _start_of(program, known, row), known.elements_done)
        if there is not None:
            found.append((row, there))
    if not found:
        return None
    row, there = min(found, key=lambda each: (abs(each[0] - known.row), each[0] < known.row))
    said = f"The pattern was edited since. What was {known.label} is {program.fabric.row(row).label} now"
    if len(found) > 1:
        return Refound(there, False, f"{said}, by its words.", (), Asked(_THERE, PutAt(there), Lost()))
    return Refound(there, True, f"{said}, and your place holds.", same=True)


def _after(program: Program, start: Place, done: int) -> Place | None:
    """The place in a row at which so many stitches and spaces are done; at a group's start where one is there."""
    for stride in (Stride.GROUP, Stride.STITCH):
        for group, beat, single in program.starts(start[2], stride):
            there: Place = (*start[:3], 0, group, beat, single)
            if program.elements_done(there) == done:
                return there
    return None


def _gone(program: Program, known: Known) -> Refound:
    """Nothing has the row's label any more, or the place was between rows."""
    row = min(max(1, known.row), program.fabric.length)
    if not program.fabric.length:
        return Refound(
            program.start, False, "The pattern was edited since, and has no rows now. You stand at its start."
        )
    place = program.row_start(program.start, row)
    name = program.fabric.row(row).label
    if not known.label:
        before = program.back(place) if known.row <= program.fabric.length else program.back(program.end)
        return Refound(before, False, f"The pattern was edited since. You stand before {name}.")
    said = (
        f"The pattern was edited since, and has no {known.label} any more. You stand at the start of {name}."
    )
    shown = (
        (f"{known.label} was: {known.words}", f"{name} is now: {program.words(row)}") if known.words else ()
    )
    asked = Asked(_THERE, PutAt(place), Lost())
    return Refound(place, False, said, shown, asked)
