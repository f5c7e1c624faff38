"""Ripples, shawls and waves rise and fall on the chart as they do on the table; what is straight stays straight."""

import re
from itertools import pairwise
from math import atan2, degrees, hypot

import pypdfium2
import pytest
from corpus_cases import CORPUS

from tracker.charts.chart import Wish, charted
from tracker.charts.drawing import LIT, Shape, Sheet, Use
from tracker.charts.media.pdf import pdf
from tracker.charts.signs.symbols import STITCH, height_of
from tracker.load import load
from tracker.samples import samples

PLAIN = Wish()
ZIGZAG = """ZIGZAG
Ch 42.
Row 1: Sc in 2nd ch from hook and in each ch across. (41 sc)
Row 2: Ch 3 (counts as dc), turn, dc in first st, *dc in next 3 sts, dc3tog over next 3 sts, dc in next 3 sts, 3 dc in
next st; rep from * 2 more times, dc in next 3 sts, dc3tog over next 3 sts, dc in next 3 sts, 2 dc in last st. (37 dc,
4 dc3tog)
Rows 3-8: Rep Row 2. (37 dc, 4 dc3tog)
"""
MITRE = """MITRED SQUARE
Ch 30.
Row 1: Sc in 2nd ch from hook, sc in next 12 chs, sc3tog, sc in next 13 chs. (27 sc)
Row 2: Ch 1, turn, sc in next 12 sts, sc3tog, sc in next 12 sts. (25 sc)
Row 3: Ch 1, turn, sc in next 11 sts, sc3tog, sc in next 11 sts. (23 sc)
Row 4: Ch 1, turn, sc in next 10 sts, sc3tog, sc in next 10 sts. (21 sc)
Row 5: Ch 1, turn, sc in next 9 sts, sc3tog, sc in next 9 sts. (19 sc)
Row 6: Ch 1, turn, sc in next 8 sts, sc3tog, sc in next 8 sts. (17 sc)
"""


def chart(text: str, wish: Wish = PLAIN) -> Sheet:
    """The first chart of a pattern."""
    loaded = load("the pattern", text)
    return charted(loaded.source, loaded.pattern, loaded.fabric, wish)[0]


def corpus(name: str) -> str:
    return (CORPUS / f"{name}.txt").read_text(encoding="utf-8")


def stems(sheet: Sheet, kind: str = "st-dc") -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Foot and top of each sign of that kind, in the order drawn."""
    out = []
    for mark in sheet.field.marks:
        if isinstance(mark, Use) and (mark.symbol == kind or mark.symbol.startswith(f"{kind}-")):
            _, _, c, d, x, y = mark.matrix
            high = float(mark.symbol.rsplit("-", 1)[1]) if mark.symbol != kind else height_of(kind[3:])
            out.append(((x, y), (x - c * high, y - d * high)))
    return out


def bars(sheet: Sheet) -> list[tuple[float, float]]:
    """Where stitches worked together end."""
    return [mark.matrix[4:] for mark in sheet.field.marks if isinstance(mark, Use) and mark.symbol == "bar"]


def test_a_ripple_rises_at_its_increases_and_dips_where_it_is_worked_together() -> None:
    """In each row, and each row like the one below it."""
    sheet = chart(ZIGZAG)
    tops = [top for _, top in stems(sheet)]
    dips = bars(sheet)
    assert len(dips) == 7 * 4
    for x, y in dips:
        # The nearest increases stand half a repeat to both sides, in the same row.
        peak = min(ty for tx, ty in tops if 3 * STITCH < abs(tx - x) < 6 * STITCH and abs(ty - y) < 30)
        assert y - peak > 15
    rows = sorted({round(y) for _, y in dips}, reverse=True)
    assert len(rows) == 7
    steps = [a - b for a, b in pairwise(rows)]
    assert max(steps) - min(steps) <= 2


def test_a_ripples_slope_follows_from_geometry() -> None:
    """Each row pushes a slope's stitches one stitch width along for one row of height; square to the row they stand
    when its slope is width ÷ height."""
    sheet = chart(ZIGZAG)
    slope = degrees(atan2(STITCH, height_of("dc")))
    # The three plain dc between an increase and a decrease, of the last row: they follow each other.
    tops = [top for _, top in stems(sheet)][-37:]
    found = []
    for (x, y), (further, other) in pairwise(tops):
        if 0 < abs(further - x) < STITCH * 1.2:
            found.append(degrees(atan2(abs(other - y), abs(further - x))))
    steepest = sorted(found)[len(found) // 2 :]
    assert sum(steepest) / len(steepest) == pytest.approx(slope, abs=4)


@pytest.mark.parametrize("text", [ZIGZAG, samples()["low-tide-ripple"].read_text(encoding="utf-8")])
def test_stitches_stand_square_to_their_row_and_keep_their_length(text: str) -> None:
    """On the slopes as on the crests: none is stretched to half as long again, and most lean with the row."""
    drawn = stems(chart(text))
    longs = [hypot(top[0] - foot[0], top[1] - foot[1]) for foot, top in drawn]
    assert max(longs) < 1.5 * height_of("dc")
    off = []
    for (foot, top), (_, beside) in pairwise(drawn):
        if 0 < abs(beside[0] - top[0]) < STITCH * 1.2:
            row = atan2(beside[1] - top[1], beside[0] - top[0])
            stem = atan2(top[1] - foot[1], top[0] - foot[0])
            off.append(abs((degrees(stem - row) % 180) - 90))
    assert sorted(off)[len(off) // 2] < 12
    assert sorted(off)[int(len(off) * 0.9)] < 32


def test_the_chain_and_the_first_row_lie_as_the_ripple_does() -> None:
    """And the last row of a ripple, which leans nowhere, lies on it."""
    sheet = chart(ZIGZAG)
    feet = [mark.matrix[5] for mark in sheet.field.marks if isinstance(mark, Use) and mark.symbol == "ch"]
    assert max(feet[:41]) - min(feet[:41]) > 20
    sheet = chart(samples()["low-tide-ripple"].read_text(encoding="utf-8"), Wish(rows=(12, 13)))
    assert max(y for _, (_, y) in stems(sheet, "st-hdc")) > min(y for (_, y), _ in stems(sheet, "st-sc")) + 10


def test_a_mitred_square_bends_at_its_middle_and_a_shawl_at_its_spine() -> None:
    """The square dips where three become one; the shawl, worked from its neck, has its point at the spine."""
    sheet = chart(MITRE)
    last = [foot for foot, _ in stems(sheet, "st-sc")][-16:]
    assert min(y for _, y in last) == pytest.approx(last[0][1], abs=3)
    assert max(last, key=lambda place: place[1]) in last[7:9]
    sheet = chart(samples()["dusk-lane-shawl"].read_text(encoding="utf-8"))
    row = [top for _, top in stems(sheet)]
    highest = min(row, key=lambda place: place[1])
    assert highest[0] == pytest.approx((min(x for x, _ in row) + max(x for x, _ in row)) / 2, abs=3 * STITCH)


@pytest.mark.parametrize("name", ["hearth-mat", "pebble-cloth", "brick-lane-mosaic"])
def test_what_leans_nowhere_is_straight(name: str) -> None:
    """All of a row at one height, so that texture is no wave."""
    sheet = chart(samples()[name].read_text(encoding="utf-8"))
    kind = "st-dc" if name == "hearth-mat" else "st-sc"
    heights: dict[int, int] = {}
    for foot, _ in stems(sheet, kind):
        heights[round(foot[1])] = heights.get(round(foot[1]), 0) + 1
    assert min(heights.values()) > 1
    assert len(heights) <= len(sheet.letters.splitlines()) - 3


def test_shaping_at_the_edges_bends_no_row() -> None:
    """One more at each end of each row: the rows are straight, the edges slant."""
    text = "WEDGE\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n" + "".join(
        f"Row {row}: Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st. ({8 + 2 * row} sc)\n"
        for row in range(2, 9)
    )
    sheet = chart(text)
    for row in range(8):
        first = sum(10 + 2 * nth for nth in range(row))
        own = [foot[1] for foot, _ in stems(sheet, "st-sc")[first : first + 10 + 2 * row]]
        assert max(own) - min(own) < 1


def test_a_wave_of_heights_is_as_high_as_its_stitches() -> None:
    """Stitches that grow and shrink step by step stand at their own height, and the next row fills what is low."""
    sheet = chart(corpus("flat/long_wave_runner"))
    first = {kind: stems(sheet, f"st-{kind}") for kind in ("hdc", "dc", "tr")}
    base = max(foot[1] for foot, _ in first["hdc"])
    tops = {
        kind: {round(base - top[1]) for foot, top in drawn if abs(foot[1] - base) < 1}
        for kind, drawn in first.items()
    }
    assert all(len(found) == 1 for found in tops.values() if found)
    found = [min(values) for values in tops.values() if values]
    assert found == sorted(found)
    assert len(set(found)) > 1


def test_a_lit_row_of_a_ripple_is_lit_along_its_line() -> None:
    """Its ground and its frame rise and fall with it."""
    sheet = chart(ZIGZAG, Wish(at=("4", 3)))
    (ground,) = [mark for mark in sheet.field.marks if isinstance(mark, Shape) and mark.fill == LIT]
    lower = [figures[1] for letter, figures in ground.path if letter != "Z"]
    assert len(lower) > 40
    assert max(lower) - min(lower) > height_of("dc") + 20


@pytest.mark.parametrize("name", ["wild_rose_flower", "ten_petal_doily", "poinsettia_pin"])
def test_petals_round_off_at_their_ends(name: str) -> None:
    """Low stitches at a petal's ends stay low, and few are drawn much longer than they are."""
    sheet = chart(corpus(f"rounds/{name}"))
    rings = sheet.field.rings[-1]
    far: dict[str, list[float]] = {}
    for kind in ("hdc", "dc"):
        drawn = stems(sheet, f"st-{kind}")
        longs = sorted(hypot(top[0] - foot[0], top[1] - foot[1]) for foot, top in drawn)
        assert longs[len(longs) // 2] < 1.5 * height_of(kind), kind
        assert longs[int(len(longs) * 0.7)] < 2 * height_of(kind), kind
        far[kind] = [hypot(top[0] - rings.x, top[1] - rings.y) for _, top in drawn]
    # The outermost petals: their hdc end nearer the middle than their dc.
    assert max(far["dc"]) > max(far["hdc"])


def test_a_fan_in_a_loop_stands_along_it_and_one_in_a_stitch_does_not() -> None:
    """Nine in a loop of five chains have feet of their own; five in one stitch have one."""
    sheet = chart(samples()["frost-ring"].read_text(encoding="utf-8"))
    feet = [(round(x), round(y)) for (x, y), _ in stems(sheet)][-90:]
    assert max(feet.count(foot) for foot in feet) <= 3
    sheet = chart(samples()["orchard-shells"].read_text(encoding="utf-8"))
    feet = [(round(x), round(y)) for (x, y), _ in stems(sheet)]
    assert max(feet.count(foot) for foot in feet) == 5


@pytest.mark.parametrize("name", ["dusk-lane-shawl", "low-tide-ripple"])
def test_on_cut_pages_a_rows_number_stands_where_the_page_cuts_the_row(name: str) -> None:
    """Each page numbers every row that it shows, from the lowest up, found by PDFium's own text search."""
    loaded = load(name, samples()[name].read_text(encoding="utf-8"))
    drawn = charted(loaded.source, loaded.pattern, loaded.fabric)
    edges = [edge for edge in drawn[0].field.edges if edge.text[0].isdigit()]
    assert sum(1 for edge in edges if edge.line) > len(edges) / 2
    document = pypdfium2.PdfDocument(pdf(drawn))
    seen: set[int] = set()
    for page in list(document)[1:]:
        text = page.get_textpage()
        found = []
        for hit in re.finditer(r"\b(\d+) [RW]S\b", text.get_text_range()):
            left, bottom, _, _ = text.get_charbox(hit.start())
            found.append((int(hit[1]), left, bottom))
        assert len(found) > 5
        seen |= {number for number, _, _ in found}
        for side in (min(left for _, left, _ in found), max(left for _, left, _ in found)):
            beside = sorted((bottom, number) for number, left, bottom in found if abs(left - side) < 12)
            assert [number for _, number in beside] == sorted(number for _, number in beside)
    assert seen == {placed.number for _, placed in loaded.fabric.rows()}


def test_a_cut_row_is_numbered_at_its_own_height() -> None:
    """Of a shawl cut beside its spine the word is not where the row ends, far below, but where the page does."""
    sheet = chart(samples()["dusk-lane-shawl"].read_text(encoding="utf-8"))
    (edge,) = [edge for edge in sheet.field.edges if edge.text == "15 RS"]
    xs = [x for x, _ in edge.line]
    assert xs == sorted(xs)
    spine = min(edge.line, key=lambda place: place[1])
    assert edge.at - spine[1] > 10 * STITCH
    left = chart(samples()["dusk-lane-shawl"].read_text(encoding="utf-8"), Wish(left_handed=True))
    (other,) = [edge for edge in left.field.edges if edge.text == "15 RS"]
    assert other.side != edge.side
    assert [left.field.width - x for x, _ in reversed(other.line)] == pytest.approx(xs)


@pytest.mark.parametrize("name", ["shawl_pin_flower_layers", "layered_rosette", "layered_anemone_brooch"])
def test_a_round_worked_behind_petals_stands_on_what_it_was_worked_into(name: str) -> None:
    """Not on the petals that it passes over: no line to a stitch's foot crosses the flower."""
    sheet = chart(corpus(f"rounds/{name}"))
    longs = [
        hypot(mark.path[1][1][0] - mark.path[0][1][0], mark.path[1][1][1] - mark.path[0][1][1])
        for mark in sheet.field.marks
        if isinstance(mark, Shape) and len(mark.path) == 2 and mark.width == 0.6
    ]
    assert longs
    assert max(longs) < sheet.field.rings[-1].radius * 0.75


def test_bobbles_and_puffs_make_no_waves() -> None:
    """A high stitch alone among low ones stands out of a straight row."""
    text = (
        "SPOTS\nCh 26.\nRow 1: Sc in 2nd ch from hook and in each ch across. (25 sc)\n"
        "Row 2: Ch 1, turn, sc in first 2 sts, *puff in next st, sc in next 3 sts; rep from * to last 3 sts, "
        "puff in next st, sc in last 2 sts. (19 sc, 6 puff)\n"
        "Row 3: Ch 1, turn, sc in each st across. (25 sc)\n"
    )
    feet = sorted({round(foot[1]) for foot, _ in stems(chart(text), "st-sc")})
    assert len(feet) == 3


def test_loops_that_are_wider_than_what_they_stand_on_bend_no_row() -> None:
    """Another width all along is no ripple."""
    sheet = chart(corpus("flat/pantry_shelf_lace"))
    assert not any(edge.line for edge in sheet.field.edges)
