"""What a printed sheet says, as values. Nothing here lays out a page."""

from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing to do and tick off: a row, or what is done between rows."""

    label: str
    """"Row 2"; empty for what is done between rows."""
    side: str
    """"right side", "wrong side", or nothing."""
    words: tuple[str, ...]
    """What to do: one paragraph, or in large print a line for every group and every pass of a repeat."""
    count: str = ""
    """What stands on the row when it is done: "25 dc, 8 ch-1 sps"."""
    cues: tuple[str, ...] = ()
    """What to mind, a sentence each: a colour, a row unlike the last, the turn."""
    boxes: int = 1
    """One for each copy to be made."""


@dataclass(frozen=True, slots=True)
class Chapter:
    """A part of the piece, with its rows."""

    heading: str
    """"Foot (make 4)"; "Rows" for a piece that is one and whole."""
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Leaf:
    """A whole sheet."""

    title: str
    about: tuple[str, ...]
    """Of what it is, size and terms, a sentence or two each."""
    cautions: tuple[str, ...]
    before: tuple[tuple[str, tuple[str, ...]], ...]
    """Headings with lines: materials, gauge, notes, abbreviations."""
    chapters: tuple[Chapter, ...]
    after: tuple[Entry, ...]
    """Ends, blocking and the rest, to tick off."""
    layout: tuple[str, ...] = ()
    """How pieces to be joined lie: "Top row: 1, 2, 3." """
    measured: tuple[str, ...] = ()
    """Names of the copies whose blocked size is to be written down: "Square 1", "Square 2", …"""
    sizes: tuple[str, ...] = ()
    """For each of these the size that was noted, "" where none was; () when nothing was noted."""

    def size_of(self, nth: int) -> str:
        """What was noted of one of the measured; "" for nothing."""
        return self.sizes[nth] if nth < len(self.sizes) else ""
