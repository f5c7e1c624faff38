"""Coming back to a piece: where the maker is, in a breath, and whether the group in hand was begun or done.

A session and how long the maker was away come in; sentences and a question go out. Short after a minute; after longer
also hook, side and what stands on the row.
"""

from tracker.fabric.model import HIDDEN, Element
from tracker.program.cues import copy_at
from tracker.program.facing import tail_corner
from tracker.program.groups import Sort
from tracker.program.parts import chains_of
from tracker.program.places import Place, Program, Stride
from tracker.session.deeds import Again, Onward
from tracker.session.piece.card import card_said, hook_said
from tracker.session.piece.copies import finished_said, is_many
from tracker.session.state import Asked, Session
from tracker.session.wording.groups import squares_label, telling_at
from tracker.session.wording.places import said_at
from tracker.session.wording.rows import at_the_end, kinds_said, named, part_name, row_name
from tracker.session.wording.stitches import capital, turning_words
from tracker.session.wording.where import counts, done_said
from tracker.trade.numbers import spoken_number

SHORTLY_MS = 15 * 60_000
"""Who was away for less has not forgotten the hook."""
HOW_TO_ANSWER = "Yes moves on; no says it again."
LONGEST_WORDS = 60
"""Letters of the pattern's own words that a question quotes."""

_SIDES = {"RS": "right side", "WS": "wrong side"}


def recap(session: Session, away_ms: int) -> tuple[str, Asked | None]:
    """What is said to a maker who comes back, and the question on the group in hand, if one was."""
    program, place = session.program, session.place
    if place == program.end:
        return "The piece is finished.", None
    long = away_ms >= SHORTLY_MS
    placed = program.placed(place)
    if placed is not None and program.is_count(place):
        name = part_name(program, place)
        sentences = [f"{name}." if name else ""]
        sentences += _hook_and_side(session) if long else []
        return _joined([*sentences, at_the_end(program, place)]), None
    sentences = [_row_said(program, place), *(_hook_and_side(session) if long else [])]
    if placed is not None and session.stride is not Stride.ROW:
        sentences.append(standing_said(program, place))
    question = begun_or_done(program, place, session.stride)
    if question:
        whole = f"{question} {HOW_TO_ANSWER}" if long else question
        return _joined(sentences), Asked(whole, Onward(), Again())
    return _joined([*sentences, said_at(program, place, session.stride, again=True)]), None


def _hook_and_side(session: Session) -> list[str]:
    hook = hook_said(session.card, session.program.pattern)
    return [hook, tail_said(session.program, session.place, session.program.speech.left_handed)]


def _row_said(program: Program, place: Place) -> str:
    """ "Square fourteen of thirty, row nine, which is row three." """
    words = [part_name(program, place)]
    placed = program.placed(place)
    if placed is not None:
        words.append(row_name(placed))
        copy = copy_at(program, place[2])
        if copy is not None:
            words.append(f"which is {'round' if placed.kind == 'round' else 'row'} {spoken_number(copy.of)}")
    said = ", ".join(filter(None, words))
    return f"{capital(said)}." if said else ""


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
    return f"{capital(spoken_number(done))} of {spoken_number(due)} stitches done."


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
        return f"Are those {spoken_number(chains)} chains made?" if chains > 1 else ""
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
            return f"Is that {closing} done?"
        return f"Are those {spoken_number(len(made))} {telling.stitch(last.kind, len(made))} done?"
    return f"Is that group done, to its last {closing}?"


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
        sentences.append(f"{_row_said(program, place)}{of}")
        sentences.append(tail_said(program, place, session.program.speech.left_handed))
        made = program.made(place)
        if made and placed.worked.understood and not program.is_count(place):
            stitches = sum(1 for element in made if element.is_stitch)
            on_it = kinds_said(named(made), stitches, telling_at(program, place[2]))
            sentences.append(f"On the row: {on_it}. {done_said(program, place)}")
    if place != program.end:
        sentences.append(said_at(program, place, session.stride, again=True))
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
