"""Many copies and parts: where each was left, which are finished, and which comes after the one in hand.

A program and what was laid aside come in; places, counts and sentences go out. A copy is not begun as long as nothing
was worked in it, and finished once the maker has gone on from its last place.
"""

from collections.abc import Iterator

from tracker.program.cues import endings, turn_before
from tracker.program.open_rows import GoingOn, goes_further, going_on
from tracker.program.parts import BEHIND_ALL
from tracker.program.places import Place, Program, Stride
from tracker.records import dataclass
from tracker.session.effects import Effect, Say
from tracker.session.state import Copy, Laid, Session
from tracker.session.wording.made.own_words.reading import read_out
from tracker.session.wording.made.telling import capital
from tracker.session.wording.places import said_at
from tracker.session.wording.rows import more_asked as rows_asked
from tracker.session.wording.rows import part_name, row_name
from tracker.trade.numbers import spoken_number
from tracker.trade.said.headings import named

MOST = 9999
"""So many copies a piece may have."""


@dataclass(frozen=True, slots=True)
class PartDone:
    """How far a part is, over all its copies."""

    name: str
    """The part's own name; "" in a piece that is all one."""
    copies: int
    finished: int
    begun: tuple[Copy, ...]
    """Those that are neither finished nor untouched; the one in hand among them."""

    @property
    def untouched(self) -> int:
        """Copies that are not begun."""
        return self.copies - self.finished - len(self.begun)


def laid_after(laid: Laid, program: Program, before: Place, after: Place, finished: bool) -> Laid:
    """What is laid aside once the hands have gone from one place to another; `finished`: by working on.

    A copy that was finished before it was looked at again stays so, unless something of it was ripped (`reopened`).
    """
    if before[:2] == after[:2] or before[0] >= len(program.parts):
        return laid
    left = (before[0], before[1])
    kept = dict(laid)
    if finished:
        kept[left] = None
    elif kept.get(left, before) is not None:
        if program.begins(before):
            kept.pop(left, None)
        else:
            kept[left] = before
    return tuple(sorted(kept.items(), key=lambda one: one[0]))


def reopened(laid: Laid, place: Place) -> Laid:
    """A copy in which something was ripped is not finished any more."""
    return tuple((copy, left) for copy, left in laid if copy != place[:2])


def onward(session: Session, behind_row: int | None = None) -> Place:
    """The place after the one in hand; copies that are finished are passed over, those laid aside are taken up.

    `behind_row`: index of a row behind which it goes on instead.
    """
    program, place = session.program, session.place
    there = program.next(place, session.stride)
    if behind_row is not None:
        there = program.behind(place, behind_row)
    if there[:2] == place[:2] or place[0] >= len(program.parts):
        return there
    laid = dict(session.laid)
    for copy in _copies(program, (place[0], place[1])):
        if copy not in laid:
            return start_of(program, copy)
        if (left := laid[copy]) is not None:
            return left
    return program.end


def goes_on_at(session: Session) -> GoingOn | None:
    """What the row in hand goes on until, at a place behind which such rows may end; None elsewhere.

    Who goes row by row is told a row as it begins; a row of which nothing is worked is none yet.
    """
    program, place = session.program, session.place
    if program.placed(place) is None:
        return None
    found = going_on(program, place[2])
    if found is None or program.is_count(place) or session.stride is Stride.ROW:
        return found
    if place[4:] == (0, 0, 0) and place[2] > found.first:
        return found
    return None


def more_asked(session: Session) -> bool:
    """True where it was asked whether there are more rows."""
    at_the_end = session.program.is_count(session.place) or session.stride is Stride.ROW
    found = goes_on_at(session) if at_the_end else None
    return found is not None and found.may_end


def more_words(session: Session) -> str:
    """That question, where it was asked; "" elsewhere."""
    return rows_asked(session.program.fabric.row(session.place[2]).kind) if more_asked(session) else ""


def start_of(program: Program, copy: Copy) -> Place:
    """The first place of a copy."""
    part, number = copy
    return (part, number, *program.part_start(part)[2:])


def left_at(session: Session, copy: Copy) -> Place:
    """Where a copy is to be gone on with: where it was left, or its start."""
    if session.place[:2] == copy:
        return session.place
    return dict(session.laid).get(copy) or start_of(session.program, copy)


def is_finished(session: Session, copy: Copy) -> bool:
    """True when a copy was worked to its end."""
    return session.place[:2] != copy and dict(session.laid).get(copy, ()) is None


def parts_done(session: Session) -> tuple[PartDone, ...]:
    """How far each part is."""
    laid = dict(session.laid)
    hand: Copy = (session.place[0], session.place[1])
    out: list[PartDone] = []
    for at, part in enumerate(session.program.parts):
        finished = sum(1 for copy, place in laid.items() if copy[0] == at and place is None and copy != hand)
        begun = {copy for copy, place in laid.items() if copy[0] == at and place is not None}
        if hand[0] == at and not session.program.begins(session.place):
            begun.add(hand)
        out.append(PartDone(capital(named(part.name or "")), part.copies, finished, tuple(sorted(begun))))
    return tuple(out)


def unfinished(session: Session) -> Copy | None:
    """The first copy, in working order, that is not finished; None when all are."""
    laid = dict(session.laid)
    for at, part in enumerate(session.program.parts):
        for number in range(1, part.copies + 1):
            if (at, number) == session.place[:2] or laid.get((at, number), ()) is not None:
                return (at, number)
    return None


def is_many(program: Program) -> bool:
    """True when a piece has several parts or copies."""
    return len(program.parts) > 1 or any(part.copies > 1 for part in program.parts)


def may_make(session: Session, number: int) -> str:
    """Why not so many can be made: "Two are begun already…"; "" when they can."""
    parts = [part for part in session.program.parts if part.name not in BEHIND_ALL]
    if len(parts) != 1:
        return "This piece has several parts. How many of each are made is for the pattern to say."
    if not 1 <= number <= MOST:
        return f"Make at least one of it, and {spoken_number(MOST)} at the most."
    begun = max([copy for (part, copy), _ in session.laid if part == 0] + [session.place[1]])
    if session.place[0] == 0 and number < begun:
        return f"You are at number {spoken_number(begun)} already: make at least so many."
    if session.place[0] and number != parts[0].copies:
        return f"All {spoken_number(parts[0].copies)} are made already."
    return ""


def made_said(session: Session, number: int) -> str:
    """What is said when so many are asked for: how many they are, and which is in hand."""
    refused = may_make(session, number)
    if refused:
        return refused
    if number == 1:
        return "One of it, then."
    name = part_name(session.program, session.place)
    return f"{capital(spoken_number(number))} of these. This is {name[:1].lower()}{name[1:]}."


def copy_numbered(session: Session, number: int, part: bool = False) -> Copy | None:
    """A copy of the part in hand by its number; in a piece of parts made once each, or when asked for, the part."""
    parts = session.program.parts
    at = min(session.place[0], len(parts) - 1)
    if at < 0 or number < 1:
        return None
    if part and len(parts) > 1:
        first = range(1, parts[number - 1].copies + 1) if number <= len(parts) else ()
        mine = [(number - 1, copy) for copy in first]
        return next((copy for copy in mine if not is_finished(session, copy)), mine[0] if mine else None)
    if parts[at].copies > 1:
        return (at, number) if number <= parts[at].copies else None
    return (number - 1, 1) if number <= len(parts) else None


def copy_said(session: Session, copy: Copy) -> str:
    """ "Square fourteen", "Sleeve, one of two"."""
    return part_name(session.program, start_of(session.program, copy)) or "The piece"


def state_said(session: Session, copy: Copy) -> str:
    """ "finished", "not begun", "left at row five"."""
    if is_finished(session, copy):
        return "finished"
    place = left_at(session, copy)
    if session.place[:2] != copy and session.program.begins(place):
        return "not begun"
    placed = session.program.placed(place)
    where = f" at {row_name(placed)}" if placed is not None else ""
    return f"in hand{where}" if session.place[:2] == copy else f"left{where or ' between rows'}"


def finished_said(session: Session) -> str:
    """What is finished and what is left, in a few sentences."""
    program = session.program
    if not is_many(program):
        if session.place == program.end:
            return "It is one piece, and finished."
        placed = program.placed(session.place)
        return f"It is one piece, in hand{f' at {row_name(placed)}' if placed is not None else ''}."
    out: list[str] = []
    for at, part in enumerate(parts_done(session)):
        noun = program.noun if not part.name else ""
        if part.copies == 1:
            out.append(f"{part.name or 'The piece'}: {state_said(session, (at, 1))}.")
            continue
        front = f"{part.name}: " if part.name else ""
        head = f"{spoken_number(part.finished) if part.finished else 'none'} of {spoken_number(part.copies)}"
        some = [f"{head} {noun + 's ' if noun else ''}finished"]
        one = noun or "number"
        some += [f"{one} {spoken_number(copy[1])} {state_said(session, copy)}" for copy in part.begun[:3]]
        if len(part.begun) > 3:
            some.append(f"{spoken_number(len(part.begun) - 3)} more begun")
        if part.untouched:
            some.append(f"{spoken_number(part.untouched)} not begun")
        words = f"{front}{', '.join(some)}."
        out.append(capital(words))
    return " ".join(out)


def left_over_said(session: Session) -> str:
    """A question at the end of a piece of which something is left; "" when nothing is."""
    copy = unfinished(session)
    if copy is None:
        return ""
    return f"That was the last. {copy_said(session, copy)} is {state_said(session, copy)}. Go there?"


def reached_said(session: Session) -> str:
    """What is said as a copy is taken up by asking for it."""
    program, place = session.program, session.place
    if program.begins(place):
        return said_at(program, place, session.stride)
    name = part_name(program, place)
    words = said_at(program, place, session.stride, again=True)
    placed = program.placed(place)
    row = f" {capital(row_name(placed))}." if placed is not None and place[4:] != (0, 0, 0) else ""
    return f"{name}.{row} {words}" if name else words


def _copies(program: Program, after: Copy) -> Iterator[Copy]:
    """The copies behind one, in working order."""
    for at in range(after[0], len(program.parts)):
        first = after[1] + 1 if at == after[0] else 1
        for number in range(first, program.parts[at].copies + 1):
            yield (at, number)


def backward(session: Session, place: Place, stride: Stride) -> Place:
    """The place before another; rows that nobody worked, because it was long enough before them, are passed over."""
    program = session.program
    there = program.back(place, stride)
    if program.placed(there) is None:
        return there
    row = worked_before(session, there[2] + 1) if there[2] < place[2] else there[2]
    return there if row == there[2] else program.back((*there[:2], row + 1, 0, 0, 0, 0), stride)


def worked_before(session: Session, row: int) -> int:
    """Index of the row that was worked before another."""
    found = going_on(session.program, row - 1) if 1 < row <= session.program.fabric.length + 1 else None
    if found is None or row <= found.last:
        return row - 1
    part, copy = session.place[:2]
    mine = [
        last
        for where, last in session.ended
        if (where[0] != part or where[1] == copy) and found.first - 1 <= last <= found.last
    ]
    return mine[-1] if mine else found.first - 1


def ended_at(session: Session) -> tuple[Copy, int]:
    """The copy in hand, and the last row that was worked of rows that are long enough now."""
    program, place = session.program, session.place
    begun = program.is_count(place) or session.stride is Stride.ROW
    return (place[0], place[1]), place[2] if begun else place[2] - 1


def not_yet_said(session: Session) -> str:
    """Why rows that go on until something is so cannot be ended here."""
    placed = session.program.placed(session.place)
    if placed is None or going_on(session.program, session.place[2]) is None:
        return "No row here goes on until it is long enough."
    return f"Finish {row_name(placed)} first."


def ended_said(before: Session, told: list[Effect]) -> list[Effect]:
    """What is told behind rows that were long enough: first what the pattern says is done at their end."""
    program = before.program
    goes_on = going_on(program, before.place[2])
    ends = endings(program, goes_on.last) if goes_on is not None else ()
    words = " ".join(f"{capital(read_out(program, one)).rstrip('.')}." for one in ends)
    after = min(before.place[2] + 1, program.fabric.length)
    told_to_turn = turn_before(program, after) == "turn"
    if goes_on is not None and not ends and not told_to_turn and goes_further(program, goes_on.last):
        words = "Turn." if turn_before(program, goes_on.last + 1) == "turn" else ""
    if not words:
        return told
    return [Say(f"{words} {one.text}") if isinstance(one, Say) else one for one in told]
