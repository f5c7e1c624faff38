"""The page: one View and what was just said come in, the lines of the whole screen go out, each as wide as the screen.

Pure: no Textual, no clock. From top to bottom: what piece and which row; the group in hand, as large as the
room allows, with what is said of it, which beat it is and what follows; the fabric in the lap; the maker's
own text with the phrase marked; the ear, the pedal and the keys. Text of a pattern goes through `shown` and
is never markup.
"""

from tracker.expressions import expression
from tracker.records import dataclass
from tracker.screen.drawing.cells import drawn, strips
from tracker.screen.drawing.group import group
from tracker.screen.drawing.letters import SIZES, big
from tracker.screen.drawing.link import link_page
from tracker.screen.drawing.seams import seams
from tracker.screen.drawing.words import Line, Run, apart, clipped, filled, lines_of, shown, width_of, wrapped
from tracker.session.commands import COMMANDS, Command, Renamed
from tracker.session.seen.lying import ROWS_SHOWN
from tracker.session.seen.view import View, counted_of, where_of

SMALLEST = (40, 12)
"""Columns and rows below which only the words are shown."""
_HEAD_LARGE = 50
"""From so many lines of the screen on, the row and the count are drawn large."""
_FABRIC = ((42, 16), (34, 12), (24, 9), (13, 5))
"""From so many lines for group and fabric on, so many for the fabric."""
_DISC, _SMALLEST_DISC = 0.36, 12
"""Part of the width that rounds around their middle take at most, and lines below which they are drawn as rows."""
_WAVES = 12
"""Lines at most for rows that rise and fall."""
_ALWAYS = ("help", "stop")
"""Commands whose keys are at the right end of the last line, however narrow it is."""
_YES_OR_NO, _A_NUMBER = " yes (y) or no (n)?", " a number, then enter; can't tell (n)?"
_NAMED = {"question_mark": "?", "plus": "+", "left_square_bracket": "[", "right_square_bracket": "]"}


@dataclass(frozen=True, slots=True)
class Showing:
    """What is on the screen beside the place."""

    said: str = ""
    """What was said last."""
    over: tuple[str, ...] = ()
    """Lines laid over all but the head and the foot: help. What does not fit comes with the next key."""
    link: str = ""
    """The link of the page on a tablet, laid over the same."""
    entry: str = ""
    """What is being typed: "row 12_"."""
    notice: str = ""
    """What a device has to say of itself."""
    resting: bool = False
    """True while the work is put down, in this sitting."""
    mirrored: bool = False
    """True for a left-handed maker."""
    as_rows: bool = False
    """True when rounds are to be drawn as rows."""


def page(view: View, showing: Showing, width: int, height: int) -> tuple[Line, ...]:
    """The whole screen: `height` lines of `width` cells."""
    if width < SMALLEST[0] or height < SMALLEST[1]:
        return _small(view, showing, width, height)
    foot = (*_status(view, showing, width), _keys(width))
    head = _head(view, showing, width, height)
    rule: Line = (("─" * width, "rule"),)
    top = (rule,) if height >= 30 else ()
    if showing.link:
        return (*head, rule, *link_page(shown(showing.link), width, over_rows(height)), *foot)[:height]
    if showing.over:
        return (*head, rule, *_over(showing.over, width, over_rows(height)), *foot)[:height]
    # A sentence of a device's that needs two lines takes the second from the pattern's text for as long as it is there.
    text = _text(view, width, (2 if height < 30 else 3 if height < 45 else 5) - len(foot) + 2)
    left = height - len(head) - len(top) - len(foot) - len(text) - 2
    if (disc := _disc_room(view, showing, width, left + 1)) is not None:
        return (*head, *top, *_beside(view, showing, disc, width, left + 1), rule, *text, *foot)
    fabric_rows = _fabric_room(left, view)
    in_hand = group(view, showing.said, width, left - fabric_rows)
    fabric = _fabric(view, showing, width, fabric_rows)
    return (*head, *top, *in_hand, rule, *fabric, rule, *text, *foot)


def over_rows(height: int) -> int:
    """How many lines can be laid over a page of this height at a time."""
    return max(1, height - (9 if height >= _HEAD_LARGE else 5))


def _small(view: View, showing: Showing, width: int, height: int) -> tuple[Line, ...]:
    """Too little room for anything but the words."""
    words = [
        *lines_of(shown(view.row), width, 1),
        *lines_of(shown(view.written), width, 3),
        *lines_of(shown(showing.said), width, 6),
    ]
    words += [f"{view.beat} of {view.beats}"] if view.beats > 1 else []
    words += [shown(view.asked)] if view.asked else []
    lines = [filled(((clipped(line, width), "ground"),), width) for line in words]
    blank: Line = ((" " * width, "ground"),)
    return (*lines, *([blank] * height))[:height]


def _head(view: View, showing: Showing, width: int, height: int) -> tuple[Line, ...]:
    counted = f"{counted_of(view)} " if counted_of(view) else ""
    title: Line = (
        (f" {shown(view.title)}", "title"),
        (f" · {shown(view.part)}" if view.part else "", "side"),
    )
    side: Line = ((f"{view.side} ", "side"),)
    row = f" {where_of(view)}"
    repeats = f" · {view.repeats}" if view.repeats else ""
    stride = "" if view.stride == "group" else f"one {view.stride} at a step "
    resting = "resting " if showing.resting else ""
    repeated: Line = ((row, "row"), (repeats, "repeats"))
    put_down: Line = ((f"{resting or stride}", "resting" if resting else "side"),)
    if height < _HEAD_LARGE:
        return (
            _barred(title, side, width),
            _barred(repeated, (*put_down, (counted, "row")), width),
        )
    large = _ends(where_of(view), counted_of(view), width - 4)
    if any(line.strip() for line in large):
        # The row is there in large letters, and not once more in small ones.
        repeated = ((f" {view.repeats}", "repeats"),) if view.repeats else ()
    return (
        _barred(title, side, width),
        *(filled((("  ", "head"), (line, "row")), width, "head") for line in large),
        _barred(repeated, put_down, width),
    )


def _ends(left: str, right: str, width: int) -> tuple[str, ...]:
    """Two words at the two ends of a line of large letters; the right one shorter, or none, for want of room."""
    size = SIZES[-1:]
    before = big(shown(left), width, size[0].rows, size) or ("",) * size[0].rows
    used = max(len(line.rstrip()) for line in before) + 4
    short = right.partition(" ")[0] + "/" + right.split(" ")[2] if right.count(" ") >= 2 else right
    for words in (right, short):
        after = big(shown(words), width - used, size[0].rows, size) if words and width > used else None
        if after is not None:
            wide = max(len(line.rstrip()) for line in after)
            return tuple(
                line.rstrip().ljust(width - wide) + end[:wide].ljust(wide)
                for line, end in zip(before, after, strict=True)
            )
    return before


def _barred(left: Line, right: Line, width: int) -> Line:
    """Two ends of a line of the head, the space between them on the head's own ground."""
    return tuple((text, "head" if role == "ground" else role) for text, role in apart(left, right, width))


# -- the fabric


def _fabric_room(left: int, view: View) -> int:
    """Rows for the fabric: a little under half, the same at every place of a piece, so that nothing jumps.

    Whole squares of filet, whichever size of them goes with that much room; other rows are one line high each, and have
    more where they rise and fall.
    """
    rows = next((rows for least, rows in _FABRIC if left >= least), left * 9 // 20)
    return rows if view.filet else min(rows, _WAVES if view.waved else ROWS_SHOWN + 1)


def _fabric(view: View, showing: Showing, width: int, height: int) -> tuple[Line, ...]:
    if view.joining is not None:
        lines = seams(view.joining, width, height)
    else:
        counted = f"{view.done} of {view.due} {view.unit}" if view.unit else ""
        rows = strips(view.row, view.cells, counted, view.below, showing.mirrored)
        lines = drawn(rows if view.row else rows[1:], width, height)
    blank: Line = ((" " * width, "ground"),)
    return (*lines, *([blank] * height))[:height]


def _disc_room(view: View, showing: Showing, width: int, height: int) -> tuple[int, int] | None:
    """Columns and lines for rounds around their middle, beside the group; None where rows are drawn."""
    if view.around is None or showing.as_rows:
        return None
    # What only rounds need is not loaded for the first page of a flat piece.
    from tracker.looks.around import lies_round

    if not lies_round(view.around, showing.mirrored):
        return None
    # A cell is twice as high as it is wide.
    high = min(height - 1, int(width * _DISC) // 2)
    return (high * 2, high) if high >= _SMALLEST_DISC else None


def _beside(view: View, showing: Showing, room: tuple[int, int], width: int, height: int) -> tuple[Line, ...]:
    """The group at the left, as high as all there is, and the rounds at the right."""
    from tracker.looks.around import disc
    from tracker.screen.drawing.disc import disc_lines

    across, high = room
    in_hand = group(view, showing.said, width - across - 2, height)
    around = view.around
    found = disc(around, showing.mirrored)
    drawn = disc_lines(found, around, across, high) if found is not None and around is not None else ()
    above = (height - len(drawn)) // 2
    blank: Line = ((" " * (across + 2), "ground"),)
    right = [blank] * above + [((" ", "ground"), *line, (" ", "ground")) for line in drawn]
    right += [blank] * (height - len(right))
    return tuple((*line, *beside) for line, beside in zip(in_hand, right, strict=True))


def laid_over(lines: tuple[str, ...], width: int) -> tuple[str, ...]:
    """Lines in as many as they need on a page so wide; what is in columns goes on under its last column."""
    inside = width - 4
    out: list[str] = []
    for line in map(shown, lines):
        if width_of(line) <= inside:
            out.append(line)
            continue
        numbered = _NUMBERED.match(line)
        column = max(
            (hit.end() for hit in _COLUMNS.finditer(line)), default=numbered.end() if numbered else 0
        )
        column = column if column < inside * 2 // 3 else 2
        first = line[:column]
        rest = wrapped(line[column:], inside - column)
        out += [
            (first if nth == 0 else " " * column) + line[column:][start:end]
            for nth, (start, end) in enumerate(rest)
        ]
    return tuple(out)


_COLUMNS = expression(r"(?<=\S) {2,}(?=\S)")
_NUMBERED = expression(r"(?: *\d+[.:] +)?")
"""What a line may begin with that the next ones stand under."""


def _over(lines: tuple[str, ...], width: int, height: int) -> tuple[Line, ...]:
    """Lines laid over the page, the last of them a word on how there is more."""
    laid = laid_over(lines, width)
    kept = list(laid[:height])
    if len(laid) > height:
        kept[-1] = "… space for more"
    return tuple(
        filled((("  ", "ground"), (line, "said")), width) for line in (*kept, *[""] * (height - len(kept)))
    )


# -- the maker's text, and the foot


def _text(view: View, width: int, most: int) -> tuple[Line, ...]:
    """The pattern's own words around the phrase in hand."""
    text = shown(view.text)
    spans = wrapped(text, width - 2)
    start, end = view.phrase
    at = next((k for k, (_, stop) in enumerate(spans) if start < stop), max(0, len(spans) - 1))
    first = max(0, min(at, len(spans) - most))
    lines: list[Line] = []
    for begin, stop in spans[first : first + most]:
        a, b = max(begin, min(start, stop)), max(begin, min(end, stop))
        runs: tuple[Run, ...] = (
            (" ", "ground"),
            (text[begin:a], "text"),
            (text[a:b], "mark"),
            (text[b:stop], "text"),
        )
        lines.append(filled(tuple(run for run in runs if run[0]), width))
    if lines and len(spans) > first + most:
        *kept, last = lines[-1]
        lines[-1] = filled((*kept, (clipped(last[0].rstrip() + " …", width_of(last[0])), last[1])), width)
    blank: Line = ((" " * width, "ground"),)
    return (*lines, *([blank] * most))[:most]


def _status(view: View, showing: Showing, width: int) -> tuple[Line, ...]:
    """What is being typed or asked, or else what the devices say of themselves."""
    if showing.entry:
        return (filled(((f" {shown(showing.entry)}", "ask"),), width, "foot"),)
    if view.asked:
        answers = _A_NUMBER if view.asks_number else _YES_OR_NO
        return (filled(((answers, "ask"),), width, "foot"),)
    devices = view.devices
    heard = devices.passed or (f"heard “{devices.heard}”" if devices.heard else "")
    parts = (devices.ear, heard, devices.pedal)
    state = f" {' · '.join(shown(part) for part in parts if part)}"
    notice = shown(showing.notice)
    if not notice:
        return (filled(((state, "foot"),), width, "foot"),)
    if width_of(state) + width_of(notice) + 3 <= width:
        return (filled(((f"{state}  ", "foot"), (notice, "warn")), width, "foot"),)
    return tuple(
        filled(((" ", "foot"), (line, "warn")), width, "foot") for line in lines_of(notice, width - 2, 2)
    )


def _keys(width: int) -> Line:
    """As many keys as there is room for, in the table's order; help and stop always."""
    last = [_key(command) for command in COMMANDS if command.name in _ALWAYS]
    room = width - sum(width_of(text) for pair in last for text, _ in pair) - 2
    runs: list[Run] = [(" ", "foot")]
    used, told = 1, {""}
    for command in COMMANDS:
        if command.key in told or command.name in _ALWAYS or command.cost == "answer":
            continue
        pair = _key(command)
        wide = sum(width_of(text) for text, _ in pair)
        if used + wide > room:
            break
        told.add(command.key)
        runs += pair
        used += wide
    runs.append((" " * (room + 1 - used), "foot"))
    return filled((*runs, *(run for pair in reversed(last) for run in pair)), width, "foot")


def _key(command: Command) -> tuple[Run, Run]:
    return (_NAMED.get(command.key, command.key), "key"), (f" {command.name}  ", "foot")


def help_page(renamed: Renamed = ()) -> tuple[str, ...]:
    """Every command with its key and its words, from the table of deeds."""
    out = ["key    say or type           and it does"]
    for command in COMMANDS:
        key = _NAMED.get(command.key, command.key) or "·"
        out.append(f"{key:6} {command.shown(renamed):21} {command.help}")
    return (
        *out,
        f"{'t':6} {'':21} another look: dark, light, black and white, the terminal's own",
        f"{'D':6} {'':21} rounds drawn around their middle, or as rows",
        f"{'V':6} {'':21} the link and code for a tablet, with --show",
        f"{'ctrl+c':6} {'':21} leave; your place is kept",
    )
