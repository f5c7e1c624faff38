"""What is said at a place: the group in full the first time, then "second", "last one"; the landing inside its own group."""

from dataclasses import replace

from tracker.fabric.model import HIDDEN
from tracker.notation.tree import Chain, Setup, Work
from tracker.program.cues import copy_at, turn_before
from tracker.program.groups import Breath, Sort
from tracker.program.places import Place, Program, Stride, chains_of
from tracker.program.squares import squares_done
from tracker.session.wording.rows import at_the_end, count_due, now_the_part, opening, part_name, row_name, squares_said
from tracker.session.wording.stitches import Telling, capital, doing, landing, skips_own, turning_words
from tracker.trade.numbers import spoken_number, spoken_ordinal

TALLY = 10
"""Single stitches are called by tens."""
SMALL = 4
"""So many stitches of one phrase are told as "second", "third"; more of them are counted."""
LONG_CHAIN = 20
"""A foundation chain of so many is worth a word about counting it."""


def said_at(program: Program, place: Place, stride: Stride = Stride.GROUP, again: bool = False) -> str:
    """The sentences at a place as it is reached; with `again` in full, whatever was said before."""
    if place == program.end:
        return "The piece is finished."
    if place[3]:
        return _aside(program, place, stride)
    if stride is Stride.ROW:
        return whole_row(program, place)
    if program.is_count(place):
        return at_the_end(program, place)
    breath = program.breath(place)
    assert breath is not None
    sentences = [opening(program, place)] if place[4:] == (0, 0, 0) else []
    if stride is Stride.STITCH and program.singles(place) > 1 and not (again and place[6] == 0):
        sentences.append(_single(program, place, breath))
    elif place[5] and not again:
        sentences.append(_later_beat(program, place, breath))
    else:
        sentences.append(_around(program, place) + _full(program, place, breath))
        if again and place[5]:
            sentences.append(_later_beat(program, place, breath))
    return " ".join(sentences)


def whole_row(program: Program, place: Place) -> str:
    """A row from start to end, each group once."""
    part, copy, row = place[:3]
    sentences = [opening(program, place)]
    for group, breath in enumerate(program.breaths(row)):
        at: Place = (part, copy, row, 0, group, 0, 0)
        sentences.append(_around(program, at) + _full(program, at, breath))
    due = count_due(program, place)
    if due:
        sentences.append(f"{capital(due)}.")
    return " ".join(sentences)


# -- in a row


def telling_at(program: Program, row: int) -> Telling:
    """What sentences about a row need to know."""
    mesh = program.mesh if program.squares(row) is not None else None
    return Telling(program.source, program.pattern.uk, mesh, frozenset(special.name for special in program.pattern.specials))


def _full(program: Program, place: Place, breath: Breath) -> str:
    """A group in full, with how often and, at the row's end, where its last stitch goes."""
    telling = telling_at(program, place[2])
    worked = program.fabric.row(place[2]).worked
    last = place[4] == len(program.breaths(place[2])) - 1
    times = len(breath.beats)
    if breath.sort is Sort.WORDS:
        return capital(program.source.words(breath.span)) + "."
    if breath.sort is Sort.TURNING:
        return _turning(program, place, breath, telling)
    if breath.sort is Sort.RUN and times == 1:
        return _run(program, place, breath, telling, last)
    words = doing(breath.first, worked, telling)
    label = _label(program, place[2], breath)
    sentence = f"{label}: {words}" if label else capital(words)
    if times > 1:
        return f"{sentence}. {capital(spoken_number(times))} of these."
    if last:
        sentence += _lands(worked.landing, landing(worked), words)
    return sentence + "."


def _lands(known: str, where: str, words: str) -> str:
    """The landing of a last stitch, unless the words have told it."""
    if not where or where in words:
        return ""
    return f"; the last goes in {where}{', counted from the base' if known[:1].isdigit() else ''}"


def _turning(program: Program, place: Place, breath: Breath, telling: Telling) -> str:
    worked = program.fabric.row(place[2]).worked
    at = next((k for k, step in enumerate(breath.first.steps) if isinstance(step.item, Chain)), 0)
    before = [program.source.words(step.item.span) for step in breath.first.steps[:at]]
    words = turning_words(breath.first.steps[at], worked, telling)
    if turn_before(program, place[2]) == "after chain":
        chain, mark, rest = words.partition(":") if ":" in words else words.partition(";")
        words = f"{chain}, then turn{mark}{rest}"
    sentence = ". ".join([*map(capital, before), capital(words)]) + "."
    rest_of = breath.first.steps[at + 1 :]
    if rest_of:
        sentence += " " + capital(doing(replace(breath.first, steps=rest_of), worked, telling)) + "."
    elif _stands_alone(program, place) and (place[2] <= program.parts[place[0]].first + 2 or _told_to_skip(program, place)):
        sentence += " Skip the stitch it stands on."
    return sentence


def _told_to_skip(program: Program, place: Place) -> bool:
    """True when the pattern's words say to skip the stitch under the chain."""
    following = program.breaths(place[2])[place[4] + 1 : place[4] + 2]
    return bool(following) and skips_own(following[0].first.steps[0])


def _stands_alone(program: Program, place: Place) -> bool:
    """True when the turning chain counts and nothing else goes into the stitch below it."""
    worked = program.fabric.row(place[2]).worked
    made = [element for element in worked.elements if element.kind != HIDDEN]
    return len(made) > 1 and made[0].turning and bool(made[0].into) and bool(made[1].into) and made[1].into[0] != made[0].into[0]


def _run(program: Program, place: Place, breath: Breath, telling: Telling, last: bool) -> str:
    worked = program.fabric.row(place[2]).worked
    made = [element for element in worked.elements[breath.first.made_from : breath.first.made_to] if element.kind != HIDDEN]
    number = len(made)
    if number == 1 or len(breath.first.steps) > 1 and any(element.kind != made[0].kind for element in made):
        words = capital(doing(breath.first, worked, telling))
        return words + (_lands(worked.landing, landing(worked), words) if last else "") + "."
    item = breath.first.steps[0].item
    loop = f" in the {item.where.loop} loops" if isinstance(item, Work) and item.where.loop in ("back", "front", "third") else ""
    stitch = telling.stitch(made[0].kind)
    remarks = doing(breath.first, worked, telling).split(". ")[1:]
    behind = "".join(f" {remark}." for remark in remarks)
    where = landing(worked) if last else ""
    whole = number == sum(1 for element in worked.elements if element.kind != HIDDEN and not element.turning)
    if whole and not where:
        return f"{capital(stitch)} in each{loop}: {spoken_number(number)}.{behind}"
    label = _label(program, place[2], breath)
    sentence = f"{capital(spoken_number(number))} {telling.stitch(made[0].kind, number)}{loop}{' to finish' if last else ''}"
    if label and not last:
        sentence = f"{label}: {sentence[:1].lower()}{sentence[1:]}"
    if where:
        base = ", counted from the base" if worked.landing[:1].isdigit() else ""
        sentence += f"; the {spoken_ordinal(number)} goes in {where}{base}"
    return f"{sentence}.{behind}"


def _later_beat(program: Program, place: Place, breath: Breath) -> str:
    """ "Second." … "Last one. Then eight double crochet to the end." """
    if place[5] < len(breath.beats) - 1:
        return f"{capital(spoken_ordinal(place[5] + 1))}."
    worked = program.fabric.row(place[2]).worked
    if place[4] == len(program.breaths(place[2])) - 1:
        where = landing(worked)
        word = "round" if program.fabric.row(place[2]).kind == "round" else "row"
        if where:
            base = ", counted from the base" if worked.landing[:1].isdigit() else ""
            return f"Last one, to the end of the {word}; its stitch goes in {where}{base}."
        return f"Last one, to the end of the {word}."
    return f"Last one. Then {brief(program, (*place[:4], place[4] + 1, 0, 0))}."


def _around(program: Program, place: Place) -> str:
    """ "Three times: ", "Second time: " where a pass of a long repeat begins."""
    breaths = program.breaths(place[2])
    mine = breaths[place[4]].path
    before = breaths[place[4] - 1].path if place[4] else ()
    for depth, (_, turn, times) in enumerate(mine):
        if before[depth : depth + 1] != mine[depth : depth + 1]:
            if times == 1:
                return ""
            if turn == 0:
                return f"{capital(spoken_number(times))} times over. "
            return "Last time. " if turn == times - 1 else f"{capital(spoken_ordinal(turn + 1))} time. "
    return ""


def _single(program: Program, place: Place, breath: Breath) -> str:
    """One stitch of a group."""
    worked = program.fabric.row(place[2]).worked
    beat = breath.beats[place[5]]
    telling = telling_at(program, place[2])
    single, many = place[6] + 1, beat.singles
    if breath.sort is Sort.RUN:
        if single == 1:
            return _full(program, place, breath)
        if single == many:
            where = landing(worked) if place[4] == len(program.breaths(place[2])) - 1 else ""
            return f"Last one, {spoken_number(many)}{f'; it goes in {where}' if where else ''}."
        return f"{capital(spoken_number(single))}."
    for step in beat.steps:
        at = beat.made_from + place[6]
        if step.made_from <= at < step.made_to:
            number = at - step.made_from
            if number and step.made_to - step.made_from > SMALL:
                return f"{capital(spoken_number(number + 1))}."
            if number:
                return f"{capital(spoken_ordinal(number + 1))}."
            part = tuple(s for s in beat.steps if s.made_to == s.made_from and s.after <= step.at and s.made_from == step.made_from)
            return capital(doing(replace(beat, steps=(*part, step)), worked, telling)) + "."
    return _full(program, place, breath)


def brief(program: Program, place: Place) -> str:
    """A group in few words, as what comes after another: "eight double crochet to the end"; "" where there is none."""
    if program.placed(place) is None or program.is_count(place):
        return ""
    breath = program.breath(place)
    assert breath is not None
    worked = program.fabric.row(place[2]).worked
    telling = telling_at(program, place[2])
    to_end = " to the end" if place[4] == len(program.breaths(place[2])) - 1 else ""
    if breath.sort is Sort.WORDS:
        return program.source.words(breath.span)
    label = _label(program, place[2], breath)
    if label and breath.sort is not Sort.RUN:
        times = len(breath.beats)
        few = {"Window": "windows", "Block": "blocks"}.get(label)
        if times > 1 and few:
            return f"{spoken_number(times)} {few}{to_end}"
        return (f"a {label.lower()}" if few else label.lower()) + to_end
    if breath.sort is Sort.TURNING:
        return turning_words(next((s for s in breath.first.steps if isinstance(s.item, Chain)), breath.first.steps[0]), worked, telling)
    made = [element for element in worked.elements[breath.first.made_from : breath.first.made_to] if element.kind != HIDDEN]
    if breath.sort is Sort.RUN and len(made) > 1:
        return f"{spoken_number(len(made))} {telling.stitch(made[0].kind, len(made))}{to_end}"
    words = doing(breath.first, worked, telling).partition(". ")[0]
    if " last " in words:
        to_end = ""
    return words + (f", {spoken_number(len(breath.beats))} times" if len(breath.beats) > 1 else "") + to_end


def _label(program: Program, row: int, breath: Breath) -> str:
    """ "Window", "Block", "Window and two blocks": the squares of one beat; "" where it is no whole squares."""
    squares = program.squares(row)
    if not squares or program.mesh is None or breath.sort is Sort.TURNING:
        return ""
    elements = program.fabric.row(row).worked.elements
    start = squares_done(elements[: breath.first.made_from], program.mesh)
    end = squares_done(elements[: breath.first.made_to], program.mesh)
    if any(element.turning for element in elements[breath.first.made_from : breath.first.made_to]):
        return ""
    runs: list[tuple[bool, int]] = []
    for window in squares[start:end]:
        runs[-1:] = [(window, runs[-1][1] + 1)] if runs and runs[-1][0] == window else [*runs[-1:], (window, 1)]
    if not runs or len(runs) > 2:
        return ""
    words = [
        ("window" if window else "block") if number == 1 else f"{spoken_number(number)} {'windows' if window else 'blocks'}"
        for window, number in runs
    ]
    return capital(" and ".join(words))


# -- between rows


def _aside(program: Program, place: Place, stride: Stride) -> str:
    aside = program.aside(place)
    assert aside is not None
    name = part_name(program, place)
    first = f"{now_the_part(program, place)} " if name and program.begins(place) else ""
    chains = chains_of(aside)
    if isinstance(aside, Setup) and chains:
        if stride is Stride.STITCH and place[6]:
            done = place[6] + 1
            return f"{capital(spoken_number(done))}." if done % TALLY == 0 or done == chains else ""
        words = f"Chain {spoken_number(chains)}."
        if chains < LONG_CHAIN or len([i for i in aside.items if not isinstance(i, Chain)]) > 0:
            words = f"{capital(program.source.words(aside.span).rstrip('.'))}."
            if chains >= LONG_CHAIN:
                words += " Your hook loop isn't one."
            return first + words
        tally = " Tap each; I call the tens." if stride is Stride.STITCH else ""
        return f"{first}{words}{tally} Your hook loop isn't one."
    words = program.source.words(aside.span) if isinstance(aside, Setup) else " ".join(aside.text.split())
    return f"{first}{capital(words.rstrip('.'))}."


# -- where am I


def place_line(program: Program, place: Place) -> str:
    """Row, repeat and group in one line, to be read by eye or by another program."""
    name = part_name(program, place)
    front = f"{name}; " if name else ""
    if place == program.end:
        return "finished"
    if place[3]:
        aside = program.aside(place)
        assert aside is not None
        single = f", {place[6] + 1} of {program.singles(place)}" if place[6] else ""
        before = f"before {program.fabric.row(place[2]).label}" if place[2] <= program.parts[place[0]].last else "after the last row"
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
    return f"{front}{words}: {program.source.words(breath.beats[place[5]].span)}" + (f" · {done}" if done else "")


def progress(program: Program, place: Place) -> str:
    """ "5 of 16 squares", "9 of 27 stitches"; "" where the row is not counted."""
    done, due, unit = counts(program, place)
    return f"{done} of {due} {unit}" if due else ""


def counts(program: Program, place: Place) -> tuple[int, int, str]:
    """Done, due, and "squares" or "stitches"; (0, 0, "") where the row is not counted."""
    placed = program.placed(place)
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
        return _aside(program, place, Stride.GROUP)
    placed = program.fabric.row(place[2])
    copy = copy_at(program, place[2])
    word = "round" if placed.kind == "round" else "row"
    name = part_name(program, place)
    sentences = [f"{name}."] if name else []
    which = f", which is {word} {spoken_number(copy.of)}" if copy is not None else ""
    side = {"RS": ", right side", "WS": ", wrong side"}.get(placed.worked.side or "", "")
    sentences.append(f"{capital(row_name(placed))}{which}{side}.")
    if program.is_count(place):
        sentences.append(at_the_end(program, place))
        return " ".join(sentences)
    breath = program.breath(place)
    assert breath is not None
    for _, turn, times in breath.path[:1]:
        sentences.append(f"Repeat {spoken_number(turn + 1)} of {spoken_number(times)}.")
    if len(breath.beats) > 1:
        label = _label(program, place[2], breath).lower() or "time"
        sentences.append(f"{capital(spoken_ordinal(place[5] + 1))} {label} of {spoken_number(len(breath.beats))}.")
    sentences.append(_full(program, place, breath) if len(breath.beats) == 1 else capital(doing(breath.first, placed.worked, telling_at(program, place[2]))) + ".")
    if counts(program, place)[0]:
        sentences.append(done_said(program, place))
    return " ".join(sentences)


def done_said(program: Program, place: Place) -> str:
    """ "Five of sixteen squares." """
    done, due, unit = counts(program, place)
    if not due:
        return ""
    if done == 0:
        return f"None of the {squares_said(due) if unit == 'squares' else f'{spoken_number(due)} stitches'} yet."
    if done == due:
        return f"All {squares_said(due) if unit == 'squares' else f'{spoken_number(due)} stitches'}."
    return f"{capital(spoken_number(done))} of {squares_said(due) if unit == 'squares' else f'{spoken_number(due)} stitches'}."


def left_said(program: Program, place: Place) -> str:
    """ "Eleven squares to go." """
    done, due, unit = counts(program, place)
    left = due - done
    if not due:
        return "This row is not counted." if program.placed(place) is not None else "No row is in hand."
    word = unit[:-1] if left == 1 and unit == "squares" else "stitch" if left == 1 else unit
    return f"{capital(spoken_number(left))} {word} to go." if left else "None: the row is full."
