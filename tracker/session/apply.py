"""The only change of a session: `apply(session, deed, at) -> (session, effects)`.

`change` is the change alone, which replaying a journal repeats; `apply` adds what is kept, said and shown. Nothing here
prints, reads a clock or touches a disk, and no deed raises.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from tracker.program.places import Place, Stride
from tracker.session import deeds
from tracker.session.commands import help_lines
from tracker.session.deeds import Deed
from tracker.session.fading.length import LENGTHS, Length
from tracker.session.fading.words import aloud_at
from tracker.session.state import Asked, Past, Session
from tracker.session.wording import beside_said, left_said, place_line, said_at, where_said, whole_row
from tracker.session.wording.explain import how_worked, movements_at
from tracker.session.wording.miscounts import verdict
from tracker.trade.numbers import read_back, spoken_number


@dataclass(frozen=True, slots=True)
class Keep:
    """To be committed to the journal before anything is shown."""

    deed: str
    """The frozen name."""
    arguments: Mapping[str, int | str | list[int]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Say:
    """A sentence for the eye and the ear."""

    text: str
    aloud: str | None = None
    """What is said aloud where that is less: "" for nothing but a tone. None: the whole text."""

    @property
    def spoken(self) -> str:
        """What is said aloud."""
        return self.text if self.aloud is None else self.aloud


@dataclass(frozen=True, slots=True)
class Show:
    """Lines for the eye alone."""

    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Rest:
    """The maker puts the work down."""


@dataclass(frozen=True, slots=True)
class Settle:
    """To be kept with the maker's settings, and to hold at once."""

    what: str
    """"length", or a manner of speaking."""
    to: str = ""


Effect = Keep | Say | Show | Rest | Settle


def apply(session: Session, deed: Deed, at_ms: int) -> tuple[Session, tuple[Effect, ...]]:
    """What a deed makes of a session, and what is to be kept, said and shown.

    `at_ms` is when, in milliseconds since 1970 in UTC.
    """
    after = _explained(session, _paced(session, change(session, deed), deed, at_ms), deed)
    return after, tuple(_effects(session, after, deed))


def _explained(before: Session, after: Session, deed: Deed) -> Session:
    """A stitch explained twice in one place is told movement by movement; any other deed ends that."""
    match deed:
        case deeds.HowWorked(of=""):
            again = before.explained == before.place
            steps = movements_at(after.program, after.place) if again else ()
            return replace(after, explained=None if again else after.place, showing=steps)
        case deeds.Onward():
            return after
        case _:
            return replace(after, showing=()) if after.showing else after


def _paced(before: Session, after: Session, deed: Deed, at_ms: int) -> Session:
    """The session with what this deed tells of the maker: who hesitates or asks wants the words back."""
    match deed:
        case deeds.Onward():
            if before.pace.hesitated(at_ms):
                after = replace(after, recalled=after.place)
            return replace(after, pace=before.pace.stepped(at_ms))
        case (
            deeds.Again() | deeds.Where() | deeds.WholeRow() | deeds.HowWorked() | deeds.TellMore()
            | deeds.Back() | deeds.Undo() | deeds.Jump() | deeds.PutAt()
        ):  # fmt: skip
            return replace(after, recalled=after.place)
        case _:
            return after


def change(session: Session, deed: Deed) -> Session:
    """The session after a deed."""
    program, place = session.program, session.place
    open_question = (
        replace(session, asked=None, resting=False) if session.asked or session.resting else session
    )
    match deed:
        case deeds.Onward():
            if session.showing:
                return replace(open_question, showing=session.showing[1:])
            return _moved(open_question, program.next(place, session.stride))
        case deeds.Back():
            return _moved(open_question, program.back(place, session.stride))
        case deeds.Jump(row=row):
            known = 1 <= row <= program.fabric.length
            return _moved(open_question, program.row_start(place, row)) if known else open_question
        case deeds.PutAt(place=there):
            found = _as_place(there)
            return (
                _moved(open_question, found) if found is not None and program.holds(found) else open_question
            )
        case deeds.Undo():
            if session.past is None:
                return open_question
            undone = Past(place, session.undone)
            return replace(open_question, place=session.past.place, past=session.past.before, undone=undone)
        case deeds.Redo():
            if session.undone is None:
                return open_question
            past = Past(place, session.past)
            return replace(open_question, place=session.undone.place, past=past, undone=session.undone.before)
        case deeds.SetStride(to=stride):
            return replace(open_question, stride=stride)
        case deeds.SetLength(to=length):
            return replace(open_question, length=length)
        case deeds.TellMore():
            at = LENGTHS.index(session.length)
            return replace(open_question, length=LENGTHS[max(0, at - 1)])
        case deeds.GoToRow(number=number):
            found_row = program.find(number, place)
            if found_row is None:
                return open_question
            word = "Round" if program.fabric.row(found_row).kind == "round" else "Row"
            question = f"{word} {read_back(number)}. Go there?"
            return replace(session, asked=Asked(question, deeds.Jump(number, found_row)))
        case deeds.Yes():
            return change(open_question, session.asked.deed) if session.asked is not None else open_question
        case deeds.No():
            return open_question
        case deeds.Stop():
            return replace(open_question, resting=True)
        case deeds.Pause():
            return replace(session, hearing=False)
        case deeds.Listen():
            return replace(session, hearing=True)
        case (
            deeds.Again()
            | deeds.Where()
            | deeds.HowMany()
            | deeds.Left()
            | deeds.WholeRow()
            | deeds.HowWorked()
        ):
            return session
        case deeds.SpeakSo() | deeds.Count() | deeds.Number() | deeds.Help():
            return session


def _moved(session: Session, place: Place) -> Session:
    if place == session.place:
        return session
    return replace(session, place=place, past=Past(session.place, session.past), undone=None)


def _as_place(numbers: tuple[int, ...]) -> Place | None:
    if len(numbers) != 7:
        return None
    part, copy, row, aside, group, beat, single = numbers
    return part, copy, row, aside, group, beat, single


def _effects(before: Session, after: Session, deed: Deed) -> list[Effect]:
    program, place = after.program, after.place
    match deed:
        case deeds.Onward():
            if before.showing:
                return [Say(after.showing[0] if after.showing else "That is the stitch.")]
            if before.place == after.place:
                return [Say(said_at(program, place, after.stride))]
            return [Keep("next"), _told(after)]
        case deeds.Back():
            if before.place == after.place:
                return [Say(f"This is the start. {said_at(program, place, after.stride)}")]
            return [Keep("back"), Say(said_at(program, place, after.stride, again=True))]
        case deeds.Again():
            return [Say(said_at(program, place, after.stride, again=True))]
        case deeds.Where():
            return [Show((f"place: {place_line(program, place)}",)), Say(where_said(program, place))]
        case deeds.HowMany():
            return [Say(beside_said(program, place) or left_said(program, place))]
        case deeds.Left():
            return [Say(left_said(program, place))]
        case deeds.WholeRow():
            row = program.placed(place)
            return [
                Say(
                    said_at(program, place, after.stride, again=True)
                    if row is None
                    else whole_row(program, place)
                )
            ]
        case deeds.HowWorked(of=of):
            if after.showing:
                return [Say(f"One movement at a step. {after.showing[0]}")]
            return [Say(how_worked(program, place, of))]
        case deeds.GoToRow(number=number):
            if after.asked is None:
                return [Say(_no_such_row(after, number))]
            return [Say(after.asked.question)]
        case deeds.Jump(number=number, row=row):
            return [
                *_kept_move(before, after, Keep("row", {"number": number, "row": row})),
                Say(said_at(program, place, after.stride)),
            ]
        case deeds.PutAt(place=there):
            return [
                *_kept_move(before, after, Keep("place", {"place": list(there)})),
                Say(said_at(program, place, after.stride, again=True)),
            ]
        case deeds.Count(number=number, squares=squares):
            found = verdict(program, _counted_at(after), number, squares)
            told: dict[str, int | str | list[int]] = {"number": number, "squares": int(squares)}
            told |= {"row": found.row or 0, "due": found.due, "unit": found.unit}
            return [Keep("count", told), Say(found.sentence)]
        case deeds.Number():
            return [Say("No number was asked for. Say row or count before it.")]
        case deeds.SetStride(to=stride):
            return [Keep("stride", {"to": stride.value}), Say(_stride_said(stride))]
        case deeds.SetLength(to=length):
            return [Settle("length", length.value), Say(_LENGTHS_SAID[length])]
        case deeds.TellMore():
            return [
                *([Settle("length", after.length.value)] if after.length is not before.length else []),
                Say(said_at(program, place, after.stride, again=True)),
            ]
        case deeds.SpeakSo(manner=manner):
            return [Settle("manner", manner), Say(MANNERS[manner])]
        case deeds.Undo():
            if before.past is None:
                return [Say("There is nothing to take back.")]
            return [Keep("undo"), Say(f"Taken back. {said_at(program, place, after.stride, again=True)}")]
        case deeds.Redo():
            if before.undone is None:
                return [Say("There is nothing to do over.")]
            return [Keep("redo"), Say(said_at(program, place, after.stride, again=True))]
        case deeds.Yes():
            if before.asked is None:
                return [Say("Nothing was asked.")]
            return _effects(replace(before, asked=None), after, before.asked.deed)
        case deeds.No():
            if before.asked is None:
                return [Say("Nothing was asked.")]
            return [Say(f"Then we stay. {said_at(program, place, after.stride, again=True)}")]
        case deeds.Pause():
            return [Say("I hear nothing until you want me to.")]
        case deeds.Listen():
            return [Say("I hear you.")]
        case deeds.Stop():
            return [Keep("stop"), Say("Resting. Your place is kept."), Rest()]
        case deeds.Help():
            return [Show(help_lines())]


def _told(session: Session) -> Effect:
    """What is said at a place; a tap between two tens is only shown."""
    words = said_at(session.program, session.place, session.stride)
    if words:
        aloud = aloud_at(session.program, session.place, session.stride, session.length_here)
        return Say(words, None if aloud == words else aloud)
    return Show((f"{session.place[6] + 1} of {session.program.singles(session.place)}",))


def _counted_at(session: Session) -> Place:
    """Where a count holds: who goes row by row has done the row that was told."""
    place = session.place
    if session.stride is not Stride.ROW or session.program.placed(place) is None:
        return place
    return (*place[:4], len(session.program.breaths(place[2])), 0, 0)


def _kept_move(before: Session, after: Session, keep: Keep) -> list[Effect]:
    return [keep] if before.place != after.place else []


def _no_such_row(session: Session, number: int) -> str:
    program = session.program
    part = program.part(session.place) or (program.parts[-1] if program.parts else None)
    if part is None or part.last < part.first:
        return "The pattern has no rows to go to."
    last = program.fabric.row(part.last)
    word = "round" if last.kind == "round" else "row"
    known = f"; the last is {word} {spoken_number(last.number)}" if last.number is not None else ""
    return f"There is no {word} {read_back(number)}{known}."


MANNERS: dict[str, str] = {
    "faster": "This fast.",
    "slower": "This slow.",
    "louder": "This loud.",
    "softer": "This soft.",
    "silent": "Silent from now on.",
    "aloud": "I speak again.",
}
"""Manners of speaking that can be asked for, and what is said of each: in that manner itself."""

_LENGTHS_SAID = {
    Length.FULL: "I tell each group in words.",
    Length.SHORT: "I tell it shortly.",
    Length.CUES: "Only where rows begin and end, and what is out of the ordinary.",
}


def _stride_said(stride: Stride) -> str:
    return f"One {stride.value} at a step."
