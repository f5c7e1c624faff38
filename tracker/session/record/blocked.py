"""The blocked size of each copy: noted one after the other, told again, and what is off. A session and a maker's words
come in; copies with their sizes and sentences go out.
"""

import re
from statistics import median

from tracker.session.piece.copies import copy_said, is_finished, is_many
from tracker.session.state import Copy, Session
from tracker.trade.numbers import number_of, spoken_number

OFF = 0.04
"""Part by which one may differ from most before it is said (common practice, no source): 5 mm of 12 cm."""
TO_JUDGE = 3
"""Sizes that are needed before one of them is called off."""
SHOWN = 6
"""Copies that are listed though none of them is begun."""
LONGEST = 60
"""Letters of a size that are kept."""


def noted(session: Session, words: str) -> tuple[Copy, str] | None:
    """Whose size the words tell, and the size; None when they tell none."""
    plain = " ".join(words.split())
    named = re.match(
        rf"(?:the\s+)?(?:number|no\.?|copy|piece|one|{re.escape(session.program.noun or 'piece')})\s+"
        r"(?P<nth>\d+|[a-z]+(?:-[a-z]+)?)\s*(?:[:,=]|is|measures|to)?\s+(?P<size>.+)$",
        plain,
        re.IGNORECASE,
    )
    number = number_of(named["nth"].lower()) if named else None
    size = (named["size"] if named and number else plain)[:LONGEST].strip(" .:,")
    if not re.search(r"\d", size):
        return None
    copy = (_part(session), number) if number else _next(session)
    if copy is None or copy[1] > session.program.parts[copy[0]].copies or not _is_done(session, copy):
        return None
    return copy, size


def with_size(session: Session, copy: Copy, size: str) -> tuple[tuple[Copy, str], ...]:
    """All sizes, with this one in the place of what was noted of the same copy."""
    rest = [one for one in session.blocked if one[0] != copy]
    return tuple(sorted([*rest, (copy, size)]))


def noted_said(session: Session, copy: Copy | None) -> str:
    """What is said as a size is noted; of None, that there was none in the words."""
    if copy is None:
        if not _finished(session):
            return "None is finished yet, so there is no blocked size to note."
        return "Say the size with a number, such as blocked 12 cm, or blocked square 3: 12 by 12 cm."
    name, size = _name(session, copy), dict(session.blocked)[copy]
    wrong = _off(session, copy)
    due = [one for one in _finished(session) if one not in dict(session.blocked)]
    rest = (
        f" {spoken_number(len(due)).capitalize()} more to measure."
        if due and is_many(session.program)
        else ""
    )
    return f"{name}: {size}.{f' {wrong}' if wrong else ''}{rest}"


def sizes_said(session: Session) -> str:
    """The sizes noted so far, and which of them are off; "" when none is."""
    lines = [f"{_name(session, copy)} {size}" for copy, size in session.blocked]
    if not lines:
        return ""
    wrong = [
        f"{_name(session, copy)}: {words}" for copy, _ in session.blocked if (words := _off(session, copy))
    ]
    return " ".join([f"Blocked: {', '.join(lines)}.", *wrong])


def tick_lines(session: Session) -> tuple[str, ...]:
    """A line a copy for the eye, ticked where its size is noted; () for a piece that is made once and has none."""
    part = _part(session)
    sizes = dict(session.blocked)
    copies = [(part, nth) for nth in range(1, session.program.parts[part].copies + 1)]
    if len(copies) < 2 and not sizes:
        return ()
    out = []
    begun = [n for n, copy in enumerate(copies, 1) if copy in sizes or _is_done(session, copy)]
    # of thirty squares nobody reads a line for each that is not there yet
    shown = max(SHOWN, begun[-1] if begun else 0)
    for copy in copies[:shown]:
        wrong = _off(session, copy)
        words = (
            f"blocked {sizes[copy]}"
            if copy in sizes
            else "finished"
            if _is_done(session, copy)
            else "not finished"
        )
        out.append(
            f"[{'x' if copy in sizes else ' '}] {_name(session, copy)}: {words}{f'  {wrong}' if wrong else ''}"
        )
    if copies[shown:]:
        out.append(f"… and {len(copies) - shown} more, not finished")
    return tuple(out)


def _off(session: Session, copy: Copy) -> str:
    """ "Smaller than most; block it again before joining."; "" when it is like the others."""
    lengths = {one: length for one, size in session.blocked if (length := _length_cm(size))}
    if copy not in lengths or len(lengths) < TO_JUDGE:
        return ""
    usual = median(lengths.values())
    part = lengths[copy] / usual - 1
    if abs(part) <= OFF:
        return ""
    return f"{'Smaller' if part < 0 else 'Larger'} than most of them; block it again before you join it."


def _length_cm(size: str) -> float:
    """The first measure in the words, in centimetres when no unit says otherwise."""
    hit = re.search(
        r"(\d+(?:[.,]\d+)?)(?:\s*(?:x|×|by)\s*\d+(?:[.,]\d+)?)?\s*(mm|cm|in|inch|inches|\")?", size.lower()
    )
    if hit is None:
        return 0.0
    scale = {"mm": 0.1, "in": 2.54, "inch": 2.54, "inches": 2.54, '"': 2.54}.get(hit[2] or "", 1.0)
    return float(hit[1].replace(",", ".")) * scale


def _part(session: Session) -> int:
    """The part of which most are made."""
    parts = session.program.parts
    return max(range(len(parts)), key=lambda at: (parts[at].copies, -at)) if parts else 0


def _is_done(session: Session, copy: Copy) -> bool:
    last = session.program.parts[copy[0]].last
    return is_finished(session, copy) or session.place[:2] == copy and session.place[2] > last


def _finished(session: Session) -> list[Copy]:
    parts, part = session.program.parts, _part(session)
    if not parts:
        return []
    return [copy for nth in range(1, parts[part].copies + 1) if _is_done(session, copy := (part, nth))]


def _next(session: Session) -> Copy | None:
    """The first finished one without a size; when all have one, the last."""
    done = _finished(session)
    sizes = dict(session.blocked)
    return next((copy for copy in done if copy not in sizes), done[-1] if done else None)


def _name(session: Session, copy: Copy) -> str:
    return copy_said(session, copy) if is_many(session.program) else "The piece"
