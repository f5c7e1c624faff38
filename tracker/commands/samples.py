"""The command `samples`: the patterns that came with rowteller, with their files. Lines go out."""

import argparse
import sys
from collections.abc import Callable


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """It takes no words."""


def run(said: argparse.Namespace, say: Callable[[str], object]) -> int:
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
