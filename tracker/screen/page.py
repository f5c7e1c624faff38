"""The page: one View and what was just said come in, the lines of the whole screen go out, each as wide as the screen.

Pure: no Textual, no clock. From top to bottom: what piece and which row; the group in hand, as large as the
room allows, with what is said of it, which beat it is and what follows; the fabric in the lap; the maker's
own text with the phrase marked; the ear, the pedal and the keys. Text of a pattern goes through `shown` and
is never markup.
"""

import re
from dataclasses import dataclass

from tracker.screen.drawing.cells import drawn, strips
from tracker.screen.drawing.letters import SIZES, big
from tracker.screen.drawing.link import link_page
from tracker.screen.drawing.words import Line, Run, apart, clipped, filled, lines_of, shown, width_of, wrapped
from tracker.session.commands import COMMANDS, Command
from tracker.session.view import View, counted_of, hand_of, tally_of, then_of, where_of

SMALLEST = (40, 12)
"""Columns and rows below which only the words are shown."""
_ASIDE = re.compile(r"\s*\([^()]*\)")
_LABEL = re.compile(r"(?:[A-Za-z-]+ ){0,4}[A-Za-z-]+")
"""What a group is called before a colon, as long as it is short: "Window and two blocks"."""
_ALWAYS = ("help", "stop")
"""Commands whose keys are at the right end of the last line, however narrow it is."""
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


def page(view: View, showing: Showing, width: int, height: int) -> tuple[Line, ...]:
    """The whole screen: `height` lines of `width` cells."""
    if width < SMALLEST[0] or height < SMALLEST[1]:
        return _small(view, showing, width, height)
    foot = (*_status(view, showing, width), _keys(width))
    head = _head(view, showing, width)
    rule: Line = (("─" * width, "rule"),)
    top = (rule,) if height >= 30 else ()
    if showing.link:
        return (*head, rule, *link_page(shown(showing.link), width, over_rows(height)), *foot)[:height]
    if showing.over:
        return (*head, rule, *_over(showing.over, width, over_rows(height)), *foot)[:height]
    # A sentence of a device's that needs two lines takes the second from the pattern's text for as long as it is there.
    text = _text(view, width, (2 if height < 30 else 3 if height < 45 else 5) - len(foot) + 2)
    left = height - len(head) - len(top) - len(foot) - len(text) - 2
    fabric_rows = _fabric_room(left)
    group = _group(view, showing, width, left - fabric_rows)
    fabric = _fabric(view, showing, width, fabric_rows)
    return (*head, *top, *group, rule, *fabric, rule, *text, *foot)


def over_rows(height: int) -> int:
    """How many lines can be laid over a page of this height at a time."""
    return max(1, height - 5)


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


def _head(view: View, showing: Showing, width: int) -> tuple[Line, ...]:
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
    return (
        _barred(title, side, width),
        _barred(
            ((row, "row"), (repeats, "repeats")),
            ((f"{resting or stride}", "resting" if resting else "side"), (counted, "row")),
            width,
        ),
    )


def _barred(left: Line, right: Line, width: int) -> Line:
    """Two ends of a line of the head, the space between them on the head's own ground."""
    return tuple((text, "head" if role == "ground" else role) for text, role in apart(left, right, width))


# -- the group in hand


def _group(view: View, showing: Showing, width: int, height: int) -> tuple[Line, ...]:
    """As many lines as there is room, the group first."""
    inside = width - 4
    said = shown(view.asked or showing.said or view.said)
    words = lines_of(said, inside, 3 if height >= 9 else 2)
    then = _then(view, width)
    room = height - len(words) - len(then)
    tally = tally_of(view)
    large = _large(view, tally, inside, room)
    out: list[Line] = []
    if large is not None:
        out += [filled((("  ", "ground"), (line, "big")), width) for line in large]
    else:
        plain = lines_of(shown(hand_of(view)), inside, max(1, room))
        out += [filled((("  ", "ground"), (line, "big")), width) for line in plain]
    role = "ask" if view.asked else "said"
    space = height - len(out) - len(words) - len(then)
    blank: Line = ((" " * width, "ground"),)
    above, between = (1, 1) if space > 2 else (min(1, space), 0)
    lines = [*([blank] * above), *out, *([blank] * max(0, between))]
    lines += [filled((("  ", "ground"), (line, role)), width) for line in words]
    lines += [blank] * max(0, height - len(lines) - len(then))
    return (*lines, *then)[:height]


def _large(view: View, tally: str, width: int, height: int) -> tuple[str, ...] | None:
    """The group in big letters, its tally at the right of the last line; without what stands in brackets if need be."""
    hand = hand_of(view)
    label = view.said.partition(":")[0]
    short = (_ASIDE.sub("", hand), label if _LABEL.fullmatch(label) else hand)
    for words in dict.fromkeys((hand, *short)):
        for size in SIZES:
            rows = big(shown(words).rstrip("."), width, height, (size,))
            if rows is None:
                continue
            count = big(tally.replace(" of ", "/"), width, height, (size,)) if tally else None
            return rows if count is None else _beside(rows, count, width, height) or rows
    return None


def _beside(rows: tuple[str, ...], count: tuple[str, ...], width: int, height: int) -> tuple[str, ...] | None:
    """The tally at the right end of the last line of letters, or under it; None when there is no room."""
    wide = max(map(len, count))
    tail = len(count)
    used = max(len(row.rstrip()) for row in rows[-tail:])
    if len(rows) >= tail and used + wide + 4 <= width:
        kept = rows[: len(rows) - tail]
        return (
            *kept,
            *(row.rstrip().ljust(width - wide) + mark for row, mark in zip(rows[-tail:], count, strict=True)),
        )
    if len(rows) + tail <= height:
        return (*rows, *(mark.rjust(width) for mark in count))
    return None


def _then(view: View, width: int) -> tuple[Line, ...]:
    tally = tally_of(view)
    dots = ""
    if view.beats > 1 and view.beats <= 12:
        dots = "● " * (view.beat - 1) + "◐ " + "○ " * (view.beats - view.beat)
    right: Line = ((f"{dots} {tally}  " if tally else "", "beat"),)
    then = shown(then_of(view))
    return (
        apart((("  ", "ground"), (clipped(then, width - 8 - width_of(right[0][0])), "then")), right, width),
    )


# -- the fabric


def _fabric_room(left: int) -> int:
    """Rows for the fabric: a little under half, the same at every place of a piece, so that nothing jumps."""
    wanted = left * 9 // 20
    return min(20, wanted - wanted % 5) if wanted > 5 else wanted


def _fabric(view: View, showing: Showing, width: int, height: int) -> tuple[Line, ...]:
    counted = f"{view.done} of {view.due} {view.unit}" if view.unit else ""
    rows = strips(view.row, view.cells, counted, view.below, showing.mirrored)
    lines = drawn(rows if view.row else rows[1:], width, height)
    blank: Line = ((" " * width, "ground"),)
    return (*lines, *([blank] * height))[:height]


def _over(lines: tuple[str, ...], width: int, height: int) -> tuple[Line, ...]:
    """Lines as they are, the last of them a word on how there is more."""
    inside = width - 4
    kept = [clipped(shown(line), inside) for line in lines[:height]]
    if len(lines) > height:
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
        return (filled(((" yes (y) or no (n)?", "ask"),), width, "foot"),)
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


def help_page() -> tuple[str, ...]:
    """Every command with its key and its words, from the table of deeds."""
    out = ["key    say or type          and it does"]
    for command in COMMANDS:
        key = _NAMED.get(command.key, command.key) or "·"
        out.append(f"{key:6} {command.phrases[0].replace('{n}', 'N'):20} {command.help}")
    return (
        *out,
        f"{'t':6} {'':20} another look: dark, light, black and white",
        f"{'ctrl+c':6} {'':20} leave; your place is kept",
    )
