"""I have thirty-one: what may have happened, cause by cause, and how it is put right.

A session and a count, or the cause that was found, come in; the session with the next question goes out. Whether a
miscount can be carried along is asked of the fabric: the rows above are worked onto what really stands there.
"""

from typing import TYPE_CHECKING

from tracker.program.places import Place, Program
from tracker.program.row.squares import width
from tracker.records import replace
from tracker.session import deeds
from tracker.session.amiss import righting
from tracker.session.amiss.carrying import bears, have_said
from tracker.session.amiss.searching import place_at
from tracker.session.amiss.values import Off
from tracker.session.state import Asked, Session
from tracker.session.wording.miscounts import Verdict
from tracker.session.wording.rows import row_name
from tracker.trade.numbers import spoken_number

if TYPE_CHECKING:
    from tracker.finding.evidence import Tally
    from tracker.finding.explain import Explained, Likely

_AT_THE_END = ("missed_turning_chain", "last_stitch_missed", "joined_early")
"""Causes that are put right by going on: what is missing comes last in the row."""


def opened(session: Session, found: Verdict, have: "Tally") -> Session:
    """The session after a count that is off: the likeliest cause is asked about."""
    if found.row is None or not found.whole or not found.difference:
        return session
    off = Off(found.row, have)
    return _asking(session, off, explained(session.program, off), found.sentence)


def explained(program: Program, off: Off) -> "Explained":
    """The causes of a count that is off."""
    from tracker.finding.explain import explain_miscount

    return explain_miscount(program.fabric, off.row, off.have, program.told_uk)


def not_that(session: Session) -> Session:
    """Not the cause that was asked about: the one after it."""
    off = session.amiss.off
    if off is None:
        return session
    return _asking(session, replace(off, at=off.at + 1), explained(session.program, off), "")


def _asking(session: Session, off: Off, causes: "Explained", first: str) -> Session:
    if off.at >= len(causes.causes):
        said = first or "Then I know no other. Count once more, and count the row below."
        return _with(session, replace(off, says=said))
    cause = causes.causes[off.at]
    question = first or f"Then: {cause.look[:1].lower()}{cause.look[1:]} {cause.feel}"
    if not question.endswith("?"):
        question += " Is that so?"  # or nobody would know what a yes says
    asked = Asked(question, righting.Blame(off.at + 1), righting.NotThat())
    return replace(_with(session, replace(off, says=question)), asked=asked)


def _with(session: Session, off: Off | None) -> Session:
    return replace(session, amiss=replace(session.amiss, off=off), asked=None)


def listed(session: Session) -> tuple[str, ...]:
    """All the causes, a line each, for the eye."""
    off = session.amiss.off
    if off is None:
        return ()
    causes = explained(session.program, off).causes
    return (
        tuple(f"{number}. {cause.headline}" for number, cause in enumerate(causes, 1)) if causes[1:] else ()
    )


def blamed(session: Session, number: int) -> Session:
    """The cause was found: how it is put right, or carried along."""
    off = session.amiss.off
    if off is None:
        return session
    program = session.program
    causes = explained(program, off).causes
    if not 1 <= number <= len(causes):
        many = (
            "is one cause that gives"
            if len(causes) == 1
            else f"are {spoken_number(len(causes))} causes that give"
        )
        return _with(session, replace(off, says=f"There {many} this count."))
    likely = causes[number - 1]
    off = replace(off, blamed=number - 1)
    if not likely.mistakes:
        return _row_again(session, off, likely)
    right = place_of_mistake(program, session.place, off.row, likely)
    undo = _undo(program, off.row, likely, right)
    if likely.cause == "missed_turning_chain" and session.amiss.markers:
        # the stitch most often missed on the way back: common practice, no source
        undo = f"{undo} A marker in the top of each turning chain saves you this."
    carried = bears(program, off, likely)
    if carried is not None:
        carry = righting.Carry(off.row, have_said(off.have), likely.cause)
        words = f"{undo} Put it right? No carries it along: {carried}"
        return _offered(session, off, words, right, carry)
    if program.squares(off.row) and likely.cause not in _AT_THE_END:
        undo = f"A square lost or gained shifts the picture. {undo}"
    return _offered(session, off, f"{undo} Put it right?", right, None)


def _offered(
    session: Session, off: Off, words: str, right: Place | None, carry: righting.Carry | None
) -> Session:
    put_right = deeds.PutAt(right) if right is not None else righting.AskWhere()
    asked = Asked(words, put_right, carry)
    return replace(_with(session, replace(off, says=words)), asked=asked)


def _row_again(session: Session, off: Off, likely: "Likely") -> Session:
    """A whole row done wrong: it comes out, and the right one is worked."""
    program = session.program
    name = row_name(program.fabric.row(off.row))
    words = f"{likely.headline} Rip that row out and work {name}. Go to its start?"
    asked = Asked(words, deeds.PutAt(program.row_start(session.place, off.row)))
    return replace(_with(session, replace(off, says=words)), asked=asked)


def place_of_mistake(program: Program, here: Place, row: int, likely: "Likely") -> Place | None:
    """Where the work goes on once it is undone to the mistake; None while nobody knows where that is."""
    at = {mistake.at for mistake in likely.mistakes}
    if len(likely.mistakes) > 1:
        return None
    if likely.cause not in _AT_THE_END and len(set(likely.places) | at) > 1:
        return None
    elements = program.fabric.row(row).worked.elements
    done = sum(1 for element in elements[: min(at)] if element.counts)
    return place_at(program, here, row, done)


def _undo(program: Program, row: int, likely: "Likely", right: Place | None) -> str:
    """How much is to be undone."""
    from tracker.finding.explain import row_with

    made = [element for element in row_with(program.fabric, row, likely) if element.is_stitch]
    elements = program.fabric.row(row).worked.elements
    places = [mistake.at for mistake in likely.mistakes]
    first = min(places) if right is not None else min((*likely.places, *places))
    before = sum(1 for element in elements[:first] if element.is_stitch)
    many = max(0, len(made) - before)
    if right is None:
        return f"Look for it, and unravel to it: {spoken_number(many)} stitches at most."
    if not many:
        return "There is nothing to unravel: it is worked now."
    return f"Unravel {spoken_number(many)} stitch{'es' if many > 1 else ''}, back to it."


def ask_where(session: Session) -> Session:
    """Asked how many stitches stand before the mistake."""
    off = session.amiss.off
    if off is None:
        return session
    what = "squares" if session.program.squares(off.row) else "stitches"
    says = f"Unravel to it. How many {what} stand before it?"
    return _with(session, replace(off, where=True, says=says))


def there(session: Session, number: int) -> Place | None:
    """The place after so many stitches of the row, in filet so many squares; None when it has not as many."""
    off = session.amiss.off
    if off is None:
        return None
    program = session.program
    mesh = program.mesh if program.squares(off.row) else None
    wide = (mesh + 1) * number + 1 if mesh and number else number
    elements = program.fabric.row(off.row).worked.elements
    done = stands = 0
    for element in elements:
        if stands >= wide:
            break
        done += element.counts
        stands += width(element) if mesh else element.is_stitch
    return place_at(program, session.place, off.row, done) if stands >= wide else None
