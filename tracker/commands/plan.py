"""The command `plan`: what a piece takes, and the sums that patterns leave to the maker. Words come in; sentences
or JSON go out.

0: answered. 1: the pattern has an error in it, or no row. 2: wrong use, or a file that cannot be read.
"""

import argparse
import json
import sys
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from tracker.files import Unreadable, text_of
from tracker.output import NotWritten, refused, write

if TYPE_CHECKING:
    from tracker.program.row.row_ends import Edging
    from tracker.trade.spacing import Shaping

HOW = (
    "plan FILE · plan edging STITCHES ROW-ENDS · plan edging FILE STITCHES · plan even STITCHES TIMES · plan gauge · "
    "plan circle STITCH INCREASES · plan edges TOP LEFT BOTTOM RIGHT · plan swatch FILE · plan swatch --of dc"
)
Answer = tuple[Mapping[str, Any], list[str]]
"""For other programs, and for a reader."""


def add_parsers(subparsers: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Registers the command."""
    plan = subparsers.add_parser("plan", help="yarn, time, size, even spacing, edgings", description=HOW)
    plan.add_argument(
        "words", metavar="WHAT", nargs="*", help="a pattern, or one of the sums and its numbers"
    )
    plan.add_argument("--piece", metavar="NAME", help="a piece in hand instead of a pattern's file")
    plan.add_argument("--size", metavar="NAME", help="of the pattern; the first when not said")
    edging = plan.add_argument_group("edging")
    edging.add_argument(
        "--of", metavar="STITCH", default="dc", help="what the rows are made of; dc when not said"
    )
    edging.add_argument(
        "--side",
        choices=("end", "start"),
        default="end",
        help="of a pattern: where its last row ended, or began",
    )
    even = plan.add_argument_group("even")
    even.add_argument("--decrease", action="store_true", help="decreases instead of increases")
    even.add_argument("--flat", action="store_true", help="a row, half a gap at each end")
    even.add_argument("--stagger", action="store_true", help="half a gap further on, for every other round")
    gauge = plan.add_argument_group("gauge")
    gauge.add_argument("--stitches", type=float, metavar="N", help="stitches of the swatch")
    gauge.add_argument("--rows", type=float, metavar="N", help="rows of the swatch")
    gauge.add_argument(
        "--over", metavar="LENGTH", default="10cm", help="what they measure; 10cm when not said"
    )
    gauge.add_argument("--width", metavar="LENGTH", help="width wanted")
    gauge.add_argument("--height", metavar="LENGTH", help="height wanted")
    gauge.add_argument(
        "--multiple", metavar="N+M", default="1", help="a repeat and what the edges add, such as 4+2"
    )
    plan.add_argument("--rounds", type=int, metavar="N", default=6, help="circle: rounds to list")
    yarn = plan.add_argument_group("of a pattern")
    yarn.add_argument("--copies", type=int, metavar="N", help="how many; what the pattern says when not said")
    yarn.add_argument(
        "--swatch",
        metavar="WHAT,YARN",
        help="what was worked, as single crochets or rows of this pattern (1-10), and what it took: 18m or, "
        "with --ball, 12g",
    )
    yarn.add_argument(
        "--finished", metavar="N,YARN", help="so many copies are done, and weigh or took so much: 3,72g"
    )
    yarn.add_argument("--left", metavar="YARN", help="what is left of the ball, 12m or 5g: enough for --row?")
    yarn.add_argument("--row", type=int, metavar="N", help="the row that --left is asked for, counted from 1")
    yarn.add_argument(
        "--weight", type=int, choices=range(8), metavar="0-7", help="weight of yarn by the standard"
    )
    yarn.add_argument("--ball", metavar="M[,G]", help="metres in a ball, and grams")
    plan.add_argument("-o", "--output", metavar="NAME", help="a file to write to, such as a swatch to work")
    plan.add_argument("--json", action="store_true", help="for other programs")
    plan.set_defaults(run=plan_command)


def plan_command(said: argparse.Namespace) -> int:
    """Carries out `plan`."""
    from tracker.load import WrongSize
    from tracker.planning.gauge import NoGauge
    from tracker.planning.yarn import NoYarn
    from tracker.shelf.choosing import NoPiece
    from tracker.sums.whole import piece
    from tracker.trade.spacing import CannotSpace

    sums: dict[str, Callable[[argparse.Namespace], Answer]] = {
        "edging": _edging,
        "even": _even,
        "gauge": _gauge,
        "circle": _circle,
        "edges": _edges,
        "swatch": _swatch,
    }
    status = 0
    try:
        if not said.words and said.piece is None:
            raise ValueError(f"Say what to plan: {HOW}.")
        if said.words and said.words[0] in sums:
            answer, lines = sums[said.words[0]](said)
        else:
            if len(said.words) > 1:
                raise ValueError(
                    f"plan takes one pattern, or one of {', '.join(sums)}; {' '.join(said.words)!r} is neither."
                )
            answer, lines, status = piece(said)
    except (CannotSpace, NoGauge, NoPiece, NoYarn, Unreadable, WrongSize, ValueError) as fault:
        return refused(fault, 2)
    if said.output is not None:
        try:
            made = "".join(f"{line}\n" for line in lines)
            write(said.output, made.encode(), next((word for word in said.words if not word.isdigit()), None))
        except NotWritten as fault:
            return refused(fault, 2)
        return status
    sys.stdout.write(
        json.dumps(answer, ensure_ascii=False) + "\n" if said.json else "".join(f"{line}\n" for line in lines)
    )
    return status


def _numbers(said: argparse.Namespace, how: str, least: int, most: int | None = None) -> list[int]:
    """The numbers after the first word."""
    words = said.words[1:]
    if not least <= len(words) <= (most or least) or not all(
        word.isdigit() and len(word) < 7 for word in words
    ):
        raise ValueError(f"It is written: plan {said.words[0]} {how}.")
    return [int(word) for word in words]


def _edging(said: argparse.Namespace) -> Answer:
    from tracker.program.row.row_ends import RowEnd, edging
    from tracker.trade.spellings import stitch_named

    if len(said.words) == 3 and not said.words[1].isdigit() and said.words[2].isdigit():
        return _edging_of(said)
    stitches, along = _numbers(
        said, "STITCHES ROW-ENDS, or FILE STITCHES; such as plan edging 24 15 --of dc", 2
    )
    named = stitch_named(said.of)
    if named is None:
        raise ValueError(f"{said.of} is no stitch; --of takes one such as sc, hdc, dc or tr.")
    if along > 5000:
        raise ValueError(f"{along} row ends are more than an edge has; 5000 is the most.")
    # The edge begins where the last row ended, so its first row end is a stitch and the next a turning chain.
    plan = edging(stitches, tuple(RowEnd(named.name, nth % 2 == 1) for nth in range(along)))
    return _edge_answer(plan)


def _edging_of(said: argparse.Namespace) -> Answer:
    """Along one side of a pattern's rows."""
    from tracker.load import sized
    from tracker.program.row.row_ends import edging, row_ends

    loaded = sized(*text_of(said.words[1]), said.size)
    rows = [placed for _, placed in loaded.fabric.rows(1, 5000) if placed.kind == "row"]
    rows = [placed for placed in rows if placed.part == rows[0].part]
    if not rows or not said.words[2].isdigit():
        raise ValueError("It is written: plan edging FILE STITCHES, FILE being a pattern worked in rows.")
    return _edge_answer(edging(int(said.words[2][:6]), row_ends(tuple(rows), said.side == "start")))


def _edge_answer(plan: "Edging") -> Answer:
    from tracker.planning.edging import summed, told, verdict

    answer = {
        "stitches": plan.stitches,
        "row_ends": len(plan.ends),
        "takes": list(plan.takes),
        "usual": plan.usual,
        "verdict": verdict(plan),
    }
    corners = "Stitches of the corners are not in this number; work them between the edges."
    return answer, [summed(plan), verdict(plan), corners, *told(plan)]


def _even(said: argparse.Namespace) -> Answer:
    from tracker.trade.spacing import shaping

    stitches, times = _numbers(said, "STITCHES TIMES, such as plan even 32 6", 2)
    if stitches > 100_000:
        raise ValueError(f"{stitches} stitches are more than a row has; 100000 is the most.")
    made = shaping(stitches, times, not said.decrease, said.flat, said.stagger)
    answer = {
        "stitches": made.stitches,
        "times": made.times,
        "plain": list(made.plain),
        "rest": made.rest,
        "makes": made.makes,
    }
    return answer, [f"{_shaped(made)}. ({made.makes} sts)"]


def _shaped(made: "Shaping") -> str:
    """The row in standard notation: "(4 sc, inc) twice, (5 sc, inc), …"."""
    word = "inc" if made.increase else "dec"
    out: list[tuple[str, int]] = []
    for plain in made.plain:
        group = f"{plain} sc, {word}" if plain else word
        if out and out[-1][0] == group:
            out[-1] = (group, out[-1][1] + 1)
        else:
            out.append((group, 1))
    words = [
        f"({group})" + ("" if many == 1 else " twice" if many == 2 else f" {many} times")
        for group, many in out
    ]
    return ", ".join([*words, *([f"{made.rest} sc"] if made.rest else [])])


def _circle(said: argparse.Namespace) -> Answer:
    from tracker.planning.circles import FLAT, USUAL, circle, told

    stitch = said.words[1].lower() if len(said.words) > 1 else ""
    if stitch not in FLAT or len(said.words) > 3 or len(said.words) == 3 and not said.words[2].isdigit():
        raise ValueError(
            "It is written: plan circle STITCH INCREASES, the stitch one of "
            f"{', '.join(FLAT)}; such as plan circle dc 12."
        )
    made = circle(
        stitch,
        int(said.words[2][:6]) if len(said.words) == 3 else USUAL[stitch],
        max(1, min(said.rounds, 200)),
    )
    return {
        "stitch": made.stitch,
        "increases": made.increases,
        "shape": made.shape,
        "counts": list(made.counts),
    }, list(told(made))


def _edges(said: argparse.Namespace) -> Answer:
    from tracker.planning.edging import compared

    top, left, bottom, right = _numbers(said, "TOP LEFT BOTTOM RIGHT, such as plan edges 40 38 40 40", 4)
    lines = compared((top, left, bottom, right))
    return {"edges": [top, left, bottom, right], "told": list(lines)}, list(lines)


def _gauge(said: argparse.Namespace) -> Answer:
    from tracker.planning.gauge import Gauge, NoGauge, counts, length_cm, swatch_told

    if not said.stitches or said.stitches <= 0 or (said.rows or 0) < 0:
        raise NoGauge(
            "It is written: plan gauge --stitches 16 --rows 9 --over 10cm --width 45cm --height 60cm --multiple 4+2."
        )
    over = length_cm(said.over)
    gauge = Gauge(said.stitches, said.rows or 0.0, over, over)
    multiple, _, plus = said.multiple.partition("+")
    if not multiple.strip().isdigit() or plus and not plus.strip().isdigit():
        raise NoGauge(
            f"--multiple takes a repeat and what is added at the edges, such as 4+2; {said.multiple!r} is not that."
        )
    answer: dict[str, Any] = {"stitch_cm": round(gauge.width_cm, 4), "row_cm": round(gauge.height_cm, 4)}
    lines = [
        f"One stitch is {gauge.width_cm * 10:.1f} mm wide"
        + (f" and one row {gauge.height_cm * 10:.1f} mm high." if gauge.rows else ".")
    ]
    lines += [line for line in [swatch_told(over)] if line]
    for name, wanted, each, repeat, more, of in (
        ("width", said.width, gauge.width_cm, int(multiple), int(plus or 0), "stitches"),
        ("height", said.height, gauge.height_cm, 1, 0, "rows"),
    ):
        if wanted is None:
            continue
        if not each:
            raise NoGauge("For a height the swatch's rows are needed; add --rows.")
        found = counts(length_cm(wanted), each, repeat, more)
        answer[name] = [{"number": one.number, "cm": one.cm} for one in found]
        told = ", or ".join(f"{one.number} {of} ({one.cm:g} cm, {one.cm / 2.54:.1f} in)" for one in found)
        lines.append(f"For a {name} of {wanted}: {told}.")
    return answer, lines


def _swatch(said: argparse.Namespace) -> Answer:
    """A pattern for a swatch, to be worked like any other: from a pattern's own gauge, or from a stitch."""
    from tracker.load import sized
    from tracker.planning import gauge as gauges
    from tracker.planning.swatch import written
    from tracker.program.row.squares import mesh_of

    if len(said.words) > 2:
        raise ValueError("It is written: plan swatch FILE, or plan swatch --of dc --stitches 14 --rows 8.")
    mesh = None
    if len(said.words) == 2:
        loaded = sized(*text_of(said.words[1]), said.size)
        gauge = gauges.stated(loaded.pattern.notes)
        if gauge is None:
            raise gauges.NoGauge(
                "The pattern states no gauge to make a swatch for; say --of, --stitches and --rows."
            )
        mesh = mesh_of(loaded.fabric)
        of = gauges.stitch_of(gauge, loaded.fabric)
    else:
        over = gauges.length_cm(said.over)
        gauge = gauges.Gauge(said.stitches or 14, said.rows or 8, over, over, said.of)
        of = said.of
    made = written(of, gauge, mesh if gauge.of in ("squares", "windows", "meshes") else None)
    return {"pattern": made}, made.rstrip("\n").split("\n")
