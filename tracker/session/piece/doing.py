"""Deeds about the piece as a whole: ripping back, marks, copies, the card, the recap, yarn, rest.

The part of `apply` that is theirs: a session and a deed come in, the session after it goes out, and what is said of it.
"""

from tracker.records import replace
from tracker.session import deeds
from tracker.session.effects import Effect, Keep, Say
from tracker.session.piece import copies, ripping
from tracker.session.piece.card import card_said
from tracker.session.piece.marks import mark_said, marks_said
from tracker.session.piece.moving import done
from tracker.session.piece.recap import more_said
from tracker.session.piece.rest import rested
from tracker.session.record import blocked, yarn
from tracker.session.record.log import left_said
from tracker.session.state import Asked, Copy, Mark, Session
from tracker.trade.numbers import read_back, spoken_number

Asking = (
    deeds.RipToRow | deeds.RipBack | deeds.RipToMark | deeds.GoToCopy | deeds.MarkHere | deeds.SetRest
    | deeds.Marks | deeds.Recap | deeds.Card | deeds.Finished | deeds.HowLong | deeds.Make | deeds.Weighed
    | deeds.Blocked
)  # fmt: skip
Outcome = deeds.Rip | deeds.TakeUp


def changed(session: Session, open_question: Session, deed: Asking) -> Session:
    """The session after a deed; `open_question` is the same without what was asked before."""
    match deed:
        case deeds.MarkHere(words=words):
            return done(open_question, deed, marks=(*session.marks, Mark(session.place, words)))
        case deeds.Weighed(what=what, tenths=tenths):
            kept = yarn.weighing(session, what, tenths)
            return (
                open_question if kept is None else done(open_question, deed, weighed=(*session.weighed, kept))
            )
        case deeds.Blocked():
            found = _blocked(session, deed)
            if found is None:
                return open_question
            return done(open_question, deed, blocked=blocked.with_size(session, *found))
        case deeds.SetRest(minutes=minutes):
            return done(open_question, deed, rest_minutes=minutes)
        case deeds.RipToRow() | deeds.RipBack() | deeds.RipToMark():
            back_to = ripping.target(session, deed)
            if isinstance(back_to, str):
                return open_question
            return replace(session, asked=Asked(ripping.question(session, back_to), deeds.Rip(back_to)))
        case deeds.GoToCopy(number=number, part=part):
            copy = copies.copy_numbered(session, number, part)
            if copy is None or copy == session.place[:2]:
                return open_question
            question = f"{copies.copy_said(session, copy)}: {copies.state_said(session, copy)}. Go there?"
            return replace(session, asked=Asked(question, deeds.TakeUp(copies.left_at(session, copy))))
        case (
            deeds.Marks() | deeds.Recap() | deeds.Card() | deeds.Finished() | deeds.HowLong() | deeds.Make()
        ):  # fmt: skip
            return session


def told(before: Session, after: Session, deed: Asking | Outcome) -> list[Effect]:
    """What is kept and said."""
    program = after.program
    match deed:
        case deeds.RipToRow() | deeds.RipBack() | deeds.RipToMark():
            if after.asked is None:
                refused = ripping.target(before, deed)
                return [Say(refused if isinstance(refused, str) else "")]
            return [Say(after.asked.question)]
        case deeds.Rip(place=there):
            return [
                *_kept_move(before, after, Keep("rip", {"place": list(there)})),
                Say(ripping.ripped_said(after)),
            ]
        case deeds.MarkHere(words=words):
            return [Keep("mark", {"words": words}), Say(mark_said(after))]
        case deeds.Marks():
            return [Say(marks_said(after))]
        case deeds.SetRest(minutes=minutes):
            return [Keep("rest", {"minutes": minutes}), Say(rested(minutes))]
        case deeds.Recap():
            return [Say(more_said(after))]
        case deeds.Card():
            return [Say(card_said(after.card, program.pattern))]
        case deeds.Finished():
            return [Say(" ".join(filter(None, (copies.finished_said(after), blocked.sizes_said(after)))))]
        case deeds.Weighed(what=what, tenths=tenths):
            said = Say(yarn.weighed_said(before, after, what, tenths))
            return (
                [Keep("weighed", {"what": what, "tenths": tenths}), said] if _new(before, after) else [said]
            )
        case deeds.Blocked():
            found = _blocked(before, deed)
            if found is None:
                return [Say(blocked.noted_said(after, None))]
            copy, size = found
            kept = Keep("blocked", {"words": size, "part": copy[0], "copy": copy[1]})
            return [kept, Say(blocked.noted_said(after, copy))]
        case deeds.Make(number=number):
            return [Say(copies.made_said(after, number))]
        case deeds.HowLong():
            if after.place == program.end and copies.unfinished(after) is None:
                return [Say("Nothing is left: the piece is finished.")]
            return [Say(left_said(after, after.timed))]
        case deeds.GoToCopy(number=number, part=part):
            if after.asked is None:
                here = copies.copy_numbered(before, number, part) is not None
                if not copies.is_many(program):
                    return [Say("This is one piece: it has no other.")]
                return [
                    Say(
                        "You are there already."
                        if here
                        else f"There is no {'part' if part else _one(before)} {read_back(number)}."
                    )
                ]
            return [Say(after.asked.question)]
        case deeds.TakeUp(place=there):
            return [
                *_kept_move(before, after, Keep("copy", {"place": list(there)})),
                Say(copies.reached_said(after)),
            ]


def _kept_move(before: Session, after: Session, keep: Keep) -> list[Effect]:
    return [keep] if before.place != after.place else []


def _new(before: Session, after: Session) -> bool:
    return before.weighed != after.weighed


def _blocked(session: Session, deed: deeds.Blocked) -> tuple[Copy, str] | None:
    """Whose size it is, and the size; None when the words tell none."""
    if deed.copy:
        known = (
            deed.part < len(session.program.parts) and deed.copy <= session.program.parts[deed.part].copies
        )
        return ((deed.part, deed.copy), deed.words) if known else None
    return blocked.noted(session, deed.words)


def taken_back(before: Session, stride_said: str) -> str:
    """ "Taken back.", and what, where the place does not show it."""
    match before.last:
        case deeds.Count(number=number):
            return f"Taken back: your count of {spoken_number(number)}."
        case deeds.MarkHere():
            return "Taken back: your mark."
        case deeds.Weighed():
            return "Taken back: what you weighed."
        case deeds.Blocked():
            return "Taken back: the size you noted."
        case deeds.SetStride():
            return f"Taken back. {stride_said}"
        case deeds.Rip():
            return "Taken back: nothing was ripped."
        case _:
            return "Taken back."


def _one(session: Session) -> str:
    """What one of the copies is called."""
    return session.program.noun or "piece"
