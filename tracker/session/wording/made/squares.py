"""Squares of filet and tiles of corner-to-corner, told in the stitches that make them.

A step that works squares comes in; words go out, without a capital and without a full stop.
"""

import re
from collections.abc import Sequence

from tracker.fabric.model import HIDDEN, SP, Step, WorkedRow
from tracker.notation.tree import Which, Work
from tracker.program.places import Program
from tracker.program.row.groups import Breath, Sort
from tracker.program.row.squares import squares_done
from tracker.session.wording.made.chains import turning_words
from tracker.session.wording.made.telling import Telling, capital
from tracker.trade.numbers import spoken_number, spoken_times


def square_said(item: Work, step: Step, worked: WorkedRow, telling: Telling) -> str:
    """Squares of filet, and tiles, in the stitches that make them: rows call them by letters that nobody says."""
    special = telling.squares[item.stitch]
    made = [e for e in worked.elements[step.made_from : step.made_to] if e.kind != HIDDEN]
    if special.base.endswith("tile"):
        many = len(made)
        own_words = telling.source.words(item.span).lower()
        chained = re.search(r"\bch\b|\bchain", own_words)
        if chained is None or special.name in own_words[: chained.start()]:
            name = telling.stitch(item.stitch if special.base.startswith("beg") else "tile", many)
            return f"{spoken_number(many)} {name}" if many > 1 else name
        return telling.written(item)
    posts = [e for e in made if e.is_stitch]
    stitch = telling.stitch(posts[0].kind) if posts else "stitch"
    if special.base.startswith("beg") and made[0].turning:
        front = turning_words(step, worked, telling, made)
        rest = len(posts) - 1
        return f"{front}, then {spoken_number(rest)} {telling.stitch(posts[0].kind, rest)}"
    windows = [e for e in made if e.kind == SP]
    over = _over(worked, step.made_from, step.made_to)
    begun = item.where.which is Which.MADE
    if not windows and not begun:
        words = f"{spoken_number(len(posts))} {telling.stitch(posts[0].kind, len(posts))}"
        if SP in over and len(posts) == special.closes + 1:
            filled = telling.stitch(posts[0].kind, special.closes)
            return f"{spoken_number(special.closes)} {filled} in the space, one in the next"
        return f"{words}, {spoken_number(special.closes)} in each space" if SP in over else words
    skip = "miss" if telling.uk else "skip"
    many_skipped = f"{skip} {spoken_number(special.closes)}"
    passed = (
        f"{skip} the space"
        if over == {SP}
        else f"{many_skipped} or the space"
        if SP in over
        else many_skipped
    )
    if begun:
        return f"{passed}, one {stitch}"
    many = len(windows)
    times = f", {spoken_times(many)}" if many > 1 else ""
    return f"chain {spoken_number(windows[0].chains)}, {passed}, one {stitch}{times}"


def _over(worked: WorkedRow, start: int, end: int) -> set[str]:
    """What the fillings of squares lie over: spaces, stitches or both."""
    below = worked.below
    out: set[str] = set()
    before = next((e.into[-1] for e in reversed(worked.elements[:start]) if e.into), -1)
    for element in worked.elements[start:end]:
        if not element.into:
            continue
        out |= {SP if e.kind == SP else "stitch" for e in below[before + 1 : element.into[0]]}
        if below[element.into[0]].kind == SP:
            out.add(SP)
        before = element.into[-1]
    return out


def squares_label(program: Program, row: int, breath: Breath) -> str:
    """ "Window", "Block", "Window and two blocks": the squares of one beat; "" where it is no whole squares."""
    squares = program.squares(row)
    if not squares or program.mesh is None or breath.sort is Sort.TURNING:
        return ""
    elements = program.fabric.row(row).worked.elements
    start = squares_done(elements[: breath.first.made_from], program.mesh)
    end = squares_done(elements[: breath.first.made_to], program.mesh)
    if any(element.turning for element in elements[breath.first.made_from : breath.first.made_to]):
        return ""
    return capital(squares_named(squares[start:end]))


def squares_named(squares: Sequence[bool]) -> str:
    """ "window", "two blocks", "window and two blocks"; "" for none, and for more than an ear keeps."""
    runs: list[tuple[bool, int]] = []
    for window in squares:
        runs[-1:] = (
            [(window, runs[-1][1] + 1)] if runs and runs[-1][0] == window else [*runs[-1:], (window, 1)]
        )
    if not runs or len(runs) > 2:
        return ""
    words = [
        ("window" if window else "block")
        if number == 1
        else f"{spoken_number(number)} {'windows' if window else 'blocks'}"
        for window, number in runs
    ]
    return " and ".join(words)
