"""The one table of the codes of problems.

A code is frozen once it has been published: other tools filter by it.
"""

from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Code:
    """A kind of problem."""

    code: str
    name: str
    """The kind in words, as `check` lists it."""
    why: str
    """Why it matters to a maker."""


_ROWS = (
    Code("C201", "stated count differs", "The row makes another number of stitches than the pattern says."),
    Code("C202", "stitches left over", "The row ends before the row below does, and nothing says so."),
    Code("C203", "nothing left to work into", "The row needs more stitches than the row below offers."),
    Code("C204", "repeat does not come out even", "The repeat stops in the middle at the end of the row."),
    Code(
        "C205", "stitch into what is not there", "The words name a stitch or space that the row below lacks."
    ),
    Code("C206", "passed over without being told", "The next stitch lies beyond others that no word skips."),
    Code("C207", "foundation does not fit", "The foundation chain and the first row do not agree."),
    Code("C208", "count drifts", "Each time the row is worked again it gains or loses stitches."),
    Code("C209", "turning chain contradicts itself", "The chain is said both to count and not to count."),
    Code("C210", "another stitch than named", "The words name one stitch and the row below has another."),
    Code("C211", "size list of another length", "A list gives more or fewer figures than there are sizes."),
)
_TEXT = (
    Code(
        "T101", "not understood", "A phrase could not be read; it is followed word for word and not counted."
    ),
    Code("T102", "bracket not closed", "A bracket is opened and never closed, or closed and never opened."),
    Code("T103", "star without a partner", "A repeat goes back to a star that is not there."),
    Code(
        "T104", "abbreviation not known", "A stitch is named that neither the trade nor the pattern explains."
    ),
    Code("T105", "mixed terms", "The pattern mixes US and UK names, so that every stitch is in doubt."),
    Code("T106", "no row found", "The text holds nothing that could be worked."),
    Code("T107", "reading stopped", "The text goes deeper or on longer than a pattern can."),
)
_REFERENCES = (
    Code("R301", "no such row", "A row refers to one that does not exist, or not yet."),
    Code("R302", "range and repeat differ in length", "The printed range is not a whole number of repeats."),
    Code("R303", "row numbered twice", "Two rows carry one number."),
    Code("R304", "row missing", "The numbers jump over a row."),
)
_DOUBTS = (
    Code("D401", "turning chain assumed", "The pattern does not say whether the turning chain counts."),
    Code("D402", "times read by arithmetic", "“N times” can mean N in all or N more; the stitches decided."),
    Code("D403", "reading chosen by arithmetic", "A phrase has two readings; the one that fits was taken."),
    Code("D404", "terms told from the words", "The pattern does not say whether its terms are US or UK."),
)

CODES: dict[str, Code] = {row.code: row for row in _ROWS + _TEXT + _REFERENCES + _DOUBTS}
"""Every code by itself."""
