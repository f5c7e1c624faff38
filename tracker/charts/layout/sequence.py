"""Colours that take turns by a rule told once: "in colour sequence", "3 rows C, 3 rows A", "changing colour every two
rows". The words of a row that is worked again come in, with the colours of the rows before; a letter a row goes out.
"""

import re
from collections.abc import Callable, Mapping

from tracker.trade.numbers import number_of

NAME = r"(?:MC|CC\d?|[A-H])"
_COUNT = r"(?:\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten|twelve)"
_RULE = re.compile(r"\b(?:colou?r|stripe|striping)s?\s+(?:sequence|order|pattern)\b", re.IGNORECASE)
_STATED = re.compile(
    r"\b(?:colou?r|stripe)s?\s+(?:sequence|order|pattern)\s*[:=–-]\s*([^.\n]+)", re.IGNORECASE
)
_TURN = re.compile(rf"(?:\b((?i:{_COUNT}))\s+(?i:rows?|rnds?|rounds?)\s*(?i:of|in|each)?\s*)?\b({NAME})\b")
_EACH = re.compile(
    rf"\b({_COUNT})\s+(?:rows?|rnds?|rounds?)\s+(?:each|of each)\b|\b({_COUNT})\s+(?:rows?|rnds?|rounds?)\s+in each\b",
    re.IGNORECASE,
)
_EVERY = re.compile(
    rf"\b(?:chang|alternat)\w*\s+colou?rs?\s+(?:every|each)\s+({_COUNT})?\s*(?:rows?|rnds?|rounds?)\b"
    rf"|\b({_COUNT})[- ]r(?:ow|ound|nd)\s+stripes?\b",
    re.IGNORECASE,
)
_AGAIN = re.compile(
    r"\brep(?:eat)?\w*\s+(?:rows?|rnds?|rounds?)\s+(\d+)(?:\s*(?:-|–|&|and|to|through)\s*(\d+))?",
    re.IGNORECASE,
)


def turns_told(words: str) -> tuple[str, ...]:
    """A letter a row, for as long as the rule goes before it begins again; () when the words name no colours.

    >>> turns_told("3 rows C, 3 rows A"), turns_told("B, C, A"), turns_told("2 rows each A and B")
    (('C', 'C', 'C', 'A', 'A', 'A'), ('B', 'C', 'A'), ('A', 'A', 'B', 'B'))
    """
    each = _EACH.search(words)
    usual = _number((each[1] or each[2]) if each else None) or 1
    return tuple(
        letter for many, letter in _TURN.findall(words) for _ in range(usual if each else _number(many) or 1)
    )


def stated_sequence(text: str) -> tuple[str, ...]:
    """The rule that a pattern's notes state for the whole piece: "Colour sequence: A, A, B, B, repeated."."""
    hit = _STATED.search(text)
    found = turns_told(hit[1]) if hit else ()
    return found if len(set(found)) > 1 else ()


def in_turn(words: str, before: Mapping[int, str]) -> Callable[[int], str] | None:
    """What rows that are worked again by such a rule are worked in, by how many of them are done; None without one.

    `words`: of the line that says so; `before`: the letter of each row before it, by the row's number.
    """
    rule, letters = _RULE.search(words), list(before.values())
    cycle = list(dict.fromkeys(letters))
    if rule and (turns := turns_told(words[rule.end() :])):
        return lambda nth: turns[nth % len(turns)]
    if (every := _EVERY.search(words)) and len(cycle) > 1:
        return _by_number(cycle, letters, _number(every[1] or every[2]) or 1)
    again = _AGAIN.search(words)
    if not rule or not again or len(cycle) < 2:
        return None
    first, last = int(again[1]), int(again[2] or again[1])
    if last < first or any(number not in before for number in range(first, last + 1)):
        return None
    if {before[number] for number in range(first, last + 1)} == set(cycle):
        return lambda nth: before[first + nth % (last - first + 1)]
    return _going_on(before, cycle, first, last)


def _by_number(cycle: list[str], letters: list[str], many: int) -> Callable[[int], str]:
    """So many rows of each, going on from the last; those it has had already count."""
    had = next((nth for nth, letter in enumerate(reversed(letters)) if letter != letters[-1]), len(letters))
    start = cycle.index(letters[-1]) * many + min(had, many)
    return lambda nth: cycle[(start + nth) // many % len(cycle)]


def _going_on(before: Mapping[int, str], cycle: list[str], first: int, last: int) -> Callable[[int], str]:
    """The rows change where those that they repeat did, each time to the next colour round."""

    def changes(number: int) -> bool:
        return number in before and number - 1 in before and before[number - 1] != before[number]

    long = last - first + 1
    steps = [changes(first + at) for at in range(long)]
    again = steps[0] or changes(last + 1)
    begun = cycle.index(list(before.values())[-1])

    def letter(nth: int) -> str:
        passes, at = divmod(nth, long)
        moved = sum(steps[: at + 1]) + passes * (sum(steps[1:]) + again)
        return cycle[(begun + moved) % len(cycle)]

    return letter


def _number(words: str | None) -> int:
    return number_of(words.lower()) or 0 if words else 0
