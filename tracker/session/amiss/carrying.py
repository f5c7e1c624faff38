"""A miscount that is carried along: the rows after it are told with what is really on the hook, until it is mended.

A program, a count that is off and its cause come in; a program whose later rows are worked onto what stands goes out,
and what is to be said of it.
"""

from typing import TYPE_CHECKING

from tracker.program.places import Program
from tracker.records import replace
from tracker.session.amiss import righting
from tracker.session.amiss.values import Carrying, Off
from tracker.session.piece.moving import counted_at
from tracker.session.state import Session
from tracker.session.wording.rows import row_name
from tracker.trade.numbers import spoken_number, spoken_times

if TYPE_CHECKING:
    from tracker.fabric.rows.carried import Carried
    from tracker.finding.evidence import Tally
    from tracker.finding.explain import Likely


def have_said(have: "Tally") -> str:
    """A count as the journal keeps it.

    >>> from tracker.finding.evidence import Tally
    >>> have_said(Tally(stitches=31)), have_said(Tally((("dc", 12), ("ch-2 sp", 10))))
    ('31', '12 dc, 10 ch-2 sp')
    """
    kinds = [f"{number} {name}" for name, number in have.counts]
    return ", ".join(kinds if have.stitches is None else [str(have.stitches), *kinds])


def bears(program: Program, off: Off, likely: "Likely") -> str | None:
    """What carrying it along would come to, in a sentence; None where the fabric does not bear it."""
    if program.squares(off.row) or off.row >= program.fabric.length:
        return None
    above = _above(program, off.row, likely)
    if above is None or not above.rows:
        return None
    following = above.fabric.row(off.row + 1)
    said = f"{row_name(following)} then has {spoken_number(following.worked.stitches)}"
    if above.stuck is None:
        return f"{said}, and so on."
    return f"{said}; it must be mended before {row_name(program.fabric.row(above.stuck))}."


def _above(program: Program, row: int, likely: "Likely") -> "Carried | None":
    """The rows above, worked onto what stands."""
    from tracker.fabric.rows.carried import carried
    from tracker.finding.explain import row_with

    if not likely.mistakes:
        return None
    standing = row_with(program.fabric, row, likely)
    return carried(program.pattern, program.fabric, row, standing)


def carried_along(session: Session, deed: righting.Carry) -> Session:
    """The session with the rows after a miscount worked onto what stands; as it was when that cannot be."""
    from tracker.finding.evidence import Unclear, tallied
    from tracker.finding.explain import explain_miscount

    program = session.program
    if not 1 <= deed.row < program.fabric.length:
        return session
    try:
        have = tallied(deed.have)
    except Unclear:
        return session
    causes = explain_miscount(program.fabric, deed.row, have, program.told_uk).causes
    likely = next((cause for cause in causes if cause.cause == deed.cause), None)
    above = _above(program, deed.row, likely) if likely is not None else None
    if likely is None or above is None:
        return session
    more = _more(program, deed.row, likely)
    worked = Program(program.source, program.pattern, above.fabric, program.problems, program.speech)
    amiss = replace(
        session.amiss, carried=Carrying(deed.row, deed.have, deed.cause, more, above.stuck),
        written=session.amiss.written or program, off=None,
    )  # fmt: skip
    place = (
        session.place if worked.holds(session.place) else worked.row_start(session.place, session.place[2])
    )
    return replace(session, program=worked, amiss=amiss, place=place)


def _more(program: Program, row: int, likely: "Likely") -> int:
    from tracker.finding.explain import row_with

    stands = sum(1 for element in row_with(program.fabric, row, likely) if element.is_stitch)
    return stands - program.fabric.row(row).worked.stitches


def mended(session: Session) -> Session:
    """The session with the rows as the pattern has them."""
    written = session.amiss.written
    if written is None:
        return session
    place = (
        session.place if written.holds(session.place) else written.row_start(session.place, session.place[2])
    )
    amiss = replace(session.amiss, carried=None, written=None)
    return replace(session, program=written, amiss=amiss, place=place)


def carried_said(session: Session) -> str:
    """What is said as a miscount is taken along."""
    carrying = session.amiss.carried
    if carrying is None:
        return "That cannot be carried along: put it right."
    many = spoken_number(abs(carrying.more))
    if carrying.more < 0:
        how = f"To mend it, work two in one stitch at an edge, {spoken_times(abs(carrying.more))}"
    else:
        how = f"To mend it, work two together at an edge, {spoken_times(abs(carrying.more))}"
    which = f"{many} {'fewer' if carrying.more < 0 else 'more'}"
    before = ""
    if carrying.until is not None:
        before = f" Before {row_name(session.program.fabric.row(carrying.until))} it must be done."
    return f"Carried along: {which} from here on. {how}, and say that it is mended.{before}"


def reminder(session: Session) -> str:
    """What is said at the end of a row that holds otherwise than the pattern has it; "" elsewhere."""
    carrying, place = session.amiss.carried, counted_at(session)
    written = session.amiss.written
    if carrying is None or written is None or not session.program.is_count(place) or place[2] <= carrying.row:
        return ""
    if carrying.until is not None and place[2] == carrying.until - 1:
        return f"Mend it now: {row_name(written.fabric.row(carrying.until))} needs what the pattern has."
    should = written.fabric.row(place[2]).worked
    if should.makes == session.program.fabric.row(place[2]).worked.makes:
        return ""
    return f"The pattern has {spoken_number(should.stitches)}; the miscount is carried along."
