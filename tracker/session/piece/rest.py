"""Resting the hands: when a reminder is due, and its words. Only at a row's end, adjustable, and it can be turned off.

Two sessions, before and after a deed, and the time come in; a sentence or nothing goes out. Hands that stay too long at
one small movement hurt themselves (repetitive strain: common knowledge, no source); what to do about pain is a doctor's
to say.
"""

from tracker.planning.time import GUESS_S
from tracker.planning.yarn import of_element
from tracker.program.places import Stride
from tracker.records import replace
from tracker.session.record.log import Step, made_by
from tracker.session.state import Session
from tracker.trade.numbers import spoken_number

BREAK_MS = 10 * 60_000
"""So long without a deed is a rest, beside what the work of a step takes."""


def time_to_rest(before: Session, after: Session, at_ms: int) -> tuple[str, Session]:
    """The reminder, "" when none is due, and the session with its clock."""
    if at_ms <= 0:
        return "", after
    idle_ms = at_ms - before.latest_ms - _work_ms(before, after)
    rested_now = not before.since_ms or idle_ms >= BREAK_MS or before.resting
    since = at_ms if rested_now else before.since_ms
    minutes = after.rest_minutes if after.rest_minutes is not None else after.rest_usual
    worked_minutes = (at_ms - since) // 60_000
    if minutes <= 0 or worked_minutes < minutes or not _at_a_rows_end(before, after):
        return "", replace(after, since_ms=since, latest_ms=at_ms)
    said = _said(worked_minutes) if before.reminders == 0 else _again(worked_minutes)
    return said, replace(after, since_ms=at_ms, latest_ms=at_ms, reminders=before.reminders + 1)


def _work_ms(before: Session, after: Session) -> float:
    """What a slow maker needs for what this step made: a long row in one step is no rest."""
    made = (
        made_by(before.program, before.place, Step(0, "next", after.place)) if after.past is not None else ()
    )
    return 1000 * GUESS_S[2] * sum(map(of_element, made))


def _said(minutes: int) -> str:
    return (
        f"{spoken_number(minutes).capitalize()} minutes of work: put it down, stretch your fingers and wrists. "
        "Pain that stays is for a doctor."
    )


def _again(minutes: int) -> str:
    """Later in a sitting the caution is known."""
    return (
        f"{spoken_number(minutes).capitalize()} minutes more: put it down, stretch your fingers and wrists."
    )


def _at_a_rows_end(before: Session, after: Session) -> bool:
    if before.place == after.place or after.past is None:
        return False
    if after.stride is Stride.ROW:
        return after.place > before.place and after.place[2] != before.place[2]
    return after.program.is_count(after.place) and after.place > before.place


def rested(minutes: int) -> str:
    """What is said when the maker sets it."""
    if not minutes:
        return "No more reminders to rest."
    return f"At a row's end after {spoken_number(minutes)} minutes I tell you to rest your hands."
