"""The only change of a session: `apply(session, deed, at) -> (session, effects)`.

`change` is the change alone, which replaying a journal repeats; `apply` adds what is kept, said and shown. Nothing here
prints, reads a clock or touches a disk, and no deed raises.
"""

from tracker.program.places import Place, Stride
from tracker.records import replace
from tracker.session import deeds
from tracker.session.amiss import doing as amiss
from tracker.session.amiss import righting, tallying
from tracker.session.commands import help_lines, help_said
from tracker.session.deeds import Deed
from tracker.session.effects import Effect, Keep, Rest, Say, Settle, Show, with_more
from tracker.session.fading.length import LENGTHS, Length
from tracker.session.fading.words import aloud_at
from tracker.session.piece import copies, doing
from tracker.session.piece.moving import counted_at, done, moved, standing_in
from tracker.session.piece.recap import more_said
from tracker.session.piece.rest import time_to_rest
from tracker.session.record import yarn
from tracker.session.state import Asked, Session
from tracker.session.wording import beside_said, left_said, place_line, said_at, where_said, whole_row
from tracker.session.wording.explain import how_worked, movements_at
from tracker.session.wording.miscounts import counted
from tracker.session.wording.where import around_said, asked_said
from tracker.trade.numbers import read_back, spoken_number


def apply(session: Session, deed: Deed, at_ms: int) -> tuple[Session, tuple[Effect, ...]]:
    """What a deed makes of a session, and what is to be kept, said and shown.

    `at_ms` is when, in milliseconds since 1970 in UTC.
    """
    deed = amiss.meant(session, deed)
    if isinstance(deed, righting.TallyOver) and (count := tallying.outcome(session)) is not None:
        after, effects = apply(change(session, deed), count, at_ms)
        return after, (Keep("tally over"), *effects)
    after = _explained(session, _paced(session, change(session, deed), deed, at_ms), deed)
    after = amiss.turned(session, after, deed)
    if isinstance(deed, deeds.Count):
        after, told = _counted(after, deed)
    else:
        told = amiss.with_afterwards(session, after, deed, _effects(session, after, deed))
    reminder, after = time_to_rest(session, after, at_ms)
    return after, (*with_more(list(told), reminder),)


def _explained(before: Session, after: Session, deed: Deed) -> Session:
    """A stitch explained twice in one place is told movement by movement; any other deed ends that."""
    match deed:
        case deeds.HowWorked(of=""):
            again = before.explained == before.place
            steps = movements_at(after.program, after.place) if again else ()
            return replace(after, explained=None if again else after.place, showing=steps)
        case deeds.Onward():
            return after
        case deeds.Where():
            return replace(after, showing=(), located=after.place)
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
            return moved(open_question, deed, copies.onward(session))
        case deeds.LongEnough():
            goes_on = copies.goes_on_at(session)
            if goes_on is None:
                return open_question
            ended = (*session.ended, copies.ended_at(session))
            behind = moved(open_question, deed, copies.onward(session, goes_on.last))
            return replace(behind, ended=ended) if behind is not open_question else behind
        case deeds.Back():
            return moved(open_question, deed, copies.backward(session, place, session.stride))
        case deeds.Jump(row=row):
            known = 1 <= row <= program.fabric.length
            return moved(open_question, deed, program.row_start(place, row)) if known else open_question
        case deeds.PutAt(place=there) | deeds.Rip(place=there) | deeds.TakeUp(place=there):
            found = _as_place(there)
            if found is None or not program.holds(found):
                return open_question
            return moved(open_question, deed, found)
        case deeds.Undo():
            if session.past is None:
                return open_question
            return standing_in(session, replace(session.past, undone=replace(session, asked=None)))
        case deeds.Redo():
            return open_question if session.undone is None else standing_in(session, session.undone)
        case deeds.SetStride(to=stride):
            return open_question if stride is session.stride else done(open_question, deed, stride=stride)
        case deeds.SetLength(to=length):
            return replace(open_question, length=length)
        case deeds.TellMore():
            if _asks_begun_or_done(session):
                return session
            at = LENGTHS.index(session.length)
            return replace(open_question, length=LENGTHS[max(0, at - 1)])
        case deeds.GoToRow(number=number):
            found_row = program.find(number, place)
            if found_row is None:
                return open_question
            word = "Round" if program.fabric.row(found_row).kind == "round" else "Row"
            question = f"{word} {read_back(number)}. Go there?"
            return replace(session, asked=Asked(question, deeds.Jump(number, found_row)))
        case (
            deeds.RipToRow() | deeds.RipBack() | deeds.RipToMark() | deeds.GoToCopy() | deeds.MarkHere()
            | deeds.SetRest() | deeds.Marks() | deeds.Recap() | deeds.Card() | deeds.Finished() | deeds.HowLong()
            | deeds.Make()
            | deeds.Weighed() | deeds.Blocked()
        ):  # fmt: skip
            return doing.changed(session, open_question, deed)
        case deeds.Yes():
            return change(open_question, session.asked.deed) if session.asked is not None else open_question
        case deeds.No():
            if session.asked is not None and session.asked.refused is not None:
                return change(open_question, session.asked.refused)
            return open_question
        case deeds.Stop():
            return replace(open_question, resting=True)
        case deeds.Pause():
            return replace(session, hearing=False)
        case deeds.Listen():
            return replace(session, hearing=True)
        case deeds.Count():
            return done(open_question, deed)
        case (
            righting.CountWithMe() | righting.Tapped() | righting.Untapped() | righting.TallyOver()
            | righting.AskCounts() | righting.SetMarkers() | righting.Carry() | righting.Mended()
        ):  # fmt: skip
            return amiss.changed(session, open_question, deed)
        case (
            righting.Lost() | righting.Answered() | righting.Unanswered() | righting.Elsewhere()
            | righting.Blame() | righting.NotThat() | righting.AskWhere() | righting.Kinds()
            | righting.CountDue()
        ):  # fmt: skip
            return open_question
        case (
            deeds.Again()
            | deeds.Where()
            | deeds.HowMany()
            | deeds.Left()
            | deeds.WholeRow()
            | deeds.HowWorked()
        ):
            return session
        case deeds.SpeakSo() | deeds.Number() | deeds.Help() | deeds.Ask() | deeds.Repeated():
            return session


def _asks_begun_or_done(session: Session) -> bool:
    """True while the question of the recap stands: more is then more of the recap."""
    return session.asked is not None and isinstance(session.asked.refused, deeds.Again)


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
                return [Say(after.asked.question if after.asked else said_at(program, place, after.stride))]
            if after.asked is not None:
                return [Keep("next"), Say(after.asked.question)]
            if before.place[:2] != place[:2] and place != program.end and not program.begins(place):
                return [Keep("next"), Say(copies.reached_said(after))]
            return [Keep("next"), _told(after)]
        case deeds.LongEnough():
            if before.place == after.place:
                return [Say(copies.not_yet_said(before))]
            told = _effects(before, after, deeds.Onward())
            return copies.ended_said(
                before, [Keep("long enough"), *(one for one in told if one != Keep("next"))]
            )
        case deeds.Back():
            if before.place == after.place:
                return [Say(f"This is the start. {said_at(program, place, after.stride)}")]
            return [Keep("back"), Say(said_at(program, place, after.stride, again=True))]
        case deeds.Again():
            return [Say(said_at(program, place, after.stride, again=True))]
        case deeds.Where():
            # asked twice in one place, all there is to tell
            words = more_said(after) if before.located == place else where_said(program, place)
            return [Show((f"place: {place_line(program, place)}",)), Say(words)]
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
        case deeds.Ask(about=about):
            return [Say(yarn.asked_said(after, about) or asked_said(program, place, about))]
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
                # within a row it is told where it goes on, also to who goes row by row
                Say(said_at(program, place, Stride.GROUP if place[4] else after.stride, again=True)),
            ]
        case deeds.Count():
            return _counted(after, deed)[1]
        case (
            righting.CountWithMe() | righting.Tapped() | righting.Untapped() | righting.TallyOver()
            | righting.AskCounts() | righting.SetMarkers() | righting.Carry() | righting.Mended()
            | righting.Lost() | righting.Answered() | righting.Unanswered() | righting.Elsewhere()
            | righting.Blame() | righting.NotThat() | righting.AskWhere() | righting.Kinds()
            | righting.CountDue()
        ):  # fmt: skip
            return amiss.told(before, after, deed)
        case deeds.Repeated():
            return [Say(amiss.repeated(after))]
        case deeds.Number():
            return [Say("No number was asked for. Say row or count before it.")]
        case deeds.SetStride(to=stride):
            return [Keep("stride", {"to": stride.value}), Say(_stride_said(stride))]
        case deeds.SetLength(to=length):
            return [Settle("length", length.value), Say(_LENGTHS_SAID[length])]
        case deeds.TellMore():
            if _asks_begun_or_done(before):
                return [Say(more_said(after)), Say(before.asked.question if before.asked else "")]
            return [
                *([Settle("length", after.length.value)] if after.length is not before.length else []),
                Say(said_at(program, place, after.stride, again=True)),
                # who hears every word already wants what else there is to be seen
                *([Say(around_said(program, place))] if before.length_here is Length.FULL else []),
            ]
        case deeds.SpeakSo(manner=manner):
            return [Settle("manner", manner), Say(MANNERS[manner])]
        case (
            deeds.RipToRow() | deeds.RipBack() | deeds.RipToMark() | deeds.Rip() | deeds.GoToCopy()
            | deeds.TakeUp() | deeds.MarkHere() | deeds.SetRest() | deeds.Marks() | deeds.Recap()
            | deeds.Card() | deeds.Finished() | deeds.HowLong() | deeds.Make() | deeds.Weighed()
            | deeds.Blocked()
        ):  # fmt: skip
            return doing.told(before, after, deed)
        case deeds.Undo():
            if before.past is None:
                return [Say("There is nothing to take back.")]
            named = doing.taken_back(before, _stride_said(after.stride))
            return [Keep("undo"), Say(f"{named} {said_at(program, place, after.stride, again=True)}")]
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
            if before.asked.refused is not None:
                return _effects(replace(before, asked=None), after, before.asked.refused)
            return [Say(f"Then we stay. {said_at(program, place, after.stride, again=True)}")]
        case deeds.Pause():
            return [Say("I hear nothing until you want me to.")]
        case deeds.Listen():
            return [Say("I hear you.")]
        case deeds.Stop():
            return [Keep("stop"), Say("Resting. Your place is kept."), Rest()]
        case deeds.Help():
            return [Say(help_said(after.renamed)), Show(help_lines(after.renamed))]


def _counted(session: Session, deed: deeds.Count) -> tuple[Session, list[Effect]]:
    """A count held against what is due; where it is off, the likeliest cause is asked about."""
    found = counted(session.program, counted_at(session), deed.number, deed.squares, deed.kinds)
    told: dict[str, int | str | list[int]] = {"number": deed.number, "squares": int(deed.squares)}
    told |= {"row": found.row or 0, "due": found.due, "unit": found.unit}
    told |= {"kinds": deed.kinds} if deed.kinds else {}
    after = amiss.counted(session, deed, found)
    lines = amiss.causes_listed(after)
    asks = after.asked is not None and after.asked.question.startswith(found.sentence)
    said = after.asked.question if after.asked is not None and asks else found.sentence
    if after.asked is None and not found.difference and (more := copies.more_words(after)):
        said = f"{said} {more}"
    return after, [Keep("count", told), Say(said), *((Show(lines),) if lines else ())]


def _told(session: Session) -> Effect:
    """What is said at a place; a tap between two tens is only shown."""
    words = said_at(session.program, session.place, session.stride)
    if words:
        aloud = aloud_at(session.program, session.place, session.stride, session.length_here)
        return Say(words, None if aloud == words else aloud)
    return Show((f"{session.place[6] + 1} of {session.program.singles(session.place)}",))


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


__all__ = ["Effect", "Keep", "Rest", "Say", "Settle", "Show", "apply", "change"]
