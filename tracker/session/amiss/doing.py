"""What comes of a deed while something is amiss: the part of `apply` that is its own.

`meant` says what a deed means just now (a tap that counts, a number that answers); `changed` is the lasting change,
which replaying a journal repeats; `turned` opens, answers and closes the questions, which are not kept.
"""

from typing import TYPE_CHECKING

from tracker.records import replace
from tracker.session import deeds
from tracker.session.amiss import asking, righting, tallying
from tracker.session.amiss.carrying import carried_along, carried_said, mended, reminder
from tracker.session.amiss.righting import Lasting, Passing
from tracker.session.deeds import Deed
from tracker.session.effects import Effect, Keep, Say, Show, with_more
from tracker.session.piece.copies import more_asked
from tracker.session.piece.moving import done
from tracker.session.state import Session
from tracker.session.wording import said_at
from tracker.session.wording.miscounts import HOW_MANY_OPEN, squares_advice, tally_of_squares

if TYPE_CHECKING:
    from tracker.finding.evidence import Tally
    from tracker.session.wording.miscounts import Verdict

_HARMLESS = (
    deeds.Again, deeds.Where, deeds.HowMany, deeds.Left, deeds.WholeRow, deeds.HowWorked, deeds.Help, deeds.Pause,
    deeds.Listen, deeds.SetLength, deeds.SpeakSo, deeds.Number, deeds.TellMore, deeds.Recap, deeds.Card,
)  # fmt: skip
"""Deeds that leave a question open."""


def awaits_number(session: Session) -> bool:
    """True while a number alone is an answer."""
    amiss = session.amiss
    search = amiss.search is not None and amiss.search.question is not None
    return search or amiss.asks_count or amiss.off is not None or amiss.squares is not None


def phrases_now(session: Session) -> tuple[tuple[str, Deed], ...]:
    """What can be said just now beside the table of commands, and what it means."""
    amiss = session.amiss
    out: list[tuple[str, Deed]] = []
    if amiss.search is not None:
        from tracker.session.amiss.searching import phrases

        out.extend(phrases(session))
    if amiss.off is not None and amiss.off.blamed is None:
        out.extend((f"the {word}", deeds.Number(number)) for number, word in enumerate(_ORDER, 1))
    if amiss.squares is not None:
        out.extend((("none", deeds.Number(0)), ("all of them", deeds.Number(amiss.squares[1]))))
    if session.asked is not None and isinstance(session.asked.refused, righting.Carry):
        out.extend((("carry it along", deeds.No()), ("put it right", deeds.Yes())))
    if awaits_number(session) and session.asked is None:
        out.extend((words, righting.Unanswered()) for words in ("i can't tell", "i don't know", "no idea"))
    return tuple(out)


_ORDER = ("first", "second", "third", "fourth", "fifth", "sixth")


def answers(session: Session) -> bool:
    """True while a yes or a no means something though neither was asked for: it ends a tally, or rows that go on, or
    doubts a place."""
    asked = session.amiss.tally is not None or session.amiss.told_where or bool(question(session))
    return asked or session.asked is None and more_asked(session)


def question(session: Session) -> str:
    """What waits for an answer that is no yes or no; "" for nothing."""
    amiss = session.amiss
    if amiss.search is not None and amiss.search.question is not None:
        return amiss.search.says
    if amiss.off is not None and amiss.off.where:
        return amiss.off.says
    if amiss.squares is not None:
        return HOW_MANY_OPEN
    return "How many have you?" if amiss.asks_count else ""


def meant(session: Session, deed: Deed) -> Deed:
    """What a deed means just now."""
    amiss = session.amiss
    match deed:
        case deeds.Number(number=number):
            return _number_meant(session, number) or deed
        case deeds.No() if session.asked is None and question(session):
            return righting.Unanswered()
        case deeds.No() if session.asked is None and amiss.told_where:
            return righting.Lost()
        case deeds.Yes() if session.asked is None and question(session):
            # a number was asked for: it is asked again
            return deeds.Repeated()
        case deeds.Again() if question(session) or amiss.tally is not None:
            return deeds.Repeated()
        case deeds.Onward() if amiss.tally is not None and session.asked is None and not session.showing:
            return righting.Tapped("", 1)
        case deeds.Onward() if asking.is_due_before(session):
            return righting.CountDue()
        case deeds.Back() if amiss.tally is not None and session.asked is None:
            return righting.Untapped()
        case deeds.Yes() if amiss.tally is not None and session.asked is None:
            return righting.TallyOver()
        case deeds.No() if session.asked is None and amiss.tally is None and more_asked(session):
            return deeds.LongEnough()
        case deeds.Yes() if session.asked is None and more_asked(session):
            return deeds.Onward()
        case righting.Kinds(words=words):
            return _kinds_meant(session, words) or deed
        case _:
            return deed


def _number_meant(session: Session, number: int) -> Deed | None:
    amiss = session.amiss
    if amiss.search is not None and amiss.search.question is not None:
        return righting.Answered(number)
    if amiss.squares is not None:
        row, squares = amiss.squares
        have = tally_of_squares(session.program, row, squares, number)
        return deeds.Repeated() if have is None else deeds.Count(squares, True, _kinds(have))
    if amiss.off is not None and amiss.off.where:
        from tracker.session.amiss.causes import there

        place = there(session, number)
        return None if place is None else deeds.PutAt(place)
    if amiss.off is not None and amiss.off.blamed is None:
        return righting.Blame(number)
    return deeds.Count(number) if amiss.asks_count else None


def _kinds_meant(session: Session, words: str) -> Deed | None:
    """Kinds that were named go into the tally; with no tally they are a count by kind."""
    from tracker.finding.where.index import index_of

    if session.amiss.tally is None:
        return _counted_by_kind(session, words)
    own = index_of(session.program.fabric).own
    kinds = tallying.kinds_in(session.program, own, words)
    return righting.Tapped(", ".join(kinds), 1) if kinds else None


def _counted_by_kind(session: Session, words: str) -> Deed | None:
    from tracker.finding.evidence import Unclear, tallied
    from tracker.finding.where.index import index_of

    try:
        return _by_kind(tallied(words, session.program.told_uk, index_of(session.program.fabric).own))
    except Unclear:
        return None


def _by_kind(have: "Tally") -> deeds.Count:
    """A count by kind, as the journal keeps it."""
    number = have.stitches
    if number is None:
        number = sum(many for name, many in have.counts if not name.startswith("ch-"))
    return deeds.Count(number, kinds=_kinds(have))


def _kinds(have: "Tally") -> str:
    from tracker.session.amiss.carrying import have_said

    return have_said(have) if have.counts else ""


def changed(session: Session, open_question: Session, deed: Lasting) -> Session:
    """The session after a deed that lasts."""
    match deed:
        case righting.CountWithMe():
            after = tallying.begun(open_question)
        case righting.Tapped(kind=kind, many=many):
            after = open_question
            for one in kind.split(", ") if kind else ("",):
                after = tallying.tapped(after, one, many)
        case righting.Untapped():
            after = tallying.untapped(open_question)
        case righting.TallyOver():
            after = tallying.over(open_question)
        case righting.AskCounts(every=every):
            after = replace(open_question, amiss=replace(session.amiss, every=every))
        case righting.SetMarkers(every=every):
            after = replace(open_question, amiss=replace(session.amiss, markers=every))
        case righting.Carry():
            after = carried_along(open_question, deed)
        case righting.Mended():
            after = mended(open_question)
    if after.amiss == session.amiss and after.program is session.program:
        return open_question
    return done(
        open_question,
        deed,
        amiss=after.amiss,
        program=after.program,
        place=after.place,
        asked=None,
        resting=False,
    )


def turned(before: Session, after: Session, deed: Deed) -> Session:
    """The session with its questions opened, answered and closed."""
    match deed:
        case righting.Lost():
            from tracker.session.amiss import searching

            return searching.begun(_closed(after))
        case righting.Answered(number=number):
            from tracker.session.amiss import searching

            return searching.answered(after, number)
        case righting.Unanswered():
            from tracker.session.amiss import searching

            return searching.unanswered(after) if after.amiss.search is not None else _closed(after)
        case righting.Elsewhere():
            from tracker.session.amiss import searching

            return searching.elsewhere(after)
        case righting.Blame(number=number):
            from tracker.session.amiss import causes

            return causes.blamed(after, number)
        case righting.NotThat():
            from tracker.session.amiss import causes

            return causes.not_that(after)
        case righting.AskWhere():
            from tracker.session.amiss import causes

            return causes.ask_where(after)
        case deeds.Yes() | deeds.No():
            if before.asked is None:
                return after
            answer = before.asked.deed if isinstance(deed, deeds.Yes) else before.asked.refused
            return turned(before, after, answer) if answer is not None else _closed(after)
        case deeds.Repeated() | righting.Kinds():
            return after
        case righting.CountDue():
            return replace(after, amiss=replace(_closed(after).amiss, asks_count=True))
        case deeds.Where():
            return replace(after, amiss=replace(after.amiss, told_where=True))
        case deeds.Onward():
            after = _closed(after)
            if before.place != after.place and after.asked is None and asking.is_due(after):
                return replace(after, amiss=replace(after.amiss, asks_count=True))
            return after
        case _:
            return after if isinstance(deed, _HARMLESS) else _closed(after)


def _closed(session: Session) -> Session:
    amiss = session.amiss
    shut = replace(amiss, search=None, off=None, squares=None, asks_count=False, told_where=False)
    return session if shut == amiss and not amiss.told_where else replace(session, amiss=shut)


def counted(after: Session, deed: deeds.Count, found: "Verdict") -> Session:
    """The session after a count: where it is off, the likeliest cause is asked about."""
    if found.asks_open and found.row is not None:
        return replace(after, amiss=replace(after.amiss, squares=(found.row, deed.number)))
    if not found.whole or not found.difference:
        return after
    from tracker.finding.evidence import Tally, tallied
    from tracker.session.amiss import causes

    return causes.opened(
        after, found, found.have or (tallied(deed.kinds) if deed.kinds else Tally((), deed.number))
    )


def causes_listed(session: Session) -> tuple[str, ...]:
    """All the causes of a count that is off, for the eye."""
    if session.amiss.off is None:
        return ()
    from tracker.session.amiss.causes import listed

    return listed(session)


def told(before: Session, after: Session, deed: Lasting | Passing) -> list[Effect]:
    """What is kept and said."""
    amiss = after.amiss
    match deed:
        case righting.Lost() | righting.Answered() | righting.Elsewhere():
            return [Say(amiss.search.says if amiss.search is not None else "Then we stay.")]
        case righting.Unanswered():
            if amiss.search is not None:
                return [Say(amiss.search.says)]
            if before.amiss.squares is not None:
                return [Say(squares_advice(after.program, *before.amiss.squares))]
            return [Say(f"Then not. {said_at(after.program, after.place, after.stride, again=True)}")]
        case righting.Blame() | righting.NotThat() | righting.AskWhere():
            return [Say(amiss.off.says if amiss.off is not None else "Nothing was counted.")]
        case righting.CountDue():
            return [Say("How many have you?")]
        case righting.Kinds():
            return [Say("I know those words for no stitch or space of this piece.")]
        case righting.CountWithMe():
            return [*_kept(before, after, Keep("tally")), Say(tallying.begun_said(after))]
        case righting.Tapped(kind=kind, many=many):
            words, shown = tallying.tapped_said(before, after)
            keep = Keep("tap", {"kind": kind, "many": many})
            return [keep, Say(words) if words else Show((shown,))]
        case righting.Untapped():
            tally = amiss.tally
            shown = f"{tally.number} of {tally.due}" if tally is not None else ""
            return [*_kept(before, after, Keep("untap")), Show((shown,))]
        case righting.TallyOver():
            return [*_kept(before, after, Keep("tally over")), Say(tallying.over_said(before))]
        case righting.AskCounts(every=every):
            return [
                *_kept(before, after, Keep("ask counts", {"every": every})),
                Say(asking.every_said(every)),
            ]
        case righting.SetMarkers(every=every):
            return [*_kept(before, after, Keep("markers", {"every": every})), Say(asking.markers_said(every))]
        case righting.Carry(row=row, have=have, cause=cause):
            keep = Keep("carry", {"row": row, "have": have, "cause": cause})
            return [*_kept(before, after, keep), Say(carried_said(after))]
        case righting.Mended():
            if before.amiss.written is None:
                return [Say("Nothing is carried along.")]
            words = said_at(after.program, after.place, after.stride, again=True)
            return [Keep("mended"), Say(f"Then all is as the pattern has it. {words}")]


def _kept(before: Session, after: Session, keep: Keep) -> list[Effect]:
    return [keep] if before.amiss != after.amiss or before.program is not after.program else []


def repeated(session: Session) -> str:
    """What was asked, once more."""
    return question(session) or tallying.so_far_said(session)


def with_afterwards(before: Session, after: Session, deed: Deed, told: list[Effect]) -> list[Effect]:
    """What is said as a place is reached, with what is to be said behind it."""
    if (
        before.place == after.place
        or not isinstance(deed, deeds.Onward | deeds.Jump)
        or after.asked is not None
    ):
        return told
    words = (asking.marker_at(after), reminder(after), "How many have you?" if after.amiss.asks_count else "")
    return with_more(told, " ".join(word for word in words if word))
