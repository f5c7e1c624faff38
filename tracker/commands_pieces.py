"""The commands `pieces` and `samples`: what is in hand, and what came with rowteller. Lines go out."""

import argparse
import sys
from collections.abc import Callable
from datetime import datetime


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Neither takes any words."""
    parser.set_defaults(command=parser.prog.rpartition(" ")[2])


def run(said: argparse.Namespace, say: Callable[[str], object]) -> int:
    """Carry out either."""
    return _samples(say) if said.command == "samples" else _pieces(say)


def _pieces(say: Callable[[str], object]) -> int:
    """The pieces in hand, latest first."""
    from tracker.journal import pieces, pieces_folder

    found, notices = pieces(pieces_folder())
    for notice in notices:
        sys.stderr.write(f"{notice}\n")
    if not found:
        say("No piece is in hand yet. Begin one with: rowteller work FILE")
    width = max((len(piece.name) for piece in found), default=0)
    for piece in found:
        day = (
            f"{datetime.fromtimestamp(piece.latest_ms / 1000):%Y-%m-%d %H:%M}"
            if piece.latest_ms
            else "not begun     "
        )
        say(f"{piece.name:{width}}  {day}  {piece.label or '-':8}  {piece.source}")
    return 0


def _samples(say: Callable[[str], object]) -> int:
    """The sample patterns with their files."""
    from tracker.samples import samples

    found = samples()
    if not found:
        sys.stderr.write("This copy of rowteller came without its samples.\n")
        return 1
    width = max(map(len, found))
    for name, file in found.items():
        say(f"{name:{width}}  {file}")
    return 0
