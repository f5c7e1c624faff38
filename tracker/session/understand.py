"""A typed line, or a phrase the ear has heard, to the deed it asks for.

Any text comes in; a deed goes out, or None for words that are in no row of the table. Case, marks, "please" and hyphens
make no difference, and numbers may be figures or words.
"""

import re
from functools import cache

from tracker.session.amiss.doing import awaits_number, phrases_now
from tracker.session.amiss.righting import Kinds
from tracker.session.commands import COMMANDS, Command
from tracker.session.deeds import Deed, Number
from tracker.session.state import Session
from tracker.trade.numbers import number_of

LONGEST_LINE = 400
"""Characters of a line that are looked at; no command is longer."""
HIGHEST = 1_000_000
"""No row and no count is higher."""


def understand(line: str, awaiting_number: bool = False) -> Deed | None:
    """The deed that a line asks for; with `awaiting_number` a number alone is an answer.

    >>> understand("Go to row twenty-three"), understand("count 20"), understand("knit two")
    (GoToRow(number=23), Count(number=20, squares=False, kinds=''), None)
    """
    words = _plain(line)
    if (found := _fixed().get(words)) is not None:
        return found.make(0)
    for pattern, command in _numbered():
        if hit := pattern.fullmatch(words):
            number = number_of(hit["n"])
            if number is not None and number <= HIGHEST:
                return command.make(number)
    for pattern, command in _named():
        if command.make_named is not None and (hit := pattern.fullmatch(words)):
            return command.make_named(hit["s"])
    for start, command in _worded():
        # The words stay as they were typed: they are the maker's own.
        if command.write is not None and (hit := start.match(line[:LONGEST_LINE].strip())):
            return command.write(" ".join(hit["words"].split()))
    if awaiting_number and (number := number_of(words)) is not None and number <= HIGHEST:
        return Number(number)
    return None


def understood(line: str, session: Session) -> Deed | None:
    """The deed that a line asks for just now: answers to the question that waits come first."""
    words = _plain(line)
    for phrase, deed in phrases_now(session):
        if words == phrase:
            return deed
    deed_asked = understand(line, awaiting_number=awaits_number(session))
    if deed_asked is None and session.amiss.tally is not None and words:
        return Kinds(line[:LONGEST_LINE].strip())
    if deed_asked is None and (number := number_of(words)) is not None and number <= HIGHEST:
        # nobody asked for it: that is said, and how to say what it counts
        return Number(number)
    return deed_asked


def _plain(line: str) -> str:
    words = re.sub(r"[^\w'?\s]+", " ", line[:LONGEST_LINE].lower().replace("’", "'")).replace("?", " ? ")
    words = " ".join(words.split())
    if words != "?":
        words = words.removesuffix("?").strip()
    return words.removesuffix(" please") if words not in ("yes please",) else words


@cache
def _fixed() -> dict[str, Command]:
    out: dict[str, Command] = {}
    for command in COMMANDS:
        for phrase in (*command.phrases, *command.typed, command.name):
            if "{" not in phrase and not command.needs_number:
                out.setdefault(phrase, command)
    return out


@cache
def _numbered() -> tuple[tuple[re.Pattern[str], Command], ...]:
    return tuple(
        (re.compile(re.escape(phrase).replace(r"\{n\}", r"(?P<n>[a-z0-9 ]+?)")), command)
        for command in COMMANDS
        for phrase in (*command.phrases, *command.typed)
        if "{n}" in phrase
    )


@cache
def _named() -> tuple[tuple[re.Pattern[str], Command], ...]:
    """Rows that take the name of a stitch; the longest spelling first, so that "a" is no part of the name."""
    rows = [(phrase, command) for command in COMMANDS for phrase in command.named]
    return tuple(
        (re.compile(re.escape(phrase).replace(r"\{s\}", r"(?P<s>[a-z0-9][a-z0-9 ]{0,30})")), command)
        for phrase, command in sorted(rows, key=lambda row: -len(row[0]))
    )


@cache
def _worded() -> tuple[tuple[re.Pattern[str], Command], ...]:
    return tuple(
        (
            re.compile(re.escape(phrase.removesuffix(" {words}")) + r":?\s+(?P<words>\S.*)", re.IGNORECASE),
            command,
        )
        for command in COMMANDS
        for phrase in command.typed
        if phrase.endswith("{words}")
    )


__all__ = ["understand", "understood"]
