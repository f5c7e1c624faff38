"""A count the maker reports, held against what is due: the difference, and one likely thing to look at.

A program, a place and a number come in; a verdict goes out. What may have happened in a whole row of stitches is
`finding`'s to tell; for squares and rows half done it is said from the row alone: the edges first, then a whole
repeat (common practice, no source).
"""

import re
from typing import TYPE_CHECKING

from tracker.fabric.model import HIDDEN, SP, WorkedRow
from tracker.program.parts import chains_of
from tracker.program.places import Place, Program
from tracker.program.row.squares import counts_of_squares, squares_done
from tracker.records import dataclass, replace
from tracker.session.wording.made.chains import landing
from tracker.session.wording.made.telling import Telling, capital
from tracker.session.wording.rows import kinds_said, named, row_name, squares_said
from tracker.trade.numbers import spoken_number

if TYPE_CHECKING:
    from tracker.finding.evidence import Tally


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a count comes to."""

    row: int | None
    """Index of the row it was held against, from 1; None when there was none."""
    due: int
    unit: str
    """"stitches", "squares", or "" when nothing could be compared."""
    difference: int
    """Counted less due."""
    sentence: str
    whole: bool = True
    """True when it was held against a whole row, whose mistakes are known."""
    have: "Tally | None" = None
    """For squares, the same count by stitch and space."""
    asks_open: bool = False
    """True when it is asked how many of the squares that were counted are open."""


@dataclass(frozen=True, slots=True)
class _Measure:
    unit: str
    due: int


def verdict(program: Program, place: Place, number: int, squares: bool = False) -> Verdict:
    """A count at a place: of the whole row at its end, of what is done in the middle, of the row below at its start."""
    row = row_counted(program, place, number, squares)
    if row is None:
        chains = chains_due(program, place)
        said = chains_said(number, chains) if chains else "There is no row to count yet."
        return Verdict(None, chains, "", number - chains if chains else 0, said, False)
    whole = row != place[2] or program.is_count(place)
    placed = program.fabric.row(row)
    if not placed.worked.understood:
        name = capital(row_name(placed))
        return Verdict(row, 0, "", 0, f"{name} is followed as written; what it should hold is not known.")
    measures = _measures(program, place, row, whole)
    if squares and len(measures) > 2:
        measures = [measure for measure in measures if measure.unit == "squares"]
    exact = next((measure for measure in measures if measure.due == number), None)
    if exact is not None:
        right = f"{capital(_said(exact.due, exact.unit))}{_of_which(program, place, row)}. That is right."
        return Verdict(row, exact.due, exact.unit, 0, right)
    nearest = min((m for m in measures if m.unit != "in all"), key=lambda measure: abs(measure.due - number))
    difference = number - nearest.due
    if (
        whole
        and nearest.unit == "squares"
        and (found := _of_squares(program, place, row, number)) is not None
    ):
        return found
    told = _likeliest(program, row, number) if whole and nearest.unit == "stitches" else None
    so_far = "" if whole else " so far"
    kinds = _by_kind(program, row) if whole and nearest.unit == "stitches" else ""
    due = _said(nearest.due, nearest.unit)
    sentence = f"{capital(spoken_number(number))}; {_should(program, place, row)} {due}{so_far}{kinds}."
    return Verdict(
        row,
        nearest.due,
        nearest.unit,
        difference,
        f"{sentence} {told or _look(program, row, difference, whole, nearest.unit)}",
        told is not None,
    )


def _should(program: Program, place: Place, row: int) -> str:
    """ "should be", of the row in hand; "row three should have" of the one below it."""
    return "should be" if row == place[2] else f"{row_name(program.fabric.row(row))} should have"


def _of_which(program: Program, place: Place, row: int) -> str:
    """ " in row three", of the one below the row in hand."""
    return "" if row == place[2] else f" in {row_name(program.fabric.row(row))}"


def _of_squares(program: Program, place: Place, row: int, number: int) -> Verdict | None:
    """Squares of a whole row that are not as many as they should be; None where they tell nothing more.

    What happened shows once it is known how many of them are open; in a row all open or all filled it is known.
    """
    due = program.squares(row) or ()
    windows = due.count(True)
    if tally_of_squares(program, row, number, 0) is None:
        return None
    counted = f"{capital(spoken_number(number))}; {_should(program, place, row)}"
    if windows not in (0, len(due)):
        asked = f"{counted} {squares_said(len(due))}, {spoken_number(windows)} open. {HOW_MANY_OPEN}"
        return Verdict(row, len(due), "squares", number - len(due), asked, False, None, True)
    have = tally_of_squares(program, row, number, number if windows else 0)
    felt = _first_felt(program, row, have) if have is not None else None
    if felt is None:
        return None
    word = "windows" if windows else "blocks"
    sentence = f"{counted} {spoken_number(len(due))} {word}. {felt}"
    return Verdict(row, len(due), "squares", number - len(due), sentence, True, have)


def _told_in_squares(
    program: Program, place: Place, row: int, number: int, have: "Tally", found: Verdict
) -> Verdict:
    """The same in squares, as they were counted."""
    due = program.squares(row)
    if due is None:
        return found
    windows = sum(many for name, many in have.counts if name.startswith("ch-"))
    counted = f"{capital(squares_said(number))}, {spoken_number(windows)} open"
    if not found.difference:
        return replace(found, sentence=f"{counted}. That is right.")
    felt = _first_felt(program, row, have) or squares_advice(program, row, number)
    should = _should(program, place, row)
    sentence = f"{counted}; {should} {spoken_number(len(due))}, {spoken_number(due.count(True))} open. {felt}"
    return replace(found, sentence=sentence)


HOW_MANY_OPEN = "How many are open?"


def tally_of_squares(program: Program, row: int, squares: int, windows: int) -> "Tally | None":
    """So many squares, so many of them open, as a count by stitch and space."""
    from tracker.finding.evidence import Tally

    mesh = program.mesh
    worked = program.fabric.row(row).worked
    counts = counts_of_squares(worked, mesh, squares, windows) if mesh else None
    return Tally(tuple(counts.items())) if counts else None


def squares_advice(program: Program, row: int, squares: int) -> str:
    """What to look at where nobody knows how many of the squares are open."""
    return _repeat_of(program, row, squares - len(program.squares(row) or ()), "squares") or ""


def counted(program: Program, place: Place, number: int, squares: bool = False, kinds: str = "") -> Verdict:
    """A count at a place, by kind where it was told so and a whole row is counted."""
    row = row_counted(program, place, number, squares)
    if kinds and row is not None and (row != place[2] or program.is_count(place)):
        from tracker.finding.evidence import Unclear, tallied

        try:
            have = tallied(kinds)
        except Unclear:
            return verdict(program, place, number)
        if program.fabric.row(row).worked.understood:
            found = verdict_by_kind(program, place, row, have)
            return _told_in_squares(program, place, row, number, have, found) if squares else found
    return verdict(program, place, number, squares)


def verdict_by_kind(program: Program, place: Place, row: int, have: "Tally") -> Verdict:
    """A count by kinds of a whole row."""
    from tracker.finding.evidence import fits

    worked = program.fabric.row(row).worked
    number = have.stitches if have.stitches is not None else _stitches_in(have)
    should = _in_windows(
        program, row, kinds_said(named(worked.elements), worked.stitches, Telling(program, program.mesh))
    )
    if fits(have, worked.makes, worked.stitches):
        right = f"{capital(should)}{_of_which(program, place, row)}. That is right."
        return Verdict(row, worked.stitches, "stitches", 0, right)
    told = kinds_said(dict(have.counts), number, Telling(program, program.mesh))
    told = _in_windows(program, row, told) or spoken_number(number)
    felt = _first_felt(program, row, have, named_too=True) or _look_anywhere(program, row)
    sentence = f"{capital(told)}; {_should(program, place, row)} {should}. {felt}"
    return Verdict(row, worked.stitches, "stitches", number - worked.stitches or 1, sentence)


def _in_windows(program: Program, row: int, words: str) -> str:
    """Counts by kind with windows by their name, where a row is filet."""
    if not program.mesh or program.squares(row) is None:
        return words
    return _WINDOWS.sub(r"window\1", words)


_WINDOWS = re.compile(r"chain-(?:one|two|three) space(s?)\b")


def _stitches_in(have: "Tally") -> int:
    return sum(many for name, many in have.counts if not name.startswith("ch-") and name != "picot")


def _by_kind(program: Program, row: int) -> str:
    """What the row should hold by kind, where it holds several."""
    worked = program.fabric.row(row).worked
    makes = named(worked.elements)
    if len(makes) < 2:
        return ""
    telling = Telling(program, program.mesh)
    spaces = {name: number for name, number in makes.items() if name.endswith(" sp")}
    if len(makes) == len(spaces) + 1:
        return f", with {_in_windows(program, row, kinds_said(spaces, 0, telling))}"
    return f": {kinds_said(makes, worked.stitches, telling).partition(': ')[2]}"


def _likeliest(program: Program, row: int, number: int) -> str | None:
    """What to feel for, by the likeliest mistake that gives just this count; None when none does."""
    from tracker.finding.evidence import Tally

    return _first_felt(program, row, Tally((), number))


def _first_felt(program: Program, row: int, have: "Tally", *, named_too: bool = False) -> str | None:
    """What to feel for, by the likeliest mistake that gives a count; `named_too`: behind what that is."""
    # what explains a count is needed only when one is off, and takes a while to import
    from tracker.finding.explain import explain_miscount

    causes = explain_miscount(program.fabric, row, have, program.told_uk).causes
    if not causes:
        return None
    headline = f"{causes[0].headline.rstrip('.')}. " if named_too and len(causes[0].headline) < SHORT else ""
    return f"{headline}{causes[0].feel}"


SHORT = 60
"""Letters of what is said to have happened, before what is felt for it."""


def row_meant(program: Program, place: Place) -> int | None:
    """The row in hand, or the one below when nothing of it is done."""
    part = program.part(place)
    if place == program.end:
        return program.fabric.length or None
    if part is None:
        return None
    if place[3] == 0 and (program.elements_done(place) or program.is_count(place)):
        return place[2]
    return place[2] - 1 if place[2] > part.first else None


def chains_due(program: Program, place: Place) -> int:
    """Chains of the foundation, while it is all that there is to count; 0 elsewhere."""
    part = program.part(place)
    if part is None or row_meant(program, place) is not None:
        return 0
    return next(filter(None, map(chains_of, program.asides(place[0], part.first))), 0)


def chains_said(number: int, due: int) -> str:
    """A foundation chain that was counted, held against what it should be."""
    counted = capital(spoken_number(number))
    if number == due:
        return f"{counted} chains. That is right."
    less = due - number
    what = "more to make" if less > 0 else "too many: undo them" if less < -1 else "too many: undo it"
    return f"{counted}; should be {spoken_number(due)}. {capital(spoken_number(abs(less)))} {what}."


AWAY = 4
"""So many times nearer to the row below, a count that was taken in the middle of a row is of that one."""


SLIP = 3
"""So far off, a count in the middle of a row may still be of what is done of it."""


def row_counted(program: Program, place: Place, number: int, squares: bool = False) -> int | None:
    """The row that a count is of: the one meant, or the one below when only that can hold about so many."""
    row = row_meant(program, place)
    if row is None or row != place[2] or program.is_count(place) or row <= program.parts[place[0]].first:
        return row

    def off(of: int, whole: bool) -> int:
        measures = _measures(program, place, of, whole)
        return min(
            (abs(m.due - number) for m in measures if not squares or m.unit == "squares"),
            default=number,
        )

    return row - 1 if off(row, False) > max(SLIP, AWAY * off(row - 1, True)) else row


def _measures(program: Program, place: Place, row: int, whole: bool) -> list[_Measure]:
    made = program.fabric.row(row).worked.elements if whole else program.made(place)
    found = [
        _Measure("stitches", sum(1 for element in made if element.is_stitch)),
        _Measure("in all", sum(1 for element in made if element.kind != HIDDEN)),
    ]
    if program.squares(row) and program.mesh:
        found.append(_Measure("squares", squares_done(made, program.mesh)))
    return found


def _said(number: int, unit: str) -> str:
    if unit == "squares":
        return squares_said(number)
    return spoken_number(number) + (" with the spaces" if unit == "in all" else "")


def _look_anywhere(program: Program, row: int) -> str:
    """Where nothing likely explains a count."""
    if program.fabric.row(row).kind == "round":
        return "Count once more, from where the round began; then look at each group."
    return "Count once more; then look at the edges, and at each group from the start."


def _look(program: Program, row: int, difference: int, whole: bool, unit: str) -> str:
    """One likely thing to look at: the edges first, then a repeat."""
    worked = program.fabric.row(row).worked
    chain = landing(worked)
    first = worked.elements[0] if worked.elements else None
    counted = first is not None and first.turning
    if unit == "stitches":
        if difference == -1 and whole and chain:
            bare = chain.partition(" of ")[2] or chain
            return f"Don't turn. Feel under your hook: is {bare} bare?"
        if difference == -1 and counted:
            return "Look at both edges: is the first chain still there, and is the last stitch worked?"
        if difference == -1:
            return "Look at both edges: is there a stitch in the first, and one in the last?"
        if difference == 1 and counted:
            return "Look at the row's start: is there a stitch where the chain stands?"
        if difference == 1 and first is not None and first.kind == HIDDEN:
            return "Look at the row's end: is there a stitch in the turning chain? It is no stitch."
    if (told := _repeat_of(program, row, difference, unit)) is not None:
        return told
    return _look_anywhere(program, row)


def _repeat_of(program: Program, row: int, difference: int, unit: str) -> str | None:
    """A difference that is one pass of a repeat."""
    worked = program.fabric.row(row).worked
    word = "missing" if difference < 0 else "too many"
    if unit == "squares":
        return (
            f"{capital(squares_said(abs(difference)))} {word}: hold each group against the row below. "
            "A square lost or gained shifts the picture: rip back to it."
        )
    for breath in program.breaths(row):
        if len(breath.beats) < 2:
            continue
        made = [
            element
            for element in worked.elements[breath.first.made_from : breath.first.made_to]
            if element.is_stitch
        ]
        if len(made) == abs(difference):
            spaces = any(e.kind == SP for e in worked.elements[breath.first.made_from : breath.first.made_to])
            what = "window" if spaces and program.squares(row) else "time of the repeat"
            if what == "window" and not _has_window(worked, breath.first.made_from, breath.first.made_to):
                continue
            times = spoken_number(len(breath.beats))
            of_these = "windows" if what == "window" else "times"
            return f"That is one {what} {word}: count the {times} {of_these}."
    return None


def _has_window(worked: WorkedRow, start: int, end: int) -> bool:
    return any(element.kind == SP for element in worked.elements[start:end])
