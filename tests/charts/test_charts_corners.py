"""What is square looks square: rounds with corners are drawn as squares, hexagons and triangles, round ones as circles."""

from math import atan2, hypot, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.charts.chart import Wish, charted
from tracker.charts.drawing import Sheet, Use, Words
from tracker.charts.layout.around.corners import AT_JOIN, corners_of
from tracker.charts.layout.around.places import placed_around
from tracker.charts.layout.stand import Brush
from tracker.charts.outline import CIRCLE, Outline, at, below, corner_turn, long, reach_of
from tracker.charts.signs.symbols import CHAINED
from tracker.load import load
from tracker.samples import samples

PLAIN = Wish()


def granny(corners: int) -> str:
    """Two rounds around so many corners, in the words granny motifs are printed in."""
    return f"""PIER TILE
Ch 5, join with sl st to form a ring.
Rnd 1 (RS): Ch 3 (counts as dc here and throughout), 2 dc in ring, ch 2, (3 dc in ring, ch 2) {corners - 1} times; join with sl st in top of ch-3. ({3 * corners} dc, {corners} ch-2 sps)
Rnd 2: Sl st in next 2 dc and in next ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1, *(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * around; join with sl st in top of ch-3. ({6 * corners} dc, {corners} ch-2 sps, {corners} ch-1 sps)
"""


def drawn(text: str, wish: Wish = PLAIN) -> Sheet:
    """The first chart of a pattern."""
    loaded = load("the pattern", text)
    return charted(loaded.source, loaded.pattern, loaded.fabric, wish)[0]


def places(sheet: Sheet, symbol: str) -> list[tuple[float, float]]:
    """Where a sign stands, from the middle of the rounds, in the order painted."""
    ring = sheet.field.rings[0]
    return [
        (mark.matrix[4] - ring.x, mark.matrix[5] - ring.y)
        for mark in sheet.field.marks
        if isinstance(mark, Use) and mark.symbol == symbol
    ]


@pytest.mark.parametrize("corners", [3, 4, 5, 6, 8])
def test_a_round_has_as_many_corners_as_its_words_make(corners: int) -> None:
    """Also the first, whose spaces are corners because the corners of the second stand in them."""
    loaded = load("the pattern", granny(corners))
    assert not loaded.problems
    rows = tuple(placed for _, placed in loaded.fabric.rows())
    assert [len(found) for found in corners_of(rows)] == [corners, corners]


def test_a_granny_square_is_square() -> None:
    """The double crochets of a side all reach the same height, and the chains of the corners stand in the corners."""
    sheet = drawn(granny(4))
    outer = sheet.field.rings[-1]
    assert len(outer.places) == 96
    # A square's places lie on its four sides: the larger of the two distances is the same for all.
    sides = [max(abs(x), abs(y)) for x, y in outer.places]
    assert max(sides) - min(sides) < 0.01
    chains = sorted(places(sheet, CHAINED.name), key=lambda place: -hypot(*place))[:8]
    for x, y in chains:
        assert abs((atan2(y, x) % (pi / 2)) - pi / 4) < 0.25, (x, y)


def test_the_square_of_ours_is_a_square_and_the_ring_of_ours_a_ring() -> None:
    """Crossroads Square and Kettle Square have four corners in every round, Frost Ring none."""
    for name in ("crossroads-square", "kettle-square"):
        sheet = drawn(samples()[name].read_text(encoding="utf-8"))
        assert all(ring.places for ring in sheet.field.rings), name
        # The number of a border stands outside.
        assert abs(sheet.field.width - sheet.field.height) < 12
    sheet = drawn(samples()["frost-ring"].read_text(encoding="utf-8"))
    assert not any(ring.places for ring in sheet.field.rings)


def test_the_left_hand_sees_the_same_square_in_a_mirror() -> None:
    """Every sign at the other side."""
    text = samples()["crossroads-square"].read_text(encoding="utf-8")
    right, left = drawn(text), drawn(text, Wish(left_handed=True))
    mirrored = sorted((round(-x, 3), round(y, 3)) for x, y in places(left, "st-dc"))
    assert sorted((round(x, 3), round(y, 3)) for x, y in places(right, "st-dc")) == mirrored


def test_an_edging_lies_around_its_piece_as_the_piece_is() -> None:
    """Twice as many along top and bottom as along the row ends: wider than high."""
    text = samples()["hearth-mat"].read_text(encoding="utf-8")
    text = text.replace("work 24 sc evenly", "work 11 sc evenly").replace("(108 sc)", "(82 sc)")
    loaded = load("the pattern", text)
    sheets = charted(loaded.source, loaded.pattern, loaded.fabric)
    rings = sheets[-1].field.rings
    if not rings or not rings[0].places:
        pytest.fail("the edging is not drawn along a line with corners")
    wide = max(x for x, _ in rings[0].places) - min(x for x, _ in rings[0].places)
    high = max(y for _, y in rings[0].places) - min(y for _, y in rings[0].places)
    assert wide > 1.6 * high


def test_a_corner_that_the_join_makes_is_one() -> None:
    """A square begun in its corner has three corners in words and the fourth where it is closed."""
    loaded = load(
        "the pattern",
        """NO SLIP
Make a magic ring.
Rnd 1: Ch 3 (counts as dc), dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, dc in ring; join with sl st in top of ch-3. (12 dc, 4 ch-2 sps)
Rnd 2: Sl st in next dc and in ch-2 sp, ch 3 (counts as dc), 2 dc in same sp, (dc in next 3 dc, (3 dc, ch 2, 3 dc) in next ch-2 sp) 3 times, dc in next 3 dc, 3 dc in first ch-2 sp, ch 2; join with sl st in top of ch-3.
""",
    )
    rows = tuple(placed for _, placed in loaded.fabric.rows())
    assert [len(found) for found in corners_of(rows)] == [4, 4]
    assert AT_JOIN < 0


@given(st.integers(3, 8), st.floats(-20, 20), st.floats(1, 500))
def test_a_place_on_a_polygon_is_as_far_out_as_it_was_put(corners: int, turn: float, reach: float) -> None:
    """And one straight below it is as far out as that, nearer the middle."""
    line = Outline(corners)
    assert reach_of(line, at(line, turn, reach)) == pytest.approx(reach, abs=1e-6)
    assert reach_of(line, below(line, turn, reach, reach / 2)) == pytest.approx(reach / 2, abs=1e-6)
    assert reach_of(CIRCLE, at(CIRCLE, turn, reach)) == pytest.approx(reach)


def test_the_sides_of_a_polygon_are_as_long_as_geometry_says() -> None:
    """Twice the apothem times the tangent of half the middle angle: a square of apothem 1 has sides of 2, a hexagon of
    1.1547, a triangle of 3.4641 (2 · tan(π/n), any table of regular polygons)."""
    for corners, side in ((3, 3.4641), (4, 2.0), (6, 1.1547)):
        assert long(Outline(corners), 0, 1.0) == pytest.approx(side, abs=1e-4)
    assert corner_turn(Outline(4), 1) == pytest.approx(pi / 4)


@pytest.mark.parametrize("petals", [4, 5, 6, 8])
def test_petals_are_drawn_around_a_circle(petals: int) -> None:
    """Low at both ends and tall between, all around: a flower, however many petals it has; a fan of one height in a
    corner is a corner still.
    """
    flower = f"""FLOWER
Ch 5, join with sl st to form a ring.
Rnd 1 (RS): Ch 1, (sc in ring, ch 3) {petals} times; join with sl st in first sc. ({petals} sc, {petals} ch-3 sps)
Rnd 2: (sc, hdc, 3 dc, hdc, sc) in each ch-3 sp around; join with sl st in first sc. ({petals} petals)
Rnd 3: Ch 1, (sc around post of next sc of Rnd 1, ch 5) {petals} times; join with sl st in first sc.
Rnd 4: (sc, hdc, 5 dc, hdc, sc) in each ch-5 sp around; join with sl st in first sc. ({petals} petals)
"""
    loaded = load("the pattern", flower)
    assert corners_of(tuple(placed for _, placed in loaded.fabric.rows())) == [()] * 4
    assert not any(ring.places for ring in drawn(flower).field.rings)


def test_a_border_is_not_squeezed_beside_its_number() -> None:
    """Single crochets around a square stand over what they go into, the last before the corner too; the number is outside."""
    text = samples()["kettle-square"].read_text(encoding="utf-8")
    loaded = load("the pattern", text)
    rows = [placed for _, placed in loaded.fabric.rows()]
    stoods = placed_around(rows, ["1 A", "2 A", "3 B", "4 B", "5 A"], Brush())
    border = stoods[-1]
    assert [stood.apart for stood in stoods] == [False] * 4 + [True]
    long = []
    for turn, foot, element in zip(border.turns, border.feet, rows[-1].worked.elements, strict=True):
        if foot is not None and not element.corner:
            (x, y), (below_x, below_y) = (
                at(border.line, turn, border.outer),
                at(stoods[-2].line, foot, stoods[-2].outer),
            )
            long.append(hypot(x - below_x, y - below_y))
    assert len(long) == 68
    assert max(long) < 24
    sheet = drawn(text)
    words = [mark for mark in sheet.field.marks if isinstance(mark, Words) and mark.text == "5 A"]
    assert len(words) == 1
    ring = sheet.field.rings[-1]
    assert max(abs(words[0].x - ring.x), abs(words[0].y - ring.y)) > border.outer
