"""What is said as a place is reached, in a row and between rows."""

import re
from functools import lru_cache

from tracker.notation.pattern import Setup
from tracker.notation.tree import Chain
from tracker.problems import Span
from tracker.program.parts import chains_of
from tracker.program.places import Place, Program, Stride
from tracker.session.wording.groups import around, changing, in_full, later_beat, single_stitch
from tracker.session.wording.made.own_words.cautions import for_a_baby
from tracker.session.wording.made.own_words.reading import read_out
from tracker.session.wording.made.telling import Telling, capital
from tracker.session.wording.rows import at_the_end, due_and_turn, now_the_part, opening, part_name
from tracker.trade.numbers import spoken_number
from tracker.trade.said.talk import without_talk

TALLY = 10
"""Single stitches are called by tens."""
LONG_CHAIN = 20
"""A foundation chain of so many is worth a word about counting it."""
LATELY_TOLD = 64
"""Places whose words are kept: those ahead are asked for while the hands work, and again when they are reached."""


@lru_cache(maxsize=LATELY_TOLD)
def said_at(program: Program, place: Place, stride: Stride = Stride.GROUP, again: bool = False) -> str:
    """The sentences at a place as it is reached; with `again` in full, whatever was said before."""
    if place == program.end:
        return "The piece is finished."
    if place[3]:
        return aside_said(program, place, stride)
    if stride is Stride.ROW:
        return whole_row(program, place)
    if program.is_count(place):
        return at_the_end(program, place)
    breath = program.breath(place)
    assert breath is not None
    sentences = [opening(program, place)] if place[4:] == (0, 0, 0) else []
    if stride is Stride.STITCH and program.singles(place) > 1 and not (again and place[6] == 0):
        sentences.append(single_stitch(program, place, breath))
    elif place[5] and not again:
        sentences.append(later_beat(program, place, breath))
    elif stride is Stride.REPEAT and breath.path:
        sentences.append(one_pass(program, place))
    else:
        sentences.append(around(program, place) + in_full(program, place, breath))
        if again and place[5]:
            sentences.append(later_beat(program, place, breath))
    return " ".join(sentences)


def one_pass(program: Program, place: Place) -> str:
    """The repeat that begins at a place, once through, with how often it is worked."""
    breaths = program.breaths(place[2])
    repeat = breaths[place[4]].path[0][0]
    sentences: list[str] = []
    for group in range(place[4], len(breaths)):
        path = breaths[group].path
        if not path or path[0][0] != repeat or path[0][1] != breaths[place[4]].path[0][1]:
            break
        at: Place = (*place[:4], group, 0, 0)
        sentences.append(around(program, at) + in_full(program, at, breaths[group]))
    return " ".join(sentences)


def whole_row(program: Program, place: Place) -> str:
    """A row from start to end, each group once: of a repeat the first pass, and what is otherwise in a later one."""
    part, copy, row = place[:3]
    sentences = [opening(program, place)]
    heard: set[Span] = set()
    repeated = False
    for group, breath in enumerate(program.breaths(row)):
        if breath.path and breath.path[0][1] and breath.first.span in heard:
            continue
        heard.add(breath.first.span)
        at: Place = (part, copy, row, 0, group, 0, 0)
        words = around(program, at) + in_full(program, at, breath)
        # A listener must hear where the repeat is over.
        sentences.append(
            f"After those, {words[:1].lower()}{words[1:]}" if repeated and not breath.path else words
        )
        repeated = bool(breath.path)
    change = changing(program, (part, copy, row, 0, len(program.breaths(row)) - 1, 0, 0)).strip()
    if change and change not in sentences[-1]:
        sentences.append(change)
    return " ".join([*sentences, due_and_turn(program, place)])


def _explains(words: str) -> bool:
    """True for a list of abbreviations, "inc = 2 sc in 1 st, FO = fasten off": read aloud, each would say itself."""
    entries = [entry for entry in re.split(r"[;,.\n]\s*", words) if entry.strip()]
    explained = sum("=" in entry for entry in entries)
    return explained > 1 and explained * 2 > len(entries)


def aside_said(program: Program, place: Place, stride: Stride) -> str:
    aside = program.aside(place)
    assert aside is not None
    telling = Telling(program, None)
    name = part_name(program, place)
    first = f"{now_the_part(program, place)} " if name and program.begins(place) else ""
    chains = chains_of(aside)
    if isinstance(aside, Setup) and chains:
        if stride is Stride.STITCH and place[6]:
            done = place[6] + 1
            return f"{capital(spoken_number(done))}." if done % TALLY == 0 or done == chains else ""
        words = f"Chain {spoken_number(chains)}."
        if chains < LONG_CHAIN or len([i for i in aside.items if not isinstance(i, Chain)]) > 0:
            words = f"{capital(telling.words(aside.span).rstrip('.'))}."
            if chains >= LONG_CHAIN:
                words += " Your hook loop isn't one."
            return first + words
        tally = " Tap each; I call the tens." if stride is Stride.STITCH else ""
        return f"{first}{words}{tally} Your hook loop isn't one."
    if _explains(program.source.words(aside.span)):
        words = "The pattern explains its abbreviations here"
    elif isinstance(aside, Setup):
        words = telling.words(aside.span)
    else:
        told = " ".join(aside.text.split())
        words = read_out(program, told if place[1] == 1 else without_talk(told) or told, telling.own)
    return f"{first}{capital(words.rstrip('.'))}.{for_a_baby(program, words)}"
