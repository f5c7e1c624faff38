"""The changes of a session that can be taken back, and taking them back. Sessions come in, sessions go out."""

from typing import Any

from tracker.program.places import Place, Stride
from tracker.records import replace
from tracker.session import deeds
from tracker.session.deeds import Deed
from tracker.session.piece import copies
from tracker.session.state import Asked, Session


def done(session: Session, deed: Deed, **changes: Any) -> Session:
    """The session with something changed that can be taken back."""
    return replace(session, **changes, past=session, undone=None, last=deed)


def moved(session: Session, deed: Deed, place: Place) -> Session:
    """The session at another place; the copy that is left is laid aside, or finished when it was worked to its end."""
    onward = isinstance(deed, deeds.Onward | deeds.LongEnough)
    if place == session.place:
        return left_over(session) if onward else session
    laid = copies.laid_after(session.laid, session.program, session.place, place, onward)
    if isinstance(deed, deeds.Rip):
        laid = copies.reopened(laid, place)
    after = done(session, deed, place=place, laid=laid)
    return left_over(after) if onward else after


def left_over(session: Session) -> Session:
    """At the end of the last copy: asked whether to go on with one that was laid aside."""
    left = copies.unfinished(session) if session.place == session.program.end else None
    if left is None:
        return session
    asked = Asked(copies.left_over_said(session), deeds.TakeUp(copies.left_at(session, left)))
    return replace(session, asked=asked)


def standing_in(session: Session, other: Session) -> Session:
    """An earlier or later session of the same piece, with what cannot be taken back as it is now."""
    return replace(
        other,
        asked=None,
        resting=False,
        hearing=session.hearing,
        renamed=session.renamed,
        rest_usual=session.rest_usual,
        card=session.card,
        timed=session.timed,
        length=session.length,
        fades=session.fades,
        pace=session.pace,
        recalled=session.recalled,
        since_ms=session.since_ms,
        latest_ms=session.latest_ms,
    )


def counted_at(session: Session) -> Place:
    """Where a count holds: who goes row by row has done the row that was told."""
    place = session.place
    if session.stride is not Stride.ROW or session.program.placed(place) is None:
        return place
    return (*place[:4], len(session.program.breaths(place[2])), 0, 0)
