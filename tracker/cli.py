"""The command line: takes its words, gives an exit status (0 fine, 1 a fault in the pattern, 2 wrong use)."""

import argparse
from collections.abc import Sequence

from tracker import __version__


def main(words: Sequence[str] | None = None) -> int:
    """Carry out one command line and return its exit status."""
    parser = argparse.ArgumentParser(prog="rowteller", description=__doc__)
    parser.add_argument("--version", action="version", version=f"rowteller {__version__}")
    parser.parse_args(words)
    parser.print_help()
    return 0
