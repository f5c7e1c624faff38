"""What is said of words on the command line that cannot be taken: what is so, and how it is written.

Parsers of commands are of this kind; a sentence goes to stderr in place of a summary of every option, and the exit
status is 2.
"""

import argparse
import re
import sys
from collections.abc import Sequence
from typing import NoReturn

from tracker.expressions import expression

_CHOICE = expression(
    r"argument (?P<name>\S+): invalid choice: '?(?P<given>.*?)'? \(choose from (?P<known>.*)\)$", re.DOTALL
)
_KIND = expression(r"argument (?P<name>\S+): invalid (?P<kind>\w+) value: '(?P<given>.*)'$", re.DOTALL)
_EXPECTED = expression(r"argument (?P<name>\S+): expected (?:one|at least one) argument$")
_KINDS = {"int": "a whole number", "float": "a number"}


class Parser(argparse.ArgumentParser):
    """A parser whose faults are sentences."""

    def error(self, message: str) -> NoReturn:
        """The fault as a maker is told it; ends the command."""
        sys.stderr.write(f"{fault_said(message, self)}\n")
        raise SystemExit(2)


def fault_said(message: str, parser: argparse.ArgumentParser) -> str:
    """A fault in a sentence or two.

    >>> p = Parser(prog="rowteller voice")
    >>> fault_said("argument --speed: invalid int value: 'fast'", p)
    '--speed takes a whole number; “fast” is none.'
    >>> fault_said("argument --hand: invalid choice: 'both' (choose from 'left', 'right')", p)
    '--hand takes left or right, not “both”.'
    """
    if hit := _CHOICE.match(message):
        known = [name.strip("' ") for name in hit["known"].split(",")]
        if hit["name"].startswith("-"):
            return f"{_names(hit['name'])} takes {_either(known)}, not “{hit['given']}”."
        if not _has_commands(parser):
            return f"{parser.prog} takes {_either(known)}, not “{hit['given']}”."
        return _no_such(hit["given"], known, parser.prog)
    if hit := _KIND.match(message):
        kind = _KINDS.get(hit["kind"], f"another kind of value ({hit['kind']})")
        return f"{_names(hit['name'])} takes {kind}; “{hit['given']}” is none."
    if hit := _EXPECTED.match(message):
        return f"{_names(hit['name'])} needs something behind it.\n{_help_of(parser)}"
    if message.startswith("the following arguments are required: "):
        missing = message.partition(": ")[2]
        return f"Still missing: {missing}.\n{_help_of(parser)}"
    if message.startswith("unrecognized arguments: "):
        return _too_many(message.partition(": ")[2].split(), parser)
    return f"{message[:1].upper()}{message[1:]}.\n{_help_of(parser)}"


def _has_commands(parser: argparse.ArgumentParser) -> bool:
    """True where the first word is a command, and not one of a few values."""
    return any(isinstance(action, argparse._SubParsersAction) for action in parser._actions)


def _names(name: str) -> str:
    """ "--output" of "-o/--output"."""
    return name.rpartition("/")[2]


def _either(known: Sequence[str]) -> str:
    return " or ".join(filter(None, (", ".join(known[:-1]), known[-1])))


def _no_such(given: str, known: Sequence[str], prog: str) -> str:
    """A command that is none: a pattern's name where one was meant, or the nearest that there is."""
    import difflib
    from pathlib import Path

    if Path(given).suffix or Path(given).exists():
        reads, leads = f"{prog} check {given} reads it", f"{prog} work {given} leads you"
        return f"“{given}” is no command. Is it a pattern? {reads}; {leads}."
    near = difflib.get_close_matches(given, known, 1, 0.6)
    meant = f" Did you mean {near[0]}?" if near else ""
    return f"There is no command “{given}”.{meant} {prog} --help names them all."


def _too_many(words: Sequence[str], parser: argparse.ArgumentParser) -> str:
    """Options that there are not, or words too many."""
    option = next((word.partition("=")[0] for word in words if word.startswith("-")), "")
    what = f"There is no {option} here." if option else f"“{' '.join(words)}” is more than it takes."
    return f"{what}\n{_help_of(parser)}"


def _help_of(parser: argparse.ArgumentParser) -> str:
    return f"How it is written: {parser.prog} --help"
