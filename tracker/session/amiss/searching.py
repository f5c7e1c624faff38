"""I'm lost: the questions one by one, each the one that splits the rest best, until the place is found.

A session and an answer come in; the session with the next question, the place offered, or where the work departs from
the pattern goes out.
"""

from typing import TYPE_CHECKING

from tracker.program.places import Place, Program, Stride
from tracker.records import replace
from tracker.session import deeds
from tracker.session.amiss import righting
from tracker.session.amiss.values import Search
from tracker.session.deeds import Deed
from tracker.session.state import Asked, Session
from tracker.session.wording import where_said
from tracker.session.wording.made.telling import capital
from tracker.session.wording.rows import row_name
from tracker.trade.numbers import spoken_number

if TYPE_CHECKING:
    from tracker.finding.where.places import Places
    from tracker.finding.where.questions import Question

SURE = 0.9
"""A place so likely is offered without asking more."""
OFFERED = 6
"""Places offered one after another, when nothing more tells them apart."""


def begun(session: Session) -> Session:
    """The first question."""
    from tracker.finding.evidence import Evidence
    from tracker.finding.where.index import index_of

    search = Search(index_of(session.program.fabric), Evidence(anywhere=True))
    return _asking(session, search)


def answered(session: Session, number: int) -> Session:
    """The session after an answer."""
    from tracker.finding.where.answers import answered as seen_with

    search = session.amiss.search
    if search is None or search.question is None:
        return session
    seen = seen_with(search.index, search.seen, search.question, number)
    if seen is None:
        return _with(
            session, replace(search, says=f"That is none of them. {_asked(session, search.question)}")
        )
    return _asking(session, replace(search, seen=seen))


def unanswered(session: Session) -> Session:
    """The maker cannot tell: another question."""
    search = session.amiss.search
    return session if search is None else _asking(session, search)


def elsewhere(session: Session) -> Session:
    """Not the place that was offered: the one after it."""
    search = session.amiss.search
    return session if search is None else _asking(session, replace(search, question=None))


def _asking(session: Session, search: Search) -> Session:
    """What comes now: a question, a place, or the end of the search."""
    from tracker.finding.where.places import Known, Places
    from tracker.finding.where.questions import best_question
    from tracker.finding.where.spots import spots_of

    program = session.program
    known = Known(max(1, session.place[2]), program.elements_done(session.place))
    places = Places(search.index, spots_of(search.index, search.seen), program.told_uk, known)
    search = replace(search, left=len(places))
    if not places:
        return _nowhere(session, search)
    question = None
    if not search.offered and places.unworded(1)[0].likelihood < SURE:
        question = best_question(search.index, places, program.told_uk, search.past)
    if question is not None:
        past = (*search.past, question.key)
        return _with(session, replace(search, question=question, past=past, says=_asked(session, question)))
    offer = _offer(program, session.place, places, search.offered)
    if offer is None:
        said = "Then one of the answers was not so. Say again that you are lost, and we begin anew."
        return _with(session, None, said)
    words = where_said(program, offer)
    question_said = f"{words} Is that where you are?"
    found = replace(search, question=None, offered=(*search.offered, offer), says=question_said)
    asked = Asked(question_said, deeds.PutAt(offer), righting.Elsewhere())
    return replace(_with(session, found), asked=asked)


def _with(session: Session, search: Search | None, said: str = "") -> Session:
    """The session with what is asked; without it, only what is said of its end."""
    if search is None and session.amiss.search is not None:
        over = replace(session.amiss.search, question=None, says=said, left=0, offered=())
        return replace(session, amiss=replace(session.amiss, search=over), asked=None)
    return replace(session, amiss=replace(session.amiss, search=search), asked=None)


def _offer(program: Program, here: Place, places: "Places", offered: tuple[Place, ...]) -> Place | None:
    """The likeliest place that was not offered yet."""
    for found in places.unworded(OFFERED * 3):
        place = place_at(program, here, found.index, found.elements_done)
        if place not in offered:
            return place if len(offered) < OFFERED else None
    return None


def place_at(program: Program, here: Place, row: int, elements_done: int) -> Place:
    """The place after so many stitches and spaces of a row, in the copy in hand where that has the row."""
    if row > program.fabric.length:
        return program.end
    start = program.row_start(here, row)
    best = start
    for group, beat, single in program.starts(row, Stride.STITCH):
        place: Place = (*start[:3], 0, group, beat, single)
        if program.elements_done(place) > elements_done:
            break
        best = place
    return best


def _nowhere(session: Session, search: Search) -> Session:
    """Work that fits no place: where it first departs, and the mistake that explains it."""
    from tracker.finding.where.departure import departure

    program = session.program
    differs = departure(search.index, search.seen, program.told_uk)
    if differs is None:
        return _with(session, search, "There is no row in this pattern.")
    row = row_name(program.fabric.row(min(differs.index, program.fabric.length)))
    closed = _with(session, replace(search, question=None))
    return _with(closed, None, differs.told(row, spoken_number))


def _asked(session: Session, question: "Question") -> str:
    """A question as it is said; what can be answered is numbered."""
    if not question.answers:
        return question.words
    about, uk = question.about, session.program.told_uk
    ask = {"side": "Which side faces you?", "part": "Which part is it?"}.get(about, "What did you work last?")
    told = [
        f"{spoken_number(number)}, {_answer(question, answer, uk, True)}"
        for number, answer in enumerate(question.answers, 1)
    ]
    return f"{ask} {capital('; '.join(told))}."


def _answer(question: "Question", answer: str, uk: bool, aloud: bool = False) -> str:
    """One answer in words."""
    if question.about == "side":
        return "the right side" if answer == "RS" else "the wrong side"
    if question.about == "part":
        return answer.lower() or "the one without a name"
    if not answer:
        return "nothing of this row yet" if aloud else "nothing"
    from tracker.finding.where.questions import spoken

    return f"a {spoken(answer, uk)}" if aloud else spoken(answer, uk)


def phrases(session: Session) -> tuple[tuple[str, Deed], ...]:
    """What can be said to the question that waits, beside numbers: a list made for this moment."""
    search = session.amiss.search
    if search is None or search.question is None:
        return ()
    from tracker.trade.stitches import written

    out: list[tuple[str, Deed]] = []
    uk = session.program.told_uk
    for number, answer in enumerate(search.question.answers, 1):
        words = _answer(search.question, answer, uk)
        out.append((words, deeds.Number(number)))
        out.append((words.removeprefix("the "), deeds.Number(number)))
        if search.question.about == "last":
            name = written(answer, uk) if answer else "nothing yet"
            out.append((name.replace("-", " ").lower(), deeds.Number(number)))
    return tuple(dict(out).items())
