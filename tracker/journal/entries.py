"""The values a journal holds: nothing comes in but values, nothing is read, no clock is looked at.

An entry says what the maker did, never what was worked out from it. Names of deeds and arguments are frozen
from the day they are first written: old journals hold them for good.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import sha256

Json = None | bool | int | float | str | list["Json"] | dict[str, "Json"]
"""What an argument of a deed can be."""


@dataclass(frozen=True, slots=True)
class Anchor:
    """What a place is known by when the pattern's text is no longer the same."""

    part: str | None
    """The part's own name, None in a pattern without parts."""
    copy: int
    """Which of several alike, from 1."""
    row_index: int
    """The worked row, from 1, counted as `check` counts."""
    label: str
    """The row as it is printed ("Row 9")."""
    digest: str
    """The digest of that row's own text."""
    passes: tuple[int, ...] = ()
    """Which pass of each repeat that is open here, outermost first, from 1."""
    elements_done: int = 0
    """Stitches and spaces of the row that are done."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One deed of the maker and where it left them."""

    number: int
    """From 1, each one more than the one before."""
    at_ms: int
    """When, in milliseconds since 1970 in UTC."""
    deed: str
    """The deed's frozen name."""
    arguments: Mapping[str, Json] = field(default_factory=dict)
    """What came with the deed; a choice is here as its outcome."""
    place: tuple[int, ...] = ()
    """The address in the program after the deed."""
    anchor: Anchor | None = None
    """The same place in the pattern's own words; None where there is no row to name."""
    note: str = ""
    """The maker's own words, or nothing."""


@dataclass(frozen=True, slots=True)
class Text:
    """The pattern's text as it was when the piece was worked from it."""

    number: int
    """From 1; the highest is the one in use."""
    at_ms: int
    """When it was first met, in milliseconds since 1970 in UTC."""
    source: str
    """Where it came from: a file's path, or what the maker called it."""
    digest: str
    text: str
    from_entry: int
    """The number of the first entry that is worked from this text."""


@dataclass(frozen=True, slots=True)
class Notice:
    """Something about a journal that its maker should hear, though the work goes on."""

    headline: str
    """What is so."""
    help: str = ""
    """What to do about it, or what was done."""

    def __str__(self) -> str:
        return f"{self.headline} {self.help}".strip()


def digest_of(text: str) -> str:
    """The digest by which a text is known again; how its lines end makes no difference.

    >>> digest_of("Row 1: Ch 3.\\r\\n") == digest_of("Row 1: Ch 3.\\n")
    True
    """
    return sha256("\n".join(text.splitlines()).encode("utf-8", "surrogatepass")).hexdigest()
