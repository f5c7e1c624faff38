"""How often the words of a row were worked before it: what the hands may know by now.

A program and a place come in; a number goes out. Rows are the same when their words are, whatever their numbers and
counts; of a part that is made several times, the earlier copies count.
"""

import re
from functools import lru_cache

from tracker.problems import Span
from tracker.program.places import Place, Program


def times_before(program: Program, place: Place) -> int:
    """How often the words of the row at a place were worked before, in this part; 0 between rows."""
    part = program.part(place)
    if part is None or program.placed(place) is None:
        return 0
    before = in_all = 0
    for row, pass_length, times in _rows_by_words(program)[_words(program, place[2])]:
        if part.first <= row <= part.last:
            in_all += times
            if place[2] > row:
                before += min(times, (place[2] - row - 1) // pass_length + 1)
    return before + (place[1] - 1) * in_all


def grown_at(program: Program, place: Place) -> bool:
    """True for a group that makes another number of stitches than the last time the words of its row were worked."""
    part = program.part(place)
    if part is None or program.placed(place) is None or program.is_count(place):
        return False
    earlier = 0
    for row, pass_length, times in _rows_by_words(program)[_words(program, place[2])]:
        if part.first <= row < place[2]:
            earlier = max(earlier, row + min(times - 1, (place[2] - row - 1) // pass_length) * pass_length)
    if not earlier:
        return False
    mine, theirs = program.breaths(place[2]), program.breaths(earlier)
    if len(mine) != len(theirs):
        return True
    here, there = mine[place[4]], theirs[place[4]]
    return len(here.beats) != len(there.beats) or here.first.singles != there.first.singles


@lru_cache(maxsize=2)
def _rows_by_words(program: Program) -> dict[str, list[tuple[int, int, int]]]:
    """For the words of each row: where they are first worked, after how many rows again, and how often.

    Made once for a piece, since every step asks for it.
    """
    found: dict[str, list[tuple[int, int, int]]] = {}
    start = 1
    for stretch in program.fabric.stretches:
        for row in range(start, start + len(stretch.rows)):
            found.setdefault(_words(program, row), []).append((row, len(stretch.rows), stretch.times))
        start += stretch.length
    return found


def _words(program: Program, row: int) -> str:
    worked = program.fabric.row(row).worked.row
    return _plain(program.source.words(Span(worked.label_span.end, worked.span.end)))


@lru_cache(maxsize=8192)
def _plain(words: str) -> str:
    """The words without marks, blanks and capitals, and without the count at the end."""
    without = re.sub(r"[\s.:;,–—-]*[(\[{][^()\[\]{}]*\d[^()\[\]{}]*[)\]}]\s*$", "", words.lower())
    return " ".join(re.sub(r"[^a-z0-9*(\[)\]]+", " ", without).split())
