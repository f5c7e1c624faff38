"""Squares of filet and tiles of corner-to-corner, told in the stitches that make them.

A step that works squares comes in; words go out, without a capital and without a full stop.
"""

import re

from tracker.fabric.model import HIDDEN, SP, Step, WorkedRow
from tracker.notation.tree import Which, Work
from tracker.session.wording.made.chains import turning_words
from tracker.session.wording.made.telling import Telling
from tracker.trade.numbers import spoken_number, spoken_times


def square_said(item: Work, step: Step, worked: WorkedRow, telling: Telling) -> str:
    """Squares of filet, and tiles, in the stitches that make them: rows call them by letters that nobody says."""
    special = telling.squares[item.stitch]
    made = [e for e in worked.elements[step.made_from : step.made_to] if e.kind != HIDDEN]
    if special.base.endswith("tile"):
        many = len(made)
        own_words = telling.source.words(item.span).lower()
        if special.name in own_words or not re.search(r"\bch\b|\bchain", own_words):
            return f"{spoken_number(many)} {telling.stitch('tile', many)}" if many > 1 else "tile"
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
