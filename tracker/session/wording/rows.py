"""What is said of a whole row: its name, how it opens, what is due at its end."""

import re

from tracker.fabric.model import HIDDEN, Element, Placed
from tracker.notation.pattern import Aside
from tracker.notation.tree import Chain, Edge, Join, Mark, Say, Turn, Turning
from tracker.problems import Severity, Span
from tracker.problems.render import spoken
from tracker.program.cues import (
    Copy,
    breaks_the_run,
    colours,
    copy_at,
    endings,
    stays,
    turn_before,
)
from tracker.program.joining import slipped
from tracker.program.open_rows import going_on
from tracker.program.parts import Part
from tracker.program.places import Place, Program
from tracker.program.row.groups import begins_in_loop
from tracker.session.wording.made.becoming import alike_said
from tracker.session.wording.made.chains import chain_untold
from tracker.session.wording.made.own_words.cautions import before_closing, for_a_baby
from tracker.session.wording.made.own_words.reading import read_out
from tracker.session.wording.made.telling import Telling, capital
from tracker.session.wording.made.telling import row_name as row_name
from tracker.session.wording.stitches import is_of_the_ring
from tracker.trade.numbers import spoken_number, spoken_ordinal
from tracker.trade.said.headings import begun, beside, called, instructs, one_of
from tracker.trade.said.headings import named as named_so
from tracker.trade.said.talk import is_talk


def part_name(program: Program, place: Place) -> str:
    """The part and copy in hand: "Body", "Square fourteen of thirty"; "" in a piece that is one and whole."""
    part = program.part(place)
    if part is None or len(program.parts) == 1 and part.copies == 1:
        return ""
    heading = part.name or ""
    if part.copies == 1:
        return capital(named_so(heading))
    name, comma, more = (one_of(heading) or program.noun or "piece").partition(",")
    return capital(f"{name} {spoken_number(place[1])} of {spoken_number(part.copies)}{comma}{more}")


def now_the_part(program: Program, place: Place) -> str:
    """ "Now the body.", "Now shape the neck.", "Now sleeve one of two."; "" in a piece that is one and whole."""
    name = part_name(program, place)
    if not name:
        return ""
    part = program.parts[place[0]]
    if part.copies == 1:
        return begun(part.name or "")
    more = beside(part.name or "", program.source.text)
    return f"Now {name[:1].lower()}{name[1:]}{f', {more}' if more else ''}."


def opening(program: Program, place: Place) -> str:
    """What is said as a row begins: its name, what it repeats, what is not like the row before."""
    row = place[2]
    placed = program.fabric.row(row)
    copy = copy_at(program, row)
    goes_on = going_on(program, row)
    if copy is not None:
        sentences = _copy_said(placed, copy)
    elif goes_on is not None and placed.number is None:
        # the only number there is: the row was worked once before them
        time = spoken_ordinal(row - goes_on.first + 2)
        sentences = [f"{capital(row_name(placed))}, {time} time{_side(program, place)}."]
    else:
        sentences = [f"{capital(row_name(placed))}{_side(program, place)}."]
    if copy is None and (alike := alike_said(program, row)):
        sentences.append(alike)
    if copy is None and (chain := chain_untold(program, row)):
        sentences.append(chain)
    if goes_on is not None and row == goes_on.first:
        sentences.insert(0, f"{capital(read_out(program, goes_on.words)).rstrip('.')}.")
    if program.begins(place):
        sentences.insert(0, now_the_part(program, place))
    match breaks_the_run(program, row):
        case "open":
            sentences.append("Careful: not like the last row. It starts open.")
        case "closed":
            sentences.append("Careful: not like the last row. It starts with a block.")
        case "new" if going_on(program, row - 1) is None:
            sentences.append("Careful: the repeat is over.")
        case _:
            pass
    sentences.append(before_closing(program, row))
    for fewer, more in slipped(placed.worked) if placed.kind == "round" else ():
        sentences.append(
            f"Careful: opposite edges have {spoken_number(fewer)} and {spoken_number(more)} between the corners. "
            f"If they should agree, add {spoken_number(more - fewer)} on the shorter, before its corner."
        )
    for words in colours(program, row):
        named = words.strip(" :")
        with_it = f"with {named}" if len(named) < 3 or _A_YARN.match(named) else words
        sentences.append(f"{capital(read_out(program, with_it)).rstrip('.,:')}.")
    loop = begins_in_loop(placed.worked)
    if loop is not None:
        sentences.append(f"{capital(read_out(program, program.source.words(loop.item.span))).rstrip('.,')}.")
    if program.is_followed(row) and (begun := _begun_with(program, placed)):
        sentences.append(begun)
    if not program.is_followed(row):
        sentences.append(_wrong_with(program, row))
        doubtful = any(not one.why for one in placed.worked.unread)
        known = "Not all of its words are understood; here they are" if doubtful else "Its words"
        sentences.append(f"{known}, one phrase at a time.")
    elif not placed.worked.understood:
        sentences.append("Careful: its words and its count do not agree.")
    return " ".join(sentence for sentence in sentences if sentence)


_A_YARN = re.compile(r"(?:colou?r|yarn|shade) \w{1,12}$|(?:main|contrast(?:ing)?) colou?r$", re.IGNORECASE)
"""A colour by its name alone."""


def _copy_said(placed: Placed, copy: Copy) -> list[str]:
    """ "Row eight is row two. Two to seven, second time."; one row worked over and over is told by its name alone."""
    word = "round" if placed.kind == "round" else "row"
    last = copy.time == copy.times and (copy.times or 0) > 2
    name = f"{capital(row_name(placed))} is {word} {spoken_number(copy.of)}"
    if placed.number is None:  # it goes on until something is so, and nobody knows how many there are by then
        name = f"{capital(word)} {spoken_number(copy.of)} again"
    if len(copy.rows) < 2:
        return [f"{name}{', last time' if last else ''}."]
    to = "and" if len(copy.rows) == 2 and copy.rows[1] == copy.rows[0] + 1 else "to"
    time = "last" if last else spoken_ordinal(copy.time)
    span = f"{capital(spoken_number(copy.rows[0]))} {to} {spoken_number(copy.rows[-1])}"
    return [f"{name}.", f"{span}{f', {time} time' if copy.time > 1 else ''}."]


def _wrong_with(program: Program, row: int) -> str:
    """ "Careful: it leaves four stitches of the row below unworked.": why it is told word for word; mostly ""."""
    found = (each for each in program.problems if each.index == row and each.severity is Severity.ERROR)
    problem = next(found, None)
    if problem is None:
        return ""
    words = spoken(problem).partition(". ")[0].rstrip(".")
    label = problem.row or ""
    if label and words.startswith(f"{label}: "):
        words = words.removeprefix(f"{label}: ")
    elif label and words.startswith(f"{label} ") and len(program.fabric.row(row).worked.row.numbers) < 2:
        words = f"it {words.removeprefix(f'{label} ')}"
    words = read_out(program, words)
    return f"Careful: {words[:1].lower()}{words[1:]}."


def _begun_with(program: Program, placed: Placed) -> str:
    """What the row's own words have made before its first stitch: "Chain four, join to form a ring."; mostly ""."""
    steps = placed.worked.steps
    first = min((step.item.span.start for step in steps if not isinstance(step.item, Say)), default=0)
    items = placed.worked.row.items
    made = [
        one for one in items if not isinstance(one, Say | Turning | Turn | Mark) and one.span.end <= first
    ]
    if not made or not isinstance(made[0], Chain | Join):
        return ""
    if isinstance(made[0], Join) and made[0].stitch == "magic":
        return "Make a magic ring."
    telling = Telling(program, None)
    ring = next((one for one in items if is_of_the_ring(one, telling)), None)
    end = (
        ring.span.end
        if ring is not None and 0 <= ring.span.start - made[-1].span.end < 2
        else made[-1].span.end
    )
    words = program.source.words(Span(made[0].span.start, end))
    return f"{capital(read_out(program, words))}."


def _side(program: Program, place: Place) -> str:
    """ ", right side"; "" where the same side goes on facing and the yarn was not cut: no hand asks for it there."""
    row = place[2]
    placed = program.fabric.row(row)
    side = {"RS": ", right side", "WS": ", wrong side"}.get(placed.worked.side or "", "")
    if side and any(isinstance(item, Say) and item.kind == "side" for item in placed.worked.row.items):
        return f"{side} facing"
    if row == program.parts[place[0]].first or program.fabric.row(row - 1).worked.side != placed.worked.side:
        return side
    return side if any(words.lower().startswith(_CUT) for words in endings(program, row - 1)) else ""


_CUT = ("fasten", "cut", "break", "finish off", "end off")
"""How what is done behind a row begins, after which the work is taken up anew."""


def count_due(program: Program, place: Place) -> str:
    """What stands on the row when it is done: "sixteen squares, eight open", "thirty-six single crochet"."""
    placed = program.fabric.row(place[2])
    telling = Telling(program, program.mesh)
    if not placed.worked.understood:
        stated = placed.worked.row.stated
        said = "; ".join(telling.words(one.span).strip(" .,;:–—-") for one in stated)
        return f"the pattern says {said}" if said else ""
    squares = program.squares(place[2])
    if squares:
        open_ones = squares.count(True)
        some = (
            f"{spoken_number(open_ones)} open"
            if 0 < open_ones < len(squares)
            else "all open"
            if open_ones
            else "none open"
        )
        return f"{squares_said(len(squares))}, {some}"
    return kinds_said(named(placed.worked.elements), placed.worked.stitches, telling)


def named(elements: tuple[Element, ...]) -> dict[str, int]:
    """Counts by the name the pattern has for a stitch: its clusters are clusters, whatever they are made of."""
    out: dict[str, int] = {}
    for element in elements:
        if element.kind != HIDDEN:
            name = element.special if element.special and element.kind.endswith("tog") else element.name
            out[name] = out.get(name, 0) + 1
    return out


def squares_said(number: int) -> str:
    return f"{spoken_number(number)} square{'' if number == 1 else 's'}"


def kinds_said(makes: dict[str, int], stitches: int, telling: Telling) -> str:
    """Counts by kind as they are said; the whole first when there are several kinds of stitches."""
    kinds: list[str] = []
    spaces: list[str] = []
    decreases = together = sum(number for name, number in makes.items() if name.endswith("tog"))
    for name, number in makes.items():
        if name == "picot":
            spaces.append(f"{spoken_number(number)} {telling.stitch(name, number)}")
        elif name.startswith("ch-") and name.endswith(" sp"):
            spaces.append(
                f"{spoken_number(number)} chain-{spoken_number(int(name[3:-3]))} space{'' if number == 1 else 's'}"
            )
        elif name.endswith("tog"):
            if together:
                kinds.append(f"{spoken_number(together)} decrease{'' if together == 1 else 's'}")
            together = 0
        else:
            kinds.append(f"{spoken_number(number)} {telling.stitch(name, number)}")
    if decreases and len(kinds) == 1:  # nothing else to tell them from
        kinds = [f"{spoken_number(decreases)} stitch{'' if decreases == 1 else 'es'}"]
    if len(kinds) > 1:
        behind = f"; {', '.join(spaces)}" if spaces else ""
        return f"{spoken_number(stitches)} stitches: {', '.join(kinds)}{behind}"
    return ", ".join(kinds + spaces)


def at_the_end(program: Program, place: Place) -> str:
    """The sentence at a row's end: the count before the turn."""
    placed = program.fabric.row(place[2])
    due = count_due(program, place)
    name = capital(row_name(placed))
    go_on = _go_on(program, place)
    if not placed.worked.understood and program.is_followed(place[2]):
        telling = Telling(program, program.mesh)
        made = kinds_said(named(placed.worked.elements), placed.worked.stitches, telling)
        return f"{name}: its words make {made}; {due}. {go_on}"
    if not placed.worked.understood:
        return (
            f"{name} is done as written. {capital(due)}. {go_on}"
            if due
            else f"{name} is done as written; its count is not known."
        )
    return f"{name}: {due}. {go_on}" if due else f"{name} is done."


def due_and_turn(program: Program, place: Place) -> str:
    """The same behind a row that was told as a whole, whose name was said."""
    due = count_due(program, place)
    return f"{capital(due)}. {_go_on(program, place)}" if due else ""


def _of_part(part: Part) -> str:
    """ " of the sole", " here" where the part has no name to be called by."""
    name = called(part.name or "").partition(",")[0]
    if not name or instructs(name) or part.copies > 1 or name.startswith(("with ", "using ")):
        return " here"
    return f" of {'' if name.startswith('the ') else 'the '}{name}"


def _joined_unsaid(program: Program, row: int) -> bool:
    """True for a round that is joined because a note says so of all, and whose own words do not."""
    placed = program.fabric.row(row)
    if placed.kind != "round" or program.pattern.habits.joins is not True:
        return False
    items = placed.worked.row.items
    told_join = any(
        isinstance(item, Say) and _JOIN in program.source.words(item.span).lower() for item in items
    )
    return not told_join and not any(isinstance(item, Join) and item.stitch != "magic" for item in items)


_JOIN = "join"
"""In a remark: "Invisible join."."""


def _turns_into_next(program: Program, place: Place) -> bool:
    """True where the next part goes on from a part's last row, and begins by turning the work."""
    row, part = place[2], program.parts[place[0]]
    if part.copies > 1 or row > part.last or program.fabric.row(row).kind != "row":
        return False
    after = program.next(place)
    while after != program.end and after[3]:
        if not isinstance(program.aside(after), Aside):
            return False  # a foundation of its own
        after = program.next(after)
    if after == program.end or after[2] != row + 1 or turn_before(program, row + 1) != "turn":
        return False
    items = program.fabric.row(row + 1).worked.row.items
    return not any(isinstance(item, Edge) for item in items[:3])  # "rotate": that is no turn


def more_asked(kind: str) -> str:
    """The question behind a row that may be the last of those that go on until something is so."""
    return f"More {'rounds' if kind == 'round' else 'rows'}?"


def _go_on(program: Program, place: Place) -> str:
    """ "Count, then turn." """
    row = place[2]
    placed = program.fabric.row(row)
    part = program.parts[place[0]]
    join = ", then join" if _joined_unsaid(program, row) else ""
    if row >= part.last and not program.fabric.open_ended:
        word = "round" if placed.kind == "round" else "row"
        if program.fabric.length > part.last:
            turn = ", then turn" if _turns_into_next(program, place) else ""
            go_on = f"Count{join}{turn}; it is the last {word}{_of_part(part)}."
        else:
            go_on = f"Count{join}; it is the last {word}."
    elif row < part.last and turn_before(program, row + 1) == "turn":
        go_on = "Count, then turn."
    elif stays(program, row):
        go_on = "Count; don't turn."
    else:
        go_on = f"Count{join}."
    if (
        row >= part.last
        and not program.is_followed(row)
        and any(isinstance(item, Turn) for item in placed.worked.row.items[-2:])
    ):
        go_on = f"{go_on.removesuffix('.')}. Then turn."
    if (goes_on := going_on(program, row)) is not None:
        if not goes_on.may_end:
            return go_on
        how = " Once it is long enough, say no." if goes_on.is_told else ""
        return f"{go_on}{how} {more_asked(placed.kind)}"
    ended = [words for words in endings(program, row) if place[1] == 1 or not is_talk(words)]
    if ended:
        go_on = " ".join(
            [
                "Count; don't turn." if stays(program, row) else f"Count{join}.",
                *(
                    f"{capital(read_out(program, words)).rstrip('.')}.{for_a_baby(program, words)}"
                    for words in ended
                ),
            ]
        )
    return go_on
