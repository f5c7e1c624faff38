"""The sums a pattern leaves to the maker: edgings, circles, gauge, hooks, yarn, time."""

from math import cos, hypot, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.load import load
from tracker.planning import circles, gauge, hooks, time, yarn
from tracker.planning.edging import along_in, compared, summed, told, verdict
from tracker.program.row.row_ends import RowEnd, edging, row_ends, usual_along
from tracker.trade.stitches import STITCHES

MAT = """MAT
Ch 6.
Row 1 (RS): Dc in 4th ch from hook (3 skipped chs count as dc) and in each ch across. (4 dc)
Row 2: Ch 3 (counts as dc), turn, dc in next 2 dc, dc in top of ch-3. (4 dc)
Rows 3-15: Rep Row 2.
"""


@pytest.mark.parametrize(
    "stitch, rows, usual", [("sc", 12, 12), ("hdc", 12, 18), ("dc", 15, 30), ("tr", 5, 15)]
)
def test_row_ends_take_what_is_common_practice(stitch: str, rows: int, usual: float) -> None:
    """A row of sc 1, of hdc 3 in 2, of dc 2, of tr 3 (common practice, no source; several teaching pages agree)."""
    assert usual_along((RowEnd(stitch, False),) * rows) == usual


def test_twenty_four_along_fifteen_dc_rows_is_told_one_by_one() -> None:
    """Turning chains and stitches take turns along a side, from the last row down."""
    loaded = load("mat", MAT)
    rows = tuple(placed for _, placed in loaded.fabric.rows())
    plan = edging(24, row_ends(rows))
    assert summed(plan) == "24 along 15 row ends: nine row ends take two and six of them take one."
    assert "draws the edge in" in verdict(plan)
    lines = told(plan)
    assert lines[0] == "Row end 1, a double crochet: two, around its post."
    assert lines[5] == "Row end 6, a turning chain: two, around the chain."
    assert told(edging(24, row_ends(rows, first_turning=True)))[0].startswith("Row end 1, a turning chain")


@pytest.mark.parametrize(
    "stitches, says", [(30, "lie flat"), (27, "lie flat"), (24, "draws the edge in"), (40, "may ruffle")]
)
def test_what_a_number_does_to_the_edge_is_said(stitches: int, says: str) -> None:
    """And the pattern is followed all the same."""
    assert says in verdict(edging(stitches, (RowEnd("dc", False),) * 15))


def test_a_patterns_own_edging_is_found() -> None:
    """ "Work 18 sc evenly along side edge" of twelve rows."""
    text = (
        "CLOTH\nCh 7.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (6 sc)\n"
        "Rows 2-12: Ch 1, turn, sc in each sc across. (6 sc)\nFasten off.\n\nEDGING\n"
        "With RS facing, join yarn with sl st in end of Row 12. Working in ends of rows,\n"
        "Row 1: Ch 1, work 18 sc evenly along side edge, turn. (18 sc)\n"
    )
    ((index, (plan,)),) = along_in(load("cloth", text).fabric).items()
    assert (index, plan.stitches, len(plan.ends)) == (13, 18, 12)


def test_the_edges_of_a_square_are_compared() -> None:
    """Where one is off, what to do before the corner."""
    (line,) = compared((40, 38, 40, 40))
    assert line.startswith("The left side has 38, 2 fewer than 40")
    assert "All four" in compared((20, 20, 20, 20))[0]


@pytest.mark.parametrize("stitch, usual", [("sc", 6), ("hdc", 8), ("dc", 12)])
def test_the_usual_circles_lie_flat_and_follow_from_geometry(stitch: str, usual: int) -> None:
    """6, 8, 12 (craftymaria.blogspot.com, 2009): fewer cup, more ruffle."""
    assert circles.circle(stitch, usual).shape == "lies flat"
    assert circles.circle(stitch, usual // 2).shape == "cups"
    assert circles.circle(stitch, usual * 2).shape == "ruffles"


@given(st.floats(0.4, 4.0), st.integers(1, 30))
def test_a_circle_needs_what_its_edge_grows_by(height: float, rounds: int) -> None:
    """Measured on the edge itself: a polygon of very many sides, one round larger, holds so many more stitches."""

    def edge(radius: float, sides: int = 4000) -> float:
        corner = radius * cos(2 * pi / sides), radius * sin(2 * pi / sides)
        return sides * hypot(radius - corner[0], corner[1])

    grown = edge((rounds + 1) * height) - edge(rounds * height)
    assert circles.needed(height, 1.0) == pytest.approx(grown, rel=1e-5)


def test_yarn_by_stitch_agrees_with_what_a_maker_measured() -> None:
    """A square inch takes 31.4 inches of yarn in sc, 32.1 in hdc and 31.6 in dc: what is higher takes as much more.

    Source: windchilde.com, "Crochet Yarn Estimating", squares of five inches worked and unravelled. How much higher,
    in stitches of one width, the increases of a flat circle tell (6, 8 to 10, 12: craftymaria.blogspot.com, 2009).
    """
    measured = {"hdc": 32.08 / 31.42, "dc": 31.6 / 31.42}
    higher = {"hdc": (8 / 6, 10 / 6), "dc": (10 / 6, 12 / 6)}
    for stitch, to_the_area in measured.items():
        least, most = (high * to_the_area for high in higher[stitch])
        assert least <= STITCHES[stitch].yarn <= most, stitch


@given(st.floats(5, 60), st.floats(3, 60), st.floats(5, 400), st.integers(1, 24), st.integers(0, 12))
def test_the_nearest_counts_keep_the_repeat_whole(
    stitches: float, rows: float, wanted: float, multiple: int, plus: int
) -> None:
    """One is no longer and one no shorter than wanted, and none between them is left out."""
    swatch = gauge.Gauge(stitches, rows, 10, 10)
    found = gauge.counts(wanted, swatch.width_cm, multiple, plus)
    for one in found:
        assert one.number % multiple == plus % multiple
        assert one.number >= plus
        assert gauge.size(swatch, one.number, 1)[0] == pytest.approx(one.cm, abs=0.006)
    assert len({one.number for one in found}) == len(found)
    assert abs(found[0].cm - wanted) <= max(multiple, plus) * swatch.width_cm + 0.02


def test_a_swatch_gives_a_size_and_the_size_its_counts() -> None:
    """16 squares to 4 inches: 4 inches are 10.16 cm by definition."""
    swatch = gauge.stated(("Materials: cotton", "Gauge: 16 squares and 9 rows = 4 in (10 cm), blocked."))
    assert swatch is not None
    assert gauge.size(swatch, 32, 18) == pytest.approx((20.32, 20.32))
    assert gauge.counts(20.32, swatch.width_cm)[0].number == 32
    assert gauge.stated(("Gauge: not important.",)) is None


@pytest.mark.parametrize(
    "words, cm", [("10cm", 10), ("4 in", 10.16), ('1"', 2.54), ("250 mm", 25), ("2 m", 200)]
)
def test_lengths_are_read_in_either_system(words: str, cm: float) -> None:
    """An inch is 2.54 cm by definition."""
    assert gauge.length_cm(words) == pytest.approx(cm)


@pytest.mark.parametrize("words", ["", "long", "0cm", "-4in", "4 ells"])
def test_what_is_no_length_is_told(words: str) -> None:
    """In a sentence that shows how to write one."""
    with pytest.raises(gauge.NoGauge, match="write it such as"):
        gauge.length_cm(words)


@pytest.mark.parametrize(
    "line, number",
    [
        ("worsted cotton", 4),
        ("DK wool", 3),
        ("super bulky yarn", 6),
        ("bulky yarn", 5),
        ("size 10 crochet cotton", 0),
    ],
)
def test_a_weight_is_known_by_its_names(line: str, number: int) -> None:
    """The categories of the Standard Yarn Weight System (Crochet World, October 2018, p. 64)."""
    found = hooks.weight_named(line)
    assert found is not None
    assert found.number == number


def test_a_warning_comes_only_where_the_sources_agree() -> None:
    """Never from the row of lace, whose hooks they contradict each other in; never from a size or two up."""
    by_number = {row.number: row for row in hooks.WEIGHTS}
    assert hooks.doubt(by_number[0], 12.0) == ""
    assert hooks.doubt(by_number[4], 6.0) == ""
    assert hooks.doubt(by_number[4], 5.0) == ""
    assert "small for Medium (4)" in hooks.doubt(by_number[4], 2.0)
    assert "large for Fine (2)" in hooks.doubt(by_number[2], 10.0)


def test_hooks_grow_with_their_letters() -> None:
    """The order of makers' conversion sheets; the number of a steel hook or of a thread is not taken for one."""
    sizes = list(hooks.HOOKS.values())
    assert sizes == sorted(sizes)
    assert hooks.hook_mm("size 10 crochet cotton") is None


def test_yarn_grows_with_the_piece_and_a_swatch_narrows_the_range() -> None:
    """Twice the copies take twice the yarn; without a swatch the sum says that it is rough."""
    use = yarn.use_of(load("mat", MAT).fabric)
    rough, once = yarn.need(use.whole, weight=4), yarn.need(use.whole, yarn.Swatch(100, 450))
    assert rough.rough
    assert "rough" in yarn.told(rough)
    assert not once.rough
    assert once.most_m - once.least_m < rough.most_m - rough.least_m
    twice = yarn.need(use.whole, yarn.Swatch(100, 450), copies=2, ends=2)
    assert twice.metres == pytest.approx(2 * once.metres)
    # 15 rows of 4 dc on 6 chains; a turning chain of three in place of one dc of each row.
    dc = STITCHES["dc"].yarn
    assert use.whole == pytest.approx(15 * (3 * dc + 3 * yarn.CHAIN) + 6 * yarn.CHAIN)


def test_a_piece_of_a_million_rows_is_summed_at_once() -> None:
    """By its stretches, never row by row."""
    long = MAT.replace("Rows 3-15", "Rows 3-1000000")
    use = yarn.use_of(load("mat", long).fabric)
    assert use.whole > 1_000_000
    assert len(use.by_row) < 10


def test_whether_there_is_enough_for_a_row() -> None:
    """Enough, may just do, not enough."""
    assert yarn.enough(10, 100, 4).startswith("Enough")
    assert yarn.enough(4.1, 100, 4).startswith("It may just do")
    assert yarn.enough(3, 100, 4).startswith("Not enough")


def test_balls_are_bought_by_the_upper_end() -> None:
    """100 m on average may be 110: two balls of 105 m."""
    assert yarn.need(2500, yarn.Swatch(100, 400), ball_m=105, ends=0).balls == 2


def test_a_range_is_never_nothing_and_a_row_of_an_hour_is_work() -> None:
    """Rows that took the same to the second are not a promise; 450 single crochets in an hour are no rest."""
    pace = time.pace_of(((3600.0, 450.0),) * 10)
    assert (pace.middle, pace.rows) == (8.0, 10)
    assert (
        time.told(450, pace)
        == "About 60 minutes of work, between 54 minutes and 66 minutes, by your last 10 rows."
    )


def test_time_is_a_guess_until_there_is_a_log() -> None:
    """Three rows make a pace, from the quickest to the slowest; a row laid aside overnight is no pace."""
    assert "guess" in time.told(1000, time.pace_of(()))
    log = ((60.0, 20.0), (80.0, 20.0), (100.0, 20.0), (30_000.0, 20.0))
    pace = time.pace_of(log)
    assert (pace.middle, pace.rows) == (4.0, 3)
    assert (
        time.told(900, pace)
        == "About 60 minutes of work, between 45 minutes and 75 minutes, by your last 3 rows."
    )
