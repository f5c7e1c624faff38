"""The command `log`: deeds with their times, how long each row took, the pace by kind of stitch, the time left.

Words of the command line come in; lines and an exit status go out: 0 fine, 2 a piece that cannot be had.
"""

import argparse
import json
import sys
from collections.abc import Callable
from datetime import datetime
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tracker.journal import Entry, Whole
    from tracker.session.record.log import KindTime, RowTime
    from tracker.session.state import Session

Say = Callable[[str], object]


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The words `log` takes."""
    parser.add_argument("piece", nargs="?", metavar="NAME", help="a piece; without it the piece worked last")
    parser.add_argument("--last", type=int, default=20, metavar="N", help="so many deeds and rows; 0 for all")
    parser.add_argument("--json", action="store_true", help="all of it for other programs")


def run(said: argparse.Namespace, say: Say) -> int:
    """Carry out `log`."""
    from tracker.journal import pieces, pieces_folder
    from tracker.session.record.log import kinds_timed, left_said, rows_timed
    from tracker.shelf.choosing import NoPiece, chosen
    from tracker.shelf.taking_up import steps_of, taken_down

    found, _ = pieces(pieces_folder())
    try:
        piece = chosen(said.piece or "1", found)
        whole, _, session = taken_down(piece.file)
    except (NoPiece, ValueError) as fault:
        sys.stderr.write(f"{fault}\n")
        return 2
    steps = steps_of(whole)
    rows, kinds = rows_timed(session.program, steps), kinds_timed(session.program, steps)
    left = left_said(session, rows)
    if said.json:
        say(json.dumps(_told(piece.name, whole, rows, kinds, left), ensure_ascii=False))
        return 0
    for line in _lines(piece.name, whole, session, rows, kinds, said.last):
        say(line)
    say(left)
    return 0


def _lines(
    name: str,
    whole: "Whole",
    session: "Session",
    rows: "tuple[RowTime, ...]",
    kinds: "tuple[KindTime, ...]",
    last: int,
) -> list[str]:
    from tracker.planning.time import spell

    many = len(whole.entries)
    out = [f"{name}: {many} deed{'' if many == 1 else 's'}."]
    shown = whole.entries[-last:] if last > 0 else whole.entries
    if len(shown) < many:
        out.append(f"  … {many - len(shown)} before these; --last 0 shows all")
    out += [f"  {_when(entry.at_ms)}  {_deed(entry):22}  {_place(entry)}".rstrip() for entry in shown]
    if rows:
        timed = rows[-last:] if last > 0 else rows
        out.append("Time a row, rests left out:")
        copies = any(one.copy > 1 for one in rows)
        for one in timed:
            copy = f"{one.copy:3}, " if copies else ""
            out.append(
                f"  {copy}{one.label:10}  {_minutes(one.seconds):>8}  "
                f"{'ended' if one.whole else 'so far, until'} {_when(one.ended_ms)}"
            )
        out.append(f"In all {spell(sum(one.seconds for one in rows))} of work.")
    if kinds:
        out.append("Your pace, one stitch:")
        out += [
            f"  {one.kind:8} {one.seconds:5.1f} s, half of them between {one.quick:.1f} and {one.slow:.1f} s "
            f"({one.stitches} timed)"
            for one in kinds
        ]
    return out


def _deed(entry: "Entry") -> str:
    """The deed with what came with it, for the eye."""
    words = [entry.deed]
    words += [
        str(value)
        for key, value in entry.arguments.items()
        if key in ("number", "to", "words", "minutes", "steps") and value != ""
    ]
    return " ".join(words)


def _place(entry: "Entry") -> str:
    anchor = entry.anchor
    if anchor is None:
        return "finished" if entry.place else ""
    part = f"{anchor.part} " if anchor.part else ""
    copy = f"{anchor.copy}, " if anchor.copy > 1 else ""
    done = f", {anchor.elements_done} done" if anchor.elements_done else ""
    return f"{part}{copy}{anchor.label or 'between rows'}{done}"


def _when(at_ms: int) -> str:
    return f"{datetime.fromtimestamp(at_ms / 1000):%Y-%m-%d %H:%M:%S}"


def _minutes(seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02}"


def _told(
    name: str, whole: "Whole", rows: "tuple[RowTime, ...]", kinds: "tuple[KindTime, ...]", left: str
) -> dict[str, object]:
    return {
        "name": name,
        "deeds": [
            {
                "number": one.number,
                "at_ms": one.at_ms,
                "deed": one.deed,
                "arguments": dict(one.arguments),
                "row": one.anchor.label if one.anchor else None,
                "elements_done": one.anchor.elements_done if one.anchor else None,
            }
            for one in whole.entries
        ],
        "rows": [
            {"copy": one.copy, "row": one.label, "index": one.row, "seconds": round(one.seconds, 1)}
            for one in rows
        ],
        "pace": [
            {
                "kind": one.kind,
                "seconds": round(one.seconds, 2),
                "quick": round(one.quick, 2),
                "slow": round(one.slow, 2),
                "stitches": one.stitches,
            }
            for one in kinds
        ],
        "left": left,
    }
