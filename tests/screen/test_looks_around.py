"""Rounds around their middle: what was worked out by hand for a few rounds, against where the drawing has each stitch."""

from itertools import pairwise
from math import cos, pi, sin

import pytest
from on_the_hook import PATTERNS, program_of, sample, walked, worked

from tracker.charts.outline import FULL
from tracker.looks.around import Disc, Ring, disc, lies_round, state_of
from tracker.session.seen.view import View, view
from tracker.session.state import begun

BALL = """PIP
Rnd 1 (RS): 6 sc in a magic ring. (6 sc)
Rnd 2: 2 sc in each sc around. (12 sc)
Rnd 3: (Sc in next sc, 2 sc in next sc) 6 times. (18 sc)
Rnd 4: (Sc in next sc, sc2tog) 6 times. (6 sc, 6 sc2tog)
Rnd 5: Sc in each st around. (12 sc)
"""
GRANNY = """PIER TILE
Ch 4, join with sl st to form a ring.
Rnd 1 (RS): Ch 3 (counts as dc here and throughout), 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times; join with sl st in top of ch-3. (12 dc, 4 ch-2 sps)
Rnd 2: Sl st in next 2 dc and in next ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1, *(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * around; join with sl st in top of ch-3. (24 dc, 4 ch-2 sps, 4 ch-1 sps)
"""
TURNED = """PIER LID
Rnd 1 (RS): Ch 1, 8 sc in a magic ring; join with sl st in first sc. (8 sc)
Rnd 2 (WS): Ch 1, turn, 2 sc in each sc around; join with sl st in first sc. (16 sc)
Rnd 3 (RS): Ch 1, turn, (sc in next sc, 2 sc in next sc) 8 times; join with sl st in first sc. (24 sc)
"""
TUBE = """PIER COWL
Ch 40, join with sl st to form a ring.
Rnd 1 (RS): Ch 1, sc in each ch around; join with sl st in first sc. (40 sc)
Rnd 2: Ch 1, sc in each sc around; join with sl st in first sc. (40 sc)
Rnd 3: Ch 1, sc in each sc around; join with sl st in first sc. (40 sc)
"""


def seen(text: str, *asked: str) -> View:
    session, _ = worked(begun(program_of(text)), *asked)
    return view(session)


def drawn(text: str, *asked: str, left: bool = False) -> tuple[Disc, View]:
    shown = seen(text, *asked)
    found = disc(shown.around, left)
    assert found is not None
    return found, shown


def joined(ring: Ring) -> str:
    """V for the second of two in one place, A for stitches worked together, o for a space, | for any other."""
    return "".join(
        "V" if one.joined else "A" if one.legs > 1 else "o" if one.space else "|" for one in ring.stitches
    )


def across(ring: Ring, nth: int) -> tuple[float, float]:
    """Where the middle of a stitch is seen: how far to the right and how far up, of 1."""
    turn = ring.way * (ring.bounds[nth] + ring.bounds[nth + 1]) / 2
    return sin(turn), -cos(turn)


def test_increases_and_decreases_are_where_the_words_have_them() -> None:
    """(sc, 2 sc in next) six times is a V after every second stitch; (sc, sc2tog) six times a roof at every second."""
    found, _ = drawn(BALL, "round 4", "yes")
    assert [ring.label for ring in found.rings] == ["Rnd 4", "Rnd 3", "Rnd 2", "Rnd 1"]
    assert [joined(ring) for ring in found.rings] == ["|A" * 6, "||V" * 6, "|V" * 6, "|" * 6]


def test_repeats_have_edges_at_each_pass() -> None:
    """Three stitches a pass in round 3: at every third one."""
    found, _ = drawn(BALL, "round 3", "yes")
    assert [one.at for one in found.rings[0].stitches if one.edge] == [0, 3, 6, 9, 12, 15]


def test_done_in_hand_and_to_come_go_by_the_place() -> None:
    """After three of six passes nine of eighteen are done and three in hand; every round under it is done."""
    found, shown = drawn(BALL, "round 3", "yes", "next", "next", "next")
    assert shown.around is not None
    states = [state_of(shown.around, True, one.at) for one in found.rings[0].stitches]
    assert states == ["done"] * 9 + ["now"] * 3 + ["coming"] * 6
    assert {state_of(shown.around, False, one.at) for one in found.rings[1].stitches} == {"done"}


def test_the_round_in_hand_begins_at_the_bottom_and_runs_against_the_clock() -> None:
    """Its first quarter lies at the lower right for the right hand, at the lower left for the left one."""
    for left in (False, True):
        found, _ = drawn(BALL, "round 3", "yes", left=left)
        ring = found.rings[0]
        assert ring.way == (-1 if left else 1)
        right, up = across(ring, 2)
        assert right * ring.way > 0.3
        assert up < 0
        assert across(ring, 9)[1] > 0.9
        assert across(ring, 15)[0] * ring.way < 0


def test_stitches_in_one_place_have_its_room_together() -> None:
    """At the foot a pair of round 2 is as wide as one stitch of round 1, and stands on it."""
    found, _ = drawn(BALL, "round 2", "yes")
    upper, lower = found.rings
    for nth in range(6):
        assert upper.roots[2 * nth] == upper.roots[2 * nth + 1]
        middle = (lower.bounds[nth] + lower.bounds[nth + 1]) / 2
        off = (upper.roots[2 * nth] * upper.way - middle * lower.way + pi) % FULL - pi
        assert abs(off) < 0.2


def test_a_granny_square_has_its_corners() -> None:
    """Both rounds are squares, and the chain-two spaces lie in the corners: at 45 degrees and every quarter on."""
    found, _ = drawn(GRANNY, "round 2", "yes")
    for ring in found.rings:
        assert ring.line.corners == 4
        corners = [
            (ring.bounds[nth] + ring.bounds[nth + 1]) / 2
            for nth, one in enumerate(ring.stitches)
            if one.space and ring.stood.worked.elements[one.at].chains == 2
        ]
        assert len(corners) == 4
        for turn in corners:
            assert abs((turn - pi / 4 + pi / 4) % (pi / 2) - pi / 4) < 0.06


def test_a_round_that_was_worked_from_the_other_side_runs_the_other_way() -> None:
    """Turned at each round, the one in hand runs with the hands, the one under it against them."""
    found, _ = drawn(TURNED, "round 3", "yes")
    assert [ring.way for ring in found.rings] == [1, -1, 1]
    found, _ = drawn(TURNED, "round 2", "yes")
    assert [ring.way for ring in found.rings] == [1, -1]
    assert [ring.way for ring in drawn(TURNED, "round 2", "yes", left=True)[0].rings] == [-1, 1]


def test_a_tube_has_no_middle_and_rows_have_no_rounds() -> None:
    """A cowl on a chain is drawn as rows, as is a flat piece; a ball is round from before its first round on."""
    tube = seen(TUBE, "round 2", "yes")
    assert tube.around is not None
    assert tube.around.tube
    assert disc(tube.around, False) is None
    assert not lies_round(tube.around, False)
    session, _ = worked(begun(sample("harbour-windows")), "row 2", "yes")
    assert view(session).around is None
    assert lies_round(seen(GRANNY).around, False)


def test_what_was_not_understood_is_not_drawn_round() -> None:
    """Its words are followed as they stand; there is no telling where its stitches are."""
    text = BALL.replace(
        "Rnd 3: (Sc in next sc, 2 sc in next sc) 6 times. (18 sc)", "Rnd 3: Wobble the flurgs about."
    )
    assert seen(text, "round 3", "yes").around is None


def test_the_disc_of_a_round_is_made_once() -> None:
    """From step to step only the place moves."""
    program = program_of(BALL)
    session, _ = worked(begun(program), "round 3", "yes")
    first = disc(view(session).around, False)
    session, _ = worked(session, "next", "next")
    assert disc(view(session).around, False) is first
    assert disc(view(session).around, True) is not first


@pytest.mark.parametrize("name", sorted(file.stem for file in PATTERNS.glob("*.txt")))
def test_every_round_of_every_sample_has_its_places_in_order(name: str) -> None:
    """Each stitch begins where the one before it ends, no further than once around."""
    program = sample(name)
    rows: set[tuple[int, ...]] = set()
    for place in walked(program):
        if place[:3] in rows:
            continue
        rows.add(place[:3])
        shown = view(type(begun(program))(program, place))
        for left in (False, True):
            found = disc(shown.around, left)
            for ring in found.rings if found is not None else ():
                assert len(ring.bounds) == len(ring.feet) == len(ring.stitches) + 1
                assert all(b > a for a, b in pairwise(ring.bounds)), (name, ring.label)
                assert all(b >= a for a, b in pairwise(ring.feet)), (name, ring.label)
                assert ring.bounds[-1] - ring.bounds[0] <= FULL + 1e-9
            if found is not None and place[3] == 0:
                assert found.rings[0].way == (-1 if left else 1)
