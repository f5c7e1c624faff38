"""Regular expressions that are compiled when they are first needed.

What `re.compile` takes goes in, with words of which every match holds one; what stands for its answer comes out: a
pattern to whoever reads or type-checks the code. Python compiles a regular expression anew in every process, a
millisecond for a long one; of two hundred that reading has, a pattern needs a few dozen. A faulty one would show only
when it is used, so a test compiles them all, and tries their words on every text of the corpus.

What makes compiling slow: under IGNORECASE a class such as `[a-z]`, because "ſ" and the Kelvin sign are letters of it
too (so it stands here as `(?-i:[A-Za-z])`), and a class of signs of which one is beyond Latin-1 and that makes more
than two ranges (so dashes stand in a class of their own).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

TYPE_CHECKING = False  # the name is enough for type checkers, and typing is slow to import
if TYPE_CHECKING:
    from typing import Any

_NOTHING_FOUND: dict[str, Callable[[str], object]] = {
    "findall": lambda text: [],
    "finditer": lambda text: iter(()),
    "fullmatch": lambda text: None,
    "match": lambda text: None,
    "search": lambda text: None,
    "sub": lambda text: text,
}
"""What the methods of a pattern answer for a text without a match."""


_last: tuple[str, str, dict[str, bool]] = ("", "", {})
"""The text that was asked about last, itself in small letters, and the words and letters it was found to hold or not:
one text is asked for many words in turn."""
_LONG = 2_000
"""Characters of a text that is better asked for the letters of a word before it is searched for the word."""


def _asked_about(text: str) -> tuple[str, str, dict[str, bool]]:
    global _last  # one value, replaced whole, so that threads at worst work it out twice
    known = _last
    if known[0] is not text:
        known = _last = (text, text.lower(), {})
    return known


def _holds(small: str, known: dict[str, bool], word: str) -> bool:
    """Whether a long text holds a word; most signs stand in no text at all, and one letter is soon looked for."""
    for letter in word:
        found = known.get(letter)
        if found is None:
            found = known[letter] = letter in small
        if not found:
            known[word] = False
            return False
    found = known[word] = word in small
    return found


class _Expression:
    """Stands for a pattern; once that is compiled, its methods are the pattern's own."""

    __slots__ = ("_flags", "_holds", "_source", *_NOTHING_FOUND)

    def __init__(self, source: str, flags: int, holds: tuple[str, ...]) -> None:
        self._source = source
        self._flags = flags
        self._holds = holds

    def __getattr__(self, name: str) -> Any:
        if not self._holds or name not in _NOTHING_FOUND:
            return getattr(self._compiled(), name)

        def asked(*given: Any, **named: Any) -> Any:
            text, *ends = given[1:2] if name == "sub" else given
            within = text[ends[0] : ends[1] if ends[1:] else None] if ends else text
            if within.isascii() and not self._may_match(within):
                return _NOTHING_FOUND[name](text)
            return getattr(self._compiled(), name)(*given, **named)

        return asked

    def _may_match(self, text: str) -> bool:
        _, small, known = _asked_about(text)
        if len(small) < _LONG:
            for word in self._holds:  # noqa: SIM110 - a generator costs as much as what it would do here
                if word in small:
                    return True
            return False
        for word in self._holds:
            found = known.get(word)
            if found or found is None and _holds(small, known, word):
                return True
        return False

    def _compiled(self) -> re.Pattern[str]:
        made = re.compile(self._source, self._flags)
        for used in _NOTHING_FOUND:
            setattr(self, used, getattr(made, used))
        return made


def expression(source: str, flags: int = 0, holds: Iterable[str] = ()) -> re.Pattern[str]:
    """A regular expression; `holds`, in lower case, are words of which each of its matches has one at least.

    >>> expression(r"rows? (?P<n>[0-9]+)", re.IGNORECASE, holds=["row"]).search("Row 12")["n"]
    '12'
    """
    return _Expression(source, flags, tuple(holds))  # type: ignore[return-value]
