"""Where the maker is and how far, for the eye in one line and for the ear in a few sentences."""

import re
from itertools import groupby

from tracker.fabric.model import HIDDEN, SP
from tracker.program.cues import copy_at
from tracker.program.joining import Joining, Joint, Layout
from tracker.program.places import Place, Program, Stride
from tracker.program.row.groups import Breath
from tracker.program.row.squares import squares_done
from tracker.session.wording.groups import coming, in_full, telling_at
from tracker.session.wording.made.edges import row_end
from tracker.session.wording.made.own_words.reading import read_out
from tracker.session.wording.made.squares import squares_label
from tracker.session.wording.made.telling import Telling, capital
from tracker.session.wording.places import aside_said
from tracker.session.wording.rows import count_due, due_and_turn, part_name, row_name, squares_said
from tracker.session.wording.stitches import doing
from tracker.trade.nouns import several
from tracker.trade.numbers import spoken_number, spoken_ordinal
from tracker.trade.said.headings import called


def place_line(program: Program, place: Place) -> str:
    """Row, repeat and group in one line, to be read by eye or by another program."""
    name = part_name(program, place)
    front = f"{name}; " if name else ""
    if place == program.end:
        return "finished"
    if place[3]:
        aside = program.aside(place)
        assert aside is not None
        joining = program.joining(place)
        if joining is not None and joining.now is not None:
            return f"{front}{joining.seam}: {joining.pieces} · {progress(program, place)}"
        single = f", {place[6] + 1} of {program.singles(place)}" if place[6] else ""
        before = (
            f"before {program.fabric.row(place[2]).label}"
            if place[2] <= program.parts[place[0]].last
            else "after the last row"
        )
        return f"{front}{before}{single}: {program.source.words(aside.span)}"
    placed = program.fabric.row(place[2])
    words = placed.label
    copy = copy_at(program, place[2])
    if copy is not None:
        kind = "Rnd" if placed.kind == "round" else "Row"
        words += f" ({kind} {copy.of} again, time {copy.time}{f' of {copy.times}' if copy.times else ''})"
    breaths = program.breaths(place[2])
    if program.is_count(place):
        return f"{front}{words}, at its end"
    breath = breaths[place[4]]
    for _, turn, times in breath.path:
        words += f", repeat {turn + 1} of {times}"
    words += f", group {place[4] + 1} of {len(breaths)}"
    if len(breath.beats) > 1:
        words += f", {place[5] + 1} of {len(breath.beats)}"
    if place[6]:
        words += f", stitch {place[6] + 1} of {breath.beats[place[5]].singles}"
    done = progress(program, place)
    return f"{front}{words}: {program.source.words(breath.beats[place[5]].span)}" + (
        f" · {done}" if done else ""
    )


def progress(program: Program, place: Place) -> str:
    """ "5 of 16 squares", "9 of 27 stitches"; "" where the row is not counted."""
    done, due, unit = counts(program, place)
    return f"{done} of {due} {unit}" if due else ""


def counts(program: Program, place: Place) -> tuple[int, int, str]:
    """Done, due, and "squares", "stitches" or, of a joining, "edges"; (0, 0, "") where nothing is counted."""
    placed = program.placed(place)
    if placed is None and (joining := program.joining(place)) is not None:
        return joining.counted
    if placed is None or not placed.worked.understood:
        return 0, 0, ""
    made = program.made(place)
    squares = program.squares(place[2])
    if squares and program.mesh:
        return squares_done(made, program.mesh), len(squares), "squares"
    return sum(1 for element in made if element.is_stitch), placed.worked.stitches, "stitches"


def where_said(program: Program, place: Place) -> str:
    """ "Row nine, which is row three. Second window of four. Five of sixteen squares." """
    if place == program.end:
        return "The piece is finished."
    if place[3]:
        joining = program.joining(place)
        if joining is not None and joining.now is not None:
            return _seam_said(program, place, joining, joining.now)
        return aside_said(program, place, Stride.GROUP)
    placed = program.fabric.row(place[2])
    copy = copy_at(program, place[2])
    word = "round" if placed.kind == "round" else "row"
    name = part_name(program, place)
    sentences = [f"{name}."] if name else []
    which = f", which is {word} {spoken_number(copy.of)}" if copy is not None else ""
    side = {"RS": ", right side", "WS": ", wrong side"}.get(placed.worked.side or "", "")
    sentences.append(f"{capital(row_name(placed))}{which}{side}.")
    if program.is_count(place):
        sentences[-1] = f"{sentences[-1][:-1]}, is done{'' if placed.worked.understood else ' as written'}."
        return " ".join(filter(None, (*sentences, due_and_turn(program, place))))
    breath = program.breath(place)
    assert breath is not None
    for _, turn, times in breath.path[:1]:
        sentences.append(f"Repeat {spoken_number(turn + 1)} of {spoken_number(times)}.")
    sentences += _group_said(program, place, breath)
    if counts(program, place)[0]:
        sentences.append(done_said(program, place))
    return " ".join(sentences)


def _group_said(program: Program, place: Place, breath: Breath) -> list[str]:
    """Which beat of the group is in hand, and what it is: "Second window of four.", "Row end six, …"."""
    if program.edge(place) is not None:
        return [row_end(program, place)]
    if len(breath.beats) == 1:
        return [in_full(program, place, breath)]
    label = squares_label(program, place[2], breath).lower()
    words = doing(breath.first, program.fabric.row(place[2]).worked, telling_at(program, place[2]))
    return [
        f"{capital(spoken_ordinal(place[5] + 1))}{f' {label}' if label else ''} of {spoken_number(len(breath.beats))}.",
        f"{capital(words)}.",
    ]


def _seam_said(program: Program, place: Place, joining: Joining, now: Joint) -> str:
    """ "Seam two of five, across: squares four and seven. Three of seventeen edges." """
    of = spoken_number(len(joining.layout.seams))
    way = "across" if now.across else "down"
    pieces = " ".join(
        spoken_number(int(word)) if word.isdecimal() else word for word in joining.pieces.split()
    )
    return f"Seam {spoken_number(now.seam)} of {of}, {way}: {pieces}. {done_said(program, place)}"


def done_said(program: Program, place: Place) -> str:
    """ "Five of sixteen squares." """
    done, due, unit = counts(program, place)
    if not due:
        return ""
    whole = squares_said(due) if unit == "squares" else f"{spoken_number(due)} {unit}"
    if done == 0:
        return f"None of the {whole} yet."
    return f"All {whole}." if done == due else f"{capital(spoken_number(done))} of {whole}."


def beside_said(program: Program, place: Place) -> str:
    """ "Five of sixteen squares: ten of twenty-five stitches." In other rows than filet the same as `done_said`."""
    done, _, unit = counts(program, place)
    words = done_said(program, place)
    if unit != "squares" or not done:
        return words
    stitches = sum(1 for element in program.made(place) if element.is_stitch)
    whole = program.fabric.row(place[2]).worked.stitches
    return f"{words[:-1]}: {spoken_number(stitches)} of {spoken_number(whole)} stitches."


def left_said(program: Program, place: Place) -> str:
    """ "Eleven squares to go." """
    done, due, unit = counts(program, place)
    left = due - done
    if not due:
        return "This row is not counted." if program.placed(place) is not None else "No row is in hand."
    word = unit if left != 1 else "stitch" if unit == "stitches" else unit[:-1]
    return f"{capital(spoken_number(left))} {word} to go." if left else "None: the row is full."


def asked_said(program: Program, place: Place, about: str) -> str:
    """What the screen shows, in words: what follows, what is due, the row as it is written, the row below."""
    if about == "ear":
        return "There is no ear here; you type what you would say."
    placed = program.placed(place)
    if about == "then":
        return f"{capital(then_said(program, place) or 'nothing; the piece is done')}."
    if placed is None:
        if about == "below" and (joining := program.joining(place)) is not None:
            return lying_said(joining.layout)
        aside = program.aside(place)
        words = program.source.words(aside.span) if aside is not None else ""
        return (
            f"{capital(read_out(program, words).rstrip('.'))}."
            if words and about == "written"
            else "No row is in hand."
        )
    if about == "due":
        due = count_due(program, place)
        return f"{capital(due)}." if due else "This row is not counted."
    if about == "written":
        # a count in brackets is heard as one behind a pause
        words = _COUNT_BEHIND.sub(r"; \1", program.words(place[2]))
        return f"{capital(read_out(program, words).rstrip('. '))}."
    return below_said(program, place)


def around_said(program: Program, place: Place) -> str:
    """What else there is to see in a row: what follows, what is due, the row below, the pattern's own words."""
    if program.placed(place) is None:
        return asked_said(program, place, "below") if program.joining(place) is not None else ""
    due = asked_said(program, place, "due")
    return " ".join((
        f"Then {then_said(program, place) or 'nothing; the piece is done'}.",
        f"In all {due[:1].lower()}{due[1:]}",
        asked_said(program, place, "below"),
        f"As it is written: {asked_said(program, place, 'written')}",
    ))  # fmt: skip


_COUNT_BEHIND = re.compile(r"\s*[.;,:]?\s*[(\[]([^()\[\]]*\d[^()\[\]]*)[)\]]\s*\.?\s*$")


def then_said(program: Program, place: Place) -> str:
    """What follows the group at a place, in few words; "" at the end."""
    breath = program.breath(place)
    if breath is None:
        after = program.next(place)
        following = program.placed(after)
        if following is not None and after != place:
            return row_name(following)
        return "" if after in (place, program.end) else aside_said(program, after, Stride.GROUP).rstrip(".")
    last = place[4] == len(program.breaths(place[2])) - 1
    return coming(program, (*place[:4], place[4] + 1, 0, 0)) or (count_due(program, place) if last else "")


def lying_said(layout: Layout) -> str:
    """ "Top row, one to three. Row two, four to six. Bottom row, seven to nine.": how the pieces of a joining lie."""
    out = []
    for row in range(layout.down):
        first, last = row * layout.across + 1, (row + 1) * layout.across
        name = "Top row" if row == 0 else f"Row {spoken_number(row + 1)}"
        name = "Bottom row" if row == layout.down - 1 and row else name
        to = f" to {spoken_number(last)}" if last > first else ""
        out.append(f"{name}, {spoken_number(first)}{to}.")
    return " ".join(out)


def below_said(program: Program, place: Place) -> str:
    """ "Row two, from where you begin: two blocks, four windows, …": the row below as the hands meet it.

    A row that was turned meets the last thing made first.
    """
    part = program.part(place)
    row = place[2] - 1
    if part is None or row < program.ground(place):
        return "There is no row below this one."
    placed = program.fabric.row(row)
    name = capital(row_name(placed))
    if row < part.first and placed.part:
        name += f" of the {called(placed.part).removeprefix('the ')}"
    if not placed.worked.understood:
        return f"{name} was followed as written; what stands on it is not known."
    turned = program.fabric.row(place[2]).worked.turned
    squares = program.squares(row)
    if squares:
        kinds = ["window" if window else "block" for window in squares]
    else:
        telling = Telling(program, program.mesh)
        kinds = [
            f"chain-{spoken_number(e.chains)} space"
            if e.kind == SP
            else "decrease"
            if e.kind.endswith("tog")
            else telling.stitch(e.kind)
            for e in placed.worked.elements
            if e.kind != HIDDEN
        ]
    runs = [(kind, len(list(alike))) for kind, alike in groupby(reversed(kinds) if turned else kinds)]
    named = [kind if number == 1 else f"{spoken_number(number)} {several(kind)}" for kind, number in runs]
    return f"{name}, from where you begin: {_folded(named)}."


def _folded(named: list[str]) -> str:
    """A list with what comes several times over told once: nobody keeps twelve pairs in mind.

    >>> _folded(["a", "b", "c", "b", "c", "b", "c", "d"]), _folded(["a", "b", "a", "b"])
    ('a; b, c, three times; d', 'a, b, a, b')
    """
    best = (0, 0, 0)  # what is saved, where it begins, how long a pass is
    for start in range(min(4, len(named))):
        for length in range(1, min(LONGEST_PASS, (len(named) - start) // TIMES) + 1):
            times = _times_over(named, start, length)
            best = max(best, ((times - 1) * length if times >= TIMES else 0, -start, -length))
    saved, start, length = best[0], -best[1], -best[2]
    if not saved:
        return ", ".join(named)
    end = start + saved + length
    often = spoken_number(saved // length + 1)
    parts = (
        ", ".join(named[:start]),
        f"{', '.join(named[start : start + length])}, {often} times",
        ", ".join(named[end:]),
    )
    return "; ".join(filter(None, parts))


def _times_over(named: list[str], start: int, length: int) -> int:
    """How often what begins here comes one after another."""
    times = 1
    while named[start : start + length] == named[start + times * length : start + (times + 1) * length]:
        times += 1
    return times


LONGEST_PASS = 6
"""Kinds in a pass that is told once."""
TIMES = 3
"""So often it must come to be told once."""
