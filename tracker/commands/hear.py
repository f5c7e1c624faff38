"""The command `hear`: what the ear makes of recordings. The ear itself is in `ears`; this only lets it in."""

import argparse
import sys
from collections.abc import Callable

try:
    from tracker.ears.__main__ import add_hear_arguments, hear
except ImportError as missing:
    _missing: ImportError | None = missing
else:
    _missing = None


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The words `hear` takes."""
    if _missing is None:
        add_hear_arguments(parser)
    else:
        parser.add_argument("files", nargs="*", metavar="FILE")


def run(said: argparse.Namespace, say: Callable[[str], object]) -> int:
    """Carry out `hear`."""
    if _missing is not None:
        sys.stderr.write(
            f"The ear is not to be had on this machine ({_missing}); keys and typed words do all it does.\n"
        )
        return 2
    return hear(said, say)
