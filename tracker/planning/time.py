"""Time: how long a piece takes. Stitches come in, and the maker's own log of rows; seconds with a range go out.

Without a log it is a guess and is said to be one.
"""

from statistics import median, quantiles

from tracker.records import dataclass

GUESS_S = (3.0, 4.5, 8.0)
"""Seconds a single crochet takes a quick, a middling and a slow maker (from memory, no source)."""
LEAST_ROWS = 3
"""Rows in a log before it is believed."""
PAUSE_S = 1800.0
"""Seconds after which a step was a rest, not work; longer for steps of a whole long row (`worked`)."""
FEW_ROWS = 8
"""With fewer rows than these the range is from the quickest to the slowest of them."""
NARROWEST = 0.1
"""A range is at least so wide to either side: the next rows are never quite like the last ones."""


@dataclass(frozen=True, slots=True)
class Pace:
    """Seconds for one single crochet: quick, middle, slow."""

    quick: float
    middle: float
    slow: float
    rows: int
    """Rows of the maker's own that it comes from; 0 for a guess."""


def pace_of(log: tuple[tuple[float, float], ...]) -> Pace:
    """The pace that a log shows: (seconds, single crochets) for each row worked; a guess while it is too short."""
    each = sorted(
        seconds / stitches for seconds, stitches in log if stitches > 0 and worked(seconds, stitches)
    )
    if len(each) < LEAST_ROWS:
        return Pace(*GUESS_S, rows=0)
    low, _, high = quantiles(each, n=4, method="inclusive")
    if len(each) < FEW_ROWS:
        low, high = each[0], each[-1]
    middle = median(each)
    return Pace(min(low, middle * (1 - NARROWEST)), middle, max(high, middle * (1 + NARROWEST)), len(each))


def worked(seconds: float, in_sc: float) -> bool:
    """True when so long may have been work alone, for so many single crochets' worth.

    Who goes row by row works a whole long row in one step: twice what a slow maker needs is still work.
    """
    return 0 < seconds < max(PAUSE_S, 2 * GUESS_S[2] * in_sc)


def told(in_sc: float, pace: Pace) -> str:
    """How long so many single crochets take, in one sentence."""
    between = f"between {spell(in_sc * pace.quick)} and {spell(in_sc * pace.slow)}"
    if not pace.rows:
        return (
            f"About {spell(in_sc * pace.middle)} of work, {between}; that is a "
            f"guess until you have worked {LEAST_ROWS} rows."
        )
    return f"About {spell(in_sc * pace.middle)} of work, {between}, by your last {pace.rows} rows."


def spell(seconds: float) -> str:
    """A length of time as it is said.

    >>> spell(50), spell(600), spell(9000)
    ('1 minute', '10 minutes', '2 and a half hours')
    """
    minutes = max(1, round(seconds / 60))
    if minutes < 90:
        return f"{minutes} minute{'s' if minutes > 1 else ''}"
    halves = round(minutes / 30)
    hours, half = divmod(halves, 2)
    return f"{hours} and a half hours" if half and hours < 20 else f"{round(minutes / 60)} hours"
