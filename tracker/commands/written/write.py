"""The command `write`: a pattern in clean standard notation, in US or UK terms.

Words of the command line come in; the text goes to standard output, what is to be said about it to standard error, and
an exit status comes back: 0 fine, 1 the text holds no row, 2 wrong use or a file that cannot be read.
"""

import argparse
import sys
from typing import Any

from tracker.files import Unreadable, text_of
from tracker.load import WrongSize, sized


def add_parsers(commands: Any) -> None:
    """Adds `write`."""
    told = "writes a pattern in clean standard notation, in US or UK terms"
    parser: argparse.ArgumentParser = commands.add_parser("write", help=told, description=told)
    parser.add_argument("file", metavar="FILE", help="the pattern; - for standard input")
    parser.add_argument(
        "--terms", choices=("us", "uk"), help="the terms to write in; the pattern's own when not said"
    )
    parser.add_argument("--full", action="store_true", help="every row spelled out, none told by a reference")
    parser.add_argument("--size", metavar="NAME", help="the size to write; the first when not said")
    parser.set_defaults(run=run)


def run(said: argparse.Namespace) -> int:
    """Carry out `write`."""
    from tracker.writing import differing, write

    try:
        name, text = text_of(said.file)
        loaded = sized(name, text, said.size)
    except (Unreadable, WrongSize) as fault:
        sys.stderr.write(f"{fault}\n")
        return 2
    written = write(loaded, said.terms, said.full)
    sys.stdout.write(written)
    odd = differing(loaded, written)
    if odd:
        several = f" and {len(odd) - 3} more" if len(odd) > 3 else ""
        sys.stderr.write(
            f"Not the same when read again: {', '.join(odd[:3])}{several}; compare with the original.\n"
        )
    return 0 if loaded.fabric.length else 1
