"""Coming back to a piece: where the maker is, in a breath, and whether the group in hand was begun or done.

A session and how long the maker was away come in; sentences and a question go out. Short after a minute; after longer
also hook, side and what stands on the row.
"""

from tracker.fabric.model import HIDDEN, Element
from tracker.program.cues import copy_at
from tracker.program.facing import tail_corner
from tracker.program.parts import chains_of
from tracker.program.places import Place, Program, Stride
from tracker.program.row.groups import Sort
from tracker.records import dataclass
from tracker.session.deeds import Again, Onward
from tracker.session.piece.card import card_said, hook_said
from tracker.session.piece.copies import finished_said, is_many
from tracker.session.state import Asked, Session
from tracker.session.wording.groups import telling_at
from tracker.session.wording.made.chains import turning_words
from tracker.session.wording.made.squares import squares_label
from tracker.session.wording.made.telling import capital
from tracker.session.wording.places import said_at
from tracker.session.wording.rows import at_the_end, kinds_said, named, part_name, row_name
from tracker.session.wording.where import counts, done_said
from tracker.trade.numbers import spoken_number

SHORTLY_MS = 15 * 60_000
"""Who was away for less has not forgotten the hook."""
HOW_TO_ANSWER = "Yes moves on; no says it again."
LONGEST_S = 9.2
"""Seconds a recap may take, the question with it: under ten, whatever the voice."""
DONE = "Is that done?"
"""Asked of what is done between rows."""
LONGEST_WORDS = 60
"""Letters of the pattern's own words that a question quotes."""

_SIDES = {"RS": "right side", "WS": "wrong side"}


@dataclass(frozen=True, slots=True)
class Recap:
    """What a maker who comes back is told."""

    said: str
    """For the eye: all of it, without the question."""
    aloud: str
    """For the ear, the question with it: what can be said in ten seconds; the rest is there for "more"."""
    asked: Asked | None = None
    """The question on the group in hand, if one was."""

    @property
    def whole(self) -> str:
        """For the eye, the question with it."""
        return f"{self.said} {self.asked.question if self.asked else ''}".strip()


def recap(session: Session, away_ms: int) -> Recap:
    """Where a maker is who was away for so long."""
    program, place = session.program, session.place
    if not program.fabric.length:
        nothing = "There is no row in it to work."
        return Recap(nothing, nothing)
    if place == program.end:
        return Recap("The piece is finished.", "The piece is finished.")
    hook = hook_said(session.card, program.pattern) if away_ms >= SHORTLY_MS else ""
    side = tail_said(program, place, program.speech.left_handed) if away_ms >= SHORTLY_MS else ""
    name, row, copy = _row_words(program, place)
    if place[3] and not row:
        name = ", ".join(filter(None, (name, between_said(program, place))))
    if program.placed(place) is not None and program.is_count(place):
        due = at_the_end(program, place)
        return _told([_sentence(name), hook, side, due], [_sentence(name), side, due], [_sentence(name), due])
    question = begun_or_done(program, place, session.stride)
    if not question:
        words = said_at(program, place, session.stride, again=True)
        front = _sentence(name, row, copy)
        return _told([front, words], [front, f"{words.partition('. ')[0].rstrip('.')}."])
    answers = f" {HOW_TO_ANSWER}" if away_ms >= SHORTLY_MS else ""
    stands = "" if session.stride is Stride.ROW else standing_said(program, place)
    few = name.partition(" of ")[0]
    small = side.rstrip(".").replace(": ", ", ")
    told = _told(
        [_sentence(name, row, copy), hook, side, stands, f"{question}{answers}"],
        [_sentence(name, row, copy), hook, side, stands, question],
        [_sentence(few, row, copy, hook.rstrip("."), small), stands, question],
        [_sentence(few, row, hook.rstrip("."), small), stands, question],
        [_sentence(few, row, hook.rstrip("."), small), question],
    )
    if place[3] and question == DONE:
        words = said_at(program, place, session.stride, again=True)
        first = f"{words.partition('. ')[0].rstrip('.')}."
        told = _told(
            [_sentence(name), words, f"{question}{answers}"],
            [_sentence(name), words, question],
            [_sentence(name), first, question],
        )
    said = told.said.removesuffix(f"{question}{answers}").strip()
    return Recap(said, told.aloud, Asked(f"{question}{answers}", Onward(), Again()))


def _told(*told: list[str]) -> Recap:
    """The first of these for the eye, and the first that can be said in time for the ear; the last when none can."""
    for sentences in told:
        if spoken_s(said := _joined(sentences)) <= LONGEST_S:
            break
    return Recap(_joined(told[0]), said)


def spoken_s(words: str) -> float:
    """About how many seconds words take to be said at the usual 165 words a minute.

    Fitted to five hundred recaps as espeak-ng says them; it is off by less than 0.8 s.
    """
    letters = sum(letter.isalpha() for letter in words)
    return 0.06 * letters + 0.55 * sum(map(words.count, ".?:;")) + 0.22 * words.count(",")


def _row_words(program: Program, place: Place) -> tuple[str, str, str]:
    """ "Square fourteen of thirty", "row nine", "which is row three"; each "" where there is none."""
    name = part_name(program, place)
    placed = program.placed(place)
    if placed is None:
        return name, "", ""
    copy = copy_at(program, place[2])
    word = "round" if placed.kind == "round" else "row"
    return name, row_name(placed), f"which is {word} {spoken_number(copy.of)}" if copy is not None else ""


def between_said(program: Program, place: Place) -> str:
    """ "before row one", "after round twenty-one": where a place is that is in no row."""
    part = program.parts[place[0]]
    before = place[2] <= part.last
    return (
        f"{'before' if before else 'after'} {row_name(program.fabric.row(place[2] if before else part.last))}"
    )


def _sentence(*words: str) -> str:
    """Words with commas between them; what was a sentence of its own begins small."""
    some = [word if at == 0 else word[:1].lower() + word[1:] for at, word in enumerate(filter(None, words))]
    return f"{capital(', '.join(some))}." if some else ""


def tail_said(program: Program, place: Place, left_handed: bool) -> str:
    """ "Tail lower left: right side."; only the side, or nothing, where the tail does not tell."""
    placed = program.placed(place)
    if placed is None:
        return ""
    side = _SIDES.get(placed.worked.side or "", "")
    corner = tail_corner(program, place, left_handed)
    if not corner:
        return f"{side.capitalize()} facing." if side else ""
    return f"Tail {corner}: {side}." if side else f"Tail {corner}."


def standing_said(program: Program, place: Place) -> str:
    """What stands on the row: "Two blocks, two windows done." """
    done, due, unit = counts(program, place)
    if not due:
        return ""
    if not done:
        stitches = sum(1 for element in program.made(place) if element.is_stitch)
        many = f"{spoken_number(stitches)} stitch{'es' if stitches > 1 else ''}"
        return f"{capital(many)} done." if stitches else "Nothing on it yet."
    squares = program.squares(place[2])
    if unit == "squares" and squares:
        runs = _runs(squares[:done])
        if len(runs) <= 3:
            return f"{capital(', '.join(_square_run(window, many) for window, many in runs))} done."
        return f"{capital(spoken_number(done))} of {spoken_number(due)} squares done."
    return f"{capital(spoken_number(done))} stitch{'es' if done > 1 else ''} done."


def _runs(squares: tuple[bool, ...]) -> list[tuple[bool, int]]:
    runs: list[tuple[bool, int]] = []
    for window in squares:
        if runs and runs[-1][0] == window:
            runs[-1] = (window, runs[-1][1] + 1)
        else:
            runs.append((window, 1))
    return runs


def _square_run(window: bool, many: int) -> str:
    return f"{spoken_number(many)} {'window' if window else 'block'}{'' if many == 1 else 's'}"


def begun_or_done(program: Program, place: Place, stride: Stride = Stride.GROUP) -> str:
    """ "Is that window closed by its double crochet?": whether the group in hand is done; "" without one."""
    aside = program.aside(place)
    if aside is not None:
        chains = chains_of(aside)
        return f"Are those {spoken_number(chains)} chains made?" if chains > 1 else DONE
    placed, breath, beat = program.placed(place), program.breath(place), program.beat(place)
    if placed is None or breath is None or beat is None:
        return ""
    if stride is Stride.ROW:
        return f"Is {row_name(placed)} done?"
    if stride is Stride.STITCH and beat.singles > 1:
        return "Is that stitch made?"
    if breath.sort is Sort.WORDS:
        words = program.source.words(beat.span)
        return f"Is that done: {words}?" if len(words) <= LONGEST_WORDS else "Is that phrase done?"
    if breath.sort is Sort.ENDS:
        return f"Is row end {spoken_number(place[5] + 1)} done?"
    if breath.sort is Sort.JOIN:
        return "Is the round joined?"
    telling = telling_at(program, place[2])
    made = _made(placed.worked.elements, beat.made_from, beat.made_to)
    if breath.sort is Sort.TURNING:
        step = next((one for one in beat.steps if one.made_to > one.made_from), beat.steps[0])
        chain = turning_words(step, placed.worked, telling)
        return f"Is that {chain.partition(':')[0].partition(';')[0].lower()} made?"
    if not made:
        return "Is that done?"
    last = next((element for element in reversed(made) if element.is_stitch), None)
    closing = telling.stitch(last.kind) if last is not None else "chain"
    label = squares_label(program, place[2], breath).lower()
    if label in ("window", "block"):
        return f"Is that {label} closed by its {closing}?"
    kinds = {element.kind for element in made}
    if len(kinds) == 1 and last is not None:
        if len(made) == 1:
            return f"Is that {'decrease' if closing.endswith('together') else closing} done?"
        if closing.endswith("together"):
            return f"Are those {spoken_number(len(made))} decreases done?"
        return f"Are those {spoken_number(len(made))} {telling.stitch(last.kind, len(made))} done?"
    return f"Is its last {closing} made?"


def _made(elements: tuple[Element, ...], start: int, end: int) -> tuple[Element, ...]:
    return tuple(element for element in elements[start:end] if element.kind != HIDDEN)


def more_said(session: Session) -> str:
    """All there is to tell: the piece, the row by kind, the group, notes on the row, what is left, the card."""
    program, place = session.program, session.place
    sentences = [f"{program.pattern.title}."]
    if place == program.end:
        sentences.append("The piece is finished.")
    placed = program.placed(place)
    if placed is not None:
        last = program.fabric.row(program.parts[place[0]].last)
        of = "" if program.fabric.open_ended or last.number is None else f" The last is {row_name(last)}."
        sentences.append(f"{_sentence(*_row_words(program, place))}{of}")
        sentences.append(tail_said(program, place, session.program.speech.left_handed))
        made = program.made(place)
        if made and placed.worked.understood and not program.is_count(place):
            stitches = sum(1 for element in made if element.is_stitch)
            on_it = kinds_said(named(made), stitches, telling_at(program, place[2]))
            on_it = f"On the row: {on_it}. " if on_it else ""
            sentences.append(f"{on_it}{done_said(program, place)}")
    if place != program.end:
        words = said_at(program, place, session.stride, again=True)
        if placed is not None and place[4:] == (0, 0, 0):
            words = words.partition(". ")[2] or words  # the row was named already
        sentences.append(words)
    sentences += [
        f"Your note here: {mark.words}."
        for mark in session.marks
        if mark.words and mark.place[:3] == place[:3]
    ]
    if is_many(program):
        sentences.append(finished_said(session))
    sentences.append(card_said(session.card, program.pattern))
    return _joined(sentences)


def _joined(sentences: list[str]) -> str:
    return " ".join(filter(None, sentences))
