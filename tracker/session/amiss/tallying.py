"""Count with me: a count taken tap by tap, called at the tens, held against the pattern as it goes.

A session and a tap come in; the session with one more goes out, and what is said of it. A tally is kept in the journal
tap by tap, so that an interruption loses nothing.
"""

from tracker.fabric.model import Element
from tracker.program.places import Program
from tracker.program.row.squares import squares_done
from tracker.records import replace
from tracker.session import deeds
from tracker.session.amiss.carrying import have_said
from tracker.session.amiss.values import Tallied
from tracker.session.piece.moving import counted_at
from tracker.session.state import Session
from tracker.session.wording.made.telling import capital
from tracker.session.wording.miscounts import chains_due, chains_said, row_meant, tally_of_squares
from tracker.session.wording.rows import row_name
from tracker.trade.numbers import spoken_number
from tracker.trade.stitches import said

TENS = 10
WINDOW, BLOCK = "window", "block"


def begun(session: Session) -> Session:
    """A tally of what lies in the lap: the foundation chain, the row in hand, or the one below it."""
    program, place = session.program, session.place
    place = counted_at(session)
    row = row_meant(program, place)
    if chains := chains_due(program, place):
        return _with(session, Tallied(None, chains, "chains"))
    if row is None:
        return session
    whole = row != place[2] or program.is_count(place)
    made = program.fabric.row(row).worked.elements if whole else program.made(place)
    if program.squares(row) and program.mesh and (done := squares_done(made, program.mesh)):
        return _with(session, Tallied(row, done, "squares", whole))
    return _with(session, Tallied(row, sum(1 for e in made if e.is_stitch), "stitches", whole))


def _with(session: Session, tally: Tallied | None) -> Session:
    return replace(session, amiss=replace(session.amiss, tally=tally))


def tapped(session: Session, kind: str, many: int) -> Session:
    """So many more of a kind; "" for stitches, squares or chains that were only tapped."""
    tally = session.amiss.tally
    if tally is None:
        return session
    seen = tally.seen
    if not seen and tally.unit == "squares" and kind not in ("", WINDOW, BLOCK):
        tally = _in_stitches(session, tally)
    if seen and seen[-1][0] == kind:
        seen = (*seen[:-1], (kind, seen[-1][1] + many))
    else:
        seen = (*seen, (kind, many))
    return _with(session, replace(tally, seen=seen))


def _in_stitches(session: Session, tally: Tallied) -> Tallied:
    """A row of squares that its maker counts by stitch and space."""
    program = session.program
    worked = program.fabric.row(tally.row or 1).worked
    made = worked.elements if tally.whole else program.made(counted_at(session))
    return replace(tally, unit="stitches", due=sum(1 for e in made if e.is_stitch))


def untapped(session: Session) -> Session:
    """One fewer."""
    tally = session.amiss.tally
    if tally is None or not tally.seen:
        return session
    kind, many = tally.seen[-1]
    seen = (*tally.seen[:-1], (kind, many - 1)) if many > 1 else tally.seen[:-1]
    return _with(session, replace(tally, seen=seen))


def over(session: Session) -> Session:
    """The tally is at its end."""
    return _with(session, None)


def begun_said(session: Session) -> str:
    """How to count, and what."""
    tally = session.amiss.tally
    if tally is None:
        return "There is no row to count yet."
    if tally.unit == "chains":
        return "Tap each chain; I call the tens. Your hook loop isn't one."
    name = _name(session.program, tally)
    what = "square" if tally.unit == "squares" else "stitch"
    so_far = "" if tally.whole else " so far"
    return f"{name}{so_far}: tap each {what} from its start; I call the tens. Say yes at the end."


def _name(program: Program, tally: Tallied) -> str:
    return "The chain" if tally.row is None else capital(row_name(program.fabric.row(tally.row)))


def tapped_said(before: Session, session: Session) -> tuple[str, str]:
    """What is said aloud after a tap, and what is only shown; where it leaves the pattern is told once."""
    tally = session.amiss.tally
    if tally is None:
        return "", ""
    number = tally.number
    shown = f"{number} of {tally.due}"
    known = before.amiss.tally
    wrong = departs(session.program, tally)
    if wrong is not None and (known is None or wrong != departs(session.program, known)):
        return wrong, shown
    if number > tally.due:
        more = number - tally.due
        return f"{capital(spoken_number(number))}: {spoken_number(more)} more than there should be.", shown
    marker = _marker(session, number)
    if number == tally.due:
        return f"{capital(spoken_number(number))}: that is all there should be. Yes, if it ends here.", shown
    if number and number % TENS == 0 and tally.seen[-1][0] in ("", WINDOW, BLOCK):
        return f"{capital(spoken_number(number))}.{marker}", shown
    return "", shown


def _marker(session: Session, number: int) -> str:
    """Where a marker saves counting again."""
    every = session.amiss.markers
    tally = session.amiss.tally
    if tally is None or not every or number % every or tally.due <= every:
        return ""
    return " Mark it."


def departs(program: Program, tally: Tallied) -> str | None:
    """Where what was named leaves the pattern, told at once; None while it agrees or was only tapped."""
    if tally.row is None or not any(kind for kind, _ in tally.seen):
        return None
    should = _should(program, tally)
    at = 0
    for kind, many in tally.seen:
        for _ in range(many):
            if at >= len(should):
                return f"{capital(_named(kind, program))} too many: the row ends before it."
            if kind == "":
                # a tap is a stitch or a square; the spaces before it go unsaid
                while tally.unit == "stitches" and at < len(should) - 1 and should[at].startswith("ch-"):
                    at += 1
            elif should[at] != kind:
                return _otherwise(program, tally, should, at, kind)
            at += 1
    return None


def _otherwise(program: Program, tally: Tallied, should: tuple[str, ...], at: int, kind: str) -> str:
    """Where a kind is not the one the pattern has: a square by its number, a space by the stitches before it."""
    right, wrong = _named(should[at], program), _named(kind, program)
    if tally.unit == "squares":
        return f"Square {spoken_number(at + 1)} should be a {right}, not a {wrong}."
    stitches = sum(1 for name in should[:at] if not name.startswith("ch-"))
    if should[at].startswith("ch-"):
        before = f"{spoken_number(stitches)} stitch{'es' if stitches > 1 else ''}"
        return f"After {before} comes a {right}, not a {wrong}."
    return f"Stitch {spoken_number(stitches + 1)} should be a {right}, not a {wrong}."


def _should(program: Program, tally: Tallied) -> tuple[str, ...]:
    """What the pattern has, in order."""
    row = tally.row or 1
    if tally.unit == "squares":
        return tuple(WINDOW if window else BLOCK for window in program.squares(row) or ())
    elements: tuple[Element, ...] = program.fabric.row(row).worked.elements
    return tuple(element.name for element in elements if element.counts)


def _named(kind: str, program: Program) -> str:
    if kind in (WINDOW, BLOCK):
        return kind
    if kind.startswith("ch-"):
        return f"chain-{spoken_number(int(kind[3:].split()[0]))} space"
    return said(kind, program.told_uk) if kind else "stitch"


def outcome(session: Session) -> deeds.Count | None:
    """The count that a tally comes to; None where there is nothing to hold it against."""
    tally = session.amiss.tally
    if tally is None or tally.row is None:
        return None
    kinds: dict[str, int] = {}
    for kind, many in tally.seen:
        kinds[kind] = kinds.get(kind, 0) + many
    if tally.unit == "squares":
        have = None
        if set(kinds) <= {WINDOW, BLOCK}:
            have = tally_of_squares(session.program, tally.row, tally.number, kinds.get(WINDOW, 0))
        return deeds.Count(tally.number, True, have_said(have) if have is not None else "")
    if "" in kinds or not kinds:
        return deeds.Count(tally.number)
    told = ", ".join(f"{many} {kind}" for kind, many in kinds.items())
    return deeds.Count(tally.number, kinds=told)


def over_said(session: Session) -> str:
    """What is said at the end of a tally that has no row to be held against."""
    tally = session.amiss.tally
    if tally is None:
        return "Nothing is being counted."
    return chains_said(tally.number, tally.due)


def so_far_said(session: Session) -> str:
    """Where a tally stands that was left: said as the work is taken up again."""
    tally = session.amiss.tally
    if tally is None:
        return ""
    what = "the chain" if tally.row is None else row_name(session.program.fabric.row(tally.row))
    return f"You were counting {what}: {spoken_number(tally.number)} so far. Tap on."


def kinds_in(program: Program, own: dict[str, tuple[str, ...]], words: str) -> tuple[str, ...] | None:
    """Kinds as a maker says them, "window, window, block" or "dc, ch-1 sp, 3 dc"; None for other words."""
    from tracker.finding.evidence import Unclear, listed

    items = [
        item.strip().rstrip(".").lower() for item in words.replace(" and ", ",").split(",") if item.strip()
    ]
    squares = [item.removesuffix("s") for item in items]
    if squares and all(item.split()[-1] in (WINDOW, BLOCK) for item in squares):
        from tracker.trade.numbers import number_of

        out: list[str] = []
        for item in squares:
            many, _, kind = item.rpartition(" ")
            out.extend([kind] * min(1000, (number_of(many) or 1) if many else 1))
        return tuple(out)
    try:
        return listed(words, program.told_uk, own) if items else None
    except Unclear:
        return None
