"""How far a piece is, in single crochets' worth of work, over all its parts and copies.

A session comes in; what is done and the whole go out, and percent of it. A million rows cost no more than the rows that
are printed.
"""

from tracker.planning.yarn import CHAIN, of_element, of_row
from tracker.program.parts import chains_of
from tracker.program.places import Place, Program
from tracker.records import dataclass
from tracker.session.state import Session


@dataclass(frozen=True, slots=True)
class Progress:
    """Work in single crochets: what a single crochet takes is one."""

    done: float
    whole: float
    open_ended: bool
    """True while the pattern goes on until the maker has enough: `whole` is then only what it prints."""

    @property
    def left(self) -> float:
        """Work that is still to be done."""
        return max(0.0, self.whole - self.done)

    @property
    def percent(self) -> int | None:
        """From 0 to 100, 100 only once all is done; None where the end is not known."""
        if self.open_ended or not self.whole:
            return None
        share = int(100 * self.done / self.whole + 1e-9)
        return min(99, share) if self.left > 1e-6 else 100


def progress(session: Session) -> Progress:
    """How far a piece is."""
    program, place = session.program, session.place
    laid = dict(session.laid)
    done = whole = 0.0
    for at, part in enumerate(program.parts):
        one = work_before(program, (at, 1, part.last + 1, 0, 0, 0, 0))
        whole += one * part.copies
        for (_, number), left in ((copy, left) for copy, left in laid.items() if copy[0] == at):
            if number <= part.copies and (at, number) != place[:2]:
                done += one if left is None else work_before(program, left)
        if place[0] == at:
            done += min(one, work_before(program, place))
    if place == program.end and not laid:
        done = whole
    return Progress(done, whole, program.fabric.open_ended)


def work_before(program: Program, place: Place) -> float:
    """The work in one copy of a part up to a place in it."""
    if place[0] >= len(program.parts):
        return 0.0
    part = program.parts[place[0]]
    out = _chains(program, place)
    start = 1
    for stretch in program.fabric.stretches:
        many = len(stretch.rows)
        for k, placed in enumerate(stretch.rows):
            at = start + k
            if at > part.last or at >= place[2]:
                break
            if at + many * (stretch.times - 1) < part.first:
                continue
            earlier = max(0, -(-(part.first - at) // many))
            until = min(stretch.times, (place[2] - at - 1) // many + 1, (part.last - at) // many + 1)
            out += of_row(placed.worked) * max(0, until - earlier)
        start += stretch.length
    if place[3] == 0 and part.first <= place[2] <= part.last:
        out += sum(map(of_element, program.made(place)))
    return out


def _chains(program: Program, place: Place) -> float:
    """The foundation chain, once it is made."""
    there = program.part_start(place[0], place[1])
    out = 0.0
    while there < place and there[3] < 0:
        aside = program.aside(there)
        out += CHAIN * chains_of(aside) if aside is not None else 0.0
        there = program.next(there)
    return out
