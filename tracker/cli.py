"""The command line: takes its words, gives an exit status (0 fine, 1 a fault in the pattern, 2 wrong use).

Only what a command needs is imported, when it is asked for: `check` must not wait for an ear.
"""

import argparse
import gc
import importlib
import io
import os
import sys
from collections.abc import Callable, Sequence

from tracker import __version__
from tracker.commands.usage import Parser
from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Command:
    """A command, and where it is found."""

    name: str
    module: str
    """Holds `add_arguments(parser)` and `run(said, say)`."""
    help: str


COMMANDS = (
    Command("demo", "tracker.commands.pieces.demo", "shows what it does, on a pattern of its own"),
    Command("check", "tracker.commands.check", "reads a pattern and says what is wrong with it"),
    Command("work", "tracker.commands.pieces.work", "leads you through a pattern, group by group"),
    Command(
        "start", "tracker.commands.pieces.work", "a short guided start: sound, pedal, hand; then pick a piece"
    ),
    Command(
        "pick", "tracker.commands.pieces.work", "picks a piece in hand or a pattern, with a picture of it"
    ),
    Command(
        "pieces", "tracker.commands.pieces.keep", "the pieces in hand: list, card, rename, export, import"
    ),
    Command("log", "tracker.commands.pieces.log", "how long rows took, your pace, and the time left"),
    Command("find", "tracker.commands.find", "finds the place in a piece from what can be seen of it"),
    Command("miscount", "tracker.commands.find", "says what may have happened when a count is off"),
    Command("chart", "tracker.commands.written.chart", "draws the chart of a pattern"),
    Command(
        "filet", "tracker.commands.written.chart", "writes a filet pattern from a grid, a picture or words"
    ),
    Command(
        "sheet",
        "tracker.commands.written.sheet",
        "prints a pattern to tick off row by row, in large print too",
    ),
    Command("plan", "tracker.commands.plan", "yarn, time, size, even spacing, edgings"),
    Command(
        "write", "tracker.commands.written.write", "writes a pattern in clean standard notation, US or UK"
    ),
    Command("hear", "tracker.commands.hear", "what the ear makes of recordings"),
    Command("pedal", "tracker.hands_free.commands", "learns your pedal: press it once"),
    Command(
        "voice", "tracker.hands_free.speaking.commands", "how it speaks: speed, voice, words, tones, hand"
    ),
    Command(
        "ear", "tracker.hands_free.commands", "teaches the ear your voice, looks at the room, names its words"
    ),
    Command("samples", "tracker.commands.samples", "the patterns that came with rowteller"),
)


def main(words: Sequence[str] | None = None) -> int:
    """Carry out one command line and return its exit status."""
    given = list(sys.argv[1:] if words is None else words)
    for stream in (sys.stdin, sys.stdout, sys.stderr):
        # A letter that the terminal has not, or that nobody can decode, is no reason to lose a place.
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    if words is None:
        # What is imported lives as long as the process: to look through it for garbage was a fifth of a check.
        gc.disable()
    try:
        return _carry_out(given)
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        # Whoever read us has read enough; Python must not try to flush what is left.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0


def _carry_out(given: list[str]) -> int:
    parser = Parser(
        prog="rowteller",
        formatter_class=_Help,
        description="Reads a crochet pattern, checks it, and leads you through it, hands-free.",
    )
    parser.add_argument("--version", action="version", version=f"rowteller {__version__}")
    # told its name, argparse asks for no terminal's width, and for none of what that imports
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", prog="rowteller")
    asked = next((word for word in given if not word.startswith("-")), None)
    grouped: set[str] = set()
    for command in COMMANDS:
        if command.name != asked:
            if command.module not in grouped:
                commands.add_parser(command.name, help=command.help, add_help=False)
            continue
        try:
            module = importlib.import_module(command.module)
        except ModuleNotFoundError as missing:
            print(f"{command.name} needs {missing.name}, which is not installed here.", file=sys.stderr)
            return 2
        if hasattr(module, "add_parsers"):
            for other in COMMANDS:
                if other.module == command.module:
                    commands.choices.pop(other.name, None)
                    grouped.add(other.module)
            module.add_parsers(commands)
        else:
            own = commands.add_parser(
                command.name, help=command.help, description=command.help, formatter_class=_Help
            )
            module.add_arguments(own)
            own.set_defaults(run=module.run, plainly=True)
    if not gc.isenabled():
        gc.freeze()
        gc.enable()
    try:
        said, left_over = parser.parse_known_args(given)
        if left_over:
            commands.choices.get(asked or "", parser).error(f"unrecognized arguments: {' '.join(left_over)}")
    except SystemExit as left:
        return int(left.code or 0)
    if not hasattr(said, "run"):
        parser.print_help()
        return 0 if not given else 2
    run: Callable[..., int] = said.run
    return run(said, _say) if getattr(said, "plainly", False) else run(said)


class _Help(argparse.HelpFormatter):
    """Help as wide as the terminal, found without shutil: argparse asks for a formatter with every argument, and
    what shutil imports a check would wait for."""

    def __init__(self, prog: str) -> None:
        width = os.environ.get("COLUMNS", "")
        try:
            columns = int(width) if width.isdecimal() else os.get_terminal_size(1).columns
        except OSError:
            columns = 0
        super().__init__(prog, width=(columns or 80) - 2)


def _say(line: str) -> None:
    print(line, flush=True)
