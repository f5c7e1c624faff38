"""The yarn of a whole piece: what it takes by colour, by what was weighed or measured, or roughly. Words of the command
line, a pattern and what a piece in hand tells come in; figures and sentences go out.
"""

import argparse
from dataclasses import dataclass
from functools import cached_property

from tracker.charts.layout.colours import colours_of
from tracker.load import Loaded
from tracker.paper.finishing import ends_of
from tracker.planning import yarn
from tracker.planning.balls import Rate
from tracker.program.joining import last_edges, layout_of
from tracker.program.places import Program
from tracker.shelf.taking_up import Weighed
from tracker.trade.stitches import STITCHES

MOST_ROWS = 1000
"""A longer piece is not gone through row by row for its colours."""


@dataclass(frozen=True)
class Reckoned:
    """One question of yarn."""

    said: argparse.Namespace
    loaded: Loaded
    weight: int
    """Of the yarn, by the standard's number."""
    own: Weighed | None
    """What a piece in hand tells."""

    @cached_property
    def use(self) -> yarn.Use:
        """In single crochets, one copy."""
        return yarn.use_of(self.loaded.fabric, _letters(self.loaded), dict(self.loaded.pattern.parts))

    @cached_property
    def copies(self) -> int:
        wanted = self.own.copies if self.own else self.loaded.pattern.copies
        return int(self.said.copies or wanted or 1)

    @cached_property
    def ball(self) -> tuple[float, float] | None:
        """Metres and grams of a ball: as said, or as the card or the pattern names them."""
        return yarn.ball_of(self.said.ball) or (self.own.label if self.own else None)

    @cached_property
    def rate(self) -> Rate | None:
        """Grams by what was weighed on the way; None where something else is said, or nothing was weighed."""
        said_so = self.said.swatch is not None or self.said.finished is not None
        return None if said_so or self.own is None else self.own.rate

    @cached_property
    def swatch(self) -> yarn.Swatch | None:
        """What tells the length that a single crochet takes."""
        if self.rate is not None and self.ball and self.ball[1]:
            return yarn.Swatch(1.0, self.rate.grams * self.ball[0] / self.ball[1] * 100, self.rate.spread)
        return _swatch(self.said, self.use, self.ball)

    @cached_property
    def ends(self) -> int:
        """Ends of all the copies."""
        loaded = self.loaded
        program = Program(loaded.source, loaded.pattern, loaded.fabric, loaded.problems)
        named = sum(ends_of(program, at) * part.copies for at, part in enumerate(program.parts))
        return round(named / max(1, loaded.pattern.copies) * self.copies)

    @cached_property
    def needs(self) -> dict[str, yarn.Need]:
        """Yarn by colour; the ends shared out among the colours."""
        colours = dict(self.use.by_colour) if len(self.use.by_colour) > 1 else {"": self.use.whole}
        per_m = self.ball[1] / self.ball[0] if self.ball and self.ball[1] else None
        each = max(2, round(self.ends / self.copies / len(colours)))
        long = self.ball[0] if self.ball else None
        return {
            letter: yarn.need(
                amount, self.swatch, self.weight, self.copies, per_m, long, each,
                None if self.rate is None or per_m else (self.rate.grams, self.rate.spread),
            )
            for letter, amount in colours.items()
        }  # fmt: skip

    def told(self) -> list[str]:
        """All of it in sentences."""
        lines = [yarn.told(one, f"Yarn {letter}" if letter else "Yarn") for letter, one in self.needs.items()]
        if joined := self._joining():
            lines.append(joined)
        if self.own is not None and self.rate is not None:
            what = "finished ones" if self.rate.finished else "ball"
            lines.append(
                f"That is by what you weighed in the piece {self.own.name!r}: the {what}, "
                f"{self.rate.weighed_g:.0f} g in all."
            )
        lines.append(
            f"Leave {yarn.TAIL_CM:.0f} cm before you cut: {self.ends} ends to weave in, and they are counted in."
        )
        return lines

    def _joining(self) -> str:
        """What the seams take, where it is said how the pieces lie: a slip stitch for every pair of stitches."""
        layout, edges = layout_of(self.loaded.pattern, self.copies), last_edges(self.loaded.fabric)
        if layout is None or not edges:
            return ""
        pairs = sum(len(seam.pairs) for seam in layout.seams)
        # with the corner at either end of each edge
        in_sc = pairs * (max(edges) + 2) * STITCHES["slst"].yarn
        each = self.swatch.cm_per_sc if self.swatch else yarn.ROUGH_CM[self.weight]
        return (
            f"Joining takes about {in_sc * each / 100:.0f} m more, at one slip stitch for every pair; that is not in "
            "these numbers."
        )

    def enough(self) -> list[str]:
        """Whether what is left of the ball does for a row, where that is asked."""
        left, row = self.said.left, self.said.row
        if left is None and row is None:
            return []
        if left is None or row is None:
            raise yarn.NoYarn("Whether there is enough for a row takes both: --left 12m --row 7.")
        takes = dict(self.use.by_row).get(row)
        if takes is None:
            rows = self.loaded.fabric.length
            raise yarn.NoYarn(f"There is no row {row} listed; the pattern has {rows} rows.")
        each = self.swatch.cm_per_sc if self.swatch else yarn.ROUGH_CM[self.weight]
        rough = "" if self.swatch else " That is rough: weigh or measure a swatch to know better."
        return [f"Row {row}: {yarn.enough(yarn.length_of(left, self.ball), takes, each)}{rough}"]


def _swatch(said: argparse.Namespace, use: yarn.Use, ball: tuple[float, float] | None) -> yarn.Swatch | None:
    """What was measured or weighed: a swatch, some rows of the piece itself, or copies that are done."""
    if said.finished is not None:
        how = "--finished takes copies and what they took, such as 3,72g"
        many, took = yarn.pair_of(said.finished, how)
        if not many.isdigit() or not int(many):
            raise yarn.NoYarn(f"{how}; {said.finished!r} is not that.")
        return yarn.Swatch(use.whole * int(many), yarn.length_of(took, ball) * 100, yarn.FINISHED)
    if said.swatch is None:
        return None
    what, took = yarn.pair_of(
        said.swatch, "--swatch takes what was worked and its yarn, such as 400,18m or 1-10,12g"
    )
    first, mark, last = what.partition("-")
    if mark and first.strip().isdigit() and last.strip().isdigit():
        rows = range(int(first), int(last) + 1)
        amount = sum(sc for index, sc in use.by_row if index in rows)
        if not amount:
            raise yarn.NoYarn(
                f"The pattern has no rows {what} listed one by one; name rows of its beginning."
            )
    else:
        amount = yarn.figure_of(what)
    return yarn.Swatch(amount, yarn.length_of(took, ball) * 100)


def _letters(loaded: Loaded) -> dict[int, tuple[str, ...]]:
    """The colour of each element, for pieces short enough to be listed."""
    if loaded.fabric.length > MOST_ROWS:
        return {}
    return dict(colours_of(loaded.source, loaded.pattern, tuple(loaded.fabric.rows())).rows)
