"""One group in words: in full the first time, then "second", "last one"; the landing inside its own group."""

import re

from tracker.fabric.model import HIDDEN, Element, WorkedRow
from tracker.notation.tree import Chain, Edge, Group, Join, Say, Which, Work
from tracker.program.cues import changed_to, changes_later, is_last_of_range, stays, turn_before
from tracker.program.places import Place, Program
from tracker.program.row.groups import Breath, Sort, skips_own
from tracker.program.row.squares import squares_done
from tracker.records import replace
from tracker.session.wording.made.becoming import becomes
from tracker.session.wording.made.beside import rotated, told_ahead, told_by_chain
from tracker.session.wording.made.chains import landed, landing, lands, turning_words
from tracker.session.wording.made.edges import along, is_first_corner, row_end
from tracker.session.wording.made.into import loop_said
from tracker.session.wording.made.squares import squares_label, squares_named
from tracker.session.wording.made.telling import Telling, capital
from tracker.session.wording.stitches import before_the_chain, doing, in_colour, on_piece
from tracker.trade.numbers import spoken_number, spoken_ordinal, spoken_times

SMALL = 4
"""So many stitches of one phrase are told as "second", "third"; more of them are counted."""


def telling_at(program: Program, row: int) -> Telling:
    """What sentences about a row need to know."""
    mesh = program.mesh if program.squares(row) is not None else None
    return Telling(program, mesh)


_YARN_STAYS = re.compile(r" (?:Do not|Don't) (?:fasten|finish|cut|break|end)\b[^.]*\.| Rotate\b[^.]*\.")
"""A remark that holds for the last of several rows printed together."""
_STAYS = re.compile(r" Do(?: not|n't) turn\.")
"""What is told with the count."""
_CHANGE = re.compile(r" Chang(?:e|ing)\b[^.]*\.")
"""A copied row's own change of colour, where its range tells of another."""


def in_full(program: Program, place: Place, breath: Breath) -> str:
    """A group in full, with how often and, at the row's end, where its last stitch goes."""
    row = place[2]
    words = _in_full(program, place, breath)
    if not is_last_of_range(program, row):
        words = _YARN_STAYS.sub("", words)
    if stays(program, row):
        words = _STAYS.sub("", words)
    if changes_later(program, row):
        words = _CHANGE.sub("", f" {words}").strip() or "The colour stays."
    change = changing(program, place) if len(breath.beats) == 1 else ""
    return f"{_CHANGE.sub('', words)}{change}" if change else words


def changing(program: Program, place: Place) -> str:
    """ " Changing to B in the last stitch of row four.": what a range tells of its end; "" elsewhere."""
    if place[4] < len(program.breaths(place[2])) - 1:
        return ""
    telling = telling_at(program, place[2])
    changes = changed_to(program, place[2])
    return "".join(f" {capital(telling.read(words)).rstrip('.')}." for words in changes)


def _in_full(program: Program, place: Place, breath: Breath) -> str:
    telling = telling_at(program, place[2])
    worked = program.fabric.row(place[2]).worked
    ahead, breath = told_ahead(breath, worked, telling)
    return ahead + _doings(program, place, breath, worked, telling)


def _doings(program: Program, place: Place, breath: Breath, worked: WorkedRow, telling: Telling) -> str:
    last = place[4] == len(program.breaths(place[2])) - 1
    times = len(breath.beats)
    if breath.sort is Sort.WORDS:
        return capital(_as_written(program, place, breath)) + "."
    if breath.sort is Sort.TURNING:
        return _turning(program, place, breath, telling)
    if breath.sort is Sort.ENDS:
        words = f"{rotated(breath.first, telling)}{along(program, place)}"
        return words if place[5] else f"{words} {row_end(program, (*place[:5], 0, 0))}"
    if breath.sort is Sort.RUN and times == 1:
        return _run(program, place, breath, telling, last)
    words = doing(breath.first, worked, telling)
    label = squares_label(program, place[2], breath)
    sentence = f"{label}: {words}" if label else capital(words)
    if times > 1 and len(label.split()) > 1:  # "two windows: …" are no two of these
        return f"{sentence}. {capital(spoken_times(times))}."
    if times > 1:
        return f"{sentence}. {capital(spoken_number(times))} of these{becomes(program, place)}."
    if is_first_corner(worked, breath) and len(breath.beats[0].steps) == 1 and words.startswith(_CORNER[0]):
        sentence += ". Mark the middle one"
    if last and breath.sort is not Sort.JOIN and not _is_spread(breath):
        sentence = landed(sentence, lands(worked.landing, landing(worked), words))
    item = breath.first.steps[0].item
    alike = len(breath.first.steps) == 1 and isinstance(item, Work) and item.count > 1 and not item.excepting
    return f"{sentence}{becomes(program, place) if alike else ''}."


def _as_written(program: Program, place: Place, breath: Breath) -> str:
    """Words of a row that is not understood, as they are read aloud; which of them nobody knows is said."""
    words = telling_at(program, place[2]).words(breath.span)
    if len(program.breaths(place[2])) > 1 and any(
        not one.why and one.span.start < breath.span.end and breath.span.start < one.span.end
        for one in program.fabric.row(place[2]).worked.unread
    ):
        return f"as it is written: {words}"
    return words


def _is_spread(breath: Breath) -> bool:
    """True for stitches along an edge or spread evenly: which of them is the last is the maker's to see."""
    item = breath.first.steps[-1].item
    return isinstance(item, Work) and item.where.which in (Which.EVENLY, Which.ROW_END)


def _turning(program: Program, place: Place, breath: Breath, telling: Telling) -> str:
    worked = program.fabric.row(place[2]).worked
    at = next((k for k, step in enumerate(breath.first.steps) if isinstance(step.item, Chain)), 0)
    before = before_the_chain(breath.first.steps[:at], worked, telling)
    words = turning_words(breath.first.steps[at], worked, telling)
    if turn_before(program, place[2]) == "after chain":
        words = _turned(words, ", then turn")
    sentence = ". ".join([*map(capital, before), capital(words)]) + "."
    rest_of = breath.first.steps[at + 1 :]
    told_to_skip = any(map(skips_own, rest_of))
    rest_of = tuple(
        step for step in rest_of if not skips_own(step) and not told_by_chain(step, words, telling)
    )
    if rest_of:
        sentence += " " + capital(doing(replace(breath.first, steps=rest_of), worked, telling)) + "."
    elif _stands_alone(program, place) and (place[2] <= program.parts[place[0]].first + 2 or told_to_skip):
        sentence += f" {'Miss' if telling.uk else 'Skip'} the stitch it stands on."
    return sentence


def _turned(words: str, turn: str) -> str:
    """A turning chain with the turn behind it, before what it stands for."""
    chain, mark, rest = words.partition(":") if ":" in words else words.partition(";")
    return f"{chain}{turn}{mark}{rest}"


def _stands_alone(program: Program, place: Place) -> bool:
    """True when the turning chain counts and nothing else goes into the stitch below it."""
    worked = program.fabric.row(place[2]).worked
    made = [element for element in worked.elements if element.kind != HIDDEN]
    return (
        len(made) > 1
        and made[0].turning
        and bool(made[0].into)
        and bool(made[1].into)
        and made[1].into[0] != made[0].into[0]
    )


def _run(program: Program, place: Place, breath: Breath, telling: Telling, last: bool) -> str:
    worked = program.fabric.row(place[2]).worked
    made = [
        element
        for element in worked.elements[breath.first.made_from : breath.first.made_to]
        if element.kind != HIDDEN
    ]
    number = len(made)
    if number == 1 or len(breath.first.steps) > 1 and any(element.kind != made[0].kind for element in made):
        words = capital(doing(breath.first, worked, telling))
        return landed(words, lands(worked.landing, landing(worked), words) if last else "") + "."
    item = breath.first.steps[0].item
    loop = loop_said(item.where.loop, number) if isinstance(item, Work) else ""
    stitch = telling.stitch(made[0].kind)
    remarks = doing(breath.first, worked, telling).split(". ")[1:]
    behind = "".join(f" {remark}." for remark in remarks)
    where = landing(worked) if last else ""
    whole = number == sum(1 for element in worked.elements if element.kind != HIDDEN and not element.turning)
    front = in_colour(item)
    loop += on_piece(breath.first, telling)
    together = made[0].kind.endswith("tog")
    if together and whole and not where:
        changed = becomes(program, place)
        return f"{capital(f'{front}{stitch}')}{loop}, {spoken_times(number)}{changed}.{behind}"
    if whole and not worked.below:
        # nothing to work into each of: a ring, or a foundation made with its stitches
        ring = any(isinstance(one, Join) and one.stitch == "magic" for one in worked.row.items)
        return (
            f"{capital(f'{front}{_so_many(made, telling)}')}{' in the ring' if ring else ''}{loop}.{behind}"
        )
    if whole and not where and made[0].kind != "tile":
        each = f"{loop.removesuffix('s')} of each" if loop.endswith(" loops") else f" in each{loop}"
        return f"{capital(f'{front}{stitch}')}{each}: {spoken_number(number)}.{behind}"
    label = squares_label(program, place[2], breath)
    finish = " to finish" if last else ""
    sentence = f"{_so_many(made, telling)}{loop}{',' if finish and together else ''}{finish}"
    sentence = capital(f"{front}{sentence}")
    if label and not last:
        sentence = f"{label}: {sentence[:1].lower()}{sentence[1:]}"
    if where:
        base = ", counted from the base" if worked.landing[:1].isdigit() else ""
        sentence += f"; the {spoken_ordinal(number)} goes in {where}{base}"
    return f"{sentence}.{behind}"


def _so_many(made: list[Element], telling: Telling) -> str:
    """ "eight double crochet"; "two double crochet together, twice" where the name begins with a number itself."""
    kind, number = made[0].kind, len(made)
    if kind.endswith("tog"):
        return f"{telling.stitch(kind)}, {spoken_times(number)}"
    return f"{spoken_number(number)} {telling.stitch(kind, number)}"


def later_beat(program: Program, place: Place, breath: Breath) -> str:
    """ "Second." … "Last one. Then eight double crochet to the end." """
    if breath.sort is Sort.ENDS:
        word = program.fabric.row(place[2]).kind
        last = f" Then {coming(program, (*place[:4], place[4] + 1, 0, 0)) or f'the {word} is done'}."
        return row_end(program, place) + (last if place[5] == len(breath.beats) - 1 else "")
    if place[5] < len(breath.beats) - 1:
        return f"{capital(spoken_ordinal(place[5] + 1))}."
    worked = program.fabric.row(place[2]).worked
    ahead = program.breaths(place[2])[place[4] + 1 :]
    if all(
        isinstance(step.item, Say) and step.item.kind == "remark" for one in ahead for step in one.first.steps
    ):
        where = landing(worked)
        word = "round" if program.fabric.row(place[2]).kind == "round" else "row"
        if where:
            base = ", counted from the base" if worked.landing[:1].isdigit() else ""
            return f"Last one, to the end of the {word}; its stitch goes in {where}{base}.{changing(program, place)}"
        return f"Last one, to the end of the {word}.{changing(program, place)}"
    return f"Last one. Then {coming(program, (*place[:4], place[4] + 1, 0, 0))}."


def around(program: Program, place: Place) -> str:
    """ "Three times: ", "Second time: " where a pass of a long repeat begins."""
    breaths = program.breaths(place[2])
    mine = breaths[place[4]].path
    before = breaths[place[4] - 1].path if place[4] else ()
    for depth, (_, turn, times) in enumerate(mine):
        if before[depth : depth + 1] != mine[depth : depth + 1]:
            if times == 1:
                return ""
            if turn == 0:
                return f"{capital(spoken_times(times))} over. "
            return "Last time. " if turn == times - 1 else f"{capital(spoken_ordinal(turn + 1))} time. "
    return ""


def single_stitch(program: Program, place: Place, breath: Breath) -> str:
    """One stitch of a group."""
    worked = program.fabric.row(place[2]).worked
    beat = breath.beats[place[5]]
    telling = telling_at(program, place[2])
    single, many = place[6] + 1, beat.singles
    if breath.sort is Sort.ENDS:
        if place[6]:
            return f"{capital(spoken_ordinal(single))}."
        return later_beat(program, place, breath) if place[5] else in_full(program, place, breath)
    if breath.sort is Sort.RUN:
        if single == 1:
            return in_full(program, place, breath)
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
            part = tuple(
                s
                for s in beat.steps
                if s.made_to == s.made_from and s.after <= step.at and s.made_from == step.made_from
            )
            return capital(doing(replace(beat, steps=(*part, step)), worked, telling)) + "."
    return in_full(program, place, breath)


def coming(program: Program, place: Place) -> str:
    """A group as what comes after another, told in full once it is there: "join", "into the chain-two space"."""
    words = brief(program, place, ahead=True)
    if len(words) <= AHEAD:
        return words
    ends = [hit.start() for hit in _PHRASE_ENDS.finditer(words)]
    return words[: max((end for end in ends if end <= AHEAD), default=ends[0] if ends else len(words))]


AHEAD = 72
"""Letters of what comes next that a hand in the middle of a group can listen to."""
_PHRASE_ENDS = re.compile(r"[,;] ")


def brief(program: Program, place: Place, *, ahead: bool = False) -> str:
    """A group in few words: "eight double crochet to the end"; "" where there is none.

    `ahead`: as what comes after another, where what goes into one place and where it lands may wait.
    """
    if program.placed(place) is None or program.is_count(place):
        return ""
    breath = program.breath(place)
    assert breath is not None
    worked = program.fabric.row(place[2]).worked
    telling = telling_at(program, place[2])
    to_end = " to the end" if place[4] == len(program.breaths(place[2])) - 1 else ""
    if breath.sort is Sort.WORDS:
        return _as_written(program, place, breath)
    if (edge := program.edge(place)) is not None:
        return f"{spoken_number(edge.stitches)} along {spoken_number(len(edge.ends))} row ends"
    label = squares_label(program, place[2], breath)
    if label and breath.sort is not Sort.RUN:
        times = len(breath.beats)
        few = {"Window": "windows", "Block": "blocks"}.get(label)
        if times > 1 and few:
            return f"{spoken_number(times)} {few}{to_end}"
        return (f"a {label.lower()}" if few else label.lower()) + to_end
    if breath.sort is Sort.TURNING:
        return _turning_in_brief(program, place, breath, telling)
    made = [
        element
        for element in worked.elements[breath.first.made_from : breath.first.made_to]
        if element.kind != HIDDEN
    ]
    if breath.sort is Sort.RUN and len(made) > 1:
        item = breath.first.steps[0].item
        loop = loop_said(item.where.loop, len(made)) if isinstance(item, Work) else ""
        if to_end and made[0].kind.endswith("tog"):
            to_end = ", to the end"
        return f"{in_colour(item)}{_so_many(made, telling)}{loop}{on_piece(breath.first, telling)}{to_end}"
    times = len(breath.beats)
    number = f", {spoken_times(times)}" if times > 1 else ""
    if ahead and breath.sort is Sort.JOIN and isinstance(breath.first.steps[-1].item, Join):
        return "join"
    steps = tuple(step for step in breath.first.steps if not isinstance(step.item, Edge))
    words = doing(replace(breath.first, steps=steps or breath.first.steps), worked, telling)
    words = _STANDS_FOR.sub(lambda hit: ", then " if hit[1] else "", words).partition(". ")[0]
    if changes_later(program, place[2]) and _CHANGE.match(f" {words}."):
        words = "the colour stays"
    if ahead and words.startswith(_CORNER):
        words = "a corner"
    elif ahead and any(isinstance(step.item, Group) for step in steps):
        words = _INTO.sub(_into_one, words.partition(": ")[0])
    elif ahead and to_end and (lands := _LANDS.search(words)):
        words = words[: lands.start()]
        words = f"one {words}" if len(made) == 1 and len(steps) == 1 else words
        to_end = " to finish"
    if _PLACE.search(words) and not number or _TELLS_END.search(words) or not made:
        to_end = ""
    elif to_end and number:
        to_end = ", to the end"
    elif to_end and (len(made) == 1 or breath.sort is Sort.PIECES):
        to_end = " to finish"  # "one double crochet to the end" would be one in each
    if number and _SEVERAL.search(words):
        number = f", {spoken_number(times)} of these"  # "chain two, three times" would be the chain alone
    return (words if not words[1:2].isalpha() else words[:1].lower() + words[1:]) + number + to_end


_TELLS_END = re.compile(" in each| last |unworked")
"""Words that tell by themselves how far they go."""
_SEVERAL = re.compile("[,;]")
"""Where words tell more than one thing."""
_CORNER = ("corner: ", "corner, ")
"""How the words of a corner begin."""
_STANDS_FOR = re.compile(r"; the [a-z-]+ skipped are [^.,;]+(\. Then |$)?")
_PLACE = re.compile(r"\bin(?:to)? ")
"""Words that tell a place of their own."""
_INTO = re.compile(r"\bin (the |one |each |a )(?!.*\bin )")
_LANDS = re.compile(r" in the (?:top of|last|\w+ chain of) .*$")


def _into_one(hit: re.Match[str]) -> str:
    """ "a group in one stitch", "into the space": where several go into one place, in few words."""
    return f"a group in {hit[1]}" if hit[1] == "one " else f"into {hit[1]}"


def _turning_in_brief(program: Program, place: Place, breath: Breath, telling: Telling) -> str:
    """ "chain one", "chain five: a double crochet and its window; then two blocks": the chain and what goes with it."""
    worked = program.fabric.row(place[2]).worked
    steps = breath.first.steps
    at = next((k for k, step in enumerate(steps) if isinstance(step.item, Chain)), 0)
    before = before_the_chain(steps[:at], worked, telling)
    words = turning_words(steps[at], worked, telling)
    item = steps[at].item
    if isinstance(item, Chain) and item.count == 1:
        words = words.partition(";")[0]  # one chain is taken for a stitch by nobody who was told once
    if turn_before(program, place[2]) == "after chain":
        words = _turned(words, ", turn")
    rest = tuple(step for step in steps[at + 1 :] if not skips_own(step))
    squares = program.squares(place[2])
    if squares and program.mesh is not None:
        done = squares_done(worked.elements[: breath.first.made_to], program.mesh)
        first = squares_done(worked.elements[: steps[at].made_to + 1], program.mesh)
        if named := squares_named(squares[first:done]):
            words += f"; then {f'a {named}' if named.startswith(('window', 'block')) else named}"
    elif rest:
        words += f". {capital(doing(replace(breath.first, steps=rest), worked, telling))}"
    return ". ".join([*before[:1], *map(capital, before[1:]), (capital if before else str)(words)])
