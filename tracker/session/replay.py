"""A session from what a journal kept: replaying it is the same as having been there.

Frozen names and arguments come in; a session goes out. A name or an argument that is not known any more is passed over,
and the place that was kept with the deed holds.
"""

from collections.abc import Iterable, Mapping

from tracker.program.places import Place, Program, Stride
from tracker.records import dataclass, replace
from tracker.session import deeds
from tracker.session.amiss import righting
from tracker.session.apply import change
from tracker.session.deeds import Deed
from tracker.session.piece.copies import laid_after, reopened
from tracker.session.state import Copy, Session, begun

_LASTING = (
    deeds.SetStride, deeds.SetRest, righting.AskCounts, righting.SetMarkers, righting.Carry, righting.Mended,
    righting.CountWithMe, righting.Tapped, righting.Untapped, righting.TallyOver, deeds.Blocked,
    deeds.LongEnough,
)  # fmt: skip
"""Deeds that hold however far back they lie."""
_GOES_ON = ("next", "long enough")
"""Deeds that finish a copy by leaving it."""
_A_PLACE_ONLY = ("next", "back", "row", "place", "copy", "count", "stop")
"""Deeds of which nothing lasts but where they left the hands."""


@dataclass(frozen=True, slots=True)
class Kept:
    """One deed as a journal has it."""

    deed: str
    arguments: Mapping[str, object]
    place: tuple[int, ...]
    """The place after it."""


def replayed(program: Program, kept: Iterable[Kept], start: Session | None = None) -> Session:
    """The session after all of them."""
    session = start or begun(program)
    for one in kept:
        deed = deed_of(one.deed, one.arguments)
        if deed is not None:
            session = change(session, deed)
        if one.place != session.place and len(one.place) == 7 and session.program.holds(one.place):
            session = _put(session, _place(one.place), one.deed in _GOES_ON)
    return replace(session, asked=None, resting=False)


def skimmed(program: Program, kept: Iterable[Kept], start: Session | None = None) -> Session:
    """The session after deeds that lie further back than undo reaches: only what still holds of them.

    They may also be of an older text: a copy's place that is none in this program becomes the start of its row.
    """
    session = start or begun(program)
    place = session.place
    for one in kept:
        if len(one.place) != 7:
            continue
        there = _place(one.place)
        if one.deed not in _A_PLACE_ONLY or there[:2] != place[:2]:
            session = _skimmed(replace(session, place=place), one, there)
        place = there  # most of a journal is nothing but steps
    session = replace(session, place=place)
    laid = tuple(
        (copy, place and _held(program, place)) for copy, place in session.laid if _is_copy(program, copy)
    )
    place = session.place if program.holds(session.place) else program.start
    return replace(session, place=place, laid=laid, past=None, undone=None, last=None)


def _skimmed(session: Session, one: Kept, there: Place) -> Session:
    """The session after one deed that is more than a step within a copy."""
    deed = deed_of(one.deed, one.arguments)
    if isinstance(deed, deeds.MarkHere | deeds.Weighed):
        return change(replace(session, place=there), deed) if session.program.holds(there) else session
    if isinstance(deed, _LASTING):
        return change(session, deed)
    if one.deed in ("undo", "redo"):
        of_one = (
            isinstance(session.last, deeds.MarkHere | deeds.Weighed | deeds.Blocked)
            and there == session.place
        )
        return change(session, deeds.Undo()) if of_one and one.deed == "undo" else session
    if there[:2] != session.place[:2]:
        return _put(session, there, one.deed == "next")
    return replace(session, laid=reopened(session.laid, there)) if one.deed == "rip" else session


def _is_copy(program: Program, copy: Copy) -> bool:
    return copy[0] < len(program.parts) and copy[1] <= program.parts[copy[0]].copies


def _held(program: Program, place: Place) -> Place:
    """A place of this program: the same, the start of its row, or of its part."""
    if program.holds(place):
        return place
    start: Place = (*place[:3], 0, 0, 0, 0)
    return start if program.holds(start) else program.part_start(place[0], place[1])


def _put(session: Session, place: Place, onward: bool) -> Session:
    """At a place that was kept, whatever the deed was."""
    laid = laid_after(session.laid, session.program, session.place, place, onward)
    return replace(session, place=place, laid=laid)


def deed_of(name: str, arguments: Mapping[str, object]) -> Deed | None:
    """The deed that was kept under a name; None for a name that is not known."""
    match name, dict(arguments):
        case "next", _:
            return deeds.Onward()
        case "long enough", _:
            return deeds.LongEnough()
        case "back", _:
            return deeds.Back()
        case "undo", _:
            return deeds.Undo()
        case "redo", _:
            return deeds.Redo()
        case "stop", _:
            return deeds.Stop()
        case "row", {"number": int(number), "row": int(row)}:
            return deeds.Jump(number, row)
        case "place", {"place": list(place)}:
            return deeds.PutAt(tuple(number for number in place if isinstance(number, int)))
        case "rip", {"place": list(place)}:
            return deeds.Rip(tuple(number for number in place if isinstance(number, int)))
        case "copy", {"place": list(place)}:
            return deeds.TakeUp(tuple(number for number in place if isinstance(number, int)))
        case "mark", {"words": str(words)}:
            return deeds.MarkHere(words)
        case "weighed", {"what": str(what), "tenths": int(tenths)}:
            return deeds.Weighed(what, tenths)
        case "blocked", {"words": str(words), "part": int(part), "copy": int(copy)}:
            return deeds.Blocked(words, part, copy)
        case "rest", {"minutes": int(minutes)}:
            return deeds.SetRest(minutes)
        case "count", {"number": int(number)}:
            return deeds.Count(number, bool(arguments.get("squares")), str(arguments.get("kinds", "")))
        case "tally", _:
            return righting.CountWithMe()
        case "tap", {"kind": str(kind), "many": int(many)}:
            return righting.Tapped(kind, many)
        case "untap", _:
            return righting.Untapped()
        case "tally over", _:
            return righting.TallyOver()
        case "ask counts", {"every": int(every)}:
            return righting.AskCounts(every)
        case "markers", {"every": int(every)}:
            return righting.SetMarkers(every)
        case "carry", {"row": int(row), "have": str(have), "cause": str(cause)}:
            return righting.Carry(row, have, cause)
        case "mended", _:
            return righting.Mended()
        case "stride", {"to": str(to)} if to in {stride.value for stride in Stride}:
            return deeds.SetStride(Stride(to))
    return None


def _place(numbers: tuple[int, ...]) -> Place:
    part, copy, row, aside, group, beat, single = numbers
    return part, copy, row, aside, group, beat, single
