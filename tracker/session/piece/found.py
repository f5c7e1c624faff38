"""A place found again in a text that was edited since.

A program of the new text and what the place was known by come in; the place in the new text goes out, and what is to be
said of it. Where the row and what stands on it still match, the place is the same; otherwise the row's start, with both
wordings shown.
"""

from dataclasses import dataclass

from tracker.program.places import Place, Program, Stride


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


@dataclass(frozen=True, slots=True)
class Refound:
    """The place in the new text."""

    place: Place
    sure: bool
    """True when the row reads as it did."""
    said: str


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


def refound(program: Program, known: Known) -> Refound:
    """The place in the new text that fits best."""
    row = row_with_label(program, known.label, known.part, known.row) if known.label else None
    if row is None:
        row = min(max(1, known.row), program.fabric.length)
        if not program.fabric.length:
            return Refound(
                program.start,
                False,
                "The pattern was edited since, and has no rows now. You stand at its start.",
            )
        place = program.row_start(program.start, row)
        name = program.fabric.row(row).label
        if not known.label:
            before = program.back(place) if known.row <= program.fabric.length else program.back(program.end)
            return Refound(before, False, f"The pattern was edited since. You stand before {name}.")
        return Refound(
            place,
            False,
            f"The pattern was edited since, and has no {known.label} any more. You stand at the start of {name}.",
        )
    start = program.row_start(program.start, row)
    part = program.parts[start[0]]
    start = (start[0], min(max(1, known.copy), part.copies), *start[2:])
    name = program.fabric.row(row).label
    if not known.same:
        return Refound(
            start,
            False,
            f"The pattern was edited since, and {name} reads otherwise now. You stand at its start.",
        )
    for group, beat, single in program.starts(row, Stride.STITCH):
        there: Place = (*start[:3], 0, group, beat, single)
        if program.elements_done(there) == known.elements_done:
            said = f"The pattern was edited since. {name} reads as it did, and your place holds."
            return Refound(there, True, said)
    return Refound(
        start,
        False,
        f"The pattern was edited since, and {name} makes something else now. You stand at its start.",
    )
