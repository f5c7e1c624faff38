"""`python -m tracker.ears hear FILE… --json`: the ear alone, for measuring it."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable
from pathlib import Path

from tracker.ears.feeds.files import ENGINES, RecordingUnreadable, hear_files
from tracker.ears.port import Awaiting, EarMissing


def add_hear_arguments(parser: argparse.ArgumentParser) -> None:
    """The arguments of `hear`, the same wherever it is offered."""
    parser.add_argument(
        "files",
        nargs="+",
        type=Path,
        metavar="FILE",
        help="16 kHz mono WAV recordings, one voice in one sitting",
    )
    parser.add_argument("--engine", default="embedded", choices=ENGINES)
    parser.add_argument(
        "--awaiting",
        default="command",
        choices=[a.value for a in Awaiting],
        help="what has just been asked for",
    )
    parser.add_argument("--taught", type=Path, metavar="FOLDER", help="own recordings, named PHRASE__K.wav")
    parser.add_argument(
        "--strict", nargs="?", const="clover", metavar="NAME", help="a command counts only after this name"
    )
    parser.add_argument("--json", action="store_true", help="one JSON object a line")


def hear(o: argparse.Namespace, say: Callable[[str], object] = print) -> int:
    """Exit status: 0 fine, 2 when a file or the engine is missing."""
    try:
        for answer in hear_files(o.files, o.engine, o.awaiting, o.taught, o.strict):
            if o.json:
                say(json.dumps(answer, ensure_ascii=False))
                continue
            said = ", ".join(h["words"] for h in answer["heard"]) or "nothing"
            say(f"{answer['file']}: {said}")
            for passed in answer["passed_over"]:
                say(f"  {passed['start_ms'] / 1000:.1f} s passed over: {passed['why']}")
    except (RecordingUnreadable, EarMissing) as error:
        print(error, file=sys.stderr)
        return 2
    return 0


def main(arguments: list[str] | None = None) -> int:
    parser = argparse.ArgumentParser(prog="python -m tracker.ears", description=__doc__)
    commands = parser.add_subparsers(required=True)
    add_hear_arguments(commands.add_parser("hear", help="what the ear makes of recordings"))
    return hear(parser.parse_args(arguments))


if __name__ == "__main__":
    sys.exit(main())
