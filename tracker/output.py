"""The file that a command writes, the rows it takes, and what it says when it cannot: one place for all commands.

Words of the command line come in; a file, or one sentence on stderr and an exit status, goes out. A command never
writes over the file that it has read.
"""

import re
import sys
from collections.abc import Iterable
from pathlib import Path

from tracker.problems import Problem, Severity


class NotWritten(ValueError):
    """A file that cannot be written; the message says why and what to do."""


def write(name: str, made: bytes, read: str | None = None) -> None:
    """Write a file; NotWritten when it cannot be, or when it is the file `read` itself."""
    file = Path(name)
    try:
        if read is not None and file.exists() and Path(read).exists() and file.samefile(read):
            raise NotWritten(f"{name} is the file that was read; name another to write to.")
        file.write_bytes(made)
        tell(f"{name} is written.")
    except OSError as fault:
        raise NotWritten(
            f"{name} cannot be written ({fault.strerror}); choose another name or folder."
        ) from None
    except ValueError as fault:
        if isinstance(fault, NotWritten):
            raise
        raise NotWritten(f"{name!r} holds a sign that no file can have; choose another name.") from None


def ending_of(name: str, endings: Iterable[str], what: str) -> str:
    """The ending of a name, one of those that `what` can be written as; NotWritten names them."""
    ending = Path(name).suffix.lower()
    if ending not in endings:
        raise NotWritten(
            f"{name} has no ending that {what} can be written as; use one of {', '.join(endings)}."
        )
    return ending


def rows_of(words: str | None) -> tuple[int, int] | None:
    """Two row numbers as they are written on a command line; ValueError says how.

    >>> rows_of("3-7"), rows_of("5"), rows_of(None)
    ((3, 7), (5, 5), None)
    """
    if words is None:
        return None
    hit = re.fullmatch(r"\s*(\d{1,9})\s*(?:[-–]\s*(\d{1,9})\s*)?", words)
    if hit is None or not 1 <= int(hit[1]) <= int(hit[2] or hit[1]):
        raise ValueError(
            f"--rows takes two row numbers, the lower first, such as 3-7; {words!r} is not that."
        )
    return int(hit[1]), int(hit[2] or hit[1])


def say(line: str) -> None:
    """A line for the maker, at once."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def tell(line: object) -> None:
    """A line about what went wrong."""
    sys.stderr.write(f"{line}\n")


def refused(fault: object, status: int) -> int:
    """One sentence on stderr; the exit status."""
    tell(fault)
    return status


def with_errors(problems: Iterable[Problem], done: str) -> int:
    """1 when the pattern has an error, said with what was done all the same ("Drawn as the words make it"); else 0."""
    wrong = next((problem for problem in problems if problem.severity is Severity.ERROR), None)
    if wrong is None:
        return 0
    return refused(f"{done}, but the pattern has errors: {wrong.headline}. See check.", 1)
