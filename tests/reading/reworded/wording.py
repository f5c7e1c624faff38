"""What a rewording is: the words of one designer, and what another writes for the same."""

import re
from collections.abc import Callable
from dataclasses import dataclass

Put = str | Callable[[re.Match[str]], str]


@dataclass(frozen=True, slots=True)
class Rewording:
    """Words of one designer, and what another writes for them."""

    name: str
    words: str
    """A regular expression over the whole text."""
    put: Put
    """What stands there instead, as `re.sub` takes it."""
    but_not: str = ""
    """Names of patterns in which the other words would say something else."""

    def of(self, text: str) -> str:
        """The text in the other words; the same text where there is nothing to reword."""
        return re.sub(self.words, self.put, text)
