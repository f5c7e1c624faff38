"""THE TABLE of causes: what makers do wrong, how often, and how it is told. A new cause is one row here.

How often is common practice, no source: edges first, then whole repeats, then single stitches. Rates are for one
place where it can happen; what has many places grows with them up to `most`, so that a wide row of plain stitches
does not drown its edges.
"""

from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Cause:
    """One row of the table.

    In its sentences {st} is the stitch, {n} chains,
    {what} what belongs there, {row} row or round, {below} what it stands on, {other} another row's name.
    """

    name: str
    rate: float
    """How often in one place, of all rows that have the place."""
    most: float
    """How often at most in one row."""
    headline: str
    look: str
    feel: str
    everywhere: bool = False
    """True when a maker who misreads the pattern does it at every place."""


_ROWS = (
    Cause("missed_turning_chain", 0.10, 0.10,
          "The last {st} is missing: it goes into the turning chain.",
          "Look at the edge you have come to: it slants in, and the chain {n} stands free beside the last {st}.",
          "Don't turn. Feel under your hook: is the chain {n} bare?"),
    Cause("last_stitch_missed", 0.06, 0.06,
          "The last stitch is missing: {below} has one more.",
          "Look at the edge you have come to: {below} has one place left open, and the edge slants in.",
          "Don't turn. Feel on past your last stitch: is there one more place before the edge?"),
    Cause("first_stitch_skipped", 0.06, 0.06,
          "The first stitch was passed over, as if the chain stood for it.",
          "Look at where the {row} began: a gap beside the chain, and the edge slants in.",
          "Feel beside the chain that began the {row}: is there a hole before the first {st}?"),
    Cause("extra_in_first", 0.09, 0.09,
          "One {st} too many at the start: the stitch under the chain {n} was worked as well.",
          "Look at where the {row} began: the chain and a {st} come out of one stitch, and the edge slants out.",
          "Feel the foot of the chain {n}: are there two bases in that stitch?"),
    Cause("worked_into_uncounted_tch", 0.07, 0.07,
          "A stitch stands in the chain that does not count.",
          "Look at the end of the {row}: the last {st} stands on a thin chain, and the edge steps out.",
          "Pinch below the last {st}: is it a thin chain, not a full top?"),
    Cause("joining_st_worked", 0.06, 0.06,
          "A stitch stands in the join.",
          "Look where the {row} closes: one {st} stands on the slip stitch, and the seam drifts.",
          "Feel below the last {st}: is there a small hard knot, the slip stitch of the join?"),
    Cause("joined_early", 0.06, 0.06,
          "The {row} was closed before its last stitch.",
          "Look before the join: something of {below} is left unworked, and the seam drifts.",
          "Feel back from the join: is there an open top before it?"),
    Cause("skipped_stitch", 0.003, 0.045,
          "One stitch of {below} was passed over, or two were worked as one.",
          "Lay the {row} flat and look along its foot: one hole is wider than the rest.",
          "Run a fingertip along {below}: is there a place with nothing in it?"),
    Cause("doubled_stitch", 0.003, 0.045,
          "One stitch of {below} was used twice.",
          "Look along the {row}: two {st} fan out of one foot and make a bump.",
          "Run a fingertip along the feet: is one spot thick?"),
    Cause("group_missed", 0.013, 0.08,
          "One group is missing: {what}.",
          "Look along {below}: one place where something belongs is empty, and the {row} pulls tight there.",
          "Feel from place to place: is one of them empty?"),
    Cause("group_short", 0.009, 0.075,
          "One group has less in it than it should: {what}.",
          "Look at each group: one is thinner than the others.",
          "Count each group under a fingertip: is one short?", True),
    Cause("repeat_missed", 0.013, 0.08,
          "One repeat is missing: {what}.",
          "Hold the {row} against the one below: from some place on, the pattern is one repeat ahead.",
          "Count the repeats, not the stitches: is there one fewer?"),
    Cause("extra_repeat", 0.008, 0.06,
          "One repeat too many: {what}.",
          "Look for a place where the {row} ruffles, with more in it than there is room for.",
          "Count the repeats, not the stitches: is there one more?"),
    Cause("mesh_skipped", 0.008, 0.065,
          "One window is missing.",
          "Hold the {row} against the one below: from one window on, the posts no longer stand on each other.",
          "Count the windows with a fingertip from both ends: where do they stop standing in line?"),
    Cause("extra_mesh", 0.006, 0.05,
          "One window too many.",
          "Look for two windows over one: the posts stand aslant from there on.",
          "Count the windows with a fingertip: is there one more than below?"),
    Cause("chain_omitted", 0.009, 0.07,
          "A chain {n} was left out.",
          "Look for two stitches that touch where a hole should be.",
          "Push a fingertip through each hole: does one not open?", True),
    Cause("block_for_mesh", 0.007, 0.06,
          "A window was filled that should be open.",
          "Hold the {row} against the picture: one square is solid that should be open.",
          "Push a fingertip through each window: is one closed?", True),
    Cause("mesh_for_block", 0.006, 0.05,
          "A square was left open that should be filled.",
          "Hold the {row} against the picture: one square is open that should be solid.",
          "Run a fingertip along the solid part: does it fall through?", True),
    Cause("increase_missed", 0.08, 0.13,
          "One increase was not made: one {st} where more belong.",
          "Look at each increase: all fan out of one foot, except one.",
          "Count between the increases: is one stretch longer than the others?", True),
    Cause("edge_increase_missed", 0.08, 0.12,
          "An increase at the edge was not made: one {st} where more belong.",
          "Look at both ends of the {row}: {st} should fan out of one foot there.",
          "Feel the first and the last foot: is one of them thin?", True),
    Cause("extra_increase", 0.0025, 0.03,
          "One increase too many.",
          "Look at each increase: two stand closer together than the others.",
          "Count between the increases: is one stretch shorter?"),
    Cause("decrease_missed", 0.08, 0.13,
          "One decrease was worked as separate stitches.",
          "Look at each decrease: one place has two tops where one should gather them.",
          "Count between the decreases: is one stretch longer?", True),
    Cause("extra_decrease", 0.0008, 0.008,
          "One decrease too many: two stitches were worked together.",
          "Look for one top over two feet where none should be.",
          "Count between the decreases: is one stretch shorter?"),
    Cause("corner_single", 0.012, 0.07,
          "One corner has only half of what belongs in it: {what}.",
          "Look at the corners: one does not turn and pulls round.",
          "Feel each corner: does one have no point?", True),
    Cause("row_repeated", 0.02, 0.02,
          "This is what {other} makes: a {row} was worked twice, or counted once too often.",
          "Count the {row}s up from the beginning.",
          "Feel the ridges from the bottom up: is there one fewer than you thought?"),
    Cause("row_left_out", 0.02, 0.02,
          "This is what {other} makes: a {row} was left out, or not counted.",
          "Count the {row}s up from the beginning.",
          "Feel the ridges from the bottom up: is there one more than you thought?"),
    Cause("marker_moved", 0.006, 0.006,
          "The marker has moved by a stitch.",
          "Look at the marker: does it stand in the first stitch of the {row}, straight above the one before?",
          "Feel up the column of markers: does it lean?"),
)  # fmt: skip

CAUSES: dict[str, Cause] = {row.name: row for row in _ROWS}
"""Every cause by its name."""

ALIKE = (
    ("joining_st_worked", "worked_into_uncounted_tch"),
    ("skipped_stitch", "extra_decrease"),
)
"""Causes that look the same on the work: always told together."""

SAME_PLACES = (("group_missed", "repeat_missed"),)
"""Causes that are one and the same where they happen in the same places: a pass of a repeat that is one group."""

TOGETHER = (
    ("increase_missed", "edge_increase_missed"),
    ("skipped_stitch", "first_stitch_skipped"),
    ("doubled_stitch", "extra_increase"),
    ("group_missed", "group_short"),
    ("group_missed", "repeat_missed"),
)
"""Causes that look much alike, most alike first: told together when there is more to tell than one can take in."""
