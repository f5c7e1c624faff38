"""`python -m tracker.bench.reading`: reading, checking and compiling beside a bare lark grammar of the same rows.

Goes out: one line a figure, on standard output. Both sides read the same three rows in turn in one process, so that a
busy machine is as busy for one as for the other. The grammar of lark only parses: it knows no stitch that is not in
these rows, finds no error but the first, and counts nothing.
"""

import importlib.util
import os
import statistics
import subprocess
import sys
import tempfile
import time
import tracemalloc
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from tracker.bench.terminal import program
from tracker.load import load
from tracker.program.places import Program

ROWS = (
    "Row {n}: Ch 3 (counts as dc), turn, dc in next 2 sts, *ch 1, sk next st, dc in next 2 sts; rep from * across. "
    "(21 dc, 9 ch-1 sps)",
    "Row {n}: Ch 1, turn, sc in next 2 dc, [sc in next ch-1 sp, sc in next 2 dc] 9 times, sc in last dc. (30 sc)",
    "Row {n}: Ch 1, turn, 2 sc in first st, sc in next 27 sts, sc2tog. (30 sts)",
)
"""Three rows as designers write them, each worked onto the one before it: a star, a bracket, an edge that slants."""
FOUNDATION = "Cloth\n\nCh 31.\nRow 1: Sc in 2nd ch from hook and in each ch across. (30 sc)\n"
GRAMMAR = r"""
start: row+
row: LABEL item ("," item)* ("." | ";") [count]
item: chain | turn | work | skip | group | repeat | star
chain: "ch"i INT [remark]
remark: "(" "counts" "as" STITCH ")"
turn: "turn"
work: [INT] STITCH ["in" place]
skip: "sk" place
place: WHICH [INT] thing
thing: STITCH | "st" | "sts" | "ch-" INT "sp"
group: "(" part ("," part)* ")" "in" place
part: [INT] STITCH | "ch" INT
repeat: "[" item ("," item)* "]" INT "times"
star: "*" item ("," item)* ";" "rep" "from" "*" often
often: "across" | INT "more" "times"
count: "(" INT name ("," INT name)* ")"
name: STITCH | "sts" | "ch-" INT ("sps" | "sp")
LABEL: /Row \d+:/
WHICH: "next" | "first" | "last"
STITCH: "sc2tog" | "sc" | "dc" | "hdc" | "tr"
%import common.INT
%import common.WS
%ignore WS
"""
MILLION = FOUNDATION + "Row 2: Ch 1, turn, sc in each st across.\nRows 3-1000002: Rep Row 2.\n"
PASSES = 15


def reading(say: Callable[[str], object]) -> None:
    """Measure and say."""
    if importlib.util.find_spec("lark") is None:
        say("reading beside lark: lark is not installed (the extra test has it)")
    else:
        ours, theirs = side_by_side()
        say(
            f"reading, checking, compiling: {ours:,.0f} rows/s; lark LALR, parsing alone: {theirs:,.0f} rows/s"
        )
        say(f"  ours to lark's: {ours / theirs:.2f} (asked: 1)")
    milliseconds, megabytes = million_rows()
    say(
        f"a row worked a million times: {milliseconds:.1f} ms, {megabytes:.2f} MB at most (asked: 100 ms, 50 MB)"
    )
    say(f"going to any of its rows: {any_row():.1f} µs")
    check, nothing = whole_check()
    say(
        f"check of a 60-row pattern as a whole process: {check.waited:.0f} ms, of the processor {check.worked:.0f} ms "
        f"(asked: 150); Python alone {nothing.waited:.0f} and {nothing.worked:.0f} ms"
    )


def side_by_side(rows: int = 300) -> tuple[float, float]:
    """Rows a second, ours and lark's, medians of passes taken in turn."""
    from lark import Lark

    parser = Lark(GRAMMAR, parser="lalr")
    bare = "\n".join(row.format(n=k + 1) for k, row in enumerate(ROWS * (rows // 3)))
    parser.parse(bare)
    ours_text = FOUNDATION + "\n".join(row.format(n=k + 2) for k, row in enumerate(ROWS * (rows // 3)))

    def ours() -> None:
        loaded = load("cloth", ours_text)
        Program(loaded.source, loaded.pattern, loaded.fabric, loaded.problems)
        assert loaded.fabric.length == rows + 1
        assert all(placed.worked.understood for stretch in loaded.fabric.stretches for placed in stretch.rows)

    ours()
    mine, lark = [], []
    for _ in range(PASSES):
        mine.append((rows + 1) / _seconds(ours))
        lark.append(rows / _seconds(lambda: parser.parse(bare)))
    return statistics.median(mine), statistics.median(lark)


def million_rows() -> tuple[float, float]:
    """Milliseconds and megabytes to compile a pattern whose rows are worked a million times."""

    def compiled() -> None:
        loaded = load("scarf", MILLION)
        Program(loaded.source, loaded.pattern, loaded.fabric, loaded.problems)
        assert loaded.fabric.length == 1_000_002

    compiled()
    milliseconds = min(_seconds(compiled) for _ in range(PASSES)) * 1000
    tracemalloc.start()
    compiled()
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return milliseconds, most / 1_000_000


def any_row() -> float:
    """Microseconds to go to one of a million rows, all over the piece."""
    fabric = load("scarf", MILLION).fabric
    places = [1 + k * 999_983 % fabric.length for k in range(2_000)]
    return (
        min(_seconds(lambda: [fabric.row(place) for place in places]) for _ in range(5)) / len(places) * 1e6
    )


@dataclass(frozen=True, slots=True)
class Took:
    """What a process took, in milliseconds."""

    waited: float
    """From its start to its end, the median of several: what its user waits for, longer on a busy machine."""
    worked: float
    """Of the processor, the mean of several; 0 where the system does not tell."""


def whole_check() -> tuple[Took, Took]:
    """`check` on 60 rows, and Python that does nothing."""
    text = FOUNDATION + "\n".join(ROWS[n % 3].format(n=n + 2) for n in range(59))
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "cloth.txt"
        file.write_text(text, encoding="utf-8")
        check = program("tracker", "check", str(file), "--json")
        return _processes(check), _processes([sys.executable, "-c", "pass"])


def _processes(command: list[str]) -> Took:
    environment = os.environ | {"PYTHONDONTWRITEBYTECODE": ""}
    before = os.times()
    waited = [
        _seconds(lambda: subprocess.run(command, env=environment, stdout=subprocess.DEVNULL, check=True))
        for _ in range(PASSES)
    ]
    after = os.times()
    worked = after.children_user - before.children_user + after.children_system - before.children_system
    return Took(statistics.median(waited) * 1000, worked / PASSES * 1000)


def _seconds(deed: Callable[[], object]) -> float:
    began = time.perf_counter()
    deed()
    return time.perf_counter() - began


if __name__ == "__main__":
    reading(lambda line: sys.stdout.write(f"{line}\n"))
