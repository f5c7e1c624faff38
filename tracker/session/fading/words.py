"""What is said aloud at a place, at each length.

A program, a place, a stride and a length come in; words go out, "" where nothing needs to be said. However short, a
row's beginning, where its last stitch goes, its count, and what breaks the run of the hands are told.
"""

from functools import lru_cache

from tracker.notation.tree import Say, Work
from tracker.program.learned import grown_at
from tracker.program.places import Place, Program, Stride
from tracker.program.row.groups import Breath, Sort
from tracker.session.fading.length import Length
from tracker.session.wording.groups import around, brief, changing, in_full, later_beat, single_stitch
from tracker.session.wording.made.chains import landing
from tracker.session.wording.made.telling import capital
from tracker.session.wording.places import LATELY_TOLD, TALLY, aside_said, said_at
from tracker.session.wording.rows import due_and_turn, opening


@lru_cache(maxsize=LATELY_TOLD)
def aloud_at(program: Program, place: Place, stride: Stride, length: Length) -> str:
    """The words that are said aloud as a place is reached."""
    if length is Length.FULL or place == program.end or place[3] or program.is_count(place):
        return said_at(program, place, stride)
    if stride is Stride.ROW:
        return _row(program, place, length)
    breath = program.breath(place)
    assert breath is not None
    begins = opening(program, place) if place[4:] == (0, 0, 0) else ""
    return " ".join(words for words in (begins, _here(program, place, breath, stride, length)) if words)


def _here(program: Program, place: Place, breath: Breath, stride: Stride, length: Length) -> str:
    if stride is Stride.REPEAT and breath.path:
        return _pass(program, place, breath)
    if stride is Stride.STITCH and place[6]:
        single = place[6] + 1
        called = length is Length.SHORT or single % TALLY == 0 or single == program.singles(place)
        return single_stitch(program, place, breath) if called else ""
    if place[5]:
        last = place[5] == len(breath.beats) - 1
        called = last or length is Length.SHORT or breath.sort is Sort.ENDS
        return later_beat(program, place, breath) if called else ""
    return _group(program, place, breath, length)


def _group(program: Program, place: Place, breath: Breath, length: Length) -> str:
    """A group at its first pass."""
    edge = around(program, place)
    if ends_or_is_odd(program, place, breath):
        return edge + in_full(program, place, breath)
    if length is Length.CUES and breath.sort is not Sort.TURNING and not _is_new(program, place):
        return edge.strip()
    return f"{edge}{capital(brief(program, place))}."


def _is_new(program: Program, place: Place) -> bool:
    """True for what hands that know the row cannot know: another number, and an end that nothing has foretold."""
    if grown_at(program, place):
        return True
    groups = [one for one in program.breaths(place[2]) if one.sort is not Sort.TURNING]
    last = place[4] == len(program.breaths(place[2])) - 1
    return last and len(groups) > MANY and len(groups[-2].beats) == 1


MANY = 2
"""A row of more groups has an end of its own."""


def _pass(program: Program, place: Place, breath: Breath) -> str:
    """A repeat that is one step: its edge and its groups by their names."""
    breaths = program.breaths(place[2])
    named: list[str] = []
    change = ""
    for group in range(place[4], len(breaths)):
        path = breaths[group].path
        if not path or path[0][:2] != breath.path[0][:2]:
            break
        at: Place = (*place[:4], group, 0, 0)
        named.append(brief(program, at))
        change = changing(program, at)
    return f"{around(program, place)}{capital(', '.join(filter(None, named)))}.{change}"


def ends_or_is_odd(program: Program, place: Place, breath: Breath) -> bool:
    """True for a group the hands do not do by themselves.

    It ends the row where no stitch like the others is, it is made in another loop or colour, or words stand in it.
    """
    if breath.sort in (Sort.WORDS, Sort.ENDS):
        return True
    row = program.fabric.row(place[2])
    last = place[4] == len(program.breaths(place[2])) - 1
    if last and (landing(row.worked) or breath.sort is Sort.JOIN or changing(program, place)):
        return True
    items = [step.item for beat in breath.beats for step in beat.steps]
    if all(isinstance(item, Say) for item in items):
        return True
    return any(
        isinstance(item, Say)
        and item.kind != "loop"
        or isinstance(item, Work)
        and bool(item.where.loop or item.colour)
        for item in items
    ) and not _all_alike(program, place)


def _all_alike(program: Program, place: Place) -> bool:
    """True in a row that is one group and its turning chain: there nothing is out of the ordinary."""
    return len([one for one in program.breaths(place[2]) if one.sort is not Sort.TURNING]) <= 1


def _row(program: Program, place: Place, length: Length) -> str:
    """A row in one step: by its groups' names, or by its ends and oddities alone."""
    row = place[2]
    breaths = program.breaths(row)
    named: list[str] = []
    full: list[str] = []
    for group, breath in enumerate(breaths):
        if breath.path and breath.path[0][1]:
            continue
        at: Place = (*place[:3], 0, group, 0, 0)
        if ends_or_is_odd(program, at, breath):
            full.append(in_full(program, at, breath))
        elif length is Length.SHORT:
            named.append((around(program, at) + brief(program, at)).lower())
    listed = [f"{capital(', '.join(named))}."] if named else []
    change = changing(program, (*place[:3], 0, len(breaths) - 1, 0, 0)).strip()
    behind = [change] if change and not any(change in words for words in full) else []
    return " ".join([opening(program, place), *listed, *full, *behind, due_and_turn(program, place)])


__all__ = ["aloud_at", "aside_said", "ends_or_is_odd"]
