"""What was heard and would move far, or compare a count: read back first, digits apart, for a yes or a pedal.

A session and a deed that was spoken come in; a question, or nothing, goes out. What is typed, pressed or touched is
never asked back here: a hand that reaches for a key means it.
"""

from tracker.ears.port import Heard
from tracker.session.amiss.doing import answers, meant
from tracker.session.apply import Keep, apply, change
from tracker.session.commands import BY_NAME
from tracker.session.deeds import Count, Deed, GoToRow, No, Number, PutAt, Undo, Yes
from tracker.session.state import Session
from tracker.session.understand import understand
from tracker.session.wording import row_name
from tracker.session.wording.made.telling import capital
from tracker.trade.numbers import read_back


def question(session: Session, deed: Deed) -> str:
    """What is asked before a spoken deed is done; "" for one that is done at once.

    A count that is right needs no asking: nobody mishears the number that is due.
    """
    if isinstance(deed, Number):
        return _number_back(session, deed.number)
    match deed:
        case Count(number=number):
            return "" if _is_right(session, deed) else f"{capital(read_back(number))}. Is that what you have?"
        case Undo():
            after = change(session, deed).place
            if after[:3] == session.place[:3]:
                return ""
            placed = session.program.placed(after)
            where = row_name(placed) if placed is not None else "what was before it"
            return f"That goes back to {where}. Take it back?"
        case _:
            return ""


def _number_back(session: Session, number: int) -> str:
    """A number that answers a question: read back where it is a count that is off, or where the work goes on from."""
    match meant(session, Number(number)):
        case Count() as count:
            asks = not _is_right(session, count)
        case PutAt():
            asks = True
        case _:
            asks = False
    return f"{capital(read_back(number))}. Is that so?" if asks else ""


def deed_of(heard: Heard) -> Deed | None:
    """The deed of what was heard; None for a name that is in no row of the table."""
    if heard.deed == "number":
        return Number(heard.number or 0)
    if heard.deed == "squares":
        # The two words are easily mixed up by ear: the row itself tells whether so many squares or stitches are meant.
        return Count(heard.number or 0)
    command = BY_NAME.get(heard.deed)
    return None if command is None else command.make(heard.number or 0)


def guessed(why: str) -> GoToRow | Count | Number | None:
    """What "a number, but which? count sixty" asks for with the likeliest number; None where nothing is known of it."""
    found = understand(why.partition("? ")[2], awaiting_number=True)
    return found if isinstance(found, GoToRow | Count | Number) else None


def doubted(session: Session, guess: GoToRow | Count | Number) -> str:
    """The question that reads a doubtful number back; "" where it cannot be meant: a row that there is not."""
    if isinstance(guess, GoToRow):
        asked = change(session, guess).asked
        return asked.question if asked is not None else ""
    ends = "Is that what you have?" if isinstance(guess, Count) else "Is that so?"
    return f"{capital(read_back(guess.number))}. {ends}"


def agreed(session: Session, deed: Deed) -> Deed:
    """The deed that a yes to its number does: a row is not asked about once more."""
    asked = change(session, deed).asked if isinstance(deed, GoToRow) else None
    return asked.deed if asked is not None else deed


def refused(deed: Deed) -> str:
    """What is said when the answer was no."""
    return "Then count once more, and say it again." if isinstance(deed, Count | Number) else "Then we stay."


def out_of_place(session: Session, deed: Deed, asked: bool) -> bool:
    """True for a spoken yes or no when nothing was asked: it was said to somebody else."""
    return isinstance(deed, Yes | No) and not asked and session.asked is None and not answers(session)


def _is_right(session: Session, count: Count) -> bool:
    kept = next((effect for effect in apply(session, count, 0)[1] if isinstance(effect, Keep)), None)
    if kept is None:
        return True
    return kept.arguments.get("unit", "") == "" or kept.arguments.get("due") == count.number
