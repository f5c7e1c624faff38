"""A chart shows what the words make: squares, stitches over what they were worked into, circles from the centre."""

import re
from itertools import pairwise
from math import atan2, hypot, pi
from pathlib import Path

import pytest
from corpus_cases import CORPUS
from hypothesis import given
from hypothesis import strategies as st

from tracker.charts.chart import NoChart, Wish, charted
from tracker.charts.drawing import Sheet, Use
from tracker.charts.layout.colours import colours_of
from tracker.charts.layout.spread import spread
from tracker.charts.signs.symbols import height_of, parted, symbol_of
from tracker.load import load
from tracker.samples import samples
from tracker.trade.stitches import STITCHES

PLAIN = Wish()
WINDOWS = """WINDOWS
Ch 17.
Row 1 (RS): Dc in 8th ch from hook (skipped chs count as dc and ch-2 sp), dc in next 3 chs, (ch 2, sk next 2 chs, dc in
next ch) twice. (8 dc, 3 ch-2 sps)
Row 2: Ch 3 (counts as dc), turn, 2 dc in next ch-2 sp, dc in next dc, ch 2, sk next ch-2 sp, dc in next dc, ch 2, sk
next 2 dc, dc in next dc, ch 2, sk next ch-2 sp, dc in 5th ch of skipped chs. (7 dc, 3 ch-2 sps)
"""
TRIANGLE = """TRIANGLE
Ch 2.
Row 1: Sc in 2nd ch from hook. (1 sc)
Row 2: Ch 1, turn, 3 sc in next sc. (3 sc)
Row 3: Ch 1, turn, 2 sc in next sc, sc in next sc, 2 sc in next sc. (5 sc)
"""
SPOT = """SPOT
Make a magic ring.
Rnd 1: Ch 1, 6 sc in ring; join with sl st in first sc. (6 sc)
Rnd 2: Ch 1, 2 sc in each sc around; join with sl st in first sc. (12 sc)
Rnd 3: Ch 1, (sc in next sc, 2 sc in next sc) 6 times; join with sl st in first sc. (18 sc)
"""


def sheets(text: str, wish: Wish = PLAIN) -> tuple[Sheet, ...]:
    """The charts of a pattern."""
    loaded = load("the pattern", text)
    return charted(loaded.source, loaded.pattern, loaded.fabric, wish)


def places(sheet: Sheet, symbol: str) -> list[tuple[float, float]]:
    """Where a sign stands, in the order painted."""
    return [mark.matrix[4:] for mark in sheet.field.marks if isinstance(mark, Use) and mark.symbol == symbol]


def test_filet_is_drawn_as_its_squares() -> None:
    """Row 1 begins at the right of the last line; row 2 at the left of the line above."""
    (sheet,) = sheets(WINDOWS)
    assert sheet.letters == "#...\n..#.\n"
    assert [(edge.text, edge.side) for edge in sheet.field.edges if edge.side != "bottom"] == [
        ("2 WS", "left"),
        ("1 RS", "right"),
    ]


def test_the_left_hand_reads_the_mirror_image() -> None:
    """The picture and the sides where rows begin."""
    (sheet,) = sheets(WINDOWS, Wish(left_handed=True))
    assert sheet.letters == "...#\n.#..\n"
    assert {edge.text: edge.side for edge in sheet.field.edges if edge.side != "bottom"} == {
        "1 RS": "left",
        "2 WS": "right",
    }


def test_every_filet_sample_begins_its_rows_where_its_numbers_stand() -> None:
    """Right-side rows at the right, wrong-side rows at the left (common practice, no source)."""
    (sheet,) = sheets(samples()["harbour-windows"].read_text(encoding="utf-8"))
    sides = {edge.text: edge.side for edge in sheet.field.edges if edge.side != "bottom"}
    assert sides["1 RS"] == sides["9 RS"] == "right"
    assert sides["2 WS"] == sides["14 WS"] == "left"


def test_a_stitch_stands_over_what_it_was_worked_into() -> None:
    """Three in one fan out around it, and the whole stays in the middle."""
    (sheet,) = sheets(TRIANGLE)
    rows: dict[float, list[float]] = {}
    for x, y in places(sheet, "st-sc"):
        rows.setdefault(round(y / 12), []).append(x)
    by_height = [sorted(xs) for _, xs in sorted(rows.items(), reverse=True)]
    assert [len(xs) for xs in by_height] == [1, 3, 5]
    middles = [sum(xs) / len(xs) for xs in by_height]
    assert max(middles) - min(middles) < 4


def test_worked_together_stands_on_feet_of_its_own() -> None:
    """Where nothing tells what it goes into: legs apart at the foot, one top, as the standard draws dc2tog."""
    legs = [shape.path for shape in parted("dc2tog") if len(shape.path) == 2 and shape.path[0][1][1] == 0]
    feet = sorted(path[0][1][0] for path in legs)
    tops = {tuple(round(value, 6) for value in path[1][1]) for path in legs}
    assert len(feet) == 2
    assert feet[0] == -feet[1] != 0
    assert tops == {(0.0, -height_of("dc"))}


def test_rounds_are_circles_from_the_centre() -> None:
    """Each round's stitches stand at one distance, further out than the round before, evenly around."""
    (sheet,) = sheets(SPOT)
    x0, y0 = sheet.field.rings[0].x, sheet.field.rings[0].y
    far: dict[int, list[float]] = {}
    for x, y in places(sheet, "st-sc"):
        far.setdefault(round(hypot(x - x0, y - y0) / 8), []).append(atan2(y - y0, x - x0) % (2 * pi))
    counts = [len(turns) for _, turns in sorted(far.items())]
    assert counts == [6, 12, 18]
    turns = sorted(far[max(far)])
    gaps = [b - a for a, b in pairwise(turns)]
    # The chain that begins the round takes a place of its own.
    assert max(sorted(gaps)[:-1]) < 2 * pi / 18 * 1.1


def test_rounds_run_counter_clockwise_for_the_right_hand() -> None:
    """And clockwise for the left (charts in print; common practice, no source)."""
    for left_handed, way in ((False, -1), (True, 1)):
        (sheet,) = sheets(SPOT, Wish(left_handed=left_handed))
        ring = sheet.field.rings[0]
        # The last round is painted last; y goes down, so counter-clockwise is a falling angle.
        turns = [atan2(y - ring.y, x - ring.x) for x, y in places(sheet, "st-sc")[-18:]]
        steps = [(b - a + pi) % (2 * pi) - pi for a, b in pairwise(turns)]
        assert all(step * way > 0 for step in steps)


def test_at_lights_one_row_and_one_place() -> None:
    """By its index, its label, or with a stitch of it; a row that is not there is a sentence."""
    for name in ("2", "row 2", "Row 2"):
        (sheet,) = sheets(WINDOWS, Wish(at=(name, 1)))
        assert [edge.text for edge in sheet.field.edges if edge.lit] == ["2 WS"]
    plain, lit = sheets(WINDOWS)[0], sheets(WINDOWS, Wish(at=("2", 1)))[0]
    assert len(lit.field.marks) > len(plain.field.marks)
    with pytest.raises(NoChart, match="no row 7"):
        sheets(WINDOWS, Wish(at=("7", 0)))


def test_colour_rows_are_drawn_in_their_colours_with_letters() -> None:
    """Rows 5 to 8 of the ripple are B, the others A; so the words say, and so the key."""
    text = samples()["low-tide-ripple"].read_text(encoding="utf-8")
    loaded = load("the pattern", text)
    found = colours_of(loaded.source, loaded.pattern, tuple(loaded.fabric.rows()))
    assert [index for index, letters in found.rows.items() if set(letters) == {"B"}] == [5, 6, 7, 8]
    assert found.names == {"A": "sand", "B": "slate"}
    (sheet,) = sheets(text)
    assert [entry.words for entry in sheet.key][-2:] == ["colour A: sand", "colour B: slate"]
    assert [edge.text for edge in sheet.field.edges].count("B") == 4


def test_colours_counted_within_a_row_are_told_stitch_by_stitch() -> None:
    """ "(A) 2, (B) 3" is two and three."""
    text = "PATCH\nWith A, ch 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. (5)\nRow 2: (A) 2, (B) 3 (5)\n"
    loaded = load("the pattern", text)
    found = colours_of(loaded.source, loaded.pattern, tuple(loaded.fabric.rows()))
    assert "".join(found.rows[2]).replace(" ", "")[-5:] == "AABBB"


@pytest.mark.parametrize(
    "name, colours",
    [
        # Read off the words by hand, row after row.
        ("flat/uk_wave_wrap", "AAAA BBBB AAAA BBBB"),
        ("flat/blo_chevron_color_sequence", "AAA BBB CCC AAA BBB CCC A"),
        ("flat/standing_stitch_blanket_strip", "A BCA BCA BCA BCA"),
        ("flat/harbor_stripe_runner", "AA BB CC AA B CC A BB C AA B CC"),
        ("flat/granny_stripe_lap_rug", "AA BB AA BB AA"),
        ("flat/uk_ripple_cushion", "A AA BB CC AA"),
        ("rounds/endless_granny_blanket", "AA BB CC AA BB C"),
        ("practice/ripple_dc", "AA BB CC AA BB CC AA BB CC"),
    ],
)
def test_colours_that_take_turns_by_a_rule_are_drawn(name: str, colours: str) -> None:
    """ "In colour sequence", "3 rows C, 3 rows A", "changing color every two rows", a sequence stated in the notes."""
    loaded = load(name, (CORPUS / f"{name}.txt").read_text(encoding="utf-8"))
    found = colours_of(loaded.source, loaded.pattern, tuple(loaded.fabric.rows()))
    rows = "".join("".join(dict.fromkeys(letters)) for _, letters in sorted(found.rows.items()))
    assert rows == colours.replace(" ", "")


@pytest.mark.parametrize(
    "kind", [*STITCHES, "dc2tog", "sc3tog", "fpdc", "bpsc", "fptr2tog", "a stitch of its own"]
)
def test_every_stitch_of_the_table_has_a_sign(kind: str) -> None:
    """Also those worked together, around a post, and those only the pattern knows: a box with their name."""
    assert symbol_of(kind).shapes
    assert symbol_of(kind).name.startswith("st-")


@pytest.mark.parametrize("kind, strokes", [("hdc", 0), ("dc", 1), ("tr", 2), ("dtr", 3)])
def test_taller_stitches_have_a_stroke_for_each_yarn_over(kind: str, strokes: int) -> None:
    """One for dc, two for tr, three for dtr; none for hdc (Craft Yarn Council chart symbols, from memory)."""
    across = [shape for shape in symbol_of(kind).shapes if shape.path[0][1][0] < 0 and len(shape.path) == 2]
    assert len(across) == strokes + 1
    """The strokes, and the top."""


@given(st.lists(st.tuples(st.floats(-100, 100), st.floats(0, 20)), min_size=1, max_size=20))
def test_nothing_crowds_its_neighbour(row: list[tuple[float, float]]) -> None:
    """Gaps are kept, the middle stays, and what had room stays where it was."""
    wished, gaps = [wish for wish, _ in row], [gap for _, gap in row[1:]]
    found = spread(wished, gaps)
    for at, gap in enumerate(gaps):
        assert found[at + 1] - found[at] >= gap - 1e-6
    if all(b - a >= gap for a, b, gap in zip(wished, wished[1:], gaps, strict=False)):
        assert found == pytest.approx(wished)
    # Pooled neighbours move to their common middle, so the sum of all places is that of the wishes.
    assert sum(found) == pytest.approx(sum(wished), abs=1e-6)


@pytest.mark.parametrize(
    "text, says",
    [("Dear friend, how are you?", "No row was found"), ("", "No row was found")],
)
def test_what_cannot_be_charted_says_why(text: str, says: str) -> None:
    """In one sentence."""
    with pytest.raises(NoChart) as told:
        sheets(text)
    assert says in str(told.value)
    assert len(re.findall(r"\.(?:\s|$)", str(told.value))) == 1


@pytest.mark.parametrize("file", [pytest.param(file, id=name) for name, file in samples().items()])
def test_every_sample_is_charted_whole(file: Path) -> None:
    """Each row of it has its number on the chart, and every sign used is in the key."""
    loaded = load(file.name, file.read_text(encoding="utf-8"))
    drawn = charted(loaded.source, loaded.pattern, loaded.fabric)
    said = [edge.text for sheet in drawn for edge in sheet.field.edges] + [
        ring.text for sheet in drawn for ring in sheet.field.rings
    ]
    for _, placed in loaded.fabric.rows():
        name = str(placed.number) if placed.number is not None else placed.label
        assert any(words.split(" ")[0] == name or words.startswith(name) for words in said), name
    for sheet in drawn:
        used = {mark.symbol for mark in sheet.field.marks if isinstance(mark, Use)}
        assert used <= {symbol.name for symbol in sheet.symbols}
        assert sheet.key
