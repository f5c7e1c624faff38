"""Yarn while the work goes on: what was used so far, and whether what is left does for the row in hand.

A session comes in, with what was weighed on the way; sentences go out. Of a piece in several colours only the colour in
hand counts. Where nothing was weighed, the label's metres and grams give a rough guess, and it is said to be one.
"""

import re
from bisect import bisect_right
from itertools import pairwise

from tracker.charts.layout.colours import colours_of
from tracker.planning.balls import MOST_TENTHS, Rate, Took, grams_said, rate_of, reach, rough_rate, told
from tracker.planning.hooks import of_materials, weight_named
from tracker.planning.yarn import ROUGH_CM, YARD, of_element, of_row
from tracker.program.open_rows import going_on, open_ranges
from tracker.program.places import Place, Program
from tracker.records import dataclass
from tracker.session.piece.copies import is_finished
from tracker.session.state import Copy, Session, Weighing
from tracker.session.wording.made.telling import capital
from tracker.session.wording.rows import row_name
from tracker.trade.numbers import spoken_number
from tracker.trade.stitches import said

MOST_ROWS = 1000
"""A longer piece is not gone through for its colours."""
LOOKED_AHEAD = 30
"""Rows after the one in hand that are told at the most."""


@dataclass(frozen=True, slots=True)
class Amounts:
    """A piece in single crochets, of one colour or of all."""

    program: Program
    letters: dict[int, tuple[str, ...]]
    """By index of the row, a letter an element; empty for a piece of one colour."""
    letter: str
    """The colour that counts; "" for all."""
    before: tuple[float, ...]
    """Of each stretch of rows, what all before it take, once."""
    unworked: tuple[tuple[int, int], ...] = ()
    """Rows that nobody worked, from the index of one up to that of another: of those that go on until it is long."""

    def of(self, index: int, start: int = 0, end: int | None = None) -> float:
        """A row, or those of its elements that lie between."""
        worked = self.program.fabric.row(index).worked
        own = self.letters.get(index) if self.letter else None
        if own is None:
            return sum(map(of_element, worked.elements[start:end]))
        some = zip(worked.elements[start:end], own[start:end], strict=False)
        return sum(of_element(element) for element, letter in some if letter == self.letter)

    def until(self, index: int) -> float:
        """All rows before one that were worked or are to be, once."""
        left_out = ((min(index, first), min(index, last + 1)) for first, last in self.unworked)
        return self._until(index) - sum(self._until(end) - self._until(start) for start, end in left_out)

    def _until(self, index: int) -> float:
        fabric = self.program.fabric
        if not fabric.stretches or index <= 1:
            return 0.0
        at = bisect_right(fabric.first, min(index, fabric.length + 1)) - 1
        if at >= len(fabric.stretches):
            at = len(fabric.stretches) - 1
        rows, first = fabric.stretches[at].rows, fabric.first[at]
        passes, rest = divmod(min(index, fabric.length + 1) - first, len(rows))
        each = [self.of(first + nth) for nth in range(len(rows))] if passes else []
        return self.before[at] + passes * sum(each) + sum(self.of(first + nth) for nth in range(rest))

    def of_part(self, part: int) -> float:
        """One copy of a part."""
        one = self.program.parts[part]
        return self.until(one.last + 1) - self.until(one.first) if one.last >= one.first else 0.0

    def at(self, place: Place) -> float:
        """All that comes before a place when the copies are worked one after another."""
        parts = self.program.parts
        whole = sum(self.of_part(nth) * parts[nth].copies for nth in range(min(place[0], len(parts))))
        if place[0] >= len(parts):
            return whole
        whole += (place[1] - 1) * self.of_part(place[0])
        whole += self.until(place[2]) - self.until(parts[place[0]].first)
        if self.program.placed(place) is not None:
            whole += self.of(place[2], 0, len(self.program.made(place)))
        return whole


def amounts_of(session: Session, place: Place | None = None) -> Amounts:
    """What counts at a place, mostly the one in hand: the whole piece, or what is worked in its colour."""
    program, place = session.program, session.place if place is None else place
    fabric = program.fabric
    letters: dict[int, tuple[str, ...]] = {}
    if fabric.length <= MOST_ROWS:
        letters = dict(colours_of(program.source, program.pattern, tuple(fabric.rows())).rows)
    letter = letter_at(program, letters, place) if letters else ""
    bare = Amounts(program, letters, letter, ())
    before, whole = [], 0.0
    for first, stretch in zip(fabric.first, fabric.stretches, strict=True):
        before.append(whole)
        whole += stretch.times * sum(bare.of(first + nth) for nth in range(len(stretch.rows)))
    return Amounts(program, letters, letter, tuple(before), unworked_of(session))


def unworked_of(session: Session) -> tuple[tuple[int, int], ...]:
    """Rows of those that go on until it is long enough that lie behind the last one worked."""
    program = session.program
    if not program.fabric.open_ended:
        return ()
    ended = {found.last: row for _, row in session.ended if (found := going_on(program, row)) is not None}
    out: list[tuple[int, int]] = []
    for first, last in open_ranges(program):
        in_hand = session.place[2] if first <= session.place[2] <= last else first - 1
        out.append((ended.get(last, in_hand) + 1, last))
    return tuple(out)


def _is_whole_known(session: Session) -> bool:
    """True unless rows that go on until it is long enough are still to be worked."""
    program = session.program
    ended = [found.last for _, row in session.ended if (found := going_on(program, row)) is not None]
    parts = {
        last: part.copies for _, last in open_ranges(program) for part in program.parts if part.last >= last
    }
    return (
        not program.fabric.open_ended
        or bool(parts)
        and all(ended.count(last) >= parts[last] for last in parts)
    )


def letter_at(program: Program, letters: dict[int, tuple[str, ...]], place: Place) -> str:
    """The colour in hand at a place; between rows that of the row that comes."""
    index = min(place[2], program.fabric.length) if place[0] < len(program.parts) else program.fabric.length
    own = letters.get(index, ())
    if not own:
        return ""
    done = len(program.made(place)) if program.placed(place) is not None else 0
    return own[min(done, len(own) - 1)]


def asked_said(session: Session, about: str) -> str:
    """What is said of the yarn: "enough" for this row, or "yarn" so far; "" for what is not about yarn."""
    return {"enough": enough_said, "yarn": so_far_said}.get(about, _nothing)(session)


def _nothing(_: Session) -> str:
    return ""


def enough_said(session: Session) -> str:
    """Whether what is left of the ball does for the row in hand."""
    program, place = session.program, session.place
    placed = program.placed(place)
    if place == program.end or placed is None and place[2] > program.parts[place[0]].last:
        return "There is no row left to ask that of."
    amounts = amounts_of(session)
    index, done = place[2], 0
    if placed is not None:
        done = len(program.made(place))
        if program.is_count(place) or done >= len(placed.worked.elements):
            index, done = place[2] + 1, 0
    last = program.parts[place[0]].last
    if index > last:
        return "That was the last row; there is none left to ask that of."
    what = row_name(program.fabric.row(index))
    if done:
        what = f"the rest of {what}"
    rest = amounts.of(index, done)
    colour = f" of {amounts.letter}" if amounts.letter else ""
    ball = _ball(session, amounts)
    if ball is None:
        return (
            f"{capital(what)} takes as much yarn as {_sized(rest, program)}{colour}. "
            "Weigh the ball and tell me what it weighs."
        )
    rate = rate_in(session, amounts) or _by_label(session)
    if rate is None:
        return (
            f"{capital(what)} takes as much yarn as {_sized(rest, program)}{colour}. "
            "Weigh the ball again after a row or two, and I can say whether it does."
        )
    left = ball.tenths / 10 - rate.grams * (amounts.at(place) - amounts.at(ball.place))
    ahead = (amounts.of(at) for at in range(index + 1, min(last, index + LOOKED_AHEAD) + 1))
    # rows in another colour take nothing of this ball, and are not rows it does for
    rows = tuple(takes for takes in ahead if takes)
    does = told(reach(max(0.0, left), rest, rows, rate), what + colour, not rows)
    return f"{does}{'' if rate.weighed_g else ROUGHLY}"


ROUGHLY = " That is rough, by the label: weigh the ball again after a row or two."


def so_far_said(session: Session) -> str:
    """How much yarn the piece took so far, and will take."""
    program, place = session.program, session.place
    if not program.fabric.length:
        return "There is no row to tell that of."
    some = amounts_of(session)
    whole = Amounts(program, {}, "", _all_before(program), unworked_of(session))
    done, every = whole.at(place), whole.at(program.end)
    rate = rate_in(session, some) or _by_label(session)
    ball = _ball(session, some)
    share = f": {spoken_number(round(100 * done / every))} percent of the yarn" if every else ""
    if not _is_whole_known(session):
        share = ". How much it takes in all depends on how long you make it"
    if not done and not _is_whole_known(session):
        return "Nothing is worked yet, and how much it takes depends on how long you make it."
    if not done:
        return f"Nothing is worked yet. The whole takes as much yarn as {_sized(every, program)}."
    if rate is None:
        weigh = (
            "" if ball is not None else " Weigh the ball, and again after a row or two, to have it in grams."
        )
        lengths = _lengths(session, done, every) if share[:1] == ":" else ""
        return f"So far {lengths or f'as much as {_sized(done, program)}'}{share}.{weigh}"
    of = f" of about {grams_said(every * rate.grams)}" if share[:1] == ":" else ""
    lines = [f"So far about {grams_said(done * rate.grams)}{of}{share}."]
    if ball is not None and not _elsewhere(session, ball):
        left = max(0.0, ball.tenths / 10 - rate.grams * (some.at(place) - some.at(ball.place)))
        colour = f" of {some.letter}" if some.letter else ""
        lines.append(f"About {grams_said(left)} should be left of the ball{colour}.")
    if rate.finished:
        lines.append("That is by the finished ones you weighed.")
    return " ".join(lines) + ("" if rate.weighed_g else ROUGHLY)


def weighed_said(before: Session, after: Session, what: str, tenths: int) -> str:
    """What is said of a weighing."""
    if after.weighed == before.weighed:
        if what == "copy" and tenths:
            return "Nothing is finished yet that could be weighed; weigh the ball instead."
        return "That is no weight; say it in grams, such as forty grams."
    said = grams_said(tenths / 10)
    if what == "copy":
        rate = rate_in(after, amounts_of(after))
        rest = f" The whole takes about {grams_said(_whole(after) * rate.grams)}." if rate else ""
        return f"A finished one weighs {said}.{rest}"
    kept = after.weighed[-1]
    if kept.what == "new ball" and what == "ball":
        return f"The ball weighs {said}: more than before, so it is taken for a new one."
    return f"{'The new ball' if what == 'new ball' else 'The ball'} weighs {said}."


def weighing(session: Session, what: str, tenths: int) -> Weighing | None:
    """What is kept of a weighing; None when it says nothing."""
    if not 0 < tenths <= MOST_TENTHS:
        return None
    if what == "copy":
        part = _finished_part(session)
        return None if part is None else Weighing((part, 1, 0, 0, 0, 0, 0), what, tenths)
    amounts = amounts_of(session)
    last = _ball(session, amounts)
    if what == "ball" and last is not None and tenths > last.tenths and session.place >= last.place:
        what = "new ball"
    return Weighing(session.place, what, tenths)


def rate_in(session: Session, amounts: Amounts) -> Rate | None:
    """What a single crochet takes, by all that was weighed in this piece; None when that tells nothing."""
    program = session.program
    whole = Amounts(program, {}, "", _all_before(program), unworked_of(session))
    took: list[Took] = [
        Took(whole.of_part(one.place[0]), one.tenths / 10, True)
        for one in session.weighed
        if one.what == "copy" and one.place[0] < len(program.parts)
    ]
    balls: dict[str, list[Weighing]] = {}
    for one in session.weighed:
        if one.what != "copy":
            letter = letter_at(program, amounts.letters, one.place) if amounts.letters else ""
            balls.setdefault(letter, []).append(one)
    for letter, own in balls.items():
        counted = amounts if letter == amounts.letter else amounts_of(session, own[0].place)
        for first, second in pairwise(own):
            if second.what == "ball" and second.place > first.place:
                in_sc = counted.at(second.place) - counted.at(first.place)
                took.append(Took(in_sc, (first.tenths - second.tenths) / 10))
    return rate_of(tuple(took))


def _all_before(program: Program) -> tuple[float, ...]:
    out, whole = [], 0.0
    for stretch in program.fabric.stretches:
        out.append(whole)
        whole += stretch.times * sum(of_row(placed.worked) for placed in stretch.rows)
    return tuple(out)


def _whole(session: Session) -> float:
    return Amounts(session.program, {}, "", _all_before(session.program), unworked_of(session)).at(
        session.program.end
    )


def _ball(session: Session, amounts: Amounts) -> Weighing | None:
    """The ball in hand, as it was weighed last."""
    for one in reversed(session.weighed):
        if one.what == "copy":
            continue
        letter = letter_at(session.program, amounts.letters, one.place) if amounts.letters else ""
        if letter == amounts.letter:
            return one
    return None


def _elsewhere(session: Session, ball: Weighing) -> bool:
    """True when another copy is in hand than the one the ball was weighed at, out of order."""
    return session.place < ball.place and session.place[:2] != ball.place[:2]


def _finished_part(session: Session) -> int | None:
    """The part of which a copy was finished last; None when none is."""
    program = session.program
    part = min(session.place[0], len(program.parts) - 1)
    for at in range(part, -1, -1):
        one = program.parts[at]
        if one.last < one.first:
            continue
        copies: tuple[Copy, ...] = tuple((at, nth) for nth in range(1, one.copies + 1))
        if any(is_finished(session, copy) for copy in copies):
            return at
        if session.place[0] == at and session.place[2] > one.last:
            return at
    return None


_LABEL = re.compile(
    r"(?P<long>\d+(?:\.\d+)?)\s*(?P<unit>m|metres|meters|yds?|yards)\b[^.;\d]{0,30}(?P<grams>\d+(?:\.\d+)?)\s*g\b"
    r"|(?P<grams2>\d+(?:\.\d+)?)\s*g\b[^.;\d]{0,30}(?P<long2>\d+(?:\.\d+)?)\s*(?P<unit2>m|metres|meters|yds?|yards)\b",
    re.IGNORECASE,
)


def label_of(session: Session) -> tuple[float, float] | None:
    """Metres and grams of a ball that the card or the pattern names; None where neither does."""
    for note in _notes(session):
        if hit := _LABEL.search(note):
            long, grams = float(hit["long"] or hit["long2"]), float(hit["grams"] or hit["grams2"])
            if (hit["unit"] or hit["unit2"]).lower().startswith("y"):
                long *= YARD
            if long and grams:
                return long, grams
    return None


def weighed_rate(session: Session) -> Rate | None:
    """What a single crochet takes by all that was weighed in the piece; None when that tells nothing."""
    if not session.weighed or not session.program.parts:
        return None
    return rate_in(session, amounts_of(session))


def _by_label(session: Session) -> Rate | None:
    """A rough rate from the label; None where no weight of yarn is named beside it."""
    weight, label = _weight(session), label_of(session)
    return None if weight is None or label is None else rough_rate(weight, *label)


def _notes(session: Session) -> tuple[str, ...]:
    """What is written of the yarn: on the card, then in the pattern."""
    return (dict(session.card).get("yarn", ""), *of_materials(session.program.pattern.notes))


def _weight(session: Session) -> int | None:
    """The weight of yarn that is named, by the standard's number."""
    return next((found.number for note in _notes(session) if (found := weight_named(note))), None)


def _lengths(session: Session, done: float, every: float) -> str:
    """ "about twelve metres of about twenty", by typical lengths; "" where no weight of yarn is named."""
    weight = _weight(session)
    if weight is None:
        return ""
    metres = [max(1, round(part * ROUGH_CM[weight] / 100)) for part in (done, every)]
    unit = "metre" if metres[0] == 1 else "metres"
    return f"roughly {spoken_number(metres[0])} {unit} of about {spoken_number(metres[1])}"


def _sized(in_sc: float, program: Program) -> str:
    many = max(1, round(in_sc))
    return f"{spoken_number(many)} {said('sc', program.told_uk)}"
